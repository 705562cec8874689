"""`twomarks procedures when-it-goes-wrong`: every branch as text, or one of them by its key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twomarks.cli.said import Terminal
from twomarks.planning.help_call import HelpCall, call_first
from twomarks.planning.when_wrong import CardBranch, all_branches
from twomarks.words import Reader, say

if TYPE_CHECKING:
    from twomarks.cli.options import Asking

__all__ = ["GONE_WRONG", "branch_named", "show_branches"]

GONE_WRONG = "when-it-goes-wrong"


def branch_named(name: str) -> tuple[CardBranch, ...]:
    """Return every branch for `when-it-goes-wrong`, the one called `name`, or none."""
    return tuple(one for one in all_branches() if name in (GONE_WRONG, one.key))


def show_branches(asking: Asking, found: tuple[CardBranch, ...], call: HelpCall, reader: Reader) -> None:
    """Say whom to call first, then each branch: what one sees, stop, look, the next mild step, where it ends, what not to do."""
    if asking.as_json:
        from twomarks.exchange.answers.gone_wrong import GoneWrongAnswer, branch_said
        from twomarks.exchange.answers.said import said

        first = tuple(said(line, reader) for line in call_first(call, reader.market))
        Terminal.json(GoneWrongAnswer(on=asking.today(), call_first=first, branches=tuple(branch_said(one, reader) for one in found)))
        return
    terminal = Terminal(reader)
    if any(one.hurt for one in found):
        terminal.heading("wrong.hurt_title")
        for line in call_first(call, reader.market):
            terminal.line(line)
        terminal.line(say("wrong.order"))
        terminal.line(say("wrong.better"))
    for one in found:
        _show(terminal, one)


def _show(terminal: Terminal, branch: CardBranch) -> None:
    terminal.heading("wrong.listed", title=branch.title, name=branch.key)
    terminal.line(branch.sign)
    for name, steps in branch.parts:
        for number, step in enumerate(steps):
            for caution in step.cautions:
                terminal.line(say(f"procedures_answer.{caution.signal}", words=caution.words), mark="!")
            terminal.line(say("wrong.part", part=name, words=step.words) if number == 0 else step.words, mark="-")
            for part, words in (("accept", step.accept), ("reject", step.reject)):
                if words is not None:
                    terminal.line(say(f"procedures_answer.{part}", words=words), indent=5)
    terminal.line(say("wrong.part", part=branch.end, words=branch.give_up), mark="=")
    for line in branch.never:
        terminal.line(line, mark="x")
    terminal.line(branch.rests_on)

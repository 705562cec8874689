"""The back of a job card: what to do when it goes wrong, and when somebody is hurt, as the words of its sheet."""

from __future__ import annotations

from typing import Any

from twomarks.planning.card import JobCard
from twomarks.planning.help_call import HelpCall, call_first
from twomarks.planning.when_wrong import BranchStep, CardBranch, all_branches, of_card
from twomarks.words import Reader, Wording, render, say

__all__ = ["printed_back"]

SAID = ("title", "hurt_title", "never", "as_it_should_be", "if_not", "order", "better", "no_source")


def printed_back(card: JobCard, call: HelpCall, reader: Reader) -> dict[str, Any]:
    """Return what stands on the back: whom to call, what to do for whoever is hurt, and the branches of the card's own steps."""
    number, where = call_first(call, reader.market)
    hurt = tuple(one for one in all_branches() if one.hurt)
    return {
        "say": {name: render(say(f"wrong.{name}"), reader) for name in SAID},
        "call": render(number, reader),
        "where": render(where, reader) if call.address else "",
        "hurt": [_branch(one, reader) for one in hurt],
        "wrong": [_branch(one, reader) for one in of_card(card)],
        "sources": list(
            dict.fromkeys(source.title.partition(" (")[0] for one in hurt for source in one.sources if source.key != "common_practice")
        ),
    }


def _branch(branch: CardBranch, reader: Reader) -> dict[str, Any]:
    return {
        "title": branch.title,
        "sign": render(branch.sign, reader),
        "parts": [[render(name, reader), [_step(step, reader) for step in steps]] for name, steps in branch.parts],
        "end": render(branch.end, reader),
        "give_up": render(branch.give_up, reader),
        "never": [render(line, reader) for line in branch.never],
        "source": render(branch.rests_on, reader) if any(one.key != "common_practice" for one in branch.sources) else "",
    }


def _step(step: BranchStep, reader: Reader) -> dict[str, Any]:
    return {
        "words": render(step.words, reader),
        "cautions": [{"signal": one.signal, "words": render(one.words, reader)} for one in step.cautions],
        "accept": _text(step.accept, reader),
        "reject": _text(step.reject, reader),
    }


def _text(words: Wording | None, reader: Reader) -> str:
    return "" if words is None else render(words, reader)

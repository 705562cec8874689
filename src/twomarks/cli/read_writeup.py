"""`twomarks read-writeup`: a plain write-up becomes a draft procedure, and a list of what could not be placed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, read_file
from twomarks.cli.said import Terminal
from twomarks.words import Reader, say

if TYPE_CHECKING:
    from twomarks.procedures.write_ups import DraftedWriteUp

__all__ = ["read_writeup"]


@click.command("read-writeup")
@click.argument("file", type=click.Path(path_type=Path), metavar="FILE.txt")
@click.option("--market", type=click.Choice(["metric", "uk", "us", "au"]), help="Whose quarts, pints and gallons they are.")
@click.option("--to", "target", type=click.Path(path_type=Path), metavar="FILE.toml", help="Write the draft to this file.")
@asks
def read_writeup(asking: Asking, file: Path, market: str | None, target: Path | None) -> None:
    """Read a plain write-up (a list, prose, or spoken text) and draft a procedure from it.

    Each step keeps the sentence it came from. What was not understood is not guessed: it stays open in the draft, and
    twomarks rehearse tells it. Figures in the words never become amounts; they are listed for the vehicle sheet. A file
    of more than 1 MB, with control characters, or with more than 10,000 sentences or 2,000 steps is refused.
    """
    from twomarks.procedures.write_ups import drafted

    draft = drafted(read_file(file, limit_mb=1), where=str(file), market=market)
    reader = Reader() if market is None else Reader.of(market)
    if target is not None:
        from twomarks.exchange.written import write_whole

        write_whole(target, draft.text.encode("utf-8"))
    if asking.as_json:
        from twomarks.exchange.answers.read_write_up import read_write_up_answer

        Terminal.json(read_write_up_answer(asking.today(), draft, reader, file="" if target is None else str(target)))
        return
    _say(draft, Terminal(reader), target)


def _say(draft: DraftedWriteUp, terminal: Terminal, target: Path | None) -> None:
    actions = sum(action != "undecided" for one in draft.steps for action, _ in one.actions)
    terminal.heading("read_write_up.head", title=draft.procedure.title, steps=len(draft.steps), actions=actions)
    for one in draft.steps:
        done = tuple(say("read_write_up.action", action=action, thing=thing.replace("_", " ")) for action, thing in one.actions)
        terminal.line(say("read_write_up.step", line=one.line, step=one.id, actions=done))
        terminal.line(say("read_write_up.sentence", sentence=one.said), indent=6)
    if draft.read.unplaced:
        terminal.heading("read_write_up.unplaced", count=len(draft.read.unplaced))
        terminal.lines(
            (say("read_write_up.told", line=one.line, sentence=one.text, what=one.reason) for one in draft.read.unplaced), indent=2
        )
    if draft.read.questions:
        terminal.heading("read_write_up.questions")
        terminal.lines(
            (say("read_write_up.told", line=one.line, sentence=one.text, what=one.what) for one in draft.read.questions), indent=2
        )
    if draft.figures:
        terminal.heading("read_write_up.figures")
        terminal.lines(
            (say("read_write_up.figure", line=one.line, figure=one.typed.text, path=one.path) for one in draft.figures), indent=2
        )
    if draft.read.tools:
        terminal.heading("read_write_up.tools")
        terminal.lines(draft.read.tools, indent=2)
    if draft.read.asides:
        terminal.heading("read_write_up.asides")
        terminal.lines((say("read_write_up.aside", line=one.line, sentence=one.text) for one in draft.read.asides), indent=2)
    if target is not None:
        terminal.line(say("read_write_up.written", file=str(target)))
    terminal.line(say("read_write_up.next"))

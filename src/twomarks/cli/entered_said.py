"""What `enter` answers: what was kept, what it calls for, what to check later, and when the work is due again."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks import units
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.cli.entering import Told
    from twomarks.cli.said import Terminal
    from twomarks.keeping.scope import Scope
    from twomarks.keeping.services.entered import Entered, EnteredKept
    from twomarks.keeping.services.worked import Worked
    from twomarks.keeping.values import FollowUp
    from twomarks.planning.due import DueItem
    from twomarks.planning.preparation import Preparation

__all__ = ["Answered", "Work", "answer_of", "say_entered"]


@dataclass(frozen=True, slots=True)
class Work:
    """The work that is entered, what was prepared for it, and the oil that was named."""

    worked: Worked
    prepared: Preparation
    product: str | None


@dataclass(frozen=True, slots=True)
class Answered:
    """What follows from what was entered."""

    asked: tuple[FollowUp, ...]
    changed: tuple[DueItem, ...]
    advice: tuple[Message, ...]


def answer_of(scope: Scope, told: Told, entered: Entered, kept: EnteredKept, today: dt.date, work: Work | None) -> Answered:
    """Return what follows: the checks that were asked for, the items that moved, and advice where no item answers an event."""
    from twomarks.keeping import questions
    from twomarks.planning.due.events import unanswered
    from twomarks.planning.general import with_general

    sheet, _ = with_general(told.sheet, done={}, answers={}, today=today)
    events = {event.event for event in entered.events}
    touched = set(work.worked.items) if work else set()
    touched |= {one.item for one in entered.measurements}
    touched |= {key for key, item in sheet.items.items() if events & set(item.event)}
    after = questions.due(scope, told.vehicle, today)
    return Answered(
        asked=questions.follow_ups(scope, told.vehicle, still_open=True) if kept.work else (),
        changed=tuple(one for one in after if one.item in touched),
        advice=tuple(advice for event in sorted(events) if (advice := unanswered(event, sheet)) is not None),
    )


def say_entered(
    terminal: Terminal,
    scope: Scope,
    told: Told,
    entered: Entered,
    kept: EnteredKept,
    answer: Answered,
    today: dt.date,
    work: Work | None,
) -> None:
    """Say what was kept, what of it needs a look, what to check later and when the work is due again."""
    if kept.work is not None:
        terminal.line(say("enter.kept", vehicle=told.vehicle, number=kept.work.number, chain=kept.work.chain[:16]), indent=0)
    if work is not None:
        _say_oil(terminal, work)
    rest = kept.rows
    if entered.reading is not None and len(rest) == 1:
        _say_reading(terminal, scope, told, rest[0].number, today)
    elif rest:
        terminal.line(say("enter.rows", vehicle=told.vehicle, numbers=tuple(row.number for row in rest), count=len(rest)), indent=0)
    for snag, row in zip(entered.snags, rest[len(rest) - len(entered.snags) - len(entered.quotes) :], strict=False):
        terminal.line(say("enter.snag", what=snag.what, number=row.number), indent=0)
    if entered.answers:
        terminal.line(say("enter.answers", count=len(entered.answers)), indent=0)
    terminal.lines(answer.advice, indent=0)
    if answer.asked:
        terminal.heading("enter.follow_ups")
    for follow_up in answer.asked:
        at = None if follow_up.due_odometer_steps is None else Figure(units.from_steps(follow_up.due_odometer_steps, kind="distance"), "km")
        terminal.line(say("enter.follow_up", words=follow_up.words, day=follow_up.due_day, at=at), mark="-")
    if answer.changed:
        from twomarks.cli.due import say_due

        terminal.heading("enter.due_again" if kept.work else "enter.due_now")
        say_due(terminal, answer.changed)


def _say_oil(terminal: Terminal, work: Work) -> None:
    judged = next((oil for oil in work.prepared.job.oils if oil.key == work.product), None)
    if judged is not None and judged.verdict.state != "meets":
        verdict = say(f"prepare.verdict_{judged.verdict.state.replace(' ', '_')}")
        terminal.line(say("enter.oil", oil=judged.name, verdict=verdict), indent=0)
        terminal.lines((*judged.verdict.reasons[:1], *judged.verdict.settles[:1]))


def _say_reading(terminal: Terminal, scope: Scope, told: Told, number: int, today: dt.date) -> None:
    """Say that an odometer reading was kept, and where the counter probably stands now."""
    from twomarks.cli.due import say_counter
    from twomarks.keeping import questions

    seen = questions.outlook(scope, told.vehicle, today)
    reading = Figure(units.from_steps(told.odometer_steps or 0, kind="distance"), "km")
    terminal.line(say("enter.reading", vehicle=told.vehicle, reading=reading, number=number), indent=0)
    say_counter(terminal, seen.history, seen.forecast)

"""Workdays, their frozen cards, and how far they have come."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Literal
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping.card_text import card_of
from twomarks.keeping.questions.values import current, events
from twomarks.keeping.records.entries import EntryRow
from twomarks.keeping.records.workdays import CardRow, TickRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.keeping.values import Workday, WorkdayState
from twomarks.model.ledger import FilledFigure, Tick
from twomarks.planning.card import JobCard

__all__ = ["StepState", "card", "filled_figures", "progress", "ticks", "workday", "workdays"]

StepState = Literal["to do", "done", "left out"]
_BY_TICK: Mapping[str, StepState] = {"done": "done", "undone": "to do", "left out": "left out"}


@question
def workdays(scope: Scope) -> tuple[Workday, ...]:
    """Return the workdays that were started, newest first."""
    rows = CardRow.objects.filter(household=scope.household).select_related("workday", "vehicle").order_by("-workday__day", "-id")
    return tuple(_workday(scope, row) for row in rows)


@question
def workday(scope: Scope, card: UUID | str) -> Workday:
    """Return the workday of a card."""
    return _workday(scope, _row(scope, card))


@question
def card(scope: Scope, card: UUID | str) -> JobCard:
    """Return a card as it was frozen."""
    return card_of(_row(scope, card).text)


@question
def ticks(scope: Scope, card: UUID | str) -> tuple[Tick, ...]:
    """Return what was marked on a card, in the order in which it was taken in."""
    found = events(Tick, current(scope, TickRow, card=_row(scope, card)))
    return tuple(sorted(found, key=lambda tick: tick.number))


@question
def filled_figures(scope: Scope, card: UUID | str) -> tuple[FilledFigure, ...]:
    """Return the figures that were taken down on a card, each as it was typed last."""
    last: dict[str, str] = {}
    for tick in ticks(scope, card):
        name, colon, text = tick.words.partition(": ")
        if tick.what == "figure" and colon:
            last[name] = text
    return tuple(FilledFigure(what=name, text=text) for name, text in last.items())


@question
def progress(scope: Scope, card: UUID | str) -> Mapping[str, StepState]:
    """Return the state of each step and gate of a card, by the last tick that marks it."""
    row = _row(scope, card)
    return _progress(card_of(row.text), ticks(scope, row.public_id))


def _progress(card: JobCard, marked: Iterable[Tick]) -> dict[str, StepState]:
    states: dict[str, StepState] = dict.fromkeys([*(step.id for step in card.steps), *(gate.id for gate in card.gates)], "to do")
    for tick in marked:
        if tick.what in _BY_TICK and tick.target in states:
            states[tick.target] = _BY_TICK[tick.what]
    return states


def _row(scope: Scope, card: UUID | str) -> CardRow:
    try:
        row = CardRow.objects.filter(household=scope.household, public_id=UUID(str(card))).select_related("workday", "vehicle").first()
    except ValueError:
        row = None
    if row is None:
        raise InputError("keeping.card_unknown", found=str(card))
    return row


def _workday(scope: Scope, row: CardRow) -> Workday:
    marked = ticks(scope, row.public_id)
    state = _state(scope, row, marked)
    return Workday(row.workday.public_id, row.workday.day, row.public_id, row.vehicle.name, row.title, state, _set_aside(marked))


def _state(scope: Scope, row: CardRow, marked: Iterable[Tick]) -> WorkdayState:
    if current(scope, EntryRow, card=row).exists():
        return "entered"
    states = _progress(card_of(row.text), marked)
    return "started" if "to do" in states.values() else "closed up"


def _set_aside(marked: Iterable[Tick]) -> str:
    """Return why the card as a whole was set aside, "" where it was not, or was taken up again."""
    words = ""
    for tick in marked:
        if not tick.target and tick.what in ("set aside", "undone"):
            words = tick.words if tick.what == "set aside" else ""
    return words

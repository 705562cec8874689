"""The answer of `enter`: the entry that was kept, what to check later, and when the work is due again."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks import units
from twomarks.exchange.answers.due import DueItemSaid, due_item_said
from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.keeping.values import FollowUp, Kept
from twomarks.planning.due import DueItem
from twomarks.words import Reader

__all__ = ["EnterAnswer", "FollowUpSaid", "enter_answer"]


class FollowUpSaid(Part):
    """A check that is asked for later: on a day, at an odometer figure, or whichever comes first."""

    words: Said
    due_on: dt.date | None = None
    due_at_km: float | None = None


class EnterAnswer(Answer):
    """The answer of `enter`."""

    format: Literal["twomarks/answer/enter/1"] = "twomarks/answer/enter/1"
    vehicle: str
    entry: str = Field(default="", description="the entry of work; empty where only something beside work was entered")
    number: int | None = Field(default=None, description="the row of the entry, else the last row that was kept")
    chain: str = ""
    rows: tuple[int, ...] = Field(default=(), description="the rows kept beside the entry: events, readings, measurements, snags, quotes")
    follow_ups: tuple[FollowUpSaid, ...] = ()
    due_again: tuple[DueItemSaid, ...] = ()


def enter_answer(
    on: dt.date,
    vehicle: str,
    kept: Kept | None,
    asked: tuple[FollowUp, ...],
    changed: tuple[DueItem, ...],
    reader: Reader,
    *,
    work: bool = True,
    rows: tuple[int, ...] = (),
) -> EnterAnswer:
    """Return the answer; `work` says that what was kept last is an entry of work."""
    return EnterAnswer(
        on=on,
        vehicle=vehicle,
        entry=str(kept.root) if kept is not None and work else "",
        number=None if kept is None else kept.number,
        chain="" if kept is None else kept.chain,
        rows=rows,
        follow_ups=tuple(
            FollowUpSaid(
                words=said(one.words, reader),
                due_on=one.due_day,
                due_at_km=None if one.due_odometer_steps is None else units.from_steps(one.due_odometer_steps, kind="distance"),
            )
            for one in asked
        ),
        due_again=tuple(due_item_said(one, reader) for one in changed),
    )

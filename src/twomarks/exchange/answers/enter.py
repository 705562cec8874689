"""The answer of `enter`: the entry that was kept, what to check later, and when the work is due again."""

from __future__ import annotations

import datetime as dt
from typing import Literal

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
    entry: str
    number: int
    chain: str
    follow_ups: tuple[FollowUpSaid, ...] = ()
    due_again: tuple[DueItemSaid, ...] = ()


def enter_answer(
    on: dt.date, vehicle: str, kept: Kept, asked: tuple[FollowUp, ...], changed: tuple[DueItem, ...], reader: Reader
) -> EnterAnswer:
    """Return the answer."""
    return EnterAnswer(
        on=on,
        vehicle=vehicle,
        entry=str(kept.root),
        number=kept.number,
        chain=kept.chain,
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

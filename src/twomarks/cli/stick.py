"""A reading on the stick as it is typed, and what follows from it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from twomarks.errors import InputError
from twomarks.units.number import split_number
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.keeping.values import Daybook
    from twomarks.trade.add_table import AddRow

__all__ = ["Advice", "StickReading", "advice", "rise_since", "stick_reading"]

LOWEST, HIGHEST = -1, 3
ROSE_PERMILLE = 125
"""An eighth of the span: about what a stick can be read to; common practice, no source."""
BESIDE_PERMILLE = 1
"""How far outside a mark a reading is kept of which only the side was said."""
_BESIDE: Mapping[str, int] = {"below": -BESIDE_PERMILLE, "above": 1000 + BESIDE_PERMILLE}


@dataclass(frozen=True, slots=True)
class StickReading:
    """A reading in thousandths of the span; `side` where only the side of the marks was said."""

    permille: int
    typed: str
    side: Literal["", "below", "above"] = ""

    @property
    def fraction(self) -> float:
        """The reading as a fraction of the span: 0 the lower mark, 1 the upper one."""
        return self.permille / 1000


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do for a reading: litres to add (negative: to take out, None: the stick decides), and the sentences."""

    add_l: float | None
    start: bool
    then: Literal["done", "read again"]
    what: tuple[Message, ...]


def stick_reading(text: str, *, decimal: str | None) -> StickReading:
    """Return the reading typed as a fraction, a share of a hundred, "below" or "above"."""
    typed = text.strip()
    side = typed.casefold()
    if side in ("below", "above"):
        return StickReading(_BESIDE[side], typed, side)  # type: ignore[arg-type]
    value, unit = split_number(typed, decimal=decimal, where="READING", example="1/2, 0.5, 50%, below")
    if unit not in ("", "%"):
        raise InputError("level_answer.reading", where="READING", found=typed, example="1/2, 0.5, 50%, below")
    share = value / 100 if unit else value
    if not LOWEST <= share <= HIGHEST:
        raise InputError("level_answer.reading", where="READING", found=typed, example="1/2, 0.5, 50%, below")
    return StickReading(round(share * 1000), typed)


def advice(read: StickReading, rows: tuple[AddRow, ...], *, span: Figure | None, too_soon: Message | None = None) -> Advice:
    """Return what to do for a reading, by the add table of the circuit; without the span the stick decides.

    A reading that was taken `too_soon` reads low, so that nothing is added for it. A reading between two rows takes the
    higher row: less is added, or more taken out, than by the lower one.
    """
    if read.side == "above":
        return Advice(None, False, "read again", (say("level_answer.above"), say("level_answer.say_how_far")))
    if too_soon is not None and read.permille <= 1000:
        start = read.permille >= 0
        return Advice(None, start, "read again", (too_soon, *_no_start(start)))
    if not rows or span is None:
        if read.permille > 1000:
            return Advice(None, False, "read again", (say("level_answer.out_unknown"),))
        start = read.permille >= 0
        parts = [say("level_answer.add_unknown")] if read.permille < 900 else [say("level_answer.enough")]
        return Advice(None, start, "read again" if read.permille < 900 else "done", tuple(parts + _no_start(start)))
    at = max(0.0, read.fraction)
    row = next((one for one in rows if one.reading_fraction >= at - 1e-9), rows[-1])
    start = row.start and read.permille >= 0
    then = "read again" if read.permille < 0 or row.then == "read again" else "done"
    return Advice(row.add_l, start, then, (_amount(row, span), *_again(then), *_no_start(start)))  # type: ignore[arg-type]


def _amount(row: AddRow, span: Figure) -> Message:
    if row.add_l < 0:
        return say("level_answer.take_out", volume=Figure(-row.add_l, "L"), span=span)
    if row.add_l > 0:
        return say("level_answer.add", volume=Figure(row.add_l, "L"), span=span)
    return say("level_answer.enough")


def _again(then: str) -> list[Message]:
    return [say("level_answer.read_again")] if then == "read again" else []


def _no_start(start: bool) -> list[Message]:
    return [] if start else [say("level_answer.no_start")]


def rise_since(daybook: Daybook, read: StickReading, circuit: str) -> Message | None:
    """Return that the level stands higher than at the last check with nothing added or done since, else None."""
    last = next((one for one in daybook.level_checks if one.circuit == circuit), None)
    if last is None or read.permille < last.permille + ROSE_PERMILLE:
        return None
    added = any(one.circuit == circuit and one.day >= last.day for one in daybook.top_ups)
    worked = any(one.day >= last.day for one in daybook.entries)
    if added or worked:
        return None
    return say("level_answer.rose", day=last.day, before=Figure(last.permille / 10, "%"), now=Figure(read.permille / 10, "%"))

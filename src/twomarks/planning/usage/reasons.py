"""Why a reading is doubted: the most telling explanation that its neighbours allow."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from twomarks.model.ledger import Reading
from twomarks.units import KINDS
from twomarks.words import Figure, Message, say

__all__ = ["reason_of", "replaced_reason"]

MILE_KM = 1.609344
WHOLE = 0.06
FAR_APART = 0.5


def reason_of(
    reading: Reading, before: Reading | None, after: Reading | None, ceiling: float, *, future_after: dt.date | None = None
) -> Message:
    """Return why `reading` is left out, seen against the trusted readings `before` and `after` it.

    `ceiling` is the highest value that would be credible at that day, in the core unit.
    """
    value = _figure(reading)
    if future_after is not None:
        return say("usage.future", reading=value, day=reading.day, today=future_after)
    if reading.steps <= 0:
        return say("usage.zero", reading=value, day=reading.day)
    floor = before.value if before is not None else 0.0
    near = before if before is not None else after
    if near is not None and ceiling != float("inf"):
        meant = _meant(reading, floor, ceiling)
        if meant is not None:
            key, figure = meant
            return say(key, reading=value, day=reading.day, meant=figure, last=_figure(near), last_day=near.day)
    if before is not None and reading.value < before.value:
        return say("usage.step_back", reading=value, day=reading.day, last=_figure(before), last_day=before.day)
    if before is not None and (after is None or reading.value > ceiling):
        days = max(1, (reading.day - before.day).days)
        step = Figure(reading.value - before.value, KINDS[reading.kind].core)
        return say("usage.jump", reading=value, day=reading.day, step=step, days=days, last=_figure(before), last_day=before.day)
    if after is not None:
        return say("usage.before_the_rest", reading=value, day=reading.day, next=_figure(after), next_day=after.day)
    return say("usage.alone", reading=value, day=reading.day)


def replaced_reason(reading: Reading, *, last: Reading, first: Reading) -> Message:
    """Return why `reading` is left out: the counter went on from `first`, below the `last` before, and kept running."""
    return say("usage.replaced", reading=_figure(reading), day=reading.day, last=_figure(last), first=_figure(first), first_day=first.day)


def _meant(reading: Reading, floor: float, ceiling: float) -> tuple[str, Figure] | None:
    """Return what the reading may have been meant to be: a digit dropped or doubled, or the other unit."""
    for key, meant in _candidates(reading):
        if floor <= meant <= ceiling:
            return key, Figure(meant, KINDS[reading.kind].core)
    return None


def _candidates(reading: Reading) -> Iterator[tuple[str, float]]:
    factors = (1.0, MILE_KM) if reading.kind == "distance" else (1.0,)
    for factor in factors:
        typed = reading.value / factor
        if abs(typed - round(typed)) > WHOLE:
            continue
        digits = str(round(typed))
        for i, digit in enumerate(digits[1:], 1):
            if digit == digits[i - 1] and len(digits) > 1:
                yield "usage.digit_doubled", float(digits[:i] + digits[i + 1 :]) * factor
    for factor in factors:
        typed = reading.value / factor
        if abs(typed - round(typed)) > WHOLE:
            continue
        digits = str(round(typed))
        for i in range(len(digits) + 1):
            for extra in "0123456789" if i else "123456789":
                yield "usage.digit_dropped", float(digits[:i] + extra + digits[i:]) * factor
    if reading.kind == "distance":
        yield "usage.unit_mixup", reading.value * MILE_KM
        yield "usage.unit_mixup", reading.value / MILE_KM


def _figure(reading: Reading) -> Figure:
    return Figure(reading.value, KINDS[reading.kind].core)

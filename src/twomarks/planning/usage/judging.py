"""Which readings to trust: every doubtful one is kept, flagged with its reason, left out of the fit, and can be confirmed."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.model.ledger import Reading
from twomarks.planning.usage.chain import longest_chain
from twomarks.planning.usage.reasons import reason_of, replaced_reason
from twomarks.units import KINDS
from twomarks.words import Message

__all__ = ["Flag", "History", "Pace", "judge", "pace_of", "value_of"]

FEW = 3
SETTLED = 4


@dataclass(frozen=True, slots=True)
class Flag:
    """A doubtful reading: its reason as a message, and the reason's key ("usage.zero")."""

    reading: Reading
    reason: Message
    key: str


@dataclass(frozen=True, slots=True)
class History:
    """The readings of one counter after judging.

    `clean` are those that the fit uses, by day, at most one a day; `flags` the doubtful ones; `breaks` the indices in
    `clean` at which a run begins anew (a replaced counter, or a step that nobody could have driven in between).
    """

    clean: tuple[Reading, ...]
    flags: tuple[Flag, ...]
    used: int
    breaks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast a counter can run: at most, on a few very full days, and day by day over weeks [core units a day]."""

    at_most: float
    full_day: float
    sustained: float


# Judgement, no source: 3000 km is two drivers for a whole day; few vehicles do more than 600 km day by day for weeks.
_PACES = {"distance": Pace(3000.0, 1500.0, 600.0), "duration": Pace(1440.0, 1440.0, 1440.0), "volume": Pace(3000.0, 1000.0, 400.0)}
FULL_DAYS = 3
ROUNDING = 10.0
"""People round what they write in a daybook to tens; common practice, no source [core units]."""
TIMES_USUAL = 10.0
LEAST_SUSTAINED = 0.25


def pace_of(kind: str) -> Pace:
    """Return how fast a counter of `kind` can run; a kind without a limit of its own never looks too fast."""
    return _PACES.get(kind, Pace(1e12, 1e12, 1e12))


def judge(readings: Sequence[Reading], *, today: dt.date) -> History:
    """Return the history of one counter: what to trust, what is doubtful and why.

    Of several readings on one day the last that fits is used, or the last one the owner confirmed, without a flag for the
    others, nor for one that was only rounded. A reading the owner has
    confirmed is never flagged, unless it lies in the future.
    """
    ordered = sorted(readings, key=lambda reading: (reading.day, reading.number))
    future = [reading for reading in ordered if reading.day > today]
    past = [reading for reading in ordered if reading.day <= today]
    pace = pace_of(past[0].kind if past else "")
    kept, breaks = _trusted(past, pace)
    chosen = set(kept)
    trusted = {past[i].day: past[i].value for i in kept}
    replaced = _replaced(past, kept, pace)
    flags = [
        Flag(past[i], reason := replaced.get(i) or reason_of(past[i], *_around(past, kept, i, pace)), reason.key)
        for i in range(len(past))
        if i not in chosen and abs(past[i].value - trusted.get(past[i].day, float("inf"))) > ROUNDING
    ]
    flags += [Flag(reading, reason := reason_of(reading, None, None, 0.0, future_after=today), reason.key) for reading in future]
    return _last_of_each_day(past, kept, breaks, flags)


def _trusted(past: Sequence[Reading], pace: Pace) -> tuple[list[int], set[int]]:
    """Return the indices of the readings to trust, and those among them at which a run begins anew."""
    points = _points(past)
    kept: list[int] = []
    breaks: set[int] = set()
    start = 0
    for index in range(len(past) + 1):
        at_end = index == len(past)
        if not at_end and not (past[index].confirmed and index > start):
            continue
        chain = _chain(past, points, start, index, pace)
        if not at_end and chain and _agree(points[chain[-1]], points[index], pace):
            continue
        if at_end or chain:
            if start:
                breaks.add(chain[0] if chain else start)
            kept += chain
            start = index
    return kept, _and_unbelievable_steps(past, points, kept, breaks, pace)


def _chain(past: Sequence[Reading], points: Sequence[tuple[float, float]], start: int, end: int, pace: Pace) -> list[int]:
    possible = [i for i in range(start, end) if past[i].confirmed or past[i].steps > 0 or (i == start == 0)]
    chain = longest_chain([points[i] for i in possible], per_day=pace.at_most, must=[past[i].confirmed for i in possible])
    return [possible[i] for i in chain]


def _and_unbelievable_steps(
    past: Sequence[Reading], points: Sequence[tuple[float, float]], kept: list[int], breaks: set[int], pace: Pace
) -> set[int]:
    """Take out of `kept` the few readings beyond a step that is possible but not credible; return all breaks."""
    searching = True
    while searching and len(kept) > 1:
        searching = False
        # Whole days, so that it makes no difference which of several readings of a day are there.
        whole = {i: (math.floor(points[i][0]), points[i][1]) for i in kept}
        sustained = _sustained([whole[i] for i in kept], pace)
        for place in range(1, len(kept)):
            i, j = kept[place - 1], kept[place]
            if j in breaks or whole[j][1] - whole[i][1] <= _credible(whole[j][0] - whole[i][0], pace, sustained):
                continue
            after, before = kept[place:], kept[:place]
            later, earlier = (len({past[k].day for k in some}) for some in (after, before))
            if later < FEW and later <= earlier and not any(past[k].confirmed for k in after):
                del kept[place:]
            elif earlier < FEW and earlier < later and not any(past[k].confirmed for k in before):
                del kept[:place]
            else:
                breaks.add(j)
            searching = True
            break
    return {i for i in breaks if i in kept[1:]}


def _replaced(past: Sequence[Reading], kept: Sequence[int], pace: Pace) -> dict[int, Message]:
    """Return the reason of doubtful readings that are a run of their own, lower and later, as of a counter put in new."""
    if not kept:
        return {}
    chosen = set(kept)
    found: dict[int, Message] = {}
    after = [i for i in range(kept[-1] + 1, len(past)) if i not in chosen]
    if _a_run(past, after, pace) and value_of(past[after[0]]) < value_of(past[kept[-1]]):
        found |= {i: replaced_reason(past[i], last=past[kept[-1]], first=past[after[0]]) for i in after}
    before = [i for i in range(kept[0]) if i not in chosen]
    if _a_run(past, before, pace) and value_of(past[before[-1]]) > value_of(past[kept[0]]):
        found |= {i: replaced_reason(past[i], last=past[before[-1]], first=past[kept[0]]) for i in before}
    return found


def _a_run(past: Sequence[Reading], members: Sequence[int], pace: Pace) -> bool:
    """Return whether these are more than a few readings that could all be true together."""
    if len(members) <= FEW or any(past[i].steps < 0 for i in members):
        return False
    points = _points([past[i] for i in members])
    return all(_agree(first, second, pace) for first, second in itertools.pairwise(points)) and points[-1][1] > points[0][1]


def _points(past: Sequence[Reading]) -> list[tuple[float, float]]:
    """Return day and value of each reading; those of one day follow each other within that day."""
    points = []
    for _, group in itertools.groupby(past, key=lambda reading: reading.day):
        members = list(group)
        points += [(reading.day.toordinal() + i / (2 * len(members)), value_of(reading)) for i, reading in enumerate(members)]
    return points


def value_of(reading: Reading) -> float:
    """Return the reading in the core unit of its kind, as `Reading.value` does, fit for thousands of them."""
    step = KINDS[reading.kind].step
    return reading.steps * step.numerator / step.denominator


def _agree(first: tuple[float, float], second: tuple[float, float], pace: Pace) -> bool:
    step = second[1] - first[1]
    return 0 <= step <= pace.at_most * (second[0] - first[0])


def _sustained(points: Sequence[tuple[float, float]], pace: Pace) -> float:
    """Return what this vehicle may do day by day, from its own usual rate once a few stretches are known."""
    rates = [(v - u) / (d - c) for (c, u), (d, v) in itertools.pairwise(points) if d - c >= 1 and v > u]
    if len(rates) < SETTLED:
        return pace.sustained
    return min(pace.sustained, max(LEAST_SUSTAINED * pace.sustained, TIMES_USUAL * sorted(rates)[len(rates) // 2]))


def _credible(days: float, pace: Pace, sustained: float) -> float:
    full = min(max(days, 0.5), FULL_DAYS)
    return full * pace.full_day + max(0.0, days - FULL_DAYS) * sustained


def _around(past: Sequence[Reading], kept: Sequence[int], index: int, pace: Pace) -> tuple[Reading | None, Reading | None, float]:
    """Return the trusted readings before and after a doubtful one, and the highest value that would be credible."""
    before = max((i for i in kept if i < index), default=None)
    after = min((i for i in kept if i > index), default=None)
    ceiling = float("inf")
    if before is not None:
        days = (past[index].day - past[before].day).days
        ceiling = past[before].value + _credible(days, pace, _sustained(_points([past[i] for i in kept]), pace))
    if after is not None:
        ceiling = min(ceiling, past[after].value)
    return (None if before is None else past[before], None if after is None else past[after], ceiling)


def _last_of_each_day(past: Sequence[Reading], kept: list[int], breaks: set[int], flags: list[Flag]) -> History:
    clean: list[Reading] = []
    starts: list[int] = []
    for i in kept:
        if clean and clean[-1].day == past[i].day:
            if past[i].confirmed or not clean[-1].confirmed:
                clean[-1] = past[i]
        else:
            clean.append(past[i])
        if i in breaks and len(clean) > 1:
            starts.append(len(clean) - 1)
    ordered = tuple(sorted(flags, key=lambda flag: (flag.reading.day, flag.reading.number)))
    return History(tuple(clean), ordered, len(clean), tuple(dict.fromkeys(starts)))

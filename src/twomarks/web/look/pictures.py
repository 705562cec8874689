"""Pictures as plain positions: a range lying in time, a stick standing between its two marks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from twomarks.words import Reader
from twomarks.words.render import MONTHS

__all__ = ["Label", "LyingRange", "Stick", "Timescale", "lying_range", "short_day", "stick", "timescale"]

EDGE = 0.22
NEAR_DAYS = 300


@dataclass(frozen=True, slots=True)
class Timescale:
    """The span of days that one or several pictures share."""

    first: dt.date
    last: dt.date

    def share(self, day: dt.date) -> float:
        """Return where `day` lies on the line [%], held between its ends."""
        whole = max((self.last - self.first).days, 1)
        return round(min(max((day - self.first).days / whole, 0.0), 1.0) * 100, 2)


@dataclass(frozen=True, slots=True)
class Label:
    """A word at a place on the line; `anchor` is the side of the word that stands there."""

    at: float
    text: str
    anchor: str


@dataclass(frozen=True, slots=True)
class LyingRange:
    """A window of time: two marks, hatch between, the middle estimate, today."""

    low: float | None
    high: float | None
    middle: float | None
    now: Label
    labels: tuple[Label, ...]

    @property
    def width(self) -> float:
        """The width of the hatch [%]."""
        return round((self.high or 0.0) - (self.low or 0.0), 2)


def timescale(days: Iterable[dt.date | None], *, today: dt.date) -> Timescale:
    """Return a scale on which all `days` and today stand away from the edges."""
    known = [day for day in days if day is not None] + [today]
    first, last = min(known), max(known)
    edge = dt.timedelta(days=max(round((last - first).days * EDGE / (1 - 2 * EDGE)), 14))
    return Timescale(first - edge, last + edge)


def short_day(day: dt.date, *, today: dt.date, reader: Reader) -> str:
    """Return a day as it stands at a mark: the year only where it is not plain."""
    month = MONTHS[day.month - 1][:3]
    if abs((day - today).days) > NEAR_DAYS:
        return f"{month} {day.year}"
    return f"{month} {day.day}" if reader.market == "us" else f"{day.day} {month}"


def lying_range(
    scale: Timescale,
    *,
    opens: dt.date | None,
    closes: dt.date | None,
    likely: dt.date | None,
    today: dt.date,
    today_word: str,
    reader: Reader,
) -> LyingRange:
    """Return the picture of a window on a shared scale."""
    first = "" if opens is None else short_day(opens, today=today, reader=reader)
    last = "" if closes is None else short_day(closes, today=today, reader=reader)
    labels = []
    if opens is not None and closes is not None and first == last:
        labels.append(Label((scale.share(opens) + scale.share(closes)) / 2, last, "middle"))
    else:
        labels += [Label(scale.share(opens), first, "end")] if opens is not None else []
        labels += [Label(scale.share(closes), last, "start")] if closes is not None else []
    return LyingRange(
        low=None if opens is None else scale.share(opens),
        high=None if closes is None else scale.share(closes),
        middle=None if likely is None else scale.share(likely),
        now=Label(scale.share(today), today_word, "start"),
        labels=tuple(labels),
    )


UPPER, LOWER = 40.0, 140.0
WORDS_APART = 18.0


@dataclass(frozen=True, slots=True)
class Stick:
    """A dipstick: the upper mark at `upper`, the lower at `lower`, the reading and its words, all from the top."""

    upper: float
    lower: float
    reading: float | None
    text: str

    @property
    def text_at(self) -> float | None:
        """Where the words of the reading stand: at its line, or as near as the words of a mark leave room."""
        if self.reading is None:
            return None
        for mark in (self.upper, self.lower):
            if abs(self.reading - mark) < WORDS_APART:
                return mark + (WORDS_APART if self.reading >= mark else -WORDS_APART)
        return self.reading

    @property
    def span(self) -> float:
        """How far the marks stand apart."""
        return self.lower - self.upper


def stick(*, reading: float | None, text: str = "") -> Stick:
    """Return the picture of a reading between the marks (0 lower, 1 upper); beyond them it stays on the stick."""
    held = None if reading is None else min(max(reading, -0.35), 1.3)
    return Stick(UPPER, LOWER, None if held is None else round(LOWER - held * (LOWER - UPPER), 1), text)

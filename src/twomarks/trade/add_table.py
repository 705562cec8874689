"""What to add or take out for a reading on the stick, and for which reading that holds.

All volumes are as poured, cold. A reading is a fraction: 0 at the lower mark, 1 at the upper one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from twomarks.trade.arrays import require, require_within
from twomarks.words import Figure, Message, Source, say

__all__ = ["AddRow", "AddTable", "StickFacts", "When", "add_table", "rounded_down_l", "table_before_start", "valid_for"]

When = Literal["before the start", "after the run"]

STEP_L = 0.05
"""A can is read to about this; pours are rounded down to it, so that rounding never overfills."""
TARGET = 0.9
"""Just below full."""
HALFWAY = 0.5
NO_START_FROM = 1.5
"""Half a span, some 12 mm, above the upper mark: popular pages call that serious."""
SPAN_L = 1.0
"""Volume between the marks where nobody knows it; real ones run from about 0.7 to 2 L."""
SMALL_SPAN = 0.7
"""The smallest span to reckon with, as a share of the usual one: aiming there, no such stick is overfilled."""
SETTLE_MIN = 10.0
PRACTICE = Source("practice")
SOURCE = "level_practice"


@dataclass(frozen=True, slots=True)
class StickFacts:
    """What the maker says of reading the stick: the wait [min], warm or cold, the zone to fill to, from where not to start.

    What the maker does not say is None; the tables then name their default as one.
    """

    settle_min: float | None = None
    warm: bool | None = None
    lower_zone: float | None = None
    no_start_from: float | None = None


@dataclass(frozen=True, slots=True)
class AddRow:
    """What to do at one reading: litres to add (negative: take out) [L]; `start` is whether the engine may run before that."""

    reading_fraction: float
    add_l: float
    start: bool
    then: Literal["done", "read again"]


@dataclass(frozen=True, slots=True)
class AddTable:
    """The rows by rising reading, the span they rest on, for which reading they hold, and what else must be known of them.

    `notes` say from where the engine must not be started, how oil is taken out, and where a figure is only a default.
    """

    rows: tuple[AddRow, ...]
    span: Figure
    when: When
    valid_for: Message
    notes: tuple[Message, ...]
    no_start_from: float

    def __iter__(self) -> Iterator[AddRow]:
        """Yield the rows."""
        return iter(self.rows)

    def __len__(self) -> int:
        """Return how many rows there are."""
        return len(self.rows)

    def __getitem__(self, at: int) -> AddRow:
        """Return one row."""
        return self.rows[at]


def rounded_down_l(*, volume_l: float) -> float:
    """Return a volume rounded down to what a can is read to.

    Parameters
    ----------
    volume_l : float
        Volume [L], any.

    Returns
    -------
    float
        Whole steps of 0.05 [L].

    Raises
    ------
    OutOfRangeError
        If the volume is not a finite number.

    Notes
    -----
    Down, so that rounding never overfills. Departs from the source: none.

    References
    ----------
    level_practice
    """
    require_within(volume_l, quantity="volume", unit="L", source=SOURCE)
    return round(math.floor(volume_l / STEP_L + 1e-9) * STEP_L, 3)


def add_table(
    *,
    between_marks_l: float | None,
    target: float | None = None,
    steps: int = 8,
    upper: float = 1.0,
    start_from: float = 0.0,
    no_start_from: float | None = None,
    lower_zone: float | None = None,
    when: When = "after the run",
    settle_min: float | None = None,
    warm: bool | None = None,
) -> AddTable:
    """Return what to add or take out for each reading on the stick, from the lower mark to far above the upper one.

    Parameters
    ----------
    between_marks_l : float or None
        Volume from the lower mark to the upper one [L], above 0; None where nobody knows it, for the usual one, marked so.
    target : float or None
        Where to end, as a fraction of the span [-], above 0 to `upper`; None for just below full or the top of `lower_zone`.
    steps : int
        Rows per span [-], 2 to 40.
    upper : float
        The fraction above which oil is taken out [-], at least 1; above 1 only while the new filter is still empty.
    start_from : float
        The fraction below which the engine must not be started before oil has been added [-], not negative.
    no_start_from : float or None
        The maker's fraction from which the engine must not be started before oil has been taken out [-], at least `upper`; None for
        the default of 1.5, marked so.
    lower_zone : float or None
        On engines whose maker keeps room on the stick for fuel: the fraction where the zone to fill up to ends [-], above 0 and
        below 1.
    when : str
        Which reading the table is for: ``before the start``, the new filter still empty, or ``after the run``.
    settle_min : float or None
        How long oil runs down before that reading [min], above 0; None for the usual 10, marked so.
    warm : bool or None
        Whether the reading is taken warm; None where the maker does not say.

    Returns
    -------
    AddTable
        Readings rising from 0 to a little above `no_start_from`. Never adds more than half the span at once; then says to
        read again. Litres to take out are negative.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If the target lies above `upper`.

    Notes
    -----
    Amounts to add are rounded down to 0.05 L, amounts to take out up. With the usual span the table ends at 0.7, so that a stick
    with only 0.7 L between its marks is not overfilled either. Departs from the source: none.

    References
    ----------
    level_practice, common_practice
    """
    span_l = SPAN_L if between_marks_l is None else between_marks_l
    require_within(span_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
    require_within(steps, quantity="steps", low=2, high=40)
    require_within(upper, quantity="upper", source=SOURCE, low=1.0)
    require_within(start_from, quantity="start", source=SOURCE, low=0.0)
    highest = max(NO_START_FROM, upper) if no_start_from is None else no_start_from
    require_within(highest, quantity="no start", source=SOURCE, low=upper, high=5.0)
    if lower_zone is not None:
        require_within(lower_zone, quantity="lower zone", source=SOURCE, above=0.0, below=1.0)
    usual = TARGET if lower_zone is None else lower_zone
    aim = target if target is not None else min(usual, SMALL_SPAN) if between_marks_l is None else usual
    require_within(aim, quantity="target", source=SOURCE, above=0.0)
    require(aim <= upper, "level.target", found=aim, expected=upper)
    rows = _rows(span_l, aim, steps, upper, start_from, highest)
    span = Figure(span_l, "L", PRACTICE if between_marks_l is None else None)
    notes = (_span_note(span, known=between_marks_l is not None), *_zone_notes(lower_zone), *_no_start_notes(highest, no_start_from))
    return AddTable(rows, span, when, valid_for(when=when, settle_min=settle_min, warm=warm), notes, highest)


def _rows(span_l: float, aim: float, steps: int, upper: float, start_from: float, no_start_from: float) -> tuple[AddRow, ...]:
    # Where the span is hardly more than a can can be read to, half of it is still half of it.
    half_l = rounded_down_l(volume_l=0.5 * span_l) or 0.5 * span_l
    rows = []
    for step in range(math.ceil((no_start_from + 0.25) * steps) + 1):
        reading = step / steps
        missing_l = (aim - reading) * span_l
        if reading > upper + 1e-9:
            out_l = -round(math.ceil(-missing_l / STEP_L - 1e-9) * STEP_L, 3)
            rows.append(AddRow(reading, min(out_l, 0.0), reading < no_start_from, "read again"))
        else:
            add_l = max(min(rounded_down_l(volume_l=missing_l), half_l), 0.0)
            again = missing_l - add_l > 2 * STEP_L
            rows.append(AddRow(reading, add_l, reading >= start_from - 1e-9, "read again" if again else "done"))
    return tuple(rows)


def table_before_start(*, between_marks_l: float, filter_l: float | None, stick: StickFacts) -> AddTable:
    """Return what to add before the first start, for a reading with the new filter still empty.

    Parameters
    ----------
    between_marks_l : float
        Volume between the marks [L], above 0.
    filter_l : float or None
        What the new filter takes at the first run [L], not negative; None where unknown.
    stick : StickFacts
        What the maker says of reading the stick, for a reading after the run.

    Returns
    -------
    AddTable
        Aims at half a span, or the maker's lower zone, as it will stand once the filter has filled.

    Raises
    ------
    OutOfRangeError
        If a volume or one of the maker's figures lies outside its range.

    Notes
    -----
    Such a reading stands high by what the filter takes. Where that is not known the table adds as if it took nothing and lets the
    engine start only from halfway up. Departs from the source: none.

    References
    ----------
    level_practice
    """
    require_within(between_marks_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
    require_within(filter_l or 0.0, quantity="filter", unit="L", source=SOURCE, low=0.0)
    taken = (filter_l or 0.0) / between_marks_l
    aim = HALFWAY if stick.lower_zone is None else min(HALFWAY, stick.lower_zone)
    return add_table(
        between_marks_l=between_marks_l,
        target=aim + taken,
        upper=1.0 + taken,
        start_from=aim if filter_l is None else taken,
        no_start_from=None if stick.no_start_from is None else stick.no_start_from + taken,
        lower_zone=stick.lower_zone,
        when="before the start",
        settle_min=stick.settle_min,
    )


def valid_for(*, when: When, settle_min: float | None = None, warm: bool | None = None) -> Message:
    """Return for which reading a table holds, in words.

    Parameters
    ----------
    when : str
        ``before the start`` or ``after the run``.
    settle_min : float or None
        How long oil runs down before the reading [min], above 0; None for the usual 10, marked so.
    warm : bool or None
        Whether it is taken warm; None where the maker does not say.

    Returns
    -------
    Message
        Before or after the run, minutes, warm or cold, level ground.

    Raises
    ------
    OutOfRangeError
        If the minutes are not above 0.

    Notes
    -----
    Departs from the source: none.

    References
    ----------
    level_practice
    """
    wait_min = SETTLE_MIN if settle_min is None else settle_min
    require_within(wait_min, quantity="time", unit="min", source=SOURCE, above=0.0)
    wait = Figure(wait_min, "min", PRACTICE if settle_min is None else None)
    if when == "before the start":
        return say("level.valid_before_run", wait=wait)
    if warm is None:
        return say("level.valid_after_run", wait=wait)
    return say("level.valid_after_run_warm" if warm else "level.valid_after_run_cold", wait=wait)


def _span_note(span: Figure, *, known: bool) -> Message:
    return say("level.span", span=span) if known else say("level.span_default", span=span, aim=Figure(100.0 * SMALL_SPAN, "%"))


def _zone_notes(lower_zone: float | None) -> tuple[Message, ...]:
    return () if lower_zone is None else (say("level.lower_zone", zone=Figure(100.0 * lower_zone, "%")), say("level.above_reserve"))


def _no_start_notes(highest: float, makers: float | None) -> tuple[Message, Message]:
    """Return from where the engine must not be started, saying whether that is a default, and how oil is taken out."""
    limit = Figure(100.0 * highest, "%", PRACTICE if makers is None else None)
    return say("level.no_start_default" if makers is None else "level.no_start_maker", limit=limit), say("level.take_out_how")

"""How much oil to pour first, and what to add or take out for a reading on the stick.

All volumes are as poured, cold. A reading is a fraction: 0 at the lower mark, 1 at the upper one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from twomarks.errors import OutOfRangeError
from twomarks.trade.chance import normal_quantile, normal_share_below
from twomarks.trade.source_spread import sigma_of_source
from twomarks.words import Figure, Message, say

__all__ = ["AddRow", "Pour", "PourPlan", "add_table", "first_pour", "pour_without_capacity", "sigma_of_source"]

STEP_L = 0.05
"""A can is read to about this; pours are rounded down to it, so that rounding never overfills."""
TARGET = 0.9
"""Just below full."""
NO_START_FROM = 1.5
"""Half a span, some 12 mm, above the upper mark: popular pages call that serious (level_practice)."""
FULL_LITRE_L = 1.0
RESIDUE_SIGMA_L = 0.1
"""What stays in a drained engine differs from one change to the next by about this (house_judgement)."""


@dataclass(frozen=True, slots=True)
class Pour:
    """One pour: how much [L], or None where the stick decides, and what to do."""

    volume_l: float | None
    what: Message


@dataclass(frozen=True, slots=True)
class AddRow:
    """What to do at one reading: litres to add (negative: take out) [L]; `start` is whether the engine may run before that."""

    reading_fraction: float
    add_l: float
    start: bool
    then: Literal["done", "read again"]


@dataclass(frozen=True, slots=True)
class PourPlan:
    """A pour plan.

    `least_l` and `most_l` are the two bounds of a single pour (None where there is no capacity), `chance_over` and
    `chance_short` the chances of the first pour as planned. `before_start` is the table for a reading with the new filter still
    empty, `after_run` that for a reading after the first run and the wait.
    """

    kind: Literal["one pour", "two pours", "by the stick"]
    pours: tuple[Pour, ...]
    least_l: float | None
    most_l: float | None
    sigma_l: float | None
    chance_over: float | None
    chance_short: float | None
    needs_reading_before_start: bool
    before_start: tuple[AddRow, ...]
    after_run: tuple[AddRow, ...]
    reasons: tuple[Message, ...]

    @property
    def first_l(self) -> float | None:
        """The first pour [L], or None where no number can be given."""
        return self.pours[0].volume_l

    @property
    def bounds(self) -> tuple[float | None, float | None]:
        """Least and most of a single pour [L]."""
        return self.least_l, self.most_l


def _down(volume_l: float) -> float:
    return round(math.floor(volume_l / STEP_L + 1e-9) * STEP_L, 3)


def _positive(quantity: str, value: float) -> None:
    if not (value > 0.0 and math.isfinite(value)):
        raise OutOfRangeError(quantity=quantity, value=value, low=0.0, unit="L", source="level_practice")


def first_pour(
    *,
    refill_l: float,
    between_marks_l: float | None,
    refill_sigma_l: float,
    residue_sigma_l: float = RESIDUE_SIGMA_L,
    between_marks_sigma_l: float = 0.0,
    filter_l: float | None = None,
    p_over: float = 0.01,
    p_short: float = 0.01,
) -> PourPlan:
    """Return a plan that almost surely neither overfills nor starts the engine short of oil.

    Parameters
    ----------
    refill_l : float
        What fills a drained engine to the upper mark after its first run [L], above 0; with the new filter, if one is fitted.
    between_marks_l : float or None
        Volume from the lower mark to the upper one [L], above 0; None where nobody knows it.
    refill_sigma_l : float
        How far `refill_l` can be off, as a standard deviation [L]; see `sigma_of_source`.
    residue_sigma_l : float
        The same for what stayed in the engine [L].
    between_marks_sigma_l : float
        The same for `between_marks_l` [L].
    filter_l : float or None
        What the new filter takes at the first run [L]; 0 where the filter stays, None where unknown.
    p_over : float
        Chance allowed of ending above the upper mark [-].
    p_short : float
        Chance allowed of standing below the lower mark once the filter has filled [-].

    Returns
    -------
    PourPlan
        One pour halfway between the two bounds where there is room; else two pours: the most that is sure not to overfill, then
        by a reading before the start, which stands high by what the new filter will take.

    Raises
    ------
    OutOfRangeError
        If a volume is not above 0, the marks lie as far apart as the whole refill, a deviation is negative, or a chance is not
        between 0 and 0.5.

    Notes
    -----
    What is needed up to the upper mark is taken as normal around `refill_l`; the bounds are its quantiles. Pours are rounded
    down to 0.05 L. Departs from the source: common practice pours half a litre or half a span less, without chances.

    References
    ----------
    level_practice, house_judgement
    """
    _positive("volume", refill_l)
    for deviation in (refill_sigma_l, residue_sigma_l, between_marks_sigma_l):
        if not deviation >= 0.0:
            raise OutOfRangeError(quantity="deviation", value=deviation, low=0.0, unit="L")
    for chance in (p_over, p_short):
        if not 0.0 < chance < 0.5:
            raise OutOfRangeError(quantity="chance", value=chance, low=0.0, high=0.5)
    sigma_l = math.hypot(refill_sigma_l, residue_sigma_l)
    most_l = refill_l + normal_quantile(share=p_over) * sigma_l
    if between_marks_l is None:
        return _two_pours(refill_l, None, None, most_l, sigma_l, filter_l, p_over)
    _positive("volume", between_marks_l)
    if between_marks_l >= refill_l:
        raise OutOfRangeError(quantity="volume", value=between_marks_l, low=0.0, high=refill_l, unit="L", source="level_practice")
    short_sigma_l = math.hypot(sigma_l, between_marks_sigma_l)
    least_l = max(refill_l - between_marks_l - normal_quantile(share=p_short) * short_sigma_l, 0.0)
    pour_l = _down(0.5 * (least_l + most_l))
    if not least_l <= pour_l <= most_l or pour_l <= 0.0:
        return _two_pours(refill_l, between_marks_l, least_l, most_l, sigma_l, filter_l, p_over)
    figures = {
        "pour": Figure(pour_l, "L"),
        "least": Figure(least_l, "L"),
        "most": Figure(most_l, "L"),
        "refill": Figure(refill_l, "L"),
        "between": Figure(between_marks_l, "L"),
        "sigma": Figure(sigma_l, "L"),
    }
    return PourPlan(
        "one pour",
        (Pour(pour_l, say("level.pour_first", **figures)),),
        least_l,
        most_l,
        sigma_l,
        _chance_below((pour_l - refill_l), sigma_l),
        _chance_below(refill_l - between_marks_l - pour_l, short_sigma_l),
        False,
        _before_start(between_marks_l, filter_l),
        add_table(between_marks_l=between_marks_l),
        (say("level.one_pour_fits", **figures), _stands_high(filter_l)),
    )


def _chance_below(distance_l: float, sigma_l: float) -> float:
    if sigma_l == 0.0:
        return 1.0 if distance_l > 0.0 else 0.0
    return normal_share_below(value=distance_l / sigma_l)


def _stands_high(filter_l: float | None) -> Message:
    if filter_l is None:
        return say("level.stands_high")
    return say("level.stands_high_by", filter=Figure(filter_l, "L")) if filter_l > 0.0 else say("level.same_filter")


def _two_pours(
    refill_l: float,
    between_marks_l: float | None,
    least_l: float | None,
    most_l: float,
    sigma_l: float,
    filter_l: float | None,
    p_over: float,
) -> PourPlan:
    first_l = _down(most_l)
    if first_l <= 0.0:
        return pour_without_capacity(between_marks_l=between_marks_l)
    figures = {
        "pour": Figure(first_l, "L"),
        "refill": Figure(refill_l, "L"),
        "most": Figure(most_l, "L"),
        "sigma": Figure(sigma_l, "L"),
        "chance": Figure(100.0 * p_over, "%"),
    }
    if between_marks_l is None:
        why = say("level.span_not_known", **figures)
        short = None
        second = Pour(None, say("level.pour_second_by_mark"))
    else:
        assert least_l is not None
        why = say("level.no_single_pour", least=Figure(least_l, "L"), between=Figure(between_marks_l, "L"), **figures)
        short = _chance_below(refill_l - between_marks_l - first_l, sigma_l)
        second = Pour(None, say("level.pour_second_by_table"))
    return PourPlan(
        "two pours",
        (Pour(first_l, say("level.pour_most", **figures)), second),
        least_l,
        most_l,
        sigma_l,
        _chance_below(first_l - refill_l, sigma_l),
        short,
        True,
        _before_start(between_marks_l, filter_l) if between_marks_l is not None else (),
        add_table(between_marks_l=between_marks_l) if between_marks_l is not None else (),
        (why, _stands_high(filter_l), say("level.read_before_start")),
    )


def _before_start(between_marks_l: float, filter_l: float | None) -> tuple[AddRow, ...]:
    """Return what to add before the first start, for a reading with the new filter empty: aims at half a span after the run.

    Where the filter's volume is not known, the table adds as if it took nothing and lets the engine start from halfway up.
    """
    taken = (filter_l or 0.0) / between_marks_l
    start_from = 0.5 if filter_l is None else taken
    return add_table(between_marks_l=between_marks_l, target=0.5 + taken, upper=1.0 + taken, start_from=start_from)


def pour_without_capacity(*, measured_out_l: float | None = None, between_marks_l: float | None) -> PourPlan:
    """Return a plan for an engine whose refill volume nobody knows.

    Parameters
    ----------
    measured_out_l : float or None
        What came out into the pan, measured [L], above 0; None where it was not measured.
    between_marks_l : float or None
        Volume from the lower mark to the upper one [L], above 0; None where nobody knows it.

    Returns
    -------
    PourPlan
        What was measured out less half a span, then by the stick; without a measured volume or a span a litre at a time until
        oil shows on the stick. No capacity is made up.

    Raises
    ------
    OutOfRangeError
        If a volume is not above 0.

    Notes
    -----
    The old level is not known, so that the stick is read before the first start in every case. Departs from the source: none.

    References
    ----------
    level_practice
    """
    for volume_l in (measured_out_l, between_marks_l):
        if volume_l is not None:
            _positive("volume", volume_l)
    before = _before_start(between_marks_l, None) if between_marks_l is not None else ()
    after = add_table(between_marks_l=between_marks_l) if between_marks_l is not None else ()
    closing = (say("level.stands_high"), say("level.read_before_start"))
    if measured_out_l is not None and between_marks_l is not None and _down(measured_out_l - 0.5 * between_marks_l) > 0.0:
        pour_l = _down(measured_out_l - 0.5 * between_marks_l)
        figures = {
            "pour": Figure(pour_l, "L"),
            "out": Figure(measured_out_l, "L"),
            "half": Figure(0.5 * between_marks_l, "L"),
        }
        pours: tuple[Pour, ...] = (
            Pour(pour_l, say("level.pour_measured", **figures)),
            Pour(None, say("level.pour_second_by_table")),
        )
        reasons = (say("level.by_measured", **figures), *closing)
    else:
        step_l = FULL_LITRE_L if between_marks_l is None else max(_down(min(FULL_LITRE_L, between_marks_l)), STEP_L)
        pours = (Pour(None, say("level.pour_step_by_step", step=Figure(step_l, "L"))),)
        reasons = (say("level.no_capacity"), *closing)
    return PourPlan("by the stick", pours, None, None, None, None, None, True, before, after, reasons)


def add_table(
    *,
    between_marks_l: float,
    target: float = TARGET,
    steps: int = 8,
    upper: float = 1.0,
    start_from: float = 0.0,
    no_start_from: float = NO_START_FROM,
) -> tuple[AddRow, ...]:
    """Return what to add or take out for each reading on the stick, from the lower mark to far above the upper one.

    Parameters
    ----------
    between_marks_l : float
        Volume from the lower mark to the upper one [L], above 0.
    target : float
        Where to end, as a fraction of the span [-], above 0; just below full.
    steps : int
        Rows per span [-], 2 to 40.
    upper : float
        The fraction above which oil is taken out [-]; above 1 only while the new filter is still empty.
    start_from : float
        The fraction below which the engine must not be started before oil has been added [-].
    no_start_from : float
        The fraction from which the engine must not be started before oil has been taken out [-].

    Returns
    -------
    tuple of AddRow
        Readings rising from 0 to a little above `no_start_from`. Never adds more than half the span at once; then says to
        read again. Litres to take out are negative.

    Raises
    ------
    OutOfRangeError
        If the span or the target is not above 0, the target lies above `upper`, or `steps` is out of range.

    Notes
    -----
    Amounts to add are rounded down to 0.05 L, amounts to take out up. Departs from the source: none.

    References
    ----------
    level_practice
    """
    _positive("volume", between_marks_l)
    if not 2 <= steps <= 40:
        raise OutOfRangeError(quantity="steps", value=steps, low=2, high=40)
    if not 0.0 < target <= upper:
        raise OutOfRangeError(quantity="target", value=target, low=0.0, high=upper)
    # Where the span is hardly more than a can can be read to, half of it is still half of it.
    half_l = _down(0.5 * between_marks_l) or 0.5 * between_marks_l
    rows = []
    for step in range(math.ceil((no_start_from + 0.25) * steps) + 1):
        reading = step / steps
        missing_l = (target - reading) * between_marks_l
        if reading > upper + 1e-9:
            out_l = -round(math.ceil(-missing_l / STEP_L - 1e-9) * STEP_L, 3)
            rows.append(AddRow(reading, min(out_l, 0.0), reading < no_start_from, "read again"))
        else:
            add_l = max(min(_down(missing_l), half_l), 0.0)
            rows.append(AddRow(reading, add_l, reading >= start_from - 1e-9, "read again" if missing_l - add_l > 2 * STEP_L else "done"))
    return tuple(rows)

"""How much oil to pour first into a drained engine, so that it neither overfills nor starts short.

All volumes are as poured, cold. A reading is a fraction: 0 at the lower mark, 1 at the upper one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from twomarks.trade.add_table import AddRow, AddTable, StickFacts, add_table, rounded_down_l, table_before_start
from twomarks.trade.arrays import require_within
from twomarks.trade.chance import normal_quantile, normal_share_below
from twomarks.words import Figure, Message, Value, say

__all__ = ["FILTER_SIGMA_L", "RESIDUE_SIGMA_L", "Pour", "PourPlan", "first_pour", "pour_without_capacity"]

SOURCE = "level_practice"
FULL_LITRE_L = 1.0
STEP_LEAST_L = 0.05
RESIDUE_SIGMA_L = 0.1
"""What stays in a drained engine differs from one change to the next by about this (house_judgement)."""
FILTER_SIGMA_L = 0.05
"""What a filter takes differs from one to the next by about this (house_judgement)."""


@dataclass(frozen=True, slots=True)
class Pour:
    """One pour: how much [L], or None where the stick decides, and what to do."""

    volume_l: float | None
    what: Message


@dataclass(frozen=True, slots=True)
class PourPlan:
    """A pour plan.

    `least_l` and `most_l` are the two bounds of a single pour (None where there is no capacity), `chance_over` and
    `chance_short` the chances of the first pour as planned. `before_table` is for a reading with the new filter still
    empty, `after_table` for one after the first run and the wait; None where the span is not known.
    """

    kind: Literal["one pour", "two pours", "by the stick"]
    pours: tuple[Pour, ...]
    least_l: float | None
    most_l: float | None
    sigma_l: float | None
    chance_over: float | None
    chance_short: float | None
    needs_reading_before_start: bool
    before_table: AddTable | None
    after_table: AddTable | None
    reasons: tuple[Message, ...]

    @property
    def first_l(self) -> float | None:
        """The first pour [L], or None where no number can be given."""
        return self.pours[0].volume_l

    @property
    def before_start(self) -> tuple[AddRow, ...]:
        """The rows for a reading before the first start, none where the span is not known."""
        return () if self.before_table is None else self.before_table.rows

    @property
    def after_run(self) -> tuple[AddRow, ...]:
        """The rows for a reading after the first run and the wait, none where the span is not known."""
        return () if self.after_table is None else self.after_table.rows


def first_pour(
    *,
    refill_l: float,
    between_marks_l: float | None,
    refill_sigma_l: float,
    residue_sigma_l: float = RESIDUE_SIGMA_L,
    between_marks_sigma_l: float = 0.0,
    filter_l: float | None = None,
    filter_sigma_l: float | None = None,
    p_over: float = 0.01,
    p_short: float = 0.01,
    stick: StickFacts | None = None,
) -> PourPlan:
    """Return a plan that almost surely neither overfills nor starts the engine short of oil.

    Parameters
    ----------
    refill_l : float
        What fills a drained engine to the upper mark after its first run [L], above 0; with the new filter, if one is fitted (see
        `refill_for`).
    between_marks_l : float or None
        Volume from the lower mark to the upper one [L], above 0 and below `refill_l`; None where nobody knows it.
    refill_sigma_l : float
        How far `refill_l` can be off, as a standard deviation [L], not negative; see `sigma_of_source`.
    residue_sigma_l : float
        The same for what stayed in the engine [L], not negative.
    between_marks_sigma_l : float
        The same for `between_marks_l` [L], not negative.
    filter_l : float or None
        What the new filter takes at the first run [L], not negative; 0 where the filter stays, None where unknown.
    filter_sigma_l : float or None
        The same for what the filter takes [L], not negative; None for 0.05, or 0 where the filter stays.
    p_over : float
        Chance allowed of ending above the upper mark [-], above 0 and below 0.5.
    p_short : float
        Chance allowed of standing below the lower mark once the filter has filled [-], above 0 and below 0.5.
    stick : StickFacts or None
        What the maker says of reading the stick.

    Returns
    -------
    PourPlan
        One pour halfway between the two bounds where there is room; else two pours: the most that is sure not to overfill, then
        by a reading before the start, which stands high by what the new filter will take.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range, or the marks lie as far apart as the whole refill.

    Notes
    -----
    What is needed up to the upper mark is taken as normal around `refill_l`; the bounds are its quantiles. The deviations of
    capacity, residue and filter add in squares. Pours are rounded down to 0.05 L. Departs from the source: common practice
    pours half a litre or half a span less, without chances.

    References
    ----------
    level_practice, house_judgement, normal_distribution
    """
    require_within(refill_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
    filter_sigma_l = filter_sigma_l if filter_sigma_l is not None else 0.0 if filter_l == 0.0 else FILTER_SIGMA_L
    deviations = (refill_sigma_l, residue_sigma_l, filter_sigma_l)
    for deviation in (*deviations, between_marks_sigma_l):
        require_within(deviation, quantity="deviation", unit="L", source="house_judgement", low=0.0)
    for chance in (p_over, p_short):
        require_within(chance, quantity="chance", source="house_judgement", above=0.0, below=0.5)
    if filter_l is not None:
        require_within(filter_l, quantity="filter", unit="L", source=SOURCE, low=0.0, below=refill_l)
    sigma_l = math.hypot(*deviations)
    most_l = refill_l + normal_quantile(share=p_over) * sigma_l
    tables = _Tables(between_marks_l, filter_l, stick or StickFacts())
    if between_marks_l is None:
        return _two_pours(refill_l, None, most_l, sigma_l, 0.0, tables, p_over)
    require_within(between_marks_l, quantity="span", unit="L", source=SOURCE, above=0.0, below=refill_l)
    short_sigma_l = math.hypot(sigma_l, between_marks_sigma_l)
    least_l = max(refill_l - between_marks_l - normal_quantile(share=p_short) * short_sigma_l, 0.0)
    pour_l = rounded_down_l(volume_l=0.5 * (least_l + most_l))
    if not least_l <= pour_l <= most_l or pour_l <= 0.0:
        return _two_pours(refill_l, least_l, most_l, sigma_l, short_sigma_l, tables, p_over)
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
        _chance_below(pour_l - refill_l, sigma_l),
        _chance_below(refill_l - between_marks_l - pour_l, short_sigma_l),
        False,
        tables.before_start(),
        tables.after_run(),
        (say("level.one_pour_fits", **figures), _stands_high(filter_l), *tables.told(before=False)),
    )


def _chance_below(distance_l: float, sigma_l: float) -> float:
    if sigma_l == 0.0:
        return 1.0 if distance_l > 0.0 else 0.0
    return normal_share_below(value=distance_l / sigma_l)


def _stands_high(filter_l: float | None) -> Message:
    if filter_l is None:
        return say("level.stands_high")
    return say("level.stands_high_by", filter=Figure(filter_l, "L")) if filter_l > 0.0 else say("level.same_filter")


@dataclass(frozen=True, slots=True)
class _Tables:
    """What both tables of a plan rest on."""

    between_marks_l: float | None
    filter_l: float | None
    stick: StickFacts

    def before_start(self) -> AddTable | None:
        """Return what to add before the first start, the new filter still empty."""
        if self.between_marks_l is None:
            return None
        return table_before_start(between_marks_l=self.between_marks_l, filter_l=self.filter_l, stick=self.stick)

    def after_run(self) -> AddTable | None:
        """Return what to add after the first run and the wait."""
        if self.between_marks_l is None:
            return None
        return add_table(
            between_marks_l=self.between_marks_l,
            no_start_from=self.stick.no_start_from,
            lower_zone=self.stick.lower_zone,
            settle_min=self.stick.settle_min,
            warm=self.stick.warm,
        )

    def told(self, *, before: bool) -> tuple[Message, ...]:
        """Return for which reading each table that is needed holds, and from where not to start and how oil is taken out."""
        after = self.after_run()
        if after is None:
            return ()
        tables = (self.before_start() if before else None, after)
        # The span stands beside the table itself.
        return (*(table.valid_for for table in tables if table is not None), *after.notes[1:])


def _two_pours(
    refill_l: float,
    least_l: float | None,
    most_l: float,
    sigma_l: float,
    short_sigma_l: float,
    tables: _Tables,
    p_over: float,
) -> PourPlan:
    first_l, between_marks_l = rounded_down_l(volume_l=most_l), tables.between_marks_l
    if first_l <= 0.0:
        return pour_without_capacity(between_marks_l=between_marks_l, filter_l=tables.filter_l, stick=tables.stick)
    figures: dict[str, Value] = {
        "pour": Figure(first_l, "L"),
        "refill": Figure(refill_l, "L"),
        "most": Figure(most_l, "L"),
        "sigma": Figure(sigma_l, "L"),
        "chance": Figure(100.0 * p_over, "%"),
    }
    if between_marks_l is None:
        why, short, second = say("level.span_not_known", **figures), None, say("level.pour_second_by_mark")
    else:
        figures |= {"least": None if least_l is None else Figure(least_l, "L"), "between": Figure(between_marks_l, "L")}
        why, second = say("level.no_single_pour", **figures), say("level.pour_second_by_table")
        short = _chance_below(refill_l - between_marks_l - first_l, short_sigma_l)
    closing = (_stands_high(tables.filter_l), say("level.read_before_start"), *tables.told(before=True))
    return PourPlan(
        "two pours",
        (Pour(first_l, say("level.pour_most", **figures)), Pour(None, second)),
        least_l,
        most_l,
        sigma_l,
        _chance_below(first_l - refill_l, sigma_l),
        short,
        True,
        tables.before_start(),
        tables.after_run(),
        (why, *closing),
    )


def pour_without_capacity(
    *,
    measured_out_l: float | None = None,
    between_marks_l: float | None,
    filter_l: float | None = None,
    stick: StickFacts | None = None,
) -> PourPlan:
    """Return a plan for an engine whose refill volume nobody knows.

    Parameters
    ----------
    measured_out_l : float or None
        What came out into the pan, measured cold [L], above 0; None where it was not measured.
    between_marks_l : float or None
        Volume from the lower mark to the upper one [L], above 0; None where nobody knows it.
    filter_l : float or None
        What the new filter takes at the first run [L], not negative; 0 where the filter stays, None where unknown.
    stick : StickFacts or None
        What the maker says of reading the stick.

    Returns
    -------
    PourPlan
        What was measured out less half a span, then by the stick; without a measured volume or a span a litre at a time until
        oil shows on the stick. No capacity is made up.

    Raises
    ------
    OutOfRangeError
        If a volume is not above 0, or that of the filter is negative.

    Notes
    -----
    The old level is not known, so that the stick is read before the first start in every case. Departs from the source: none.

    References
    ----------
    level_practice
    """
    for volume_l in (measured_out_l, between_marks_l):
        if volume_l is not None:
            require_within(volume_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
    if filter_l is not None:
        require_within(filter_l, quantity="filter", unit="L", source=SOURCE, low=0.0)
    tables = _Tables(between_marks_l, filter_l, stick or StickFacts())
    closing = (_stands_high(filter_l), say("level.read_before_start"), *tables.told(before=True))
    pours: tuple[Pour, ...]
    measured_l = 0.0
    if measured_out_l is not None and between_marks_l is not None:
        measured_l = rounded_down_l(volume_l=measured_out_l - 0.5 * between_marks_l)
    if measured_l > 0.0 and measured_out_l is not None and between_marks_l is not None:
        figures = {
            "pour": Figure(measured_l, "L"),
            "out": Figure(measured_out_l, "L"),
            "half": Figure(0.5 * between_marks_l, "L"),
        }
        pours = (Pour(measured_l, say("level.pour_measured", **figures)), Pour(None, say("level.pour_second_by_table")))
        reasons = (say("level.by_measured", **figures), *closing)
    else:
        step_l = FULL_LITRE_L
        if between_marks_l is not None:
            step_l = max(rounded_down_l(volume_l=min(FULL_LITRE_L, between_marks_l)), STEP_LEAST_L)
        pours = (Pour(None, say("level.pour_step_by_step", step=Figure(step_l, "L"))),)
        out = None if measured_out_l is None or between_marks_l is not None else Figure(measured_out_l, "L")
        reasons = (say("level.no_capacity"), *((say("level.measured_needs_span", out=out),) if out else ()), *closing)
    return PourPlan("by the stick", pours, None, None, None, None, None, True, tables.before_start(), tables.after_run(), reasons)

"""What an owner can measure once of an engine and its stick: the volume between the marks, and how oil runs down."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.errors import NoSolutionError
from twomarks.trade.arrays import require, require_within
from twomarks.trade.level import STICK_SIGMA

__all__ = ["RunDown", "SpanMeasured", "run_down", "span_measured"]

SOURCE = "level_practice"
CAN_SIGMA_L = 0.01
TAU_LEAST_MIN, TAU_MOST_MIN = 0.5, 120.0
TRIALS = 400
GOLDEN = (math.sqrt(5.0) - 1.0) / 2.0


@dataclass(frozen=True, slots=True)
class SpanMeasured:
    """The volume between the marks as measured, and its standard uncertainty [L]."""

    between_marks_l: float
    sigma_l: float


@dataclass(frozen=True, slots=True)
class RunDown:
    """How oil runs down in one engine: what hangs above the sump at the stop [L], how fast [min], where the reading settles."""

    upstairs_l: float
    tau_min: float
    settled_fraction: float
    misfit_l: float


def span_measured(
    *,
    poured_l: float,
    before_fraction: float,
    after_fraction: float,
    stick_sigma: float = STICK_SIGMA,
    poured_sigma_l: float = CAN_SIGMA_L,
) -> SpanMeasured:
    """Return the volume between the marks from a measured pour and the rise that it made.

    Parameters
    ----------
    poured_l : float
        What was poured, measured [L], above 0; half a litre is usual.
    before_fraction : float
        The reading before [-], -2 to 4: 0 the lower mark, 1 the upper one.
    after_fraction : float
        The reading after, taken alike [-], above the one before, to 4.
    stick_sigma : float
        How well each was read, as a share of the span [-], 0 to 1; readings repeated n times have it over the root of n.
    poured_sigma_l : float
        How well the pour was measured [L], not negative.

    Returns
    -------
    SpanMeasured
        Volume and deviation [L].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If the level did not rise.

    Notes
    -----
    ``poured / rise``; the deviations of two readings and of the pour in squares. Departs from the source: none.

    References
    ----------
    level_practice
    """
    require_within(poured_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
    for fraction in (before_fraction, after_fraction):
        require_within(fraction, quantity="level", source=SOURCE, low=-2.0, high=4.0)
    require_within(stick_sigma, quantity="stick", source=SOURCE, low=0.0, high=1.0)
    require_within(poured_sigma_l, quantity="deviation", unit="L", source=SOURCE, low=0.0)
    rise = after_fraction - before_fraction
    require(rise > 0.0, "level.no_rise", found=before_fraction, expected=after_fraction)
    span_l = poured_l / rise
    return SpanMeasured(span_l, span_l * math.hypot(math.sqrt(2.0) * stick_sigma / rise, poured_sigma_l / poured_l))


def run_down(*, minutes_min: Sequence[float], fractions: Sequence[float], between_marks_l: float) -> RunDown:
    """Return how oil runs down in an engine, from readings at several times after one stop.

    Parameters
    ----------
    minutes_min : sequence of float, shape (n,)
        Times since the stop [min], not negative, at least 3 different ones; 2, 5, 10 and 30 are usual.
    fractions : sequence of float, shape (n,)
        The reading at each [-], -2 to 4.
    between_marks_l : float
        Volume between the marks [L], above 0.

    Returns
    -------
    RunDown
        Upstairs [L], time [min] from 0.5 to 120, the settled reading [-], and the root mean square of what is not met [L].

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If there are not as many readings as times, or fewer than 3 different times.
    NoSolutionError
        If the readings do not rise: nothing ran down.

    Notes
    -----
    ``settled - upstairs exp(-t / tau) / span``; for each trial of tau the other two follow by least squares, and tau itself by
    a golden section in its logarithm. Departs from the source: none.

    References
    ----------
    level_practice
    """
    require(len(minutes_min) == len(fractions) and len(set(minutes_min)) > 2, "level.run_down", found=len(fractions))
    for minutes in minutes_min:
        require_within(minutes, quantity="time", unit="min", source=SOURCE, low=0.0)
    for fraction in fractions:
        require_within(fraction, quantity="level", source=SOURCE, low=-2.0, high=4.0)
    require_within(between_marks_l, quantity="span", unit="L", source=SOURCE, above=0.0)

    def fitted(log_tau: float) -> tuple[float, float, float]:
        shares = [math.exp(-minutes / math.exp(log_tau)) for minutes in minutes_min]
        middle, level = math.fsum(shares) / len(shares), math.fsum(fractions) / len(fractions)
        spread = math.fsum((share - middle) ** 2 for share in shares)
        slope = math.fsum((share - middle) * (at - level) for share, at in zip(shares, fractions, strict=True)) / spread
        settled = level - slope * middle
        return math.fsum((settled + slope * share - at) ** 2 for share, at in zip(shares, fractions, strict=True)), slope, settled

    low, high = math.log(TAU_LEAST_MIN), math.log(TAU_MOST_MIN)
    width = (high - low) / TRIALS
    best = min((low + step * width for step in range(TRIALS + 1)), key=lambda log_tau: fitted(log_tau)[0])
    low, high = max(best - width, low), min(best + width, high)
    while high - low > 1e-9:
        inner, outer = high - GOLDEN * (high - low), low + GOLDEN * (high - low)
        if fitted(inner)[0] < fitted(outer)[0]:
            high = outer
        else:
            low = inner
    missed, slope, settled = fitted(0.5 * (low + high))
    if slope >= 0.0:
        raise NoSolutionError("level.nothing_ran_down", found=fractions[0], expected=fractions[-1])
    misfit_l = between_marks_l * math.sqrt(missed / len(fractions))
    return RunDown(-slope * between_marks_l, math.exp(0.5 * (low + high)), settled, misfit_l)

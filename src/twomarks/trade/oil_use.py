"""How much oil is in the engine and how fast it goes, from several level checks and top-ups, one after the other.

A level that rises with nothing added is no good news: fuel or coolant has come in. It is told by itself.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.trade.arrays import require_within
from twomarks.trade.chance import normal_quantile
from twomarks.words import Figure, Message, say

__all__ = ["LevelCheck", "OilUse", "Rise", "TopUp", "UseStep", "oil_use"]

THOUSAND_KM = 1000.0
FLAT = 1.0e6
"""Variance of the use before anything is known of it [(L/1000 km)^2]: as good as none."""
SOURCE = "house_judgement"


@dataclass(frozen=True, slots=True)
class LevelCheck:
    """A check: the counter [km], the oil by the stick [L], and the standard uncertainty of that [L], above 0."""

    distance_km: float
    volume_l: float
    sigma_l: float


@dataclass(frozen=True, slots=True)
class TopUp:
    """Oil added: the counter [km], how much [L] (negative: taken out), and its standard uncertainty [L]."""

    distance_km: float
    volume_l: float
    sigma_l: float = 0.02


@dataclass(frozen=True, slots=True)
class UseStep:
    """What was known after one check: volume [L] and use [L/1000 km] with their deviations; no use after the first check."""

    distance_km: float
    volume_l: float
    volume_sigma_l: float
    use_l_per_1000km: float | None
    use_sigma: float | None


@dataclass(frozen=True, slots=True)
class Rise:
    """A level that stood higher than what was in it before and added since [L], by more than chance explains."""

    distance_km: float
    rise_l: float
    sigma_l: float
    what: Message


@dataclass(frozen=True, slots=True)
class OilUse:
    """The estimate after the last check, every step to it, and the rises; `is_creeping` where the use itself is below nothing.

    The estimate begins anew after a rise, as what came in hides what was used.
    """

    volume_l: float
    volume_sigma_l: float
    use_l_per_1000km: float | None
    use_sigma: float | None
    steps: tuple[UseStep, ...]
    rises: tuple[Rise, ...]
    is_creeping: bool


@dataclass(frozen=True, slots=True)
class _State:
    """Mean and covariance of volume [L] and use [L/1000 km] at one distance."""

    distance_km: float
    volume: float
    use: float
    vv: float
    vu: float
    uu: float
    checks: int

    def driven(self, distance_km: float, drift: float) -> _State:
        step = (distance_km - self.distance_km) / THOUSAND_KM
        grown = drift * drift
        return _State(
            distance_km,
            self.volume - step * self.use,
            self.use,
            self.vv - 2.0 * step * self.vu + step * step * self.uu + grown * step**3 / 3.0,
            self.vu - step * self.uu - grown * step * step / 2.0,
            self.uu + grown * step,
            self.checks,
        )

    def topped_up(self, top_up: TopUp) -> _State:
        return _State(self.distance_km, self.volume + top_up.volume_l, self.use, self.vv + top_up.sigma_l**2, self.vu, self.uu, self.checks)

    def checked(self, check: LevelCheck) -> _State:
        noise = check.sigma_l**2
        total = self.vv + noise
        gain_v, gain_u = self.vv / total, self.vu / total
        off = check.volume_l - self.volume
        # In the form that keeps variances above 0 when the first use is as good as unknown.
        return _State(
            self.distance_km,
            self.volume + gain_v * off,
            self.use + gain_u * off,
            noise * gain_v,
            noise * gain_u,
            self.uu - gain_u * self.vu,
            self.checks + 1,
        )

    def step(self) -> UseStep:
        known = self.checks > 1
        return UseStep(
            self.distance_km, self.volume, math.sqrt(self.vv), self.use if known else None, math.sqrt(self.uu) if known else None
        )


def oil_use(checks: Sequence[LevelCheck], top_ups: Sequence[TopUp] = (), *, drift: float = 0.0, p_rise: float = 0.01) -> OilUse:
    """Return how much oil is in the engine and how much of it is used, estimated check by check.

    Parameters
    ----------
    checks : sequence of LevelCheck, shape (n,)
        Level checks, at least one, in any order; taken under the same conditions where possible.
    top_ups : sequence of TopUp
        What was added or taken out, in any order; at the distance of a check it counts as after the check.
    drift : float
        How much the use itself wanders, as a standard deviation in L/1000 km over 1000 km [-], not negative; 0 holds it steady, and
        the estimate is then that of least squares.
    p_rise : float
        Chance of taking a reading's error for a rise [-], above 0 and below 0.5.

    Returns
    -------
    OilUse
        Volume [L] and use [L/1000 km] with standard uncertainties, and each rise.

    Raises
    ------
    InputError
        If there is no check.
    OutOfRangeError
        If a distance or a deviation is negative or a check's deviation 0, or anything is not a finite number.

    Notes
    -----
    A Kalman filter on volume and use. A check is compared with what was there at the last check and added since, as if none had
    been used: standing higher by more than chance is a rise. A use that is itself below 0 by more than chance is a creeping
    one. Departs from the source: none.

    References
    ----------
    house_judgement, level_practice
    """
    _require(checks, top_ups, drift, p_rise)
    limit = -normal_quantile(share=p_rise)
    told: list[tuple[float, int, LevelCheck | TopUp]] = [(one.distance_km, 0, one) for one in checks]
    told += [(one.distance_km, 1, one) for one in top_ups]
    state: _State | None = None
    unused: tuple[float, float] = (0.0, 0.0)
    steps: list[UseStep] = []
    rises: list[Rise] = []
    for distance_km, _, event in sorted(told, key=lambda one: one[:2]):
        if state is not None:
            state = state.driven(distance_km, drift)
        if isinstance(event, TopUp):
            if state is not None:
                state = state.topped_up(event)
                unused = (unused[0] + event.volume_l, unused[1] + event.sigma_l**2)
            continue
        if state is not None:
            rise = _rise(event, unused, limit)
            if rise is not None:
                rises.append(rise)
                state = None
        state = _State(distance_km, event.volume_l, 0.0, event.sigma_l**2, 0.0, FLAT, 1) if state is None else state.checked(event)
        unused = (state.volume, state.vv)
        steps.append(state.step())
    last = steps[-1]
    creeping = last.use_l_per_1000km is not None and last.use_sigma is not None and last.use_l_per_1000km + limit * last.use_sigma < 0.0
    return OilUse(
        last.volume_l, last.volume_sigma_l, last.use_l_per_1000km, last.use_sigma, tuple(steps), tuple(rises), is_creeping=creeping
    )


def _rise(check: LevelCheck, unused: tuple[float, float], limit: float) -> Rise | None:
    """Return how much higher a check stands than what was there and added, None where chance explains it."""
    there_l, variance = unused
    rise_l, sigma_l = check.volume_l - there_l, math.sqrt(variance + check.sigma_l**2)
    if rise_l <= limit * sigma_l:
        return None
    what = say("level.rise", rise=Figure(rise_l, "L"), sigma=Figure(sigma_l, "L"), at=Figure(check.distance_km, "km"))
    return Rise(check.distance_km, rise_l, sigma_l, what)


def _require(checks: Sequence[LevelCheck], top_ups: Sequence[TopUp], drift: float, p_rise: float) -> None:
    if not checks:
        raise InputError("level.no_checks")
    for check in checks:
        require_within(check.distance_km, quantity="distance", unit="km", source=SOURCE, low=0.0)
        require_within(check.volume_l, quantity="volume", unit="L", source=SOURCE)
        require_within(check.sigma_l, quantity="deviation", unit="L", source=SOURCE, above=0.0)
    for top_up in top_ups:
        require_within(top_up.distance_km, quantity="distance", unit="km", source=SOURCE, low=0.0)
        require_within(top_up.volume_l, quantity="volume", unit="L", source=SOURCE)
        require_within(top_up.sigma_l, quantity="deviation", unit="L", source=SOURCE, low=0.0)
    require_within(drift, quantity="drift", source=SOURCE, low=0.0)
    require_within(p_rise, quantity="chance", source=SOURCE, above=0.0, below=0.5)

"""Coolant of glycol and water, always by volume: when it freezes, what refills leave of it, what to drain to reach a target."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, cast

from twomarks.errors import InputError, NoSolutionError
from twomarks.reference.circuits import glycol as glycol_rows
from twomarks.trade.arrays import Real, Reals, interpolate, require, require_within
from twomarks.words import Figure, Message, say

__all__ = [
    "GLYCOLS",
    "CoolantState",
    "coolant_state",
    "drain_for_target",
    "freeze_point",
    "glycol_after_refills",
    "glycol_for",
    "refills_needed",
]

GLYCOLS = ("ethylene", "propylene")
MOST_PERCENT = 60.0
"""Above it the tables end, and the freezing point comes back up: no protection is claimed there."""
DOUBT_C = 2.0
"""How far additives and a reading by eye move the freezing point of a coolant below 50 % (judgement, no source)."""
MOST_REFILLS = 50


@dataclass(frozen=True, slots=True)
class CoolantState:
    """When a coolant begins to freeze, whether that is enough for the cold asked for, and what that means."""

    state: Literal["enough", "in doubt", "not enough", "told"]
    freeze_c: float
    reasons: tuple[Message, ...]


@cache
def _table(glycol: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    rows = glycol_rows(glycol)
    if not rows:
        raise InputError("coolant.glycol", where="glycol", found=glycol, expected=GLYCOLS)
    return tuple(row.volume_percent for row in rows), tuple(row.freeze_c for row in rows)


def freeze_point(*, glycol: str, volume_percent: Real) -> Real:
    """Return where the first ice crystals form in a mixture of glycol and water.

    Parameters
    ----------
    glycol : str
        ``ethylene`` or ``propylene``.
    volume_percent : float or ndarray, shape (n,)
        Share of pure glycol by volume [%], 0 to 60.

    Returns
    -------
    float or ndarray, shape (n,)
        Freezing point [C].

    Raises
    ------
    OutOfRangeError
        If a share is outside 0 to 60 % or not a number: above it no protection is claimed.
    InputError
        If the glycol is another one.

    Notes
    -----
    Straight between rows of 2.5 % by volume (of 10 % below 10 %). Range: 0 to 60 % by volume. Departs from the source: the line
    between rows is off by at most 0.06 K from 10 % up; below 10 % the source is silent and the line runs from water.

    References
    ----------
    coolprop_glycol
    langes_glycol
    ice_point
    """
    shares, points = _table(glycol)
    require_within(volume_percent, quantity="share of glycol", unit="%", source="coolprop_glycol", low=0.0, high=MOST_PERCENT)
    return interpolate(volume_percent, shares, points)


def glycol_for(*, glycol: str, freeze_c: Real) -> Real:
    """Return the share of glycol whose first ice crystals form at a temperature.

    Parameters
    ----------
    glycol : str
        ``ethylene`` or ``propylene``.
    freeze_c : float or ndarray, shape (n,)
        Freezing point wanted [C], from that of 60 % up to 0.

    Returns
    -------
    float or ndarray, shape (n,)
        Share of pure glycol by volume [%].

    Raises
    ------
    OutOfRangeError
        If a temperature is above 0 C, below what 60 % reaches, or not a number.
    InputError
        If the glycol is another one.

    Notes
    -----
    The reverse of `freeze_point`. Range: 0 to 60 % by volume. Departs from the source: as there.

    References
    ----------
    coolprop_glycol
    """
    shares, points = _table(glycol)
    require_within(freeze_c, quantity="freezing point", unit="C", source="coolprop_glycol", low=points[-1], high=0.0)
    return interpolate(freeze_c, tuple(reversed(points)), tuple(reversed(shares)))


def glycol_after_refills(*, start_percent: Real, new_percent: Reals, drained_percent: Reals, times: int = 1) -> Real:
    """Return the share of glycol after draining a part and filling up, several times over.

    Parameters
    ----------
    start_percent : float or ndarray, shape (n,)
        Share of glycol in the circuit by volume [%], 0 to 100.
    new_percent : float or ndarray, shape (n,)
        Share of glycol in what is filled in [%], 0 to 100.
    drained_percent : float or ndarray, shape (n,)
        What comes out each time, of the whole circuit [%], above 0, at most 100.
    times : int
        How often [-], 0 to 50.

    Returns
    -------
    float or ndarray, shape (n,)
        Share of glycol after it [%].

    Raises
    ------
    OutOfRangeError
        If a share is outside its range or not a number, or the count is outside 0 to 50.

    Notes
    -----
    ``c = c_new + (c_0 - c_new)(1 - f)^n``. Range: each time well mixed before the next draining, by a warm run with the heater
    open. Departs from the source: volumes are taken to add up, which glycol and water miss by less than 1 %.

    References
    ----------
    mixing_by_volume
    """
    for share in (start_percent, new_percent):
        require_within(share, quantity="share of glycol", unit="%", source="mixing_by_volume", low=0.0, high=100.0)
    require_within(drained_percent, quantity="share drained", unit="%", source="mixing_by_volume", above=0.0, high=100.0)
    require_within(float(times), quantity="refills", source="mixing_by_volume", low=0.0, high=float(MOST_REFILLS))
    stays: Any = (1.0 - drained_percent / 100.0) ** times
    return cast("Real", new_percent + (start_percent - new_percent) * stays)


def refills_needed(*, start_percent: float, new_percent: float, drained_percent: float, target_percent: float) -> int:
    """Return how many drain-and-refills bring the share of glycol to a target.

    Parameters
    ----------
    start_percent : float
        Share of glycol in the circuit by volume [%], 0 to 100.
    new_percent : float
        Share of glycol in what is filled in [%], 0 to 100.
    drained_percent : float
        What comes out each time, of the whole circuit [%], above 0, at most 100.
    target_percent : float
        Share wanted [%], 0 to 100.

    Returns
    -------
    int
        Number of refills [-], 0 where the target is met already.

    Raises
    ------
    OutOfRangeError
        If a share is outside its range or not a number.
    NoSolutionError
        If no number up to 50 reaches the target, because the new coolant lies on its near side or is the target itself while less
        than everything drains.

    Notes
    -----
    Range: up to 50 refills. Departs from the source: none.

    References
    ----------
    mixing_by_volume
    """
    shares = {"start_percent": start_percent, "new_percent": new_percent, "target_percent": target_percent}
    for share in shares.values():
        require_within(share, quantity="share of glycol", unit="%", source="mixing_by_volume", low=0.0, high=100.0)
    require_within(drained_percent, quantity="share drained", unit="%", source="mixing_by_volume", above=0.0, high=100.0)
    if start_percent == target_percent:
        return 0
    left = (target_percent - new_percent) / (start_percent - new_percent) if start_percent != new_percent else 2.0
    stays = 1.0 - drained_percent / 100.0
    if left == 0.0 and stays == 0.0:
        return 1
    if not 0.0 < left < 1.0:
        raise NoSolutionError("coolant.refills_never", **{name: f"{value:g}" for name, value in shares.items()})
    times = 1 if stays == 0.0 else math.ceil(math.log(left) / math.log(stays) - 1e-9)
    if times > MOST_REFILLS:
        raise NoSolutionError("coolant.refills_never", **{name: f"{value:g}" for name, value in shares.items()})
    return times


def drain_for_target(*, volume_l: Real, start_percent: Reals, target_percent: Reals, new_percent: Reals = 100.0) -> Real:
    """Return what to drain, once, and replace with concentrate or premix to reach a share of glycol.

    Parameters
    ----------
    volume_l : float or ndarray, shape (n,)
        All the coolant of the circuit [L], above 0, at most 100.
    start_percent : float or ndarray, shape (n,)
        Share of glycol in it by volume [%], 0 to 100.
    target_percent : float or ndarray, shape (n,)
        Share wanted [%], 0 to 60.
    new_percent : float or ndarray, shape (n,)
        Share of glycol in what is filled in [%], 0 to 100: 100 for concentrate, 0 for water.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume to drain and to fill in [L].

    Raises
    ------
    OutOfRangeError
        If a volume or a share is outside its range or not a number.
    InputError
        If the target does not lie between the coolant in the circuit and the one filled in: then no draining reaches it.

    Notes
    -----
    ``V (c_1 - c_0) / (c_new - c_0)``. Range: targets up to 60 %. Departs from the source: volumes are taken to add up.

    References
    ----------
    mixing_by_volume
    """
    require_within(volume_l, quantity="volume", unit="L", source="mixing_by_volume", above=0.0, high=100.0)
    for share in (start_percent, new_percent):
        require_within(share, quantity="share of glycol", unit="%", source="mixing_by_volume", low=0.0, high=100.0)
    require_within(target_percent, quantity="share of glycol", unit="%", source="mixing_by_volume", low=0.0, high=MOST_PERCENT)
    gap: Any = new_percent - start_percent
    told: dict[str, Any] = {"found": target_percent, "start": start_percent, "new": new_percent}
    require(gap != 0.0, "coolant.target_between", **told)
    # In one expression, so that NumPy works in place; a share of 1 stays exactly 1.
    drained: Any = volume_l * ((target_percent - start_percent) / gap)
    require((drained >= 0.0) & (drained <= volume_l), "coolant.target_between", **told)
    found: Real = drained
    return found


def coolant_state(*, glycol: str, volume_percent: float, coldest_c: float | None = None) -> CoolantState:
    """Return when a coolant freezes, in words, and whether that is enough for the cold expected.

    Parameters
    ----------
    glycol : str
        ``ethylene`` or ``propylene``.
    volume_percent : float
        Share of pure glycol by volume [%], 0 to 60.
    coldest_c : float or None
        Coldest temperature expected [C], -90 to 60; None where nobody asks.

    Returns
    -------
    CoolantState
        ``enough`` with at least 2 K to spare, ``in doubt`` within 2 K of the freezing point, ``not enough`` above that; ``told``
        where no cold is given.

    Raises
    ------
    OutOfRangeError
        If the share or the temperature is outside its range or not a number.
    InputError
        If the glycol is another one.

    Notes
    -----
    Below the freezing point there is slush, then solid. Range: 0 to 60 % by volume. Departs from the source: the 2 K are judgement;
    a table of the coolant's maker takes precedence.

    References
    ----------
    coolprop_glycol
    langes_glycol
    freeze_point_pages
    """
    freeze_c = freeze_point(glycol=glycol, volume_percent=volume_percent)
    reasons = [
        say("coolant.freezes", share=Figure(volume_percent, "%"), glycol=say(f"coolant.kind_{glycol}"), freeze=Figure(freeze_c, "C")),
        say("coolant.slush") if volume_percent > 0.0 else say("coolant.water"),
    ]
    if coldest_c is None:
        return CoolantState("told", freeze_c, tuple(reasons))
    require_within(coldest_c, quantity="temperature", unit="C", source="coolprop_glycol", low=-90.0, high=60.0)
    cold = Figure(coldest_c, "C")
    if coldest_c >= freeze_c + DOUBT_C:
        return CoolantState("enough", freeze_c, (*reasons, say("coolant.enough", coldest=cold)))
    state: Literal["in doubt", "not enough"] = "in doubt" if coldest_c >= freeze_c - DOUBT_C else "not enough"
    reasons.append(say("coolant.in_doubt" if state == "in doubt" else "coolant.not_enough", coldest=cold))
    wanted_c = coldest_c - DOUBT_C
    if wanted_c >= _table(glycol)[1][-1]:
        needed = Figure(float(math.ceil(glycol_for(glycol=glycol, freeze_c=min(wanted_c, 0.0)))), "%")
        reasons.append(say("coolant.needs", share=needed, coldest=cold))
    else:
        reasons.append(say("coolant.beyond", most=Figure(MOST_PERCENT, "%")))
    return CoolantState(state, freeze_c, tuple(reasons))

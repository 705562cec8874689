"""What to set on a torque wrench, in that wrench's own scale, and whether the wrench at hand suits the torque."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, Literal, cast

from twomarks import units
from twomarks.errors import OutOfRangeError
from twomarks.trade.arrays import Real, Reals, maths_of, require_within
from twomarks.words import Figure, Message, Value, say

__all__ = [
    "Tightening",
    "WrenchFit",
    "WrenchSetting",
    "adapter_setting",
    "adapter_torque",
    "nearest_mark",
    "tightening",
    "wrench_setting",
    "wrench_suits",
    "wrench_tolerance",
]

CHECKED_FROM_SHARE = 0.2
"""Share of the largest setting at which a wrench is first checked (ISO 6789:2003, secondary copy)."""
COARSEST_PERCENT = 4.0
"""How far rounding to the marks may go where the figure states no tolerance: what a wrench in order is allowed (ISO 6789)."""
MOST_DECIMALS = 3


@dataclass(frozen=True, slots=True)
class WrenchFit:
    """Whether a wrench suits a torque, the reason, and how far off a wrench in order may be [N.m]."""

    state: Literal["inside", "at the edge", "outside"]
    reason: Message
    tolerance_nm: float


@dataclass(frozen=True, slots=True)
class WrenchSetting:
    """What to set on one wrench, in its own scale.

    `setting` is the number on the scale and `text` the same with its unit; both are None or "" where the torque is beyond the
    scale or the marks are too coarse for it. `off_percent` is what rounding to the nearest mark alone does.
    """

    state: Literal["inside", "at the edge", "outside", "too coarse"]
    reason: Message
    setting: float | None = None
    setting_nm: float | None = None
    text: str = ""
    off_percent: float | None = None

    @property
    def suits(self) -> bool:
        """Whether this wrench can be used for the torque."""
        return self.setting is not None


@dataclass(frozen=True, slots=True)
class Tightening:
    """A tightening as the handbook states it, step by step, and whether the fastener must be a new one."""

    steps: tuple[Message, ...]
    new_fastener: bool


def adapter_setting(*, torque_nm: Real, wrench_length_m: Reals, adapter_length_m: Reals, angle_deg: Reals = 0.0) -> Real:
    """Return what to set on the wrench so that the fastening behind an adapter gets its torque.

    Parameters
    ----------
    torque_nm : float or ndarray, shape (n,)
        Torque at the fastening [N.m], above 0.
    wrench_length_m : float or ndarray, shape (n,)
        From the middle of the grip to the square drive [m], above 0.
    adapter_length_m : float or ndarray, shape (n,)
        From the square drive to the fastening [m], not negative.
    angle_deg : float or ndarray, shape (n,)
        Angle between wrench and adapter [deg], -360 to 360: 0 when the adapter lengthens the wrench, 90 square to it, 180 folded
        back.

    Returns
    -------
    float or ndarray, shape (n,)
        Setting [N.m].

    Raises
    ------
    OutOfRangeError
        If the torque or the wrench's length is not above 0, the adapter's is negative, the angle is outside its range, or the
        adapter is folded back by the length of the wrench or more, so that no setting exists.

    Notes
    -----
    ``T L / (L + E cos(angle))``; at 90 degrees nothing is corrected. Range: lengths between the hand's middle, the square and the
    fastening, in one plane. Departs from the source: none.

    References
    ----------
    adapter_pages
    """
    require_within(torque_nm, quantity="torque", unit="N.m", source="adapter_pages", above=0.0)
    return cast("Real", torque_nm * wrench_length_m / _reach(wrench_length_m, adapter_length_m, angle_deg))


def adapter_torque(*, setting_nm: Real, wrench_length_m: Reals, adapter_length_m: Reals, angle_deg: Reals = 0.0) -> Real:
    """Return the torque that arrives at the fastening behind an adapter when the wrench clicks.

    Parameters
    ----------
    setting_nm : float or ndarray, shape (n,)
        Setting of the wrench [N.m], above 0.
    wrench_length_m : float or ndarray, shape (n,)
        From the middle of the grip to the square drive [m], above 0.
    adapter_length_m : float or ndarray, shape (n,)
        From the square drive to the fastening [m], not negative.
    angle_deg : float or ndarray, shape (n,)
        Angle between wrench and adapter [deg], -360 to 360.

    Returns
    -------
    float or ndarray, shape (n,)
        Torque at the fastening [N.m].

    Raises
    ------
    OutOfRangeError
        As for `adapter_setting`.

    Notes
    -----
    The reverse of `adapter_setting`. Range: as there. Departs from the source: none.

    References
    ----------
    adapter_pages
    """
    require_within(setting_nm, quantity="torque", unit="N.m", source="adapter_pages", above=0.0)
    return cast("Real", setting_nm * _reach(wrench_length_m, adapter_length_m, angle_deg) / wrench_length_m)


def _reach(wrench_length_m: Any, adapter_length_m: Any, angle_deg: Any) -> Any:
    """Return the distance from the hand to the fastening, along the wrench."""
    require_within(wrench_length_m, quantity="length", unit="m", source="adapter_pages", above=0.0)
    require_within(adapter_length_m, quantity="length", unit="m", source="adapter_pages", low=0.0)
    require_within(angle_deg, quantity="angle", unit="deg", source="adapter_pages", low=-360.0, high=360.0)
    m = maths_of(wrench_length_m, adapter_length_m, angle_deg)
    reach_m = wrench_length_m + adapter_length_m * m.cos(m.radians(angle_deg))
    require_within(reach_m, quantity="length", unit="m", source="adapter_pages", above=1e-9)
    return reach_m


def wrench_tolerance(*, torque_nm: float) -> float:
    """Return how far a click wrench in order may be off.

    Parameters
    ----------
    torque_nm : float
        Torque set on the wrench [N.m], above 0.

    Returns
    -------
    float
        Permissible deviation to either side [N.m].

    Raises
    ------
    OutOfRangeError
        If the torque is not above 0.

    Notes
    -----
    4 % above 10 N.m, 6 % up to it (setting type, class A). Range: any torque above 0. Departs from the source: only a secondary
    copy was seen.

    References
    ----------
    iso_6789
    """
    require_within(torque_nm, quantity="torque", unit="N.m", source="iso_6789", above=0.0)
    return torque_nm * (0.04 if torque_nm > 10.0 else 0.06)


def wrench_suits(*, torque_nm: float, wrench_low_nm: float, wrench_high_nm: float) -> WrenchFit:
    """Return whether a wrench with a given scale can be trusted with a torque.

    Parameters
    ----------
    torque_nm : float
        Torque to be set [N.m], above 0.
    wrench_low_nm : float
        Lowest mark of the scale [N.m], not negative.
    wrench_high_nm : float
        Highest mark of the scale [N.m], above the lowest.

    Returns
    -------
    WrenchFit
        ``outside`` beyond the marks; ``at the edge`` below a fifth of the highest mark, where a wrench of the older edition is
        not checked; else ``inside``.

    Raises
    ------
    OutOfRangeError
        If the torque is not above 0 or the marks do not rise.

    Notes
    -----
    Range: from the lowest to the highest mark. Departs from the source: the word "at the edge" is ours; the 2017 edition starts
    the check at the lowest mark.

    References
    ----------
    iso_6789
    """
    if not 0.0 <= wrench_low_nm < wrench_high_nm:
        raise OutOfRangeError(quantity="lowest mark", value=wrench_low_nm, low=0.0, high=wrench_high_nm, unit="N.m", source="iso_6789")
    off_nm = wrench_tolerance(torque_nm=torque_nm)
    figures = {
        "torque": Figure(torque_nm, "N.m"),
        "low": Figure(wrench_low_nm, "N.m"),
        "high": Figure(wrench_high_nm, "N.m"),
        "tolerance": Figure(off_nm, "N.m"),
    }
    if torque_nm < wrench_low_nm:
        return WrenchFit("outside", say("torque.below_scale", **figures), off_nm)
    if torque_nm > wrench_high_nm:
        return WrenchFit("outside", say("torque.above_scale", **figures), off_nm)
    if torque_nm < CHECKED_FROM_SHARE * wrench_high_nm:
        return WrenchFit("at the edge", say("torque.low_on_scale", **figures), off_nm)
    return WrenchFit("inside", say("torque.inside_scale", **figures), off_nm)


def wrench_setting(
    *,
    torque_nm: float,
    wrench_low_nm: float,
    wrench_high_nm: float,
    graduation_nm: float,
    scale: str = "N.m",
    tolerance_percent: float | None = None,
) -> WrenchSetting:
    """Return what to set on a wrench, at the nearest mark of its own scale.

    Parameters
    ----------
    torque_nm : float
        Torque to be set [N.m], above 0.
    wrench_low_nm : float
        Lowest mark of the scale [N.m], not negative; the marks are counted from it.
    wrench_high_nm : float
        Highest mark of the scale [N.m], above the lowest.
    graduation_nm : float
        From mark to mark [N.m], above 0 and at most the length of the scale.
    scale : str
        Unit of the scale as a unit code, such as ``"lbf.ft"``.
    tolerance_percent : float or None
        Tolerance of the figure to either side [%], above 0, at most 50; None where the handbook states none.

    Returns
    -------
    WrenchSetting
        ``outside`` beyond the marks and ``too coarse`` where rounding to a mark alone goes further than the figure's tolerance (4 %
        where none is stated): then there is no setting. Else the setting and how far it is off.

    Raises
    ------
    OutOfRangeError
        If the torque is not above 0, the marks do not rise, the graduation does not fit the scale or the tolerance is outside its
        range.
    InputError
        If the scale is no unit of torque.

    Notes
    -----
    The deviation of the wrench itself comes on top and is told beside it. Range: from the lowest to the highest mark. Departs from
    the source: that marks too coarse for a figure are refused is ours, with the standard's 4 % as the measure.

    References
    ----------
    iso_6789
    exact_units
    """
    fit = wrench_suits(torque_nm=torque_nm, wrench_low_nm=wrench_low_nm, wrench_high_nm=wrench_high_nm)
    span_nm = wrench_high_nm - wrench_low_nm
    require_within(graduation_nm, quantity="graduation", unit="N.m", source="iso_6789", above=0.0, high=span_nm * (1.0 + 1e-9))
    mark = nearest_mark(
        torque_nm=torque_nm,
        graduation_nm=graduation_nm,
        from_nm=wrench_low_nm,
        to_nm=wrench_high_nm,
        scale=scale,
        tolerance_percent=tolerance_percent,
    )
    if fit.state == "outside":
        return WrenchSetting(fit.state, fit.reason)
    if fit.state == "inside" or not mark.suits:
        return mark
    return replace(mark, state=fit.state, reason=Message(mark.reason.key, {**mark.reason.figures, "edge": fit.reason}))


def nearest_mark(
    *,
    torque_nm: float,
    graduation_nm: float,
    from_nm: float = 0.0,
    to_nm: float = 10000.0,
    scale: str = "N.m",
    tolerance_percent: float | None = None,
) -> WrenchSetting:
    """Return the mark of a scale that is nearest to a torque; how far the scale reaches is not asked.

    Parameters
    ----------
    torque_nm : float
        Torque to be set [N.m], above 0.
    graduation_nm : float
        From mark to mark [N.m], above 0, at most 1000.
    from_nm : float
        Lowest mark, from which the others are counted [N.m], 0 to 10000.
    to_nm : float
        No mark lies above it [N.m], 0 to 10000.
    scale : str
        Unit of the scale as a unit code, such as ``"lbf.ft"``.
    tolerance_percent : float or None
        Tolerance of the figure to either side [%], above 0, at most 50; None where the handbook states none.

    Returns
    -------
    WrenchSetting
        ``inside`` with the setting, or ``too coarse`` without one.

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.
    InputError
        If the scale is no unit of torque.

    Notes
    -----
    Range: as above. Departs from the source: that marks too coarse for a figure are refused is ours, with the standard's 4 % as the
    measure where the figure states no tolerance.

    References
    ----------
    iso_6789
    exact_units
    """
    wrench_off_nm = wrench_tolerance(torque_nm=torque_nm)
    require_within(graduation_nm, quantity="graduation", unit="N.m", source="iso_6789", above=0.0, high=1000.0)
    for end_nm in (from_nm, to_nm):
        require_within(end_nm, quantity="torque", unit="N.m", source="iso_6789", low=0.0, high=10000.0)
    if tolerance_percent is not None:
        require_within(tolerance_percent, quantity="tolerance", unit="%", source="iso_6789", above=0.0, high=50.0)
    unit = units.unit_of(scale, kind="torque", where="scale")
    steps = min(round((torque_nm - from_nm) / graduation_nm), math.floor((to_nm - from_nm) / graduation_nm + 1e-9))
    setting_nm = from_nm + steps * graduation_nm
    off_percent = 100.0 * (setting_nm - torque_nm) / torque_nm
    allowed = COARSEST_PERCENT if tolerance_percent is None else tolerance_percent
    figures: dict[str, Value] = {
        "torque": Figure(torque_nm, "N.m"),
        "off": units.written(abs(off_percent), unit="%", decimals=1),
        "allowed": units.written(allowed, unit="%", decimals=1),
        "wrench": units.written(100.0 * wrench_off_nm / torque_nm, unit="%", decimals=0),
    }
    if abs(off_percent) > allowed * (1.0 + 1e-9):
        key = "torque.too_coarse" if tolerance_percent is None else "torque.too_coarse_for_figure"
        return WrenchSetting("too coarse", say(key, **figures), off_percent=off_percent)
    setting, graduation, low = (units.in_unit(value, unit="N.m", to=unit.code) for value in (setting_nm, graduation_nm, from_nm))
    text = units.written(setting, unit=unit.code, decimals=_decimals(graduation, low))
    direction = "exact" if abs(off_percent) < 0.05 else "over" if off_percent > 0 else "under"
    return WrenchSetting("inside", say(f"torque.set_{direction}", setting=text, **figures), setting, setting_nm, text, off_percent)


def _decimals(*values: float) -> int:
    """Return how many decimals the marks of a scale need."""
    return next(
        (places for places in range(MOST_DECIMALS) if all(abs(round(value, places) - value) < 1e-6 for value in values)), MOST_DECIMALS
    )


def tightening(*, torque_nm: float, angles_deg: tuple[float, ...] = (), to_yield: bool = False) -> Tightening:
    """Return a tightening as the handbook states it, passed through step by step: nothing in it is checked or replaced.

    Parameters
    ----------
    torque_nm : float
        Torque of the first step [N.m], above 0.
    angles_deg : tuple of float
        How far to turn after it, step by step [deg], each above 0 and at most 720.
    to_yield : bool
        Whether the handbook calls the fastener torque-to-yield (stretched for good).

    Returns
    -------
    Tightening
        The steps as sentences; with an angle or to yield the fastener must be a new one.

    Raises
    ------
    OutOfRangeError
        If the torque is not above 0 or an angle is outside its range.

    Notes
    -----
    An angle needs no correction for an adapter. Range: as above. Departs from the source: that every fastener tightened by angle
    is to be new is on the safe side; a handbook that lets one be used again says so itself.

    References
    ----------
    common_practice
    """
    require_within(torque_nm, quantity="torque", unit="N.m", source="common_practice", above=0.0)
    for angle in angles_deg:
        require_within(angle, quantity="angle", unit="deg", source="common_practice", above=0.0, high=720.0)
    steps = [say("torque.first_step", torque=Figure(torque_nm, "N.m"))]
    steps += [say("torque.turn_further", angle=Figure(angle, "deg")) for angle in angles_deg]
    is_new = bool(angles_deg) or to_yield
    if is_new:
        steps += [say("torque.new_fastener_yield" if to_yield else "torque.new_fastener"), say("torque.no_check_after")]
    return Tightening(tuple(steps), is_new)

"""What to set on a torque wrench, and whether the wrench at hand suits the torque."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from twomarks.errors import OutOfRangeError
from twomarks.words import Figure, Message, say

__all__ = ["WrenchFit", "adapter_setting", "wrench_suits", "wrench_tolerance"]

CHECKED_FROM_SHARE = 0.2
"""Share of the largest setting at which a wrench is first checked (ISO 6789:2003, secondary copy)."""


@dataclass(frozen=True, slots=True)
class WrenchFit:
    """Whether a wrench suits a torque, the reason, and how far off a wrench in order may be [N.m]."""

    state: Literal["inside", "at the edge", "outside"]
    reason: Message
    tolerance_nm: float


def adapter_setting(*, torque_nm: float, wrench_length_m: float, adapter_length_m: float, angle_deg: float = 0.0) -> float:
    """Return what to set on the wrench so that the fastening behind an adapter gets its torque.

    Parameters
    ----------
    torque_nm : float
        Torque at the fastening [N.m], above 0.
    wrench_length_m : float
        From the middle of the grip to the square drive [m], above 0.
    adapter_length_m : float
        From the square drive to the fastening [m], not negative.
    angle_deg : float
        Angle between wrench and adapter [deg]: 0 when the adapter lengthens the wrench, 90 square to it, 180 folded back.

    Returns
    -------
    float
        Setting [N.m].

    Raises
    ------
    OutOfRangeError
        If the torque or the wrench's length is not above 0, the adapter's is negative, or the adapter is folded back by the
        length of the wrench or more, so that no setting exists.

    Notes
    -----
    ``T L / (L + E cos(angle))``; at 90 degrees nothing is corrected. Departs from the source: none.

    References
    ----------
    adapter_pages
    """
    for quantity, value, unit in (("torque", torque_nm, "N.m"), ("length", wrench_length_m, "m")):
        if not value > 0.0:
            raise OutOfRangeError(quantity=quantity, value=value, low=0.0, unit=unit, source="adapter_pages")
    if not adapter_length_m >= 0.0:
        raise OutOfRangeError(quantity="length", value=adapter_length_m, low=0.0, unit="m", source="adapter_pages")
    reach_m = wrench_length_m + adapter_length_m * math.cos(math.radians(angle_deg))
    if not reach_m > 1e-9:
        raise OutOfRangeError(quantity="length", value=reach_m, low=0.0, unit="m", source="adapter_pages")
    return torque_nm * wrench_length_m / reach_m


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
    4 % above 10 N.m, 6 % up to it (setting type, class A). Departs from the source: only a secondary copy was seen.

    References
    ----------
    iso_6789
    """
    if not torque_nm > 0.0:
        raise OutOfRangeError(quantity="torque", value=torque_nm, low=0.0, unit="N.m", source="iso_6789")
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
    Departs from the source: the word "at the edge" is ours; the 2017 edition starts the check at the lowest mark.

    References
    ----------
    iso_6789
    """
    if not 0.0 <= wrench_low_nm < wrench_high_nm:
        raise OutOfRangeError(quantity="torque", value=wrench_low_nm, low=0.0, high=wrench_high_nm, unit="N.m", source="iso_6789")
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

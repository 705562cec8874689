"""What a tightening torque does to a clamping steel bolt, and nothing else: no torque is ever proposed from here.

A drain plug is no bolt: what seals, or screws into anything but steel, is not checked at all. The maker's figure always wins.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any, Literal, cast

from twomarks.reference.threads import PropertyClassRow, bolt_heads, property_classes
from twomarks.trade.arrays import Real, Reals, maths_of, require_within
from twomarks.trade.threads import Thread, stress_area
from twomarks.words import Figure, Message, Value, say

__all__ = ["PreloadCheck", "assembly_preload", "assembly_torque", "preload_check", "preload_short_form", "proof_load"]

FRICTION_OILED, FRICTION_AS_DELIVERED = 0.10, 0.14
"""The ends of the published table: an oiled thread turns a torque into more preload than one as delivered."""
UNUSUAL_BELOW_SHARE = 0.2
"""Share of the bolt's limit below which a figure for a clamping bolt is likely misread (judgement, no source)."""
SEALING = re.compile(
    r"\b(?:drain|fill|level|plug|cap|lid|cover|pan|sump|filter|element|housing|bleed|union|banjo|pipe|hose|fitting|spark|glow|sensor|sender"
    r"|switch|seal|gasket)(?:s|ing|er|ers)?\b"
)
"""Words of a part that seals; on the safe side, so that a word too many only leaves a bolt unchecked."""

State = Literal["within", "above the limit", "unusual", "not checked"]


@dataclass(frozen=True, slots=True)
class PreloadCheck:
    """What can be said of a torque on a bolt, and why; never another figure."""

    state: State
    reason: Message


def proof_load(*, thread: Thread, property_class: str) -> float | None:
    """Return the load that a bolt bears without a lasting stretch.

    Parameters
    ----------
    thread : Thread
        A metric thread.
    property_class : str
        Such as ``"8.8"``.

    Returns
    -------
    float or None
        Proof load [N]; None where thread or class is not in the tables.

    Raises
    ------
    OutOfRangeError
        If the thread's diameter or pitch is outside the range of a metric thread.

    Notes
    -----
    Stress area times proof stress. Range: classes 8.8, 9.8, 10.9, 12.9, from M6 to 39 mm. Departs from the source: the area is
    computed where no table prints it, so that the load differs from a printed one by up to 0.5 %.

    References
    ----------
    iso_898_1_tables
    iso_898_1_properties
    iso_68_thread
    """
    if thread.diameter_mm is None or thread.pitch_mm is None:
        return None
    strength = _strength(property_class, thread.diameter_mm)
    return None if strength is None else strength.proof_mpa * stress_area(diameter_mm=thread.diameter_mm, pitch_mm=thread.pitch_mm)


def assembly_preload(*, diameter_mm: Real, pitch_mm: Reals, yield_mpa: Reals, friction: Reals) -> Real:
    """Return the preload at which tightening uses 90 % of a bolt's yield strength.

    Parameters
    ----------
    diameter_mm : float or ndarray, shape (n,)
        Nominal diameter of the thread [mm], 1 to 100.
    pitch_mm : float or ndarray, shape (n,)
        Pitch [mm], above 0 and below a quarter of the diameter.
    yield_mpa : float or ndarray, shape (n,)
        Yield strength Rp0.2 [MPa], 100 to 2000.
    friction : float or ndarray, shape (n,)
        Coefficient of friction in the thread [-], 0.04 to 0.40.

    Returns
    -------
    float or ndarray, shape (n,)
        Preload [N].

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.
    InputError
        If a pitch is a quarter of its diameter or more.

    Notes
    -----
    ``0.9 Rp0.2 A0 / sqrt(1 + 3 [1.5 (d2/d0) (P/(pi d2) + 1.155 mu)]^2)`` with ``d0 = (d2 + d3)/2``. Range: metric threads of 60
    degrees. Departs from the source: none; it reproduces the printed preloads within 0.3 %.

    References
    ----------
    vdi_2230_table
    """
    area: Any = stress_area(diameter_mm=diameter_mm, pitch_mm=pitch_mm)
    require_within(yield_mpa, quantity="yield strength", unit="MPa", source="vdi_2230_table", low=100.0, high=2000.0)
    require_within(friction, quantity="friction", source="vdi_2230_table", low=0.04, high=0.40)
    m = maths_of(diameter_mm, pitch_mm, yield_mpa, friction)
    d2: Any = diameter_mm - 0.649519 * pitch_mm
    d0: Any = diameter_mm - 0.938194 * pitch_mm
    twist: Any = 1.5 * d2 / d0 * (pitch_mm / (math.pi * d2) + 1.155 * friction)
    return cast("Real", 0.9 * yield_mpa * area / m.sqrt(1.0 + 3.0 * twist * twist))


def assembly_torque(*, diameter_mm: float, pitch_mm: float, yield_mpa: float, friction: float) -> float | None:
    """Return the limit of a bolt: the torque that uses 90 % of its yield strength. Not a torque to tighten anything to.

    Parameters
    ----------
    diameter_mm : float
        Nominal diameter of the thread [mm]; M6, M8, M10, M12, M14 and M16 have a head here.
    pitch_mm : float
        Pitch [mm], above 0 and below a quarter of the diameter.
    yield_mpa : float
        Yield strength Rp0.2 [MPa], 100 to 2000.
    friction : float
        Coefficient of friction in thread and under the head [-], 0.04 to 0.40.

    Returns
    -------
    float or None
        Torque [N.m]; None where the head's measures are not known.

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.
    InputError
        If the pitch is a quarter of the diameter or more.

    Notes
    -----
    ``F [0.16 P + 0.58 d2 mu + mu (dw + dh)/4]``, hexagon head, medium hole. Range: M6 to M16. Departs from the source: none; it
    reproduces the printed torques within 0.7 % or their own rounding.

    References
    ----------
    vdi_2230_table
    iso_4014_chart
    iso_273_chart
    """
    head = bolt_heads().get(diameter_mm)
    force = assembly_preload(diameter_mm=diameter_mm, pitch_mm=pitch_mm, yield_mpa=yield_mpa, friction=friction)
    if head is None:
        return None
    d2 = diameter_mm - 0.649519 * pitch_mm
    arm_mm = 0.16 * pitch_mm + 0.58 * d2 * friction + friction * (head.washer_face_mm + head.hole_mm) / 4.0
    return force * arm_mm / 1000.0


def preload_short_form(*, torque_nm: Real, diameter_mm: Reals, nut_factor: Reals) -> Real:
    """Return the preload by the short form that workshops use.

    Parameters
    ----------
    torque_nm : float or ndarray, shape (n,)
        Tightening torque [N.m], above 0.
    diameter_mm : float or ndarray, shape (n,)
        Nominal diameter [mm], 1 to 100.
    nut_factor : float or ndarray, shape (n,)
        The factor K [-], 0.05 to 0.60; dry steel 0.18 to 0.27, oiled 0.10 to 0.26, zinc 0.17 to 0.35, stainless 0.30 to 0.50.

    Returns
    -------
    float or ndarray, shape (n,)
        Preload [N].

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.

    Notes
    -----
    ``F = T / (K d)``: one factor stands for all friction, so that the answer is a guess within a factor of two. Range: as above.
    Departs from the source: none.

    References
    ----------
    nut_factor_pages
    """
    require_within(torque_nm, quantity="torque", unit="N.m", source="nut_factor_pages", above=0.0)
    require_within(diameter_mm, quantity="diameter", unit="mm", source="nut_factor_pages", low=1.0, high=100.0)
    require_within(nut_factor, quantity="nut factor", source="nut_factor_pages", low=0.05, high=0.60)
    arm: Any = nut_factor * (diameter_mm / 1000.0)
    return cast("Real", torque_nm / arm)


def preload_check(
    *,
    torque_nm: float,
    thread: Thread,
    kind: Literal["sealing", "clamping", "unknown"],
    material: str = "",
    property_class: str = "",
    part: str = "",
    is_oiled: bool = False,
    by_angle: bool = False,
) -> PreloadCheck:
    """Return whether a bolt can bear a torque, where that can be said at all.

    Parameters
    ----------
    torque_nm : float
        Torque of the handbook [N.m], above 0.
    thread : Thread
        The thread.
    kind : str
        What the fastening is declared to do: ``clamping``, ``sealing`` or ``unknown``.
    material : str
        What the thread goes into: only ``steel`` is checked; "" is unknown.
    property_class : str
        Mark on the head, such as ``"8.8"``; "" is unknown.
    part : str
        What it is ("drain plug", "caliper bolt"): a part that seals is not checked whatever `kind` says.
    is_oiled : bool
        Whether thread and head are oiled; then the same torque loads the bolt more.
    by_angle : bool
        Whether it is tightened by angle or to yield; then a torque says nothing of the load.

    Returns
    -------
    PreloadCheck
        ``within``, ``above the limit``, ``unusual`` or ``not checked``, with the reason; never another figure.

    Raises
    ------
    OutOfRangeError
        If the torque is not above 0.

    Notes
    -----
    Above the limit: more than 90 % of the yield strength at friction 0.14 (0.10 where oiled). Unusual: below a fifth of the limit,
    which is judgement and a sign of a misread unit, thread or class; it never means that the figure is too low. Range: hexagon
    heads M6 to M16, classes 8.8 to 12.9. Departs from the source: a screening, no bolted-joint calculation.

    References
    ----------
    vdi_2230_table
    iso_898_1_properties
    house_judgement
    """
    require_within(torque_nm, quantity="torque", unit="N.m", source="vdi_2230_table", above=0.0)
    if kind == "sealing" or SEALING.search(part.casefold().replace("_", " ")):
        return _not_checked(say("preload.sealing"))
    if kind != "clamping":
        return _not_checked(say("preload.kind_unknown"))
    if not material.strip():
        return _not_checked(say("preload.material_unknown"))
    if material.strip().casefold() != "steel":
        return _not_checked(say("preload.material", material=material.strip()))
    if by_angle:
        return _not_checked(say("preload.by_angle"))
    if not property_class.strip():
        return _not_checked(say("preload.class_unknown"))
    if thread.diameter_mm is None or thread.pitch_mm is None or thread.diameter_mm not in bolt_heads():
        return _not_checked(say("preload.thread", thread=thread.name))
    strength = _strength(property_class.strip(), thread.diameter_mm)
    if strength is None:
        return _not_checked(say("preload.class_not_listed", property_class=property_class.strip()))
    limit_nm = assembly_torque(
        diameter_mm=thread.diameter_mm,
        pitch_mm=thread.pitch_mm,
        yield_mpa=strength.yield_mpa,
        friction=FRICTION_OILED if is_oiled else FRICTION_AS_DELIVERED,
    )
    assert limit_nm is not None
    told: dict[str, Value] = {"torque": Figure(torque_nm, "N.m"), "thread": thread.name, "property_class": strength.name}
    if torque_nm > limit_nm:
        return PreloadCheck("above the limit", say("preload.above_oiled" if is_oiled else "preload.above", **told))
    if torque_nm < UNUSUAL_BELOW_SHARE * limit_nm:
        return PreloadCheck("unusual", say("preload.unusual", **told))
    return PreloadCheck("within", say("preload.within_oiled" if is_oiled else "preload.within", **told))


def _not_checked(reason: Message) -> PreloadCheck:
    return PreloadCheck("not checked", reason)


def _strength(property_class: str, diameter_mm: float) -> PropertyClassRow | None:
    """Return the row of a class for a diameter; of two rows that meet at 16 mm the one up to it."""
    for row in property_classes():
        if row.name == property_class and row.diameter_from_mm <= diameter_mm <= row.diameter_to_mm:
            return row
    return None

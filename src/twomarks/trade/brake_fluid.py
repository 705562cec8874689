"""Brake fluid by class: what a measured boiling point says, and what may be mixed with what."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from twomarks.errors import InputError
from twomarks.reference.circuits import BrakeFluidRow, brake_fluids
from twomarks.trade.arrays import require_within
from twomarks.words import Figure, Message, Value, say

__all__ = ["BrakeFluidMixture", "BrakeFluidState", "brake_fluid_class", "brake_fluid_mixture", "brake_fluid_state"]

NEAR_C = 15.0
"""Above the wet limit by less than this it is renewed soon: a tester is no better (judgement, no source)."""
_CLASS = re.compile(r"(?:dot)?\s*[-.]?\s*(3|4|5\.1|5)\s*(?:silicone|\(silicone\))?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class BrakeFluidState:
    """What a boiling point says of the fluid in the system."""

    state: Literal["as new", "aged", "renew soon", "renew now"]
    row: BrakeFluidRow
    reason: Message
    cautions: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class BrakeFluidMixture:
    """Whether one class may be added to another."""

    state: Literal["same class", "same base", "never"]
    reason: Message


def brake_fluid_class(*, text: str) -> BrakeFluidRow:
    """Return the class that a cap or a bottle names.

    Parameters
    ----------
    text : str
        Such as ``"DOT 4"``, ``"dot5.1"``, ``"DOT 5 silicone"``.

    Returns
    -------
    BrakeFluidRow
        The class with its limits.

    Raises
    ------
    InputError
        If the text names none of the four classes: 5 and 5.1 are two of them, and not the same.

    Notes
    -----
    Range: DOT 3, 4, 5 and 5.1. Departs from the source: a maker's finer names (low viscosity) are not read; they are no classes here.

    References
    ----------
    fmvss_116
    """
    match = _CLASS.fullmatch(" ".join(text.split()))
    named = f"DOT {match[1]}" if match else ""
    row = brake_fluids().get(named)
    if row is None or ("silicone" in text.casefold() and row.base != "silicone"):
        raise InputError("brake_fluid.unknown", where="fluid", found=text, expected=tuple(brake_fluids()), example="DOT 4")
    return row


def brake_fluid_state(*, fluid: str, boiling_c: float) -> BrakeFluidState:
    """Return what a measured boiling point says of the fluid in the system.

    Parameters
    ----------
    fluid : str
        Class of the fluid, such as ``"DOT 4"``.
    boiling_c : float
        Boiling point measured with a boiling tester [C], 90 to 350.

    Returns
    -------
    BrakeFluidState
        ``as new`` at the dry limit or above, ``aged`` between, ``renew soon`` within 15 K above the wet limit, ``renew now`` at it or
        below.

    Raises
    ------
    OutOfRangeError
        If the boiling point is outside 90 to 350 C or not a number.
    InputError
        If the class is none of the four.

    Notes
    -----
    The limits are those a fluid must reach new and with 3.7 % water. Range: boiling testers, not strips or conductivity pens.
    Departs from the source: it sets limits for new fluid only; that fluid in use is renewed at the wet limit is common practice,
    the 15 K are judgement.

    References
    ----------
    fmvss_116
    common_practice
    house_judgement
    """
    require_within(boiling_c, quantity="boiling point", unit="C", source="fmvss_116", low=90.0, high=350.0)
    row = brake_fluid_class(text=fluid)
    state: Literal["as new", "aged", "renew soon", "renew now"]
    if boiling_c >= row.dry_min_c:
        state = "as new"
    elif boiling_c <= row.wet_min_c:
        state = "renew now"
    else:
        state = "renew soon" if boiling_c < row.wet_min_c + NEAR_C else "aged"
    figures: dict[str, Value] = {
        "boiling": Figure(boiling_c, "C"),
        "fluid": row.name,
        "dry": Figure(row.dry_min_c, "C"),
        "wet": Figure(row.wet_min_c, "C"),
    }
    cautions = [say("brake_fluid.licensed")]
    if row.base == "silicone":
        cautions.append(say("brake_fluid.silicone_water"))
    return BrakeFluidState(state, row, say(f"brake_fluid.{state.replace(' ', '_')}", **figures), tuple(cautions))


def brake_fluid_mixture(*, in_system: str, to_add: str) -> BrakeFluidMixture:
    """Return whether one class of brake fluid may be added to another.

    Parameters
    ----------
    in_system : str
        Class in the system, such as ``"DOT 4"``.
    to_add : str
        Class on the bottle.

    Returns
    -------
    BrakeFluidMixture
        ``same class``; ``same base`` for two of DOT 3, 4 and 5.1, where the handbook's class still decides; ``never`` for DOT 5 with
        any other.

    Raises
    ------
    InputError
        If a class is none of the four.

    Notes
    -----
    DOT 5 is silicone, the others are glycol ether; DOT 5.1 is not DOT 5. Range: the four classes. Departs from the source: none.

    References
    ----------
    brake_fluid_pages
    fmvss_116
    """
    there, added = brake_fluid_class(text=in_system), brake_fluid_class(text=to_add)
    names = {"there": there.name, "added": added.name}
    if there.base != added.base:
        return BrakeFluidMixture("never", say("brake_fluid.never", **names))
    if there == added:
        return BrakeFluidMixture("same class", say("brake_fluid.same_class", **names))
    weaker = min((there, added), key=lambda row: (row.wet_min_c, row.dry_min_c))
    return BrakeFluidMixture("same base", say("brake_fluid.same_base", weaker=weaker.name, **names))

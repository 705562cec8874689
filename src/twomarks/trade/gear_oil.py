"""Gear oil by service class and limited slip: whether what a bottle names is what the handbook asks for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from twomarks.errors import InputError
from twomarks.reference.circuits import gear_oil_classes
from twomarks.words import Message, say

__all__ = ["GearOilFit", "GearOilLabel", "gear_oil_fit", "gear_oil_label"]

Fit = Literal["meets", "does not meet", "not shown"]
GearUnit = Literal["gearbox", "axle", "transfer case"]
ORDER: tuple[Fit, ...] = ("meets", "not shown", "does not meet")
_CLASSES = re.compile(r"\bgl[\s-]*(\d)(?!\d)(?:\s?/\s?(?:gl[\s-]*)?(\d)\b)?|\bmt[\s-]*1\b", re.IGNORECASE)
_LIMITED_SLIP = re.compile(r"\b(?:lsd?|limited[\s-]*slip)\b", re.IGNORECASE)
_NO_LIMITED_SLIP = re.compile(r"\b(?:not|no|non|without)\b[\w\s-]{0,20}\b(?:lsd?|limited[\s-]*slip)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class GearOilLabel:
    """What a line on a bottle or in a handbook names: service classes, and limited slip (None where it is silent)."""

    classes: tuple[str, ...]
    limited_slip: bool | None


@dataclass(frozen=True, slots=True)
class GearOilFit:
    """Whether a gear oil is what is asked for, and each reason; `not shown` names what would settle it."""

    state: Fit
    reasons: tuple[Message, ...]


def gear_oil_label(*, text: str) -> GearOilLabel:
    """Return the service classes that a line names, in its order, and whether it speaks of limited slip.

    Parameters
    ----------
    text : str
        Such as ``"SAE 75W-90 API GL-4/GL-5"``, ``"80W-90 GL5 LS"``.

    Returns
    -------
    GearOilLabel
        Classes as "GL-4" or "MT-1".

    Raises
    ------
    InputError
        If it names a GL class that does not exist.

    Notes
    -----
    Range: GL-1 to GL-6 and MT-1. Departs from the source: a plus behind a class ("GL-4+") is the seller's word and is not read.

    References
    ----------
    api_1560_copies
    """
    found: list[str] = []
    for match in _CLASSES.finditer(text):
        found += [f"GL-{digit}" for digit in match.groups() if digit] or ["MT-1"]
    for name in found:
        if name not in gear_oil_classes():
            raise InputError("gear_oil.unknown", found=name, expected=tuple(gear_oil_classes()), example="GL-4")
    slip = None if not _LIMITED_SLIP.search(text) else not _NO_LIMITED_SLIP.search(text)
    return GearOilLabel(tuple(dict.fromkeys(found)), slip)


def gear_oil_fit(*, asked: str, label: str, unit: GearUnit, has_limited_slip: bool | None = None) -> GearOilFit:
    """Return whether a gear oil is of the class that the handbook asks for, and suits a limited slip axle where there is one.

    Parameters
    ----------
    asked : str
        What the handbook asks for; several classes are alternatives.
    label : str
        What the bottle names.
    unit : str
        What it goes into: ``gearbox``, ``axle`` or ``transfer case``.
    has_limited_slip : bool or None
        Whether the axle has a limited slip differential with clutches; None where nobody has looked.

    Returns
    -------
    GearOilFit
        ``meets``, ``does not meet`` or ``not shown``, with reasons.

    Raises
    ------
    InputError
        If `asked` names no class, or either names one that does not exist.

    Notes
    -----
    No class stands in for another: GL-5 where GL-4 is asked for attacks the yellow metal of synchronisers, and a label that names
    both leaves open which additives are in it. Range: service class only; the viscosity grade is another question. Departs from
    the source: none; the handbook always wins.

    References
    ----------
    api_1560_copies
    gear_oil_yellow_metal
    sae_2007_01_1988
    """
    wanted, named = gear_oil_label(text=asked), gear_oil_label(text=label)
    if not wanted.classes:
        raise InputError("gear_oil.no_class", where="asked", found=asked, expected=tuple(gear_oil_classes()), example="GL-4")
    judged = [_by_class(wanted.classes, named.classes, unit)]
    if unit == "axle":
        judged += _by_slip(has_limited_slip if has_limited_slip is not None else wanted.limited_slip, named.limited_slip)
    elif named.limited_slip:
        judged.append(("not shown", say("gear_oil.slip_in_gearbox")))
    return GearOilFit(max((state for state, _ in judged), key=ORDER.index), tuple(reason for _, reason in judged))


def _by_class(wanted: tuple[str, ...], named: tuple[str, ...], unit: GearUnit) -> tuple[Fit, Message]:
    if not named:
        return "not shown", say("gear_oil.label_silent", asked=wanted)
    shared = [name for name in wanted if name in named]
    has_gl5_unasked = "GL-5" in named and "GL-5" not in wanted
    if shared:
        if has_gl5_unasked and unit != "axle":
            return "not shown", say("gear_oil.both_named", asked=shared[0])
        return "meets", say("gear_oil.class_named", asked=shared[0])
    if has_gl5_unasked and "GL-4" in wanted:
        return "does not meet", say("gear_oil.gl5_for_gl4")
    if "GL-5" in wanted and "GL-4" in named:
        return "does not meet", say("gear_oil.gl4_for_gl5")
    return "does not meet", say("gear_oil.other_class", asked=wanted, named=named)


def _by_slip(has: bool | None, named: bool | None) -> list[tuple[Fit, Message]]:
    if has is None:
        return [("not shown", say("gear_oil.slip_not_known"))]
    if has and not named:
        return [("does not meet", say("gear_oil.slip_excluded")) if named is False else ("not shown", say("gear_oil.slip_not_named"))]
    if has:
        return [("meets", say("gear_oil.slip_named"))]
    return [("meets", say("gear_oil.slip_unneeded"))] if named else []

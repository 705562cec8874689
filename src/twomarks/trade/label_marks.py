"""What a label says beside grade, category and approval: which fluid it is, and the words that have a meaning of their own."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from twomarks.trade.category_names import Category
from twomarks.trade.doubt import CODE, doubts_mark
from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.grades import EngineOilGrade

__all__ = ["LIMITED_SLIP", "RESOURCE_CONSERVING", "fluid_of", "marks_in", "without_marks"]

LIMITED_SLIP = "limited slip"
RESOURCE_CONSERVING = "resource conserving"
BRAKE_FLUID, COOLANT, GEARBOX_FLUID, TWO_STROKE = "brake fluid", "coolant", "automatic gearbox fluid", "two-stroke oil"
ENGINE_OIL, GEAR_OIL = "engine oil", "gear oil"

_I = "(?i:"
_MARKS: tuple[tuple[str, str, str], ...] = (
    (RESOURCE_CONSERVING, "", rf"{_I}resource[\s-]+conserving|\bRC\b)"),
    ("energy conserving", "", rf"{_I}energy[\s-]+conserving)"),
    (LIMITED_SLIP, GEAR_OIL, rf"{_I}limited[\s-]+slip)|\bLSD?\b"),
    ("DOT {0}", BRAKE_FLUID, rf"\b{_I}DOT)[\s-]*(5\.1|[345])(?:[\s-]+LV)?(?![\d.])"),
    ("ISO 4925", BRAKE_FLUID, rf"\b{_I}ISO)\s*4925(?:[\s-]+{_I}class)[\s-]*\d(?:-\d)?)?"),
    (BRAKE_FLUID, BRAKE_FLUID, rf"\b{_I}brake(?:\s+(?:and|&)\s+clutch)?\s+fluid)\b"),
    ("{0}", COOLANT, r"\b((?:Si-?|P-?|H)?OAT|IAT)\b"),
    ("{0}", COOLANT, rf"\b({_I}ASTM\s*D\s*(?:3306|4985|6210)|BS\s*6580))\b"),
    ("{0}", COOLANT, rf"\b({_I}(?:mono)?(?:ethylene|propylene)[\s-]*glycol))\b"),
    (COOLANT, COOLANT, rf"\b{_I}(?:engine\s+)?coolant|anti-?freeze)\b"),
    (GEARBOX_FLUID, GEARBOX_FLUID, rf"\b(?:ATF\b|{_I}automatic\s+(?:transmission|gearbox)\s+fluid)\b)"),
    ("{0}", TWO_STROKE, rf"\b({_I}JASO)\s+F[A-D]|{_I}API)\s+T[A-D])\b"),
    (TWO_STROKE, TWO_STROKE, rf"\b{_I}(?:two|2)[\s-]*(?:stroke|cycle))\b"),
)
_PATTERNS = tuple((name, fluid, re.compile(pattern)) for name, fluid, pattern in _MARKS)
_KINDS = (BRAKE_FLUID, COOLANT, GEARBOX_FLUID, TWO_STROKE)


def _found(words: str) -> Iterator[tuple[str, re.Match[str]]]:
    for name, _, pattern in _PATTERNS:
        for match in pattern.finditer(words):
            said = " ".join((match[1] if match.lastindex else "").split())
            yield name.format(said), match


def marks_in(words: str) -> tuple[str, ...]:
    """Return the words of a label that have a meaning of their own, such as ``DOT 4``, ``OAT`` or ``limited slip``.

    Parameters
    ----------
    words : str
        A stretch of a label.

    Returns
    -------
    tuple of str
        In one spelling each, without those that other words leave in doubt ("not DOT 4").

    Notes
    -----
    What a mark promises is not looked into here. Departs from the sources: none.

    References
    ----------
    common_practice
    """
    return tuple(
        dict.fromkeys(name for name, match in _found(words) if not doubts_mark(f"{words[: match.start()]}{CODE}{words[match.end() :]}"))
    )


def without_marks(words: str) -> str:
    """Return a stretch of a label without its marks.

    Parameters
    ----------
    words : str
        A stretch of a label.

    Returns
    -------
    str
        What is left of it; a mark that is in doubt stays.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    kept = set(marks_in(words))
    spans = sorted((match.span() for name, match in _found(words) if name in kept), reverse=True)
    for start, end in spans:
        words = f"{words[:start]} {words[end:]}"
    return words


def fluid_of(*, marks: Iterable[str], grade: EngineOilGrade | GearOilGrade | None = None, categories: Iterable[Category] = ()) -> str:
    """Return which fluid a label is of.

    Parameters
    ----------
    marks : iterable of str
        The marks on the label.
    grade : EngineOilGrade or GearOilGrade, optional
        The viscosity grade on it.
    categories : iterable of Category
        The service categories on it.

    Returns
    -------
    str
        ``brake fluid``, ``coolant``, ``automatic gearbox fluid``, ``two-stroke oil``, ``gear oil``, ``engine oil``, or "" where
        the label does not say.

    Notes
    -----
    A word for the fluid comes before the grade: a brake fluid has none. Departs from the sources: none.

    References
    ----------
    sae_j300, sae_j306
    """
    kinds = {fluid for mark in marks for name, fluid, pattern in _PATTERNS if mark == name or ("{" in name and pattern.search(mark))}
    for kind in _KINDS:
        if kind in kinds:
            return kind
    lines = {category.row.line for category in categories}
    if isinstance(grade, GearOilGrade) or lines == {"gear"} or (GEAR_OIL in kinds and grade is None):
        return GEAR_OIL
    return ENGINE_OIL if isinstance(grade, EngineOilGrade) or lines - {"gear"} else ""

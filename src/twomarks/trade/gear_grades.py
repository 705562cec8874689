"""Viscosity grades of gear and axle oil: another scale than that of engine oil."""

from __future__ import annotations

import re
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.reference.tables import GearGradeRow, gear_grades

__all__ = ["GearOilGrade", "gear_limits_of", "parse_gear_grade"]

_GRADE = re.compile(r"(?:sae\s*)?(?:(\d{2})\s*w)?\s*[-/ ]?\s*(\d{2,3})?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class GearOilGrade:
    """A grade such as 75W-90; a single grade has one of the two parts empty."""

    winter: str = ""
    hot: str = ""

    def __str__(self) -> str:
        return "-".join(part for part in (self.winter, self.hot) if part)


def parse_gear_grade(text: str) -> GearOilGrade:
    """Return the gear oil grade written in a text.

    Parameters
    ----------
    text : str
        Such as ``75W-90`` or ``sae 80w90``.

    Returns
    -------
    GearOilGrade
        The grade in the standard's spelling.

    Raises
    ------
    InputError
        If the text is no grade of the driveline classification.

    References
    ----------
    sae_j306
    """
    match = _GRADE.fullmatch(text.strip())
    parts = [part for part in (f"{match[1]}W" if match[1] else "", match[2] or "") if part] if match else []
    if not parts or not set(parts) <= {row.grade for row in gear_grades()}:
        raise InputError("oil.grade_unknown", found=text, example="75W-90")
    return GearOilGrade(parts[0] if parts[0].endswith("W") else "", "" if parts[-1].endswith("W") else parts[-1])


def gear_limits_of(grade: str) -> tuple[GearGradeRow, ...]:
    """Return the limits that a gear oil of a grade keeps.

    Parameters
    ----------
    grade : str
        Such as ``75W-90``, ``80W`` or ``90``.

    Returns
    -------
    tuple of GearGradeRow
        The row of the W part and that of the hot part.

    Raises
    ------
    InputError
        If the text is no grade.

    Notes
    -----
    In documents from before 2005 a "90" could reach 24 and a "140" 41 mm2/s at 100 C.

    References
    ----------
    sae_j306
    """
    asked = parse_gear_grade(grade)
    return tuple(row for part in (asked.winter, asked.hot) if part for row in gear_grades() if row.grade == part)

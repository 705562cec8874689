"""Viscosity grades of gear and axle oil: another scale than that of engine oil."""

from __future__ import annotations

import re
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.reference.tables import GearGradeRow, gear_grades, gear_grades_before_2005
from twomarks.trade.arrays import require

__all__ = ["GearOilGrade", "gear_limits_before_2005", "gear_limits_of", "parse_gear_grade"]

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

    Notes
    -----
    Departs from the source: spaces, case and "SAE" do not matter.

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
    Upper limits at 100 C do not belong to the range. An edition of 2025 adds grades whose limits were not seen. Departs from
    the source: none.

    References
    ----------
    sae_j306
    """
    asked = parse_gear_grade(grade)
    return tuple(row for part in (asked.winter, asked.hot) if part for row in gear_grades() if row.grade == part)


def gear_limits_before_2005(hot: str) -> GearGradeRow | None:
    """Return what a hot grade could mean in documents from before 2005, where that differs.

    Parameters
    ----------
    hot : str
        A hot grade such as ``90`` or ``140``.

    Returns
    -------
    GearGradeRow or None
        Its wider band; None for a grade whose band did not change.

    Raises
    ------
    InputError
        If it is no hot grade of the driveline classification.

    Notes
    -----
    Grades 110 and 190 were cut out of 90 and 140 in 2005: "90" reached from 13.5 to 24, "140" from 24 to 41 mm2/s at 100 C.
    Departs from the source: none.

    References
    ----------
    sae_j306_2005
    """
    require(any(row.grade == hot and row.bf150_temp_c is None for row in gear_grades()), "oil.grade_unknown", found=hot, example="90")
    return next((row for row in gear_grades_before_2005() if row.grade == hot), None)

"""Viscosity grades of engine oil: their names and their limits."""

from __future__ import annotations

import re
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.reference.tables import GradeRow, engine_grades

__all__ = [
    "EngineOilGrade",
    "GradeLimits",
    "limits_of",
    "lowest_cranking_c",
    "lowest_pumping_c",
    "parse_grade",
]

GradeLimits = GradeRow

_GRADE = re.compile(r"(?:sae\s*)?(?:(\d{1,2})\s*w)?\s*[-/ ]?\s*(\d{1,2})?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class EngineOilGrade:
    """A grade such as 5W-30; a single grade has one of the two parts empty."""

    winter: str = ""
    hot: str = ""

    def __str__(self) -> str:
        return "-".join(part for part in (self.winter, self.hot) if part)


def parse_grade(text: str) -> EngineOilGrade:
    """Return the engine oil grade written in a text.

    Parameters
    ----------
    text : str
        Such as ``5W-30``, ``sae 5w30``, ``30`` or ``10W``.

    Returns
    -------
    EngineOilGrade
        The grade in the standard's spelling.

    Raises
    ------
    InputError
        If the text is no grade of the classification (gear oil grades are another scale).

    Notes
    -----
    Departs from the source: spaces, case and "SAE" do not matter.

    References
    ----------
    sae_j300
    """
    match = _GRADE.fullmatch(text.strip())
    winter = f"{int(match[1])}W" if match and match[1] else ""
    hot = str(int(match[2])) if match and match[2] else ""
    known = {row.grade for row in engine_grades()}
    if not (winter or hot) or not {part for part in (winter, hot) if part} <= known:
        raise InputError("oil.grade_unknown", found=text, example="5W-30")
    return EngineOilGrade(winter, hot)


def limits_of(grade: str) -> tuple[GradeLimits, ...]:
    """Return the limits that an oil of a grade keeps: the row of its W part and the row of its hot part.

    Parameters
    ----------
    grade : str
        Such as ``5W-30``, ``15W`` or ``40``.

    Returns
    -------
    tuple of GradeLimits
        One or two rows of the classification; the 40 row is the one that goes with the W part.

    Raises
    ------
    InputError
        If the text is no grade.

    Notes
    -----
    Upper limits at 100 C do not belong to the range. The lower limit of 20 is 6.9 mm2/s since 2013; many charts still print 5.6.
    Departs from the source: none.

    References
    ----------
    sae_j300, sae_j300_2013, sae_j300_1999
    """
    asked = parse_grade(grade)
    rows = [row for row in engine_grades() if row.grade == asked.winter]
    if asked.hot:
        rows.append(hot_row(asked.hot, asked.winter))
    return tuple(rows)


def hot_row(hot: str, winter: str) -> GradeLimits:
    """Return the row of a hot grade that goes with a W grade.

    Parameters
    ----------
    hot : str
        Such as ``40``; a grade of the classification.
    winter : str
        Such as ``5W``; "" for a single grade.

    Returns
    -------
    GradeLimits
        Its row; of the two rows of 40 the one for that W grade.

    Raises
    ------
    StopIteration
        If `hot` is no grade of the classification; a text is read by `parse_grade` first.

    Notes
    -----
    The high-shear limit of 40 is 3.5 mPa.s with 0W, 5W and 10W and 3.7 otherwise. Departs from the source: none.

    References
    ----------
    sae_j300, sae_j300_1999
    """
    fitting = [row for row in engine_grades() if row.grade == hot]
    return next(row for row in fitting if not row.with_winter or (winter or "none") in row.with_winter)


def _winter_row(winter: str) -> GradeRow:
    row = next((row for row in engine_grades() if row.grade == winter.upper() and row.ccs_temp_c is not None), None)
    if row is None:
        raise InputError("oil.grade_unknown", found=winter, example="5W-30")
    return row


def lowest_cranking_c(winter: str) -> float:
    """Return the temperature at which the cranking viscosity of a W grade is tested.

    Parameters
    ----------
    winter : str
        Such as ``5W``.

    Returns
    -------
    float
        Temperature of the cranking test [C].

    Raises
    ------
    InputError
        If it is no W grade.

    Notes
    -----
    A test point, not a permission: the handbook's chart decides. Departs from the source: none.

    References
    ----------
    sae_j300
    """
    row = _winter_row(winter)
    assert row.ccs_temp_c is not None
    return row.ccs_temp_c


def lowest_pumping_c(winter: str) -> float:
    """Return the temperature at which the pumping viscosity of a W grade is tested.

    Parameters
    ----------
    winter : str
        Such as ``5W``.

    Returns
    -------
    float
        Temperature of the pumping test [C], 5 C below that of cranking.

    Raises
    ------
    InputError
        If it is no W grade.

    Notes
    -----
    Departs from the source: none.

    References
    ----------
    sae_j300
    """
    row = _winter_row(winter)
    assert row.mrv_temp_c is not None
    return row.mrv_temp_c

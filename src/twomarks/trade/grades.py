"""Viscosity grades of engine oil: their names, their limits, and the grade that measured figures earn."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.reference.tables import GradeRow, engine_grades

__all__ = [
    "EngineOilGrade",
    "GradeLimits",
    "GradesFound",
    "LimitMiss",
    "grades_of",
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


@dataclass(frozen=True, slots=True)
class LimitMiss:
    """A limit that a measured figure fails: the grade, what was measured, the figure, the limit, and the unit."""

    grade: str
    quantity: str
    found: float
    limit: float
    unit: str


@dataclass(frozen=True, slots=True)
class GradesFound:
    """The grade that measured figures earn, the limits they fail, and what was not measured."""

    winter: str
    hot: str
    missed: tuple[LimitMiss, ...]
    not_measured: tuple[str, ...]

    @property
    def grade(self) -> EngineOilGrade | None:
        """The whole grade, or None where the figures earn none."""
        return EngineOilGrade(self.winter, self.hot) if self.winter or self.hot else None


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

    References
    ----------
    sae_j300, sae_j300_1999
    """
    asked = parse_grade(grade)
    rows = [row for row in engine_grades() if row.grade == asked.winter]
    if asked.hot:
        rows.append(_hot_row(asked.hot, asked.winter))
    return tuple(rows)


def _hot_row(hot: str, winter: str) -> GradeRow:
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


def grades_of(
    *,
    kv100_mm2_s: float,
    hths_mpa_s: float | None = None,
    ccs_mpa_s: Mapping[float, float] | None = None,
    mrv_mpa_s: Mapping[float, float] | None = None,
) -> GradesFound:
    """Return the grade that measured figures earn, with the limits that they fail.

    Parameters
    ----------
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s].
    hths_mpa_s : float, optional
        High-shear viscosity at 150 C [mPa.s].
    ccs_mpa_s : mapping of float to float, optional
        Cranking viscosity [mPa.s] by test temperature in C.
    mrv_mpa_s : mapping of float to float, optional
        Pumping viscosity without yield stress [mPa.s] by test temperature in C.

    Returns
    -------
    GradesFound
        The coldest W grade met and the highest hot grade met, each "" where none is; what was not measured is named and its
        limits are taken as kept.

    Notes
    -----
    Upper limits at 100 C are strict. An oil that meets several of the overlapping grades 8 to 20 is given the highest one (from
    memory). The high-shear limit of 40 depends on the W grade. Without any cranking figure no W grade is given.

    References
    ----------
    sae_j300, sae_j300_2013, sae_j300_1999, sae_j300_marking
    """
    missed: list[LimitMiss] = []
    not_measured = [name for name, value in (("hths", hths_mpa_s), ("ccs", ccs_mpa_s), ("mrv", mrv_mpa_s)) if not value]
    winter = _winter_met(kv100_mm2_s, ccs_mpa_s or {}, mrv_mpa_s or {}, missed) if ccs_mpa_s else ""
    hot = ""
    for row in engine_grades():
        if row.kv100_max_mm2_s is None or (row.with_winter and (winter or "none") not in row.with_winter):
            continue
        if not row.kv100_min_mm2_s <= kv100_mm2_s < row.kv100_max_mm2_s:
            continue
        if hths_mpa_s is not None and row.hths_min_mpa_s is not None and hths_mpa_s < row.hths_min_mpa_s:
            missed.append(LimitMiss(row.grade, "hths", hths_mpa_s, row.hths_min_mpa_s, "mPa.s"))
        else:
            hot = row.grade
    return GradesFound(winter, hot, tuple(missed), tuple(not_measured))


def _winter_met(kv100_mm2_s: float, ccs: Mapping[float, float], mrv: Mapping[float, float], missed: list[LimitMiss]) -> str:
    for row in engine_grades():
        if row.ccs_temp_c is None or row.ccs_temp_c not in ccs:
            continue
        checks = [("ccs", ccs[row.ccs_temp_c], row.ccs_max_mpa_s)]
        if row.mrv_temp_c is not None and row.mrv_temp_c in mrv:
            checks.append(("mrv", mrv[row.mrv_temp_c], row.mrv_max_mpa_s))
        misses = [LimitMiss(row.grade, name, found, limit, "mPa.s") for name, found, limit in checks if limit is not None and found > limit]
        if kv100_mm2_s < row.kv100_min_mm2_s:
            misses.append(LimitMiss(row.grade, "kv100", kv100_mm2_s, row.kv100_min_mm2_s, "mm2/s"))
        if not misses:
            return row.grade
        missed += misses
    return ""

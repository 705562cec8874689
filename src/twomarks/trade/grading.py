"""The engine oil grade that measured figures earn, and every limit that they fail."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.reference.tables import GradeRow, engine_grades
from twomarks.trade.arrays import require, require_within
from twomarks.trade.grade_limits import Limit, LimitMiss, Measure, misses
from twomarks.trade.grades import EngineOilGrade, hot_row, limits_of

__all__ = ["GradesFound", "grades_of", "hot_bands_of", "limits_in", "misses_of"]

Measured = Mapping[tuple[Measure, float | None], float]


@dataclass(frozen=True, slots=True)
class GradesFound:
    """The grade that measured figures earn, every limit of every grade that they fail, and what was not measured."""

    winter: str
    hot: str
    missed: tuple[LimitMiss, ...]
    not_measured: tuple[Measure, ...]

    @property
    def grade(self) -> EngineOilGrade | None:
        """The whole grade, or None where the figures earn none."""
        return EngineOilGrade(self.winter, self.hot) if self.winter or self.hot else None

    def missed_by(self, *grades: str) -> tuple[LimitMiss, ...]:
        """Return the limits of certain grades that the figures fail.

        Parameters
        ----------
        *grades : str
            Single grades of the classification such as ``5W`` or ``40``.

        Returns
        -------
        tuple of LimitMiss
            In the order of the table.

        Raises
        ------
        InputError
            If one of them is no single grade of the classification.

        Notes
        -----
        Valid for grades of the classification. Departs from the source: none.

        References
        ----------
        sae_j300
        """
        known = {row.grade for row in engine_grades()}
        for grade in grades:
            require(grade in known, "oil.grade_unknown", found=grade, example="5W")
        return tuple(miss for miss in self.missed if miss.grade in grades)


def limits_in(row: GradeRow) -> tuple[Limit, ...]:
    """Return the limits of one row of the classification.

    Parameters
    ----------
    row : GradeRow
        A row such as `limits_of` gives.

    Returns
    -------
    tuple of Limit
        Cranking, pumping, viscosity at 100 C and high shear, as far as the row sets them.

    Raises
    ------
    TypeError
        Never for a row; every row sets at least the limit at 100 C.

    Notes
    -----
    The pumping limit also asks that there is no yield stress. Departs from the source: none.

    References
    ----------
    sae_j300
    """
    found = []
    if row.ccs_max_mpa_s is not None:
        found.append(Limit(row.grade, "ccs", "at most", row.ccs_max_mpa_s, "mPa.s", row.ccs_temp_c))
    if row.mrv_max_mpa_s is not None:
        found.append(Limit(row.grade, "mrv", "at most", row.mrv_max_mpa_s, "mPa.s", row.mrv_temp_c))
    found.append(Limit(row.grade, "kv100", "at least", row.kv100_min_mm2_s, "mm2/s"))
    if row.kv100_max_mm2_s is not None:
        found.append(Limit(row.grade, "kv100", "below", row.kv100_max_mm2_s, "mm2/s"))
    if row.hths_min_mpa_s is not None:
        found.append(Limit(row.grade, "hths", "at least", row.hths_min_mpa_s, "mPa.s"))
    return tuple(found)


def grades_of(
    *,
    kv100_mm2_s: float,
    hths_mpa_s: float | None = None,
    ccs_mpa_s: Mapping[float, float] | None = None,
    mrv_mpa_s: Mapping[float, float] | None = None,
) -> GradesFound:
    """Return the grade that measured figures earn, with every limit that they fail.

    Parameters
    ----------
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s], above 0.
    hths_mpa_s : float, optional
        High-shear viscosity at 150 C [mPa.s], above 0.
    ccs_mpa_s : mapping of float to float, optional
        Cranking viscosity [mPa.s] by test temperature in C, above 0.
    mrv_mpa_s : mapping of float to float, optional
        Pumping viscosity without yield stress [mPa.s] by test temperature in C, above 0.

    Returns
    -------
    GradesFound
        The coldest W grade met and the highest hot grade met, each "" where none is; what was not measured is named and its
        limits are taken as kept.

    Raises
    ------
    OutOfRangeError
        If a figure is not above 0.
    InputError
        If a cranking or pumping figure stands at a temperature at which no grade is tested.

    Notes
    -----
    Upper limits at 100 C are strict. An oil that meets several of the overlapping grades 8 to 20 is given the highest one (from
    memory). The high-shear limit of 40 depends on the W grade. Without a cranking figure at its test temperature a W grade is
    not given. Departs from the source: what was not measured is taken as kept, and named.

    References
    ----------
    sae_j300, sae_j300_2013, sae_j300_1999, sae_j300_marking
    """
    measured = _measured(kv100_mm2_s, hths_mpa_s, ccs_mpa_s or {}, mrv_mpa_s or {})
    missed: list[LimitMiss] = []
    winter = hot = ""
    for row in (row for row in engine_grades() if row.ccs_temp_c is not None):
        failed = misses(limits_in(row), measured)
        missed += failed
        if not failed and not winter and ("ccs", row.ccs_temp_c) in measured:
            winter = row.grade
    for grade in dict.fromkeys(row.grade for row in engine_grades() if row.ccs_temp_c is None):
        failed = misses(limits_in(hot_row(grade, winter)), measured)
        missed += failed
        hot = hot if failed else grade
    return GradesFound(winter, hot, tuple(missed), _not_measured(winter, measured))


def misses_of(
    grade: str,
    *,
    kv100_mm2_s: float,
    hths_mpa_s: float | None = None,
    ccs_mpa_s: Mapping[float, float] | None = None,
    mrv_mpa_s: Mapping[float, float] | None = None,
) -> tuple[LimitMiss, ...]:
    """Return every limit of one grade that measured figures fail.

    Parameters
    ----------
    grade : str
        Such as ``5W-30``, ``15W`` or ``40``.
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s], above 0.
    hths_mpa_s : float, optional
        High-shear viscosity at 150 C [mPa.s], above 0.
    ccs_mpa_s : mapping of float to float, optional
        Cranking viscosity [mPa.s] by test temperature in C, above 0.
    mrv_mpa_s : mapping of float to float, optional
        Pumping viscosity without yield stress [mPa.s] by test temperature in C, above 0.

    Returns
    -------
    tuple of LimitMiss
        Empty where all that was measured keeps the limits.

    Raises
    ------
    OutOfRangeError
        If a figure is not above 0.
    InputError
        If the text is no grade, or a figure stands at a temperature at which no grade is tested.

    Notes
    -----
    What was not measured fails nothing. Departs from the source: none.

    References
    ----------
    sae_j300, sae_j300_2013, sae_j300_1999
    """
    measured = _measured(kv100_mm2_s, hths_mpa_s, ccs_mpa_s or {}, mrv_mpa_s or {})
    return tuple(miss for row in limits_of(grade) for miss in misses(limits_in(row), measured))


def hot_bands_of(*, kv100_mm2_s: float) -> tuple[str, ...]:
    """Return the grades in whose band at 100 C a viscosity lies, thinnest first.

    Parameters
    ----------
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s], above 0.

    Returns
    -------
    tuple of str
        Such as ``("16", "20")``, where bands overlap; empty below 4.0 and from 26.1 up.

    Raises
    ------
    OutOfRangeError
        If the viscosity is not above 0.

    Notes
    -----
    The band alone: whether an oil has the grade depends on high shear too. Departs from the source: none.

    References
    ----------
    sae_j300, sae_j300_2013
    """
    require_within(kv100_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="sae_j300", above=0.0)
    found = (
        row.grade for row in engine_grades() if row.kv100_max_mm2_s is not None and row.kv100_min_mm2_s <= kv100_mm2_s < row.kv100_max_mm2_s
    )
    return tuple(dict.fromkeys(found))


def _measured(kv100: float, hths: float | None, ccs: Mapping[float, float], mrv: Mapping[float, float]) -> Measured:
    require_within(kv100, quantity="kinematic viscosity", unit="mm2/s", source="sae_j300", above=0.0)
    found: dict[tuple[Measure, float | None], float] = {("kv100", None): kv100}
    if hths is not None:
        found["hths", None] = hths
    tested: tuple[tuple[Measure, Mapping[float, float], set[float | None]], ...] = (
        ("ccs", ccs, {row.ccs_temp_c for row in engine_grades()}),
        ("mrv", mrv, {row.mrv_temp_c for row in engine_grades()}),
    )
    for quantity, figures, temperatures in tested:
        for temp_c, figure in figures.items():
            expected = tuple(sorted(temp for temp in temperatures if temp is not None))
            require(temp_c in expected, "grade.test_temperature", found=temp_c, expected=expected)
            found[quantity, temp_c] = figure
    for (quantity, _), figure in found.items():
        if quantity != "kv100":
            require_within(figure, quantity="dynamic viscosity", unit="mPa.s", source="sae_j300", above=0.0)
    return found


def _not_measured(winter: str, measured: Measured) -> tuple[Measure, ...]:
    """Return what the grade found would still have to show."""
    missing: list[Measure] = [] if ("hths", None) in measured else ["hths"]
    if not any(quantity == "ccs" for quantity, _ in measured):
        missing.append("ccs")
    pumped = {temp_c for quantity, temp_c in measured if quantity == "mrv"}
    if not pumped or (winter and not pumped & {row.mrv_temp_c for row in engine_grades() if row.grade == winter}):
        missing.append("mrv")
    return tuple(missing)

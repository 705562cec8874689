"""The gear oil grade that measured figures earn, and every limit that they fail."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.reference.tables import GearGradeRow, gear_grades, gear_grades_before_2005
from twomarks.trade.arrays import require_within
from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.grade_limits import Limit, LimitMiss, Measure, misses

__all__ = ["GearGradesFound", "gear_grades_of", "gear_limits_in"]


@dataclass(frozen=True, slots=True)
class GearGradesFound:
    """The grade that measured figures earn, what it could be called before 2005, every limit failed, and what was not measured."""

    winter: str
    hot: str
    hot_before_2005: str
    missed: tuple[LimitMiss, ...]
    not_measured: tuple[Measure, ...]

    @property
    def grade(self) -> GearOilGrade | None:
        """The whole grade, or None where the figures earn none."""
        return GearOilGrade(self.winter, self.hot) if self.winter or self.hot else None


def gear_limits_in(row: GearGradeRow) -> tuple[Limit, ...]:
    """Return the limits of one row of the driveline classification.

    Parameters
    ----------
    row : GearGradeRow
        A row such as `gear_limits_of` gives.

    Returns
    -------
    tuple of Limit
        The cold limit and the band at 100 C, as far as the row sets them.

    Raises
    ------
    TypeError
        Never for a row; every row sets at least the limit at 100 C.

    Notes
    -----
    The cold limit is the highest temperature at which the oil may reach 150 000 mPa.s. Departs from the source: none.

    References
    ----------
    sae_j306
    """
    found = []
    if row.bf150_temp_c is not None:
        found.append(Limit(row.grade, "bf150", "at most", row.bf150_temp_c, "C"))
    found.append(Limit(row.grade, "kv100", "at least", row.kv100_min_mm2_s, "mm2/s"))
    if row.kv100_max_mm2_s is not None:
        found.append(Limit(row.grade, "kv100", "below", row.kv100_max_mm2_s, "mm2/s"))
    return tuple(found)


def gear_grades_of(*, kv100_mm2_s: float, bf150_temp_c: float | None = None) -> GearGradesFound:
    """Return the gear oil grade that measured figures earn, with every limit that they fail.

    Parameters
    ----------
    kv100_mm2_s : float
        Kinematic viscosity at 100 C [mm2/s], above 0.
    bf150_temp_c : float, optional
        Temperature at which the oil reaches 150 000 mPa.s in the cold [C], -100 to 50.

    Returns
    -------
    GearGradesFound
        The coldest W grade met and the hot grade, each "" where none is; no W grade without the cold figure.

    Raises
    ------
    OutOfRangeError
        If a figure lies outside its range.

    Notes
    -----
    Upper limits at 100 C are strict. Before 2005 a "90" reached up to 24 and a "140" up to 41 mm2/s. An edition of 2025 adds
    grades whose limits were not seen. The range of the cold figure is this project's judgement. Departs from the source: none.

    References
    ----------
    sae_j306, sae_j306_2005, house_judgement
    """
    require_within(kv100_mm2_s, quantity="kinematic viscosity", unit="mm2/s", source="sae_j306", above=0.0)
    measured: dict[tuple[Measure, float | None], float] = {("kv100", None): kv100_mm2_s}
    if bf150_temp_c is not None:
        require_within(bf150_temp_c, quantity="temperature", unit="C", source="sae_j306", low=-100.0, high=50.0)
        measured["bf150", None] = bf150_temp_c
    missed: list[LimitMiss] = []
    winter = hot = ""
    for row in gear_grades():
        failed = misses(gear_limits_in(row), measured)
        missed += failed
        if failed:
            continue
        if row.bf150_temp_c is None:
            hot = row.grade
        elif not winter and bf150_temp_c is not None:
            winter = row.grade
    old = next((row.grade for row in gear_grades_before_2005() if not misses(gear_limits_in(row), measured)), "")
    return GearGradesFound(winter, hot, old, tuple(missed), () if bf150_temp_c is not None else ("bf150",))

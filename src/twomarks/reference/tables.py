"""The published tables as typed rows; each row carries its source, where in it, and how far it was seen."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache

from twomarks import packaged

__all__ = [
    "GearGradeRow",
    "GradeRow",
    "Seen",
    "engine_grades",
    "gear_grades",
    "gear_grades_before_2005",
    "rows",
    "viscosity_index_basis",
]


@dataclass(frozen=True, slots=True)
class Seen:
    """Where a row comes from: key of the bibliography, place in the source, status letter."""

    source: str
    locator: str
    status: str


@dataclass(frozen=True, slots=True)
class GradeRow:
    """One row of the engine oil classification; None where it sets no limit."""

    grade: str
    with_winter: tuple[str, ...]
    ccs_max_mpa_s: float | None
    ccs_temp_c: float | None
    mrv_max_mpa_s: float | None
    mrv_temp_c: float | None
    kv100_min_mm2_s: float
    kv100_max_mm2_s: float | None
    hths_min_mpa_s: float | None
    seen: Seen


@dataclass(frozen=True, slots=True)
class GearGradeRow:
    """One row of the driveline classification; `bf150_temp_c` is the highest temperature for 150 000 mPa.s."""

    grade: str
    bf150_temp_c: float | None
    kv100_min_mm2_s: float
    kv100_max_mm2_s: float | None
    seen: Seen


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """Return the rows of the table `name` as text, by column."""
    return tuple(csv.DictReader(packaged.text(f"reference/{name}.csv").splitlines()))


def _seen(row: dict[str, str]) -> Seen:
    return Seen(row["source"], row["locator"], row["status"])


def _figure(text: str) -> float | None:
    return float(text) if text else None


@cache
def viscosity_index_basis() -> tuple[tuple[float, float, float], ...]:
    """Return (viscosity at 100 C, L, H) in mm2/s, rising, from 2 to 70 mm2/s."""
    return tuple((float(row["kv100_mm2_s"]), float(row["l_mm2_s"]), float(row["h_mm2_s"])) for row in rows("viscosity_index_lh"))


@cache
def engine_grades() -> tuple[GradeRow, ...]:
    """Return the limits of every engine oil grade, winter grades first, coldest first."""
    return tuple(
        GradeRow(
            row["grade"],
            tuple(row["with_winter"].split()),
            _figure(row["ccs_max_mpa_s"]),
            _figure(row["ccs_temp_c"]),
            _figure(row["mrv_max_mpa_s"]),
            _figure(row["mrv_temp_c"]),
            float(row["kv100_min_mm2_s"]),
            _figure(row["kv100_max_mm2_s"]),
            _figure(row["hths_min_mpa_s"]),
            _seen(row),
        )
        for row in rows("j300")
    )


@cache
def gear_grades() -> tuple[GearGradeRow, ...]:
    """Return the limits of every gear oil grade, winter grades first, coldest first."""
    return _gear_rows("j306")


@cache
def gear_grades_before_2005() -> tuple[GearGradeRow, ...]:
    """Return the bands that gear oil grades had before 2005 where they were wider than now."""
    return _gear_rows("j306_before_2005")


def _gear_rows(table: str) -> tuple[GearGradeRow, ...]:
    return tuple(
        GearGradeRow(
            row["grade"],
            _figure(row["bf150_temp_c"]),
            float(row["kv100_min_mm2_s"]),
            _figure(row["kv100_max_mm2_s"]),
            _seen(row),
        )
        for row in rows(table)
    )

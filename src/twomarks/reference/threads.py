"""The tables of threads, bolts and drives as typed rows; each row carries its source, where in it, and how far it was seen."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from twomarks.reference.tables import Seen, rows

__all__ = [
    "AcrossFlatsRow",
    "BoltHeadRow",
    "DriveRow",
    "PropertyClassRow",
    "ThreadRow",
    "across_flats",
    "bolt_heads",
    "drives",
    "property_classes",
    "threads",
]

Series = Literal["coarse", "fine"]


@dataclass(frozen=True, slots=True)
class ThreadRow:
    """One metric thread: nominal diameter, pitch, series, and the stress area where a table prints it."""

    name: str
    diameter_mm: float
    pitch_mm: float
    series: Series
    stress_area_mm2: float | None
    seen: Seen


@dataclass(frozen=True, slots=True)
class BoltHeadRow:
    """What bears under a hexagon head: smallest washer face and medium clearance hole."""

    diameter_mm: float
    washer_face_mm: float
    hole_mm: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class PropertyClassRow:
    """Strength of one property class for diameters above `diameter_from_mm` and up to `diameter_to_mm`."""

    name: str
    diameter_from_mm: float
    diameter_to_mm: float
    proof_mpa: float
    yield_mpa: float
    tensile_mpa: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class AcrossFlatsRow:
    """Spanner size of a hexagon head by thread diameter: the ISO size and the older one."""

    diameter_mm: float
    iso_mm: float
    older_mm: float
    seen: Seen


@dataclass(frozen=True, slots=True)
class DriveRow:
    """One kind of drive, what its size counts (``mm`` across flats, ``number``, or nothing), and the words people use for it."""

    name: str
    sized_by: Literal["mm", "number", ""]
    words: tuple[str, ...]
    seen: Seen


def _seen(row: dict[str, str]) -> Seen:
    return Seen(row["source"], row["locator"], row["status"])


@cache
def threads() -> dict[str, ThreadRow]:
    """Return the metric threads M6 to M24 by name; a coarse thread is named without its pitch."""
    return {
        row["thread"]: ThreadRow(
            row["thread"],
            float(row["diameter_mm"]),
            float(row["pitch_mm"]),
            cast("Series", row["series"]),
            float(row["stress_area_mm2"]) if row["stress_area_mm2"] else None,
            _seen(row),
        )
        for row in rows("threads")
    }


@cache
def bolt_heads() -> dict[float, BoltHeadRow]:
    """Return what bears under a hexagon head, by thread diameter in mm."""
    return {
        float(row["diameter_mm"]): BoltHeadRow(float(row["diameter_mm"]), float(row["washer_face_mm"]), float(row["hole_mm"]), _seen(row))
        for row in rows("bolt_heads")
    }


@cache
def property_classes() -> tuple[PropertyClassRow, ...]:
    """Return the strength of every property class, weakest first; 8.8 has two rows by diameter."""
    return tuple(
        PropertyClassRow(
            row["class"],
            float(row["diameter_from_mm"]),
            float(row["diameter_to_mm"]),
            float(row["proof_mpa"]),
            float(row["yield_mpa"]),
            float(row["tensile_mpa"]),
            _seen(row),
        )
        for row in rows("property_classes")
    )


@cache
def across_flats() -> dict[float, AcrossFlatsRow]:
    """Return the spanner sizes of hexagon heads, by thread diameter in mm."""
    return {
        float(row["diameter_mm"]): AcrossFlatsRow(float(row["diameter_mm"]), float(row["iso_mm"]), float(row["older_mm"]), _seen(row))
        for row in rows("across_flats")
    }


@cache
def drives() -> tuple[DriveRow, ...]:
    """Return the kinds of drive."""
    return tuple(
        DriveRow(row["drive"], cast("Literal['mm', 'number', '']", row["sized_by"]), tuple(row["words"].split("|")), _seen(row))
        for row in rows("drives")
    )

"""The service categories of oils as typed rows, and what sources say on one standing in for another."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from twomarks.reference.tables import Seen, rows

__all__ = [
    "Answer",
    "CategoryRow",
    "CategoryStep",
    "ClaimDates",
    "ClutchBand",
    "Limit",
    "categories",
    "category_dates",
    "category_steps",
    "clutch_bands",
]

Answer = Literal["yes", "no", "open"]


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure that a category asks for, with its own status letter: a row may mix what was read with what is remembered."""

    value: float
    status: str


@dataclass(frozen=True, slots=True)
class CategoryRow:
    """One service category: who issues it, its class, the line it belongs to, and the limits that tell it apart.

    `built_until` is the last year of building for which an obsolete category was meant.
    """

    body: str
    name: str
    line: str
    hths_min_mpa_s: Limit | None
    hths_max_mpa_s: Limit | None
    ash_max_percent: Limit | None
    tbn_min_mgkoh_g: Limit | None
    sulphur_max_ppm: Limit | None
    saps: str
    built_until: int | None
    caution: str
    seen: Seen

    @property
    def key(self) -> str:
        """The whole name, such as ``API CK-4``."""
        return f"{self.body} {self.name}"


@dataclass(frozen=True, slots=True)
class CategoryStep:
    """What a source says on using one category where another is asked for.

    `answer` is ``open`` where a source touches the question without settling it; `left_open` then names how. `chains` is true
    where the source's own rule carries over from step to step, `exceeds` where it says that the first does more than the second.
    """

    have: str
    asked: str
    answer: Answer
    chains: bool
    exceeds: bool
    left_open: str
    caution: str
    seen: Seen


def _limit(row: dict[str, str], name: str, status: str) -> Limit | None:
    return Limit(float(row[name]), row[status]) if row[name] else None


@cache
def categories() -> dict[str, CategoryRow]:
    """Return every known service category by its whole name, such as ``"API CK-4"``."""
    found = (
        CategoryRow(
            row["body"],
            row["class"],
            row["line"],
            _limit(row, "hths_min_mpa_s", "hths_status"),
            _limit(row, "hths_max_mpa_s", "hths_status"),
            _limit(row, "ash_max_percent", "ash_status"),
            _limit(row, "tbn_min_mgkoh_g", "tbn_status"),
            _limit(row, "sulphur_max_ppm", "sulphur_status"),
            row["saps"],
            int(row["built_until"]) if row["built_until"] else None,
            row["caution"],
            Seen(row["source"], row["locator"], row["status"]),
        )
        for row in rows("categories")
    )
    return {row.key: row for row in found}


@cache
def category_steps() -> dict[tuple[str, str], CategoryStep]:
    """Return what the sources say on one category standing in for another, by the pair of what is had and what is asked for."""
    found = (
        CategoryStep(
            row["have"],
            row["asked"],
            cast("Answer", row["answer"]),
            row["chains"] == "yes",
            row["exceeds"] == "yes",
            row["open"],
            row["caution"],
            Seen(row["source"], row["locator"], row["status"]),
        )
        for row in rows("category_steps")
    )
    return {(step.have, step.asked): step for step in found}


@dataclass(frozen=True, slots=True)
class ClaimDates:
    """When a category, or an edition of a whole class, may be claimed: from, for new claims, until; None where no day is set."""

    first: dt.date
    new_claims: dt.date | None
    last: dt.date | None
    seen: Seen


@dataclass(frozen=True, slots=True)
class ClutchBand:
    """The bands of the three clutch indices of a motorcycle class: dynamic friction, static friction, stop time."""

    name: str
    dynamic: tuple[float, float]
    static: tuple[float, float]
    stop: tuple[float, float]
    seen: Seen


def _day(text: str) -> dt.date | None:
    return dt.date.fromisoformat(text) if text else None


@cache
def category_dates() -> dict[tuple[str, str, int], ClaimDates]:
    """Return the dates of claims by issuer, category (of ACEA: light or heavy duty) and year of edition (else 0)."""
    found = {}
    for row in rows("category_dates"):
        key = row["body"], row["of"], int(row["edition"] or 0)
        first = dt.date.fromisoformat(row["first"])
        found[key] = ClaimDates(first, _day(row["new_claims"]), _day(row["last"]), Seen(row["source"], row["locator"], row["status"]))
    return found


@cache
def clutch_bands() -> tuple[ClutchBand, ...]:
    """Return the bands of the motorcycle classes, the widest first."""
    return tuple(
        ClutchBand(
            row["class"],
            (float(row["dfi_min"]), float(row["dfi_max"])),
            (float(row["sfi_min"]), float(row["sfi_max"])),
            (float(row["sti_min"]), float(row["sti_max"])),
            Seen(row["source"], row["locator"], row["status"]),
        )
        for row in rows("clutch_indices")
    )

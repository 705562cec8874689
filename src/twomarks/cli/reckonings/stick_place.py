"""A place on the stick as it is typed, and pairs such as an odometer reading with what was seen there."""

from __future__ import annotations

from twomarks import units
from twomarks.errors import InputError

__all__ = ["fraction_of", "parted"]

PER_CENT = 100.0
SEPARATOR = ":"


def fraction_of(key: str, text: str) -> float:
    """Return a place on the stick typed as 3/4, 0.75 or 75 %."""
    value, rest = units.split_number(text, decimal=".", where=key, example="3/4")
    if rest not in ("", "%"):
        raise InputError("reckon_calibration.place", where=key, found=text, example="3/4")
    return float(value) / (PER_CENT if rest else 1.0)


def parted(text: str, *, where: str, example: str) -> tuple[str, str]:
    """Return the two sides of text such as "148000 km: 3/4"."""
    first, colon, second = (part.strip() for part in text.partition(SEPARATOR))
    if not (first and colon and second):
        raise InputError("reckon_calibration.pair", where=where, found=text, example=example)
    return first, second

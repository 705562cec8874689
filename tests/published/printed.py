"""Expected values as their source prints them: a computed figure agrees when it rounds to what is printed."""

from __future__ import annotations

from decimal import Decimal


def half_a_unit(printed: str) -> float:
    """Return half a unit of the last printed digit."""
    return float(Decimal(1).scaleb(int(Decimal(printed).as_tuple().exponent)) / 2)


def agrees(computed: float, printed: str) -> bool:
    """Return whether `computed` is within half a unit of the last digit of `printed`."""
    return abs(computed - float(printed)) <= half_a_unit(printed) * (1 + 1e-9)

"""Money as people type it to whole minor units with a currency's code, and back."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from twomarks.errors import InputError
from twomarks.units.number import split_number

__all__ = ["amount_of", "digits_of", "minor_of"]

_CODE = re.compile(r"[A-Za-z]{3}")
_BEFORE = re.compile(r"\s*([A-Za-z]{3})\s*(\d.*)", re.DOTALL)
# ISO 4217, from memory: the currencies whose minor unit is not the hundredth part. All others are taken to have cents.
_DIGITS = {
    **dict.fromkeys(("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}
LARGEST = 10**12


def digits_of(currency: str) -> int:
    """Return how many decimals the amounts of a currency have."""
    return _DIGITS.get(currency, 2)


def minor_of(text: str, *, currency: str, decimal: str | None = None, where: str = "") -> tuple[int, str]:
    """Return an amount in whole minor units and its currency's code; a bare number is in `currency`.

    Raises
    ------
    InputError
        Where there is no number, more decimals than the currency has, an amount below nothing, or no code of three letters.
    """
    example = f"31.50 {currency}"
    turned = _BEFORE.fullmatch(text)
    value, rest = split_number(f"{turned[2]} {turned[1]}" if turned else text, decimal=decimal, where=where, example=example)
    code = (rest or currency).upper()
    if not _CODE.fullmatch(code):
        raise InputError("money.currency", where=where, found=rest, example=example)
    minor = value * 10 ** digits_of(code)
    if minor.denominator != 1 or not 0 <= minor <= LARGEST:
        raise InputError("money.amount", where=where, found=text, example=example)
    return int(minor), code


def amount_of(minor: int | Fraction, currency: str) -> Decimal:
    """Return minor units as an amount of the currency, rounded half to even to its decimals."""
    return Decimal(round(minor)).scaleb(-digits_of(currency))

"""Money as it is typed: whole minor units, the currency's own decimals, and never a guess."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from twomarks.errors import InputError
from twomarks.units import amount_of, digits_of, minor_of
from twomarks.words import Reader, message_of, render


@pytest.mark.parametrize(
    ("text", "minor", "code"),
    [
        ("31.50", 3150, "EUR"),
        ("31.5", 3150, "EUR"),
        ("31.50 usd", 3150, "USD"),
        ("EUR 1,234.50", 123_450, "EUR"),
        ("1500 JPY", 1500, "JPY"),
        ("2.125 KWD", 2125, "KWD"),
        ("0", 0, "EUR"),
    ],
)
def test_an_amount_is_whole_minor_units(text: str, minor: int, code: str) -> None:
    assert minor_of(text, currency="EUR", decimal=".") == (minor, code)


@pytest.mark.parametrize("text", ["31.505", "-3", "1.5 JPY", "much", "3 euros", "31.50 €", ""])
def test_what_is_no_amount_is_refused_in_words(text: str) -> None:
    with pytest.raises(InputError) as refused:
        minor_of(text, currency="EUR", decimal=".", where="--cost")
    assert "{" not in render(message_of(refused.value), Reader())


def test_minor_units_become_an_amount_with_the_decimals_of_the_currency() -> None:
    assert (amount_of(3150, "EUR"), amount_of(1500, "JPY"), amount_of(2125, "KWD")) == (Decimal("31.50"), Decimal(1500), Decimal("2.125"))
    assert amount_of(Fraction(5, 2), "EUR") == Decimal("0.02")
    assert digits_of("ISK") == 0

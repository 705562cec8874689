"""What people type becomes an exact quantity, or a refusal that says why."""

from __future__ import annotations

from fractions import Fraction

import pytest

from twomarks import units
from twomarks.errors import InputError


@pytest.mark.parametrize(
    ("text", "core", "kind"),
    [
        ("4.3 L", 4.3, "volume"),
        ("4,3 L", 4.3, "volume"),
        ("4.3L", 4.3, "volume"),
        ("5 1/2 US qt", 5.204941203, "volume"),
        ("120 000 km", 120000, "distance"),
        ("120'000 km", 120000, "distance"),
        ("1,234.5 km", 1234.5, "distance"),
        ("38 Nm", 38, "torque"),
        ("38 N·m", 38, "torque"),
        ("½ turn", 0.5, "turn"),
        ("1½ turns", 1.5, "turn"),
        ("−30 °C", -30, "temperature"),
        ("14 F", -10, "temperature"),
        ("2 years", 24, "months"),
    ],
)
def test_what_people_write_is_read(text: str, core: float, kind: str):
    found = units.quantity(text)
    assert found.core == pytest.approx(core, abs=1e-9)
    assert found.kind == kind


@pytest.mark.parametrize("word", ["qt", "quarts", "pt", "gal", "gallon", "fl oz", "oz", "ft lb", "lb-ft", "ton"])
def test_a_bare_market_unit_is_refused_without_a_market(word: str):
    with pytest.raises(InputError) as caught:
        units.quantity(f"5 {word}")
    assert caught.value.key == "units.bare"


@pytest.mark.parametrize(("market", "litres"), [("us", 0.946352946), ("uk", 1.1365225), ("au", 1.1365225)])
def test_a_typed_quart_is_read_by_the_market(market: str, litres: float):
    assert units.quantity("1 qt", market=market).core == pytest.approx(litres, abs=1e-12)


def test_a_metric_reader_has_no_quart():
    with pytest.raises(InputError) as caught:
        units.quantity("1 qt", market="metric")
    assert caught.value.key == "units.bare"


def test_a_number_that_can_be_read_two_ways_is_refused_unless_the_decimal_mark_is_known():
    with pytest.raises(InputError) as caught:
        units.quantity("148,210 km")
    assert (caught.value.values["first"], caught.value.values["second"]) == ("148210", "148.210")
    assert units.quantity("148,210 km", decimal=".").core == 148210


@pytest.mark.parametrize("text", ["", "km", "12 12 km", "1.2.3 km", "1/0 L", "nan L", "∞ L", "1" * 80 + " L"])
def test_what_is_no_number_is_refused(text: str):
    with pytest.raises(InputError):
        units.quantity(text)


def test_another_kind_than_expected_is_refused():
    with pytest.raises(InputError) as caught:
        units.quantity("38 N·m", kind="volume")
    assert caught.value.key == "units.kind"


@pytest.mark.parametrize("market", [None, "metric", "us"])
def test_a_bare_market_unit_of_another_kind_is_refused_for_its_kind(market: str | None):
    with pytest.raises(InputError) as caught:
        units.quantity("12 qt", kind="distance", market=market)
    assert (caught.value.key, caught.value.values["expected"]) == ("units.kind", "distance")


def test_an_unknown_unit_names_the_nearest():
    with pytest.raises(InputError) as caught:
        units.quantity("5 litrs")
    assert caught.value.values["nearest"] == "L"


def test_steps_round_half_to_even_once():
    assert units.steps(Fraction(5, 2000), kind="volume") == 2
    assert units.steps(Fraction(7, 2000), kind="volume") == 4
    assert units.quantity("1 mi").steps == 1609


def test_figures_are_written_with_their_unit():
    assert units.written(148210.0, unit="km") == "148\u202f210\u00a0km"
    assert units.written(-32.3, unit="C") == "\u221232.3\u00a0°C"
    assert units.written(1, unit="day") == "1\u00a0day"
    assert units.written(4.30, unit="L") == "4.3\u00a0L"

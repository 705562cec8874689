"""Messages become sentences in the reader's units and words."""

from __future__ import annotations

import datetime as dt
import math
from decimal import Decimal

import pytest

from twomarks import units
from twomarks.errors import DocumentError, InputError, OutOfRangeError
from twomarks.words import Figure, Message, Reader, Source, Wording, fill, from_plain, message_of, plain, render, say

METRIC = Reader()
US = Reader.of("us")


def test_a_figure_is_written_in_the_readers_unit():
    assert fill("{x}", {"x": Figure(38.0, "N.m")}, METRIC) == "38\u00a0N·m"
    assert fill("{x}", {"x": Figure(38.0, "N.m")}, US) == "28\u00a0lbf·ft"
    assert fill("{x.number}", {"x": Figure(38.0, "N.m")}, US) == "28"


def test_a_term_is_the_word_of_the_market():
    assert fill("open the {term.bonnet}", {}, US) == "open the hood"
    assert fill("open the {term.bonnet}", {}, METRIC) == "open the bonnet"


def test_an_optional_part_goes_when_a_figure_inside_is_missing():
    assert fill("found {a}[, expected {b}]", {"a": 1}, METRIC) == "found 1"
    assert fill("found {a}[, expected {b}]", {"a": 1, "b": ("x", "y")}, METRIC) == "found 1, expected x, y"


def test_one_and_many_have_their_own_words():
    assert [fill("{n} {n#reading|readings}", {"n": n}, METRIC) for n in (1, 2)] == ["1 reading", "2 readings"]


def test_a_date_is_in_the_order_of_the_market():
    figures = {"d": dt.date(2026, 11, 3)}
    assert fill("{d}", figures, METRIC) == "3 November 2026"
    assert fill("{d}", figures, US) == "November 3, 2026"


def test_a_fact_of_a_role_fills_its_placeholder():
    assert render(Wording("to {plug.torque}", {"plug.torque": Figure(38.0, "N.m")}), METRIC) == "to 38\u00a0N·m"


def test_money_keeps_its_two_places():
    assert fill("{x}", {"x": Figure(Decimal("12.5"), "EUR")}, METRIC) == "12.50\u00a0EUR"


def test_an_error_becomes_a_sentence_with_its_values():
    with pytest.raises(InputError) as caught:
        units.quantity("5 qt", where="--litres")
    assert render(message_of(caught.value), METRIC).startswith('--litres: "qt" means different amounts')


def test_the_faults_of_a_document_are_nested_messages():
    error = DocumentError(where="a.toml", faults=[InputError("units.unknown", where="line 3", found="x")])
    (fault,) = message_of(error).figures["faults"]
    assert isinstance(fault, Message)
    assert fault.key == "units.unknown"


def test_an_unknown_key_is_an_error():
    with pytest.raises(InputError):
        render(say("nowhere.nothing"), METRIC)


@pytest.mark.parametrize("market", ["uk", "us", "au", "metric"])
def test_every_preset_has_units_of_the_right_kind(market: str):
    assert all(units.UNITS[unit].kind == kind for kind, unit in Reader.of(market).units.items())


def test_a_value_comes_back_from_its_plain_form():
    message = say(
        "a.b",
        x=Figure(Decimal("3.20"), "EUR", Source("handbook", "p: 3"), "A."),
        y=(1, "a", dt.date(2026, 1, 1)),
        z=Wording("{a}", {"a": None}),
    )
    assert from_plain(plain(message)) == message


def test_what_is_usual_stays_a_round_figure_in_another_unit():
    assert fill("{x}", {"x": Figure(10_000, "km", Source("practice"))}, US) == "6200\u00a0mi"
    assert fill("{x}", {"x": Figure(10_000, "km", Source("handbook"))}, US) == "6214\u00a0mi"


def test_a_range_is_said_with_its_unit_and_whether_its_end_belongs_to_it():
    def told(reader: Reader = METRIC, **values: object) -> str:
        error = OutOfRangeError(**{"quantity": "density", "unit": "kg/m3", **values})  # type: ignore[arg-type]
        return render(message_of(error), reader).replace("\u00a0", " ")

    outside = "is outside the range in which an answer is valid"
    assert told(value=800.8, low=800.9, high=1163.5) == f"density 800.8 kg/m³ {outside}: at least 800.9 kg/m³, at most 1163.5 kg/m³."
    assert told(value=0.0, low=0.0, above=0.0) == f"density 0 kg/m³ {outside}: above 0 kg/m³."
    assert told(value=math.nan, index=1, more=2) == f"density NaN (not a number) at index 1 and 2 more {outside}."
    assert told(US, quantity="temperature", unit="C", value=150.0, high=120.0) == f"temperature 302 °F {outside}: at most 248 °F."

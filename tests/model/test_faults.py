"""All faults of a file come at once, each with its place, what was found and what was expected."""

from __future__ import annotations

import pickle
import re

import pytest

from tests.model.texts import BARE, SEVEN_FAULTS, faults, only_fault, vehicle
from twomarks import words
from twomarks.errors import DocumentError
from twomarks.model.loading import load
from twomarks.words import Reader, message_of, render

BARE_SHELF = 'format = "twomarks/shelf/1"\nname = "Shelf"\n'
PLANTED = (
    (3, "kind", "document.word", "vann"),
    (6, "engine.keyless", "document.type", "no"),
    (8, "circuits.engine_oil.capacity", "model.capacity", "capacity"),
    (9, "circuits.engine_oil.refill_with_filtr", "document.unknown_key", "refill_with_filtr"),
    (10, "circuits.engine_oil.between_marks", "units.bare", "qt"),
    (11, "circuits.engine_oil.settle", "fact.text", "8"),
    (14, "fastenings.plug.circuit", "model.reference", "engin_oil"),
)
KNOWN = frozenset(words.keys())
UNFILLED = re.compile(r"[{][a-z_]+[}#|]")


def test_seven_planted_faults_are_told_at_once_in_the_order_of_the_text() -> None:
    found = [(one.values["line"], one.values["path"], one.key, one.values["found"]) for one in faults(SEVEN_FAULTS)]
    assert found == list(PLANTED)


def test_each_fault_says_what_was_expected_or_gives_an_example() -> None:
    assert [one.key for one in faults(SEVEN_FAULTS) if not (one.values.get("expected") or one.values.get("example"))] == []


@pytest.mark.parametrize(
    ("refill", "span", "wrong"),
    [
        ("4.3 L", "6 L", True),
        ("4.3 L", "4300 mL", True),
        ("4.3 L", '{ value = "43 dL", source = "memory" }', True),
        ("4.3 L", "1.1 L", False),
    ],
)
def test_more_between_the_marks_than_the_whole_refill_is_a_fault(refill: str, span: str, wrong: bool) -> None:
    said = span if span.startswith("{") else f'"{span}"'
    text = vehicle(f'[circuits.engine_oil]\nrefill_with_filter = "{refill}"\nbetween_marks = {said}')
    if not wrong:
        load(text, where="sedge.toml")
        return
    found = only_fault(text)
    assert (found.key, found.values["path"], found.values["expected"]) == ("model.span", "circuits.engine_oil.between_marks", refill)


def test_misspelt_keys_words_and_references_name_the_nearest() -> None:
    nearest = {one.key: one.values["nearest"] for one in faults(SEVEN_FAULTS) if "nearest" in one.values}
    assert nearest == {"document.word": "van", "document.unknown_key": "refill_with_filter", "model.reference": "engine_oil"}


def test_the_report_names_the_file_and_counts_its_faults() -> None:
    with pytest.raises(DocumentError) as caught:
        load(SEVEN_FAULTS, where="sedge.toml")
    assert caught.value.values == {"where": "sedge.toml", "count": 7}


def test_a_report_survives_being_sent_to_another_process() -> None:
    with pytest.raises(DocumentError) as caught:
        load(SEVEN_FAULTS, where="sedge.toml")
    again = pickle.loads(pickle.dumps(caught.value))  # noqa: S301
    assert [(one.key, one.values) for one in again.faults] == [(one.key, one.values) for one in caught.value.faults]


def test_columns_count_signs_and_not_bytes() -> None:
    line = 'every = { time = "12 months", source = "told: Ödön, café", tim = "x" }'
    found = only_fault(vehicle(f"[items.oil]\n{line}"))
    assert (found.values["line"], found.values["column"]) == (BARE.count("\n") + 2, line.index("tim =") + 1)


def test_a_bare_capacity_asks_which_one_is_meant() -> None:
    found = only_fault(vehicle('[circuits.engine_oil]\ncapacity = "4.3 L"'))
    assert (found.key, found.values["path"]) == ("model.capacity", "circuits.engine_oil.capacity")
    assert found.values["expected"] == ("refill_with_filter", "refill_without_filter", "refill", "dry_fill")


@pytest.mark.parametrize("text", ["4 qt", "3 pt", "1 gal", "6 fl oz"])
def test_volumes_that_differ_between_countries_are_refused(text: str) -> None:
    found = only_fault(vehicle(f'[circuits.a]\nrefill = "{text}"'))
    assert (found.key, found.values["found"]) == ("units.bare", text.partition(" ")[2])
    assert len(tuple(found.values["expected"])) > 1  # type: ignore[call-overload]


@pytest.mark.parametrize("text", ["28 ft lb", "28 ft-lb"])
def test_a_torque_in_foot_pounds_says_which(text: str) -> None:
    assert only_fault(vehicle(f'[fastenings.a]\nkind = "sealing"\ntorque = "{text}"')).key == "units.bare"


def test_an_earlier_key_that_is_in_use_or_claimed_twice_is_refused() -> None:
    found = faults(vehicle('[circuits.a]\nwas = ["b"]\n[circuits.b]\n[slots.c]\nwas = ["x"]\n[slots.d]\nwas = ["x"]'))
    assert [(one.key, one.values["path"], one.values["found"]) for one in found] == [
        ("model.was", "circuits.a.was", "b"),
        ("model.was", "slots.d.was", "x"),
    ]


@pytest.mark.parametrize(
    ("more", "path"),
    [
        ('[circuits.oil]\n[fastenings.a]\nkind = "sealing"\ncircuit = "oyl"', "fastenings.a.circuit"),
        ('[slots.oil]\n[fastenings.a]\nkind = "sealing"\nseal = "oyl"', "fastenings.a.seal"),
        ('[circuits.oil]\n[items.a.roles]\noil = "oyl"', "items.a.roles.oil"),
    ],
)
def test_a_reference_to_a_part_that_there_is_not_is_refused(more: str, path: str) -> None:
    found = only_fault(vehicle(more))
    assert (found.key, found.values["path"], found.values["found"], found.values["nearest"]) == ("model.reference", path, "oyl", "oil")


BAD = {
    "no engine": 'format = "twomarks/vehicle/1"\nname = "Sedge"\nkind = "car"\n',
    "name is a number": BARE.replace('"Sedge"', "5"),
    "name is empty": BARE.replace('"Sedge"', '""'),
    "name is endless": BARE.replace("Sedge", "x" * 200),
    "id is no id": BARE.replace("name", 'id = "xyz"\nname', 1),
    "key in capitals": BARE + '[circuits.Engine-Oil]\nrefill = "4 L"\n',
    "engine is a text": 'format = "twomarks/vehicle/1"\nname = "Sedge"\nkind = "car"\nengine = "petrol"\n',
    "circuits are an array": BARE.replace("name", "circuits = []\nname", 1),
    "accepts is a table": BARE + '[circuits.a]\naccepts = { grades = ["5W-30"] }\n',
    "accepts are texts": BARE + '[circuits.a]\naccepts = ["5W-30"]\n',
    "grades are one text": BARE + '[circuits.a]\naccepts = [{ grades = "5W-30" }]\n',
    "retired is a word": BARE + '[circuits.a]\nretired = "yes"\n',
    "was is a text": BARE + '[circuits.a]\nwas = "b"\n',
    "source is a number": BARE + '[circuits.a]\nsource = 5\nrefill = "4 L"\n',
    "source of no kind": BARE + '[circuits.a]\nsource = "internet"\nrefill = "4 L"\n',
    "a figure is a number": BARE + "[circuits.a]\nrefill = 4.3\n",
    "a figure is a truth": BARE + "[circuits.a]\nrefill = true\n",
    "a figure has a strange key": BARE + '[circuits.a]\nrefill = { value = "4 L", sauce = "handbook" }\n',
    "a figure is empty": BARE + '[circuits.a]\nrefill = ""\n',
    "a figure is endless": BARE + f'[circuits.a]\nholds = "{"x" * 500}"\n',
    "confirmed is a truth": BARE + '[circuits.a]\nrefill = { value = "4 L", confirmed = true }\n',
    "confirmed at a group": BARE + '[circuits.a]\nconfirmed = "A."\nrefill = "4 L"\n',
    "a decimal comma": BARE + '[circuits.a]\nrefill = "4,3 L"\n',
    "a range": BARE + '[circuits.a]\nrefill = "4-5 L"\n',
    "words only": BARE + '[circuits.a]\nrefill = "some"\n',
    "a unit nobody knows": BARE + '[circuits.a]\nrefill = "4 litters"\n',
    "zero": BARE + '[circuits.a]\nrefill = "0 L"\n',
    "less than zero": BARE + '[circuits.a]\nrefill = "-4 L"\n',
    "too large": BARE + '[circuits.a]\nrefill = "1000000000000 L"\n',
    "half a thing": BARE + '[slots.a]\ncount = "1.5"\n',
    "a level nobody reads": BARE + '[circuits.a]\nlevel = "dipstik"\n',
    "an item's role": BARE + '[items.oil]\nroles = { oil = "engine_oil" }\n',
    "a price as a number": BARE_SHELF + '[oils.a]\nname = "A"\nlabel = "SAE 30"\n[shops.s]\nname = "S"\ncurrency = "EUR"\n'
    '[[shops.s.prices]]\nitem = "a"\nprice = 4.5\nday = 2026-01-01\n',
    "a price of an unknown thing": BARE_SHELF + '[shops.s]\nname = "S"\ncurrency = "EUR"\n'
    '[[shops.s.prices]]\nitem = "a"\nprice = "4.50"\nday = 2026-01-01\n',
    "a day as a text": BARE_SHELF + '[oils.a]\nname = "A"\nlabel = "SAE 30"\n[shops.s]\nname = "S"\ncurrency = "EUR"\n'
    '[[shops.s.prices]]\nitem = "a"\nprice = "4.50"\nday = "yesterday"\n',
    "a currency in full": BARE_SHELF + '[shops.s]\nname = "S"\ncurrency = "euro"\n',
    "a place off the earth": 'format = "twomarks/climate/1"\nname = "A"\nsource = "S"\n'
    'daily = "date,tmin_c,tmax_c\\n1982-01-01,1,3"\n[place]\nlatitude = 91.0\nlongitude = -181.0\n',
    "a place at no number": 'format = "twomarks/climate/1"\nname = "A"\nsource = "S"\n'
    'daily = "date,tmin_c,tmax_c\\n1982-01-01,1,3"\n[place]\nlatitude = nan\nlongitude = 4.0\n',
    "a procedure without steps": 'format = "twomarks/procedure/1"\nkey = "a"\ntitle = "A"\npurpose = "P"\nsteps = []\n',
    "a step that does nothing known": 'format = "twomarks/procedure/1"\nkey = "a"\ntitle = "A"\npurpose = "P"\n'
    '[[steps]]\nid = "one"\naction = "ponder"\nwords = "Ponder."\n',
    "no TOML": "format = \n",
    "no format": 'name = "Sedge"\n',
}


@pytest.mark.parametrize("text", BAD.values(), ids=BAD)
def test_a_refusal_speaks_in_our_own_words(text: str) -> None:
    for found in faults(text):
        assert found.key in KNOWN
        assert found.key != "document.not_accepted"
        sentence = render(message_of(found), Reader())
        assert f"line {found.values['line']}" in sentence
        assert UNFILLED.search(sentence) is None
        assert not [leak for leak in ("Input should", "pydantic", "None", "^[", "type=") if leak in sentence]


@pytest.mark.parametrize("text", BAD.values(), ids=BAD)
def test_a_refusal_knows_its_place(text: str) -> None:
    lines = text.count("\n") + 1
    assert all(1 <= int(str(found.values["line"])) <= lines and int(str(found.values["column"])) >= 1 for found in faults(text))


def test_one_misspelt_source_is_one_fault_however_many_figures_hang_on_it() -> None:
    found = only_fault(vehicle('[circuits.a]\nsource = "internet"\nrefill = "4 L"\ndry_fill = "5 L"\nbetween_marks = "1 L"'))
    assert (found.key, found.values["path"]) == ("source.kind", "circuits.a.source")

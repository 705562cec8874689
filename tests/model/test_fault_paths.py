"""What does not fit is named by its path, and what is misspelt by its nearest known word."""

from __future__ import annotations

import pytest

from tests.model.texts import faults, only_fault, vehicle


@pytest.mark.parametrize(
    ("more", "nearest"),
    [
        ('[circuits.engine_oil]\nrefill_with_filtr = "4.3 L"', "refill_with_filter"),
        ('[circuits.engine_oil]\nrefill = { value = "4.3 L", sorce = "told" }', "source"),
        ('[circuits.engine_oil]\n[fastenings.plug]\nkind = "sealing"\ncircuit = "engin_oil"', "engine_oil"),
        ('[fastenings.plug]\nkind = "sealin"', "sealing"),
        ('[circuits.engine_oil]\nlevel = "dipstik"', "dipstick"),
        ('[[circuits.engine_oil.accepts]]\ngrade = ["5W-30"]', "grades"),
        ('[items.oil.every]\ndistanse = "1 km"', "distance"),
    ],
)
def test_a_misspelt_word_names_the_nearest_known_one(more: str, nearest: str) -> None:
    assert only_fault(vehicle(more)).values["nearest"] == nearest


def test_an_unknown_key_lists_the_known_ones() -> None:
    known = only_fault(vehicle("[items.oil.every]\nzzz = 1")).values["expected"]
    assert known == ("distance", "fuel", "hours", "retired", "source", "time", "was")


@pytest.mark.parametrize(
    ("more", "key", "path"),
    [
        ('[fastenings.plug]\nkind = "sealing"\nseal = "washer"', "model.reference", "fastenings.plug.seal"),
        ('[items.oil]\nroles = { filter = "oil_filter" }', "model.reference", "items.oil.roles.filter"),
        ('[circuits.a]\nwas = ["b"]\n[circuits.b]', "model.was", "circuits.a.was"),
        ('[slots.a]\nwas = ["c"]\n[slots.b]\nwas = ["c"]', "model.was", "slots.b.was"),
        ('[circuits."Engine oil"]', "document.key_form", 'circuits."Engine oil"'),
        ('[items.oil]\nprocedure = "Engine Oil"', "document.key_form", "items.oil.procedure"),
        ('[circuits.a]\nrefill = { value = "1 L", confirmed = true }', "fact.words", "circuits.a.refill"),
        ("[circuits]\na = 4", "document.type", "circuits.a"),
        ('[circuits.a]\naccepts = ["5W-30"]', "document.type", "circuits.a.accepts[0]"),
        ('[slots.a]\nnumbers = "N-1"', "document.type", "slots.a.numbers"),
        ('[slots.a]\nnumbers = ["N-1", 2]', "fact.text", "slots.a.numbers[1]"),
    ],
)
def test_what_does_not_fit_is_named_by_its_path(more: str, key: str, path: str) -> None:
    fault = only_fault(vehicle(more))
    assert (fault.key, fault.values["path"]) == (key, path)


def test_the_column_is_that_of_the_key_in_signs() -> None:
    fault = only_fault(vehicle('[items.oil]\nevery = { source = "told: äöü", tme = "1 month" }'))
    assert (fault.values["line"], fault.values["column"]) == (7, 33)


def test_missing_keys_are_told_together() -> None:
    found = faults('format = "twomarks/vehicle/1"\n')
    assert [(fault.key, fault.values["expected"]) for fault in found] == [
        ("document.missing", "name"),
        ("document.missing", "kind"),
        ("document.missing", "engine"),
    ]


def test_an_example_is_of_the_kind_that_is_asked_for() -> None:
    assert only_fault(vehicle('[slots.rings]\ncount = "two"')).values["example"] == "3"
    assert only_fault(vehicle('[items.oil.every]\ndistance = "12000"')).values["example"] == "12000 km"

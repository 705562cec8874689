"""A fact: its text, its exact amount, its source and who confirmed it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.model.texts import only_fault, vehicle
from twomarks.errors import InputError
from twomarks.model.facts import Fact
from twomarks.model.loading import load_as
from twomarks.model.vehicle import VehicleSheet
from twomarks.words import Figure, Source

BOOK = Source("handbook", "p. 214")


def sheet(more: str) -> VehicleSheet:
    return load_as(VehicleSheet, vehicle(more), where="sedge.toml")


def facts(more: str) -> dict[str, Fact]:
    return dict(sheet(more).facts())


def test_a_fact_is_a_text_or_a_table_with_a_value() -> None:
    found = facts('[circuits.a]\nrefill = "4.3 L"\ndry_fill = { value = "5 L", source = "handbook: p. 214", confirmed = "A., 2026-03-02" }')
    assert found["circuits.a.refill"].figure == Figure(4.3, "L", Source("memory"))
    assert found["circuits.a.dry_fill"].figure == Figure(5.0, "L", BOOK, "A., 2026-03-02")


def test_the_amount_is_exact_and_stays_in_the_unit_it_was_written_in() -> None:
    fact = facts('[fastenings.plug]\nkind = "sealing"\ntorque = "28 lbf ft"\nturn = "3/4 turn"')["fastenings.plug.torque"]
    assert fact.quantity is not None
    assert fact.figure.unit == "lbf.ft"
    assert fact.figure.value == 28.0
    assert fact.core == pytest.approx(37.963, abs=0.001)
    turn = facts('[fastenings.plug]\nkind = "sealing"\nturn = "3/4 turn"')["fastenings.plug.turn"]
    assert turn.quantity is not None
    assert turn.quantity.exact == Fraction(3, 4)


def test_a_temperature_may_lie_below_zero() -> None:
    assert facts('[[circuits.a.accepts]]\ncoldest = "-30 C"')["circuits.a.accepts[0].coldest"].core == -30.0


def test_a_source_goes_down_through_groups_and_arrays() -> None:
    found = facts(
        '[circuits.a]\nsource = "handbook: p. 214"\nrefill = "4.3 L"\n'
        '[[circuits.a.accepts]]\ngrades = ["5W-30", { value = "0W-30", source = "told: B." }]\ncoldest = "-30 C"\n'
    )
    assert {path: str(fact.source) for path, fact in found.items()} == {
        "circuits.a.refill": "handbook: p. 214",
        "circuits.a.accepts[0].grades[0]": "handbook: p. 214",
        "circuits.a.accepts[0].grades[1]": "told: B.",
        "circuits.a.accepts[0].coldest": "handbook: p. 214",
    }


def test_the_nearest_source_counts() -> None:
    text = (
        '[items.oil]\nsource = "handbook: p. 9"\n[items.oil.every]\nsource = "told: B."\ntime = "12 months"\n'
        '[items.oil.hard_use]\ntime = "6 months"'
    )
    assert {path: fact.source.kind for path, fact in facts(text).items()} == {
        "items.oil.every.time": "told",
        "items.oil.hard_use.time": "handbook",
    }


def test_a_confirmation_is_never_handed_down() -> None:
    fault = only_fault(vehicle('[circuits.a]\nconfirmed = "A."\nrefill = "4.3 L"'))
    assert (fault.key, fault.values["found"]) == ("document.unknown_key", "confirmed")
    found = facts('[circuits.a]\nrefill = { value = "4.3 L", confirmed = "A." }\ndry_fill = "5 L"')
    assert (found["circuits.a.refill"].confirmed, found["circuits.a.dry_fill"].confirmed) == ("A.", "")


def test_a_fact_without_any_source_is_memory_and_listed() -> None:
    found = sheet('[circuits.a]\nrefill = "4.3 L"\ndry_fill = { value = "5 L", source = "memory: long ago" }')
    assert [str(fact.source) for _, fact in found.facts()] == ["memory", "memory: long ago"]
    assert found.unsourced == ("circuits.a.refill",)


def test_a_source_does_not_leak_into_a_neighbour() -> None:
    found = sheet('[circuits.a]\nsource = "told: B."\nrefill = "1 L"\n[circuits.b]\nrefill = "2 L"')
    assert found.unsourced == ("circuits.b.refill",)


def test_how_a_part_sits_is_a_fact_too() -> None:
    found = facts('[chassis]\nparking_brake = { value = "transmission", source = "told: B." }\n[circuits.a]\nlevel = "dipstick"')
    assert {path: (fact.text, fact.source.kind) for path, fact in found.items()} == {
        "chassis.parking_brake": ("transmission", "told"),
        "circuits.a.level": ("dipstick", "memory"),
    }


def test_approvals_looked_for_and_none_asked_differ_from_not_looked() -> None:
    looked, not_looked = sheet('[[circuits.a.accepts]]\napprovals = []\n[[circuits.a.accepts]]\ngrades = ["5W-30"]').circuits["a"].accepts
    assert looked.approvals == ()
    assert not_looked.approvals is None


def test_words_have_no_amount() -> None:
    fact = facts('[slots.a]\nsizes = "16 x 22"')["slots.a.sizes"]
    assert fact.figure == Figure("16 x 22", "", Source("memory"))
    with pytest.raises(InputError, match=r"fact\.no_number"):
        _ = fact.core


def test_a_part_without_a_name_is_called_by_its_key() -> None:
    found = sheet('[circuits.front_axle]\n[circuits.rear_axle]\nname = "the axle at the back"')
    assert [circuit.name for circuit in found.circuits.values()] == ["front axle", "the axle at the back"]


def test_a_renamed_part_remembers_its_earlier_key_and_a_lost_one_is_retired() -> None:
    found = sheet('[slots.oil_filter]\nwas = ["filter"]\n[slots.winch]\nretired = true')
    assert (found.slots["oil_filter"].was, found.slots["winch"].retired) == (("filter",), True)


def test_a_sheet_cannot_be_changed() -> None:
    found = sheet("[circuits.a]")
    with pytest.raises(ValueError, match="frozen"):
        found.circuits["a"].name = "b"  # type: ignore[misc]

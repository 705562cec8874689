"""Another owner's sheet comes in as told, with nothing confirmed and nothing lost."""

from __future__ import annotations

from uuid import UUID

import pytest

from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.theirs import as_told
from twomarks.model.vehicle import VehicleSheet

NEW = UUID("7d7f2e9e-6b0e-4a3c-9a53-1a8a5d3f0c11")
BARE = 'format = "twomarks/vehicle/1"\nname = "Bare"\nkind = "car"\nmake = "Invented"\n[engine]\nfuel = "petrol"\n'


@pytest.mark.parametrize("name", ["alder", "hazel", "rowan"])
def test_every_fact_is_told_and_none_confirmed_and_every_figure_stays(name: str) -> None:
    text = packaged.text(f"demo/files/{name}.toml")
    own = load_as(VehicleSheet, text, where=name)
    told = load_as(VehicleSheet, as_told(text, NEW, where=name), where=name)
    assert told.id == str(NEW) != own.id
    assert {fact.source.kind for _, fact in told.facts()} == {"told"}
    assert not [path for path, fact in told.facts() if fact.confirmed]
    assert [(path, fact.text) for path, fact in told.facts()] == [(path, fact.text) for path, fact in own.facts()]


def test_what_the_source_was_stays_in_its_words() -> None:
    text = BARE.replace('"Invented"', '{ value = "Invented", source = "stamped: door frame", confirmed = "A." }')
    told = load_as(VehicleSheet, as_told(text, NEW, where="x"), where="x")
    assert told.make is not None
    assert (str(told.make.source), told.make.confirmed) == ("told: stamped, door frame", "")


def test_a_fact_without_a_source_is_told_as_well() -> None:
    told = load_as(VehicleSheet, as_told(BARE, NEW, where="x"), where="x")
    assert told.make is not None
    assert told.make.source.kind == "told"


def test_what_was_told_before_is_told_once() -> None:
    once = as_told(BARE, NEW, where="x")
    assert as_told(once, NEW, where="x") == once

"""Documents: revisions stay, ids and keys are permanent, nothing is half kept."""

from __future__ import annotations

import tomllib

import pytest

from tests.keeping.samples import ALDER, ALDER_ID, SHELF, check, entry
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import documents, entries, levels, vehicles
from twomarks.keeping.services.households import find_scope, found_household

WITHOUT_ID = "\n".join(line for line in ALDER.splitlines() if not line.startswith("id ="))


def test_a_text_without_id_gets_one_and_becomes_a_vehicle(db: None) -> None:
    scope = found_household("Home", "A.")
    vehicle = vehicles.add_vehicle(scope, WITHOUT_ID, where="alder.toml")
    kept = questions.sheet_revision(scope, "Alder")
    assert tomllib.loads(kept.text)["id"] == str(vehicle.id)
    assert "# An invented car." in kept.text
    assert (vehicle.name, vehicle.kind, kept.number) == ("Alder", "car", 1)
    assert questions.vehicles(scope) == (vehicle,)


def test_a_known_id_is_a_new_revision_and_every_revision_stays(scope: Scope) -> None:
    changed = ALDER.replace("1.1 L", "1.2 L")
    revision = documents.save_document(scope, changed, where="alder.toml")
    assert (revision.document, revision.number) == (ALDER_ID, 2)
    assert [kept.text for kept in questions.revisions(scope, ALDER_ID)] == [ALDER, changed]
    assert questions.sheet_revision(scope, "Alder").text == changed
    assert questions.revision(scope, revision.sha256) == revision


def test_the_same_text_again_changes_nothing(scope: Scope) -> None:
    assert documents.save_document(scope, ALDER, where="alder.toml").number == 1


def test_a_vehicle_is_found_by_name_and_by_id(scope: Scope) -> None:
    assert questions.vehicle(scope, "Alder") == questions.vehicle(scope, str(ALDER_ID))
    assert questions.sheet(scope, "Alder").name == "Alder"


def test_an_unknown_vehicle_is_told_with_the_names_there_are(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        questions.sheet(scope, "Aldr")
    assert refused.value.key == "keeping.vehicle_unknown"
    assert refused.value.values == {"found": "Aldr", "expected": ("Alder",), "nearest": "Alder"}


def test_a_name_that_is_taken_is_refused(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        vehicles.add_vehicle(scope, WITHOUT_ID, where="again.toml")
    assert refused.value.key == "keeping.name_taken"
    assert len(questions.vehicles(scope)) == 1


def test_a_renamed_vehicle_keeps_its_history(scope: Scope) -> None:
    levels.record_level_check(scope, "Alder", check())
    documents.save_document(scope, ALDER.replace('"Alder"', '"Old Alder"'), where="alder.toml")
    assert len(questions.daybook(scope, "Old Alder").level_checks) == 1
    with pytest.raises(InputError):
        questions.vehicle(scope, "Alder")


def test_a_key_that_the_daybook_mentions_stays(scope: Scope) -> None:
    entries.record_entry(scope, "Alder", entry())
    gone = ALDER.replace("[items.engine_oil_and_filter]", "[items.oil_service]")
    with pytest.raises(InputError) as refused:
        documents.save_document(scope, gone, where="alder.toml")
    assert refused.value.key == "keeping.key_mentioned"
    assert refused.value.values["found"] == "items.engine_oil_and_filter"
    documents.save_document(scope, gone.replace("[items.oil_service]", '[items.oil_service]\nwas = ["engine_oil_and_filter"]'), where="a")


def test_a_second_shelf_list_is_refused(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        documents.save_document(scope, SHELF.replace("1d7c0b9e", "1d7c0b9f"), where="second.toml")
    assert refused.value.key == "keeping.one_shelf"


def test_a_document_that_is_no_vehicle_adds_none(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        vehicles.add_vehicle(scope, SHELF, where="shelf.toml")
    assert refused.value.key == "keeping.id_of_another"


def test_the_scope_is_found_by_names(db: None) -> None:
    with pytest.raises(InputError) as none:
        find_scope()
    assert none.value.key == "keeping.none_yet"
    scope = found_household("Home", "A.")
    assert find_scope() == scope
    found_household("Club", "B.")
    with pytest.raises(InputError) as several:
        find_scope()
    assert several.value.key == "keeping.which_one"
    assert several.value.values["expected"] == ("Club", "Home")
    assert find_scope(household="Home") == scope
    with pytest.raises(InputError) as unknown:
        find_scope(household="Hom")
    assert unknown.value.key == "keeping.name_unknown"

"""The procedures that ship: complete, in words of their own, with every figure by reference."""

from __future__ import annotations

import pytest

from tests.procedures import fluid_sheets, sheets
from tests.procedures.mistakes import bound
from twomarks.errors import DocumentError, InputError
from twomarks.model.loading import load
from twomarks.model.procedure import Procedure, Step, bare_figures, placeholders
from twomarks.procedures.library import library, procedure_text
from twomarks.reference.bibliography import references
from twomarks.words import Reader, Wording, message_of, render
from twomarks.words.catalogue import terms

FLUIDS = ("axle-oil", "brake-fluid", "coolant", "manual-gearbox-oil", "transfer-case-oil")
KEYS = (
    "auxiliary-belt-check",
    "axle-oil",
    "battery",
    "brake-fluid",
    "brake-pads-front",
    "brake-pads-rear",
    "coolant",
    "diesel-fuel-filter",
    "engine-air-filter",
    "engine-oil-cartridge",
    "engine-oil-spin-on",
    "manual-gearbox-oil",
    "transfer-case-oil",
    "tyre-rotation",
    "walk-round",
)
OIL_KEYS = ("engine-oil-cartridge", "engine-oil-spin-on")
FIXED_IDS = {
    "engine-oil-spin-on": "5d0d4f0e-6a53-4b0d-9c62-7a1f0b6c2e11",
    "engine-oil-cartridge": "8b7c1a52-20f4-4f7e-8a0b-3f5a9d64c8d3",
    "walk-round": "c1f7a9de-97c2-4be8-b8aa-1d3b5e0f4a76",
    "manual-gearbox-oil": "2f0c6d1e-94b3-4a57-8d2e-61c7f3a90b48",
    "transfer-case-oil": "7a94e2c0-3d1b-4f68-b5a7-0e8c2d6f1943",
    "axle-oil": "c8d5b7f1-06a2-4e39-9b74-5f1e3a2c8d60",
    "coolant": "9e1b3c57-4d80-4b6a-a1f2-2c7d5e90b384",
    "brake-fluid": "41d6a0b8-7c25-4e93-8f1d-b3a9065c7e12",
    "tyre-rotation": "2f8c1d04-93b6-4a7e-8d52-6e0b7f9a1c38",
    "battery": "90e7b6d3-1f4a-4c28-b5d9-3a86c2f07e14",
    "engine-air-filter": "6b0f2e95-d1c7-4f83-a26e-58d9c3b7014a",
    "diesel-fuel-filter": "a07d5c3e-68b1-49f2-8e40-1c95f7b2d863",
    "brake-pads-front": "3e7a9c20-b85f-4d16-9f02-6a4c81d5e7b9",
    "brake-pads-rear": "d2b5f8a1-4c39-4e07-8a6d-92f0e3b71c54",
    "auxiliary-belt-check": "f4c81a67-5e0d-4b92-93a4-d7216be05c8f",
}


def _texts(procedure: Procedure) -> list[str]:
    texts = [hazard.words for hazard in procedure.hazards] + [follow.words for follow in procedure.follow_ups]
    texts += [role.name for role in procedure.roles.values()] + [tool.name for tool in procedure.tools.values()]
    for step in procedure.steps:
        texts += [step.words, *(text for text in (step.look, step.accept, step.reject) if text)]
        texts += [caution.words for caution in step.caution] + ([step.condition.words] if step.condition else [])
    return texts


def test_the_library_holds_its_procedures_under_fixed_ids() -> None:
    assert {key: procedure.id for key, procedure in library().items()} == FIXED_IDS


@pytest.mark.parametrize("key", KEYS)
def test_a_library_procedure_loads_like_any_document(key: str) -> None:
    document = load(procedure_text(key), where=key)
    assert isinstance(document, Procedure)
    assert document.key == key


def _on_air(step: Step) -> bool:
    return step.condition is not None and "air_suspension" in step.condition.when


@pytest.mark.parametrize(
    ("key", "fewest", "most"),
    [
        ("engine-oil-cartridge", 45, 50),
        ("engine-oil-spin-on", 45, 49),
        ("walk-round", 12, 15),
        *((key, 33, 41) for key in FLUIDS),
    ],
)
def test_a_card_is_short_enough_to_be_worked_from(key: str, fewest: int, most: int) -> None:
    steps = library()[key].steps
    assert fewest <= sum(len(step.each) or 1 for step in steps if not _on_air(step)) <= most
    assert sum(len(step.each) or 1 for step in steps if _on_air(step)) <= 2


@pytest.mark.parametrize("key", KEYS)
def test_every_move_has_an_id_of_its_own(key: str) -> None:
    names = [move.id for step in library()[key].steps for move in step.moves]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("key", OIL_KEYS)
def test_every_reading_of_the_stick_says_what_to_do_when_it_shows_no_oil(key: str) -> None:
    readings = [
        step for step in library()[key].steps if step.action == "measure" and "dipstick" in step.acted_on and step.condition is None
    ]
    assert len(readings) == 3
    for step in readings:
        assert "elow the lower mark" in (step.reject or "")


@pytest.mark.parametrize("key", KEYS)
def test_no_figure_is_typed_into_the_words(key: str) -> None:
    assert [figure for text in _texts(library()[key]) for figure in bare_figures(text)] == []


@pytest.mark.parametrize("key", KEYS)
def test_every_term_is_known(key: str) -> None:
    used = {fact for text in _texts(library()[key]) for name, fact in placeholders(text) if name == "term"}
    assert used <= set(terms())


@pytest.mark.parametrize("key", KEYS)
@pytest.mark.parametrize("market", ["uk", "us", "au", "metric"])
@pytest.mark.parametrize(
    "text",
    [sheets.CAR, sheets.VAN, sheets.OLD, sheets.BARE, *fluid_sheets.ALL],
    ids=["car", "van", "4x4", "bare", "car with gear units", "van with gear units", "4x4 with gear units"],
)
def test_every_word_of_a_bound_procedure_can_be_read(key: str, market: str, text: str) -> None:
    reader = Reader.of(market)
    played = bound(library()[key], text)
    words: list[Wording] = [caution.words for caution in played.hazards] + [follow.words for follow in played.follow_ups]
    for step in played.steps:
        words += [part for part in (step.words, step.look, step.accept, step.reject, step.condition) if part is not None]
        words += [caution.words for caution in step.cautions]
    for one in words:
        said = render(one, reader)
        assert not set("?{}[]") & set(said)
        assert "  " not in said


def test_us_readers_get_their_own_words_and_units() -> None:
    step = bound(library()["engine-oil-spin-on"]).step("plug-tight")
    assert "38\u00a0N·m" in render(step.words, Reader.of("uk"))
    assert "28" in render(step.words, Reader.of("us"))
    assert "oil pan" in render(step.words, Reader.of("us"))


@pytest.mark.parametrize("key", [*OIL_KEYS, *FLUIDS])
def test_cautions_defer_to_the_handbook_and_name_their_sources(key: str) -> None:
    procedure = library()[key]
    cautions = [*procedure.hazards, *(caution for step in procedure.steps for caution in step.caution)]
    assert all(caution.source in references() for caution in cautions)
    assert any("{term.handbook}" in hazard.words for hazard in procedure.hazards)


def test_an_unknown_procedure_names_the_known_ones() -> None:
    with pytest.raises(InputError) as caught:
        procedure_text("gearbox-dance")
    assert caught.value.key == "procedure.unknown"
    assert caught.value.values["expected"] == KEYS


def test_all_faults_of_a_procedure_come_at_once_with_line_and_nearest() -> None:
    text = (
        procedure_text("engine-oil-spin-on")
        .replace('thing = "drain_seal"\nnew', 'thing = "drain_saal"\nnew')
        .replace(
            'words = "Chock the wheels that stay on the ground, in front and behind."',
            'words = "Tighten to 35 N·m, not {drian_plug.torque}."',
        )
        .replace('action = "chock"', 'action = "choc"')
        .replace('during = "drain"', 'during = "drian"', 1)
        .replace('wait = "{practice.first_run}"', 'wait = "1 litre"')
        .replace('id = "count"', 'id = "enter"')
        .replace('after_time = "1 day"\n', "")
    )
    with pytest.raises(DocumentError) as caught:
        load(text, where="mine.toml")
    found = {fault.key: fault for fault in caught.value.faults}
    assert {"procedure.thing", "procedure.bare_figure", "procedure.placeholder", "document.word", "procedure.during"} <= set(found)
    assert {"procedure.step_twice", "procedure.follow_up"} <= set(found)
    assert found["procedure.thing"].values["nearest"] == "drain_seal"
    assert found["procedure.bare_figure"].values["found"] == "35 N·m"
    for fault in caught.value.faults:
        assert isinstance(fault.values["line"], int)
        assert "?" not in render(message_of(fault), Reader()).replace("did you mean", "").rstrip("?").replace("?]", "")[:40]


def test_the_faults_of_a_move_come_with_those_of_its_step() -> None:
    text = (
        procedure_text("engine-oil-spin-on")
        .replace('thing = "drain_area"', 'thing = "drain_aera"')
        .replace('id = "hold", action', 'id = "kit", action')
        .replace('during = "drain"', 'during = "hold"', 1)
        .replace('hands_free = true\nactive = "4 min"', 'hands_free = true\nactive = "4 min"\nwait = "3 min"')
        .replace('tools = ["funnel"]\nplace', 'tools = "funel"\nplace', 1)
    )
    with pytest.raises(DocumentError) as caught:
        load(text, where="mine.toml")
    found = {fault.key: fault for fault in caught.value.faults}
    assert set(found) == {"procedure.thing", "procedure.step_twice", "procedure.during", "procedure.wait_twice", "procedure.tool"}
    assert found["procedure.thing"].values["nearest"] == "drain_area"
    assert "wait" in render(message_of(found["procedure.wait_twice"]), Reader())
    assert found["procedure.tool"].values["found"] == "funel"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Tighten to 35 N·m now.", ("35 N·m",)),
        ("Tighten to 30 lbf ft.", ("30 lbf ft",)),
        ("Pour 4.3 L in.", ("4.3 L",)),
        ("Pour 5 qt in.", ("5 qt",)),
        ("Wait 10 min.", ("10 min",)),
        ("Use the 17 mm socket", ("17 mm",)),
        ("Turn it {filter_joint.turn} further.", ()),
        ("Look at it from 2 sides.", ()),
        ("On a 4x4, and with 2 helpers.", ()),
    ],
)
def test_a_figure_with_a_unit_is_seen_in_words(text: str, found: tuple[str, ...]) -> None:
    assert bare_figures(text) == found

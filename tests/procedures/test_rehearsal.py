"""The correct procedures on the vehicles they are for, and what a rehearsal says besides its findings."""

from __future__ import annotations

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import apart, bound, drop, step_of
from twomarks.model.procedure import ACTIONS
from twomarks.procedures.actions import EFFECTS
from twomarks.procedures.kit import Kit
from twomarks.procedures.library import library, library_procedure
from twomarks.procedures.rehearsal import rehearse
from twomarks.procedures.rules import RULES
from twomarks.reference.bibliography import references
from twomarks.words import Reader, render
from twomarks.words.catalogue import keys

READER = Reader.of("uk")
MATCHING = [("engine-oil-spin-on", sheets.CAR), ("engine-oil-cartridge", sheets.VAN), ("engine-oil-spin-on", sheets.OLD)]
CHOICES = [{}, {"raised": False}, {"raised": True}, {"undertray": True}, {"undertray": False}, {"raised": False, "undertray": False}]


@pytest.mark.parametrize(("key", "text"), MATCHING, ids=["car", "van", "4x4"])
@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_a_correct_procedure_has_no_finding_above_advice(key: str, text: str, choices: dict[str, bool]) -> None:
    rehearsal = rehearse(bound(library_procedure(key), text, **choices))
    assert [one for one in rehearsal.findings if one.grade != "advice"] == []


@pytest.mark.parametrize(("key", "text"), MATCHING, ids=["car", "van", "4x4"])
@pytest.mark.parametrize("choices", CHOICES, ids=str)
def test_moves_joined_to_a_step_are_played_as_if_each_stood_alone(key: str, text: str, choices: dict[str, bool]) -> None:
    procedure = library_procedure(key)
    joined, alone = rehearse(bound(procedure, text, **choices)), rehearse(bound(apart(procedure), text, **choices))
    assert [(one.rule, one.step) for one in joined.findings] == [(one.rule, step_of(procedure, one.step)) for one in alone.findings]
    after = {step_of(procedure, one.step): one.messages for one in alone.states}
    assert after == {one.step: one.messages for one in joined.states}
    assert joined.checked == alone.checked


def test_the_walk_round_has_no_finding_on_a_bare_vehicle() -> None:
    assert rehearse(bound(library_procedure("walk-round"), sheets.BARE)).findings == ()


def test_a_torque_that_the_sheet_lacks_is_told_and_not_made_up() -> None:
    played = bound(library_procedure("engine-oil-cartridge"))
    step = played.step("plug-tight")
    assert step.amount is None
    assert step.amount_path == "fastenings.sump_bolt.torque"
    assert [(one.rule, one.step) for one in rehearse(played).findings] == [("figure_known", "plug-tight")]


def test_every_action_of_the_language_has_an_effect() -> None:
    assert set(EFFECTS) == set(ACTIONS)


def test_every_rule_has_its_five_sentences_and_its_source() -> None:
    known = set(keys())
    for rule in RULES:
        for part in ("name", "why", "expected", "otherwise", "remedy"):
            assert f"rule.{rule.id}_{part}" in known
        assert rule.source in references()
        assert render(rule.name, READER) != render(rule.why, READER)
    assert {key for key in known if key.startswith("rule.")} == {
        f"rule.{rule.id}_{part}" for rule in RULES for part in ("name", "why", "expected", "otherwise", "remedy")
    }


@pytest.mark.parametrize(
    "name",
    ["ground", "brake", "gear", "range", "chocks", "chocks_stay", "lifting_points", "stands", "shaken", "still_under", "start_people",
     "engine_stopped", "key_away", "fresh_air", "oil_inside", "cap_on", "lamp", "plug_before_pour", "all_tight", "bay_clear", "tag"],
)  # fmt: skip
def test_a_rule_that_protects_keeps_its_grade(name: str) -> None:
    rule = next(one for one in RULES if one.id == name)
    assert rule.protects
    assert rule.grade in ("harm", "damage")


def test_a_protecting_rule_is_harm_also_when_merely_not_shown() -> None:
    found = rehearse(bound(drop(library_procedure("engine-oil-spin-on"), "chock"), sheets.CAR)).at("raise")
    assert [(one.rule, one.grade, one.basis) for one in found] == [("chocks", "harm", "violated")]
    found = rehearse(bound(drop(library_procedure("engine-oil-spin-on"), "hold"), sheets.CAR)).at("raise")
    assert [(one.rule, one.grade, one.basis) for one in found] == [("brake", "harm", "not shown")]


def test_where_you_were_says_what_stops_a_start() -> None:
    played = bound(library_procedure("engine-oil-spin-on"))
    where = {one.step: [render(message, READER) for message in one.messages] for one in rehearse(played).states}
    assert where["baseline"][0] == "There is oil in the engine."
    assert where["filter-off"][0] == "There is no oil in the engine: do not start."
    assert "Off: oil filter, undertray." in where["filter-off"]
    assert "It stands on axle stands." in where["filter-off"]
    assert "Only hand-tight or loose: sump plug." in where["plug-in"]
    assert where["pour-first"][0] == "There is some oil in the engine, the level is not proved: do not drive."
    assert where["read-after"][0] == "There is oil in the engine."
    assert where["enter"][-1] == "It stands on its wheels."


def test_a_rehearsal_says_what_it_cannot_see_and_never_that_it_is_safe() -> None:
    rehearsal = rehearse(bound(library_procedure("engine-oil-spin-on")))
    said = [render(message, READER) for message in (*rehearsal.checked, *rehearsal.rests_on, *rehearsal.not_seen)]
    assert "Whether the plug in front of you is the right one." in said
    assert not [text for text in said if "safe" in text.casefold() or "passed" in text.casefold()]


def test_what_is_assumed_is_named() -> None:
    rehearsal = rehearse(bound(library_procedure("engine-oil-cartridge")), Kit(pan_l=9.0))
    assert {"rehearsal.default_filter", "rehearsal.default_settle", "rehearsal.no_wrench"} <= {one.key for one in rehearsal.rests_on}
    assert "rehearsal.no_pan" not in {one.key for one in rehearsal.rests_on}


def test_a_fault_that_lasts_is_told_once() -> None:
    found = rehearse(bound(drop(library_procedure("engine-oil-spin-on"), "stands"))).findings
    assert [(one.rule, one.step) for one in found if one.rule == "stands"] == [("stands", "tray-off")]


def test_every_finding_can_be_read() -> None:
    for procedure in library().values():
        for step in procedure.steps:
            mistaken = drop(procedure, step.id) if len(procedure.steps) > 1 else procedure
            for one in rehearse(bound(mistaken)).findings:
                for message in (one.expected, one.found, one.remedy):
                    assert "?" not in render(message, READER)
                    assert "{" not in render(message, READER)

"""One realistic mistake at a time, planted in the correct procedures: each is found, and by the rule that knows it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import change, double, drop, move, new_findings, step_of
from twomarks.model.procedure import Procedure
from twomarks.procedures.kit import Kit, WrenchRange
from twomarks.procedures.library import library_procedure

SPIN_ON, CARTRIDGE = "engine-oil-spin-on", "engine-oil-cartridge"
BOTH = (SPIN_ON, CARTRIDGE)
Mistake = Callable[[Procedure], Procedure]


def _drop(name: str) -> Mistake:
    return lambda procedure: drop(procedure, name)


def _move(name: str, before: str) -> Mistake:
    return lambda procedure: move(procedure, name, before=before)


def _double(name: str) -> Mistake:
    return lambda procedure: double(procedure, name)


def _change(name: str, **fields: object) -> Mistake:
    return lambda procedure: change(procedure, name, **fields)


# what was done wrong, the mistake, the rule that finds it, the step where it stands, the procedures
PLANTED: list[tuple[str, Mistake, str, str, tuple[str, ...]]] = [
    ("parked anywhere", _drop("stand"), "ground", "raise", BOTH),
    ("run in a garage", _change("stand", at=("level", "hard")), "fresh_air", "warm", BOTH),
    ("handbrake forgotten", _drop("hold"), "brake", "raise", BOTH),
    ("left out of gear", _drop("gear-in"), "gear", "raise", BOTH),
    ("air suspension not set", _drop("air-set"), "air_suspension", "raise", BOTH),
    ("air suspension set after raising", _move("air-set", "stands"), "air_suspension", "raise", BOTH),
    ("air suspension set before the engine ran", _move("air-set", "warm"), "air_suspension", "raise", BOTH),
    ("air suspension not looked at again", _drop("air-set-again"), "air_suspension", "raise-tray", BOTH),
    ("no chocks", _drop("chock"), "chocks", "raise", BOTH),
    ("chocks after raising", _move("chock", "shake"), "chocks", "raise", BOTH),
    ("jacked anywhere", _change("raise", at=()), "lifting_points", "raise", BOTH),
    ("under a jack alone", _drop("stands"), "stands", "tray-off", BOTH),
    ("never shaken", _drop("shake"), "shaken", "tray-off", BOTH),
    ("shaken before the stands", _move("shake", "stands"), "shaken", "tray-off", BOTH),
    ("stands before the jack", _move("stands", "raise"), "jack_first", "stands", BOTH),
    ("key left in", _drop("key-out"), "key_away", "", BOTH),
    ("key left in for the undertray", _drop("key-out-again"), "key_away", "tray-on", BOTH),
    ("nobody told", _drop("helper"), "helper", "tray-off", BOTH),
    ("kit not laid out", _drop("kit"), "kit", "", BOTH),
    ("no look into the waste can", _drop("waste-room"), "waste_room", "drain", BOTH),
    ("no tag", _drop("tag"), "tag", "drain", BOTH),
    ("tag hung after the drain", _move("tag", "plug-in"), "tag", "drain", BOTH),
    ("bare hands", _change("wear", things=("glasses",)), "gloves", "", BOTH),
    ("bare eyes", _change("wear", things=("gloves",)), "glasses", "", BOTH),
    ("engine hot", _change("warm", manner=""), "not_hot", "", BOTH),
    ("engine left running", _drop("stop-warm"), "engine_off", "", BOTH),
    ("no caution at the plug", _change("plug-loose", caution=()), "burn_warned", "plug-loose", BOTH),
    ("no level before the warm-up", _drop("baseline"), "level_before_warm", "warm", BOTH),
    ("no pan", _drop("pan-plug"), "pan_there", "plug-loose", BOTH),
    ("pan under the filter only", _change("pan-plug", at=("filter",)), "pan_there", "plug-loose", BOTH),
    ("plug never loosened", _drop("plug-loose"), "loosened", "drain", BOTH),
    ("drained for two minutes", _change("drain", wait="2 min"), "drain_time", "drain", BOTH),
    ("undertray still on", _drop("tray-off"), "tray_off", "plug-loose", BOTH),
    ("plug not looked at", _drop("plug-look"), "plug_looked", "plug-in", BOTH),
    ("washer not renewed", _change("seal-new", new=False), "one_new_seal", "plug-tight", BOTH),
    ("old washer left on", _drop("seal-off"), "one_new_seal", "plug-tight", BOTH),
    ("no washer at all", _drop("seal-new"), "one_new_seal", "plug-tight", BOTH),
    ("two washers", _double("seal-new"), "one_new_seal", "plug-tight", BOTH),
    ("face not wiped", _drop("drain-clean"), "face_clean", "plug-in", BOTH),
    ("plug started with a tool", _drop("plug-in"), "by_hand_first", "plug-tight", BOTH),
    ("plug only hand-tight", _drop("plug-tight"), "plug_before_pour", "pour-first", BOTH),
    ("plug tightened by feel", _change("plug-tight", manner="", amount=None), "to_figure", "plug-tight", BOTH),
    ("filter never loosened", _drop("filter-loose"), "filter_loose", "filter-off", (SPIN_ON,)),
    ("pan not under the filter", _drop("pan-filter"), "pan_there", "filter-loose", (SPIN_ON,)),
    ("old ring not looked for", _drop("old-seal"), "old_seal", "filter-on", BOTH),
    ("seat not wiped", _drop("seat-clean"), "seat_clean", "filter-on", BOTH),
    ("filters not compared", _drop("compare"), "filter_compared", "filter-on", BOTH),
    ("dry ring", _drop("ring-oil"), "ring_oiled", "", BOTH),
    ("old filter left on", _drop("filter-off"), "filter_gone", "filter-on", BOTH),
    ("old filter put back", _change("filter-on", new=False), "new_part", "filter-on", BOTH),
    ("filter forgotten", _drop("filter-on"), "new_filter", "pour-first", BOTH),
    ("filter only hand-tight", _drop("filter-tight"), "all_tight", "first-start", (SPIN_ON,)),
    ("cap only hand-tight", _drop("cap-tight"), "all_tight", "first-start", (CARTRIDGE,)),
    ("rings not renewed", _drop("rings-new"), "one_new_seal", "cap-tight", (CARTRIDGE,)),
    ("old rings left on", _drop("rings-off"), "one_new_seal", "cap-tight", (CARTRIDGE,)),
    ("cap on without the element", _move("cap-on", "filter-on"), "element_in", "cap-on", (CARTRIDGE,)),
    ("pan after the plug was loosened", _move("pan-plug", "drain"), "pan_there", "plug-loose", BOTH),
    ("housing not wiped", _drop("housing-clean"), "housing_clean", "cap-loose", (CARTRIDGE,)),
    ("oil on the exhaust", _drop("wipe"), "spills_wiped", "first-start", BOTH),
    ("nobody looked before lowering", _drop("people-lower"), "still_under", "lower", BOTH),
    ("poured with the plug out", _move("pour-first", "plug-in"), "plug_before_pour", "pour-first", BOTH),
    ("poured twice", _double("pour-first"), "not_too_much", "pour-first-twice", BOTH),
    ("container not read", _drop("identity"), "right_fluid", "pour-first", BOTH),
    ("filler not wiped", _drop("filler-clean"), "filler_clean", "filler-open", BOTH),
    ("filler never opened", _drop("filler-open"), "filler_open", "pour-first", BOTH),
    ("cap left off at the start", _drop("filler-shut"), "cap_on", "first-start", BOTH),
    ("cap left off at the end", _drop("filler-shut-again"), "cap_back", "filler-open-again", BOTH),
    ("started without oil", _drop("pour-first"), "filled", "drain", BOTH),
    ("started before the pour", _move("first-start", "pour-first"), "oil_inside", "first-start", BOTH),
    ("rag in the bay", _drop("bay-clear"), "bay_clear", "first-start", BOTH),
    ("nobody looked before the start", _drop("people-start"), "start_people", "first-start", BOTH),
    ("started with the tag on", _drop("tag-off"), "tag_off", "first-start", BOTH),
    ("lamp not watched", _change("first-start", things=()), "lamp", "first-start", BOTH),
    ("no limit for the lamp", _change("first-start", amount=None), "lamp", "first-start", BOTH),
    ("revved at once", _change("first-start", pace=""), "idle_only", "first-start", BOTH),
    ("no look while it runs", _drop("leak-running"), "leaks", "leak-after", BOTH),
    ("no look after the stop", _drop("leak-after"), "leaks", "leak-running", BOTH),
    ("undertray on before the look", _move("tray-on", "leak-after"), "tray_after_look", "tray-on", BOTH),
    ("undertray left off", _drop("tray-on"), "tray_back", "tray-off", BOTH),
    ("read while raised", _drop("lower-tray"), "reading_counts", "read-after", BOTH),
    ("read at once after the pour", _drop("settle-pour"), "reading_counts", "read-before-start", BOTH),
    ("added without a reading", _drop("read-after"), "add_by_reading", "top-up", BOTH),
    ("no reading after the last oil", _drop("read-again"), "level_after", "top-up", BOTH),
    ("never run", _drop("first-start"), "ran", "pour-first", BOTH),
    ("never stopped", _drop("stop-first"), "engine_at_end", "first-start", BOTH),
    ("left on its stands", _drop("lower-tray"), "on_wheels", "stands-tray", BOTH),
    ("chocks taken away while raised", _move("chocks-away", "lower-tray"), "chocks_stay", "chocks-away", BOTH),
    ("driven off over the chocks", _drop("chocks-away"), "chocks_away", "chock", BOTH),
    ("bonnet left open", _drop("bonnet-down"), "bonnet_shut", "bonnet-up", BOTH),
    ("tools not counted", _drop("count"), "bay_before_bonnet", "bonnet-down", BOTH),
    ("old oil left in the pan", _drop("decant"), "oil_canned", "drain", BOTH),
    ("old filter left lying", _drop("filter-drip"), "filter_drained", "filter-off", BOTH),
    ("litres out not read", _drop("pan-out"), "litres_out", "enter", BOTH),
    ("written down before it was proved", _move("enter", "leak-after"), "proved_first", "enter", BOTH),
    ("not written down", _drop("enter"), "recorded", "reset", BOTH),
    ("reminder not set back", _drop("reset"), "reminder", "enter", BOTH),
]
CASES = [(what, mistake, rule, step, key) for what, mistake, rule, step, keys in PLANTED for key in keys]


@pytest.mark.parametrize(("mistake", "rule", "step", "key"), [case[1:] for case in CASES], ids=[f"{case[0]}, {case[4]}" for case in CASES])
def test_a_single_mistake_is_found_where_it_bites(mistake: Mistake, rule: str, step: str, key: str) -> None:
    mistaken = mistake(library_procedure(key))
    found = new_findings(mistaken)
    assert rule in {one.rule for one in found}
    if step:
        assert step_of(mistaken, step) in {one.step for one in found if one.rule == rule}


def test_reading_too_early_is_found_where_nothing_else_takes_time() -> None:
    for key in BOTH:
        found = new_findings(drop(library_procedure(key), "settle"), raised=False, undertray=False)
        assert ("reading_counts", "read-after") in {(one.rule, one.step) for one in found}


def test_no_reading_before_the_start_is_found_where_the_refill_is_only_remembered() -> None:
    from tests.procedures.mistakes import bound
    from twomarks.procedures.rehearsal import rehearse

    text = sheets.CAR.replace('source = "handbook: owner\'s book, p. 214"', 'source = "memory"')
    spin_on = library_procedure(SPIN_ON)
    assert not [one for one in rehearse(bound(spin_on, text)).findings if one.rule == "oil_inside"]
    without = rehearse(bound(drop(spin_on, "read-before-start"), text))
    assert ("oil_inside", "first-start", "damage") in {(one.rule, one.step, one.grade) for one in without.findings}


def test_a_range_lever_in_neutral_is_found_on_a_vehicle_that_has_one() -> None:
    from tests.procedures.mistakes import bound
    from twomarks.procedures.rehearsal import rehearse

    spin_on = library_procedure(SPIN_ON)
    assert "range" not in {one.rule for one in rehearse(bound(spin_on, sheets.OLD)).findings}
    found = rehearse(bound(drop(spin_on, "range-lever"), sheets.OLD)).findings
    assert ("range", "raise", "harm") in {(one.rule, one.step, one.grade) for one in found}


def test_chocks_on_one_side_are_not_enough() -> None:
    from tests.procedures.mistakes import bound
    from twomarks.procedures.rehearsal import rehearse

    one_side = change(library_procedure(SPIN_ON), "chock", at=())
    for text in (sheets.CAR, sheets.OLD):
        assert "chocks" not in {one.rule for one in rehearse(bound(library_procedure(SPIN_ON), text)).findings}
        assert "chocks" in {one.rule for one in rehearse(bound(one_side, text)).findings}


def test_a_key_within_range_is_found_on_a_keyless_vehicle() -> None:
    from tests.procedures.mistakes import bound
    from twomarks.procedures.rehearsal import rehearse

    keyless = sheets.CAR.replace("keyless = false", "keyless = true")
    spin_on = library_procedure(SPIN_ON)
    assert "key_away" not in {one.rule for one in rehearse(bound(spin_on, keyless)).findings}
    found = rehearse(bound(drop(spin_on, "key-far"), keyless)).findings
    assert "key_away" in {one.rule for one in found}


@pytest.mark.parametrize(
    ("kit", "rule", "step"),
    [
        (Kit(ground="slope"), "ground", "raise"),
        (Kit(air="garage"), "fresh_air", "warm"),
        (Kit(pan_l=4.0), "pan_size", "drain"),
        (Kit(waste_room_l=2.0), "waste_room", "drain"),
        (Kit(wrenches=(WrenchRange(low_nm=60.0, high_nm=300.0),)), "wrench", "plug-tight"),
        (Kit(wrenches=()), "wrench", "plug-tight"),
        (Kit(product="does not meet"), "right_fluid", "pour-first"),
        (Kit(tools={"funnel": False}), "kit", "plug-loose"),
        (Kit(parts={"drain_washer": False}), "kit", "plug-loose"),
    ],
    ids=["slope", "garage", "pan too small", "waste can full", "wrench too large", "no wrench", "wrong oil", "no funnel", "no washer"],
)
def test_what_is_known_of_the_kit_overrules_the_words(kit: Kit, rule: str, step: str) -> None:
    found = new_findings(library_procedure(SPIN_ON), kit)
    assert [(one.rule, one.step, one.basis) for one in found if one.rule != "ground_below"] == [(rule, step, "violated")]


def test_a_slope_is_told_also_where_it_is_not_raised() -> None:
    found = new_findings(library_procedure(SPIN_ON), Kit(ground="slope"), raised=False)
    assert [(one.rule, one.basis) for one in found] == [("ground_below", "violated")]


@pytest.mark.parametrize(("low_nm", "found"), [(50.0, True), (20.0, False)])
def test_a_wrench_is_held_to_a_torque_in_whatever_unit_the_sheet_has_it(low_nm: float, found: bool) -> None:
    from tests.procedures.mistakes import bound
    from twomarks.procedures.rehearsal import rehearse

    assert 'torque = { value = "30 lbf ft"' in sheets.OLD
    kit = Kit(wrenches=(WrenchRange(low_nm=low_nm, high_nm=180.0),))
    told = {one.rule for one in rehearse(bound(library_procedure(SPIN_ON), sheets.OLD), kit).findings}
    assert ("wrench" in told) is found


def test_a_kit_that_is_all_there_adds_no_finding() -> None:
    kit = Kit(
        ground="hard and level",
        air="outdoors",
        pan_l=8.0,
        waste_room_l=10.0,
        wrenches=(WrenchRange(low_nm=20.0, high_nm=110.0),),
        helper=True,
    )
    assert new_findings(library_procedure(SPIN_ON), kit) == ()

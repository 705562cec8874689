"""One realistic mistake at a time in the jobs on gear units, cooling and brakes: each is found, by the rule that knows it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.procedures import fluid_sheets
from tests.procedures.mistakes import bound, change, double, drop, move, new_findings, step_of
from twomarks.model.procedure import Procedure
from twomarks.procedures.kit import Kit, WrenchRange
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import rehearse
from twomarks.procedures.rules import brakes, cooling, gear, moving

GEARBOX, TRANSFER, AXLE, COOLANT, BRAKE = "manual-gearbox-oil", "transfer-case-oil", "axle-oil", "coolant", "brake-fluid"
GEAR = (GEARBOX, TRANSFER, AXLE)
Mistake = Callable[[Procedure], Procedure]


def _drop(name: str) -> Mistake:
    return lambda procedure: drop(procedure, name)


def _move(name: str, before: str) -> Mistake:
    return lambda procedure: move(procedure, name, before=before)


def _change(name: str, **fields: object) -> Mistake:
    return lambda procedure: change(procedure, name, **fields)


# what was done wrong, the mistake, the rule that finds it, the step where it stands, the procedures
PLANTED: list[tuple[str, Mistake, str, str, tuple[str, ...]]] = [
    ("wrong unit not ruled out", _drop("unit"), "which_unit", "fill-loose", GEAR),
    ("drain plug first", _move("drain-loose", "fill-clean"), "fill_plug_first", "drain-loose", GEAR),
    ("fill plug loosened after the drain", _move("fill-loose", "drain-in"), "fill_plug_first", "drain-loose", GEAR),
    ("fill plug not wiped", _drop("fill-clean"), "filler_clean", "fill-loose", GEAR),
    ("class not read", _change("identity", things=("container",)), "gear_oil_class", "pour", GEAR),
    ("container not read", _change("identity", things=("oil_class", "limited_slip")), "right_fluid", "pour", GEAR),
    ("limited slip not looked up", _change("identity", things=("container", "oil_class")), "limited_slip", "pour", (AXLE,)),
    ("raised at one end", _change("raise", at=("lifting points",)), "reading_counts", "level", GEAR),
    ("filled with the fill plug in", _drop("fill-out"), "filler_open", "pour", GEAR),
    ("drained with the plug tight", _drop("drain-loose"), "loosened", "drain", GEAR),
    ("poured onto the old oil", _drop("drain"), "let_out", "pour", GEAR),
    ("filled before the drain plug", _move("pour", "drain-in"), "plug_before_pour", "pour", GEAR),
    ("plug shut while it still drips", _drop("drip"), "level_at_hole", "fill-in", GEAR),
    ("level not looked at", _drop("level"), "gear_full", "test-drive", GEAR),
    ("never filled", _drop("pour"), "gear_full", "test-drive", GEAR),
    ("driven before it was filled", _move("test-drive", "pour"), "gear_full", "test-drive", GEAR),
    ("in and out not compared", _drop("compare"), "in_as_out", "", GEAR),
    ("breather not looked at", _drop("breather"), "breather", "", GEAR),
    ("old seal left on the fill plug", _drop("fill-seal-off"), "one_new_seal", "fill-tight", GEAR),
    ("fill plug only hand-tight", _drop("fill-tight"), "all_tight", "test-drive", GEAR),
    ("not driven", _drop("test-drive"), "gear_driven", "pour", GEAR),
    ("driven on its stands", _drop("lower"), "drive_on_wheels", "test-drive", GEAR),
    ("driven over the chocks", _drop("chocks-away"), "drive_chocks", "test-drive", GEAR),
    ("driven without the undertray", _drop("tray-on"), "drive_tray", "test-drive", GEAR),
    ("nobody looked before driving off", _drop("people-drive"), "start_people", "test-drive", GEAR),
    ("left without a brake", _drop("hold-again"), "parked", "", (*GEAR, BRAKE)),
    ("left out of gear", _drop("gear-in-last"), "parked", "", (*GEAR, BRAKE)),
    ("into the wrong can", _change("decant", thing="old_coolant"), "can_of_its_kind", "decant", GEAR),
    ("cap off hot", _drop("cold"), "cap_cold", "cap-off", (COOLANT,)),
    ("cap off after the run", _drop("cool"), "cap_cold", "strength", (COOLANT,)),
    ("no word about children and animals", _change("drain", caution=()), "coolant_warned", "drain", (COOLANT,)),
    ("gone while it drains", _change("drain", hands_free=True), "coolant_watched", "drain", (COOLANT,)),
    ("open pan left for hours", _drop("decant"), "coolant_watched", "cool", (COOLANT,)),
    ("strength not known", _change("identity", things=("container",)), "mixture_known", "pour", (COOLANT,)),
    ("heater shut", _drop("heater-hot"), "heater_open", "run", (COOLANT,)),
    ("tap left open", _drop("tap-shut"), "plug_before_pour", "pour", (COOLANT,)),
    ("bleed screw left open", _drop("bleed-shut"), "all_tight", "run", (COOLANT,)),
    ("not bled", _drop("bleed"), "coolant_bled", "run", (COOLANT,)),
    ("started empty", _drop("pour"), "coolant_filled", "run", (COOLANT,)),
    ("started with the cap off", _drop("cap-on"), "coolant_cap_on", "run", (COOLANT,)),
    ("run for a moment only", _change("run", manner=""), "thermostat", "", (COOLANT,)),
    ("heater not felt", _change("look-running", things=("top_hose", "leaks")), "heater_hot", "", (COOLANT,)),
    ("level not read cold", _drop("level-cold"), "coolant_level", "", (COOLANT,)),
    ("strength measured with the cap on", _drop("cap-off-again"), "tank_open_to_measure", "strength", (COOLANT,)),
    ("strength not measured", _drop("strength"), "frost_measured", "", (COOLANT,)),
    ("puddle left", _drop("rinse-last"), "spills_at_end", "", (COOLANT,)),
    ("run on its stands", _drop("lower"), "run_on_wheels", "run", (COOLANT,)),
    ("litres not compared", _drop("compare"), "in_as_out", "", (COOLANT,)),
    ("container opened long ago", _change("identity", things=("container",)), "sealed_fluid", "tank-fill", (BRAKE,)),
    ("cap of the tank not read", _drop("tank-read"), "brake_cap_read", "tank-fill", (BRAKE,)),
    ("paint bare", _drop("paint"), "paint_covered", "tank-open", (BRAKE,)),
    ("booster not emptied", _drop("booster"), "booster_empty", "bleed", (BRAKE,)),
    ("any order", _drop("order"), "bleed_order", "bleed", (BRAKE,)),
    ("screw opened without a hose", _drop("hose-on"), "bleed_hose", "bleed", (BRAKE,)),
    ("tank not filled first", _drop("tank-fill"), "tank_topped_up", "bleed", (BRAKE,)),
    ("tank not filled between", _drop("tank-top"), "tank_topped_up", "bleed", (BRAKE,)),
    ("keep an eye on the tank", _change("bleed", amount=None), "strokes_said", "bleed", (BRAKE,)),
    ("pedal back over an open screw", _change("bleed", manner=""), "shut_before_release", "bleed", (BRAKE,)),
    ("screws hand-tight", _drop("screw-tight"), "all_tight", "run", (BRAKE,)),
    ("hose left on", _drop("hose-off"), "rejoined", "", (BRAKE,)),
    ("caps left off", _drop("caps-on"), "dust_caps", "slow-stop", (BRAKE,)),
    ("level not read", _drop("tank-level"), "brake_level", "slow-stop", (BRAKE,)),
    ("tank left open", _drop("tank-shut"), "brake_tank_shut", "slow-stop", (BRAKE,)),
    ("pedal not held hard", _drop("hold-hard"), "pedal_firm", "slow-stop", (BRAKE,)),
    ("pedal not tried with the engine on", _drop("pedal-on"), "pedal_firm", "slow-stop", (BRAKE,)),
    ("moved before the pedal was tried", _move("slow-stop", "pump"), "pedal_firm", "slow-stop", (BRAKE,)),
    ("screws not looked at", _change("pedal-off", things=("pedal",)), "brake_leaks", "slow-stop", (BRAKE,)),
    ("on the road at once", _change("slow-stop", manner=""), "slow_stop", "slow-stop", (BRAKE,)),
    ("bonnet open on the drive", _drop("bonnet-down"), "drive_bonnet", "slow-stop", (BRAKE,)),
    ("parked anywhere", _drop("park"), "parked_level", "", (*GEAR, BRAKE)),
    ("left on a slope", _change("park", at=("hard", "outdoors")), "parked_level", "", (*GEAR, BRAKE)),
    ("bled before it was filled", _move("bleed", "pour"), "bled_while_filled", "bleed", (COOLANT,)),
    ("seal put on after the plug", _move("fill-in", "fill-seal-off"), "seal_before_plug", "fill-seal-new", GEAR),
    ("pan measured before the drain", _move("pan-out", "drain"), "litres_out", "", GEAR),
    ("in and out compared before the fill", _move("compare", "pour"), "in_as_out", "", GEAR),
    ("strength measured before the run", _move("strength", "run"), "frost_measured", "", (COOLANT,)),
    ("strength measured while it runs", _move("strength", "stop-run"), "frost_measured", "", (COOLANT,)),
    ("no time to cool", _change("cool", wait="5 min"), "cap_cold", "strength", (COOLANT,)),
    ("run for seconds", _change("run", wait="45 s"), "thermostat", "", (COOLANT,)),
    ("bare hands", _change("wear", things=("glasses",)), "gloves", "", (*GEAR, COOLANT, BRAKE)),
    ("bare eyes", _change("wear", things=("gloves",)), "glasses", "", (*GEAR, COOLANT, BRAKE)),
    ("no tag", _drop("tag"), "tag", "", (*GEAR, COOLANT, BRAKE)),
    ("no look into the can", _drop("waste-room"), "waste_room", "", (*GEAR, COOLANT, BRAKE)),
    ("under a jack alone", _drop("stands"), "stands", "", (*GEAR, COOLANT, BRAKE)),
]
CASES = [(what, mistake, rule, step, key) for what, mistake, rule, step, keys in PLANTED for key in keys]


@pytest.mark.parametrize(("mistake", "rule", "step", "key"), [case[1:] for case in CASES], ids=[f"{case[0]}, {case[4]}" for case in CASES])
def test_a_single_mistake_is_found_where_it_bites(mistake: Mistake, rule: str, step: str, key: str) -> None:
    mistaken = mistake(library_procedure(key))
    found = new_findings(mistaken)
    assert rule in {one.rule for one in found}
    if step:
        steps = {one.step.removesuffix("-1").removesuffix("-2") for one in found if one.rule == rule}
        assert {step, step_of(mistaken, step)} & steps


def test_every_rule_of_these_jobs_is_fired_by_a_planted_mistake() -> None:
    fired = {rule for _, _, rule, _, _ in PLANTED} | {"every_wheel_bled"}
    assert {rule.id for module in (gear, cooling, brakes, moving) for rule in module.RULES} <= fired


def test_a_wheel_left_out_is_found() -> None:
    whole = library_procedure(BRAKE)
    three = [step.model_copy(update={"each": step.each[:3]}) if step.lap else step for step in whole.steps]
    found = rehearse(bound(whole.model_copy(update={"steps": tuple(three)}))).findings
    assert ("every_wheel_bled", "slow-stop", "harm") in {(one.rule, one.step, one.grade) for one in found}
    assert "every_wheel_bled" not in {one.rule for one in rehearse(bound(whole)).findings}


def test_two_kinds_in_one_pan_are_found_and_one_kind_is_not() -> None:
    gearbox, coolant = library_procedure(GEARBOX), library_procedure(COOLANT)
    drains = [step for step in coolant.steps if step.id in ("tap-open", "drain")]
    roles = {**gearbox.roles, "coolant": coolant.roles["coolant"], "drain_tap": coolant.roles["drain_tap"]}
    steps = []
    for step in gearbox.steps:
        steps.append(step)
        if step.id == "drain":
            steps += [one.model_copy(update={"id": f"{one.id}-coolant", "tools": ()}) for one in drains]
    both = gearbox.model_copy(update={"roles": roles, "steps": tuple(steps)})
    found = {(one.rule, one.step) for one in rehearse(bound(both)).findings}
    assert ("kinds_apart", "drain-coolant") in found
    assert ("can_of_its_kind", "decant") in found
    assert not {"kinds_apart", "can_of_its_kind"} & {one.rule for one in rehearse(bound(gearbox)).findings}


def test_poured_twice_up_to_the_hole_is_no_more_than_full() -> None:
    found = new_findings(double(library_procedure(GEARBOX), "pour"))
    assert "not_too_much" not in {one.rule for one in found}


def test_a_hot_cap_is_a_harm_also_where_nothing_was_said() -> None:
    found = rehearse(bound(drop(library_procedure(COOLANT), "cold"))).at("cap-off")
    assert ("cap_cold", "harm", "not shown") in {(one.rule, one.grade, one.basis) for one in found}
    found = rehearse(bound(drop(library_procedure(COOLANT), "cool"))).at("strength")
    assert ("cap_cold", "harm", "violated") in {(one.rule, one.grade, one.basis) for one in found}


@pytest.mark.parametrize(
    ("key", "kit", "rule", "step"),
    [
        (GEARBOX, Kit(pan_l=2.0), "pan_size", "drain"),
        (COOLANT, Kit(waste_room_l=3.0), "waste_room", "drain"),
        (BRAKE, Kit(waste_room_l=0.2), "waste_room", "bleed"),
        (BRAKE, Kit(wrenches=(WrenchRange(low_nm=20.0, high_nm=110.0),)), "wrench", "screw-tight"),
        (AXLE, Kit(product="does not meet"), "right_fluid", "pour"),
        (COOLANT, Kit(air="garage"), "fresh_air", "run"),
    ],
)
def test_what_is_known_of_the_kit_overrules_the_words(key: str, kit: Kit, rule: str, step: str) -> None:
    found = new_findings(library_procedure(key), kit)
    assert (rule, step, "violated") in {(one.rule, one.step.removesuffix("-1"), one.basis) for one in found}


def test_air_springs_that_are_not_set_are_found_where_there_are_any() -> None:
    text = fluid_sheets.CAR.replace('suspension = "steel"', 'suspension = "air"')
    for key in (GEARBOX, BRAKE):
        assert "air_suspension" not in {one.rule for one in rehearse(bound(library_procedure(key), text)).findings}
        assert "air_suspension" in {one.rule for one in rehearse(bound(drop(library_procedure(key), "air-set"), text)).findings}


def test_a_key_within_range_is_found_on_a_keyless_vehicle() -> None:
    text = fluid_sheets.CAR.replace("keyless = false", "keyless = true")
    for key in (*GEAR, COOLANT, BRAKE):
        assert "key_away" not in {one.rule for one in rehearse(bound(library_procedure(key), text)).findings}
        assert "key_away" in {one.rule for one in rehearse(bound(drop(library_procedure(key), "key-far"), text)).findings}

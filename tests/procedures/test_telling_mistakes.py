"""What a write-up leaves unsaid or says of another part: cautions, signs, times, figures, plugs and follow-ups, one mistake at a time."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.procedures import fluid_sheets, parts_sheets, sheets
from tests.procedures.mistakes import bound, change, double, drop, new_findings, step_of
from twomarks.errors import DocumentError
from twomarks.model.loading import load_as
from twomarks.model.procedure import Procedure, Role, bare_figures
from twomarks.procedures.kit import Kit
from twomarks.procedures.library import library_procedure, procedure_text
from twomarks.procedures.rehearsal import Finding, rehearse
from twomarks.procedures.rules import afterwards, belonging, figures, rolling, telling, waits, walk_round

SPIN_ON, GEAR, COOLANT, BRAKE, WALK = "engine-oil-spin-on", "manual-gearbox-oil", "coolant", "brake-fluid", "walk-round"
BATTERY, TYRES, PADS = "battery", "tyre-rotation", "brake-pads-front"
Mistake = Callable[[Procedure], Procedure]
SHEETS = {
    GEAR: fluid_sheets.CAR,
    COOLANT: fluid_sheets.VAN,
    BRAKE: fluid_sheets.CAR,
    BATTERY: parts_sheets.CAR,
    TYRES: parts_sheets.CAR,
    PADS: parts_sheets.CAR,
}
ON_WHEELS = {"raised": False, "undertray": False}
ROLLING = ("brake_below", "gear_below", "range_below", "ground_below", "chocks_below")


def _drop(name: str) -> Mistake:
    return lambda procedure: drop(procedure, name)


def _double(name: str) -> Mistake:
    return lambda procedure: double(procedure, name)


def _change(name: str, **fields: object) -> Mistake:
    return lambda procedure: change(procedure, name, **fields)


def _unsaid(name: str) -> Mistake:
    return _change(name, caution=())


def _signless(name: str) -> Mistake:
    return _change(name, accept=None, reject=None, look=None)


def _follow_ups(*kept: str, **fields: object) -> Mistake:
    def changed(procedure: Procedure) -> Procedure:
        follow_ups = [one.model_copy(update=fields) for one in procedure.follow_ups if one.id in kept]
        return procedure.model_copy(update={"follow_ups": tuple(follow_ups)})

    return changed


def _amount_of_another(name: str, kind: str, key: str, fact: str) -> Mistake:
    def changed(procedure: Procedure) -> Procedure:
        role = Role.model_validate({"kind": kind, "name": "another one", "usual": key, "optional": True})
        other = procedure.model_copy(update={"roles": {**procedure.roles, "other": role}})
        return change(other, name, amount=f"{{other.{fact}}}")

    return changed


def _into_another(procedure: Procedure) -> Procedure:
    role = Role.model_validate({"kind": "circuit", "name": "another one", "usual": "gearbox", "optional": True})
    return change(procedure.model_copy(update={"roles": {**procedure.roles, "other": role}}), "pour-first", thing="other")


# what was done wrong, the mistake, the rule that finds it, the step where it stands, the procedure
PLANTED: list[tuple[str, Mistake, str, str, str]] = [
    ("no word of the jack", _unsaid("raise"), "lift_warned", "raise", SPIN_ON),
    ("no word of the exhaust", _unsaid("warm"), "run_warned", "warm", SPIN_ON),
    ("no word of neutral", _unsaid("range-lever"), "lever_warned", "range-lever", GEAR),
    ("no word of the key", _unsaid("key-far"), "key_warned", "key-far", COOLANT),
    ("no word of the skin", _unsaid("wear"), "skin_warned", "wear", SPIN_ON),
    ("no word of the hot exhaust", _unsaid("wipe"), "spill_warned", "wipe", SPIN_ON),
    ("no word at the screw", _unsaid("bleed"), "screw_warned", "bleed", BRAKE),
    ("no word at the cap", _unsaid("cap-off"), "scald_warned", "cap-off", COOLANT),
    ("no word before the stop", _unsaid("slow-stop"), "stop_warned", "slow-stop", BRAKE),
    ("no word of the fan", _unsaid("look-running"), "fan_warned", "look-running", COOLANT),
    ("no word at the poles", _unsaid("negative-off"), "poles_warned", "negative-off", BATTERY),
    ("no word at the wheels", _unsaid("wheels-off"), "nuts_warned", "wheels-off", TYRES),
    ("no word of the dust", _unsaid("dust"), "dust_warned", "dust", PADS),
    ("no word at the piston", _unsaid("piston"), "piston_warned", "piston", PADS),
    ("piston how?", _change("piston", manner=""), "piston_how", "piston", PADS),
    ("raised, but where?", _change("raise", at=("lifting points",)), "end_said", "raise", TYRES),
    ("leaning on a slope", _change("stand", at=("outdoors",)), "ground_above", "below", WALK),
    ("brakes never looked at again", _follow_ups("nuts-again"), "brakes_again", "", PADS),
    ("drained cold", _drop("warm-drive"), "drained_warm", "drain", GEAR),
    ("cover left on the wing", _change("count", things=("tools", "rags")), "bay_before_bonnet", "bonnet-down", BRAKE),
    ("no word at the nuts", _unsaid("nuts-torque"), "nuts_warned", "nuts-torque", TYRES),
    ("look at what?", _signless("leak-after"), "sign_said", "leak-after", SPIN_ON),
    ("read, and then?", _signless("read-after"), "sign_said", "read-after", SPIN_ON),
    ("read at once", _change("settle", wait="20 s"), "run_down_given", "settle", SPIN_ON),
    ("hardly cooled", _change("cool", wait="20 min"), "cooling_given", "cool", COOLANT),
    ("started and stopped", _change("first-start", wait="5 s"), "first_run_given", "first-start", SPIN_ON),
    ("run for no time", _change("run", wait="45 s"), "thermostat_given", "run", COOLANT),
    ("leads off at once", _change("asleep", wait="5 s"), "sleep_given", "asleep", BATTERY),
    ("held for how long?", _change("hold-hard", amount=None), "held_for", "pedal-off", BRAKE),
    ("no look next morning", _follow_ups("after-some-distance"), "next_look", "", SPIN_ON),
    ("no look after a distance", _follow_ups("next-morning"), "after_distance", "", SPIN_ON),
    ("a look without a day", _follow_ups("next-morning", after_time=None, after_distance="5 km"), "comes_due", "", SPIN_ON),
    ("torque of the filter", _amount_of_another("plug-tight", "fastening", "oil_filter", "turn"), "own_torque", "plug-tight", SPIN_ON),
    ("refill of the axle", _amount_of_another("pour", "circuit", "rear_axle", "refill"), "own_refill", "pour", GEAR),
    ("only between the marks", _change("pour-first", amount="{oil.between_marks}"), "own_refill", "pour-first", SPIN_ON),
    ("all of it at once", _change("pour-first", amount="{oil.refill_with_filter}"), "by_plan", "pour-first", SPIN_ON),
    ("pour without an end", _change("pour-first", manner=""), "pour_ends", "pour-first", SPIN_ON),
    ("pour how much?", _change("pour", amount=None), "how_much", "pour", GEAR),
    ("poured twice", _double("pour"), "poured_again", "pour-twice", GEAR),
    ("poured into the gearbox", _into_another, "worked_on", "pour-first", SPIN_ON),
    ("old battery back in", _change("battery-in", new=False), "new_one_in", "", BATTERY),
    ("stands of whatever lay there", _change("stands", at=()), "stands_rigid", "stands", SPIN_ON),
    ("started unread", _drop("read-before-start"), "stick_before_start", "first-start", SPIN_ON),
    ("how warm?", _change("warm", manner=""), "how_warm", "warm", SPIN_ON),
    ("key out of a running engine", _drop("stop-warm"), "key_after_stop", "key-out", SPIN_ON),
    ("key in while the fan may start", _drop("key-out-again"), "fan", "read-after", SPIN_ON),
    ("nothing to add by", _drop("top-up"), "add_said", "", SPIN_ON),
    ("tyres passed by", _drop("tyres"), "all_round", "", WALK),
    ("read on a slope", _change("stand", at=("outdoors",)), "level_ground", "oil-level", WALK),
    ("no brake at the walk-round", _change("hold", things=("gear",)), "held_above", "below", WALK),
    ("out of gear at the walk-round", _change("hold", things=("brake",)), "gear_above", "below", WALK),
    ("nothing written", lambda procedure: drop(drop(procedure, "enter"), "counter"), "round_recorded", "", WALK),
]


def _found(mistaken: Procedure, **choices: object) -> tuple[Finding, ...]:
    text = SHEETS.get(mistaken.key, sheets.CAR)
    own = rehearse(bound(library_procedure(mistaken.key), text, **choices)).findings
    known = {(one.rule, one.step) for one in own}
    return tuple(one for one in rehearse(bound(mistaken, text, **choices)).findings if (one.rule, one.step) not in known)


@pytest.mark.parametrize(("mistake", "rule", "step", "key"), [case[1:] for case in PLANTED], ids=[case[0] for case in PLANTED])
def test_what_a_write_up_leaves_unsaid_is_found_at_its_step(mistake: Mistake, rule: str, step: str, key: str) -> None:
    mistaken = mistake(library_procedure(key))
    found = _found(mistaken)
    assert rule in {one.rule for one in found}
    if step:
        steps = {one.step.removesuffix("-1") for one in found if one.rule == rule}
        assert {step, step_of(mistaken, step)} & steps


@pytest.mark.parametrize(
    ("mistake", "rule"),
    [
        (_drop("hold"), "brake_below"),
        (_drop("gear-in"), "gear_below"),
        (_drop("range-lever"), "range_below"),
        (_change("stand", at=("outdoors",)), "ground_below"),
        (_change("chock", at=()), "chocks_below"),
        (_drop("chock"), "chocks_below"),
    ],
)
def test_a_vehicle_that_is_worked_under_on_its_wheels_is_held(mistake: Mistake, rule: str) -> None:
    spin_on = library_procedure(SPIN_ON)
    assert not {one.rule for one in rehearse(bound(spin_on, sheets.OLD, **ON_WHEELS)).findings} & set(ROLLING)
    found = rehearse(bound(mistake(spin_on), sheets.OLD, **ON_WHEELS)).findings
    assert (rule, "harm") in {(one.rule, one.grade) for one in found}


def test_on_its_stands_nothing_is_said_of_a_vehicle_on_its_wheels() -> None:
    mistaken = drop(library_procedure(SPIN_ON), "hold")
    assert "brake" in {one.rule for one in new_findings(mistaken, raised=True)}
    assert not {one.rule for one in new_findings(mistaken, raised=True)} & set(ROLLING)


def test_soft_ground_is_told_before_anybody_reaches_under() -> None:
    found = new_findings(library_procedure(SPIN_ON), Kit(ground="soft"), **ON_WHEELS)
    assert [(one.rule, one.thing) for one in found] == [("ground_below", "vehicle")]


_ANOTHER = """
[fastenings.gearbox_drain]
circuit = "gearbox"
kind = "sealing"
seal = "drain_washer"
torque = "30 N·m"
[circuits.gearbox]
"""
_ITEM = "[items.engine_oil_and_filter]\n"


@pytest.mark.parametrize(
    ("roles", "more", "rule", "thing"),
    [
        ('drain_plug = "gearbox_drain"', _ANOTHER, "own_plug", "drain_plug"),
        ('oil = "gearbox"', _ANOTHER, "own_circuit", "oil"),
        ('filter = "fuel_filter"', '\n[slots.fuel_filter]\nkind = "spin-on"\n', "own_part", "filter"),
        ('filter = "paper"', '\n[slots.paper]\nkind = "cartridge"\n', "own_part", "filter"),
        ('drain_seal = "other_ring"', "\n[slots.other_ring]\n", "own_part", "drain_seal"),
    ],
)
def test_a_part_of_another_place_in_the_sheet_is_told_by_its_role(roles: str, more: str, rule: str, thing: str) -> None:
    spin_on = library_procedure(SPIN_ON)
    right = {one.rule for one in rehearse(bound(spin_on, sheets.CAR + more)).findings}
    assert not right & {"own_plug", "own_circuit", "own_part"}
    text = sheets.CAR.replace(_ITEM, f"{_ITEM}roles = {{ {roles} }}\n") + more
    assert (rule, thing) in {(one.rule, one.thing) for one in rehearse(bound(spin_on, text)).findings}


def test_a_container_is_not_poured_twice_but_a_level_that_sank_is_filled_again() -> None:
    assert not [one for one in rehearse(bound(library_procedure(COOLANT), fluid_sheets.VAN)).findings if one.rule == "poured_again"]


def test_every_fastening_that_is_left_loose_is_named() -> None:
    mistaken = drop(drop(library_procedure(SPIN_ON), "plug-tight"), "filter-tight")
    found = {one.thing for one in rehearse(bound(mistaken)).findings if one.rule == "all_tight"}
    assert found == {"drain_plug", "filter_joint"}


@pytest.mark.parametrize(
    ("mistake", "things"),
    [
        (_drop("stop-first"), {"engine"}),
        (_drop("lower-tray"), {"vehicle"}),
        (_drop("settle-pour"), {"oil"}),
    ],
)
def test_a_reading_that_does_not_count_names_its_cause(mistake: Mistake, things: set[str]) -> None:
    found = {one.thing for one in _found(mistake(library_procedure(SPIN_ON))) if one.rule == "reading_counts"}
    assert found == things


def test_a_reading_before_the_pour_is_none() -> None:
    from tests.procedures.mistakes import move

    found = _found(move(library_procedure(SPIN_ON), "read-before-start", before="pour-first"))
    assert {("reading_counts", "read-before-start"), ("stick_before_start", "first-start")} <= {(one.rule, one.step) for one in found}


@pytest.mark.parametrize("rule", ["chocks", "brake", "gear", "gloves", "tag", "pan_there"])
def test_a_finding_names_the_thing_that_is_missing(rule: str) -> None:
    dropped = {"chocks": "chock", "brake": "hold", "gear": "gear-in", "gloves": "wear", "tag": "tag", "pan_there": "pan-plug"}[rule]
    things = {"chocks": "chocks", "brake": "brake", "gear": "gear", "gloves": "gloves", "tag": "tag", "pan_there": "pan"}
    found = _found(drop(library_procedure(SPIN_ON), dropped), raised=True)
    assert {one.thing for one in found if one.rule == rule} == {things[rule]}


def test_every_wheel_is_bled_also_where_the_wheels_are_not_gone_round_in_one_lap() -> None:
    whole = library_procedure(BRAKE)
    steps = tuple(step.model_copy(update={"lap": None}) for step in whole.steps)
    found = rehearse(bound(whole.model_copy(update={"steps": steps}), fluid_sheets.CAR)).findings
    assert "every_wheel_bled" not in {one.rule for one in found}
    three = tuple(step.model_copy(update={"each": step.each[:3]}) for step in steps)
    found = rehearse(bound(whole.model_copy(update={"steps": three}), fluid_sheets.CAR)).findings
    assert "every_wheel_bled" in {one.rule for one in found}


def test_a_tool_that_is_not_there_is_told_where_nothing_is_undone() -> None:
    found = new_findings(library_procedure(WALK), Kit(tools={"lamp": False}))
    assert {(one.rule, one.thing) for one in found} == {("tool_there", "lamp")}
    assert not new_findings(library_procedure(WALK), Kit(tools={"lamp": True}))


@pytest.mark.parametrize(("unit", "told"), [("N·m", False), ("lbf ft", True)])
def test_a_torque_in_a_unit_unlike_all_others_of_the_sheet_is_looked_at_again(unit: str, told: bool) -> None:
    text = parts_sheets.CAR.replace('torque = { value = "120 N·m"', f'torque = {{ value = "120 {unit}"')
    found = {(one.rule, one.step, one.grade, one.basis) for one in rehearse(bound(library_procedure(TYRES), text)).findings}
    assert (("odd_unit", "nuts-torque", "advice", "default") in found) is told


def _fault_paths(text: str) -> dict[str, str]:
    with pytest.raises(DocumentError) as caught:
        load_as(Procedure, text, where="x.toml")
    return {one.key: str(one.values["path"]) for one in caught.value.faults}


def test_an_amount_that_is_no_amount_is_a_fault_of_the_document() -> None:
    text = procedure_text(SPIN_ON).replace('amount = "{drain_plug.torque}"', 'amount = "{drain_plug.thread}"')
    assert _fault_paths(text).keys() == {"procedure.amount_fact"}
    poured = procedure_text(GEAR).replace('amount = "{oil.refill}"', 'amount = "{oil.accepts}"')
    assert _fault_paths(poured).keys() == {"procedure.amount_fact"}


def test_a_step_that_parts_a_lap_is_named_itself() -> None:
    number = next(index for index, step in enumerate(library_procedure(BRAKE).steps) if step.lap) + 1
    between = '[[steps]]\nid = "in-between"\naction = "say"\nthing = "helper"\nwords = "Call out."\n\n'
    text = procedure_text(BRAKE)
    place = text.index('[[steps]]\nid = "bleed"')
    assert _fault_paths(text[:place] + between + text[place:]) == {"procedure.lap": f"steps[{number}].lap"}


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("Tighten it to 30 lbf ft.", ("30 lbf ft",)),
        ("Then 38 N m, or 4 L of it.", ("38 N m", "4 L")),
        ("All 4 plugs, one by one.", ()),
    ],
)
def test_a_torque_typed_into_the_words_is_seen(words: str, found: tuple[str, ...]) -> None:
    assert bare_figures(words) == found


def test_every_rule_of_these_families_is_fired_by_a_planted_mistake() -> None:
    fired = {case[2] for case in PLANTED} | set(ROLLING) | {"own_plug", "own_circuit", "own_part", "odd_unit"}
    modules = (afterwards, belonging, figures, rolling, telling, waits, walk_round)
    assert {rule.id for module in modules for rule in module.RULES} - fired == set()


@pytest.mark.parametrize("action", ["run_engine", "warm", "clean", "wear", "wait", "press", "tighten", "fit", "loosen", "drain", "pour"])
def test_a_move_that_names_no_thing_is_judged_like_any_other(action: str) -> None:
    whole = library_procedure(SPIN_ON)
    step = whole.steps[0].model_copy(
        update={"id": "bare", "action": action, "thing": None, "things": (), "at": (), "first": (), "then": ()}
    )
    for steps in ((step, *whole.steps), (*whole.steps, step)):
        assert rehearse(bound(whole.model_copy(update={"steps": steps}))).states[0].step == steps[0].id

"""One realistic mistake at a time in the jobs on wheels, brakes, battery, filters and belt: each is found, by the rule that knows it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.procedures import parts_sheets, sheets
from tests.procedures.mistakes import change, drop, move
from twomarks.model.procedure import Procedure
from twomarks.procedures.binding import bind
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import Rehearsal, rehearse
from twomarks.procedures.rules import RULES, air, battery, belt, ends, fuel, pads, parts, ready, wheels

Mistake = Callable[[Procedure], Procedure]


def _drop(name: str) -> Mistake:
    return lambda procedure: drop(procedure, name)


def _move(name: str, before: str) -> Mistake:
    return lambda procedure: move(procedure, name, before=before)


def _change(name: str, **fields: object) -> Mistake:
    return lambda procedure: change(procedure, name, **fields)


def _one_side(end: str) -> Mistake:
    """Return the mistake of chocking one side only and raising one end."""
    return lambda procedure: change(change(procedure, "chock", at=()), "raise", at=("lifting points", end))


def _follow_ups(*distances: str) -> Mistake:
    """Return the mistake of asking for the nuts after these distances only."""

    def made(procedure: Procedure) -> Procedure:
        one = procedure.follow_ups[0]
        return procedure.model_copy(update={"follow_ups": tuple(one.model_copy(update={"after_distance": far}) for far in distances)})

    return made


def _left_only(procedure: Procedure) -> Procedure:
    steps = tuple(step.model_copy(update={"each": ("left",)}) if step.lap else step for step in procedure.steps)
    return procedure.model_copy(update={"steps": steps})


def _taken_off_and_on(procedure: Procedure) -> Procedure:
    """Take the belt off and put it on again, and look at nothing."""
    off = change(procedure, "gauge", action="remove", thing="belt")
    return change(off, "count", action="fit", thing="belt")


# what was done wrong, the procedure, the mistake, the rule that finds it, the vehicle
PLANTED: list[tuple[str, str, Mistake, str, str]] = [
    ("cracked on stands", "tyre-rotation", _move("nuts-crack", "nuts-off"), "nuts_cracked", "car"),
    ("never cracked", "tyre-rotation", _drop("nuts-crack"), "nuts_loose_first", "car"),
    ("wheels off on the jack", "tyre-rotation", _drop("stands"), "wheel_off_on_stands", "car"),
    ("wheels off, never shaken", "tyre-rotation", _drop("shake"), "wheel_off_on_stands", "van"),
    ("one end up, chocks on one side", "tyre-rotation", _one_side("rear end"), "brake_of_the_raised_end", "car"),
    ("transmission brake, chocks on one side", "tyre-rotation", _one_side("front end"), "brake_of_the_raised_end", "4x4"),
    ("tread not measured", "tyre-rotation", _drop("tread"), "tread_measured", "car"),
    ("pattern not looked up", "tyre-rotation", _change("pattern", things=("tyre",), thing=None), "swap_pattern", "car"),
    ("arrow not read", "tyre-rotation", _change("pattern", things=("swap_pattern",)), "tyre_direction", "car"),
    ("faces dirty", "tyre-rotation", _drop("faces"), "wheel_faces", "car"),
    ("faces brushed before the wheels came off", "tyre-rotation", _move("faces", "nuts-off"), "wheel_faces", "car"),
    ("seats not looked at", "tyre-rotation", _drop("seats"), "nut_seats", "car"),
    ("nuts run on with a tool", "tyre-rotation", _drop("nuts-on"), "nuts_by_hand", "car"),
    ("tightened round the circle", "tyre-rotation", _change("nuts-torque", pace=""), "nuts_crosswise", "car"),
    ("lowered on loose nuts", "tyre-rotation", _drop("nuts-snug"), "nuts_snug", "car"),
    ("lowered without its wheels", "tyre-rotation", _drop("wheels-on"), "wheels_on", "car"),
    ("tightened in the air", "tyre-rotation", _move("nuts-torque", "people-lower"), "nuts_on_ground", "car"),
    ("never tightened", "tyre-rotation", _drop("nuts-torque"), "nuts_torqued", "car"),
    ("not tightened again", "tyre-rotation", _follow_ups(), "retorque", "car"),
    ("tightened again too late", "tyre-rotation", _follow_ups("500 km"), "retorque", "car"),
    ("pressures forgotten", "tyre-rotation", _drop("pressures"), "pressures_set", "car"),
    ("sensors forgotten", "tyre-rotation", _drop("sensors"), "sensors_learned", "car"),
    ("positive first", "battery", _move("positive-off", "negative-off"), "negative_first", "car"),
    ("negative on first", "battery", _move("negative-fit", "positive-fit"), "negative_last", "car"),
    ("poles not read", "battery", _drop("polarity"), "polarity_read", "car"),
    ("poles read on the old one", "battery", _move("polarity", "battery-off"), "polarity_read", "car"),
    ("ring on", "battery", _drop("jewellery"), "jewellery_off", "car"),
    ("nobody looked for a flame", "battery", _drop("flames"), "no_spark", "car"),
    ("engine running at the poles", "battery", _move("run", "positive-fit"), "battery_engine_off", "car"),
    ("lead left to spring back", "battery", _drop("aside"), "lead_aside", "car"),
    ("cut off awake", "battery", _drop("asleep"), "asleep_first", "car"),
    ("code unknown", "battery", _drop("codes"), "codes_known", "car"),
    ("doors shut", "battery", _drop("doors-open"), "not_locked_out", "car"),
    ("lifted with a lead on", "battery", _drop("positive-off"), "both_leads_off", "car"),
    ("not compared", "battery", _drop("compare"), "battery_compared", "car"),
    ("leads onto nothing", "battery", _drop("battery-in"), "battery_in", "car"),
    ("posts dirty", "battery", _drop("clean"), "posts_clean", "car"),
    ("covers off", "battery", _drop("covers-on"), "covers_on", "car"),
    ("charging not measured", "battery", _drop("charge"), "charge_measured", "car"),
    ("charging measured at rest", "battery", _move("charge", "count"), "charge_measured", "car"),
    ("nothing learned again", "battery", _drop("learn"), "relearned", "car"),
    ("old battery left lying", "battery", _drop("old-upright"), "old_battery_upright", "car"),
    ("old one still in", "battery", _drop("battery-off"), "part_gone", "car"),
    ("left out", "battery", _drop("battery-in"), "parts_back", "car"),
    ("hybrid still ready", "battery", _drop("ready-lamp"), "not_ready", "hybrid"),
    ("hybrid not left to itself", "tyre-rotation", _drop("hybrid-wait"), "not_ready", "hybrid"),
    ("started with the brake off", "battery", _drop("hold"), "start_held", "car"),
    ("orange cable", "battery", _change("clean", thing="orange_cables"), "orange_cables", "car"),
    ("airbag", "battery", _change("covers-on", thing="airbags"), "airbags", "car"),
    ("air conditioning", "battery", _change("vent-off", thing="air_conditioning"), "air_conditioning", "car"),
    ("gas fuel", "battery", _change("vent-off", thing="gas_fuel"), "gas_fuel", "car"),
    ("high-pressure line", "battery", _change("vent-off", thing="high_pressure_lines"), "high_pressure_lines", "car"),
    ("spring let go", "battery", _change("vent-off", thing="springs"), "springs_held", "car"),
    ("opened while it runs", "engine-air-filter", _move("run", "outside"), "airbox_engine_off", "car"),
    ("opened dirty", "engine-air-filter", _drop("outside"), "airbox_clean", "car"),
    ("pulled past the lid", "engine-air-filter", _drop("open"), "lid_open", "car"),
    ("wiped towards the engine", "engine-air-filter", _drop("outlet-cover"), "outlet_covered", "car"),
    ("cloth left in the outlet", "engine-air-filter", _drop("outlet-free"), "outlet_free", "car"),
    ("old element not looked at", "engine-air-filter", _drop("element-look"), "element_looked", "car"),
    ("looked at before it came out", "engine-air-filter", _move("element-look", "open"), "element_looked", "car"),
    ("element not compared", "engine-air-filter", _drop("compare"), "element_compared", "car"),
    ("housing not wiped", "engine-air-filter", _drop("inside"), "box_wiped", "car"),
    ("element blown out", "engine-air-filter", _change("inside", thing="air_filter"), "element_not_blown", "car"),
    ("seal not felt", "engine-air-filter", _drop("seat"), "element_seated", "car"),
    ("ducts not looked at", "engine-air-filter", _drop("duct"), "ducts_looked", "car"),
    ("not listened to", "engine-air-filter", _drop("listen"), "air_listened", "car"),
    ("listened to with the engine off", "engine-air-filter", _move("listen", "count"), "air_listened", "car"),
    ("not cooled", "diesel-fuel-filter", _drop("cool"), "fuel_cold", "van"),
    ("nobody looked for a flame", "diesel-fuel-filter", _drop("flames"), "fuel_no_flame", "van"),
    ("in a garage", "diesel-fuel-filter", _change("stand", at=("level", "hard")), "fuel_in_the_open", "van"),
    ("high-pressure side not ruled out", "diesel-fuel-filter", _drop("low-side"), "low_pressure_known", "van"),
    ("key left in", "diesel-fuel-filter", _drop("key-out"), "fuel_key_away", "van"),
    ("filter not wiped", "diesel-fuel-filter", _drop("seat-area"), "fuel_outside_clean", "van"),
    ("water left in", "diesel-fuel-filter", _drop("water"), "water_let_out", "van"),
    ("tank open", "diesel-fuel-filter", _drop("fuel-off"), "fuel_shut_off", "van"),
    ("primed with the cock shut", "diesel-fuel-filter", _drop("fuel-on"), "fuel_tap_open", "van"),
    ("filled in the middle", "diesel-fuel-filter", _change("wet", action="pour", thing="fuel"), "clean_side_empty", "van"),
    ("not bled", "diesel-fuel-filter", _drop("bleed"), "fuel_bled", "4x4"),
    ("not primed", "diesel-fuel-filter", _drop("prime"), "fuel_primed", "van"),
    ("primed before the filter was on", "diesel-fuel-filter", _move("prime", "joint-loose"), "fuel_primed", "van"),
    ("cranked without a limit", "diesel-fuel-filter", _change("first-start", amount=None), "crank_limit", "van"),
    ("not wiped dry", "diesel-fuel-filter", _drop("leak-dry"), "fuel_dry_first", "van"),
    ("water drain left open", "diesel-fuel-filter", _drop("drain-shut"), "fuel_closed", "van"),
    ("no look while it runs", "diesel-fuel-filter", _drop("leak-running"), "fuel_dry", "van"),
    ("let off before the stands", "brake-pads-rear", _move("brake-off", "stands"), "held_without_brake", "car"),
    ("let off with chocks on one side", "brake-pads-rear", _change("chock", at=()), "held_without_brake", "car"),
    ("no service mode", "brake-pads-rear", _drop("service-mode"), "service_mode", "van"),
    ("brake left on", "brake-pads-rear", _drop("brake-off"), "brake_let_off", "car"),
    ("brake left on in front", "brake-pads-front", _drop("brake-off"), "brake_let_off", "hybrid"),
    ("dust brushed dry", "brake-pads-front", _change("dust", manner=""), "dust_wet", "car"),
    ("dust left", "brake-pads-front", _drop("dust"), "dust_first", "car"),
    ("caliper on its hose", "brake-pads-front", _drop("hang"), "caliper_hung", "car"),
    ("pads not compared", "brake-pads-front", _drop("compare"), "pads_compared", "car"),
    ("disc not measured", "brake-pads-front", _drop("disc"), "disc_measured", "car"),
    ("tank shut while the piston goes back", "brake-pads-front", _drop("tank-open"), "room_in_tank", "car"),
    ("piston left out", "brake-pads-front", _drop("piston"), "piston_back", "car"),
    ("guides dry", "brake-pads-front", _drop("guides"), "guides_free", "car"),
    ("caliper on without pads", "brake-pads-front", _drop("pads-on"), "pads_under_caliper", "car"),
    ("caliper bolts only by hand", "brake-pads-front", _drop("caliper-on"), "caliper_tight", "car"),
    ("grease on the disc", "brake-pads-front", _drop("disc-clean"), "disc_clean", "car"),
    ("hose twisted", "brake-pads-front", _drop("hose"), "hose_straight", "car"),
    ("one side only", "brake-pads-front", _left_only, "both_sides", "car"),
    ("service mode left on", "brake-pads-rear", _drop("service-mode-over"), "service_mode_over", "van"),
    ("not looked at after the drive", "brake-pads-front", _drop("look-after"), "brakes_looked_after", "car"),
    ("hose opened", "brake-pads-front", _change("guides", action="disconnect", thing="brake_hose"), "hose_bled", "car"),
    ("pedal not pumped", "brake-pads-front", _drop("pump"), "pedal_firm", "car"),
    ("pedal tried before the caliper was on", "brake-pads-rear", _move("pedal-off", "caliper-fit"), "pedal_firm", "car"),
    ("hands in while it runs", "auxiliary-belt-check", _move("run", "bonnet-up"), "belt_engine_off", "car"),
    ("turned in gear", "auxiliary-belt-check", _drop("free"), "turned_by_hand", "car"),
    ("nobody warned to stand clear", "auxiliary-belt-check", _change("run", caution=()), "stand_clear", "car"),
    ("only what one sees at once", "auxiliary-belt-check", _drop("turn"), "belt_whole_loop", "car"),
    ("cracks only", "auxiliary-belt-check", _drop("gauge"), "belt_gauged", "car"),
    ("tensioner not looked at", "auxiliary-belt-check", _drop("tensioner"), "tensioner_looked", "car"),
    ("not heard", "auxiliary-belt-check", _drop("listen"), "belt_heard", "car"),
    ("taken off without a drawing", "auxiliary-belt-check", _change("gauge", action="remove", thing="belt"), "belt_routing", "car"),
    ("put on and run", "auxiliary-belt-check", _taken_off_and_on, "ribs_seated", "car"),
    ("tensioner let go", "auxiliary-belt-check", _change("gauge", action="loosen", thing="tensioner"), "springs_held", "car"),
]  # fmt: skip
FAMILIES = (wheels, battery, ends, parts, ready, air, fuel, pads, belt)


def _played(procedure: Procedure, vehicle: str) -> Rehearsal:
    return rehearse(bind(procedure, sheets.sheet(parts_sheets.VEHICLES[vehicle])))


@pytest.mark.parametrize(("key", "mistake", "rule", "vehicle"), [case[1:] for case in PLANTED], ids=[case[0] for case in PLANTED])
def test_a_single_mistake_is_found_by_the_rule_that_knows_it(key: str, mistake: Mistake, rule: str, vehicle: str) -> None:
    correct, mistaken = library_procedure(key), mistake(library_procedure(key))
    assert rule in {one.rule for one in _played(mistaken, vehicle).findings}
    assert rule not in {one.rule for one in _played(correct, vehicle).findings}


def test_every_rule_of_these_families_is_tried() -> None:
    own = {rule.id for family in FAMILIES for rule in family.RULES}
    assert own - {case[3] for case in PLANTED} == {"fuel_is_diesel"}


@pytest.mark.parametrize(("vehicle", "found"), [("car", True), ("hybrid", True), ("van", False), ("4x4", False)])
def test_the_fuel_side_is_opened_on_a_diesel_only(vehicle: str, found: bool) -> None:
    rules = {(one.rule, one.grade) for one in _played(library_procedure("diesel-fuel-filter"), vehicle).findings}
    assert (("fuel_is_diesel", "harm") in rules) is found


def test_what_protects_a_person_is_harm_also_where_it_is_merely_not_said() -> None:
    families = ("wheels", "ends the card", "ready", "fuel", "brake pads", "battery")
    assert {rule.grade for rule in RULES if rule.family in families and rule.protects} == {"harm"}
    found = _played(change(library_procedure("tyre-rotation"), "nuts-snug", pace=""), "car").findings
    assert ("nuts_crosswise", "harm", "not shown") in {(one.rule, one.grade, one.basis) for one in found}


@pytest.mark.parametrize(
    ("brake", "end", "found"),
    [
        ("rear wheels", "rear end", True),
        ("rear wheels", "front end", False),
        ("front wheels", "front end", True),
        ("transmission", "front end", True),
    ],
)
def test_a_brake_on_what_goes_up_holds_nothing(brake: str, end: str, found: bool) -> None:
    text = parts_sheets.CAR.replace('parking_brake = "rear wheels"', f'parking_brake = "{brake}"')
    rules = {one.rule for one in rehearse(bind(_one_side(end)(library_procedure("tyre-rotation")), sheets.sheet(text))).findings}
    assert ("brake_of_the_raised_end" in rules) is found


def test_leads_that_are_disconnected_and_connected_are_clamps_as_well() -> None:
    battery_out = library_procedure("battery")
    for name, action in (("negative-off", "disconnect"), ("positive-off", "disconnect"), ("positive-fit", "connect")):
        battery_out = change(battery_out, name, action=action)
    battery_out = change(battery_out, "negative-fit", action="connect")
    assert {one.rule for one in _played(battery_out, "car").findings if one.rule in {rule.id for rule in battery.RULES}} == set()
    first = move(battery_out, "positive-off", before="negative-off")
    assert "negative_first" in {one.rule for one in _played(first, "car").findings}


def test_a_caliper_that_is_held_up_does_not_hold_the_vehicle() -> None:
    pads_job = change(library_procedure("brake-pads-front"), "hang", action="support", thing="pads")
    assert "caliper_hung" not in {one.rule for one in _played(pads_job, "car").findings}
    on_the_jack = drop(pads_job, "stands")
    assert "wheel_off_on_stands" in {one.rule for one in _played(on_the_jack, "car").findings}


def test_nuts_that_are_tight_may_be_tightened_once_more() -> None:
    again = change(library_procedure("tyre-rotation"), "sensors", action="tighten", thing="wheel_nuts", manner="to figure",
                   pace="crosswise", amount="{wheel_nuts.torque}")  # fmt: skip
    assert not {"nuts_by_hand", "nuts_torqued"} & {one.rule for one in _played(again, "car").findings}

"""What the trade asks for, and the rules that answer: none of the deadly ones may ever be less than harm or damage."""

from __future__ import annotations

import pytest

from twomarks.procedures.rules import RULES

# what must hold, by its letter in the trade's list: the rules that answer it, and the least grade each may have
ASKED: dict[str, tuple[str, dict[str, str]]] = {
    "G1": (
        "ground, chocks, brake and gear before raising",
        {
            "ground": "harm",
            "chocks": "harm",
            "chocks_stay": "harm",
            "brake": "harm",
            "gear": "harm",
            "brake_below": "harm",
            "gear_below": "harm",
            "range_below": "harm",
            "ground_below": "harm",
            "chocks_below": "harm",
            "range": "harm",
            "lifting_points": "harm",
            "air_suspension": "harm",
        },
    ),
    "G2": (
        "on stands and shaken before anybody goes under",
        {"stands": "harm", "shaken": "harm", "air_springs": "harm", "still_under": "harm"},
    ),
    "G3": ("somebody knows", {"helper": "advice"}),
    "G4": ("engine cannot start", {"key_away": "harm", "engine_stopped": "harm", "engine_off": "harm", "start_people": "harm"}),
    "G5": ("fresh air before any run", {"fresh_air": "harm", "run_warned": "harm"}),
    "G6": ("spills wiped before a start", {"spills_wiped": "harm"}),
    "K1": ("kit complete before the first undo", {"kit": "omission"}),
    "P1": ("not scalding", {"not_hot": "harm", "burn_warned": "harm"}),
    "P2": ("skin, eyes, paint", {"gloves": "harm", "glasses": "harm", "paint_covered": "damage"}),
    "P3": ("clean around what is opened", {"filler_clean": "damage", "housing_clean": "damage", "face_clean": "omission"}),
    "W1": ("pan there and big enough", {"pan_there": "omission", "pan_size": "omission"}),
    "W1b": ("room in the can, one kind", {"waste_room": "omission", "can_of_its_kind": "omission"}),
    "W2": ("kinds apart and put away", {"oil_canned": "omission", "kinds_apart": "omission"}),
    "W3": ("coolant out of reach", {"coolant_warned": "harm", "coolant_watched": "harm", "spills_at_end": "harm"}),
    "E0": ("level before the warm-up", {"level_before_warm": "damage"}),
    "E1": ("oil inside before the start", {"oil_inside": "damage", "tag": "damage"}),
    "E2": ("drain closed, new seal", {"plug_before_pour": "damage", "one_new_seal": "damage"}),
    "E3": ("cap and stick back", {"cap_on": "damage", "cap_back": "damage"}),
    "E4": ("lamp watched", {"lamp": "damage"}),
    "E5": ("idle only at first", {"idle_only": "advice"}),
    "F1": ("filter compared", {"filter_compared": "damage"}),
    "F2": ("old ring seen, seat clean, ring oiled", {"old_seal": "damage", "seat_clean": "damage", "ring_oiled": "damage"}),
    "F3": ("housing empty, new element in", {"element_in": "damage", "filter_gone": "damage", "new_part": "damage"}),
    "F4": ("filter tightened before the pour", {"new_filter": "damage", "all_tight": "damage"}),
    "L1": ("read on the level", {"reading_counts": "omission"}),
    "L2": ("read after the wait", {"reading_counts": "omission", "run_down_given": "omission"}),
    "L3": ("read after the run", {"level_after": "damage", "ran": "omission"}),
    "L4": ("as much in as out", {"litres_out": "advice", "in_as_out": "damage", "let_out": "omission"}),
    "M1": ("the right fluid", {"right_fluid": "damage", "gear_oil_class": "damage", "limited_slip": "damage"}),
    "M2": ("through the right opening", {"filler_read": "damage", "brake_cap_read": "harm"}),
    "T1": ("wrench in its range", {"wrench": "damage"}),
    "T2": ("a figure with its unit", {"to_figure": "damage", "own_torque": "damage"}),
    "T3": ("started by hand", {"by_hand_first": "damage"}),
    "T4": ("new where used once", {"one_new_seal": "damage", "new_part": "damage"}),
    "T5": ("nothing left loose", {"all_tight": "damage"}),
    "R1": ("nothing left in the bay", {"bay_clear": "harm", "bay_before_bonnet": "harm"}),
    "R2": ("look before the tray", {"tray_after_look": "omission"}),
    "R3": ("joined again before the start", {"rejoined": "damage"}),
    "R4": ("nothing left off", {"tray_back": "damage", "counted": "omission"}),
    "V1": ("proved before it is written down", {"proved_first": "omission"}),
    "V3": ("reminder after the proof", {"proved_first": "omission"}),
    "V4": ("a look afterwards", {"follow_up": "omission", "next_look": "omission", "after_distance": "omission"}),
    "X1": ("fill plug proved free first", {"fill_plug_first": "damage"}),
    "X2": ("full to the hole, no longer dripping, level", {"level_at_hole": "damage"}),
    "X3": ("full before it drives", {"gear_full": "damage"}),
    "X4": ("the right unit", {"which_unit": "damage"}),
    "X5": ("breather", {"breather": "omission"}),
    "C1": ("cap opened cold only", {"cap_cold": "harm"}),
    "C2": ("mixture and heater", {"mixture_known": "damage", "heater_open": "damage"}),
    "C3": ("no air inside", {"coolant_filled": "damage", "coolant_bled": "damage", "thermostat": "damage", "heater_hot": "damage"}),
    "C4": ("cooling closed before the run", {"all_tight": "damage", "coolant_cap_on": "harm"}),
    "C5": ("read cold afterwards", {"coolant_level": "damage", "frost_measured": "omission"}),
    "B1": ("sealed fluid of the class on the cap", {"sealed_fluid": "harm", "brake_cap_read": "harm"}),
    "B2": ("tank never empty", {"tank_topped_up": "harm", "strokes_said": "harm"}),
    "B3": ("screw shut before the release, tight, capped", {"shut_before_release": "harm", "all_tight": "damage", "dust_caps": "omission"}),
    "B4": (
        "pedal proved before it moves",
        {"pedal_firm": "harm", "slow_stop": "harm", "brake_leaks": "harm", "every_wheel_bled": "harm", "brake_level": "harm"},
    ),
    "Wn0": ("cracked loose on the ground", {"nuts_cracked": "harm", "nuts_loose_first": "harm"}),
    "Wn1": ("tightened again after some distance", {"retorque": "harm"}),
    "Wn2": (
        "clean, by hand, crosswise, on the ground",
        {
            "wheel_faces": "harm",
            "nuts_by_hand": "harm",
            "nuts_crosswise": "harm",
            "nuts_snug": "harm",
            "nuts_on_ground": "harm",
            "nuts_torqued": "harm",
            "wheel_off_on_stands": "harm",
        },
    ),
    "Wn3": ("the seat of the nuts", {"nut_seats": "harm"}),
    "Wn4": ("arrow and side", {"tyre_direction": "damage", "swap_pattern": "damage"}),
    "Wn5": ("pressures and sensors", {"pressures_set": "omission", "sensors_learned": "advice"}),
    "Bt1": ("negative off first, on last", {"negative_first": "harm", "negative_last": "harm"}),
    "Bt2": ("poles read", {"polarity_read": "harm"}),
    "Bt3": ("held down, vent and covers", {"all_tight": "damage", "rejoined": "damage", "covers_on": "harm"}),
    "Bt4": ("codes, doors, asleep", {"codes_known": "advice", "not_locked_out": "omission", "asleep_first": "damage"}),
    "D1": ("the high-pressure side stays shut", {"low_pressure_known": "harm", "high_pressure_lines": "harm", "fuel_is_diesel": "harm"}),
    "D2": ("nothing unfiltered on the clean side", {"clean_side_empty": "damage"}),
    "D3": ("primed before it is cranked", {"fuel_primed": "damage", "crank_limit": "damage", "fuel_bled": "damage"}),
    "D4": ("fuel side shut and dry", {"fuel_closed": "harm", "fuel_dry_first": "harm", "fuel_dry": "harm"}),
    "A1": ("air side shut all round", {"element_seated": "damage", "outlet_free": "damage", "parts_back": "damage", "rejoined": "damage"}),
    "A2": ("not blown through", {"element_not_blown": "damage", "element_looked": "omission"}),
    "Be1": ("gauged, not only looked at", {"belt_gauged": "omission", "belt_whole_loop": "omission"}),
    "Be2": ("routing and ribs", {"belt_routing": "damage", "ribs_seated": "damage", "turned_by_hand": "harm", "springs_held": "harm"}),
    "pads": (
        "held without its brake, both sides, tight, and the pedal back",
        {
            "held_without_brake": "harm",
            "service_mode": "harm",
            "service_mode_over": "harm",
            "caliper_hung": "harm",
            "caliper_tight": "harm",
            "disc_measured": "harm",
            "disc_clean": "harm",
            "both_sides": "harm",
            "hose_bled": "harm",
            "pedal_firm": "harm",
        },
    ),
    "ends": (
        "what ends a card",
        {"orange_cables": "harm", "airbags": "harm", "air_conditioning": "harm", "gas_fuel": "harm", "high_pressure_lines": "harm"},
    ),
}
DEADLY = (
    *("G1", "G2", "G4", "G5", "E1", "E2", "E3", "E4", "C1", "W3", "B1", "B2", "B4", "X1", "X3", "X4"),
    *("Wn0", "Wn1", "Wn2", "Wn3", "Bt1", "Bt2", "D1", "D4", "pads", "ends"),
)
"""Support, ventilation, a start without oil, a hot cap, poison, brakes, an empty gear unit, wheels, poles, what ends a card."""
WORSE = ("harm", "damage", "omission", "advice")
OWN = {rule.id: rule for rule in RULES}


@pytest.mark.parametrize("letter", ASKED)
def test_what_the_trade_asks_has_its_rules_and_they_their_grade(letter: str) -> None:
    _, rules = ASKED[letter]
    for name, least in rules.items():
        assert WORSE.index(OWN[name].grade) <= WORSE.index(least), name


@pytest.mark.parametrize("letter", DEADLY)
def test_what_can_kill_or_ruin_is_never_less_than_harm_or_damage(letter: str) -> None:
    for name, least in ASKED[letter][1].items():
        assert least in ("harm", "damage")
        assert OWN[name].grade in ("harm", "damage")
        assert OWN[name].protects or name == "one_new_seal", name


def test_every_rule_that_protects_is_harm_or_damage() -> None:
    assert [rule.id for rule in RULES if rule.protects and rule.grade not in ("harm", "damage")] == []


def test_a_planted_lower_grade_would_be_seen() -> None:
    rule = OWN["cap_cold"]
    lower = type(rule)(id=rule.id, family=rule.family, grade="omission", when=rule.when, holds=rule.holds, protects=True)
    assert WORSE.index(lower.grade) > WORSE.index(ASKED["C1"][1]["cap_cold"])

"""What operators make of a small job written for them: the change that is meant, and nothing beside it."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from benchmarks.mutations.dependency import dependent, shares_nothing
from benchmarks.mutations.edits import between, moved, swapped, without_move, without_step, without_thing, worked_moves
from benchmarks.mutations.mutant import Case
from benchmarks.mutations.operators.leads import fill_plug_after_drain_plug, leads_the_wrong_way_round
from benchmarks.mutations.operators.left import left_off
from benchmarks.mutations.operators.order import neighbours_swapped, prepared_too_late
from benchmarks.mutations.operators.people import bare_skin
from twomarks.model.vehicle import VehicleSheet

SHEET = {"format": "twomarks/vehicle/1", "name": "Plain", "kind": "car", "engine": {"fuel": "petrol"}}

GEAR = """
key = "gear"
[roles]
gear_oil = { kind = "circuit", name = "gear oil" }
drain_plug = { kind = "fastening", name = "drain plug", of = "gear_oil" }
fill_plug = { kind = "fastening", name = "fill plug", of = "gear_oil" }
[[steps]]
id = "wear"
action = "wear"
things = ["gloves", "glasses"]
words = "Put them on."
[[steps]]
id = "prove"
action = "remove"
thing = "fill_plug"
place = "under"
first = [{ id = "prove-loose", action = "loosen", thing = "fill_plug" }]
words = "Prove the fill plug."
[[steps]]
id = "drain"
action = "drain"
thing = "gear_oil"
through = "drain_plug"
place = "under"
words = "Drain it."
wait = "10 min"
[[steps]]
id = "look"
action = "inspect"
thing = "drain_plug"
place = "bench"
during = "drain"
words = "Look at the plug."
[[steps]]
id = "close"
action = "tighten"
thing = "drain_plug"
place = "under"
first = [{ id = "plug-in", action = "fit", thing = "drain_plug" }]
then = [{ id = "clean", action = "clean", thing = "spills" }]
words = "Close it."
[[steps]]
id = "write"
action = "record"
thing = "daybook"
words = "Write it down."
"""

BATTERY = """
key = "battery"
[[steps]]
id = "off-first"
action = "disconnect"
thing = "negative_lead"
words = "Take it off."
[[steps]]
id = "off-second"
action = "disconnect"
thing = "positive_lead"
words = "Take it off."
[[steps]]
id = "on-first"
action = "connect"
thing = "positive_lead"
words = "Put it on."
[[steps]]
id = "on-second"
action = "connect"
thing = "negative_lead"
words = "Put it on."
"""


def case(text: str) -> Case:
    """Return a job of which every step is worked."""
    procedure = tomllib.loads(text)
    worked = tuple(step["id"] for step in procedure["steps"])
    return Case(procedure=procedure, sheet=SHEET, vehicle=VehicleSheet.model_validate(SHEET), worked=worked, roles={})


def ids(procedure: Mapping[str, Any] | None) -> list[str]:
    """Return the ids of every move in the order in which they are made."""
    assert procedure is not None
    return [move["id"] for step in procedure["steps"] for move in (*step.get("first", ()), step, *step.get("then", ()))]


def things(procedure: Mapping[str, Any] | None) -> list[str]:
    assert procedure is not None
    return [step["thing"] for step in procedure["steps"]]


def test_the_leads_of_a_battery_change_places_when_off_and_when_on() -> None:
    made = list(leads_the_wrong_way_round(case(BATTERY)))
    assert [things(one.procedure) for one in made] == [
        ["positive_lead", "negative_lead", "positive_lead", "negative_lead"],
        ["negative_lead", "positive_lead", "negative_lead", "positive_lead"],
    ]
    assert [one.steps for one in made] == [{"off-first", "off-second"}, {"on-first", "on-second"}]


def test_the_fill_plug_is_opened_only_after_the_drain() -> None:
    (made,) = fill_plug_after_drain_plug(case(GEAR))
    assert ids(made.procedure) == ["wear", "drain", "prove-loose-late", "prove-late", "look", "plug-in", "close", "clean", "write"]
    assert made.things == {"fill_plug"}
    assert made.steps == {"prove", "drain", "prove-loose-late", "prove-late"}


def test_a_step_that_loses_its_own_move_keeps_its_id_and_the_rest() -> None:
    job = case(GEAR)
    spot = next(one for one in worked_moves(job) if one.move["id"] == "close")
    step = without_move(job.procedure, spot)["steps"][4]
    assert (step["id"], step["action"], step["place"], [one["id"] for one in step["then"]]) == ("close", "fit", "under", ["clean"])


def test_what_was_worked_during_a_step_that_is_gone_is_worked_by_itself() -> None:
    job = case(GEAR)
    assert job.procedure["steps"][3]["during"] == "drain"
    assert "during" not in without_step(job.procedure, 2)["steps"][2]
    assert "during" not in swapped(job.procedure, 2, 3)["steps"][2]
    assert job.procedure["steps"][3]["during"] == "drain"


def test_a_move_without_its_last_thing_is_not_made() -> None:
    job = case(GEAR)
    spot = next(iter(worked_moves(job, "wear")))
    one_less = without_thing(job.procedure, spot, "gloves")
    assert one_less["steps"][0]["things"] == ["glasses"]
    alone = next(iter(worked_moves(case(GEAR), "inspect")))
    assert "look" not in ids(without_thing(job.procedure, alone, "drain_plug"))


def test_a_move_made_elsewhere_is_a_step_of_its_own_and_knows_what_it_passed() -> None:
    job = case(GEAR)
    spot = next(one for one in worked_moves(job) if one.move["id"] == "plug-in")
    changed, name = moved(job.procedure, spot, before="drain")
    assert (name, ids(changed)) == (
        "plug-in-soon",
        ["wear", "prove-loose", "prove", "plug-in-soon", "drain", "look", "close", "clean", "write"],
    )
    assert changed["steps"][2]["place"] == "under"
    assert between(job.procedure, spot, "drain") == {"drain", "look", "close"}


def test_steps_depend_by_what_they_act_on_and_by_what_they_ask_for() -> None:
    procedure = case(GEAR).procedure
    wear, prove, drain, look, close, write = procedure["steps"]
    assert dependent(procedure, wear, drain)
    assert dependent(procedure, prove, drain)
    assert dependent(procedure, look, close)
    assert not dependent(procedure, look, write)
    assert shares_nothing(procedure, close, write)
    assert not shares_nothing(procedure, drain, look)


def test_neighbours_that_share_nothing_are_listed_and_not_counted() -> None:
    made = {one.what: one.same for one in neighbours_swapped(case(GEAR))}
    assert made["close and write swapped"] != ""
    assert made["wear and prove swapped"] == ""


def test_gloves_are_put_on_only_after_the_first_undo_that_asks_for_them() -> None:
    late = [one for one in prepared_too_late(case(GEAR)) if one.things == {"gloves", "glasses"}]
    assert [ids(one.procedure)[:3] for one in late] == [["prove-loose", "prove", "wear"]]


def test_one_of_two_things_is_not_worn_while_the_other_is() -> None:
    made = {one.what: one.procedure for one in bare_skin(case(GEAR))}
    bare = made["gloves not worn at wear"]
    assert bare is not None
    assert bare["steps"][0]["things"] == ["glasses"]
    late = made["gloves put on only after drain"]
    assert late is not None
    assert [(step["id"], step.get("thing")) for step in late["steps"] if step["action"] == "wear"] == [
        ("wear", None),
        ("wear-late", "gloves"),
    ]


def test_a_plug_is_left_off_with_all_that_would_put_it_back_or_only_not_done_up() -> None:
    made = {one.what: one for one in left_off(case(GEAR))}
    assert ids(made["drain_plug left off"].procedure) == ["wear", "prove-loose", "prove", "drain", "look", "close", "write"]
    assert ids(made["drain_plug not done up"].procedure) == ["wear", "prove-loose", "prove", "drain", "look", "close", "clean", "write"]

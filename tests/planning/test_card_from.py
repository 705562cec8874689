"""The job card as it is built from a bound procedure."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import bound, drop, step_of
from twomarks.planning.card import JobCard
from twomarks.planning.card_from import job_card
from twomarks.procedures.bound import Bound
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.rehearsal import rehearse
from twomarks.trade.pour import PourPlan, first_pour
from twomarks.words import Figure, Source

CARD = uuid.UUID("11111111-2222-4333-8444-555555555555")
SPIN_ON, CARTRIDGE = library_procedure("engine-oil-spin-on"), library_procedure("engine-oil-cartridge")


def _card(played: Bound, **more: object) -> JobCard:
    return job_card(played, rehearse(played), needs_of(played), card_id=CARD, day=dt.date(2026, 5, 16), **more)  # type: ignore[arg-type]


def test_the_same_job_has_the_same_card() -> None:
    assert _card(bound(SPIN_ON)) == _card(bound(SPIN_ON))
    ids = [step.id for step in _card(bound(SPIN_ON)).steps]
    assert len(set(ids)) == len(ids)
    assert all(uuid.UUID(one).version == 5 for one in ids)


def test_a_known_torque_stands_on_the_stub_with_its_source() -> None:
    step = next(step for step in _card(bound(SPIN_ON)).steps if step.step == "plug-tight")
    (stub,) = step.stubs
    assert stub.figure == Figure(38.0, "N.m", Source("handbook", "owner's book, p. 216"), "A., 2026-03-02, book in hand")
    assert stub.fact == "fastenings.engine_oil_drain.torque"
    assert step.deliberate


def test_an_unknown_torque_is_an_empty_box() -> None:
    step = next(step for step in _card(bound(CARTRIDGE)).steps if step.step == "plug-tight")
    (stub,) = step.stubs
    assert stub.figure is None
    assert stub.fact == "fastenings.sump_bolt.torque"
    assert [one.rule for one in step.findings] == ["figure_known"]


def test_an_unknown_refill_leaves_every_box_empty() -> None:
    card = _card(bound(SPIN_ON, sheets.BARE, pour=None))
    pour = next(step for step in card.steps if step.step == "pour-first")
    first = pour.stubs[0]
    assert (first.label.key, first.figure) == ("procedure.stub_pour", None)
    assert card.pour is None
    assert [fluid.volume for fluid in card.fluids] == [None]


def test_findings_stand_at_their_step_and_carry_the_reason_they_were_set_aside_for() -> None:
    played = bound(drop(SPIN_ON, "helper"))
    reason = "My brother is in the house."
    card = job_card(
        played,
        rehearse(played),
        needs_of(played),
        card_id=CARD,
        day=dt.date(2026, 5, 16),
        set_aside={("helper", "tray-off"): reason},
    )
    step = next(step for step in card.steps if step.step == "tray-off")
    assert [(one.rule, one.set_aside, one.step) for one in step.findings] == [("helper", reason, step.id)]


def test_the_hang_tag_comes_with_an_engine_that_is_drained_and_with_brakes_that_are_opened() -> None:
    assert _card(bound(SPIN_ON)).hang_tag
    walk = bound(library_procedure("walk-round"), sheets.BARE)
    assert not _card(walk).hang_tag
    assert _card(bound(library_procedure("brake-pads-front"))).hang_tag
    assert _card(walk).gates == ()


def test_gates_and_parallel_steps_point_at_steps_of_the_card() -> None:
    card = _card(bound(CARTRIDGE))
    ids = {step.id for step in card.steps}
    assert all(gate.before in ids or gate.name == "end" for gate in card.gates)
    drain = next(step for step in card.steps if step.step == "drain")
    during = [step.step for step in card.steps if step.during == drain.id]
    assert during == ["seal-new"]


@pytest.mark.parametrize("name", ["shake", "read-before-start", "leak-running", "filler-shut", "old-seal", "plug-tight", "drain"])
def test_a_step_that_a_gate_rests_on_is_confirmed_by_a_deliberate_press(name: str) -> None:
    assert next(step for step in _card(bound(SPIN_ON)).steps if step.step == step_of(SPIN_ON, name)).deliberate


def test_the_pour_table_is_the_plans() -> None:
    plan = pour_plan(sheets.sheet(sheets.CAR))
    card = _card(bound(SPIN_ON))
    assert card.pour is not None
    assert [figure.value for figure in card.pour.pours] == [plan.first_l]
    assert [(row.reading, row.add.value) for row in card.pour.rows] == [(row.reading_fraction, row.add_l) for row in plan.after_run]
    assert card.pour.span == Figure(1.1, "L", Source("measured", "A., 2026-03-02"))


def test_follow_ups_and_times_come_along() -> None:
    card = _card(bound(SPIN_ON))
    assert [(one.after_days, one.after_km) for one in card.follow_ups] == [(1.0, None), (14.0, 500.0)]
    assert card.elapsed_min > card.active_min > 0
    assert {part.slot for part in card.parts} == {"drain_washer", "oil_filter"}
    assert [number.number.value for number in card.parts if number.number] == ["W-1622", "F-0401"]


def test_a_plan_of_two_pours_brings_the_table_for_the_reading_before_the_start() -> None:
    told = first_pour(refill_l=6.6, between_marks_l=1.5, refill_sigma_l=0.66)
    known = first_pour(refill_l=4.3, between_marks_l=1.1, refill_sigma_l=0.1)
    (two, one) = (_with_plan(plan).pour for plan in (told, known))
    assert two is not None
    assert one is not None
    assert [row.reading for row in two.before_start] == [row.reading_fraction for row in told.before_start]
    assert [row.note is None for row in two.before_start] == [row.start for row in told.before_start]
    assert one.before_start == ()


def _with_plan(plan: PourPlan) -> JobCard:
    made = bound(SPIN_ON)
    return job_card(made, rehearse(made), needs_of(made), card_id=uuid.UUID(int=1), day=dt.date(2026, 11, 25), pour=plan)

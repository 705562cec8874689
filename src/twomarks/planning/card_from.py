"""The builder of the job card: a bound procedure, its rehearsal, its needs and the pour plan become one frozen value."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterator, Mapping

from twomarks.planning.card import (
    CardFinding,
    CardFluid,
    CardFollowUp,
    CardPart,
    CardPour,
    CardStep,
    CardTool,
    CardWaste,
    Caution,
    Gate,
    JobCard,
    PourRow,
    Revision,
    Stub,
)
from twomarks.procedures.bound import Bound, BoundCaution, BoundMove, BoundStep
from twomarks.procedures.concerns import concerns_of
from twomarks.procedures.gates import gates_of
from twomarks.procedures.needs import Needs
from twomarks.procedures.rehearsal import Finding, Rehearsal
from twomarks.procedures.sheet_facts import figure_of, part_of
from twomarks.trade.add_table import AddRow
from twomarks.trade.pour import PourPlan
from twomarks.words import Figure, Message, Source, say

__all__ = ["job_card"]

_COMPUTED = Source("computed")
_BY_TABLE = "by table"
_DELIBERATE = frozenset({"tighten", "pour", "drain", "run_engine", "support", "lower"})


def job_card(
    bound: Bound,
    rehearsal: Rehearsal,
    needs: Needs,
    *,
    card_id: uuid.UUID,
    day: dt.date,
    pour: PourPlan | None = None,
    product: str = "",
    odometer: Figure | None = None,
    title: str = "",
    revisions: tuple[Revision, ...] = (),
    items: tuple[str, ...] = (),
    set_aside: Mapping[tuple[str, str], str] | None = None,
) -> JobCard:
    """Return the card of one bound procedure. Ids follow from `card_id` and the steps, so that the same job has the same card.

    `set_aside` holds reasons in words, by rule and step. A figure that nobody knows becomes an empty box, never a number.
    """
    ids = {step.id: _card_id(card_id, step.id) for step in bound.steps}
    reasons = set_aside or {}
    oil = product or bound.choices.oil_name
    findings = tuple(_finding(one, ids, reasons) for one in rehearsal.findings)
    gates = gates_of(bound)
    plan = pour if pour is not None else bound.choices.pour
    where = {one.step: one.messages for one in rehearsal.states}
    proving = _before_gates(bound, tuple(gate.before for gate in gates))
    steps = tuple(
        _card_step(
            step, number, bound, ids, findings, deliberate=step.does(*_DELIBERATE) or step.id in proving, after=where.get(step.id, ())
        )
        for number, step in enumerate(bound.steps, start=1)
    )
    drains = any(step.does("drain") for step in bound.steps)
    return JobCard(
        id=str(card_id),
        title=title or bound.procedure.title,
        vehicle=bound.sheet.name,
        vehicle_kind=bound.sheet.kind,
        day=day,
        steps=steps,
        items=items or ((bound.item,) if bound.item else ()),
        odometer=odometer,
        gates=tuple(
            Gate(id=_card_id(card_id, f"gate {gate.name}"), name=gate.name, before=ids.get(gate.before, ""), questions=gate.questions)
            for gate in gates
        ),
        tools=tuple(CardTool(key=tool.key, name=tool.name, figure=tool.torque or tool.drive) for tool in needs.tools),
        parts=tuple(
            CardPart(slot=part.slot, name=part.name, number=part.numbers[0] if part.numbers else None, count=part.count)
            for part in needs.parts
        ),
        fluids=tuple(
            CardFluid(circuit=fluid.circuit, name=fluid.name, product=oil, volume=_refill(bound, fluid.circuit)) for fluid in needs.fluids
        ),
        waste=tuple(
            CardWaste(
                stream=waste.stream,
                name=say(f"procedure.waste_{waste.stream.replace(' ', '_')}"),
                volume=None if waste.volume_l is None else Figure(waste.volume_l, "L", _COMPUTED),
            )
            for waste in needs.waste
        ),
        pour=_card_pour(bound, plan) if drains and plan is not None else None,
        findings=tuple(one for one in findings if not one.step),
        follow_ups=tuple(
            CardFollowUp(id=_card_id(card_id, f"follow-up {one.id}"), words=one.words, after_days=one.after_days, after_km=one.after_km)
            for one in bound.follow_ups
        ),
        active_min=needs.active_min,
        elapsed_min=needs.elapsed_min,
        revisions=revisions,
        hazards=_cautions(bound.hazards),
        checked=rehearsal.checked,
        rests_on=rehearsal.rests_on,
        not_seen=rehearsal.not_seen,
        hang_tag=drains or any(move.action == "place" and "tag" in move.things for move in bound.moves),
    )


def _card_id(card_id: uuid.UUID, name: str) -> str:
    return str(uuid.uuid5(card_id, name))


def _finding(one: Finding, ids: Mapping[str, str], reasons: Mapping[tuple[str, str], str]) -> CardFinding:
    return CardFinding(
        rule=one.rule,
        grade=one.grade,
        basis=one.basis,
        step=ids.get(one.step, ""),
        expected=one.expected,
        found=one.found,
        remedy=one.remedy,
        set_aside=reasons.get((one.rule, one.step), ""),
    )


def _before_gates(bound: Bound, gates: tuple[str, ...]) -> frozenset[str]:
    """Return the steps that the next gate asks about: what is looked at or read just before it."""
    proving = set()
    waiting: list[str] = []
    for step in bound.steps:
        if step.id in gates:
            proving.update(waiting)
            waiting.clear()
        if step.does("close", "shake") or (step.does("inspect", "measure") and step.accept is not None):
            waiting.append(step.id)
    return frozenset(proving)


def _card_step(
    step: BoundStep,
    number: int,
    bound: Bound,
    ids: Mapping[str, str],
    findings: tuple[CardFinding, ...],
    *,
    deliberate: bool,
    after: tuple[Message, ...],
) -> CardStep:
    return CardStep(
        id=ids[step.id],
        number=number,
        procedure=bound.procedure.key,
        step=step.id,
        action=step.action,
        moves=tuple(move.action for move in step.moves),
        words=step.words,
        cautions=_cautions(step.cautions),
        stubs=_stubs(step),
        look=step.look,
        accept=step.accept,
        reject=step.reject,
        condition=step.condition,
        place=step.place,
        active_min=step.active_min,
        wait_min=step.wait_min,
        hands_free=step.hands_free,
        during=ids.get(step.during, ""),
        record=step.record,
        after=after,
        deliberate=deliberate,
        concerns=concerns_of(step, bound),
        findings=tuple(one for one in findings if one.step == ids[step.id]),
    )


def _cautions(cautions: tuple[BoundCaution, ...]) -> tuple[Caution, ...]:
    return tuple(Caution(signal=one.signal, words=one.words) for one in cautions)


def _stubs(step: BoundStep) -> tuple[Stub, ...]:
    stubs = [stub for move in step.moves for stub in _stubs_of_move(move)]
    if step.wait is not None:
        stubs.append(Stub(label=say("procedure.stub_wait"), figure=step.wait))
    return tuple(stubs)


def _stubs_of_move(move: BoundMove) -> Iterator[Stub]:
    if move.action == "tighten" and move.amount_path:
        fact = move.amount_path.rpartition(".")[2]
        yield Stub(label=say(f"procedure.stub_{fact}"), figure=move.amount, fact=move.amount_path)
    elif move.action == "pour" and move.manner != _BY_TABLE:
        name = "procedure.stub_second_pour" if move.manner == "second pour" else "procedure.stub_pour"
        figure = move.amount
        computed = None if figure is None else Figure(figure.value, figure.unit, figure.source or _COMPUTED)
        yield Stub(label=say(name), figure=computed)
    elif move.amount is not None and move.action == "run_engine":
        yield Stub(label=say("procedure.stub_limit"), figure=move.amount)


def _refill(bound: Bound, circuit: str) -> Figure | None:
    part = part_of(bound.sheet, "circuit", circuit)
    return figure_of(part, "refill_with_filter" if bound.filters else "refill_without_filter") or figure_of(part, "refill")


def _card_pour(bound: Bound, plan: PourPlan) -> CardPour:
    circuit = next((bound.roles[role] for role, kind in bound.kinds.items() if kind == "circuit" and role in bound.roles), "")
    pours = tuple(Figure(pour.volume_l, "L", _COMPUTED) for pour in plan.pours if pour.volume_l is not None)
    before = plan.before_start if plan.needs_reading_before_start else ()
    span = figure_of(part_of(bound.sheet, "circuit", circuit), "between_marks") if circuit else None
    instructions = tuple(pour.what for pour in plan.pours)
    return CardPour(
        circuit=circuit,
        pours=pours,
        span=span,
        rows=tuple(_row(row) for row in plan.after_run),
        before_start=tuple(_row(row) for row in before),
        reasons=(*instructions, *plan.reasons),
    )


def _row(row: AddRow) -> PourRow:
    return PourRow(reading=row.reading_fraction, add=Figure(row.add_l, "L", _COMPUTED), note=_row_note(row.start))


def _row_note(start: bool) -> Message | None:
    return None if start else say("procedure.row_no_start")

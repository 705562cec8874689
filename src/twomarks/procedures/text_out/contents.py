"""What stands in the text of a bound procedure: what to check first, what is needed, the steps, and what was not verified."""

from __future__ import annotations

from collections.abc import Iterator

from twomarks.procedures.bound import Bound, BoundCaution, BoundStep
from twomarks.procedures.needs import NeededFluid, Needs, needs_of
from twomarks.procedures.rehearsal import Finding, Rehearsal
from twomarks.procedures.sheet_facts import figure_of, part_of
from twomarks.procedures.text_out.block import Block
from twomarks.procedures.text_out.figures import UsedFigure, used_figures
from twomarks.words import Figure, Message, say

__all__ = ["contents", "needed"]

_SERIOUS = ("harm", "damage")


def contents(bound: Bound, rehearsal: Rehearsal, misfits: tuple[Message, ...] = ()) -> tuple[Block, ...]:
    """Return the blocks of the text of `bound`; open findings of harm and damage stand at their step."""
    used = used_figures(bound)
    return (
        Block("title", say("text_out.title", title=bound.procedure.title, vehicle=bound.sheet.name)),
        *_checks(bound, used, misfits),
        *_hazards(bound.hazards),
        *_needed(bound, needs_of(bound)),
        *_steps(bound, rehearsal),
        *_afterwards(bound),
        *_unverified(bound, rehearsal, used),
    )


def _checks(bound: Bound, used: tuple[UsedFigure, ...], misfits: tuple[Message, ...]) -> Iterator[Block]:
    yield Block("heading", say("text_out.check_first"))
    yield Block("paragraph", say("text_out.made_for", vehicle=bound.sheet.name))
    fuel = str(getattr(bound.sheet.engine.fuel, "text", bound.sheet.engine.fuel) or "")
    if fuel:
        yield Block("item", say("text_out.fuel", fuel=fuel))
    if bound.filter_kind:
        yield Block("item", say("text_out.filter", kind=bound.filter_kind))
    for misfit in misfits:
        yield Block("finding", misfit)
    for one in used:
        yield Block("item", _figure_words(one))


def _figure_words(one: UsedFigure) -> Message:
    state = say("text_out.confirmed", by=one.figure.confirmed) if one.is_confirmed else say("text_out.not_confirmed")
    source = one.figure.source if one.figure.source is not None else say("text_out.no_source")
    return say("text_out.figure", owner=one.owner, fact=one.fact, figure=one.figure, source=source, state=state)


def _hazards(hazards: tuple[BoundCaution, ...]) -> Iterator[Block]:
    if hazards:
        yield Block("heading", say("text_out.hazards"))
    for one in hazards:
        yield Block("caution", _caution(one))


def _caution(one: BoundCaution) -> Message:
    return say(f"procedures_answer.{one.signal}", words=one.words)


def _needed(bound: Bound, needs: Needs) -> Iterator[Block]:
    yield Block("heading", say("text_out.needed"))
    for words in needed(bound, needs):
        yield Block("item", words)


def needed(bound: Bound, needs: Needs) -> Iterator[Message]:
    """Yield what a bound procedure needs: tools, parts, fluids, waste, the pan and the time."""
    for tool in needs.tools:
        yield say("text_out.tool", tool=tool.name, drive=tool.drive, torques=tool.torques)
    for part in needs.parts:
        yield say("text_out.part", part=part.name, count=part.count, numbers=part.numbers)
    for fluid in needs.fluids:
        yield _fluid(bound, fluid)
    for waste in needs.waste:
        volume = None if waste.volume_l is None else Figure(waste.volume_l, "L")
        yield say("text_out.waste", stream=waste.stream, volume=volume)
    if needs.pan_l is not None:
        yield say("text_out.pan", volume=Figure(needs.pan_l, "L"))
    yield say("text_out.time", active=Figure(needs.active_min, "min"), elapsed=Figure(needs.elapsed_min, "min"))


def _fluid(bound: Bound, fluid: NeededFluid) -> Message:
    volume = None if fluid.volume_l is None else Figure(fluid.volume_l, "L")
    part = part_of(bound.sheet, "circuit", fluid.circuit)
    refill = next(
        (figure_of(part, name) for name in ("refill_with_filter", "refill_without_filter", "refill") if figure_of(part, name)), None
    )
    asked = [
        str(getattr(one, "text", one))
        for block in getattr(part, "accepts", ()) or ()
        for one in (*(block.grades or ()), *(block.categories or ()), *(block.approvals or ()))
    ]
    source = refill.source if refill is not None else None
    return say("text_out.fluid", fluid=fluid.name, volume=volume, source=source, asked=tuple(dict.fromkeys(asked)))


def _steps(bound: Bound, rehearsal: Rehearsal) -> Iterator[Block]:
    yield Block("heading", say("text_out.steps"))
    known = {step.id for step in bound.steps}
    for one in rehearsal.findings:
        if one.step not in known and one.grade in _SERIOUS:
            yield Block("finding", _finding(one))
    for number, step in enumerate(bound.steps, start=1):
        yield from _step(step, number, rehearsal)


def _step(step: BoundStep, number: int, rehearsal: Rehearsal) -> Iterator[Block]:
    for caution in step.cautions:
        yield Block("caution", _caution(caution))
    for one in rehearsal.at(step.id):
        if one.grade in _SERIOUS:
            yield Block("finding", _finding(one))
    words = say("procedures_answer.only", condition=step.condition, words=step.words) if step.condition is not None else step.words
    yield Block("step", words, number)
    amounts = tuple(dict.fromkeys(move.amount for move in step.moves if move.amount is not None))
    for amount in amounts:
        if amount not in step.words.figures.values():
            yield Block("under", say("text_out.amount", figure=amount, source=amount.source))
    if step.wait is not None:
        yield Block("under", say("text_out.hands_free" if step.hands_free else "text_out.wait", wait=step.wait))
    if step.look is not None:
        yield Block("under", step.look)
    for part, found in (("accept", step.accept), ("reject", step.reject)):
        if found is not None:
            yield Block("under", say(f"procedures_answer.{part}", words=found))
    if step.record:
        yield Block("under", say("text_out.record", what=step.record))


def _finding(one: Finding) -> Message:
    return say(
        "text_out.finding",
        grade=say(f"prepare.grade_{one.grade}"),
        basis=say(f"prepare.basis_{one.basis.replace(' ', '_')}"),
        rule=say(f"rule.{one.rule}_name"),
        expected=one.expected,
        found=one.found,
        remedy=one.remedy,
    )


def _afterwards(bound: Bound) -> Iterator[Block]:
    if bound.follow_ups:
        yield Block("heading", say("text_out.afterwards"))
    for one in bound.follow_ups:
        distance = None if one.after_km is None else Figure(one.after_km, "km")
        days = None if one.after_days is None else Figure(one.after_days, "day")
        yield Block("item", say("text_out.follow_up", words=one.words, distance=distance, days=days))


def _unverified(bound: Bound, rehearsal: Rehearsal, used: tuple[UsedFigure, ...]) -> Iterator[Block]:
    yield Block("heading", say("text_out.unverified"))
    for one in used:
        if not one.is_confirmed:
            yield Block("item", say("text_out.unconfirmed", owner=one.owner, fact=one.fact, figure=one.figure))
    for lack in bound.lacks:
        yield Block("item", say("rehearse_answer.lack", what=lack.what, where=lack.where_to_find))
    for message in (*rehearsal.rests_on, *rehearsal.not_seen):
        yield Block("item", message)
    numbers = {step.id: number for number, step in enumerate(bound.steps, start=1)}
    for finding in rehearsal.findings:
        if finding.grade not in _SERIOUS:
            yield Block("item", say("text_out.lesser", number=numbers.get(finding.step), finding=_finding(finding)))
    yield Block("paragraph", say("text_out.last"))

"""A vehicle sheet as arguments of the engineering, and the sheet's sources put back on the figures of its answers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from twomarks import units
from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.lacks import HARM_OF_FACT, WHERE_FOUND, facts_of_circuit
from twomarks.procedures.sheet_facts import GROUPS, core_of, figure_of, part_of
from twomarks.trade.add_table import StickFacts
from twomarks.trade.label import Label, read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict
from twomarks.trade.pour import PourPlan, first_pour, pour_without_capacity
from twomarks.trade.source_spread import sigma_of_source
from twomarks.words import Figure, Message, Value, Wording, say

__all__ = ["WorthFetching", "label_in", "missing_figures", "oil_call", "oil_verdict_for", "pour_plan", "sourced"]


_OIL = "engine_oil"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthFetching:
    """A figure worth fetching next: its path in the sheet, what it is, where it is found, why it matters.

    `harm_rank` 0 is the worst to be without; figures of equal rank stand in the order of the job.
    """

    path: str
    what: Message
    where: Message
    why: Message
    harm_rank: int


def _texts(facts: Iterable[object] | None) -> tuple[str, ...] | None:
    return None if facts is None else tuple(str(getattr(fact, "text", fact)) for fact in facts)


def oil_call(sheet: VehicleSheet, circuit: str = "engine_oil") -> OilCall:
    """Return what the sheet says is asked for in `circuit`; no block where nobody has looked."""
    part = part_of(sheet, "circuit", circuit)
    return OilCall(
        tuple(
            CallBlock(
                grades=_texts(getattr(one, "grades", None)),
                categories=_texts(getattr(one, "categories", None)),
                approvals=_texts(getattr(one, "approvals", None)),
                coldest_c=core_of(one, "coldest"),
                hottest_c=core_of(one, "hottest"),
            )
            for one in getattr(part, "accepts", ()) or ()
        )
    )


def label_in(sheet: VehicleSheet, circuit: str = "engine_oil") -> Label | None:
    """Return the label of what the sheet says is in `circuit` now, None where it says nothing."""
    figure = figure_of(part_of(sheet, "circuit", circuit), "holds")
    return None if figure is None else read_label(str(figure.value))


def oil_verdict_for(
    sheet: VehicleSheet,
    circuit: str = "engine_oil",
    *,
    offer: OilOnOffer,
    coldest_start_c: float | None,
    coldest_start_low_c: float | None = None,
    hottest_day_c: float | None = None,
    in_engine: Label | None = None,
) -> OilVerdict:
    """Return whether `offer` meets what this vehicle asks for, its reasons carrying the sheet's sources.

    `in_engine` is what the daybook says was filled last; without it the sheet is asked. What of it stays is the dry fill less
    the refill, where the sheet has both.
    """
    part = part_of(sheet, "circuit", circuit)
    refill_l, dry_l = core_of(part, "refill_with_filter"), core_of(part, "dry_fill")
    stays_l = dry_l - refill_l if refill_l is not None and dry_l is not None and dry_l >= refill_l else None
    verdict = oil_verdict(
        call=oil_call(sheet, circuit),
        offer=offer,
        fuel=str(getattr(sheet.engine.fuel, "text", sheet.engine.fuel) or ""),
        after_treatment=_texts(getattr(sheet.engine, "after_treatment", ())) or (),
        coldest_start_c=coldest_start_c,
        coldest_start_low_c=coldest_start_low_c,
        hottest_day_c=hottest_day_c,
        in_engine=in_engine or label_in(sheet, circuit),
        stays_l=stays_l,
        fill_l=refill_l,
    )
    blocks = getattr(part, "accepts", ()) or ()
    limits = [figure_of(one, name) for one in blocks for name in ("coldest", "hottest")]
    known = {"limit": tuple(figure for figure in limits if figure is not None)}
    told = tuple(replace(reason, message=sourced((reason.message,), known)[0]) for reason in verdict.told)
    return replace(verdict, told=told, settles=sourced(verdict.settles, known))


def pour_plan(
    sheet: VehicleSheet, circuit: str = "engine_oil", *, with_filter: bool = True, measured_out_l: float | None = None
) -> PourPlan:
    """Return the pour plan of `circuit`; how sure the refill is follows from where the sheet has it from."""
    part = part_of(sheet, "circuit", circuit)
    name = "refill_with_filter" if with_filter else "refill_without_filter"
    refill = figure_of(part, name) or figure_of(part, "refill")
    refill_l = core_of(part, name) if figure_of(part, name) else core_of(part, "refill")
    span, span_l = figure_of(part, "between_marks"), core_of(part, "between_marks")
    filter_slot = _filter_slot(sheet, circuit)
    held = figure_of(filter_slot, "holds") if with_filter else None
    filter_l = core_of(filter_slot, "holds") if with_filter else 0.0
    stick = _stick(part)
    if refill is None or refill_l is None:
        plan = pour_without_capacity(measured_out_l=measured_out_l, between_marks_l=span_l, stick=stick)
    else:
        plan = first_pour(
            refill_l=refill_l,
            between_marks_l=span_l,
            refill_sigma_l=sigma_of_source(_kind(refill), volume_l=refill_l),
            between_marks_sigma_l=0.0 if span is None or span_l is None else sigma_of_source(_kind(span), volume_l=span_l),
            filter_l=filter_l,
            stick=stick,
        )
    own = {name: figure_of(part, fact) for name, fact in (("wait", "settle"), ("zone", "fill_to"), ("limit", "no_start_from"))}
    named = {"refill": refill, "between": span, "filter": held, **own}
    known = {name: (figure,) for name, figure in named.items() if figure is not None}
    return replace(plan, reasons=sourced(plan.reasons, known))


def _stick(circuit: object | None) -> StickFacts:
    """Return what the sheet has of the maker's way to read the stick."""
    read, zone, limit = figure_of(circuit, "read"), core_of(circuit, "fill_to"), core_of(circuit, "no_start_from")
    return StickFacts(
        settle_min=core_of(circuit, "settle"),
        warm=None if read is None else read.value == "warm",
        lower_zone=None if zone is None else zone / 100.0,
        no_start_from=None if limit is None else limit / 100.0,
    )


def _kind(figure: Figure) -> str:
    return figure.source.kind if figure.source is not None else "memory"


def _filter_slot(sheet: VehicleSheet, circuit: str) -> object | None:
    """Return the slot of the filter that `circuit` fills: the one that an item of it names, else an engine's oil filter.

    A slot is never taken by its kind alone: a fuel filter is a cartridge too.
    """
    named = (item.roles["filter"] for item in sheet.items.values() if item.roles.get("oil", _OIL) == circuit and "filter" in item.roles)
    return part_of(sheet, "slot", next(named, "oil_filter" if circuit == _OIL else ""))


def sourced(messages: tuple[Message, ...], known: Mapping[str, tuple[Figure, ...]]) -> tuple[Message, ...]:
    """Return `messages` with each figure named in `known` replaced by the sheet's own, where the two say the same."""
    return tuple(_sourced(message, known) for message in messages)


def _sourced(message: Message, known: Mapping[str, tuple[Figure, ...]]) -> Message:
    figures: dict[str, Value] = {}
    for name, value in message.figures.items():
        if isinstance(value, Message):
            figures[name] = _sourced(value, known)
        elif isinstance(value, Figure):
            figures[name] = next((one for one in known.get(name, ()) if _equal(one, value)), value)
        else:
            figures[name] = value
    return Message(message.key, figures)


def _equal(sheet: Figure, worked: Figure) -> bool:
    if isinstance(sheet.value, str) or isinstance(worked.value, str):
        return sheet.value == worked.value
    if units.UNITS[sheet.unit].kind != units.UNITS[worked.unit].kind:
        return False
    there = units.in_unit(float(sheet.value), unit=sheet.unit, to=worked.unit)
    return abs(there - float(worked.value)) < 1e-6 * max(1.0, abs(there))


_RANK = ("harm", "damage", "omission", "advice")
_FETCH = (
    "refill_with_filter", "refill", "accepts", "torque", "turn", "limited_slip", "mixture", "count", "between_marks", "order", "numbers",
    "sizes", "drive", "settle",
)  # fmt: skip


def missing_figures(sheet: VehicleSheet, procedure: Procedure, *, item: str | None = None) -> tuple[WorthFetching, ...]:
    """Return what would be worth looking up before `procedure` is done on this vehicle, the worst to be without first."""
    named: Mapping[str, str] = sheet.items[item].roles if item and item in sheet.items else {}
    found = []
    for name, role in procedure.roles.items():
        key = named.get(name) or role.usual or name
        part = part_of(sheet, role.kind, key)
        for fact in _facts_of(procedure, name):
            if any(figure_of(part, one) is not None for one in fact.split("|")) or _has_blocks(part, fact):
                continue
            first = fact.split("|")[0]
            found.append(
                WorthFetching(
                    path=f"{GROUPS[role.kind]}.{key}.{first}",
                    what=say("procedure.lack_fact", role=Wording(role.name), fact=say(f"procedure.fact_{first}")),
                    where=say(WHERE_FOUND[first]),
                    why=say(f"fetch.why_{first}"),
                    harm_rank=_RANK.index(HARM_OF_FACT[first]) * len(_FETCH) + _FETCH.index(first),
                )
            )
    return tuple(sorted(found, key=lambda one: one.harm_rank))


def _has_blocks(part: object | None, fact: str) -> bool:
    return fact == "accepts" and bool(getattr(part, "accepts", ()))


def _facts_of(procedure: Procedure, name: str) -> tuple[str, ...]:
    role = procedure.roles[name]
    owner = procedure.roles[role.of].kind if role.of else ""
    if role.kind == "circuit":
        return facts_of_circuit(procedure, name)
    if role.kind == "tap":
        return ()
    if role.kind == "fastening":
        return ("torque", "drive") if owner == "circuit" else (_joint_fact(procedure, name),)
    if role.kind == "slot" and owner == "fastening":
        return ("sizes",)
    return ("numbers",) if role.kind == "slot" else ()


def _joint_fact(procedure: Procedure, name: str) -> str:
    moves = (move for step in procedure.steps for move in step.moves)
    asked = next((move.amount for move in moves if move.action == "tighten" and name in move.acted_on and move.amount), "")
    return "turn|torque" if "turn" in asked else "torque|turn"

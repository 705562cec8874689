"""What a bound procedure needs: tools, parts, fluids, a pan, room for waste, and time; readiness and rules both ask here."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.procedures.bound import Bound, BoundStep
from twomarks.procedures.rules.kit import PAN_MARGIN
from twomarks.procedures.sheet_facts import figure_of, part_of, torque_nm
from twomarks.words import Figure, Wording

__all__ = ["NeededFluid", "NeededPart", "NeededTool", "NeededWaste", "Needs", "count_of", "needs_of"]

TOP_UP_RESERVE_L = 0.5
"""Engine oil to have at hand beyond the refill [L]; common practice, no source."""
RESERVES_L = {"engine": TOP_UP_RESERVE_L, "gear": 0.2, "coolant": 0.5, "brake": 0.1, "fuel": 0.0}
"""What to have at hand beyond the refill, by the sort of circuit [L]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededTool:
    """A tool: its key, its name, the size it must have and the torques it must reach, smallest and largest."""

    key: str
    name: Wording
    drive: Figure | None = None
    torque: Figure | None = None
    torques: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededPart:
    """A part that is renewed: the key of its slot in the sheet, its name, the numbers that go there, how many."""

    slot: str
    role: str
    name: Wording
    numbers: tuple[Figure, ...] = ()
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededFluid:
    """A fluid that goes in: the key of its circuit, its name, the refill [L] and the reserve for topping up [L]."""

    circuit: str
    name: Wording
    volume_l: float | None
    reserve_l: float = TOP_UP_RESERVE_L


@dataclass(frozen=True, slots=True, kw_only=True)
class NeededWaste:
    """Waste that is made: its stream and, for a fluid, how much [L] (None: not known, or counted by the piece)."""

    stream: str
    volume_l: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """All that a procedure needs. `pan_l` is the least a pan must hold [L]; times in minutes."""

    tools: tuple[NeededTool, ...]
    parts: tuple[NeededPart, ...]
    fluids: tuple[NeededFluid, ...]
    waste: tuple[NeededWaste, ...]
    pan_l: float | None
    active_min: float
    elapsed_min: float


def needs_of(bound: Bound) -> Needs:
    """Return what `bound` needs, each thing once, in the order in which it is first used."""
    drains = any(move.action == "drain" for move in bound.moves)
    filter_off = any(set(move.things) & bound.filters for move in bound.moves if move.action == "remove")
    drained = _let_out(bound, "drain")
    renewed = tuple(role for role in _let_out(bound, "bleed") if bound.circuits[role].sort == "brake")
    refill_l = _refill_l(bound, drained)
    active, elapsed = _times(bound.steps)
    waste = []
    for stream in dict.fromkeys(bound.circuits[role].stream for role in (*drained, *renewed)):
        of_stream = tuple(role for role in (*drained, *renewed) if bound.circuits[role].stream == stream)
        waste.append(NeededWaste(stream=stream, volume_l=_refill_l(bound, of_stream)))
    if filter_off:
        waste.append(NeededWaste(stream="filter"))
    if any(move.new and bound.serves(move.things, "battery") for move in bound.moves):
        waste.append(NeededWaste(stream="battery"))
    if drains or renewed:
        waste.append(NeededWaste(stream="rags"))
    return Needs(
        tools=_tools(bound),
        parts=_parts(bound),
        fluids=_fluids(bound),
        waste=tuple(waste),
        pan_l=refill_l * PAN_MARGIN if drains and refill_l is not None else None,
        active_min=active,
        elapsed_min=elapsed,
    )


def _let_out(bound: Bound, action: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(role for move in bound.moves if move.action == action for role in bound.circuits_in(move.things)))


def _refill_l(bound: Bound, roles: tuple[str, ...]) -> float | None:
    refills = [bound.circuits[role].volumes.refill_l for role in roles]
    return None if None in refills or not refills else sum(one for one in refills if one is not None)


def _times(steps: tuple[BoundStep, ...]) -> tuple[float, float]:
    """Return active and elapsed minutes: what is done during a wait takes time only beyond that wait."""
    active = sum(step.active_min for step in steps)
    elapsed = 0.0
    for step in steps:
        if step.during:
            continue
        inside = sum(one.active_min + one.wait_min for one in steps if one.during == step.id)
        elapsed += step.active_min + max(step.wait_min, inside)
    return active, elapsed


def _fact(bound: Bound, role: str, fact: str) -> Figure | None:
    if role not in bound.roles:
        return None
    return figure_of(part_of(bound.sheet, bound.kinds[role], bound.roles[role]), fact)


def _tools(bound: Bound) -> tuple[NeededTool, ...]:
    words = bound.procedure.tools
    used = dict.fromkeys(tool for move in bound.moves for tool in move.tools)
    torques = _torques(bound)
    found = []
    for key in used:
        tool = words[key]
        reaches = torques if tool.reaches else ()
        drive = _fact(bound, tool.fits, "drive") if tool.fits else None
        largest = max(reaches, key=lambda figure: torque_nm(figure) or 0.0, default=None)
        found.append(NeededTool(key=key, name=Wording(tool.name), drive=drive, torque=largest, torques=reaches))
    return tuple(found)


def _torques(bound: Bound) -> tuple[Figure, ...]:
    amounts = [move.amount for move in bound.moves if move.action == "tighten" and move.amount is not None]
    return tuple(dict.fromkeys(amount for amount in amounts if torque_nm(amount) is not None))


def _parts(bound: Bound) -> tuple[NeededPart, ...]:
    found = []
    for move in bound.moves:
        if move.action != "fit" or not move.new:
            continue
        for role in move.things:
            if bound.kinds.get(role) != "slot":
                continue
            slot = part_of(bound.sheet, "slot", bound.roles[role]) if role in bound.roles else None
            key = bound.roles.get(role) or bound.procedure.roles[role].usual or role
            found.append(NeededPart(slot=key, role=role, name=bound.name(role), numbers=_numbers(slot), count=count_of(slot)))
    return tuple(found)


def _numbers(slot: object) -> tuple[Figure, ...]:
    numbers = getattr(slot, "numbers", ()) or ()
    return tuple(number.figure if hasattr(number, "figure") else Figure(str(number)) for number in numbers)


def count_of(slot: object) -> int:
    """Return how many pieces go into a slot, 1 where the sheet does not say."""
    for fact in ("count", "o_rings"):
        figure = figure_of(slot, fact)
        if figure is not None and not isinstance(figure.value, str):
            return max(1, int(figure.value))
    return 1


def _fluids(bound: Bound) -> tuple[NeededFluid, ...]:
    poured = dict.fromkeys(thing for move in bound.moves if move.action == "pour" for thing in move.things)
    return tuple(
        NeededFluid(
            circuit=bound.roles.get(role, role),
            name=bound.name(role),
            volume_l=_refill_l(bound, (role,)),
            reserve_l=RESERVES_L[bound.circuits[role].sort],
        )
        for role in bound.circuits_in(tuple(poured))
    )

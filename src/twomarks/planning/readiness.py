"""Whether the work can begin: tools, torques, parts, fluid, pan and waste room, each with its reason.

What nobody has said is asked, never assumed: an unknown is `not known`, and nothing is `ready` beside one.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from twomarks.trade.torque import wrench_suits
from twomarks.units import in_unit
from twomarks.words import Figure, Message, Wording, say

if TYPE_CHECKING:
    from twomarks.model.shelf import ShelfList
    from twomarks.procedures.needs import NeededFluid, NeededPart, NeededTool, NeededWaste, Needs

__all__ = ["HAVE", "HAVE_NOT", "NOT_KNOWN", "Readiness", "ReadinessItem", "readiness"]

ItemState = Literal["have", "have not", "not known"]
Kind = Literal["pan", "waste", "tool", "part", "fluid"]
HAVE: ItemState = "have"
HAVE_NOT: ItemState = "have not"
NOT_KNOWN: ItemState = "not known"

DRAIN_PAN, TORQUE_WRENCH, AXLE_STANDS = "drain_pan", "torque_wrench", "axle_stands"
"""Keys, in every procedure of the library, of tools that a place on the shelf list is not enough for."""
CAN_SHARE = 0.95
"""How full a waste can may be; common practice, no source."""
_STATE_ORDER: Mapping[str, int] = {HAVE_NOT: 0, NOT_KNOWN: 1, HAVE: 2}
_KIND_ORDER: Mapping[str, int] = {"pan": 0, "waste": 1, "tool": 2, "part": 3, "fluid": 4}
_FLUID_STREAMS = ("engine oil", "gear oil", "coolant", "brake fluid", "fuel")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadinessItem:
    """One thing the work needs. `question` is the stable key under which an answer is kept ("tool:socket-17")."""

    question: str
    kind: Kind
    what: Message | Wording
    state: ItemState
    reason: Message


@dataclass(frozen=True, slots=True)
class Readiness:
    """The answer: `not ready` where something is lacking, `not known` where something is not known, else `ready`."""

    state: Literal["ready", "not ready", "not known"]
    items: tuple[ReadinessItem, ...]


def readiness(
    needs: Needs,
    *,
    shelf: ShelfList | None,
    stock: Mapping[str, int],
    cans: Mapping[str, int] = MappingProxyType({}),
    answers: Mapping[str, str] = MappingProxyType({}),
    product: str | None = None,
) -> Readiness:
    """Return whether the work can begin, what stops it first on top.

    `stock` holds mL of fluids and pieces of parts by their key on the shelf, `cans` what is in each waste can [mL],
    `answers` the words have / have not / do not know by question, `product` the key of the fluid chosen. An answer about a
    tool outweighs the shelf list, but never a figure: a wrench that does not reach stays unfit. For parts and fluids the
    stock counts.
    """
    items = [
        *_pan(needs, shelf, answers),
        *(_waste(waste, shelf, cans, answers) for waste in needs.waste),
        *(_tool(tool, shelf, answers) for tool in needs.tools if tool.key != DRAIN_PAN),
        *(_part(part, shelf, stock, answers) for part in needs.parts),
        *(_fluid(fluid, stock, answers, product) for fluid in needs.fluids),
    ]
    items.sort(key=lambda item: (_STATE_ORDER[item.state], _KIND_ORDER[item.kind], item.question))
    states = {item.state for item in items}
    state: Literal["ready", "not ready", "not known"] = "ready"
    if HAVE_NOT in states:
        state = "not ready"
    elif NOT_KNOWN in states:
        state = "not known"
    return Readiness(state, tuple(items))


def _answered(question: str, answers: Mapping[str, str]) -> tuple[ItemState, Message]:
    word = answers.get(question)
    if word == HAVE:
        return HAVE, say("ready.answered_have")
    if word == HAVE_NOT:
        return HAVE_NOT, say("ready.answered_have_not")
    return NOT_KNOWN, say("ready.unanswered" if word is None else "ready.answered_unsure")


def _pan(needs: Needs, shelf: ShelfList | None, answers: Mapping[str, str]) -> Iterable[ReadinessItem]:
    """Return the pan: its largest on the shelf list against the least it must hold, or what was answered."""
    if not any(tool.key == DRAIN_PAN for tool in needs.tools) and needs.pan_l is None:
        return
    question, what = f"tool:{DRAIN_PAN}", say("ready.pan")
    state, reason = _answered(question, answers)
    pans = sorted(((pan.holds.core, pan.name) for pan in shelf.pans.values()), reverse=True) if shelf else []
    if needs.pan_l is None:
        if state == NOT_KNOWN:
            reason = say("ready.pan_flow_unknown")
    elif pans and state != HAVE_NOT:
        holds, name = pans[0]
        fits = holds >= needs.pan_l - 1e-9
        state = HAVE if fits else HAVE_NOT
        reason = say(
            "ready.pan_holds" if fits else "ready.pan_too_small", pan=name, holds=Figure(holds, "L"), wanted=Figure(needs.pan_l, "L")
        )
    elif state == NOT_KNOWN:
        reason = say("ready.pan_unknown", wanted=Figure(needs.pan_l, "L"))
    yield ReadinessItem(question=question, kind="pan", what=what, state=state, reason=reason)


def _waste(waste: NeededWaste, shelf: ShelfList | None, cans: Mapping[str, int], answers: Mapping[str, str]) -> ReadinessItem:
    question = f"waste:{waste.stream}"
    what = say("ready.waste", stream=waste.stream)
    fitting = {key: can for key, can in shelf.cans.items() if can.stream == waste.stream} if shelf else {}
    if waste.volume_l is None:
        state, reason = _answered(question, answers)
        if fitting and state == NOT_KNOWN:
            if waste.stream in _FLUID_STREAMS:
                reason = say("ready.waste_amount_unknown", stream=waste.stream)
            else:
                state, reason = HAVE, say("ready.waste_can", can=next(iter(fitting.values())).name)
        return ReadinessItem(question=question, kind="waste", what=what, state=state, reason=reason)
    if not fitting:
        state, reason = _answered(question, answers)
        if state == NOT_KNOWN:
            reason = say("ready.waste_no_can", volume=Figure(waste.volume_l, "L"), stream=waste.stream)
        return ReadinessItem(question=question, kind="waste", what=what, state=state, reason=reason)
    room = sum(max(0.0, CAN_SHARE * can.holds.core - cans.get(key, 0) / 1000) for key, can in fitting.items())
    figures = {"volume": Figure(waste.volume_l, "L"), "room": Figure(room, "L")}
    enough = room >= waste.volume_l - 1e-9
    reason = say("ready.waste_room" if enough else "ready.waste_no_room", **figures)
    return ReadinessItem(question=question, kind="waste", what=what, state=HAVE if enough else HAVE_NOT, reason=reason)


def _tool(tool: NeededTool, shelf: ShelfList | None, answers: Mapping[str, str]) -> ReadinessItem:
    question = f"tool:{tool.key}"
    state, reason = _answered(question, answers)
    torques = tool.torques or ((tool.torque,) if tool.torque is not None else ())
    fits = [_wrench(torque, shelf) for torque in torques if not isinstance(torque.value, str)]
    ranged = [fit for fit in fits if fit is not None]
    if state == HAVE_NOT:
        pass
    elif ranged:
        # The torque that fits worst decides.
        state, reason = min(ranged, key=lambda fit: _STATE_ORDER[fit[0]])
    elif state == NOT_KNOWN and tool.key == TORQUE_WRENCH and not torques:
        reason = say("ready.torque_unknown")
    elif state == NOT_KNOWN and tool.key == AXLE_STANDS:
        # A list cannot say that stands are rated for this axle and fit its lifting points: somebody has to look.
        reason = say("ready.stands_unseen")
    elif state == NOT_KNOWN and torques:
        reason = say("ready.wrench_unknown", torques=torques)
    elif question not in answers and shelf is not None and _on_shelf(tool, shelf):
        state, reason = HAVE, say("ready.on_shelf")
    elif state == NOT_KNOWN and tool.drive is not None:
        reason = say("ready.tool_of_size", size=tool.drive)
    return ReadinessItem(question=question, kind="tool", what=_named(tool.name), state=state, reason=reason)


def _wrench(torque: Figure, shelf: ShelfList | None) -> tuple[ItemState, Message] | None:
    """Return how the best torque wrench on the shelf list fits; None where none is listed with its range."""
    wanted = in_unit(float(torque.value), unit=torque.unit, to="N.m")
    fits = []
    for key, tool in shelf.tools.items() if shelf else ():
        if tool.low is None or tool.high is None:
            continue
        fit = wrench_suits(torque_nm=wanted, wrench_low_nm=tool.low.core, wrench_high_nm=tool.high.core)
        rank = {"inside": 0, "at the edge": 1}.get(fit.state, 2)
        off = max(tool.low.core - wanted, wanted - tool.high.core, 0.0)
        fits.append((rank, off, key, tool.name, fit))
    if not fits:
        return None
    rank, _, _, name, fit = min(fits, key=lambda entry: entry[:3])
    return (HAVE if rank < 2 else HAVE_NOT), say("ready.wrench", tool=name, fit=fit.reason)


def _on_shelf(tool: NeededTool, shelf: ShelfList) -> bool:
    """Return whether the shelf list has the tool: by its size where a size is wanted, else by its key or kind."""
    if tool.drive is not None:
        return any(_plain(_text(other.drive)) == _plain(_text(tool.drive)) for other in shelf.tools.values())
    wanted = _plain(tool.key)
    return any(wanted in (_plain(key), _plain(_text(other.kind))) for key, other in shelf.tools.items())


def _part(part: NeededPart, shelf: ShelfList | None, stock: Mapping[str, int], answers: Mapping[str, str]) -> ReadinessItem:
    question = f"part:{part.slot}"
    what = _named(part.name)
    wanted = {_plain(_text(number)) for number in part.numbers} - {""}
    state, reason = _answered(question, answers)
    if wanted:
        fitting = [key for key, on in shelf.parts.items() if wanted & {_plain(_text(n)) for n in on.numbers}] if shelf else []
        there = sum(max(0, stock.get(key, 0)) for key in fitting)
        numbers = tuple(_text(number) for number in part.numbers)
        if there >= part.count:
            state, reason = HAVE, say("ready.part_there", count=there, numbers=numbers)
        elif state != HAVE:
            state = HAVE_NOT
            reason = say("ready.part_lacking", count=part.count, there=there, numbers=numbers)
    elif state == NOT_KNOWN:
        reason = say("ready.part_number_unknown")
    return ReadinessItem(question=question, kind="part", what=what, state=state, reason=reason)


def _fluid(fluid: NeededFluid, stock: Mapping[str, int], answers: Mapping[str, str], product: str | None) -> ReadinessItem:
    question = f"fluid:{fluid.circuit}"
    what = _named(fluid.name)
    if fluid.volume_l is None or product is None:
        state, reason = _answered(question, answers)
        if state == NOT_KNOWN:
            reason = say("ready.fluid_amount_unknown" if fluid.volume_l is None else "ready.fluid_unchosen")
        return ReadinessItem(question=question, kind="fluid", what=what, state=state, reason=reason)
    there = stock.get(product, 0)
    wanted = math.ceil(1000 * fluid.volume_l - 1e-6)
    figures = {"there": Figure(there / 1000, "L"), "wanted": Figure(fluid.volume_l, "L"), "short": Figure((wanted - there) / 1000, "L")}
    if there >= wanted:
        return ReadinessItem(question=question, kind="fluid", what=what, state=HAVE, reason=say("ready.fluid_there", **figures))
    return ReadinessItem(question=question, kind="fluid", what=what, state=HAVE_NOT, reason=say("ready.fluid_short", **figures))


def _named(name: Message | Wording | str) -> Message | Wording:
    return Wording(name) if isinstance(name, str) else name


def _text(fact: object) -> str:
    """Return the text of a fact, a figure or plain words."""
    if fact is None:
        return ""
    value = getattr(fact, "text", None)
    if value is None:
        value = getattr(fact, "value", fact)
    return str(value)


def _plain(text: str) -> str:
    """Return a part number or a drive apart from case, spaces, hyphens, underscores and points."""
    return re.sub(r"[\s\-_./]", "", text).casefold()

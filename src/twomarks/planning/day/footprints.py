"""What each step of a job looks at and what it changes, taken from playing the job alone among the parts of all."""

from __future__ import annotations

from dataclasses import dataclass, replace

from twomarks.planning.day.joined import Joined
from twomarks.procedures.actions import play, start_state
from twomarks.procedures.bound import Bound, BoundStep
from twomarks.procedures.kit import Kit
from twomarks.procedures.rehearsal import LOOKS
from twomarks.procedures.rules import RULES
from twomarks.procedures.rules.rule import Moment
from twomarks.procedures.state import Known, State

__all__ = ["Footprint", "footprints", "reads_of"]

SET_UP = frozenset(
    {
        *(("place", thing) for thing in ("vehicle", "key", "tag")),
        *(("take_away", thing) for thing in ("key", "tag", "chocks", "rags", "tools", "funnel")),
        *(("secure", thing) for thing in ("brake", "gear", "range_lever")),
        *(("wear", thing) for thing in ("gloves", "glasses")),
        *((action, "undertray") for action in ("remove", "fit")),
        *((action, "bonnet") for action in ("open", "close")),
        ("chock", "chocks"),
        ("raise", "vehicle"),
        ("support", "stands"),
        ("shake", "vehicle"),
        ("lower", "vehicle"),
        ("inspect", "people"),
        ("say", "helper"),
        ("clean", "spills"),
        ("drive", "vehicle"),
        ("warm", "engine"),
    }
)
"""Moves that only bring about how the vehicle, the worker or the place must be; where it is so already they need no repeating."""

_PASSING = frozenset({"under", "waited", "recorded", "lamp", "driven", "litres:can", "poured", "measured:poured", "placed:cover"})
"""Variables that tell of one job only, or that grow over a day; what a step of another job does to them is of no account."""
_PEOPLE = frozenset({"people"})
_ON_STANDS = ("support", "stands")


@dataclass(frozen=True, slots=True)
class Footprint:
    """One step, or a raising and the stands after it: what it looked at before it changed it, and how it leaves it."""

    steps: tuple[BoundStep, ...]
    reads: dict[str, Known]
    writes: dict[str, Known]
    set_up: bool

    @property
    def raises(self) -> bool:
        """Whether it puts the vehicle on stands."""
        return self.writes.get("support") == "stands"

    @property
    def lowers(self) -> bool:
        """Whether it lets the vehicle down."""
        return self.steps[0].does("lower")


class _Watched(State):
    """A state that notes what is looked at and what is changed."""

    __slots__ = ("reads", "writes")

    def __init__(self, state: State) -> None:
        super().__init__({name: state.peek(name) for name in state.names("")})
        self.reads: dict[str, Known] = {}
        self.writes: dict[str, Known] = {}

    def get(self, name: str) -> Known:
        if name not in self.writes and name not in self.reads:
            self.reads[name] = self.peek(name)
        return super().get(name)

    def set(self, name: str, value: Known, *, by: str) -> None:
        self.writes[name] = value
        super().set(name, value, by=by)


def footprints(joined: Joined, bound: Bound) -> tuple[tuple[Footprint, ...], dict[str, Known]]:
    """Return the footprint of every step of `bound`, one of the views of `joined`, worked alone, and the values at its end."""
    state = _Watched(start_state(joined.bound))
    effects = replace(bound, circuits=joined.bound.circuits)
    kit = Kit()
    found: list[Footprint] = []
    for step in bound.steps:
        state.reads, state.writes = {}, {}
        _watch(state, step, bound, effects, kit)
        reads = {name: value for name, value in state.reads.items() if name not in _PASSING}
        writes = {name: value for name, value in state.writes.items() if name not in _PASSING}
        found.append(Footprint((step,), reads, writes, _sets_up(step)))
    last = bound.steps[-1]
    state.reads, state.writes = {}, {}
    _judge(Moment(state=state, step=last.moves[-1], bound=bound, kit=kit, end=True))
    ends = {name: state.peek(name) for name in state.names("")}
    return _with_stands(found), ends


def reads_of(joined: Joined, bound: Bound) -> dict[str, dict[str, Known]]:
    """Return what each step of `bound`, the joined procedure or one view of it, looks at when it is played, and what it finds."""
    state = _Watched(start_state(joined.bound))
    belongs = {step.id: view for view in joined.views for step in view.steps}
    found: dict[str, dict[str, Known]] = {}
    for step in bound.steps:
        view = belongs[step.id]
        state.reads, state.writes = {}, {}
        _watch(state, step, view, replace(view, circuits=joined.bound.circuits), Kit())
        found[step.id] = dict(state.reads)
    return found


def _watch(state: _Watched, step: BoundStep, bound: Bound, effects: Bound, kit: Kit) -> None:
    state.begin(step.id)
    for move in step.moves:
        _judge(Moment(state=state, step=move, bound=bound, kit=kit))
        play(state, move, bound if move.action in LOOKS else effects)


def _judge(moment: Moment) -> None:
    for rule in RULES:
        if rule.when(moment):
            rule.holds(moment)


def _sets_up(step: BoundStep) -> bool:
    return all((move.action, thing) in SET_UP for move in step.moves for thing in move.things)


def _with_stands(found: list[Footprint]) -> tuple[Footprint, ...]:
    """Put the stands to the raising before them, which is nothing that one stops at."""
    kept: list[Footprint] = []
    for one in found:
        if kept and one.raises and kept[-1].writes.get("support") == "jack":
            before = kept.pop()
            reads = {name: value for name, value in one.reads.items() if name not in before.writes} | before.reads
            kept.append(Footprint((*before.steps, *one.steps), reads, before.writes | one.writes, before.set_up and one.set_up))
        else:
            kept.append(one)
    return tuple(kept)

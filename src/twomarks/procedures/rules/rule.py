"""What a rule is: when it looks, what must hold, how bad it is when it does not."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.kit import Kit
from twomarks.procedures.state import Known, State
from twomarks.words import Message, Value, say

__all__ = [
    "Acting",
    "Basis",
    "Grade",
    "Moment",
    "Outcome",
    "Rule",
    "Verdict",
    "acting",
    "any_of",
    "at_end",
    "before_moving",
    "drained",
    "first_thing",
    "must",
    "must_all",
    "shown",
    "thing_of",
    "together",
    "violated",
]

Grade = Literal["harm", "damage", "omission", "advice"]
Basis = Literal["violated", "not shown", "default"]
Verdict = Literal["shown", "violated", "not shown", "default"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """The state just before a move of a step, or after the last one (`end`), with all that a rule may look at."""

    state: State
    step: BoundMove
    bound: Bound
    kit: Kit
    end: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a rule found: its verdict, the figures of its sentences, the thing and, at the end, the variable at fault.

    `also` is what else it found at the same moment: the second fastening that is loose, beside the first.
    """

    verdict: Verdict
    figures: Mapping[str, Value] = field(default_factory=dict)
    thing: str = ""
    variable: str = ""
    also: tuple[Outcome, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """One rule. Its sentences stand under its id: ``_name``, ``_why``, ``_expected``, ``_otherwise``, ``_remedy``.

    `source` is a key of the bibliography. `protects` marks a rule whose grade may never be less, also when the procedure
    merely does not say so.
    """

    id: str
    family: str
    grade: Grade
    when: Callable[[Moment], bool]
    holds: Callable[[Moment], Outcome]
    source: str = "common_practice"
    protects: bool = False

    @property
    def name(self) -> Message:
        """What the rule is called."""
        return say(f"rule.{self.id}_name")

    @property
    def why(self) -> Message:
        """What happens where it does not hold."""
        return say(f"rule.{self.id}_why")


def shown() -> Outcome:
    """Return that a rule is satisfied."""
    return Outcome("shown")


def together(outcomes: Iterable[Outcome]) -> Outcome:
    """Return all of `outcomes` that are not satisfied as one, the first with the rest beside it."""
    wrong = tuple(part for one in outcomes if one.verdict != "shown" for part in (replace(one, also=()), *one.also))
    return replace(wrong[0], also=wrong[1:]) if wrong else shown()


def violated(*, thing: str = "", variable: str = "", **figures: Value) -> Outcome:
    """Return that a rule is known not to hold."""
    return Outcome("violated", figures, thing, variable)


_THING_OF: Mapping[str, str] = {
    "shaken": "vehicle",
    "ground": "vehicle",
    "air": "vehicle",
    "slow stop": "vehicle",
    "asleep": "vehicle",
    "pan at": "pan",
    "pan holds": "pan",
    "old seal": "old_seal",
    "old filter": "old_filter",
    "recorded": "daybook",
    "booster": "pedal",
    "pedal pumped": "pedal",
    "pedal held": "pedal",
    "thermostat": "engine",
}
"""What a variable is about, where its name is not that of a thing, or a kind of knowledge and the thing known."""


def thing_of(variable: str, bound: Bound) -> str:
    """Return the role or thing that a variable of the state is about; the level of an engine's oil is seen on its dipstick."""
    prefix, _, about = variable.partition(":")
    if not about:
        return _THING_OF.get(variable, variable)
    return "dipstick" if prefix.startswith("reading") and about in bound.of_sort("engine") else about


def _judged(moment: Moment, allowed: tuple[Known, ...], variable: str) -> Outcome:
    value = moment.state.get(variable)
    if value in allowed:
        return Outcome("shown", variable=variable)
    thing = thing_of(variable, moment.bound)
    if variable == "support":
        thing = "vehicle" if "wheels" in allowed else "stands"
    return Outcome("not shown" if value is None else "violated", thing=thing, variable=variable)


def must(variable: str, *allowed: Known) -> Callable[[Moment], Outcome]:
    """Return the check that `variable` is known and one of `allowed`."""
    return lambda moment: _judged(moment, allowed, variable)


def must_all(variables: tuple[str, ...], *allowed: Known) -> Callable[[Moment], Outcome]:
    """Return the check that every one of `variables` is known and one of `allowed`; each that is not is told."""
    return lambda moment: together([_judged(moment, allowed, variable) for variable in variables])


@dataclass(frozen=True, slots=True)
class Acting:
    """The condition that a move is one of `actions`, on one of the things, if any are named; told apart so that it can be indexed."""

    actions: frozenset[str]
    on: frozenset[str]

    def __call__(self, moment: Moment) -> bool:
        """Return whether the move is such a one."""
        return not moment.end and moment.step.action in self.actions and (not self.on or not self.on.isdisjoint(moment.step.things))


def acting(*actions: str, on: tuple[str, ...] = ()) -> Acting:
    """Return the condition that the step is one of `actions` (on one of the things, if any are named)."""
    return Acting(frozenset(actions), frozenset(on))


def any_of(state: State, prefix: str, roles: tuple[str, ...]) -> bool:
    """Return whether `prefix` holds for any of `roles`, such as whether any circuit was drained."""
    looked_at = [bool(state.get(f"{prefix}:{role}")) for role in roles]
    return any(looked_at)


def drained(moment: Moment, *sorts: str) -> tuple[str, ...]:
    """Return the circuits (of these sorts, if any are named) that were let out or renewed."""
    roles = moment.bound.of_sort(*sorts) if sorts else tuple(moment.bound.circuits)
    return tuple([role for role in roles if moment.state.get(f"drained:{role}")])


def first_thing(moment: Moment) -> str:
    """Return the thing that a move acts on, the first where there are several, "" where it names none."""
    return moment.step.things[0] if moment.step.things else ""


def before_moving(moment: Moment) -> bool:
    """Return whether the vehicle is about to move by itself, or is left to be driven."""
    return moment.end or moment.step.action == "drive"


def at_end(moment: Moment) -> bool:
    """Return whether the procedure has ended."""
    return moment.end

"""What a rule is: when it looks, what must hold, how bad it is when it does not."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from twomarks.procedures.bound import Bound, BoundMove
from twomarks.procedures.kit import Kit
from twomarks.procedures.state import Known, State
from twomarks.words import Message, Value, say

__all__ = [
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
    "must",
    "must_all",
    "shown",
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
    """What a rule found: its verdict, the figures of its sentences, the thing and, at the end, the variable at fault."""

    verdict: Verdict
    figures: Mapping[str, Value] = field(default_factory=dict)
    thing: str = ""
    variable: str = ""


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


def violated(*, thing: str = "", variable: str = "", **figures: Value) -> Outcome:
    """Return that a rule is known not to hold."""
    return Outcome("violated", figures, thing, variable)


def _judged(value: Known, allowed: tuple[Known, ...], variable: str) -> Outcome:
    if value is None:
        return Outcome("not shown", variable=variable)
    return Outcome("shown" if value in allowed else "violated", variable=variable)


def must(variable: str, *allowed: Known) -> Callable[[Moment], Outcome]:
    """Return the check that `variable` is known and one of `allowed`."""
    return lambda moment: _judged(moment.state.get(variable), allowed, variable)


def must_all(variables: tuple[str, ...], *allowed: Known) -> Callable[[Moment], Outcome]:
    """Return the check that every one of `variables` is known and one of `allowed`; the first that is not is told."""

    def check(moment: Moment) -> Outcome:
        for variable in variables:
            outcome = _judged(moment.state.get(variable), allowed, variable)
            if outcome.verdict != "shown":
                return outcome
        return shown()

    return check


def acting(*actions: str, on: tuple[str, ...] = ()) -> Callable[[Moment], bool]:
    """Return the condition that the step is one of `actions` (on one of the things, if any are named)."""

    def when(moment: Moment) -> bool:
        return not moment.end and moment.step.action in actions and (not on or bool(set(on) & set(moment.step.things)))

    return when


def any_of(state: State, prefix: str, roles: tuple[str, ...]) -> bool:
    """Return whether `prefix` holds for any of `roles`, such as whether any circuit was drained."""
    looked_at = [bool(state.get(f"{prefix}:{role}")) for role in roles]
    return any(looked_at)


def drained(moment: Moment, *sorts: str) -> tuple[str, ...]:
    """Return the circuits (of these sorts, if any are named) that were let out or renewed."""
    roles = moment.bound.of_sort(*sorts) if sorts else tuple(moment.bound.circuits)
    return tuple([role for role in roles if moment.state.get(f"drained:{role}")])


def before_moving(moment: Moment) -> bool:
    """Return whether the vehicle is about to move by itself, or is left to be driven."""
    return moment.end or moment.step.action == "drive"


def at_end(moment: Moment) -> bool:
    """Return whether the procedure has ended."""
    return moment.end

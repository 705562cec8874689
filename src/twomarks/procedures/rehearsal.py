"""Rehearsal: a bound procedure is played on a model of the vehicle, and what comes to light is told at its step."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace

from twomarks.procedures.actions import play, start_state
from twomarks.procedures.bound import Bound, BoundStep
from twomarks.procedures.kit import Kit, WrenchRange
from twomarks.procedures.rules import RulesAsked, rules_for
from twomarks.procedures.rules.rule import Basis, Grade, Moment, Outcome, Rule
from twomarks.procedures.whereabouts import Whereabouts, whereabouts
from twomarks.words import Message, Value, say

__all__ = ["LOOKS", "Finding", "Kit", "Rehearsal", "WrenchRange", "rehearse"]

_GRADES: tuple[Grade, ...] = ("harm", "damage", "omission", "advice")
_CONCERNS_ALL = frozenset({"warm", "run_engine", "drive", "lower"})
"""What one job does is judged by every other that is under way at the time: none may be left with a circuit empty or open."""
LOOKS = frozenset({"inspect", "measure"})
"""What is looked at is what the job at work is about; everything else happens to all circuits of the vehicle."""
_UNSEEN = ("rust", "ground", "jack", "plug", "done")


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What a rule brought to light at a step. `thing` is the role or thing at fault, "" where it is the step itself."""

    rule: str
    grade: Grade
    basis: Basis
    step: str
    expected: Message
    found: Message
    remedy: Message
    thing: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rehearsal:
    """What a rehearsal says. It never says that a procedure is safe.

    `states` are where one is after each step, in the order of the steps; `checked` is what was looked at, `rests_on`
    the assumed figures, `not_seen` what no model can see. `needs` maps a step to the steps that gave what it rests on.
    """

    findings: tuple[Finding, ...]
    states: tuple[Whereabouts, ...]
    checked: tuple[Message, ...]
    rests_on: tuple[Message, ...]
    not_seen: tuple[Message, ...]
    needs: tuple[tuple[str, frozenset[str]], ...]

    @property
    def worst(self) -> Grade | None:
        """The worst grade found, or None."""
        return next((grade for grade in _GRADES if any(one.grade == grade for one in self.findings)), None)

    def at(self, step: str) -> tuple[Finding, ...]:
        """Return the findings that stand at `step`."""
        return tuple(one for one in self.findings if one.step == step)


def rehearse(bound: Bound, kit: Kit | None = None, *, to_the_end: bool = True, jobs: tuple[Bound, ...] = ()) -> Rehearsal:
    """Return what comes to light when `bound` is played from its first step to its last, with what is known of the kit.

    Where nobody has said whether a condition holds it is played both ways, and what either way brings to light is told.
    A procedure that is broken off, not `to_the_end`, is not judged by what stands open where it stops. Where several
    `jobs` are worked as one, each of their steps is judged by what its own job is about, on one and the same vehicle; the
    engine runs and the vehicle is let down as every job under way allows it. What a job must have brought about by its
    end it may have at its own last step or at the last of all.
    """
    known = kit or Kit()
    played = _play(bound, known, tell=True, to_the_end=to_the_end, jobs=jobs)
    findings = played.findings
    if any(step.holds is None for step in bound.steps):
        told = {(one.rule, one.thing) for one in findings}
        findings += [
            one
            for one in _play(
                _without_unsure(bound), known, tell=False, to_the_end=to_the_end, jobs=tuple(_without_unsure(job) for job in jobs)
            ).findings
            if (one.rule, one.thing) not in told
        ]
    return Rehearsal(
        findings=tuple(findings),
        states=tuple(played.states),
        checked=_checked(played.looked_at),
        rests_on=(*bound.rests_on, *_unknown_kit(bound, known), *_unsure(bound.steps)),
        not_seen=tuple(say(f"rehearsal.unseen_{name}") for name in _UNSEEN),
        needs=tuple(played.needs),
    )


@dataclass(slots=True)
class _Played:
    findings: list[Finding] = field(default_factory=list)
    states: list[Whereabouts] = field(default_factory=list)
    needs: list[tuple[str, frozenset[str]]] = field(default_factory=list)
    looked_at: dict[str, str] = field(default_factory=dict)


def _play(bound: Bound, kit: Kit, *, tell: bool, to_the_end: bool, jobs: tuple[Bound, ...] = ()) -> _Played:
    state = start_state(bound)
    played = _Played()
    asked = {id(one): rules_for(one) for one in (bound, *jobs)}
    standing: set[tuple[str, str]] = set()
    belongs = {step.id: job for job in jobs for step in job.steps}
    last = {id(belongs.get(step.id, bound)): step.id for step in bound.steps}
    at_end: dict[int, set[tuple[str, str]]] = {}
    begun: list[Bound] = []
    for step in bound.steps:
        mine = belongs.get(step.id, bound)
        acts_on = replace(mine, circuits=bound.circuits)
        if all(one is not mine for one in begun):
            begun.append(mine)
        state.begin(step.id)
        for move in step.moves:
            concerned = (one for one in begun if id(one) not in at_end) if move.action in _CONCERNS_ALL else (mine,)
            for one in concerned:
                moment = Moment(state=state, step=move, bound=one, kit=kit)
                played.findings.extend(_judged(moment, asked[id(one)], played.looked_at, standing))
            play(state, move, mine if move.action in LOOKS else acts_on)
        played.needs.append((step.id, state.owes))
        if tell:
            played.states.append(whereabouts(state, step, bound))
        if jobs and to_the_end and last[id(mine)] == step.id:
            end = Moment(state=state, step=step.moves[-1], bound=mine, kit=kit, end=True)
            at_end[id(mine)] = {(one.rule, one.thing) for one in _judged(end, asked[id(mine)], played.looked_at, set(standing))}
    if bound.steps and to_the_end:
        for mine in jobs or (bound,):
            final = Moment(state=state, step=bound.steps[-1].moves[-1], bound=mine, kit=kit, end=True)
            found = _judged(final, asked[id(mine)], played.looked_at, standing)
            played.findings.extend(one for one in found if not jobs or (one.rule, one.thing) in at_end.get(id(mine), ()))
    return played


def _without_unsure(bound: Bound) -> Bound:
    """Return `bound` as it is worked where no condition holds of which nobody has said whether it does."""
    return replace(
        bound,
        steps=tuple(step for step in bound.steps if step.holds is not None),
        undertray=bound.undertray or False,
        keyless=bound.keyless or False,
        transfer_case=bound.transfer_case or False,
        air_suspension=bound.air_suspension or False,
        electric_brake=bound.electric_brake or False,
        hybrid=bound.hybrid or False,
    )


def _judged(moment: Moment, asked: RulesAsked, looked_at: dict[str, str], standing: set[tuple[str, str]]) -> list[Finding]:
    """Return what the rules find; what has stood since an earlier step is told once, where it began."""
    found: list[Finding] = []
    for rule in asked.at(moment):
        if not rule.when(moment):
            continue
        looked_at[rule.id] = rule.family
        outcome = rule.holds(moment)
        told = () if outcome.verdict == "shown" else (outcome, *outcome.also)
        marks = {(rule.id, one.thing) for one in told}
        found.extend(_finding(rule, one, moment) for one in told if (rule.id, one.thing) not in standing)
        standing.difference_update([mark for mark in standing if mark[0] == rule.id and not told])
        standing |= marks
    return found


def _finding(rule: Rule, outcome: Outcome, moment: Moment) -> Finding:
    figures = {name: _worded(value) for name, value in outcome.figures.items()}
    step = moment.step.id
    if moment.end and outcome.variable:
        step = moment.state.giver(outcome.variable) or step
    basis: Basis = "violated"
    if outcome.verdict == "violated":
        found = say(f"rule.{rule.id}_otherwise", **figures)
    elif outcome.verdict == "default":
        basis, found = "default", say("rehearsal.assumed")
    else:
        basis, found = "not shown", say("rehearsal.never_said")
    return Finding(
        rule=rule.id,
        grade=rule.grade,
        basis=basis,
        step=step,
        expected=say(f"rule.{rule.id}_expected", **figures),
        found=found,
        remedy=say(f"rule.{rule.id}_remedy", **figures),
        thing=outcome.thing,
    )


def _worded(value: Value) -> Value:
    if isinstance(value, str) and value in ("running", "tilted", "empty", "early", "hot", "shut"):
        return say(f"rehearsal.read_{value}")
    return value


def _checked(looked_at: dict[str, str]) -> tuple[Message, ...]:
    counts = Counter(looked_at.values())
    return tuple(say("rehearsal.checked", family=say(f"rehearsal.family_{name.replace(' ', '_')}"), count=counts[name]) for name in counts)


def _unknown_kit(bound: Bound, kit: Kit) -> tuple[Message, ...]:
    if not any(move.action == "drain" for move in bound.moves):
        return ()
    unknown = (("no_pan", kit.pan_l), ("no_wrench", kit.wrenches), ("no_room", kit.waste_room_l))
    return tuple(say(f"rehearsal.{name}") for name, value in unknown if value is None)


def _unsure(steps: tuple[BoundStep, ...]) -> tuple[Message, ...]:
    seen = dict.fromkeys(step.condition for step in steps if step.condition is not None and step.holds is None)
    return tuple(say("rehearsal.step_unsure", condition=condition) for condition in seen)

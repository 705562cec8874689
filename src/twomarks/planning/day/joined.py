"""Several bound procedures of one vehicle as one: names that mean different parts are told apart, the same part stays one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from twomarks.model.procedure import FollowUp, Move, Procedure, Role
from twomarks.procedures.bound import Bound, BoundFollowUp, BoundMove, BoundStep, CircuitAtWork

Moved = TypeVar("Moved", bound=BoundMove)
Written = TypeVar("Written", bound=Move)

__all__ = ["Joined", "OneJob", "ordered", "together"]


@dataclass(frozen=True, slots=True)
class OneJob:
    """One job among several: its steps with their new names, and which of its own names each is."""

    steps: tuple[BoundStep, ...]
    own_step: Mapping[str, str]
    own_role: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Joined:
    """The jobs of one vehicle, and one procedure that knows the parts of all of them; its steps stand job after job.

    `views` are the jobs again, each as a procedure of its own on the vehicle with the parts of all.
    """

    bound: Bound
    jobs: tuple[OneJob, ...]
    views: tuple[Bound, ...]


def together(bounds: Sequence[Bound]) -> Joined:
    """Return the jobs of one vehicle as one bound procedure, job after job."""
    roles: dict[str, Role] = {}
    keys: dict[str, str] = {}
    owner: dict[tuple[str, str], str] = {}
    circuits: dict[str, CircuitAtWork] = {}
    groups: dict[str, set[str]] = {name: set() for name in ("openings", "filters", "joints", "seals")}
    jobs: list[OneJob] = []
    renamed: list[dict[str, str]] = []
    follows: list[FollowUp] = []
    follow_ups: list[BoundFollowUp] = []
    own: list[dict[str, frozenset[str]]] = []
    for number, bound in enumerate(bounds, start=1):
        names = _new_names(bound, number, roles, owner)
        for old, role in bound.procedure.roles.items():
            roles.setdefault(names[old], role.model_copy(update={"of": names.get(role.of, role.of) if role.of else None}))
            if old in bound.roles:
                keys[names[old]] = bound.roles[old]
        for old, circuit in bound.circuits.items():
            new = _renamed_circuit(circuit, names)
            circuits[names[old]] = _with_all(circuits[names[old]], new) if names[old] in circuits else new
        for group, members in groups.items():
            members |= {names.get(name, name) for name in getattr(bound, group)}
        renamed.append(names)
        follows += [_for_parts(one, names) for one in bound.procedure.follow_ups]
        follow_ups += [replace(one, checks=tuple(names.get(part, part) for part in one.checks)) for one in bound.follow_ups]
        own.append({group: frozenset(names.get(name, name) for name in getattr(bound, group)) for group in groups})
        jobs.append(_one_job(bound, number, names))
    first = bounds[0]
    everything = tuple(step for job in jobs for step in job.steps)
    written = tuple(step.step.model_copy(update={"id": step.id}) for step in everything)
    procedure = first.procedure.model_copy(update={"roles": roles, "steps": written, "follow_ups": tuple(follows)})
    kinds = {name: role.kind for name, role in roles.items()}
    views = tuple(
        replace(
            bound,
            procedure=bound.procedure.model_copy(
                update={
                    "roles": {names[old]: roles[names[old]] for old in bound.procedure.roles},
                    "steps": tuple(step.step for step in job.steps),
                    "follow_ups": tuple(follows),
                }
            ),
            follow_ups=tuple(follow_ups),
            roles={names[old]: key for old, key in bound.roles.items()},
            kinds={names[old]: kind for old, kind in bound.kinds.items()},
            steps=job.steps,
            circuits={names[old]: _renamed_circuit(circuit, names) for old, circuit in bound.circuits.items()},
            openings=groups_of["openings"],
            filters=groups_of["filters"],
            joints=groups_of["joints"],
            seals=groups_of["seals"],
        )
        for bound, job, names, groups_of in zip(bounds, jobs, renamed, own, strict=True)
    )
    whole = replace(
        first,
        procedure=procedure,
        roles=keys,
        kinds=kinds,
        steps=everything,
        lacks=tuple(dict.fromkeys(lack for bound in bounds for lack in bound.lacks)),
        hazards=tuple(dict.fromkeys(one for bound in bounds for one in bound.hazards)),
        follow_ups=tuple(follow_ups),
        left_out=(),
        rests_on=tuple(dict.fromkeys(one for bound in bounds for one in bound.rests_on)),
        circuits=circuits,
        openings=frozenset(groups["openings"]),
        filters=frozenset(groups["filters"]),
        joints=frozenset(groups["joints"]),
        seals=frozenset(groups["seals"]),
    )
    return Joined(whole, tuple(jobs), views)


def ordered(joined: Joined, names: Sequence[str], during: Mapping[str, str]) -> Bound:
    """Return the joined procedure with the steps called `names` in this order, some of them worked `during` the wait of another."""
    steps = {step.id: step for job in joined.jobs for step in job.steps}
    kept = tuple(_within(steps[name], during[name]) if name in during else steps[name] for name in names)
    procedure: Procedure = joined.bound.procedure.model_copy(
        update={"steps": tuple(step.step.model_copy(update={"id": step.id}) for step in kept)}
    )
    return replace(joined.bound, steps=kept, procedure=procedure)


def _within(step: BoundStep, host: str) -> BoundStep:
    return replace(step, during=host, moves=tuple(replace(move, during=host) for move in step.moves))


def _new_names(bound: Bound, number: int, taken: Mapping[str, Role], owner: dict[tuple[str, str], str]) -> dict[str, str]:
    """Return the new name of every role; a part that an earlier job named keeps the name it has there."""
    names: dict[str, str] = {}
    for old, role in bound.procedure.roles.items():
        part = (role.kind, bound.roles[old]) if old in bound.roles else None
        if part is not None and part in owner:
            names[old] = owner[part]
            continue
        clash = old in taken or old in owner.values()
        names[old] = f"{old}_{number}" if clash else old
        if part is not None:
            owner[part] = names[old]
    return names


def _for_parts(follow: FollowUp, names: Mapping[str, str]) -> FollowUp:
    return follow.model_copy(update={"checks": tuple(names.get(part, part) for part in follow.checks)})


def _renamed_circuit(circuit: CircuitAtWork, names: Mapping[str, str]) -> CircuitAtWork:
    return replace(
        circuit,
        role=names[circuit.role],
        filters=frozenset(names[one] for one in circuit.filters),
        drains=tuple(names[one] for one in circuit.drains),
        fills=tuple(names[one] for one in circuit.fills),
        bleeds=tuple(names[one] for one in circuit.bleeds),
    )


def _with_all(one: CircuitAtWork, other: CircuitAtWork) -> CircuitAtWork:
    return replace(
        one,
        filters=one.filters | other.filters,
        drains=tuple(dict.fromkeys((*one.drains, *other.drains))),
        fills=tuple(dict.fromkeys((*one.fills, *other.fills))),
        bleeds=tuple(dict.fromkeys((*one.bleeds, *other.bleeds))),
    )


def _one_job(bound: Bound, number: int, names: Mapping[str, str]) -> OneJob:
    steps = tuple(_renamed_step(step, number, names) for step in bound.steps)
    own_step = {new.id: old.id for new, old in zip(steps, bound.steps, strict=True)}
    return OneJob(steps, own_step, {new: old for old, new in names.items()})


def _renamed_step(step: BoundStep, number: int, names: Mapping[str, str]) -> BoundStep:
    moves = tuple(_renamed_move(move, number, names) for move in step.moves)
    renamed = _renamed_move(step, number, names)
    assert isinstance(renamed, BoundStep)
    first, then = (tuple(_rewritten(move, names) for move in moves) for moves in (step.step.first, step.step.then))
    written = _rewritten(step.step, names).model_copy(update={"id": renamed.id, "first": first, "then": then})
    return replace(renamed, moves=moves, step=written)


def _rewritten(move: Written, names: Mapping[str, str]) -> Written:
    def new(name: str | None) -> str | None:
        return names.get(name, name) if name else name

    things = tuple(names.get(thing, thing) for thing in move.things)
    return move.model_copy(update={"thing": new(move.thing), "things": things, "through": new(move.through)})


def _renamed_move(move: Moved, number: int, names: Mapping[str, str]) -> Moved:
    return replace(
        move,
        id=f"{number}-{move.id}",
        things=tuple(names.get(thing, thing) for thing in move.things),
        through=names.get(move.through, move.through),
        tools=tuple(names.get(tool, tool) for tool in move.tools),
        during=f"{number}-{move.during}" if move.during else "",
    )

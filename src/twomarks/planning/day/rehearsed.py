"""A merged order rehearsed as one procedure: what it brings to light that none of its parts does, and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from twomarks.planning.day.footprints import reads_of
from twomarks.planning.day.joined import Joined, ordered
from twomarks.procedures.bound import Bound
from twomarks.procedures.rehearsal import Finding, Rehearsal, rehearse

__all__ = ["Rehearsed", "alone", "rehearsed"]

Told = tuple[int, str, str, str]
"""A finding that a job has by itself: the job, the rule, the step and the role or thing, by the names of the job."""


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """The merged procedure of one vehicle, its rehearsal, what is new in it, and what each step with something new found otherwise.

    `otherwise` holds the job, the step and the variable.
    """

    bound: Bound
    rehearsal: Rehearsal
    new: tuple[Finding, ...]
    otherwise: frozenset[tuple[int, str, str]]


def alone(bounds: Sequence[Bound]) -> frozenset[Told]:
    """Return the findings that the jobs have by themselves."""
    return frozenset((at, one.rule, one.step, one.thing) for at, bound in enumerate(bounds) for one in rehearse(bound).findings)


def rehearsed(joined: Joined, told: frozenset[Told], names: Sequence[str], during: Mapping[str, str]) -> Rehearsed:
    """Return the rehearsal of the steps called `names` in this order, against what is `told` of the jobs alone."""
    bound = ordered(joined, names, during)
    found = rehearse(bound, jobs=joined.views)
    where = {name: (at, own) for at, job in enumerate(joined.jobs) for name, own in job.own_step.items()}
    parts = [job.own_role for job in joined.jobs]
    new = tuple(one for one in found.findings if _as_told(one, where, parts) not in told)
    otherwise: set[tuple[int, str, str]] = set()
    if new:
        merged = reads_of(joined, bound)
        for one in new:
            at, _ = where[one.step]
            by_itself = reads_of(joined, joined.views[at])[one.step]
            here = merged[one.step]
            otherwise |= {(at, one.step, name) for name, value in by_itself.items() if name in here and here[name] != value}
    return Rehearsed(bound, found, new, frozenset(otherwise))


def _as_told(one: Finding, where: Mapping[str, tuple[int, str]], parts: Sequence[Mapping[str, str]]) -> Told:
    at, step = where[one.step]
    return (at, one.rule, step, parts[at].get(one.thing, one.thing))

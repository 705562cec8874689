"""Whether a mistake is found: by something told at the step or the thing it was made at, that the correct job does not tell."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from benchmarks.mutations.cases import Job, kit_with, loaded, played
from benchmarks.mutations.mutant import Mutant
from twomarks.errors import DocumentError
from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import Bound
from twomarks.procedures.rehearsal import Rehearsal, rehearse

__all__ = ["Result", "Told", "score", "told_by"]

State = Literal["found", "elsewhere", "silent", "broke", "same"]
_STEP = re.compile(r"steps\[(\d+)\]")
_REPEAT = re.compile(r"-\d+$")


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that a rehearsal, the binding or the reading of a file tells: by what, at which step, about which thing.

    `thing` is "" where none is named; `about` are then the things that the moves of the step act on.
    """

    by: str
    step: str
    thing: str
    about: frozenset[str]
    grade: str = ""


@dataclass(frozen=True, slots=True)
class Result:
    """What became of one mistake; `by` is what told it, what was told of something else (`elsewhere`), or what went wrong (`broke`)."""

    operator: str
    case: str
    what: str
    steps: tuple[str, ...]
    state: State
    by: str = ""
    grade: str = ""
    same: str = ""


def score(job: Job, operator: str, mutant: Mutant) -> Result:
    """Return whether a mistake in a job is found."""
    here = (operator, job.case.name, mutant.what, tuple(sorted(mutant.steps)))
    if mutant.same:
        return Result(*here, "same", same=mutant.same)
    correct = told_by(job.bound, job.correct, {})
    at_steps = {(one.by, one.step) for one in correct if not one.thing}
    of_things = {(one.by, one.thing) for one in correct if one.thing}
    try:
        told = _told_of(job, mutant)
    except Exception as error:  # noqa: BLE001 - a mistake that breaks the program is a result like any other
        return Result(*here, "broke", repr(error))
    new = [one for one in told if (one.by, one.step) not in at_steps and (one.by, one.thing) not in of_things]
    for one in new:
        if one.step in mutant.steps or one.about & (mutant.things | mutant.paths):
            return Result(*here, "found", one.by, one.grade)
    return Result(*here, "elsewhere", new[0].by, new[0].grade) if new else Result(*here, "silent")


def _told_of(job: Job, mutant: Mutant) -> list[Told]:
    procedure, sheet = job.bound.procedure, job.bound.sheet
    try:
        if mutant.procedure is not None:
            procedure = loaded(Procedure, mutant.procedure, "procedure")
        if mutant.sheet is not None:
            sheet = loaded(VehicleSheet, mutant.sheet, "sheet")
    except DocumentError as error:
        return _refused(error, mutant)
    bound = played(procedure, sheet, job.case.item)
    return told_by(bound, rehearse(bound, kit_with(mutant.kit)), mutant.copies)


def _refused(error: DocumentError, mutant: Mutant) -> list[Told]:
    """Return what the reading of a file refuses, each with the step it stands in or its path in the sheet."""
    told = []
    steps = (mutant.procedure or {}).get("steps", ())
    for fault in error.faults:
        path = str(fault.values.get("path", ""))
        match = _STEP.match(path)
        step = str(steps[int(match[1])]["id"]) if match else ""
        told.append(Told(f"file: {fault.key}", mutant.copies.get(step, step), path, frozenset({path})))
    return told


def told_by(bound: Bound, rehearsal: Rehearsal, copies: Mapping[str, str]) -> list[Told]:
    """Return all that binding and rehearsal tell; a step that was made anew stands for the one it was taken from."""
    acted = {step.step.id: frozenset(thing for move in step.moves for thing in (*move.things, move.through)) for step in bound.steps}
    told = [Told(f"lack: {one.path}", "", one.path, frozenset({one.path})) for one in bound.lacks]
    for one in rehearsal.findings:
        step = one.step if one.step in acted else _REPEAT.sub("", one.step)
        about = frozenset({one.thing}) if one.thing else acted.get(step, frozenset()) - {""}
        told.append(Told(one.rule, copies.get(step, step), one.thing, about, one.grade))
    return told

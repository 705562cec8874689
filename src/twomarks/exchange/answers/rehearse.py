"""The answer of `rehearse`: what came to light when a procedure was played on a vehicle."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Literal, cast

from pydantic import Field

from twomarks.exchange.answers.prepare import FindingSaid, finding_said
from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.procedures.bound import Bound, Lack
from twomarks.procedures.rehearsal import Rehearsal
from twomarks.procedures.rules.rule import Grade
from twomarks.words import Message, Reader

__all__ = ["LackSaid", "RehearseAnswer", "lack_said", "rehearse_answer"]


class LackSaid(Part):
    """A figure or part that the sheet lacks, what is at stake, and where it is usually found."""

    path: str
    grade: Literal["harm", "damage", "omission", "advice"]
    what: Said
    where_to_find: Said


class RehearseAnswer(Answer):
    """The answer of `rehearse`. It never says that a procedure is safe."""

    format: Literal["twomarks/answer/rehearse/1"] = "twomarks/answer/rehearse/1"
    procedure: str
    title: str
    vehicle: str
    worst: Literal["harm", "damage", "omission", "advice"] | None = Field(default=None, description="the worst grade found")
    misfits: tuple[Said, ...] = Field(default=(), description="why the procedure is not meant for this vehicle")
    findings: tuple[FindingSaid, ...]
    step_numbers: dict[str, int] = Field(default_factory=dict, description="step with a finding -> its place in the order of work")
    lacks: tuple[LackSaid, ...] = ()
    checked: tuple[Said, ...] = ()
    rests_on: tuple[Said, ...] = ()
    not_seen: tuple[Said, ...] = ()


def lack_said(lack: Lack, reader: Reader) -> LackSaid:
    """Return what a sheet lacks, as part of an answer."""
    grade = cast("Grade", lack.grade)
    return LackSaid(path=lack.path, grade=grade, what=said(lack.what, reader), where_to_find=said(lack.where_to_find, reader))


def rehearse_answer(
    on: dt.date, bound: Bound, found: Rehearsal, numbers: Mapping[str, int], reader: Reader, *, misfits: tuple[Message, ...] = ()
) -> RehearseAnswer:
    """Return the answer."""
    return RehearseAnswer(
        on=on,
        procedure=bound.procedure.key,
        title=bound.procedure.title,
        vehicle=bound.sheet.name,
        worst=found.worst,
        misfits=tuple(said(one, reader) for one in misfits),
        findings=tuple(finding_said(one, reader) for one in found.findings),
        step_numbers={one.step: numbers[one.step] for one in found.findings if one.step in numbers},
        lacks=tuple(lack_said(one, reader) for one in bound.lacks),
        checked=tuple(said(one, reader) for one in found.checked),
        rests_on=tuple(said(one, reader) for one in found.rests_on),
        not_seen=tuple(said(one, reader) for one in found.not_seen),
    )

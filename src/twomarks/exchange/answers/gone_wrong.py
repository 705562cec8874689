"""The answer of `procedures when-it-goes-wrong`: whom to call first, and the branches."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.procedures import CautionSaid
from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.planning.when_wrong import CardBranch
from twomarks.words import Reader

__all__ = ["BranchSaid", "BranchStepSaid", "GoneWrongAnswer", "branch_said"]


class BranchStepSaid(Part):
    """One step of a branch."""

    part: str = Field(description="stop, look or next")
    words: Said
    cautions: tuple[CautionSaid, ...] = ()
    accept: Said | None = None
    reject: Said | None = None


class BranchSaid(Part):
    """A branch: what one sees, what to do, where the job ends, what not to do."""

    key: str
    title: str
    hurt: bool = Field(description="whether it is for somebody who is hurt; otherwise for work that goes wrong")
    sign: Said
    steps: tuple[BranchStepSaid, ...]
    give_up: Said = Field(description="the point where one stops and has it towed, or goes to hospital")
    never: tuple[Said, ...]
    sources: tuple[str, ...] = Field(description="keys of the bibliography")


class GoneWrongAnswer(Answer):
    """The answer of `procedures when-it-goes-wrong`, and of `procedures` with the key of one branch."""

    format: Literal["twomarks/answer/gone-wrong/1"] = "twomarks/answer/gone-wrong/1"
    call_first: tuple[Said, ...]
    branches: tuple[BranchSaid, ...]


def branch_said(branch: CardBranch, reader: Reader) -> BranchSaid:
    """Return a branch as it is said to the reader."""
    return BranchSaid(
        key=branch.key,
        title=branch.title,
        hurt=branch.hurt,
        sign=said(branch.sign, reader),
        steps=tuple(
            BranchStepSaid(
                part=step.part,
                words=said(step.words, reader),
                cautions=tuple(CautionSaid(signal=one.signal, words=said(one.words, reader)) for one in step.cautions),
                accept=said(step.accept, reader) if step.accept is not None else None,
                reject=said(step.reject, reader) if step.reject is not None else None,
            )
            for step in branch.steps
        ),
        give_up=said(branch.give_up, reader),
        never=tuple(said(line, reader) for line in branch.never),
        sources=tuple(one.key for one in branch.sources),
    )

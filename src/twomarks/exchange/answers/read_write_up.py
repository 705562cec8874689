"""The answer of `read-writeup`: the draft, what each step came from, what was not placed, and what to ask the author."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.procedures.write_ups import DraftedWriteUp, FigureOfWriteUp
from twomarks.words import Reader

__all__ = ["ReadWriteUpAnswer", "read_write_up_answer"]


class ActionRead(Part):
    """One action of a drafted step, on its thing ("" where there is none)."""

    action: str
    thing: str


class StepRead(Part):
    """A drafted step and the sentence it came from. `repeats` and `claimed` say that another sentence stands for it."""

    step: str
    line: int
    sentence: str
    actions: tuple[ActionRead, ...]
    repeats: bool = Field(default=False, description="the write-up says to do earlier steps again")
    claimed: bool = Field(default=False, description='only a clause such as "the reverse of removal" speaks for it')


class NotPlaced(Part):
    """A sentence that stays open in the draft, and why."""

    line: int
    sentence: str
    reason: Said


class Asked(Part):
    """What to ask the author."""

    line: int
    sentence: str
    what: Said


class FigureTyped(Part):
    """A figure in the words; `value` is left out where its unit means different amounts, or a range was typed."""

    line: int
    text: str
    kind: str
    value: float | None = None
    unit: str = ""
    could_be: tuple[str, ...] = ()
    path: str = Field(default="", description="the fact of a vehicle sheet that it may be")


class LeftAside(Part):
    """A sentence that says nothing to do."""

    line: int
    sentence: str


class ReadWriteUpAnswer(Answer):
    """The answer of `read-writeup`. The draft is nobody's procedure before it was checked."""

    format: Literal["twomarks/answer/read-write-up/1"] = "twomarks/answer/read-write-up/1"
    title: str
    key: str
    steps: tuple[StepRead, ...]
    not_placed: tuple[NotPlaced, ...] = ()
    asked: tuple[Asked, ...] = ()
    figures: tuple[FigureTyped, ...] = ()
    tools: tuple[str, ...] = Field(default=(), description="what the write-up lists as tools and parts, as typed")
    left_aside: tuple[LeftAside, ...] = ()
    file: str = Field(default="", description="where the draft was written")
    draft: str = Field(description="the draft as a procedure document (TOML)")


def read_write_up_answer(on: dt.date, draft: DraftedWriteUp, reader: Reader, *, file: str = "") -> ReadWriteUpAnswer:
    """Return the answer."""
    return ReadWriteUpAnswer(
        on=on,
        title=draft.procedure.title,
        key=draft.procedure.key,
        steps=tuple(
            StepRead(
                step=one.id,
                line=one.line,
                sentence=one.said,
                actions=tuple(ActionRead(action=action, thing=thing) for action, thing in one.actions),
                repeats=one.repeats,
                claimed=one.claimed,
            )
            for one in draft.steps
        ),
        not_placed=tuple(NotPlaced(line=one.line, sentence=one.text, reason=said(one.reason, reader)) for one in draft.read.unplaced),
        asked=tuple(Asked(line=one.line, sentence=one.text, what=said(one.what, reader)) for one in draft.read.questions),
        figures=tuple(_figure(one) for one in draft.figures),
        tools=draft.read.tools,
        left_aside=tuple(LeftAside(line=one.line, sentence=one.text) for one in draft.read.asides),
        file=file,
        draft=draft.text,
    )


def _figure(one: FigureOfWriteUp) -> FigureTyped:
    typed = one.typed
    return FigureTyped(
        line=one.line, text=typed.text, kind=typed.kind, value=typed.value, unit=typed.unit, could_be=typed.could_be, path=one.path
    )

"""The answers of `text` and `tools`: a bound procedure as text, and what it needs."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.prepare import FindingSaid, finding_said
from twomarks.exchange.answers.rehearse import LackSaid, lack_said
from twomarks.exchange.answers.said import Answer, FigureSaid, Part, Said, figure_said, said
from twomarks.procedures.bound import Bound
from twomarks.procedures.needs import Needs
from twomarks.procedures.rehearsal import Rehearsal
from twomarks.procedures.text_out import UsedFigure
from twomarks.words import Reader, value_text

__all__ = ["TextAnswer", "ToolsAnswer", "text_answer", "tools_answer"]


class UsedFigureSaid(Part):
    """A figure that a step uses: of which part, which fact, and whether it was confirmed on this vehicle."""

    owner: str
    fact: str
    figure: FigureSaid
    is_confirmed: bool


class TextAnswer(Answer):
    """The answer of `text`."""

    format: Literal["twomarks/answer/text/1"] = "twomarks/answer/text/1"
    procedure: str
    title: str
    vehicle: str
    form: Literal["plain", "markdown"]
    text: str
    figures: tuple[UsedFigureSaid, ...] = ()
    open_findings: tuple[FindingSaid, ...] = Field(default=(), description="what could harm a person or the vehicle; stands at its step")
    lacks: tuple[LackSaid, ...] = ()


class ToolNeeded(Part):
    """A tool, the size it must have and the torques it must reach."""

    tool: str
    name: Said
    drive: FigureSaid | None = None
    torques: tuple[FigureSaid, ...] = ()


class PartNeeded(Part):
    """A part that is renewed, how many of it, and the numbers that go there."""

    slot: str
    name: Said
    count: int
    numbers: tuple[FigureSaid, ...] = ()


class FluidNeeded(Part):
    """A fluid that goes in: the refill, and the reserve for topping up."""

    circuit: str
    name: Said
    volume_l: float | None = None
    reserve_l: float


class WasteMade(Part):
    """Waste by its stream, and how much of a fluid."""

    stream: str
    volume_l: float | None = None


class ToolsAnswer(Answer):
    """The answer of `tools`."""

    format: Literal["twomarks/answer/tools/1"] = "twomarks/answer/tools/1"
    procedure: str
    title: str
    vehicle: str
    tools: tuple[ToolNeeded, ...] = ()
    parts: tuple[PartNeeded, ...] = ()
    fluids: tuple[FluidNeeded, ...] = ()
    waste: tuple[WasteMade, ...] = ()
    pan_l: float | None = Field(default=None, description="the least that the pan must hold")
    active_min: float
    elapsed_min: float


def text_answer(
    on: dt.date,
    bound: Bound,
    found: Rehearsal,
    used: tuple[UsedFigure, ...],
    reader: Reader,
    *,
    form: Literal["plain", "markdown"],
    text: str,
) -> TextAnswer:
    """Return the answer of `text`."""
    return TextAnswer(
        on=on,
        procedure=bound.procedure.key,
        title=bound.procedure.title,
        vehicle=bound.sheet.name,
        form=form,
        text=text,
        figures=tuple(
            UsedFigureSaid(
                owner=value_text(one.owner, reader),
                fact=value_text(one.fact, reader),
                figure=figure_said(one.figure),
                is_confirmed=one.is_confirmed,
            )
            for one in used
        ),
        open_findings=tuple(finding_said(one, reader) for one in found.findings if one.grade in ("harm", "damage")),
        lacks=tuple(lack_said(one, reader) for one in bound.lacks),
    )


def tools_answer(on: dt.date, bound: Bound, needs: Needs, reader: Reader) -> ToolsAnswer:
    """Return the answer of `tools`."""
    return ToolsAnswer(
        on=on,
        procedure=bound.procedure.key,
        title=bound.procedure.title,
        vehicle=bound.sheet.name,
        tools=tuple(
            ToolNeeded(
                tool=one.key,
                name=said(one.name, reader),
                drive=None if one.drive is None else figure_said(one.drive),
                torques=tuple(figure_said(torque) for torque in one.torques),
            )
            for one in needs.tools
        ),
        parts=tuple(
            PartNeeded(slot=one.slot, name=said(one.name, reader), count=one.count, numbers=tuple(map(figure_said, one.numbers)))
            for one in needs.parts
        ),
        fluids=tuple(
            FluidNeeded(circuit=one.circuit, name=said(one.name, reader), volume_l=one.volume_l, reserve_l=one.reserve_l)
            for one in needs.fluids
        ),
        waste=tuple(WasteMade(stream=one.stream, volume_l=one.volume_l) for one in needs.waste),
        pan_l=needs.pan_l,
        active_min=needs.active_min,
        elapsed_min=needs.elapsed_min,
    )

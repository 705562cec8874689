"""The answers of `procedures`: the list, and one procedure as numbered steps."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part, Said

__all__ = ["CautionSaid", "ProcedureAnswer", "ProcedureSaid", "ProceduresAnswer", "StepSaid"]


class ProcedureSaid(Part):
    """A procedure in the list."""

    key: str
    title: str
    purpose: Said
    steps: int
    library: bool = Field(description="whether it ships with the package; otherwise it is the household's own")


class ProceduresAnswer(Answer):
    """The answer of `procedures` without a key."""

    format: Literal["twomarks/answer/procedures/1"] = "twomarks/answer/procedures/1"
    procedures: tuple[ProcedureSaid, ...]


class CautionSaid(Part):
    """A caution with its signal word."""

    signal: Literal["danger", "warning", "caution", "notice"]
    words: Said


class StepSaid(Part):
    """One step in the reader's words; what it needs and how to judge it."""

    number: int
    step: str
    action: str
    words: Said
    cautions: tuple[CautionSaid, ...] = ()
    condition: Said | None = None
    look: Said | None = None
    accept: Said | None = None
    reject: Said | None = None


class ProcedureAnswer(Answer):
    """The answer of `procedures KEY`; bound to `vehicle` where one was named, else with names in place of figures."""

    format: Literal["twomarks/answer/procedure/1"] = "twomarks/answer/procedure/1"
    key: str
    title: str
    purpose: Said
    vehicle: str = ""
    hazards: tuple[CautionSaid, ...] = ()
    steps: tuple[StepSaid, ...]

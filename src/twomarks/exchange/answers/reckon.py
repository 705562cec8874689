"""The answers of `reckon`: which calculations there are, what one asks for, and what it answers."""

from __future__ import annotations

import datetime as dt
from typing import Any, Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer, Part, Said

__all__ = ["AskedSaid", "CalculationLine", "ReadSaid", "ReckonAnswer", "ReckonAsksAnswer", "ReckonListAnswer", "SourceSaid"]


class CalculationLine(Part):
    """A calculation and what it answers."""

    name: str
    what: Said


class ReckonListAnswer(Answer):
    """The answer of `reckon` without a name."""

    format: Literal["twomarks/answer/reckon-list/1"] = "twomarks/answer/reckon-list/1"
    calculations: tuple[CalculationLine, ...]


class AskedSaid(Part):
    """One thing that a calculation asks for."""

    key: str
    what: Said
    kind: str = Field(description="a kind of quantity, or text, number, choice, day, file, yes or no")
    needed: bool
    default: str | None = None
    many: bool = Field(default=False, description="may be given more than once")
    choices: tuple[str, ...] = ()
    example: str = ""


class ReckonAsksAnswer(Answer):
    """The answer of `reckon NAME` without values."""

    format: Literal["twomarks/answer/reckon-asks/1"] = "twomarks/answer/reckon-asks/1"
    name: str
    what: Said
    asks: tuple[AskedSaid, ...]


class ReadSaid(Part):
    """A value as it was typed and as it was read."""

    key: str
    typed: str
    value: float | bool | dt.date | str | None = Field(default=None, description="in the unit beside it; left out for a file")
    unit: str = ""
    said: str = Field(default="", description="both units in full, where it was typed in another than it is reckoned in")


class SourceSaid(Part):
    """Where the figures come from, and how far the source was read."""

    key: str
    title: str
    seen: str
    status: str


class ReckonAnswer(Answer):
    """The answer of `reckon NAME key=value ...`."""

    format: Literal["twomarks/answer/reckon/1"] = "twomarks/answer/reckon/1"
    name: str
    read: tuple[ReadSaid, ...]
    lines: tuple[Said, ...]
    cautions: tuple[Said, ...] = ()
    results: dict[str, Any] = Field(description="figures by name; a key ends in its unit")
    sources: tuple[SourceSaid, ...]

"""The answer of `card`: which card was laid out, and where it went."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.said import Answer

__all__ = ["CardAnswer"]


class CardAnswer(Answer):
    """The answer of `card`."""

    format: Literal["twomarks/answer/card/1"] = "twomarks/answer/card/1"
    vehicle: str
    card: str = Field(description="the id of the card")
    title: str
    day: dt.date
    items: tuple[str, ...]
    steps: int
    gates: int
    active_min: float
    elapsed_min: float
    findings: int = Field(description="findings of the rehearsal, on the whole card and at its steps")
    empty_boxes: tuple[str, ...] = Field(default=(), description="paths of the facts that the card asks for in an empty box")
    pdf: str = Field(default="", description="the file that was written; empty where none was asked for")
    workday: str = Field(default="", description="the id of the workday; empty while it has not been started")
    frozen_before: bool = Field(default=False, description="whether the card was started earlier, and stays as it was then")

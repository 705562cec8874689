"""The answer of `level`: the reading that was kept, and what to do for it."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.prepare import AddRowSaid
from twomarks.exchange.answers.said import Answer, Said

__all__ = ["LevelAnswer"]


class LevelAnswer(Answer):
    """The answer of `level`."""

    format: Literal["twomarks/answer/level/1"] = "twomarks/answer/level/1"
    vehicle: str
    circuit: str
    day: dt.date
    reading: float = Field(description="0 is the lower mark, 1 the upper one; just outside them where only below or above was said")
    typed: str
    exact: bool = Field(description="false where only below or above was said")
    add_l: float | None = Field(default=None, description="litres to add now; negative: to take out; absent where the stick decides")
    start: bool = Field(description="whether the engine may be started before that is done")
    then: Literal["done", "read again"]
    what: tuple[Said, ...]
    table: tuple[AddRowSaid, ...] = ()
    rose: bool = Field(default=False, description="whether the level stands higher than before with nothing added")
    number: int = Field(description="the number of the row that was kept")
    root: str

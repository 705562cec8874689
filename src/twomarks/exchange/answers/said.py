"""The parts every answer is made of: the frame, what was said, figures."""

from __future__ import annotations

import datetime as dt
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from twomarks.words import Figure, Message, Reader, Wording, plain, render

__all__ = ["Answer", "FigureSaid", "Part", "Said", "figure_said", "said"]


class Part(BaseModel):
    """A part of an answer: frozen, and no key that the schema does not name."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Answer(Part):
    """What every answer starts with; the format is narrowed by each answer."""

    format: str
    on: dt.date = Field(description="the day that counted as today")


class Said(Part):
    """A message: its stable key, its figures as data, and the sentence in English."""

    key: str
    text: str
    figures: dict[str, Any] = Field(default_factory=dict)


class FigureSaid(Part):
    """A figure as it is held: its value and unit, where it comes from, and who confirmed it on this vehicle."""

    value: float | str
    unit: str
    source: str = ""
    confirmed: str = ""


def said(message: Message | Wording, reader: Reader) -> Said:
    """Return a message, or an author's words, as part of an answer."""
    stored = plain(message)
    key = message.key if isinstance(message, Message) else ""
    return Said(key=key, text=render(message, reader), figures=stored["figures"])


def figure_said(figure: Figure) -> FigureSaid:
    """Return a figure as part of an answer."""
    value = figure.value if isinstance(figure.value, str) else float(figure.value)
    return FigureSaid(value=value, unit=figure.unit, source=str(figure.source) if figure.source else "", confirmed=figure.confirmed)

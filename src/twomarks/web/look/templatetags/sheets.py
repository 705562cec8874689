"""Tags of every template: messages said to the reader, figures on the stub, marks and pictures."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from django import template

from twomarks.errors import TwomarksError
from twomarks.units import from_steps
from twomarks.words import (
    Figure,
    Message,
    Reader,
    Source,
    Wording,
    date_text,
    figure_text,
    message_of,
    number_text,
    render,
    source_text,
    value_text,
)

__all__ = ["register"]

register = template.Library()

LONGEST_LARGE = 5


def _reader(context: Mapping[str, Any]) -> Reader:
    reader = context.get("reader")
    return reader if isinstance(reader, Reader) else Reader()


def spoken(value: Any, reader: Reader) -> str:
    """Return any value that a template may meet as text for the reader."""
    if isinstance(value, Message | Wording):
        return render(value, reader)
    if isinstance(value, TwomarksError):
        return render(message_of(value), reader)
    if isinstance(value, dt.datetime):
        return date_text(value.date(), reader)
    return "" if value is None else value_text(value, reader)


@register.simple_tag(takes_context=True)
def say(context: Mapping[str, Any], value: Any) -> str:
    """Say a message, an author's words, a figure, a source or a day to the reader."""
    return spoken(value, _reader(context))


def stub_figure(figure: Figure | None, reader: Reader) -> dict[str, Any]:
    """Return the parts of a figure as they stand on a stub: number large, unit and source small beneath."""
    if figure is None:
        return {"empty": True}
    number = number_text(figure, reader)
    whole = figure_text(figure, reader)
    unit = whole.removeprefix(number).replace("\u00a0", " ").strip() if not isinstance(figure.value, str) else ""
    source = figure.source
    return {
        "number": number,
        "unit": unit,
        "long": len(number) > LONGEST_LARGE,
        "source": _short_source(source, reader) if source else "",
        "kind": source.kind if source else "",
        "told": bool(source and source.kind == "told" and not figure.confirmed),
        "confirmed": figure.confirmed,
    }


def _short_source(source: Source, reader: Reader) -> str:
    return render(Message("web.practice"), reader) if source.kind == "practice" and not source.text else source_text(source, reader)


@register.inclusion_tag("look/stub_figure.html", takes_context=True)
def stub(context: Mapping[str, Any], figure: Figure | None, label: Any = None) -> dict[str, Any]:
    """Draw one figure of a stub; an unknown one is an empty box."""
    reader = _reader(context)
    return {**stub_figure(figure, reader), "label": spoken(label, reader) if label is not None else ""}


@register.inclusion_tag("look/lying_range.html")
def lying_range(picture: Any, words: str) -> dict[str, Any]:
    """Draw a window lying in time; `words` say the same."""
    return {"picture": picture, "words": words}


@register.inclusion_tag("look/stick.html")
def stick(picture: Any, words: str) -> dict[str, Any]:
    """Draw the stick with its two marks; `words` say the same."""
    return {"picture": picture, "words": words}


@register.inclusion_tag("look/caution.html", takes_context=True)
def caution(context: Mapping[str, Any], signal: str, words: Any) -> dict[str, Any]:
    """Draw a caution: the signal word in its band, the sentence in ink below."""
    return {"signal": signal, "words": spoken(words, _reader(context))}


@register.simple_tag(takes_context=True)
def odometer(context: Mapping[str, Any], steps: int) -> str:
    """Say an odometer figure that the ledger keeps in its steps."""
    return spoken(Figure(round(from_steps(steps, kind="distance")), "km"), _reader(context))


@register.filter
def spaced(key: str) -> str:
    """Return a key as words: "engine_oil" is engine oil."""
    return key.replace("_", " ").replace("-", " ")


@register.filter
def uncapped(text: str) -> str:
    """Return a sentence as it goes on after a colon."""
    return text[:1].lower() + text[1:]


@register.filter
def lookup(table: Mapping[Any, Any], key: Any) -> Any:
    """Return the value of `key`, or None."""
    return table.get(key)


@register.simple_tag(takes_context=True)
def sentence(context: Mapping[str, Any], value: Any) -> str:
    """Say a message as a sentence of its own: a capital at its start, a full stop at its end."""
    text = spoken(value, _reader(context)).strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text[-1] in ".!?:" else ".")

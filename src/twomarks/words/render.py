"""A message becomes text for one reader: language, units, zone and the trade's words of their market.

Placeholders of a sentence:

``{name}``, ``{role.fact}``
    the figure, in the reader's unit.
``{name#one|many}``
    one of two wordings, by whether the figure is 1.
``{name.number}``, ``{name.source}``
    the number of a figure alone; where it comes from.
``{term.bonnet}``
    the trade's word of the reader's market.
``[...]``
    left out when a placeholder inside has no value. ``[[`` and ``]]`` are plain brackets.
"""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Mapping
from decimal import Decimal

from twomarks import units
from twomarks.errors import DocumentError, OutOfRangeError, TwomarksError
from twomarks.words.catalogue import sentence, term
from twomarks.words.message import Figure, Message, Source, Value, Wording
from twomarks.words.reader import Reader

__all__ = ["date_text", "figure_text", "fill", "message_of", "number_text", "render", "source_text"]

_PLACE = re.compile(r"\{([a-z_0-9]+)(?:\.([a-z_0-9]+))?(?:#([^{}|]*)\|([^{}|]*))?\}")
_OPTIONAL = re.compile(r"(?<!\[)\[(?!\[)([^\[\]]*)\](?!\])")
READ_IN_ANY_UNIT = ("C", "L", "bar", "N.m", "km")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December")


class _AbsentValueError(Exception):
    pass


def render(message: Message | Wording, reader: Reader) -> str:
    """Return the sentence of `message`, or an author's words, for `reader`."""
    if isinstance(message, Wording):
        return fill(message.text, message.figures, reader)
    return fill(sentence(message.key, language=reader.language), message.figures, reader)


def fill(template: str, figures: Mapping[str, Value], reader: Reader) -> str:
    """Return `template` with its placeholders filled for `reader`; also used for an author's words in a procedure."""

    def optional(match: re.Match[str]) -> str:
        try:
            return _PLACE.sub(lambda place: _placed(place, figures, reader, strict=True), match[1])
        except _AbsentValueError:
            return ""

    text = _OPTIONAL.sub(optional, template)
    text = _PLACE.sub(lambda place: _placed(place, figures, reader, strict=False), text)
    return text.replace("[[", "[").replace("]]", "]")


def _placed(place: re.Match[str], figures: Mapping[str, Value], reader: Reader, *, strict: bool) -> str:
    name, part, one, many = place.groups()
    if name == "term":
        return term(part, market=reader.market, language=reader.language)
    whole = f"{name}.{part}"
    value = figures.get(whole if part and whole in figures else name)
    if strict and (value is None or value == "" or value == ()):
        raise _AbsentValueError
    if one is not None:
        amount = value.value if isinstance(value, Figure) else value
        return str(one if amount == 1 else many)
    if part == "number" and isinstance(value, Figure):
        return number_text(value, reader)
    if part == "source":
        source = value.source if isinstance(value, Figure) else None
        if source is None and strict:
            raise _AbsentValueError
        return source_text(source, reader) if source else ""
    return value_text(value, reader)


def value_text(value: Value, reader: Reader) -> str:
    """Return any value of a message as text for `reader`."""
    match value:
        case None:
            return "?"
        case Message() | Wording():
            return render(value, reader)
        case Figure():
            return figure_text(value, reader)
        case Source():
            return source_text(value, reader)
        case tuple():
            parts = [value_text(part, reader) for part in value]
            # Sentences stand one after the other, anything else in a list.
            return (" " if parts and all(part.endswith(".") for part in parts) else ", ").join(parts)
        case dt.date():
            return date_text(value, reader)
        case float():
            whole = not math.isfinite(value) or value == int(value)
            return units.written(value, unit="", decimals=None if whole else 2)
        case _:
            return str(value)


def in_readers_unit(figure: Figure, reader: Reader) -> tuple[float, str]:
    """Return the number of a numeric figure and its unit code, as `reader` wants it."""
    unit = reader.unit_for(figure.unit)
    return units.in_unit(float(figure.value), unit=figure.unit, to=unit), unit


def figure_text(figure: Figure, reader: Reader) -> str:
    """Return a figure with its unit, in the unit that `reader` chose for its kind."""
    if isinstance(figure.value, str):
        return figure.value
    if isinstance(figure.value, Decimal) or figure.unit not in units.UNITS:
        return f"{figure.value:.2f}\u00a0{figure.unit}"
    value, unit = in_readers_unit(figure, reader)
    if unit != figure.unit and figure.source is not None and figure.source.kind == "practice":
        # What is usual is a round figure; in another unit it stays one.
        value = float(f"{value:.2g}")
    return units.written(value, unit=unit)


def number_text(figure: Figure, reader: Reader) -> str:
    """Return the number of a figure alone, as it would stand before its unit."""
    if isinstance(figure.value, str):
        return figure.value
    return figure_text(figure, reader).partition("\u00a0")[0].rstrip("%°")


def source_text(source: Source, reader: Reader) -> str:
    """Return where a figure comes from, in words."""
    kind = fill(sentence(f"source.{source.kind}", language=reader.language), {}, reader)
    return f"{kind}: {source.text}" if source.text else kind


def date_text(day: dt.date, reader: Reader) -> str:
    """Return a date in words, in the order of the reader's market."""
    month = MONTHS[day.month - 1]
    return f"{month} {day.day}, {day.year}" if reader.market == "us" else f"{day.day} {month} {day.year}"


def message_of(error: TwomarksError) -> Message:
    """Return the message of an error; the faults of a document are one nested message each, in ``faults``."""
    figures: dict[str, Value] = {name: _plain(value) for name, value in error.values.items()}
    if isinstance(error, DocumentError):
        figures["faults"] = tuple(message_of(fault) for fault in error.faults)
    if isinstance(error, OutOfRangeError):
        figures |= _range_said(error.values)
    return Message(error.key, figures)


def _range_said(values: Mapping[str, object]) -> dict[str, Value]:
    """Return what was found and the limits with their unit; a limit that is itself outside is told as such."""
    unit = str(values["unit"])
    above, below = values.get("above"), values.get("below")
    limits = {
        "at_least": values["low"] if above is None else None,
        "above": above,
        "at_most": values["high"] if below is None else None,
        "below": below,
    }
    said = tuple(
        Message(f"range.{name}", {"limit": _limit_said(float(str(limit)), unit)}) for name, limit in limits.items() if limit is not None
    )
    return {"found": _limit_said(float(str(values["value"])), unit), "limits": said}


def _limit_said(value: float, unit: str) -> Value:
    if math.isnan(value):
        return Message("range.not_a_number")
    if unit in READ_IN_ANY_UNIT:
        return Figure(value, unit)
    shown = units.UNITS[unit].shown if unit in units.UNITS else unit
    # As exact as the limit is: a rounded figure could seem to lie inside.
    number = f"{round(value, 7):.6g}".replace("-", "\u2212")
    return f"{number}{'' if shown in ('%', '°', '') else chr(0xA0)}{shown}"


def _plain(value: object) -> Value:
    if isinstance(value, list | tuple | set | frozenset):
        return tuple(_plain(part) for part in value)
    if isinstance(value, str | int | float | Decimal | dt.date | Figure | Source | Message | Wording) or value is None:
        return value
    return str(value)

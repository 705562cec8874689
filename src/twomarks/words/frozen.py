"""Messages and figures as plain JSON values and back, for frozen cards, stored answers and the machine's answers."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Any, cast

from twomarks.errors import InputError
from twomarks.words.message import Figure, Message, Source, SourceKind, Value, Wording

__all__ = ["from_plain", "plain"]


def plain(value: Value) -> Any:
    """Return `value` as JSON values; what JSON has no type for becomes an object with one telling key."""
    match value:
        case None | str() | bool() | int() | float():
            return value
        case Decimal():
            return {"decimal": str(value)}
        case dt.date():
            return {"day": value.isoformat()}
        case Source():
            return {"source": str(value)}
        case Figure():
            figure: dict[str, Any] = {"figure": plain(value.value), "unit": value.unit}
            if value.source is not None:
                figure["source"] = str(value.source)
            if value.confirmed:
                figure["confirmed"] = value.confirmed
            return figure
        case Message():
            return {"message": value.key, "figures": {name: plain(part) for name, part in value.figures.items()}}
        case Wording():
            return {"wording": value.text, "figures": {name: plain(part) for name, part in value.figures.items()}}
        case tuple():
            return [plain(part) for part in value]
    raise InputError("words.plain", found=type(value).__name__)


def from_plain(stored: Any) -> Value:
    """Return the value that `plain` made `stored` from."""
    match stored:
        case None | str() | bool() | int() | float():
            return stored
        case list():
            return tuple(from_plain(part) for part in stored)
        case {"decimal": str(text)}:
            return Decimal(text)
        case {"day": str(text)}:
            return dt.date.fromisoformat(text)
        case {"figure": figure, "unit": str(unit), **rest}:
            source = _source(str(rest["source"])) if rest.get("source") else None
            return Figure(cast("float | Decimal | str", from_plain(figure)), unit, source, str(rest.get("confirmed", "")))
        case {"source": str(text)}:
            return _source(text)
        case {"message": str(key), "figures": dict(figures)}:
            return Message(key, {name: from_plain(part) for name, part in figures.items()})
        case {"wording": str(text), "figures": dict(figures)}:
            return Wording(text, {name: from_plain(part) for name, part in figures.items()})
    raise InputError("words.plain", found=str(stored)[:60])


def _source(text: str) -> Source:
    kind, _, rest = text.partition(": ")
    return Source(cast("SourceKind", kind), rest)

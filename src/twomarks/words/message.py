"""What the rooms say to each other: a key and figures, never a sentence."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType
from typing import Literal, TypeAlias, get_args

from twomarks.errors import InputError

__all__ = ["SOURCE_KINDS", "Figure", "Message", "Source", "SourceKind", "Value", "Wording", "say"]

SourceKind = Literal["handbook", "stamped", "label", "measured", "supplier", "told", "practice", "memory", "computed"]
SOURCE_KINDS: tuple[str, ...] = get_args(SourceKind)


@dataclass(frozen=True, slots=True)
class Source:
    """Where a figure comes from: its kind and the free text after the colon.

    ``computed`` is for figures that Twomarks worked out; a document never carries it.
    """

    kind: SourceKind
    text: str = ""

    @classmethod
    def read(cls, text: str, *, where: str = "") -> Source:
        """Return the source written as ``KIND: free text``."""
        kind, _, rest = text.partition(":")
        kind = kind.strip().casefold()
        if kind not in SOURCE_KINDS or kind == "computed":
            allowed = tuple(word for word in SOURCE_KINDS if word != "computed")
            raise InputError("source.kind", where=where, found=text, expected=allowed, example="handbook: p. 214")
        return cls(kind, rest.strip())  # type: ignore[arg-type]

    def __str__(self) -> str:
        return f"{self.kind}: {self.text}" if self.text else self.kind


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure with its unit code (of `twomarks.units`) and, where there are any, its source and who confirmed it.

    `value` is a number in `unit`, or the text of a fact that is no number ("16 x 22"). Money is a Decimal with the
    currency code as unit.
    """

    value: float | Decimal | str
    unit: str = ""
    source: Source | None = None
    confirmed: str = ""


Value: TypeAlias = "str | int | float | Decimal | dt.date | Figure | Source | Message | Wording | tuple[Value, ...] | None"


@dataclass(frozen=True, slots=True)
class Message:
    """A key of `twomarks.words` and the figures its sentence is filled with."""

    key: str
    figures: Mapping[str, Value] = field(default_factory=lambda: MappingProxyType({}))

    def __hash__(self) -> int:
        return hash((self.key, tuple(sorted((name, repr(value)) for name, value in self.figures.items()))))


@dataclass(frozen=True, slots=True)
class Wording:
    """An author's words in a document, with the figures that its placeholders are filled with."""

    text: str
    figures: Mapping[str, Value] = field(default_factory=lambda: MappingProxyType({}))

    def __hash__(self) -> int:
        return hash((self.text, tuple(sorted((name, repr(value)) for name, value in self.figures.items()))))


def say(key: str, /, **figures: Value) -> Message:
    """Return the message `key` with its figures."""
    return Message(key, figures)

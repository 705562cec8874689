"""A vehicle sheet as lists of facts: every group by its own name, every fact with its source and who confirmed it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from twomarks.words import Figure, Source

__all__ = ["FactLine", "Group", "groups_of"]

SKIPPED = {"format", "id", "name", "kind", "was", "retired", "source", "items", "circuit", "seal", "procedure", "roles"}
PLAIN = (str, int, float, bool)
LONGEST_BESIDE = 22
"""A text of more signs than this stands beneath its name where the page is narrow."""


@dataclass(frozen=True, slots=True)
class FactLine:
    """One fact: what it is, its figure, and words for who confirmed it."""

    what: str
    figure: Figure
    confirmed: str = ""

    @property
    def told(self) -> bool:
        """Whether it came from somebody else and nobody has confirmed it here."""
        return bool(self.figure.source and self.figure.source.kind == "told" and not self.confirmed)

    @property
    def long(self) -> bool:
        """Whether it is too long to stand beside its name on a phone."""
        return isinstance(self.figure.value, str) and len(self.figure.value) > LONGEST_BESIDE


@dataclass(frozen=True, slots=True)
class Group:
    """The facts of one part of the sheet."""

    key: str
    name: str
    lines: tuple[FactLine, ...]


def groups_of(sheet: Any) -> tuple[Group, ...]:
    """Return the parts of a sheet that hold facts, in the sheet's own order."""
    found = []
    for section in type(sheet).model_fields:
        value = getattr(sheet, section)
        if section in SKIPPED or value is None:
            continue
        if isinstance(value, Mapping):
            for key, part in value.items():
                found.append(Group(f"{section}.{key}", _name(key, part), tuple(_lines(part))))
        elif hasattr(type(value), "model_fields"):
            found.append(Group(section, _said(section), tuple(_lines(value))))
        else:
            lines = tuple(_line(section, value))
            found.append(Group(section, _said(section), lines))
    loose = [group for group in found if "." not in group.key and len(group.lines) == 1 and group.lines[0].what == group.name]
    whole = Group("vehicle", "vehicle", tuple(line for group in loose for line in group.lines))
    rest = [group for group in found if group not in loose and group.lines]
    return (whole, *rest) if whole.lines else tuple(rest)


def _name(key: str, part: Any) -> str:
    name = getattr(part, "name", "")
    return str(getattr(name, "text", name) or _said(key))


def _said(key: str) -> str:
    return key.replace("_", " ").replace("-", " ")


def _lines(part: Any) -> Iterator[FactLine]:
    for name in type(part).model_fields:
        if name not in SKIPPED:
            yield from _line(name, getattr(part, name))


def _line(name: str, value: Any) -> Iterator[FactLine]:
    if value is None or value == () or value == {} or value == "":
        return
    if hasattr(value, "figure"):
        yield FactLine(_said(name), value.figure, str(getattr(value, "confirmed", "") or ""))
    elif isinstance(value, bool):
        yield FactLine(_said(name), Figure("yes" if value else "no"))
    elif isinstance(value, PLAIN):
        yield FactLine(_said(name), Figure(str(value)))
    elif isinstance(value, tuple | list):
        if all(isinstance(part, PLAIN) for part in value):
            yield FactLine(_said(name), Figure(", ".join(str(part) for part in value)))
        else:
            yield from _many(name, value)
    elif hasattr(type(value), "model_fields"):
        source = getattr(value, "source", None)
        inner = list(_lines(value))
        if inner and all(line.figure.source is None for line in inner):
            text = "; ".join(f"{line.what} {line.figure.value}" for line in inner)
            yield FactLine(_said(name), Figure(text, "", source if isinstance(source, Source) else None))
        else:
            yield from (FactLine(f"{_said(name)}, {line.what}", line.figure, line.confirmed) for line in inner)


def _many(name: str, parts: Sequence[Any]) -> Iterator[FactLine]:
    """Yield texts of one source as one line, and parts with facts of their own by their number."""
    texts = [line for part in parts if hasattr(part, "figure") for line in _line(name, part)]
    if len(texts) == len(parts) and len({(line.figure.source, line.confirmed) for line in texts}) == 1:
        yield replace(texts[0], figure=replace(texts[0].figure, value=", ".join(str(line.figure.value) for line in texts)))
        return
    for number, part in enumerate(parts, start=1):
        for line in _line(name, part):
            yield replace(line, what=f"{line.what}, {number} of {len(parts)}") if len(parts) > 1 and not texts else line

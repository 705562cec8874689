"""Key path -> line and column of a TOML text, for messages about faults."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tree_sitter import Node

__all__ = ["Position", "path_text", "positions"]

Path = tuple[str | int, ...]
Position = tuple[int, int]
_BARE = re.compile(r"[A-Za-z0-9_-]+")


def positions(text: str) -> dict[Path, Position]:
    """Return where each key path of a valid TOML text stands: line and column, both from 1."""
    import tree_sitter
    import tree_sitter_toml

    data = text.encode()
    place = _Places(data.split(b"\n"))
    tree = tree_sitter.Parser(tree_sitter.Language(tree_sitter_toml.language())).parse(data)
    found: dict[Path, Position] = {}
    arrays: dict[Path, int] = {}
    for node in tree.root_node.children:
        if node.type == "pair":
            _pair(node, (), found, place)
        elif node.type in ("table", "table_array_element"):
            _table(node, found, arrays, place)
    return found


@dataclass(frozen=True, slots=True)
class _Places:
    """Line and column as a reader counts them: the parser counts the bytes of a line, not its signs."""

    lines: list[bytes]

    def of(self, node: Node) -> Position:
        row, column = node.start_point.row, node.start_point.column
        return row + 1, len(self.lines[row][:column].decode(errors="replace")) + 1


def _table(node: Node, found: dict[Path, Position], arrays: dict[Path, int], place: _Places) -> None:
    path: Path = ()
    keys = [child for child in node.children if child.type in ("bare_key", "quoted_key", "dotted_key")]
    parts = list(_parts(keys[0], place)) if keys else []
    for number, (name, at_key) in enumerate(parts):
        path = (*path, name)
        found.setdefault(path, at_key)
        if node.type == "table_array_element" and number == len(parts) - 1:
            arrays[path] = arrays.get(path, -1) + 1
        if path in arrays:
            path = (*path, arrays[path])
            found.setdefault(path, at_key)
    for child in node.children:
        if child.type == "pair":
            _pair(child, path, found, place)


def _pair(node: Node, base: Path, found: dict[Path, Position], place: _Places) -> None:
    path = base
    for name, at_key in _parts(node.children[0], place):
        path = (*path, name)
        found.setdefault(path, at_key)
    _value(node.children[-1], path, found, place)


def _value(node: Node, path: Path, found: dict[Path, Position], place: _Places) -> None:
    if node.type == "inline_table":
        for child in node.children:
            if child.type == "pair":
                _pair(child, path, found, place)
    elif node.type == "array":
        values = [child for child in node.children if child.is_named and child.type != "comment"]
        for number, child in enumerate(values):
            found.setdefault((*path, number), place.of(child))
            _value(child, (*path, number), found, place)


def _parts(node: Node, place: _Places) -> Iterator[tuple[str, Position]]:
    if node.type == "dotted_key":
        for child in node.children:
            if child.type != ".":
                yield from _parts(child, place)
        return
    text = (node.text or b"").decode()
    yield (next(iter(tomllib.loads(f"{text} = 0"))) if node.type == "quoted_key" else text), place.of(node)


def path_text(path: Path) -> str:
    """Return a key path as it is written for a reader: ``circuits.engine_oil.accepts[0].grades``."""
    text = ""
    for part in path:
        text += f"[{part}]" if isinstance(part, int) else f"{'.' if text else ''}{part if _BARE.fullmatch(part) else json.dumps(part)}"
    return text


def at(document: Any, path: Path) -> Any:
    """Return what stands at `path` in raw tables, None where nothing does."""
    for part in path:
        try:
            document = document[part]
        except (KeyError, IndexError, TypeError):
            return None
    return document

"""Changing one value of a document with comments and order kept; giving it an id; writing a new one."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from typing import Any
from uuid import UUID

import tomli_w
from pydantic import BaseModel

from twomarks.errors import InputError
from twomarks.model.facts import shown
from twomarks.model.loading import raw_tables
from twomarks.model.positions import Path, path_text

__all__ = ["change_value", "document_text", "new_text", "with_id"]

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_FORMAT_LINE = re.compile(r"^[ \t]*format[ \t]*=.*$", re.MULTILINE)


def change_value(text: str, path: Path, value: Any) -> str:
    """Return `text` with the value at `path` set to `value`; comments, order and all else stay as they are.

    A missing key is added at the end of its table, a missing table beside the others of its kind.

    Raises
    ------
    InputError
        ``document.no_such_place`` where the path leads through something that is no table.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    wanted = _with(raw_tables(text, where=path_text(path)), path, value)
    try:
        document = tomlkit.parse(text)
        _put(document, path, value)
        changed = tomlkit.dumps(document)
        if wanted is not None and tomllib.loads(changed) == wanted:
            return changed
    except (TOMLKitError, ValueError, KeyError, IndexError, TypeError, AttributeError):
        pass
    raise InputError("document.no_such_place", where=path_text(path), found=shown(value))


def _with(tables: Mapping[str, Any], path: Path, value: Any) -> Any:
    """Return raw tables with one value put in, or None where the path leads through something that is no table."""
    here: Any = tables
    for part in path[:-1]:
        here = here.setdefault(part, {}) if isinstance(here, dict) else _entry(here, part)
    last = path[-1]
    if (isinstance(here, dict) and isinstance(last, str)) or _entry(here, last) is not None:
        here[last] = _plain(value)
    else:
        return None
    return tables


def _entry(array: Any, number: str | int) -> Any:
    inside = isinstance(array, list) and isinstance(number, int) and 0 <= number < len(array)
    return array[number] if inside else None


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _plain(part) for key, part in value.items()}
    return [_plain(part) for part in value] if isinstance(value, list | tuple) else value


def _put(document: Any, path: Path, value: Any) -> None:
    import tomlkit

    here, made = document, None
    for part in path[:-1]:
        if isinstance(part, str) and part not in here:
            made = tomlkit.table()
            here[part] = made
        here = here[part]
    item = tomlkit.parse(f"x = {_value(value)}\n")["x"]
    last = path[-1]
    if isinstance(here, Mapping) and last in here:
        item.trivia.comment_ws, item.trivia.comment = here[last].trivia.comment_ws, here[last].trivia.comment
    here[last] = item
    if made is not None:
        here.add(tomlkit.nl())


def with_id(text: str, identity: UUID) -> str:
    """Return the document's text carrying `identity` below its format; a text that has an id already is returned as it is."""
    tables = raw_tables(text, where="id")
    if "id" in tables:
        return text
    for line in _FORMAT_LINE.finditer(text):
        written = f'{text[: line.end()]}\nid = "{identity}"{text[line.end() :]}'
        try:
            if tomllib.loads(written) == {**tables, "id": str(identity)}:
                return written
        except tomllib.TOMLDecodeError:
            continue
    return change_value(text, ("id",), str(identity))


def new_text(document: Mapping[str, Any]) -> str:
    """Return the text of a new document: tables as headers, facts as inline tables on one line."""
    return _tables(document, ()).lstrip("\n") + "\n"


def _tables(table: Mapping[str, Any], path: tuple[str, ...]) -> str:
    inline = {key: value for key, value in table.items() if not _is_group(value)}
    lines = [f"{_key(key)} = {_value(value)}" for key, value in inline.items()]
    for key, value in table.items():
        if key in inline:
            continue
        name = ".".join(_key(part) for part in (*path, key))
        if isinstance(value, Mapping):
            body = _tables(value, (*path, key))
            has_own = not value or any(not _is_group(part) for part in value.values())
            lines.append(f"\n[{name}]\n{body}" if has_own else body)
        else:
            lines += [f"\n[[{name}]]\n{_tables(part, (*path, key))}" for part in value]
    return "\n".join(line for line in lines if line)


def _is_group(value: Any) -> bool:
    """Return whether a value is written under a header of its own: a table that is no fact, or an array of such."""
    if isinstance(value, Mapping):
        return "value" not in value
    return isinstance(value, list | tuple) and bool(value) and all(isinstance(part, Mapping) and _is_group(part) for part in value)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else tomli_w.dumps({key: 1}).removesuffix(" = 1\n")


def _value(value: Any) -> str:
    if isinstance(value, Mapping):
        inside = ", ".join(f"{_key(key)} = {_value(part)}" for key, part in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_value(part) for part in value) + "]"
    return tomli_w.dumps({"a": value})[4:].rstrip("\n")


def document_text(document: BaseModel) -> str:
    """Return the text of a document as a value: what it was given and nothing else, so that reading it gives the same value."""
    return new_text(document.model_dump(by_alias=True, exclude_unset=True, exclude_none=True))

"""Changing one value of a document with comments and order kept; giving it an id; writing a new one."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any
from uuid import UUID

import tomli_w

from twomarks.errors import InputError
from twomarks.model.positions import Path, path_text

__all__ = ["change_value", "new_text", "with_id"]

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_FORMAT_LINE = re.compile(r"^[ \t]*format[ \t]*=.*$", re.MULTILINE)
_ID_LINE = re.compile(r"^[ \t]*id[ \t]*=.*$", re.MULTILINE)
_FIRST_TABLE = re.compile(r"^[ \t]*\[", re.MULTILINE)


def change_value(text: str, path: Path, value: Any) -> str:
    """Return `text` with the value at `path` set to `value`; comments, order and all else stay as they are.

    A missing key is added at the end of its table, missing tables at the end of the text.

    Raises
    ------
    InputError
        ``document.no_such_place`` where the path leads through something that is no table.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    document = tomlkit.parse(text)
    here: Any = document
    try:
        for part in path[:-1]:
            if isinstance(part, str) and part not in here:
                here[part] = tomlkit.table()
            here = here[part]
        here[path[-1]] = _item(value)
    except (TOMLKitError, KeyError, IndexError, TypeError, AttributeError):
        raise InputError("document.no_such_place", where=path_text(path), found=str(value)[:60]) from None
    return tomlkit.dumps(document)


def _item(value: Any) -> Any:
    import tomlkit

    if isinstance(value, Mapping):
        table = tomlkit.inline_table()
        table.update(value)
        return table
    return list(value) if isinstance(value, tuple) else value


def with_id(text: str, identity: UUID) -> str:
    """Return the document's text carrying `identity`; a text that has an id already is returned as it is."""
    table = _FIRST_TABLE.search(text)
    head = text[: table.start()] if table else text
    if _ID_LINE.search(head):
        return text
    line = _FORMAT_LINE.search(head)
    if line is None:
        raise InputError("document.format", found="", expected=("twomarks/vehicle/1",), line=1, path="format")
    return f'{text[: line.end()]}\nid = "{identity}"{text[line.end() :]}'


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
    if isinstance(value, Mapping):
        return "value" not in value
    return isinstance(value, list | tuple) and bool(value) and all(isinstance(part, Mapping) for part in value)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else tomli_w.dumps({key: 1}).partition(" = ")[0]


def _value(value: Any) -> str:
    if isinstance(value, Mapping):
        inside = ", ".join(f"{_key(key)} = {_value(part)}" for key, part in value.items())
        return f"{{ {inside} }}" if inside else "{}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(_value(part) for part in value) + "]"
    return tomli_w.dumps({"a": value})[4:].rstrip("\n")

"""Values as canonical JSON text and back, driven by the types of their fields.

The text is what the hash chain and a card's SHA-256 run over, so the same value always gives the same text: keys
sorted, no spaces, no NaN, every field written; a field that came later is left out while it is empty, so that older texts
stay what they were. What `words` speaks in goes through `words.plain`.
"""

from __future__ import annotations

import dataclasses
import datetime as dt
import functools
import json
import types
import typing
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal, TypeVar, Union, cast, get_args, get_origin
from uuid import UUID

from twomarks.errors import InputError
from twomarks.model.ledger import LATER
from twomarks.words import Figure, Message, Source, Value, Wording, from_plain, plain

__all__ = ["canonical", "restored", "stored", "text_of"]

_WORDS: tuple[type, ...] = (Figure, Message, Source, Wording, Decimal)
_SAID: tuple[type, ...] = (Message, Wording)
"""Where a sentence is meant, an author's words do as well."""
_SIMPLE: tuple[type, ...] = (str, bool, int, float)
T = TypeVar("T")


def text_of(tree: Any) -> str:
    """Return JSON values as their one canonical text."""
    return json.dumps(tree, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def canonical(value: Any) -> str:
    """Return the canonical text of a value."""
    return text_of(stored(value))


def stored(value: Any) -> Any:
    """Return a value as JSON values: dataclasses as objects of all their fields, tuples as lists."""
    if value is None or isinstance(value, _SIMPLE):
        return value
    if isinstance(value, _WORDS):
        return plain(cast("Value", value))
    if isinstance(value, dt.datetime | dt.date):
        return value.isoformat()
    if isinstance(value, UUID):
        return str(value)
    if isinstance(value, tuple | list):
        return [stored(part) for part in value]
    if isinstance(value, Mapping):
        return {str(name): stored(part) for name, part in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: stored(getattr(value, field.name)) for field in dataclasses.fields(value) if not _unsaid(value, field)}
    raise InputError("keeping.cannot_keep", found=type(value).__name__)


def _unsaid(value: Any, field: dataclasses.Field[Any]) -> bool:
    """Return whether a field came after the first rows were written, and says nothing here."""
    return bool(field.metadata.get(LATER)) and getattr(value, field.name) == field.default


def restored(kind: type[T], tree: Any) -> T:
    """Return the value of type `kind` that `stored` made `tree` from.

    Raises
    ------
    InputError
        ``keeping.cannot_read`` where the tree is not of that shape: damaged, or written by a newer Twomarks.
    """
    try:
        return cast("T", _restored(kind, tree))
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        raise InputError("keeping.cannot_read", found=getattr(kind, "__name__", str(kind)), expected=str(error)) from None


@functools.cache
def _fields(kind: type) -> dict[str, Any]:
    hints = typing.get_type_hints(kind)
    return {field.name: hints[field.name] for field in dataclasses.fields(kind)}


def _restored(hint: Any, tree: Any) -> Any:
    origin = get_origin(hint)
    if origin is Union or origin is types.UnionType:
        return _of_several(get_args(hint), tree)
    if origin is Literal:
        if tree not in get_args(hint):
            raise ValueError(tree)
        return tree
    if origin is tuple:
        inner = get_args(hint)
        if len(inner) == 2 and inner[1] is Ellipsis:
            return tuple(_restored(inner[0], part) for part in tree)
        return tuple(_restored(part_hint, part) for part_hint, part in zip(inner, tree, strict=True))
    if origin is not None and issubclass(origin, Mapping):
        return {name: _restored(get_args(hint)[1], part) for name, part in tree.items()}
    return _of_one(hint, tree)


def _of_several(hints: tuple[Any, ...], tree: Any) -> Any:
    if tree is None:
        if types.NoneType in hints:
            return None
        raise TypeError(tree)
    left = [hint for hint in hints if hint is not types.NoneType]
    for hint in left[:-1]:
        try:
            return _restored(hint, tree)
        except (KeyError, TypeError, ValueError, AttributeError, InputError):
            continue
    return _restored(left[-1], tree)


def _of_one(hint: Any, tree: Any) -> Any:
    if hint is Any:
        return tree
    if hint in _WORDS:
        value = from_plain(tree)
        if not isinstance(value, _SAID if hint in _SAID else hint):
            raise TypeError(tree)
        return value
    if hint in _SIMPLE:
        if not isinstance(tree, (int, float) if hint is float else hint) or (isinstance(tree, bool) and hint is not bool):
            raise TypeError(tree)
        return tree
    if hint is dt.datetime:
        return dt.datetime.fromisoformat(tree)
    if hint is dt.date:
        return dt.date.fromisoformat(tree)
    if hint is UUID:
        return UUID(tree)
    if dataclasses.is_dataclass(hint):
        fields = _fields(cast("type", hint))
        if unknown := set(tree) - set(fields):
            raise KeyError(*sorted(unknown))
        return cast("Any", hint)(**{name: _restored(fields[name], part) for name, part in tree.items()})
    raise TypeError(hint)

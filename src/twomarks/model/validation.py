"""What the validation library says, as keys and plain values of our own."""

from __future__ import annotations

import difflib
import re
import types
import typing
from collections.abc import Mapping
from typing import Annotated, Any

from pydantic import BaseModel

from twomarks.errors import InputError
from twomarks.model.facts import shown
from twomarks.model.positions import Path

__all__ = ["fault_of"]

_TYPES = {
    "string_type": "text",
    "bool_type": "true or false",
    "int_type": "a whole number",
    "float_type": "a number",
    "date_type": "a date",
    "date_from_datetime_inexact": "a date",
    "finite_number": "a number",
    "dict_type": "a table",
    "model_type": "a table",
    "tuple_type": "an array",
}
_LIMITS = {
    "string_too_short": ("document.too_short", "min_length"),
    "string_too_long": ("document.too_long", "max_length"),
    "too_short": ("document.too_few", "min_length"),
    "too_long": ("document.too_many", "max_length"),
    "greater_than_equal": ("document.below", "ge"),
    "less_than_equal": ("document.above", "le"),
}
_FORMS = (
    ("engine_oil", "document.key_form"),
    ("0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52", "document.id_form"),
    ("EUR", "document.form"),
    ("en", "document.form"),
)
"""A text of each form that a document knows, in the order in which they are tried, and the sentence about it."""


def fault_of(found: Mapping[str, Any], model: type[BaseModel], tables: Mapping[str, Any]) -> tuple[Path, InputError]:
    """Return path and fault for one error of the validation library in the raw `tables` of a `model`."""
    path = _path(found["loc"], tables)
    kind = found["type"]
    context = found.get("ctx") or {}
    given = shown(found["input"])
    if "." in kind:
        return path, InputError(kind, **context)
    if kind == "extra_forbidden":
        known = _keys_at(model, path[:-1])
        near = difflib.get_close_matches(str(path[-1]), known, 1, 0.6)
        return path, InputError("document.unknown_key", found=shown(path[-1]), expected=tuple(sorted(known)), nearest="".join(near))
    if kind == "missing":
        return path, InputError("document.missing", found="", expected=str(path[-1]))
    if kind == "literal_error":
        words = tuple(word.strip("' ") for word in context["expected"].replace(" or ", ", ").split(", "))
        near = difflib.get_close_matches(str(found["input"]), words, 1, 0.5)
        return path, InputError("document.word", found=given, expected=words, nearest="".join(near))
    if kind in _TYPES:
        return path, InputError("document.type", found=given, expected=_TYPES[kind])
    if kind == "string_pattern_mismatch":
        return path, _form(str(context.get("pattern", "")), given)
    if kind in _LIMITS:
        key, limit = _LIMITS[kind]
        return path, InputError(key, found=given, expected=context[limit])
    return path, InputError("document.not_accepted", found=given, what=kind)


def _form(pattern: str, given: str) -> InputError:
    """Return the fault of a text that has not its form: an example says more than the pattern does."""
    example, key = next((form for form in _FORMS if re.search(pattern, form[0])), ("", "document.form"))
    return InputError(key, found=given, expected=pattern, example=example)


def _path(location: tuple[str | int, ...], tables: Mapping[str, Any]) -> Path:
    """Return the path in the document: what the library adds to it (tags of unions, the mark of a key) is left out."""
    path: list[str | int] = []
    here: Any = tables
    for number, part in enumerate(location):
        inside = (isinstance(here, dict) and part in here) or (isinstance(here, list) and isinstance(part, int) and part < len(here))
        if inside:
            path.append(part)
            here = here[part]
        elif number == len(location) - 1 and part != "[key]":
            path.append(part)
    return tuple(path)


def _keys_at(model: type[BaseModel], path: Path) -> set[str]:
    hint: Any = model
    for part in path:
        hint = _inner(hint, part)
        if hint is None:
            return set()
    kind = _model_in(hint)
    return {field.alias or name for name, field in kind.model_fields.items()} if kind else set()


def _inner(hint: Any, part: str | int) -> Any:
    kind = _model_in(hint)
    if kind is not None:
        names = {field.alias or name: name for name, field in kind.model_fields.items()}
        return typing.get_type_hints(kind, include_extras=True).get(names.get(str(part), "")) if part in names else None
    for option in _options(hint):
        origin, arguments = typing.get_origin(option), typing.get_args(option)
        if origin is dict:
            return arguments[1]
        if origin is tuple:
            return arguments[0]
    return None


def _options(hint: Any) -> tuple[Any, ...]:
    if typing.get_origin(hint) is Annotated:
        return _options(typing.get_args(hint)[0])
    if typing.get_origin(hint) in (typing.Union, types.UnionType):
        return tuple(option for part in typing.get_args(hint) for option in _options(part))
    return (hint,)


def _model_in(hint: Any) -> type[BaseModel] | None:
    return next((option for option in _options(hint) if isinstance(option, type) and issubclass(option, BaseModel)), None)

"""Before a document is validated: sources go down to the facts below them, and parts without a name get their key's."""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any

from pydantic import BaseModel

from twomarks.errors import InputError
from twomarks.model.facts import FactKind, Part
from twomarks.words import Source

__all__ = ["handed_down"]

Shape = tuple[str, Any]


def _readable(source: str) -> bool:
    """Return whether `source` is one; a misspelt one is a fault of its group, not of every fact below it."""
    try:
        Source.read(source)
    except InputError:
        return False
    return True


def handed_down(model: type[BaseModel], table: Mapping[str, Any], source: str | None = None) -> dict[str, Any]:
    """Return the raw `table` of a `model` with each fact carrying the source of the nearest group around it.

    A source goes through groups and arrays; a confirmation never does. What does not fit the model is left as it is,
    for the validation to say.
    """
    own = table.get("source")
    if isinstance(own, str) and issubclass(model, Part):
        source = own if _readable(own) else None
    shapes = _shapes(model)
    return {key: _down(shapes.get(key), value, source) for key, value in table.items()}


def _down(shape: Shape | None, value: Any, source: str | None) -> Any:
    if shape is None:
        return value
    kind, inner = shape
    if kind == "fact" and source is not None:
        if isinstance(value, str):
            return {"value": value, "inherited": source}
        if isinstance(value, dict) and "value" in value:
            return {**value, "inherited": source}
    elif kind == "model" and isinstance(value, dict):
        return handed_down(inner, value, source)
    elif kind == "table" and isinstance(value, dict):
        return {key: _named(inner, key, _down(inner, part, source)) for key, part in value.items()}
    elif kind == "array" and isinstance(value, list):
        return [_down(inner, part, source) for part in value]
    return value


def _named(shape: Shape | None, key: str, value: Any) -> Any:
    """Give a part that needs a name and has none the words of its key."""
    if shape is not None and shape[0] == "model" and isinstance(value, dict) and "name" not in value:
        field = shape[1].model_fields.get("name")
        if field is not None and not field.is_required():
            return {**value, "name": key.replace("_", " ").replace("-", " ")}
    return value


@cache
def _shapes(model: type[BaseModel]) -> dict[str, Shape | None]:
    hints = typing.get_type_hints(model, include_extras=True)
    found = {}
    for name, field in model.model_fields.items():
        key = field.alias or name
        found[key] = _shape(hints[name])
    return found


def _shape(hint: Any) -> Shape | None:
    if typing.get_origin(hint) is Annotated:
        inner, *marks = typing.get_args(hint)
        return ("fact", None) if any(isinstance(mark, FactKind) for mark in marks) else _shape(inner)
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin in (typing.Union, types.UnionType):
        return next((shape for part in arguments if (shape := _shape(part)) is not None), None)
    if origin is dict:
        inner_shape = _shape(arguments[1])
        return ("table", inner_shape) if inner_shape else None
    if origin is tuple:
        inner_shape = _shape(arguments[0])
        return ("array", inner_shape) if inner_shape else None
    if isinstance(hint, type) and issubclass(hint, BaseModel):
        return ("model", hint)
    return None

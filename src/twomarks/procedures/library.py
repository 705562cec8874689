"""The procedures that ship with Twomarks: read-only, with fixed ids, in the package."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.model.procedure import Procedure

__all__ = ["library", "library_keys", "library_procedure", "procedure_text"]

_FOLDER = "procedures/library"


@cache
def library_keys() -> tuple[str, ...]:
    """Return the keys of the procedures that ship."""
    return tuple(name.removesuffix(".toml") for name in packaged.names(_FOLDER, ".toml"))


@cache
def library_procedure(key: str) -> Procedure:
    """Return the library's procedure called `key`."""
    return Procedure.model_validate(tomllib.loads(procedure_text(key)))


@cache
def library() -> Mapping[str, Procedure]:
    """Return every procedure of the library by its key."""
    return MappingProxyType({key: library_procedure(key) for key in library_keys()})


def procedure_text(key: str) -> str:
    """Return the text of the library's procedure called `key`, as it ships."""
    if key not in library_keys():
        raise InputError("procedure.unknown", where=key, found=key, expected=library_keys())
    return packaged.text(f"{_FOLDER}/{key}.toml")

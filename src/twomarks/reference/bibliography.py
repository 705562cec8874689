"""The bibliography: what each source key stands for and how far the source was read."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache

from twomarks import packaged
from twomarks.errors import InputError

__all__ = ["STATUSES", "Reference", "reference", "references", "weakest"]

STATUSES = ("a", "b", "a2", "d", "c")
"""How far a figure was seen, strongest first: source read, computed, secondary copy, derived, memory."""


@dataclass(frozen=True, slots=True)
class Reference:
    """One entry of the bibliography."""

    key: str
    title: str
    what: str
    seen: str
    status: str


@cache
def references() -> dict[str, Reference]:
    """Return the whole bibliography by key."""
    entries = tomllib.loads(packaged.text("reference/sources.toml"))
    return {key: Reference(key, **entry) for key, entry in entries.items()}


def reference(key: str) -> Reference:
    """Return the entry of the bibliography under `key`."""
    found = references().get(key)
    if found is None:
        raise InputError("range.source", found=key)
    return found


def weakest(*statuses: str) -> str:
    """Return the weakest of the given statuses; a conclusion is no stronger than that."""
    return max(statuses, key=STATUSES.index, default="c")

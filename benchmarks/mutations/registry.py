"""The operators there are, by name: those written before the rules that they test, and the later ones that are scored apart."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

from benchmarks.mutations.mutant import Operator

__all__ = ["GROUPS", "operators"]

GROUPS = ("operators", "later")


@cache
def operators(group: str) -> dict[str, Operator]:
    """Return the operators of a group by their names, in the order of the files and in the order within each."""
    package = importlib.import_module(f"benchmarks.mutations.{group}")
    found: dict[str, Operator] = {}
    for module in sorted(pkgutil.iter_modules(package.__path__), key=lambda one: one.name):
        for operator in importlib.import_module(f"{package.__name__}.{module.name}").OPERATORS:
            name = operator.__name__.replace("_", " ")
            if name in found:
                raise ValueError(name)
            found[name] = operator
    return found

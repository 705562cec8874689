"""Which step must precede which: taken from what each step's rules and effects looked at, and which steps gave it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from twomarks.procedures.bound import Bound
from twomarks.procedures.rehearsal import Rehearsal, rehearse

__all__ = ["may_swap", "order_of"]


def order_of(bound: Bound, rehearsal: Rehearsal | None = None) -> Mapping[str, frozenset[str]]:
    """Return for each step the steps that must come before it, directly or through others."""
    played = rehearsal or rehearse(bound)
    before: dict[str, frozenset[str]] = {}
    for step, givers in played.needs:
        through = frozenset(far for near in givers for far in before.get(near, frozenset()))
        before[step] = (givers | through) - {step}
    return MappingProxyType(before)


def may_swap(order: Mapping[str, frozenset[str]], first: str, second: str) -> bool:
    """Return whether neither of two steps must precede the other."""
    return first not in order.get(second, frozenset()) and second not in order.get(first, frozenset())

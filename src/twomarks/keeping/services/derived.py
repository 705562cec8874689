"""Dropping what was worked out; it is worked out again when asked for."""

from __future__ import annotations

from twomarks.keeping.records.derived import DerivedRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import service

__all__ = ["drop_derived"]


@service
def drop_derived(scope: Scope) -> int:
    """Drop every derived answer of the household, and return how many there were."""
    count, _ = DerivedRow.objects.filter(household=scope.household).delete()
    return count

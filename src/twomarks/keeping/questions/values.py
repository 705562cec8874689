"""Ledger rows as the plain values of the ledgers."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Iterable
from typing import Any, TypeVar, cast

from twomarks.keeping.canonical import restored
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.scope import Scope
from twomarks.model.ledger import Event

__all__ = ["current", "event_of", "events", "written"]

E = TypeVar("E", bound=Event)


def event_of(row: LedgerRow) -> Event:
    """Return what a row says, with its place in the household's order."""
    said = restored(row.holds, json.loads(row.payload)["event"])
    return dataclasses.replace(said, root=row.root, number=row.number)


def written(scope: Scope, row: type[LedgerRow], **narrowed: Any) -> Any:
    """Return every row of a ledger in this household, those that were corrected or withdrawn among them."""
    return cast("Any", row._default_manager).filter(household=scope.household, **narrowed).order_by("number")


def current(scope: Scope, row: type[LedgerRow], **narrowed: Any) -> Any:
    """Return the rows of a ledger that hold now in this household, by number."""
    return written(scope, row, **narrowed).current()


def events(kind: type[E], rows: Iterable[LedgerRow]) -> tuple[E, ...]:
    """Return what these rows, which hold values of `kind`, say: oldest first by day and then by number."""
    said = [event for event in map(event_of, rows) if isinstance(event, kind)]
    return tuple(sorted(said, key=lambda event: (event.day, event.number)))

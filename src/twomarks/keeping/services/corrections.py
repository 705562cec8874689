"""Withdrawing a row: it no longer counts, and stays readable."""

from __future__ import annotations

from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping.records.ledger import ledgers
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import latest, withdraw
from twomarks.keeping.storing import service

__all__ = ["withdraw_row"]

_WITH_OTHERS = ("entries", "ticks")


@service
def withdraw_row(scope: Scope, ledger: str, root: UUID) -> None:
    """Say that a row of `ledger` ("readings", "level checks", ...) was never so.

    An entry is withdrawn with all that came with it by `entries.withdraw_entry`; a tick is undone by another tick.
    """
    tables = {row.ledger: row for row in ledgers() if row.ledger not in _WITH_OTHERS}
    if ledger not in tables:
        raise InputError("keeping.ledger_unknown", found=ledger, expected=tuple(tables))
    withdraw(scope, [latest(scope, tables[ledger], root)])

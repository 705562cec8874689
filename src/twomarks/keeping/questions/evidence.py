"""Whether the ledgers are whole."""

from __future__ import annotations

import json
from collections.abc import Iterator

from twomarks.errors import InputError
from twomarks.keeping.payload import chained, payload_of
from twomarks.keeping.questions.values import event_of
from twomarks.keeping.records.household import HouseholdRow
from twomarks.keeping.records.ledger import LedgerRow, ledgers
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.keeping.values import Verified
from twomarks.words import Message, say

__all__ = ["chain_head", "verify"]

_OTHER_COLUMNS = ("day", "day_from", "day_to", "at", "zone", "text", "note")


@question
def chain_head(scope: Scope) -> str:
    """Return the head of the chain over every ledger row of the household, as it is printed on a record."""
    return HouseholdRow.objects.values_list("chain_head", flat=True).get(id=scope.household)


@question
def verify(scope: Scope, *, earlier_head: str = "") -> Verified:
    """Return whether every ledger row is there, unchanged and in order, and what that does not prove.

    With the head of the chain that was printed or exported earlier, it is also looked up as the head after one of the
    rows: then the record of that day is the beginning of this one.
    """
    home = HouseholdRow.objects.get(id=scope.household)
    faults: list[Message] = []
    head, expected, heads = "", 0, {""}
    for row in _by_number(scope):
        expected += 1
        if row.number != expected:
            faults.append(say("keeping.row_missing", first=expected, last=row.number - 1))
            expected = row.number
        faults += _faults_of(row)
        if row.chain != chained(head, row.payload):
            faults.append(say("keeping.chain_broken", number=row.number))
        head = row.chain
        heads.add(head)
    if expected != home.last_number:
        faults.append(say("keeping.row_missing", first=expected + 1, last=home.last_number))
    elif head != home.chain_head:
        faults.append(say("keeping.chain_broken", number=expected))
    if earlier_head and earlier_head not in heads:
        faults.append(say("keeping.not_its_beginning", found=earlier_head[:16]))
    unproven = [say("keeping.proves_not_truth")]
    if not earlier_head:
        unproven.append(say("keeping.proves_not_age"))
    return Verified(not faults, expected, head, tuple(faults), tuple(unproven))


def _by_number(scope: Scope) -> Iterator[LedgerRow]:
    rows = [row for table in ledgers() for row in table._default_manager.filter(household=scope.household)]
    return iter(sorted(rows, key=lambda row: row.number))


def _faults_of(row: LedgerRow) -> list[Message]:
    """Return what of a row does not agree with its payload."""
    try:
        event = event_of(row)
        same = payload_of(row, event) == row.payload
        same = same and all(getattr(row, name) == value for name, value in row.columns(event).items())
        same = same and all(getattr(row, name) == getattr(event, name) for name in _OTHER_COLUMNS)
    except (InputError, json.JSONDecodeError, KeyError, TypeError):
        same = False
    return [] if same else [say("keeping.row_differs", number=row.number, what=row.ledger)]

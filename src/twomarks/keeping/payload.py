"""The canonical text of a ledger row, and the chain over those texts."""

from __future__ import annotations

import hashlib

from twomarks.keeping.canonical import stored, text_of
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Event

__all__ = ["chained", "payload_of"]


def payload_of(row: LedgerRow, event: Event) -> str:
    """Return the canonical text of a row: everything that it says, apart from the keys of this database."""
    said = stored(event)
    for placed in ("root", "number"):
        said.pop(placed)
    return text_of(
        {
            "event": said,
            "id": str(row.public_id),
            "ledger": row.ledger,
            "number": row.number,
            "part_of": None if row.part_of is None else str(row.part_of),
            "person": str(row.person_id),
            "root": str(row.root),
            "void": row.void,
            "written_at": row.written_at.isoformat(),
        }
    )


def chained(head: str, payload: str) -> str:
    """Return the chain's new head after a payload."""
    return hashlib.sha256(f"{head}\n{payload}".encode()).hexdigest()

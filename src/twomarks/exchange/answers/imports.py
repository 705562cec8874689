"""The answers of `import`: what a file of readings held, and what was kept of a document."""

from __future__ import annotations

from typing import Any, Literal

from twomarks.exchange.answers.prepare import FlagSaid
from twomarks.exchange.answers.said import Answer, Said, said
from twomarks.exchange.readings_file import ReadingsFile
from twomarks.keeping.values import Recorded
from twomarks.planning.usage import History
from twomarks.words import Reader

__all__ = ["DocumentAnswer", "ImportAnswer", "import_said"]


class ImportAnswer(Answer):
    """What a file of readings held, and how the vehicle's readings are judged now."""

    format: Literal["twomarks/answer/import-readings/1"] = "twomarks/answer/import-readings/1"
    vehicle: str
    rows: int
    taken: int
    there_already: int
    blank: int
    faults: tuple[Said, ...] = ()
    readings_used: int
    flags: tuple[FlagSaid, ...] = ()


class DocumentAnswer(Answer):
    """What was kept of a document."""

    format: Literal["twomarks/answer/import-document/1"] = "twomarks/answer/import-document/1"
    kind: str
    name: str
    id: str
    revision: int
    sha256: str
    unsourced: tuple[str, ...] = ()


def import_said(vehicle: str, found: ReadingsFile, recorded: Recorded, judged: History, reader: Reader) -> dict[str, Any]:
    """Return the fields of the answer."""
    return {
        "vehicle": vehicle,
        "rows": found.rows,
        "taken": recorded.count,
        "there_already": recorded.skipped,
        "blank": found.blank,
        "faults": tuple(said(fault, reader) for fault in found.faults),
        "readings_used": judged.used,
        "flags": tuple(FlagSaid(on=flag.reading.day, text=flag.reading.text, reason=said(flag.reason, reader)) for flag in judged.flags),
    }

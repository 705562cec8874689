"""Ticks as a device sends them: read strictly, bounded, and kept in the device's order."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.ticks import record_ticks
from twomarks.model.ledger import Tick, TickWhat

__all__ = ["Taken", "keep_ticks", "ticks_in"]

WHATS = ("done", "undone", "left out", "answer", "figure", "differs", "set aside")
LONGEST_WORDS = 500
LONGEST_NAME = 200
MOST = 500
HIGHEST = 2**31


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of the ticks of one sending: the ids that are kept, and those refused, with why."""

    kept: tuple[str, ...]
    refused: tuple[tuple[str, InputError], ...]


def ticks_in(body: bytes, *, card: UUID, person: str) -> tuple[Tick, ...]:
    """Return the ticks of a request's body.

    Raises
    ------
    InputError
        Where it is no JSON, or a value is of another type or size than a tick has.
    """
    try:
        sent = json.loads(body)["ticks"]
    except (ValueError, KeyError, TypeError):
        raise InputError("tick.body", where=str(card)) from None
    if not isinstance(sent, list) or len(sent) > MOST:
        raise InputError("tick.body", where=str(card))
    return tuple(_tick(row, card, person) for row in sent)


def _tick(row: Any, card: UUID, person: str) -> Tick:
    if not isinstance(row, Mapping) or row.get("what") not in WHATS:
        raise InputError("tick.row", where=str(card), found=str(row)[:80])
    sequence = row.get("device_sequence")
    try:
        if not isinstance(sequence, int) or isinstance(sequence, bool) or not 0 < sequence < HIGHEST:
            raise ValueError(sequence)
        return Tick(
            id=UUID(_text(row, "id", 40)),
            card=card,
            target=_text(row, "target", LONGEST_NAME),
            what=cast("TickWhat", row["what"]),
            words=_text(row, "words", LONGEST_WORDS),
            person=person,
            device=str(UUID(_text(row, "device", 40))),
            device_sequence=sequence,
            day=dt.date.fromisoformat(_text(row, "day", 10)),
            at=dt.datetime.fromisoformat(_text(row, "at", 40)).astimezone(dt.UTC),
        )
    except (ValueError, OverflowError):
        raise InputError("tick.row", where=str(card), found=str(dict(row))[:80]) from None


def _text(row: Mapping[str, Any], name: str, longest: int) -> str:
    value = row.get(name, "")
    if not isinstance(value, str) or len(value) > longest:
        raise ValueError(name)
    return value


def keep_ticks(scope: Scope, card: UUID, ticks: tuple[Tick, ...]) -> Taken:
    """Keep the ticks; where one is refused, those before it are kept and it is named, with the reason."""
    refused: list[tuple[str, InputError]] = []
    try:
        record_ticks(scope, ticks)
    except InputError:
        for tick in sorted(ticks, key=lambda tick: (tick.device, tick.device_sequence)):
            try:
                record_ticks(scope, [tick])
            except InputError as error:
                refused.append((str(tick.id), error))
                break
    known = {tick.id for tick in questions.ticks(scope, card)}
    return Taken(tuple(str(tick.id) for tick in ticks if tick.id in known), tuple(refused))

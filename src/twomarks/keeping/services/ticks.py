"""Ticks from the devices: merged by id, taken in each device's own order, never lost and never doubled."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from uuid import UUID

from django.db.models import Max

from twomarks.errors import InputError
from twomarks.keeping.card_text import card_of
from twomarks.keeping.questions.values import event_of, written
from twomarks.keeping.records.workdays import CardRow, TickRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append
from twomarks.keeping.storing import service
from twomarks.keeping.values import TicksKept
from twomarks.model.ledger import Tick

__all__ = ["record_ticks"]

_NEED_WORDS = ("left out", "set aside", "answer", "figure", "differs")


@service
def record_ticks(scope: Scope, ticks: Sequence[Tick]) -> TicksKept:
    """Keep the ticks that are new; sending the same ones again changes nothing.

    Each device counts its ticks from 1 on. Where a number is missing, the ticks after the gap are not taken: the
    answer names the missing number, and the device, which keeps its ticks until they are acknowledged, sends them
    again from there.

    Raises
    ------
    InputError
        Where a tick leaves something out or sets it aside without words, says nothing where it should, names a card
        or a step that is not there, or its id or its place in the device's order was used for something else.
    """
    targets: dict[UUID, tuple[CardRow, set[str]]] = {}
    for tick in ticks:
        _refuse_wordless(tick)
        if tick.card not in targets:
            targets[tick.card] = _targets(scope, tick.card)
        if tick.target not in targets[tick.card][1]:
            raise InputError("keeping.tick_target", found=tick.target, where=targets[tick.card][0].title)
        if not tick.device or tick.device_sequence < 1:
            raise InputError("keeping.tick_device", found=tick.device_sequence, where=tick.device)
    fresh, known = _unknown(scope, ticks)
    taken, waiting = _in_order(scope, fresh)
    append(scope, [NewRow(row=TickRow, event=tick, public_id=tick.id, links={"card": targets[tick.card][0]}) for tick in taken])
    return TicksKept(len(taken), known, waiting)


def _refuse_wordless(tick: Tick) -> None:
    if tick.what in _NEED_WORDS and not tick.words.strip():
        raise InputError("keeping.tick_words", found=tick.what, where=tick.target)


def _targets(scope: Scope, card: UUID) -> tuple[CardRow, set[str]]:
    row = CardRow.objects.filter(household=scope.household, public_id=card).first()
    if row is None:
        raise InputError("keeping.card_unknown", found=str(card))
    frozen = card_of(row.text)
    return row, {step.id for step in frozen.steps} | {gate.id for gate in frozen.gates} | {""}


def _unknown(scope: Scope, ticks: Sequence[Tick]) -> tuple[list[Tick], int]:
    kept = {row.public_id: row for row in written(scope, TickRow, public_id__in={tick.id for tick in ticks})}
    fresh: dict[UUID, Tick] = {}
    known = 0
    for tick in ticks:
        earlier = event_of(kept[tick.id]) if tick.id in kept else fresh.get(tick.id)
        if earlier is None:
            fresh[tick.id] = tick
            continue
        if dataclasses.replace(earlier, root=None, number=0) != dataclasses.replace(tick, root=None, number=0):
            raise InputError("keeping.tick_differs", found=str(tick.id))
        known += 1
    return list(fresh.values()), known


def _in_order(scope: Scope, fresh: Sequence[Tick]) -> tuple[list[Tick], dict[str, int]]:
    devices = {tick.device for tick in fresh}
    rows = written(scope, TickRow, device__in=devices).order_by()
    last = dict(rows.values_list("device").annotate(last=Max("device_sequence")))
    waiting: dict[str, int] = {}
    taken = []
    for tick in sorted(fresh, key=lambda tick: (tick.device, tick.device_sequence)):
        expected = last.get(tick.device, 0) + 1
        if tick.device_sequence < expected:
            raise InputError("keeping.tick_sequence", found=tick.device_sequence, where=tick.device)
        if tick.device_sequence > expected:
            waiting[tick.device] = expected
            continue
        last[tick.device] = expected
        taken.append(tick)
    return taken, waiting

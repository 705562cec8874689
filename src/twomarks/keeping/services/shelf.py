"""Stock in and out, waste in and out; neither goes below nothing."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from uuid import UUID

from django.db.models import Sum

from twomarks.errors import InputError
from twomarks.keeping.questions.values import current
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.records.shelf import StockMoveRow, WasteMoveRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import Recorded
from twomarks.model.ledger import StockMove, WasteMove
from twomarks.words import Figure

__all__ = ["moves", "record_stock_moves", "record_waste_move"]


@service
def record_stock_moves(scope: Scope, stock_moves: Sequence[StockMove], *, today: dt.date | None = None) -> Recorded:
    """Keep what came onto the shelf and what left it.

    Raises
    ------
    InputError
        Where more would leave than is there, or a thing is counted in mL and in pieces.
    """
    not_in_the_future(stock_moves, today)
    append(scope, moves(scope, stock_moves))
    return Recorded(len(stock_moves))


@service
def record_waste_move(scope: Scope, move: WasteMove, *, today: dt.date | None = None) -> Recorded:
    """Keep what went into a waste can, or was handed in."""
    not_in_the_future([move], today)
    append(scope, moves(scope, [move]))
    return Recorded(1)


def moves(scope: Scope, events: Sequence[StockMove | WasteMove], *, part_of: UUID | None = None) -> list[NewRow]:
    """Return the rows of these moves, after looking that nothing goes below nothing and no unit changes."""
    stock = [event for event in events if isinstance(event, StockMove)]
    waste = [event for event in events if isinstance(event, WasteMove)]
    _refuse_changed_unit(scope, stock)
    _refuse_below_nothing(scope, StockMoveRow, "item", "amount", [(move.item, move.amount, move.unit, move.root) for move in stock])
    _refuse_below_nothing(scope, WasteMoveRow, "can", "amount_ml", [(move.can, move.amount_ml, "mL", move.root) for move in waste])
    return [NewRow(row=StockMoveRow if isinstance(event, StockMove) else WasteMoveRow, event=event, part_of=part_of) for event in events]


def _refuse_changed_unit(scope: Scope, stock: Sequence[StockMove]) -> None:
    known = dict(current(scope, StockMoveRow, item__in={move.item for move in stock}).values_list("item", "unit")) if stock else {}
    for move in stock:
        unit = known.setdefault(move.item, move.unit)
        if unit != move.unit:
            raise InputError("keeping.unit_changed", where=move.item, found=move.unit, expected=unit)


def _refuse_below_nothing(
    scope: Scope, row: type[LedgerRow], thing: str, amount: str, moved: Sequence[tuple[str, int, str, UUID | None]]
) -> None:
    change = Counter[str]()
    corrected = {root for *_, root in moved if root is not None}
    unit_of = {name: "mL" if unit == "mL" else "" for name, _, unit, _ in moved}
    for name, step, *_ in moved:
        change[name] += step
    if not change:
        return
    rows = current(scope, row, **{f"{thing}__in": set(change)}).exclude(root__in=corrected)
    have = dict(rows.order_by().values_list(thing).annotate(total=Sum(amount)))
    for name, step in change.items():
        there = int(have.get(name, 0))
        if step < 0 and there + step < 0:
            raise InputError("keeping.below_nothing", where=name, found=Figure(-step, unit_of[name]), expected=Figure(there, unit_of[name]))

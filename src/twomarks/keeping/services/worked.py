"""What somebody says they did becomes one entry with the stock it used, the waste it made, the level it left and its checks."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.entries import record_entry
from twomarks.keeping.storing import service
from twomarks.keeping.values import Kept
from twomarks.model.ledger import Entry, LevelCheck, StockMove, WasteMove
from twomarks.planning.card import CardFollowUp

__all__ = ["Worked", "record_work"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """What was done, as a person tells it; all that follows from it is worked out when it is kept.

    `product` is a key of the shelf list or, where that lists no oil, a name. `text` is the odometer as typed. Checks asked
    for later come from the card that was worked; `follow_ups` are those of work without one. `cost_minor` is what the
    materials cost, `minutes` the owner's own time; `snags` are the roots of those that it closes.
    """

    day: dt.date
    items: tuple[str, ...] = ()
    title: str = ""
    odometer_steps: int | None = None
    text: str = ""
    product: str = ""
    volume_in_ml: int | None = None
    volume_out_ml: int | None = None
    can: str = ""
    circuit: str = "engine_oil"
    level_permille: int | None = None
    parts: tuple[str, ...] = ()
    card: UUID | None = None
    follow_ups: tuple[CardFollowUp, ...] = ()
    note: str = ""
    cost_minor: int | None = None
    currency: str = ""
    minutes: int | None = None
    snags: tuple[UUID, ...] = ()


@service
def record_work(scope: Scope, vehicle: str, worked: Worked, *, force: bool = False, today: dt.date | None = None) -> Kept:
    """Keep what was done, with all that follows from it, in one piece.

    What was poured leaves the shelf as far as the shelf knows of it: the entry holds the amount, and a bottle that nobody
    counted in does not stop it.

    Raises
    ------
    InputError
        As `record_entry`, and where the shelf list has oils or cans and the one named is not among them.
    """
    card = questions.card(scope, worked.card) if worked.card else None
    entry = Entry(
        day=worked.day,
        vehicle=vehicle,
        items=worked.items,
        title=worked.title,
        odometer_steps=worked.odometer_steps,
        product=_product_name(scope, worked.product),
        volume_in_ml=worked.volume_in_ml,
        volume_out_ml=worked.volume_out_ml,
        level_permille=worked.level_permille,
        parts=worked.parts,
        figures=questions.filled_figures(scope, worked.card) if worked.card else (),
        follow_ups=tuple(one.id for one in card.follow_ups) if card else (),
        card=worked.card,
        note=worked.note,
        text=worked.text,
        cost_minor=worked.cost_minor,
        currency=worked.currency,
        minutes=worked.minutes,
        snags=worked.snags,
    )
    level = None
    if worked.level_permille is not None:
        level = LevelCheck(day=worked.day, circuit=worked.circuit, permille=worked.level_permille, odometer_steps=worked.odometer_steps)
    return record_entry(
        scope,
        vehicle,
        entry,
        stock_out=_stock_out(scope, worked),
        waste_in=_waste_in(scope, worked),
        level=level,
        follow_ups=() if card else worked.follow_ups,
        force=force,
        today=today,
    )


def _product_name(scope: Scope, key: str) -> str:
    """Return the name and the label of an oil, as the daybook keeps them."""
    shelf = questions.shelf(scope)
    if not key or not shelf or not shelf.oils:
        return key.strip()
    if key not in shelf.oils:
        raise InputError("enter.product", where="product", found=key, expected=tuple(shelf.oils))
    return f"{shelf.oils[key].name} ({shelf.oils[key].label.text})"


def _stock_out(scope: Scope, worked: Worked) -> tuple[StockMove, ...]:
    if not worked.product or not worked.volume_in_ml:
        return ()
    there = min(worked.volume_in_ml, questions.stock(scope).get(worked.product, 0))
    return (StockMove(day=worked.day, item=worked.product, amount=-there, unit="mL", why="used"),) if there else ()


def _waste_in(scope: Scope, worked: Worked) -> tuple[WasteMove, ...]:
    if not worked.can:
        return ()
    shelf = questions.shelf(scope)
    known = shelf.cans if shelf else {}
    if worked.can not in known:
        raise InputError("enter.can", where="can", found=worked.can, expected=tuple(known))
    amount_ml = worked.volume_out_ml
    return (WasteMove(day=worked.day, can=worked.can, amount_ml=amount_ml, stream=str(known[worked.can].stream)),) if amount_ml else ()

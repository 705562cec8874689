"""The daybook entry and all that comes with it, in one transaction."""

from __future__ import annotations

import dataclasses
import datetime as dt
import difflib
import uuid
from collections.abc import Iterator, Sequence
from uuid import UUID

from twomarks import units
from twomarks.errors import InputError
from twomarks.keeping.card_text import card_of
from twomarks.keeping.questions.values import current
from twomarks.keeping.questions.vehicles import sheet, vehicle_row
from twomarks.keeping.records.documents import VehicleRow
from twomarks.keeping.records.entries import EntryRow, FollowUpRow
from twomarks.keeping.records.ledger import LedgerRow, ledgers
from twomarks.keeping.records.levels import LevelCheckRow
from twomarks.keeping.records.noticed import SnagRow
from twomarks.keeping.records.readings import ReadingRow
from twomarks.keeping.records.workdays import CardRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.filled import keep_filled
from twomarks.keeping.services.readings import refuse_out_of_order
from twomarks.keeping.services.shelf import moves
from twomarks.keeping.services.writing import NewRow, append, latest, not_in_the_future, withdraw
from twomarks.keeping.storing import service
from twomarks.keeping.values import FollowUp, Kept
from twomarks.model.ledger import Entry, LevelCheck, Reading, StockMove, WasteMove
from twomarks.planning.card import CardFollowUp, JobCard
from twomarks.words import Wording

__all__ = ["record_entry", "withdraw_entry"]


@service
def record_entry(
    scope: Scope,
    vehicle: str,
    entry: Entry,
    *,
    stock_out: Sequence[StockMove] = (),
    waste_in: Sequence[WasteMove] = (),
    level: LevelCheck | None = None,
    follow_ups: Sequence[CardFollowUp] = (),
    force: bool = False,
    today: dt.date | None = None,
) -> Kept:
    """Keep what was done, with the odometer reading, the stock that was used, the waste, the level and the follow-ups.

    Figures taken down during the work become facts of the vehicle sheet where it has none.

    Each of `entry.follow_ups` is the id of a follow-up on the entry's card, or a check in the owner's own words. An
    entry that names a root is the whole new content of that entry, and what came with the old one is withdrawn.

    Raises
    ------
    InputError
        Where a day has not come yet, the odometer lies below the last good reading and `force` was not given, or the
        vehicle, the card or an item is unknown, or the card is another vehicle's or was entered before.
    """
    row = vehicle_row(scope, vehicle)
    card_row, card = _card(scope, entry, row)
    entry = dataclasses.replace(entry, vehicle=str(row.document.document))
    moved: list[StockMove | WasteMove] = [*stock_out, *waste_in]
    not_in_the_future([entry, *moved, *([level] if level else [])], today)
    _refuse_unknown_items(scope, vehicle, entry)
    _refuse_unknown_snags(scope, row, entry)
    public_id = uuid.uuid4()
    root = entry.root or public_id
    if entry.root is not None:
        latest(scope, EntryRow, entry.root)
        withdraw(scope, _companions(scope, entry.root))
    companions: list[NewRow] = []
    if entry.odometer_steps is not None:
        reading = Reading(
            day=entry.day, day_from=entry.day_from, day_to=entry.day_to, at=entry.at, zone=entry.zone, steps=entry.odometer_steps
        )
        if not force:
            refuse_out_of_order(scope, vehicle, reading, today=today)
        companions.append(NewRow(row=ReadingRow, event=reading, links={"vehicle": row}, part_of=root))
    if level is not None:
        companions.append(NewRow(row=LevelCheckRow, event=level, links={"vehicle": row}, part_of=root))
    companions += moves(scope, moved, part_of=root)
    asked = [*_asked(entry, card), *follow_ups]
    companions += [NewRow(row=FollowUpRow, event=_follow_up(entry, follow_up), links={"vehicle": row}, part_of=root) for follow_up in asked]
    head, *_ = append(
        scope, [NewRow(row=EntryRow, event=entry, public_id=public_id, links={"vehicle": row, "card": card_row}), *companions]
    )
    keep_filled(scope, row.name, entry.figures, day=entry.day)
    return Kept(head.root, head.number, EntryRow.objects.get(household=scope.household, number=head.number).chain)


@service
def withdraw_entry(scope: Scope, root: UUID) -> None:
    """Say that an entry was never so: it and all that came with it no longer count, and stay readable."""
    withdraw(scope, [latest(scope, EntryRow, root), *_companions(scope, root)])


def _companions(scope: Scope, root: UUID) -> list[LedgerRow]:
    return [row for table in ledgers() for row in current(scope, table, part_of=root)]


def _card(scope: Scope, entry: Entry, vehicle: VehicleRow) -> tuple[CardRow | None, JobCard | None]:
    """Return the card that was worked: one of this vehicle, and entered once."""
    if entry.card is None:
        return None, None
    row = CardRow.objects.filter(household=scope.household, public_id=entry.card).select_related("vehicle").first()
    if row is None:
        raise InputError("keeping.card_unknown", found=str(entry.card))
    if row.vehicle != vehicle:
        raise InputError("keeping.card_of_another", found=row.title, where=vehicle.name, expected=row.vehicle.name)
    earlier = current(scope, EntryRow, card=row).exclude(root=entry.root).first()
    if earlier is not None:
        raise InputError("keeping.card_entered", found=row.title, where=vehicle.name, day=earlier.day, number=earlier.number)
    return row, card_of(row.text)


def _refuse_unknown_items(scope: Scope, vehicle: str, entry: Entry) -> None:
    items = sheet(scope, vehicle).items
    if not items:
        return
    known = {str(key) for key in items} | {str(was) for item in items.values() for was in getattr(item, "was", ()) or ()}
    for item in entry.items:
        if item not in known:
            near = difflib.get_close_matches(item, known, 1, 0.5)
            raise InputError("keeping.item_unknown", where=vehicle, found=item, nearest=near[0] if near else "")


def _refuse_unknown_snags(scope: Scope, vehicle: VehicleRow, entry: Entry) -> None:
    known = set(current(scope, SnagRow, vehicle=vehicle).values_list("root", flat=True)) if entry.snags else set()
    for root in entry.snags:
        if root not in known:
            raise InputError("keeping.row_unknown", found=str(root), what=SnagRow.ledger)


def _asked(entry: Entry, card: JobCard | None) -> Iterator[CardFollowUp]:
    on_card = {follow_up.id: follow_up for follow_up in card.follow_ups} if card else {}
    for name in entry.follow_ups:
        yield on_card.get(name) or CardFollowUp(id=name, words=Wording(name))


def _follow_up(entry: Entry, asked: CardFollowUp) -> FollowUp:
    due_odometer = None
    if asked.after_km is not None and entry.odometer_steps is not None:
        due_odometer = entry.odometer_steps + units.steps(asked.after_km, kind="distance")
    return FollowUp(
        day=entry.day,
        vehicle=entry.vehicle,
        words=asked.words,
        due_day=None if asked.after_days is None else entry.day + dt.timedelta(days=round(asked.after_days)),
        due_odometer_steps=due_odometer,
    )

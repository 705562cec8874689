"""How a row gets into a ledger: its number, its payload text and its link in the chain, in the writing transaction."""

from __future__ import annotations

import dataclasses
import datetime as dt
import uuid
from collections.abc import Iterator, Mapping, Sequence
from typing import Any
from uuid import UUID

from django.db import connection, models

from twomarks.errors import InputError
from twomarks.keeping import clock
from twomarks.keeping.payload import chained, payload_of
from twomarks.keeping.questions.values import event_of
from twomarks.keeping.records.ledger import LedgerRow
from twomarks.keeping.scope import Scope
from twomarks.model.ledger import Event

__all__ = ["NewRow", "Written", "append", "latest", "not_in_the_future", "withdraw"]

_FROM_BASE = ("day", "day_from", "day_to", "at", "zone", "text", "note")


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class NewRow:
    """A row to be written: the event, and the rows of other tables that it points at, by column."""

    row: type[LedgerRow]
    event: Event
    links: Mapping[str, models.Model | None] = dataclasses.field(default_factory=dict)
    public_id: UUID | None = None
    part_of: UUID | None = None
    void: bool = False


@dataclasses.dataclass(frozen=True, slots=True)
class Written:
    """A row that was written: its own id, the root that corrections name, its number."""

    id: UUID
    root: UUID
    number: int


def append(scope: Scope, rows: Sequence[NewRow]) -> tuple[Written, ...]:
    """Write rows in this order; a row whose event names a root corrects what stands under it."""
    if not rows:
        return ()
    _refuse_strange_roots(scope, rows)
    first, head = _numbers(scope, len(rows))
    at = clock.now()
    made: list[LedgerRow] = []
    for number, new in enumerate(rows, first):
        public_id = new.public_id or uuid.uuid4()
        root = new.event.root or public_id
        links = {f"{column}_id": None if linked is None else linked.pk for column, linked in new.links.items()}
        row = new.row(
            public_id=public_id,
            household_id=scope.household,
            person_id=scope.person,
            number=number,
            root=root,
            part_of=new.part_of,
            void=new.void,
            written_at=at,
            **{column: getattr(new.event, column) for column in _FROM_BASE},
            **links,
            **new.row.columns(new.event),
        )
        row.payload = payload_of(row, new.event)
        row.chain = head = chained(head, row.payload)
        made.append(row)
    for kind in dict.fromkeys(new.row for new in rows):
        kind._default_manager.bulk_create([row for row in made if type(row) is kind], batch_size=500)
    with connection.cursor() as cursor:
        cursor.execute("UPDATE household SET chain_head = %s WHERE id = %s", [head, _key(scope.household)])
    return tuple(Written(row.public_id, row.root, row.number) for row in made)


def latest(scope: Scope, row: type[LedgerRow], root: UUID) -> LedgerRow:
    """Return the row that holds now under `root`, or refuse."""
    found = row._default_manager.filter(household=scope.household, root=root).order_by("-number").first()
    if found is None or found.void:
        raise InputError("keeping.row_unknown", found=str(root), what=row.ledger)
    return found


def withdraw(scope: Scope, rows: Sequence[LedgerRow]) -> tuple[Written, ...]:
    """Write a void row over each of these: what they said no longer counts, and stays readable."""
    links = {"vehicle", "card"}
    return append(
        scope,
        [
            NewRow(
                row=type(row),
                event=event_of(row),
                links={field.name: getattr(row, field.name) for field in row._meta.fields if field.name in links},
                part_of=row.part_of,
                void=True,
            )
            for row in rows
        ],
    )


def not_in_the_future(events: Sequence[Event], today: dt.date | None) -> None:
    """Refuse an event on a day that has not come yet."""
    last = today or clock.today()
    for event in events:
        if event.day > last or (event.day_to is not None and event.day_to > last):
            raise InputError("keeping.day_to_come", found=max(event.day, event.day_to or event.day), expected=last)


def _numbers(scope: Scope, count: int) -> tuple[int, str]:
    """Raise the household's counter; its row is locked until the transaction ends, so number and commit order agree."""
    with connection.cursor() as cursor:
        cursor.execute(
            "UPDATE household SET last_number = last_number + %s WHERE id = %s "
            "AND EXISTS (SELECT 1 FROM person WHERE person.id = %s AND person.household_id = household.id) "
            "RETURNING last_number, chain_head",
            [count, _key(scope.household), _key(scope.person)],
        )
        found = cursor.fetchone()
    if found is None:
        raise InputError("keeping.scope_unknown", found=str(scope.person))
    return int(found[0]) - count + 1, str(found[1])


def _key(value: UUID) -> Any:
    return value if connection.features.has_native_uuid_field else value.hex


def _refuse_strange_roots(scope: Scope, rows: Sequence[NewRow]) -> None:
    for row, group in _by_ledger(rows):
        named = {new.event.root for new in group if new.event.root is not None}
        if not named:
            continue
        known = set(row._default_manager.filter(household=scope.household, root__in=named).values_list("root", flat=True))
        for root in sorted(named - known):
            raise InputError("keeping.row_unknown", found=str(root), what=row.ledger)


def _by_ledger(rows: Sequence[NewRow]) -> Iterator[tuple[type[LedgerRow], list[NewRow]]]:
    for row in dict.fromkeys(new.row for new in rows):
        yield row, [new for new in rows if new.row is row]

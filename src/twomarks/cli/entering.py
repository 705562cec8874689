"""What `enter` was told, beside the work: what happened, what was measured and noticed, what a workshop asks, how it is driven."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from uuid import UUID

from twomarks import units
from twomarks.cli.chosen import nearest
from twomarks.cli.measured_words import measured_in
from twomarks.errors import InputError

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.ledger import Answer, HowBad, Measurement, Quote, Snag, VehicleEvent
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.words import Reader

__all__ = ["Told", "answers_told", "closed_snags", "events_told", "measurements_told", "money_told", "quotes_told", "snags_told"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """For whom and for which day things are entered."""

    vehicle: str
    vehicle_id: str
    sheet: VehicleSheet
    reader: Reader
    day: dt.date
    odometer_steps: int | None = None


def events_told(told: Told, words: Sequence[str]) -> tuple[VehicleEvent, ...]:
    """Return what happened, by the words of one tap or of the sheet."""
    from twomarks.model.ledger import VehicleEvent
    from twomarks.planning.due.events import known_events

    known = known_events(told.sheet)
    found = []
    for word in words:
        key = "_".join(word.split()).replace("-", "_").casefold()
        event = next((one for one in known if one.casefold() in (key, word.strip().casefold())), None)
        if event is None:
            raise InputError("enter.event", where="--event", found=word, nearest=nearest(key, known), expected=known)
        found.append(VehicleEvent(day=told.day, vehicle=told.vehicle, event=event, odometer_steps=told.odometer_steps, text=word))
    return tuple(found)


def measurements_told(told: Told, texts: Sequence[str]) -> tuple[Measurement, ...]:
    """Return the measured values."""
    from twomarks.model.ledger import Measurement

    found = []
    for text in texts:
        item, place, value = measured_in(text, told.sheet, told.reader)
        found.append(
            Measurement(
                day=told.day,
                vehicle=told.vehicle,
                item=item,
                place=place,
                kind=value.kind,
                steps=value.steps,
                odometer_steps=told.odometer_steps,
                text=text,
            )
        )
    return tuple(found)


def snags_told(told: Told, texts: Sequence[str], *, where: str, how_bad: HowBad) -> tuple[Snag, ...]:
    """Return what was noticed."""
    from twomarks.model.ledger import Snag

    return tuple(Snag(day=told.day, vehicle=told.vehicle, what=text.strip(), where=where.strip(), how_bad=how_bad) for text in texts)


def closed_snags(scope: Scope, told: Told, numbers: Sequence[int]) -> tuple[UUID, ...]:
    """Return the roots of the open snags with these row numbers."""
    from twomarks.keeping import questions

    still_open = {snag.number: snag.root for snag in questions.snags(scope, told.vehicle)} if numbers else {}
    roots = []
    for number in numbers:
        root = still_open.get(number)
        if root is None:
            raise InputError("enter.no_snag", where="--closes", found=number, expected=tuple(still_open))
        roots.append(root)
    return tuple(roots)


def money_told(told: Told, text: str | None, *, where: str) -> tuple[int | None, str]:
    """Return an amount in minor units with its currency."""
    if text is None:
        return None, ""
    return units.minor_of(text, currency=told.reader.currency, decimal=told.reader.decimal, where=where)


def quotes_told(told: Told, texts: Sequence[str], *, shop: str) -> tuple[Quote, ...]:
    """Return what a workshop asks: the key of an item, then the amount."""
    from twomarks.model.ledger import Quote

    found = []
    for text in texts:
        item, _, amount = text.strip().partition(" ")
        if not amount.strip():
            raise InputError("enter.quote", where="--quote", found=text, example=f"engine_oil_and_filter 189 {told.reader.currency}")
        minor, currency = money_told(told, amount, where="--quote")
        assert minor is not None
        found.append(
            Quote(day=told.day, vehicle=told.vehicle, item=item, amount_minor=minor, currency=currency, shop=shop.strip(), text=text)
        )
    return tuple(found)


def answers_told(told: Told, uses: Sequence[str], own_time: str | None) -> tuple[Answer, ...]:
    """Return how the vehicle is driven, and what an hour of the owner's own time counts, as answers."""
    from twomarks.keeping.questions.cost import OWN_TIME
    from twomarks.keeping.questions.noticed import use_question
    from twomarks.model.ledger import Answer
    from twomarks.model.service_items import CONDITIONS
    from twomarks.planning.due.use import HOW_OFTEN

    found = []
    for text in uses:
        condition, _, often = text.strip().replace("-", "_").rpartition(" ")
        condition = "_".join(condition.split()).casefold()
        if condition not in CONDITIONS or often.casefold() not in HOW_OFTEN:
            raise InputError("enter.use", where="--use", found=text, expected=CONDITIONS, how_often=HOW_OFTEN)
        found.append(Answer(day=told.day, question=use_question(told.vehicle_id, condition), word=often.casefold(), text=text))
    if own_time is not None:
        minor, currency = money_told(told, own_time, where="--own-time")
        assert minor is not None
        found.append(Answer(day=told.day, question=OWN_TIME, word=f"{units.amount_of(minor, currency)} {currency}", text=own_time))
    return tuple(found)

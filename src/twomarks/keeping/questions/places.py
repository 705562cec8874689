"""Where the household's vehicles stand, and how cold and hot it gets there."""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from twomarks.keeping.derived import derived
from twomarks.keeping.questions.vehicles import document_of
from twomarks.keeping.records.documents import RevisionRow
from twomarks.keeping.records.household import HomePlaceRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question
from twomarks.keeping.values import HomePlace
from twomarks.trade.climate import DesignTemperature

if TYPE_CHECKING:
    from twomarks.model.climate import ClimateRecord

__all__ = ["DesignTemperatures", "climate", "design_temperatures", "place"]


@dataclass(frozen=True, slots=True)
class DesignTemperatures:
    """The coldest start and the hottest day to reckon with [C] in the months from `from_day` to `to_day`."""

    coldest: DesignTemperature
    hottest: DesignTemperature
    from_day: dt.date
    to_day: dt.date


@question
def place(scope: Scope) -> HomePlace | None:
    """Return the home place, None where the household has not said."""
    row = HomePlaceRow.objects.filter(household=scope.household).first()
    if row is None:
        return None
    return HomePlace(name=row.name, latitude=row.latitude, longitude=row.longitude, zone=row.zone, climate=row.climate)


@question
def climate(scope: Scope) -> ClimateRecord | None:
    """Return the climate record of the home place, None where there is none."""
    found = _record(scope, place(scope))
    return None if found is None else _loaded(found)


@question
def design_temperatures(scope: Scope, from_day: dt.date, to_day: dt.date) -> DesignTemperatures | None:
    """Return the temperatures to reckon with between two days, None where the place has no climate record.

    The span is widened to whole months, so that the answer stays the same within a month and is worked out once.
    """
    at = place(scope)
    record = _record(scope, at)
    if at is None or record is None:
        return None
    first = from_day.replace(day=1)
    last = to_day.replace(day=calendar.monthrange(to_day.year, to_day.month)[1])
    southern = at.latitude < 0

    def work_out() -> DesignTemperatures:
        return _worked_out(_loaded(record), first, last, southern)

    return derived(
        scope,
        "design temperatures",
        DesignTemperatures,
        work_out,
        about=f"{first} {last}",
        documents=[record.sha256],
        further=["southern" if southern else "northern"],
        from_ledgers=False,
    )


def _record(scope: Scope, at: HomePlace | None) -> RevisionRow | None:
    """Return the latest revision of the place's record, its long text not yet fetched."""
    if at is None or at.climate is None:
        return None
    rows = RevisionRow.objects.filter(household=scope.household, document__document=at.climate)
    return rows.select_related("document").defer("text").latest("number")


def _loaded(record: RevisionRow) -> ClimateRecord:
    document: ClimateRecord = document_of(record.text, record.document.name)
    return document


def _worked_out(record: ClimateRecord, first: dt.date, last: dt.date, southern: bool) -> DesignTemperatures:
    from twomarks.trade.climate import coldest_start, hottest_day
    from twomarks.trade.daily_record import daily_record

    days, minima, maxima = zip(*record.days(), strict=True)
    # A document was read with the few crossed days that real records hold; here they are left out and named.
    usable = daily_record(days=days, minima_c=minima, maxima_c=maxima, crossed="left out")
    return DesignTemperatures(
        coldest_start(record=usable, from_day=first, to_day=last, southern=southern),
        hottest_day(record=usable, from_day=first, to_day=last, southern=southern),
        first,
        last,
    )

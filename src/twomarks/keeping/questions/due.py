"""What is due on a vehicle, and when; and all that this rests on, gathered once."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from twomarks.keeping.questions.daybook import done
from twomarks.keeping.questions.noticed import measurements, stated_use, vehicle_events
from twomarks.keeping.questions.readings import readings
from twomarks.keeping.questions.shelf import answers
from twomarks.keeping.questions.vehicles import sheet
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

if TYPE_CHECKING:
    from twomarks.model.ledger import Measurement
    from twomarks.model.vehicle import VehicleSheet
    from twomarks.planning.due import Done, DueItem, Happening
    from twomarks.planning.usage import History, UsageForecast

__all__ = ["Outlook", "due", "outlook"]


@dataclass(frozen=True, slots=True)
class Outlook:
    """A vehicle on a day: its sheet, its judged odometer readings and their forecast, the other counters, what was done.

    Also what happened to it, what was measured on it, and how its owner says it is driven.
    """

    sheet: VehicleSheet
    history: History
    forecast: UsageForecast
    counters: Mapping[str, UsageForecast]
    done: Mapping[str, Done]
    answers: Mapping[str, str]
    today: dt.date
    events: tuple[Happening, ...] = ()
    measurements: tuple[Measurement, ...] = ()
    stated: Mapping[str, str] = field(default_factory=dict)

    @property
    def due(self) -> tuple[DueItem, ...]:
        """Every service item: those past their limit first, then by day, those not known last."""
        from twomarks.planning.due import due_items
        from twomarks.planning.general import with_general

        document, known = with_general(self.sheet, done=self.done, answers=self.answers, today=self.today)
        return due_items(
            document,
            done=known,
            forecast=self.forecast,
            today=self.today,
            counters=self.counters,
            events=self.events,
            measurements=self.measurements,
            stated=self.stated,
            kept_since=min((one.day for one in self.done.values()), default=None),
        )


@question
def outlook(scope: Scope, vehicle: str, today: dt.date) -> Outlook:
    """Return what is known of a vehicle on a day, each row read once."""
    from twomarks.planning.due import Happening
    from twomarks.planning.usage import forecast, judge, prior_of

    document = sheet(scope, vehicle)
    kept = readings(scope, vehicle)
    judged = judge([one for one in kept if one.counter == "odometer"], today=today)
    prior = prior_of(kind=document.kind, fuel=document.engine.fuel)
    return Outlook(
        sheet=document,
        history=judged,
        forecast=forecast(judged, today=today, prior=prior),
        counters={
            name: forecast(judge([one for one in kept if one.counter == name], today=today), today=today)
            for name in document.counters
            if name != "odometer"
        },
        done=done(scope, vehicle),
        answers={} if document.items else answers(scope),
        today=today,
        events=tuple(Happening(one.event, one.day_to or one.day, one.number) for one in vehicle_events(scope, vehicle)),
        measurements=measurements(scope, vehicle) if any(item.measured for item in document.items.values()) else (),
        stated=stated_use(scope, vehicle),
    )


@question
def due(scope: Scope, vehicle: str, today: dt.date) -> tuple[DueItem, ...]:
    """Return every service item of a vehicle: those past their limit first, then by day, those not known last."""
    return outlook(scope, vehicle, today).due

"""`twomarks cost`: what servicing costs, by workday and by distance, at home against the workshop, and at other intervals."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import TYPE_CHECKING

import click

from twomarks import units
from twomarks.cli.options import Asking, asks, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.keeping.questions import Cost, VehicleCost
    from twomarks.planning.cost import AgainstWorkshop, IntervalCost, WorkdayCost

__all__ = ["cost"]


@click.command()
@kept_vehicle_option
@click.option(
    "--rate", metavar="AMOUNT", help="What an hour of your own time counts in this answer; left out, what you entered, else nothing."
)
@asks
def cost(asking: Asking, vehicle: str | None, rate: str | None) -> None:
    """Say what servicing has cost on one vehicle, or on all.

    Materials count as far as they were used, not as they were bought: what is left on the shelf is still yours. What
    each 1,000 km costs is said once a full year has been kept.
    """
    scope = asking.scope()
    from twomarks.keeping import questions

    today, reader = asking.today(), questions.reader(scope)
    names = None if vehicle is None else (questions.vehicle(scope, vehicle).name,)
    hourly = None
    if rate is not None:
        minor, currency = units.minor_of(rate, currency=reader.currency, decimal=reader.decimal, where="--rate")
        hourly = units.amount_of(minor, currency)
    found = questions.cost(scope, names, today=today, rate=hourly)
    if asking.as_json:
        from twomarks.exchange.answers.cost import cost_answer

        Terminal.json(cost_answer(found, today, reader))
        return
    _say(Terminal(reader), found, today)


def _say(terminal: Terminal, found: Cost, today: dt.date) -> None:
    terminal.line(say("cost_answer.basis", rate=_money(found.rate, found.currency) if found.rate else None), indent=0)
    if not found.vehicles:
        terminal.line(say("answer.no_vehicle"), indent=0)
    for one in found.vehicles:
        terminal.heading("answer.vehicle_on", vehicle=one.vehicle, day=today)
        _say_vehicle(terminal, one, found.currency)
    terminal.heading("cost_answer.workdays")
    if not found.workdays:
        terminal.line(say("cost_answer.no_work"))
    for day in found.workdays:
        _say_day(terminal, day, found.currency)


def _money(amount: Decimal, currency: str) -> Figure:
    return Figure(amount, currency)


def _say_vehicle(terminal: Terminal, one: VehicleCost, currency: str) -> None:
    per = one.per_distance
    if per.amount is None or per.total is None or per.distance_km is None:
        terminal.line(say("cost_answer.not_yet", why=per.why_not))
    else:
        terminal.line(
            say(
                "cost_answer.per_distance",
                amount=_money(per.amount, currency),
                span=Figure(1000, "km"),
                total=_money(per.total, currency),
                driven=Figure(per.distance_km, "km"),
                since=per.since,
                left_out=per.left_out or None,
            )
        )
    for against in one.against:
        terminal.line(_against(against, one.items.get(against.item, against.item), currency))
    for interval in one.intervals:
        terminal.line(_a_year(interval, one.items.get(interval.item, interval.item), currency))
        terminal.lines(_other(other.limit, other.change, currency) for other in interval.others)
    if one.intervals:
        terminal.line(say("cost_answer.handbook"))


def _against(against: AgainstWorkshop, item: str, currency: str) -> Message:
    quote = _money(against.quote, against.quote_currency)
    if against.saved is None or against.home is None or against.home.total is None:
        return say("cost_answer.quote_alone", item=item, quote=quote, shop=against.shop or None, why=against.why_not)
    key = "cost_answer.saved" if against.saved >= 0 else "cost_answer.dearer"
    home = _money(against.home.total, currency)
    return say(
        key, item=item, quote=quote, shop=against.shop or None, home=home, day=against.home.day, saved=_money(abs(against.saved), currency)
    )


def _a_year(interval: IntervalCost, item: str, currency: str) -> Message:
    return say(
        "cost_answer.a_year",
        item=item,
        each=_money(interval.each, currency),
        times=f"{interval.times_a_year:.1f}",
        a_year=_money(interval.a_year, currency),
        first=say(f"due.binds_{interval.first}"),
    )


def _other(limit: Figure, change: Decimal, currency: str) -> Message:
    key = "cost_answer.no_change" if change == 0 else "cost_answer.more" if change > 0 else "cost_answer.less"
    return say(key, limit=limit, change=_money(abs(change), currency))


def _say_day(terminal: Terminal, day: WorkdayCost, currency: str) -> None:
    total = day.total
    titles = tuple(say("cost_answer.work", vehicle=work.vehicle, title=work.title or None) for work in day.works)
    minutes = Figure(day.minutes, "min") if day.minutes else None
    time = _money(day.time, currency) if day.time else None
    if total is None:
        terminal.line(say("cost_answer.day_unknown", day=day.day, works=titles, minutes=minutes))
    else:
        key = "cost_answer.day" if day.complete else "cost_answer.day_at_least"
        terminal.line(say(key, day=day.day, works=titles, total=_money(total, currency), minutes=minutes, time=time))
    for work in day.works:
        terminal.lines((*work.materials.reckoned, *(one for one in work.materials.unpriced if one.key != "cost.nothing_noted")))

"""`twomarks day`: in what order to work on a day, what waits meanwhile, and by when the first plug must be open."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, day_type, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.errors import InputError
from twomarks.words import Figure, say

if TYPE_CHECKING:
    from twomarks.keeping.questions.day_plan import DayAtHome
    from twomarks.planning.day.plan import DayPlan

__all__ = ["day"]

START = "09:00"


@click.command()
@click.option("--day", "on_day", type=day_type, metavar="DATE", help="The day to plan; left out, today.")
@kept_vehicle_option
@click.option("--item", "items", multiple=True, metavar="KEY", help="A service item of the day; again for more. Left out: what is due.")
@click.option("--start", default=START, show_default=True, metavar="HH:MM", help="When the work begins.")
@click.option("--hands", type=click.IntRange(1, 2), default=1, show_default=True, help="How many people work.")
@asks
def day(asking: Asking, on_day: dt.date | None, vehicle: str | None, items: tuple[str, ...], start: str, hands: int) -> None:
    """Put the steps of all jobs of a day in one order: waits are used, set-ups shared, nothing is parted that must stay together.

    The order is rehearsed as one procedure. Times are windows; the second lane shows what waits by itself.
    """
    scope = asking.scope()
    from twomarks.keeping import questions
    from twomarks.keeping.questions.day_plan import day_plan_of

    begin = _minutes(start)
    today = asking.today()
    names = (questions.vehicle(scope, vehicle).name,) if vehicle else ()
    reader = questions.reader(scope)
    found = day_plan_of(scope, on_day or today, today, names=names, items=items, pairs=hands)
    if asking.as_json:
        from twomarks.exchange.answers.day import day_answer

        Terminal.json(day_answer(found, today, reader))
    else:
        _say(Terminal(reader), found, begin)


def _minutes(text: str) -> int:
    try:
        at = dt.time.fromisoformat(text)
    except ValueError:
        raise InputError("day.start", where="--start", found=text, example=START) from None
    return at.hour * 60 + at.minute


def _clock(minutes: float) -> str:
    whole = round(minutes) % (24 * 60)
    return f"{whole // 60:02d}:{whole % 60:02d}"


def _say(terminal: Terminal, found: DayAtHome, begin: int) -> None:
    plan = found.plan
    if plan is None:
        terminal.line(say("day.nothing", day=found.day), indent=0)
        return
    terminal.heading("day.head", day=found.day)
    for vehicle, _, name in found.jobs:
        terminal.line(say("day.job", vehicle=vehicle, job=name))
    terminal.heading("day.order")
    for bar in plan.bars:
        key = "day.waits" if bar.lane == "waiting" else "day.works"
        times = {"begin": _clock(begin + bar.begin_min), "end": _clock(begin + bar.end_min)}
        terminal.line(say(key, vehicle=bar.vehicle, what=bar.words, **times), indent=2 if bar.lane == "hands" else 10)
    _sum_up(terminal, found, plan, begin)


def _sum_up(terminal: Terminal, found: DayAtHome, plan: DayPlan, begin: int) -> None:
    terminal.heading("day.summary")
    terminal.line(say("day.length", length=_min(plan.length_min), changes=plan.changes, end=_clock(begin + plan.length_min)))
    terminal.line(say("day.shortest", length=_min(plan.shortest_min), changes=plan.changes_of_shortest))
    terminal.line(say("day.proven") if plan.proven else say("day.gap", least=_min(plan.bound_min)))
    terminal.line(say("day.saved", lists=_min(plan.one_after_another_min), saved=_min(plan.saved_min)))
    if found.dusk_min is not None and (latest := plan.not_after_min(found.dusk_min)) is not None:
        terminal.line(say("day.not_after", latest=_clock(latest), dusk=_clock(found.dusk_min)))
    if plan.one_by_one:
        terminal.line(say("day.one_by_one"))
    for vehicle, one in plan.new:
        terminal.line(say("day.new", vehicle=vehicle, expected=one.expected, remedy=one.remedy))
    for vehicle, name in found.too_many:
        terminal.line(say("day.another_day", vehicle=vehicle, job=name))


def _min(minutes: float) -> Figure:
    return Figure(round(minutes), "min")

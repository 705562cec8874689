"""`twomarks workdays`: which days to work on, what goes together on each, and why."""

from __future__ import annotations

import datetime as dt
import sys
import time
from typing import TYPE_CHECKING, Self

import click

from twomarks.cli.options import Asking, asks, day_type
from twomarks.cli.said import Terminal
from twomarks.words import Figure, say

if TYPE_CHECKING:
    from twomarks.keeping.questions.workday_plan import HouseholdPlan
    from twomarks.planning.workdays import Standing

__all__ = ["workdays"]

SHOWN_AFTER_S = 1.0
STEPS = 100


@click.command()
@click.option("--months", type=click.IntRange(1, 36), default=12, show_default=True, help="How far ahead to plan.")
@click.option("--free", type=day_type, multiple=True, metavar="DATE", help="A free day; give it again for more. Left out: Saturdays.")
@asks
def workdays(asking: Asking, months: int, free: tuple[dt.date, ...]) -> None:
    """Propose workdays for all vehicles, with what goes together on each and why.

    The plan costs the least effort that was found; how far it may be from the best possible one is said with it.
    """
    scope = asking.scope()
    from twomarks.keeping import questions
    from twomarks.keeping.questions.workday_plan import workday_plan

    reader = questions.reader(scope)
    with _Bar() as bar:
        found = workday_plan(scope, asking.today(), months=months, free=free, watch=bar.moved)
    if asking.as_json:
        from twomarks.exchange.answers.workdays import workdays_answer

        click.echo(workdays_answer(found, reader).model_dump_json(indent=2, exclude_none=True))
    else:
        _say(Terminal(reader), found)


class _Bar:
    """A bar on the error stream once the work takes over a second, where that is a terminal."""

    def __init__(self) -> None:
        self._began = time.monotonic()
        self._drawn = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_error: object) -> None:
        if self._drawn:
            click.echo("\r" + " " * (STEPS // 2 + 8) + "\r", nl=False, err=True)

    def moved(self, standing: Standing) -> bool:
        """Draw how far the work has come; it always goes on."""
        if sys.stderr.isatty() and time.monotonic() - self._began > SHOWN_AFTER_S:
            done = max(1, int(STEPS * standing.share))
            if done > self._drawn:
                self._drawn = done
                click.echo(f"\r[{'#' * (done // 2):<{STEPS // 2}}] {done:3d} %", nl=False, err=True)
        return True


def _say(terminal: Terminal, found: HouseholdPlan) -> None:
    plan = found.plan
    if not plan.workdays:
        terminal.line(say("workdays.none", until=plan.until), indent=0)
    for workday in plan.workdays:
        terminal.heading("workdays.day", day=workday.day)
        by_vehicle: dict[str, list[str]] = {}
        for job in workday.jobs:
            by_vehicle.setdefault(job.vehicle, []).append(job.name)
        for vehicle, names in by_vehicle.items():
            terminal.line(say("workdays.jobs", vehicle=vehicle, jobs=tuple(names)))
        terminal.lines(workday.reasons)
    if plan.workdays:
        terminal.heading("workdays.summary", until=plan.until)
        terminal.line(say("workdays.proven") if plan.proven else say("workdays.gap", gap=_percent(plan.gap)))
        count, alone, soon = len(plan.workdays), plan.on_due_days_count, plan.window_rule_count
        terminal.line(say("workdays.against_due_days", count=count, alone=alone, saved=_hours(plan.on_due_days_min - plan.cost_min)))
        terminal.line(say("workdays.against_rule", count=soon, saved=_hours(plan.window_rule_min - plan.cost_min)))
    for vehicle, name in found.not_known:
        terminal.line(say("workdays.not_known", vehicle=vehicle, job=name))


def _percent(share: float) -> Figure:
    return Figure(max(0.1, round(100.0 * share + 0.05, 1)), "%")


def _hours(minutes: float) -> Figure:
    return Figure(round(minutes / 60.0, 1), "h")

"""The plan of a day: what is worked when, in two lanes, by when the first plug must be open, and what the order saves."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from twomarks.planning.day.merging import Merged, merged
from twomarks.planning.day.problem import Bar, Solution
from twomarks.planning.day.search import Effort
from twomarks.planning.day.tasks import Hands
from twomarks.procedures.bound import Bound
from twomarks.procedures.rehearsal import Finding
from twomarks.words import Wording

__all__ = ["DayBar", "DayJob", "DayPlan", "Hands", "Pace", "day_plan"]

Lane = Literal["hands", "waiting"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How much longer or shorter than written the work may take; common practice, no source, until the owner's own times are known."""

    quick: float = 0.8
    slow: float = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class DayJob:
    """One job of the day: its vehicle, the service item it is for, and its bound procedure."""

    vehicle: str
    item: str
    bound: Bound


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBar:
    """One bar of the plan [min from the start]: a step at work, or its wait. `soonest_min` and `latest_min` follow the pace."""

    lane: Lane
    vehicle: str
    job: str
    step: str
    words: Wording
    place: str
    begin_min: float
    end_min: float
    soonest_min: float
    latest_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPlan:
    """The chosen order with its length, and the shortest that was found with the bound below which none lies [min].

    `one_after_another_min` is what the lists take one after another; `first_opening_min` is when the first plug is undone,
    and `open_for_min` how long it takes from there, at the slow pace, until everything is tight again. `left_out` are steps
    that need no repeating, as vehicle, job and step. `new` is what the rehearsal of the order brings to light beyond that of
    each job; it is empty unless the jobs are worked `one_by_one`.
    """

    bars: tuple[DayBar, ...]
    length_min: float
    shortest_min: float
    bound_min: float
    proven: bool
    changes: int
    changes_of_shortest: int
    one_after_another_min: float
    left_out: tuple[tuple[str, str, str], ...]
    first_opening_min: float | None
    open_for_min: float
    one_by_one: bool
    new: tuple[tuple[str, Finding], ...]
    merged: Mapping[str, Bound]

    @property
    def saved_min(self) -> float:
        """What the order saves against working the lists one after another [min]."""
        return self.one_after_another_min - self.length_min

    def not_after_min(self, dusk_min: float) -> float | None:
        """Return the hour after which the first plug should not be opened, to be done by dusk; both [min after midnight]."""
        return None if self.first_opening_min is None else dusk_min - self.open_for_min


def day_plan(
    jobs: Sequence[DayJob],
    *,
    hands: Hands | None = None,
    pace: Pace | None = None,
    done: Sequence[tuple[str, str, str]] = (),
    effort: Effort | None = None,
    going_on: Callable[[Solution], bool] | None = None,
) -> DayPlan:
    """Return the plan for `jobs`, or for what is left of them where steps are `done`: vehicle, item and step, in their order."""
    names = tuple(dict.fromkeys(job.vehicle for job in jobs))
    by_vehicle = [[job for job in jobs if job.vehicle == name] for name in names]
    worked = [_step(names, by_vehicle, one) for one in done]
    found = merged(
        [[job.bound for job in mine] for mine in by_vehicle],
        hands or Hands(),
        done=[one for one in worked if one is not None],
        effort=effort,
        going_on=going_on,
    )
    return _told(found, by_vehicle, pace or Pace())


def _step(names: Sequence[str], by_vehicle: Sequence[Sequence[DayJob]], one: tuple[str, str, str]) -> tuple[int, str] | None:
    vehicle, item, step = one
    if vehicle not in names:
        return None
    at = names.index(vehicle)
    number = next((number for number, job in enumerate(by_vehicle[at], start=1) if job.item == item), None)
    return None if number is None else (at, f"{number}-{step}")


def _told(found: Merged, by_vehicle: Sequence[Sequence[DayJob]], pace: Pace) -> DayPlan:
    problem, solution = found.tasks.problem, found.solution
    bars = tuple(one for bar in solution.bars for one in _bars(found, by_vehicle, bar, pace))
    lists_min = sum(
        sum(problem.tasks[number].active_min for number in chain if number not in problem.done)
        + sum(_wait_left(found, chain, at) for at, number in enumerate(chain) if number not in problem.done)
        for chain in problem.chains
    )
    blocks = [bar for bar in solution.bars if problem.tasks[bar.task].block]
    first = min((bar.begin_min for bar in blocks), default=None)
    last = max((bar.end_min for bar in blocks), default=0.0)
    return DayPlan(
        bars=bars,
        length_min=solution.length_min,
        shortest_min=solution.shortest_min,
        bound_min=solution.bound_min,
        proven=solution.proven and not found.one_by_one,
        changes=solution.changes,
        changes_of_shortest=solution.changes_of_shortest,
        one_after_another_min=lists_min,
        left_out=tuple(_own(found, by_vehicle, number, step) for number in solution.left_out for step in found.tasks.origins[number].steps),
        first_opening_min=first,
        open_for_min=0.0 if first is None else (last - first) * pace.slow,
        one_by_one=found.one_by_one,
        new=tuple((by_vehicle[at][0].vehicle, one) for at, vehicle in enumerate(found.vehicles) for one in vehicle.new),
        merged={by_vehicle[at][0].vehicle: vehicle.bound for at, vehicle in enumerate(found.vehicles)},
    )


def _wait_left(found: Merged, chain: Sequence[int], at: int) -> float:
    """Return what is left of a wait when the steps within it are worked, as each list has them."""
    tasks = found.tasks.problem.tasks
    if tasks[chain[at]].within:
        return 0.0
    inside = 0.0
    for number in chain[at + 1 :]:
        if not tasks[number].within:
            break
        inside += tasks[number].active_min
    return max(0.0, tasks[chain[at]].wait_min - inside)


def _own(found: Merged, by_vehicle: Sequence[Sequence[DayJob]], number: int, step: str) -> tuple[str, str, str]:
    origin = found.tasks.origins[number]
    job = by_vehicle[origin.vehicle][origin.job]
    return job.vehicle, job.item, step.partition("-")[2]


def _bars(found: Merged, by_vehicle: Sequence[Sequence[DayJob]], bar: Bar, pace: Pace) -> list[DayBar]:
    task, origin = found.tasks.problem.tasks[bar.task], found.tasks.origins[bar.task]
    job = by_vehicle[origin.vehicle][origin.job]
    steps = [job.bound.step(step.partition("-")[2]) for step in origin.steps]
    told = []
    for lane, begin, end in (("hands", bar.begin_min, bar.free_min), ("waiting", bar.free_min, bar.end_min)):
        if lane == "waiting" and end <= begin:
            continue
        told.append(
            DayBar(
                lane="hands" if lane == "hands" else "waiting",
                vehicle=job.vehicle,
                job=job.item,
                step=steps[0].id if lane == "hands" else steps[-1].id,
                words=steps[0].words if lane == "hands" else steps[-1].words,
                place=task.place,
                begin_min=begin,
                end_min=end,
                soonest_min=begin * pace.quick,
                latest_min=begin * pace.slow,
            )
        )
    return told

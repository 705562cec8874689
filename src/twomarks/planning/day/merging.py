"""The jobs of a day merged: an order is searched, rehearsed, and searched again with what the rehearsal has shown to matter."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import permutations

from twomarks.planning.day.joined import Joined, together
from twomarks.planning.day.problem import Bar, Problem, Solution
from twomarks.planning.day.rehearsed import Rehearsed, Told, alone, rehearsed
from twomarks.planning.day.search import Effort, solve
from twomarks.planning.day.tasks import DayTasks, Hands, Strictness, day_tasks
from twomarks.procedures.bound import Bound

__all__ = ["Merged", "merged"]

TRIES = 12
_WORST = ("harm", "damage", "omission", "advice")


@dataclass(frozen=True, slots=True)
class Merged:
    """The order of a day: its tasks, the solution, and for every vehicle the rehearsal of its steps as one procedure.

    `one_by_one` says that no common order was found that a rehearsal leaves alone: the jobs follow one another whole, and
    what their order brings to light stands in the rehearsals as `new`.
    """

    tasks: DayTasks
    solution: Solution
    vehicles: tuple[Rehearsed, ...]
    one_by_one: bool


def merged(
    jobs: Sequence[Sequence[Bound]],
    hands: Hands,
    *,
    done: Sequence[tuple[int, str]] = (),
    effort: Effort | None = None,
    going_on: Callable[[Solution], bool] | None = None,
) -> Merged:
    """Return the order for the `jobs` of every vehicle in which nothing comes to light that no job shows by itself.

    `done` are the steps that were worked already, in their order, each with the number of its vehicle and its name there:
    the rest of the day is planned from now. Where two pairs of hands get into each other's way, one is planned for.
    """
    vehicles = tuple(together(bounds) for bounds in jobs)
    told = tuple(alone(bounds) for bounds in jobs)
    for those in dict.fromkeys((hands, replace(hands, pairs=1))):
        for closely in (True, False):
            found = _refined(vehicles, told, those, closely, done, effort, going_on)
            if found is not None:
                return found
    return _one_by_one(vehicles, told, hands, done)


def _refined(
    vehicles: tuple[Joined, ...],
    told: tuple[frozenset[Told], ...],
    hands: Hands,
    closely: bool,
    done: Sequence[tuple[int, str]],
    effort: Effort | None,
    going_on: Callable[[Solution], bool] | None,
) -> Merged | None:
    asked: frozenset[tuple[int, int, str, str]] = frozenset()
    for _ in range(TRIES):
        tasks = day_tasks(vehicles, hands, strictness=Strictness(closely, asked))
        tasks = _from_now(tasks, done)
        solution = solve(tasks.problem, effort=effort, going_on=going_on)
        if solution is None:
            return None
        played = _played(vehicles, told, tasks, solution.bars)
        if not any(one.new for one in played):
            return Merged(tasks, solution, played, False)
        more = {(at, job, step, name) for at, one in enumerate(played) for job, step, name in one.otherwise}
        if more <= asked:
            return None
        asked |= more
    return None


def _played(vehicles: Sequence[Joined], told: Sequence[frozenset[Told]], tasks: DayTasks, bars: Sequence[Bar]) -> tuple[Rehearsed, ...]:
    return tuple(rehearsed(joined, told[at], *_steps_in_order(tasks, bars, at)) for at, joined in enumerate(vehicles))


def _steps_in_order(tasks: DayTasks, bars: Sequence[Bar], vehicle: int) -> tuple[list[str], dict[str, str]]:
    """Return the steps of one vehicle as they begin, and which of them lie within the wait of another: no time passes by them."""
    names = [step for task in tasks.problem.done if tasks.origins[task].vehicle == vehicle for step in tasks.origins[task].steps]
    during: dict[str, str] = {}
    until, host = 0.0, ""
    for bar in bars:
        origin = tasks.origins[bar.task]
        if origin.vehicle != vehicle:
            continue
        names += origin.steps
        if bar.end_min <= until:
            during |= {name: host for name in origin.steps if tasks.problem.tasks[bar.task].wait_min == 0.0}
        if bar.end_min > bar.free_min and bar.end_min > until:
            until, host = bar.end_min, origin.steps[-1]
    return names, during


def _from_now(tasks: DayTasks, done: Sequence[tuple[int, str]]) -> DayTasks:
    """Return the tasks of the day with those that were worked marked as such."""
    if not done:
        return tasks
    by_step = {(origin.vehicle, step): number for number, origin in enumerate(tasks.origins) for step in origin.steps}
    worked = tuple(dict.fromkeys(by_step[one] for one in done if one in by_step))
    return replace(tasks, problem=replace(tasks.problem, done=worked))


def _one_by_one(vehicles: tuple[Joined, ...], told: tuple[frozenset[Told], ...], hands: Hands, done: Sequence[tuple[int, str]]) -> Merged:
    """Return the jobs one after the other, in the order that brings least to light, every step of each worked."""
    tasks = _from_now(day_tasks(vehicles, hands), done)
    order: list[int] = []
    for at, joined in enumerate(vehicles):
        mine = [chain for chain, steps in enumerate(tasks.problem.chains) if tasks.origins[steps[0]].vehicle == at]
        best: tuple[tuple[int, ...], tuple[int, ...]] | None = None
        tried = permutations(mine) if len(mine) <= 4 else [tuple(mine)]
        for those in tried:
            names = [name for chain in those for task in tasks.problem.chains[chain] for name in tasks.origins[task].steps]
            new = rehearsed(joined, told[at], names, {}).new
            badness = tuple(sum(one.grade == grade for one in new) for grade in _WORST)
            if best is None or badness < best[0]:
                best = (badness, those)
        order += best[1] if best else ()
    plain = tuple(replace(task, needs={}, holds={}, sets={}, brings={}, spare=False, block="", after=()) for task in tasks.problem.tasks)
    chain = tuple(task for chain in order for task in tasks.problem.chains[chain] if task not in tasks.problem.done)
    problem = Problem(tasks=plain, chains=(chain,), capacity=tasks.problem.capacity)
    solution = solve(problem)
    assert solution is not None
    return Merged(tasks, solution, _played(vehicles, told, tasks, solution.bars), True)

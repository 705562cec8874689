"""The board on which a day is laid out task by task: what stands where, who is free when, and what may be begun next."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from twomarks.planning.day.problem import Bar, Problem, Value

__all__ = ["Board", "Standing"]

_EPS = 1e-9


@dataclass(frozen=True, slots=True)
class Standing:
    """How far a day has come: how many tasks of each chain are done, and what the variables are.

    `now` is when the last task began [min]; `free` and `ready` are, for each chain, when the hands left its last task and
    when its wait was over, `last` the last task that was worked of it. `back` leads to the standing before, by way of `done`.
    """

    places: tuple[int, ...]
    values: tuple[Value, ...]
    now: float
    free: tuple[float, ...]
    ready: tuple[float, ...]
    last: tuple[int, ...]
    at: tuple[str, str, int]
    changes: int
    done: Bar | None = None
    back: Standing | None = None
    left_out: int | None = None

    def trail(self) -> tuple[tuple[Bar, ...], tuple[int, ...]]:
        """Return the bars in the order in which they begin, and the tasks left out."""
        bars: list[Bar] = []
        left: list[int] = []
        one: Standing | None = self
        while one is not None:
            if one.done is not None:
                bars.append(one.done)
            if one.left_out is not None:
                left.append(one.left_out)
            one = one.back
        return tuple(reversed(bars)), tuple(reversed(left))


class Board:
    """The moves of a problem: from one standing to those that may follow it."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        names = set(problem.start)
        for task in problem.tasks:
            names |= task.needs.keys() | task.sets.keys() | task.holds.keys() | task.brings.keys()
        self.names = tuple(sorted(names))
        number = {name: at for at, name in enumerate(self.names)}
        self.number = number
        self.chain_of = {task: chain for chain, tasks in enumerate(problem.chains) for task in tasks}
        self.place_of = {task: at for tasks in problem.chains for at, task in enumerate(tasks)}
        tasks = problem.tasks
        self.needs = [tuple((number[name], value) for name, value in task.needs.items()) for task in tasks]
        self.sets = [tuple((number[name], value) for name, value in task.sets.items()) for task in tasks]
        self.brings = [tuple((number[name], value) for name, value in task.brings.items()) for task in tasks]
        self.holds = [{number[name]: value for name, value in task.holds.items()} for task in tasks]
        self.exact = [{number[name] for name in task.exact if name in number} for task in tasks]
        self.limits = [({number[name] for name in limit.variables if name in number}, limit.rest, limit.most) for limit in problem.limits]
        self.strict = {number[name] for name in problem.strict if name in number}
        self.ends = [{number[name]: value for name, value in one.items() if name in number} for one in problem.ends]
        self.serves = {(number[name], value): other for (name, value), other in problem.serves.items() if name in number}

    def first(self) -> Standing:
        """Return the standing before the first task that is still to do."""
        count = len(self.problem.chains)
        places = [0] * count
        values = [self.problem.start.get(name) for name in self.names]
        for task in self.problem.done:
            places[self.chain_of[task]] = max(places[self.chain_of[task]], self.place_of[task] + 1)
            for name, value in self.sets[task]:
                values[name] = value
        zeros = (0.0,) * count
        return self._skipped(Standing(tuple(places), tuple(values), 0.0, zeros, zeros, (-1,) * count, ("", "", -1), 0))

    def is_last(self, standing: Standing) -> bool:
        """Return whether everything is done."""
        return all(place == len(chain) for place, chain in zip(standing.places, self.problem.chains, strict=True))

    def length(self, standing: Standing) -> float:
        """Return when everything begun is over [min]."""
        return max((*standing.free, *standing.ready, 0.0))

    def follow(self, standing: Standing) -> Iterator[Standing]:
        """Yield every standing that may come next: one more task begun, as early as it can be, not before the last one."""
        for chain, place in enumerate(standing.places):
            tasks = self.problem.chains[chain]
            if place < len(tasks):
                found = self._begun(standing, chain, tasks[place])
                if found is not None:
                    yield self._skipped(found)

    def _holds(self, standing: Standing, task: int, variable: int, value: Value) -> bool:
        have = standing.values[variable]
        if have == value:
            return True
        if variable in self.exact[task]:
            return False
        if have in self.serves.get((variable, value), ()):
            return True
        if variable in self.strict:
            return False
        chains = self.problem.chains
        return any(
            standing.places[chain] == len(chains[chain]) and variable in left and left[variable] == have
            for chain, left in enumerate(self.ends)
        )

    def _skipped(self, standing: Standing) -> Standing:
        """Leave out the spare tasks that come next and would bring nothing about."""
        going = True
        while going:
            going = False
            for chain, place in enumerate(standing.places):
                tasks = self.problem.chains[chain]
                while place < len(tasks) and self.problem.tasks[tasks[place]].spare and self._stands(standing, tasks[place]):
                    standing = self._moved_on(standing, chain, tasks[place])
                    place += 1
                    going = True
        return standing

    def _stands(self, standing: Standing, task: int) -> bool:
        values = standing.values
        return all(values[name] == value or values[name] in self.serves.get((name, value), ()) for name, value in self.brings[task])

    def _moved_on(self, standing: Standing, chain: int, task: int) -> Standing:
        places = (*standing.places[:chain], standing.places[chain] + 1, *standing.places[chain + 1 :])
        return Standing(
            places, standing.values, standing.now, standing.free, standing.ready, standing.last,
            standing.at, standing.changes, None, standing, task,
        )  # fmt: skip

    def _begun(self, standing: Standing, chain: int, number: int) -> Standing | None:
        task = self.problem.tasks[number]
        places = standing.places
        if any(places[self.chain_of[one]] <= self.place_of[one] for one in task.after):
            return None
        if not all(self._holds(standing, number, name, value) for name, value in self.needs[number]):
            return None
        if not self._leaves_alone(standing, chain, number) or not self._not_parted(standing, chain, number):
            return None
        values = list(standing.values)
        for name, value in self.sets[number]:
            values[name] = value
        for members, rest, most in self.limits:
            if sum(values[name] != rest for name in members) > max(most, sum(standing.values[name] != rest for name in members)):
                return None
        early = standing.now
        early = max(early, standing.free[chain] if task.within else max(standing.free[chain], standing.ready[chain]))
        for one in task.after:
            early = max(early, standing.ready[self.chain_of[one]] if places[self.chain_of[one]] == self.place_of[one] + 1 else early)
        early = self._room(standing, task.uses, early)
        free = early + task.active_min
        ready = max(standing.ready[chain], free + task.wait_min) if task.within else free + task.wait_min
        at = (task.vehicle, task.place, chain) if task.uses else standing.at
        changed = (at[2] != standing.at[2]) + (at[:2] != standing.at[:2] and bool(task.place)) if standing.at[2] >= 0 and task.uses else 0
        bar = Bar(number, early, free, free + task.wait_min)

        def put(values: tuple[float, ...], value: float) -> tuple[float, ...]:
            return (*values[:chain], value, *values[chain + 1 :])

        last = (*standing.last[:chain], number, *standing.last[chain + 1 :])
        moved = (*places[:chain], places[chain] + 1, *places[chain + 1 :])
        return Standing(
            moved, tuple(values), early, put(standing.free, free), put(standing.ready, ready), last,
            at if task.place else (standing.at[0], standing.at[1], at[2]), standing.changes + changed, bar, standing,
        )  # fmt: skip

    def _room(self, standing: Standing, uses: Mapping[str, int], early: float) -> float:
        """Return the earliest time from `early` on at which there is enough of what a task uses."""
        wanted = {name: count for name, count in uses.items() if count}
        if not wanted:
            return early
        tasks, capacity = self.problem.tasks, self.problem.capacity
        ends = [(free, last) for free, last in zip(standing.free, standing.last, strict=True) if free > early + _EPS and last >= 0]
        while True:
            running = [(free, last) for free, last in ends if free > early + _EPS]
            if all(
                count + sum(tasks[last].uses.get(name, 0) for _, last in running) <= capacity.get(name, 1) for name, count in wanted.items()
            ):
                return early
            if not running:
                return math.inf
            early = min(running)[0]

    def _leaves_alone(self, standing: Standing, chain: int, number: int) -> bool:
        """Return whether the task changes nothing that another job, under way, still rests on."""
        for other, place in enumerate(standing.places):
            tasks = self.problem.chains[other]
            if other == chain or not place or place >= len(tasks):
                continue
            held = self.holds[tasks[place]]
            for name, value in self.sets[number]:
                if name in held and (held[name] != value or isinstance(value, float)):
                    return False
        return True

    def _not_parted(self, standing: Standing, chain: int, number: int) -> bool:
        """Return whether no block is parted by the task."""
        task = self.problem.tasks[number]
        for other, place in enumerate(standing.places):
            tasks = self.problem.chains[other]
            if other == chain or not place or place >= len(tasks):
                continue
            before, after = self.problem.tasks[tasks[place - 1]], self.problem.tasks[tasks[place]]
            if not before.block or before.block != after.block:
                continue
            if task.vehicle != before.vehicle:
                if self.problem.capacity.get("hands", 1) > 1 or not task.uses.get("hands"):
                    continue
                return False
            if not (task.looks and task.place == before.place):
                return False
        return True

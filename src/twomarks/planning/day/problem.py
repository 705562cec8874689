"""What a day's work is to a search: chains of tasks with hands, waits, set-ups and things of which there are few."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

__all__ = ["Bar", "Limit", "Problem", "Solution", "Task", "Value"]

Value: TypeAlias = str | float | bool | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do, by hand for `active_min`, after which it takes care of itself for `wait_min`.

    `needs` must hold when it is begun and `sets` holds afterwards. A `spare` task is left out where what it `brings` holds
    already. `uses` is what it takes of each resource while it is worked. `after` are tasks of other chains that come first. A
    task `within` is worked during the wait of the one before it. Tasks of one `block` are not parted, except by those that
    `look` at the same place. `holds` is what nobody else may change between the task before it in its chain and it. For the `exact` ones
    of its needs nothing else serves.
    """

    name: str
    active_min: float
    wait_min: float = 0.0
    uses: Mapping[str, int] = field(default_factory=lambda: {"hands": 1})
    after: tuple[int, ...] = ()
    needs: Mapping[str, Value] = field(default_factory=dict)
    sets: Mapping[str, Value] = field(default_factory=dict)
    brings: Mapping[str, Value] = field(default_factory=dict)
    spare: bool = False
    within: bool = False
    block: str = ""
    looks: bool = False
    vehicle: str = ""
    place: str = ""
    holds: Mapping[str, Value] = field(default_factory=dict)
    exact: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Limit:
    """At most `most` of these variables may be away from their value at rest at once: stands, pans, open circuits."""

    variables: tuple[str, ...]
    rest: Value
    most: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Tasks of a day in chains, one for every job, each in the order in which it must be worked.

    `start` are the values of the variables in the morning. What a finished job left behind, `ends`, serves as well as what
    a later task needs, except for the `strict` variables: heat, key, stands. `serves` says which other value of a variable
    serves for one that is needed. `done` are the tasks that were worked before now, in their order.
    """

    tasks: tuple[Task, ...]
    chains: tuple[tuple[int, ...], ...]
    capacity: Mapping[str, int]
    start: Mapping[str, Value] = field(default_factory=dict)
    limits: tuple[Limit, ...] = ()
    ends: tuple[Mapping[str, Value], ...] = ()
    strict: frozenset[str] = frozenset()
    serves: Mapping[tuple[str, Value], tuple[Value, ...]] = field(default_factory=dict)
    done: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Bar:
    """A task in the plan [min from the start]: worked from `begin_min` to `free_min`, waiting until `end_min`."""

    task: int
    begin_min: float
    free_min: float
    end_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """The order that was chosen: its bars, as they begin, the tasks left out, and how good it is at best.

    No order is shorter than `bound_min`. `shortest_min` is the length of the shortest order found, with its changes of
    place and job; the chosen one may be longer, within what is allowed, and has the fewest changes found.
    """

    bars: tuple[Bar, ...]
    left_out: tuple[int, ...]
    length_min: float
    changes: int
    shortest_min: float
    changes_of_shortest: int
    bound_min: float
    nodes: int

    @property
    def proven(self) -> bool:
        """Whether no order is shorter than the shortest found."""
        return self.shortest_min <= self.bound_min + 1e-6

    @property
    def gap(self) -> float:
        """The share by which the shortest order found may be longer than the shortest there is."""
        return 0.0 if self.shortest_min <= 0.0 else max(0.0, (self.shortest_min - self.bound_min) / self.shortest_min)

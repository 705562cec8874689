"""The shortest day against published scheduling instances: two of the Patterson set (pat7, pat8), each optimum solved again.

They are taken from the public Patterson set as mirrored in scheduling-data repositories; the listed optima were solved again to
proven optimality with OR-Tools CP-SAT. Where the set itself comes from is unclear.
"""

from __future__ import annotations

import pytest

from twomarks.planning.day.problem import Problem, Task
from twomarks.planning.day.search import solve

Listed = dict[int, tuple[int, tuple[int, ...], tuple[int, ...]]]

PAT7: Listed = {
    1: (0, (0,), (2, 3, 8)),
    2: (3, (2,), (5,)),
    3: (3, (3,), (4, 6)),
    4: (1, (2,), (5,)),
    5: (2, (3,), (9,)),
    6: (2, (4,), (7,)),
    7: (3, (2,), (9,)),
    8: (3, (1,), (9,)),
    9: (0, (0,), ()),
}


def _problem(listed: Listed, capacity: tuple[int, ...]) -> Problem:
    number = {job: at for at, job in enumerate(sorted(listed))}
    before: dict[int, list[int]] = {job: [] for job in listed}
    for job, (_, _, following) in listed.items():
        for one in following:
            before[one].append(number[job])
    names = tuple(f"resource {at}" for at in range(len(capacity)))
    tasks = tuple(
        Task(
            name=str(job),
            active_min=float(listed[job][0]),
            uses={name: used for name, used in zip(names, listed[job][1], strict=True) if used},
            after=tuple(before[job]),
        )
        for job in sorted(listed)
    )
    chains = tuple((at,) for at in range(len(tasks)))
    return Problem(tasks=tasks, chains=chains, capacity=dict(zip(names, capacity, strict=True)))


@pytest.mark.parametrize(("capacity", "shortest"), [(5, 8.0), (4, 11.0)])
def test_pat7_and_pat8(capacity: int, shortest: float) -> None:
    found = solve(_problem(PAT7, (capacity,)))
    assert found is not None
    assert (found.shortest_min, found.bound_min, found.proven) == (shortest, shortest, True)


def test_a_wait_that_asks_nothing_of_the_hands_is_filled() -> None:
    """One worker, and draining as a job without demand: the same core on a unary resource."""
    tasks = (
        Task(name="drain", active_min=1.0, wait_min=12.0),
        Task(name="plug in", active_min=2.0),
        Task(name="filter", active_min=9.0),
    )
    found = solve(Problem(tasks=tasks, chains=((0, 1), (2,)), capacity={"hands": 1}))
    assert found is not None
    assert (found.shortest_min, found.proven) == (15.0, True)

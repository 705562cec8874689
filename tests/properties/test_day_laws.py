"""Laws of the order of a day: what is called proven is what trying every order finds, and no bound lies above it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchmarks.day_instances import invented_day
from twomarks.planning.day.board import Board, Standing
from twomarks.planning.day.bounds import Bounds
from twomarks.planning.day.problem import Problem
from twomarks.planning.day.search import Effort, solve


def _part(seed: int, chains: tuple[int, int], steps: int) -> Problem:
    """Return two jobs of an invented day, the first few steps of each."""
    whole = invented_day(seed)
    kept = [whole.chains[chain][:steps] for chain in chains]
    number = {task: at for at, task in enumerate(task for chain in kept for task in chain)}
    tasks = tuple(whole.tasks[task] for task in number)
    return replace(whole, tasks=tasks, chains=tuple(tuple(number[task] for task in chain) for chain in kept))


def _every_order(board: Board, one: Standing, bounds: Bounds, least: float) -> float:
    """Return the length of the shortest day that follows, having tried all; on the way no bound may lie above it."""
    if board.is_last(one):
        return board.length(one)
    shortest = min((_every_order(board, after, bounds, least) for after in board.follow(one)), default=float("inf"))
    assert bounds.least(one) <= shortest + 1e-6
    return shortest


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 400), first=st.integers(0, 5), second=st.integers(0, 5), steps=st.integers(3, 5))
def test_what_is_proven_is_what_trying_every_order_finds(seed: int, first: int, second: int, steps: int) -> None:
    if first == second:
        second = (first + 1) % 6
    problem = _part(seed, (first, second), steps)
    board = Board(problem)
    shortest = _every_order(board, board.first(), Bounds(board), 0.0)
    found = solve(problem, effort=Effort(width=2))
    if shortest == float("inf"):
        assert found is None
    else:
        assert found is not None
        assert found.proven
        assert found.shortest_min == pytest.approx(shortest)


@settings(deadline=None, max_examples=20)
@given(seed=st.integers(0, 400))
def test_fewer_changes_cost_ten_minutes_at_most(seed: int) -> None:
    found = solve(invented_day(seed), effort=Effort(width=3, nodes=200, nodes_for_changes=300))
    if found is not None:
        assert found.bound_min <= found.shortest_min <= found.length_min <= found.shortest_min + 10.0 + 1e-6
        assert found.changes <= found.changes_of_shortest

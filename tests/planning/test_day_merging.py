"""The merged order of several jobs on one vehicle: what comes to light, what is shared, what is never parted."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import combinations

import pytest

from tests.procedures.mistakes import bound
from twomarks.planning.day.merging import Merged, merged
from twomarks.planning.day.search import Effort
from twomarks.planning.day.tasks import Hands
from twomarks.procedures.library import library_procedure

KEYS = ("engine-oil-spin-on", "manual-gearbox-oil", "coolant", "brake-fluid", "tyre-rotation", "walk-round")
FEW = Effort(width=6, nodes=800, nodes_for_changes=400)


@cache
def _merged(keys: tuple[str, ...]) -> Merged:
    return merged([[bound(library_procedure(key), raised=True, undertray=True) for key in keys]], Hands(), effort=FEW)


def _worked(found: Merged) -> list[str]:
    return [name for bar in found.solution.bars for name in found.tasks.origins[bar.task].steps]


@pytest.mark.parametrize("keys", list(combinations(KEYS, 2)), ids="+".join)
def test_the_merged_order_shows_nothing_that_its_parts_do_not_show(keys: tuple[str, ...]) -> None:
    """Or says that the jobs are better worked one by one, and what even that brings to light."""
    found = _merged(keys)
    new = [one for vehicle in found.vehicles for one in vehicle.new]
    assert found.one_by_one or not new


def test_most_pairs_of_jobs_have_a_common_order() -> None:
    apart = [keys for keys in combinations(KEYS, 2) if _merged(keys).one_by_one]
    assert len(apart) <= 8


def test_what_is_done_already_is_not_done_again() -> None:
    found = _merged(("manual-gearbox-oil", "walk-round"))
    assert not found.one_by_one
    worked = _worked(found)
    assert len(worked) == len(set(worked))


def _inside(worked: Sequence[str], first: str, last: str) -> list[str]:
    return list(worked[worked.index(first) + 1 : worked.index(last)])


def test_plug_out_to_plug_torqued_is_never_parted_by_other_work() -> None:
    found = _merged(("engine-oil-spin-on", "walk-round"))
    assert not found.one_by_one
    between = _inside(_worked(found), "1-drain", "1-plug-tight")
    assert all(name.startswith("1-") for name in between)


def test_no_plan_is_longer_than_the_lists_one_after_another() -> None:
    for keys in combinations(KEYS, 2):
        found = _merged(keys)
        tasks = found.tasks.problem.tasks
        assert found.solution.length_min <= sum(task.active_min + task.wait_min for task in tasks) + 1e-6


def test_in_the_middle_of_the_day_only_what_is_left_is_planned() -> None:
    """From now: the steps already worked are not worked again, and the rest rehearses after them."""
    keys = ("manual-gearbox-oil", "walk-round")
    worked = _worked(_merged(keys))
    half = worked[: len(worked) // 2]
    bounds = [bound(library_procedure(key), raised=True, undertray=True) for key in keys]
    rest = merged([bounds], Hands(), done=[(0, name) for name in half], effort=FEW)
    assert not rest.one_by_one
    assert not set(_worked(rest)) & set(half)
    assert not any(vehicle.new for vehicle in rest.vehicles)
    assert [step.id for step in rest.vehicles[0].bound.steps][: len(half)] == half

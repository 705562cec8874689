"""Coolant in words, and what is refused."""

from __future__ import annotations

import numpy as np
import pytest

from twomarks.errors import InputError, NoSolutionError, OutOfRangeError
from twomarks.trade.coolant import coolant_state, drain_for_target, freeze_point, glycol_after_refills, glycol_for, refills_needed
from twomarks.words import Reader, render


def words(state: object) -> str:
    return " ".join(render(reason, Reader.of("metric")) for reason in state.reasons).replace("\u00a0", " ")  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("coldest", "state"),
    [(None, "told"), (-30.0, "enough"), (-35.1, "enough"), (-36.0, "in doubt"), (-39.0, "in doubt"), (-40.0, "not enough")],
)
def test_half_ethylene_against_the_cold(coldest: float | None, state: str):
    found = coolant_state(glycol="ethylene", volume_percent=50.0, coldest_c=coldest)
    assert found.state == state
    assert "slush" in words(found)
    assert "−37.1 °C" in words(found)


def test_what_it_takes_is_told_in_whole_percent_with_something_to_spare():
    assert "at least 39% by volume" in words(coolant_state(glycol="ethylene", volume_percent=20.0, coldest_c=-21.0))
    needed = glycol_for(glycol="ethylene", freeze_c=-23.0)
    assert 38.0 < needed <= 39.0


def test_beyond_what_any_mixture_reaches_the_maker_is_asked():
    assert "ask the maker" in words(coolant_state(glycol="ethylene", volume_percent=60.0, coldest_c=-55.0))


def test_water_is_no_slush():
    assert "bursts what holds it" in words(coolant_state(glycol="ethylene", volume_percent=0.0))


@pytest.mark.parametrize("share", [-1.0, 60.1, 100.0, float("nan"), float("inf")])
def test_no_protection_is_claimed_beyond_60_percent(share: float):
    with pytest.raises(OutOfRangeError) as refused:
        freeze_point(glycol="ethylene", volume_percent=share)
    assert refused.value.values["high"] == 60.0
    assert refused.value.values["unit"] == "%"


def test_another_glycol_is_refused_with_the_known_ones():
    with pytest.raises(InputError) as refused:
        freeze_point(glycol="glycerol", volume_percent=50.0)
    assert refused.value.values["expected"] == ("ethylene", "propylene")


def test_an_array_is_answered_as_its_numbers_and_refused_by_index():
    shares = np.array([0.0, 12.0, 33.0, 60.0])
    assert freeze_point(glycol="propylene", volume_percent=shares) == pytest.approx(
        [freeze_point(glycol="propylene", volume_percent=float(share)) for share in shares]
    )
    with pytest.raises(OutOfRangeError) as refused:
        freeze_point(glycol="propylene", volume_percent=np.array([10.0, 70.0, np.nan]))
    assert (refused.value.values["index"], refused.value.values["more"]) == (1, 1)


@pytest.mark.parametrize(
    ("start", "new", "drained", "target", "times"),
    [
        (30.0, 100.0, 60.0, 30.0, 0),
        (30.0, 100.0, 60.0, 50.0, 1),
        (0.0, 50.0, 100.0, 50.0, 1),
        (60.0, 0.0, 50.0, 15.0, 2),
        (0.0, 50.0, 50.0, 37.5, 2),
    ],
)
def test_refills_needed(start: float, new: float, drained: float, target: float, times: int):
    assert refills_needed(start_percent=start, new_percent=new, drained_percent=drained, target_percent=target) == times


@pytest.mark.parametrize(
    ("start", "new", "target"),
    [(30.0, 50.0, 50.0), (30.0, 50.0, 55.0), (30.0, 50.0, 20.0), (30.0, 30.0, 40.0), (0.0, 50.0, 49.99999999999999)],
)
def test_refills_that_never_get_there_are_refused(start: float, new: float, target: float):
    with pytest.raises(NoSolutionError):
        refills_needed(start_percent=start, new_percent=new, drained_percent=50.0, target_percent=target)


@pytest.mark.parametrize(("new", "litres"), [(100.0, "2.29"), (60.0, "5.33"), (50.0, "8.00")])
def test_premix_takes_more_draining_than_concentrate(new: float, litres: str):
    assert f"{drain_for_target(volume_l=8.0, start_percent=30.0, target_percent=50.0, new_percent=new):.2f}" == litres


@pytest.mark.parametrize(("start", "target", "new"), [(30.0, 50.0, 40.0), (30.0, 20.0, 100.0), (30.0, 40.0, 30.0)])
def test_a_target_that_does_not_lie_between_is_refused(start: float, target: float, new: float):
    with pytest.raises(InputError) as refused:
        drain_for_target(volume_l=8.0, start_percent=start, target_percent=target, new_percent=new)
    assert refused.value.key == "coolant.target_between"


@pytest.mark.parametrize(
    "changed", [{"volume_l": -8.0}, {"volume_l": 0.0}, {"target_percent": 61.0}, {"start_percent": -1.0}, {"new_percent": 101.0}]
)
def test_impossible_draining_is_refused(changed: dict[str, float]):
    with pytest.raises(OutOfRangeError):
        drain_for_target(**{"volume_l": 8.0, "start_percent": 30.0, "target_percent": 50.0, "new_percent": 100.0} | changed)


def test_the_first_impossible_draining_of_an_array_is_named():
    with pytest.raises(InputError) as refused:
        drain_for_target(volume_l=np.array([8.0, 8.0, 8.0]), start_percent=30.0, target_percent=np.array([50.0, 20.0, 10.0]))
    assert (refused.value.values["index"], refused.value.values["more"], refused.value.values["found"]) == (1, 1, 20.0)


def test_nothing_drained_is_no_refill():
    with pytest.raises(OutOfRangeError):
        glycol_after_refills(start_percent=30.0, new_percent=50.0, drained_percent=0.0)
    with pytest.raises(OutOfRangeError):
        glycol_after_refills(start_percent=30.0, new_percent=50.0, drained_percent=50.0, times=-1)

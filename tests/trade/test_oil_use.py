"""The estimate from several checks: what is used, how sure it is, and a level that rises."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError
from twomarks.trade.oil_use import LevelCheck, TopUp, oil_use
from twomarks.words import Reader, render


def checks(*rows: tuple[float, float], sigma_l: float = 0.1) -> list[LevelCheck]:
    return [LevelCheck(distance, volume, sigma_l) for distance, volume in rows]


def test_one_check_tells_the_volume_and_no_use():
    found = oil_use(checks((10_000.0, 4.5)))
    assert (found.volume_l, found.volume_sigma_l) == pytest.approx((4.5, 0.1))
    assert found.use_l_per_1000km is found.use_sigma is None


def test_more_checks_make_the_use_surer():
    rows = [(1000.0 * at, 5.0 - 0.1 * at) for at in range(8)]
    sigmas = [step.use_sigma for step in oil_use(checks(*rows)).steps[1:]]
    assert sigmas == sorted(sigmas, reverse=True)
    assert oil_use(checks(*rows)).use_l_per_1000km == pytest.approx(0.1, abs=1e-6)


def test_what_was_added_counts_as_used():
    found = oil_use(checks((0.0, 5.0), (2000.0, 5.0)), [TopUp(1000.0, 0.6, 0.0)])
    assert found.use_l_per_1000km == pytest.approx(0.3, abs=1e-6)
    assert found.rises == ()


def test_a_top_up_at_a_check_counts_as_after_it():
    found = oil_use(checks((0.0, 4.4), (2000.0, 4.8)), [TopUp(0.0, 0.6, 0.0)])
    assert found.use_l_per_1000km == pytest.approx(0.1, abs=1e-6)


def test_a_rise_is_an_alarm_of_its_own():
    found = oil_use(checks((0.0, 4.5), (1000.0, 4.45), (2000.0, 5.2)))
    (rise,) = found.rises
    assert rise.distance_km == 2000.0
    assert rise.rise_l == pytest.approx(0.72, abs=0.1)
    assert "alarm, not good news" in render(rise.what, Reader())
    assert found.use_l_per_1000km is None


def test_a_rise_that_was_poured_in_is_none():
    assert oil_use(checks((0.0, 4.5), (1000.0, 4.9)), [TopUp(500.0, 0.5, 0.02)]).rises == ()


def test_a_rise_within_the_error_of_the_stick_is_none():
    found = oil_use(checks((0.0, 4.5), (1000.0, 4.6)))
    assert (found.rises, found.is_creeping) == ((), False)


def test_a_level_that_creeps_up_is_told_though_no_step_stands_out():
    found = oil_use(checks(*((1000.0 * at, 4.5 + 0.08 * at) for at in range(10))))
    assert found.is_creeping or found.rises


def test_a_use_that_wanders_is_less_sure():
    rows = checks(*((1000.0 * at, 5.0 - 0.1 * at) for at in range(8)))
    assert oil_use(rows, drift=0.1).use_sigma > oil_use(rows).use_sigma


@pytest.mark.parametrize(
    ("rows", "added", "more"),
    [
        ([], [], {}),
        ([LevelCheck(0.0, 4.5, 0.0)], [], {}),
        ([LevelCheck(-1.0, 4.5, 0.1)], [], {}),
        ([LevelCheck(0.0, float("nan"), 0.1)], [], {}),
        ([LevelCheck(0.0, 4.5, 0.1)], [TopUp(0.0, 0.5, -0.1)], {}),
        ([LevelCheck(0.0, 4.5, 0.1)], [], {"drift": -1.0}),
        ([LevelCheck(0.0, 4.5, 0.1)], [], {"p_rise": 0.5}),
    ],
)
def test_what_cannot_be_is_refused(rows: list, added: list, more: dict):
    with pytest.raises(InputError):
        oil_use(rows, added, **more)

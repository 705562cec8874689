"""The forecast of many vehicles at once gives what each of them gets alone."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from twomarks.errors import OutOfRangeError
from twomarks.model.ledger import Reading
from twomarks.planning.usage import forecast, judge, prior_of
from twomarks.planning.usage import many as many_vehicles

PRIOR = prior_of("car", "petrol")
START = dt.date(2022, 1, 1).toordinal()


def fleet(count: int, readings: int, *, longest_gap: int = 70, seed: int = 3) -> tuple[np.ndarray, np.ndarray]:
    chance = np.random.default_rng(seed)
    gaps = chance.integers(1, longest_gap, (count, readings - 1))
    steps = np.round(gaps * chance.gamma(2.0, 15.0, (count, 1)) * chance.gamma(1.5, 1 / 1.5, gaps.shape))
    days = START + np.hstack([np.zeros((count, 1), int), np.cumsum(gaps, axis=1)])
    return days, 20_000.0 + np.hstack([np.zeros((count, 1)), np.cumsum(steps, axis=1)])


def one(days: np.ndarray, values: np.ndarray, horizon: float) -> tuple[float, float, float, float]:
    readings = [
        Reading(day=dt.date.fromordinal(int(d)), steps=round(v * 1000), number=i) for i, (d, v) in enumerate(zip(days, values, strict=True))
    ]
    last = max(reading.day for reading in readings)
    f = forecast(judge(readings, today=last), today=last, prior=PRIOR)
    spread = f.travelled(days=horizon)
    return f.distance.mean_km(days=horizon), spread.low, spread.likely, spread.high


@pytest.mark.parametrize(
    ("readings", "longest_gap", "horizon"), [(24, 70, 90), (24, 20, 365), (2, 40, 30), (1, 2, 180), (40, 160, 400), (5, 12, 7)]
)
def test_many_at_once_get_the_numbers_of_one_alone(readings: int, longest_gap: int, horizon: float) -> None:
    days, values = fleet(40, readings, longest_gap=longest_gap)
    found = many_vehicles.forecast_many(days=days, values_km=values, horizon_days=horizon, prior=PRIOR)
    for row in range(len(days)):
        expected = one(days[row], values[row], horizon)
        got = (found.mean_km[row], found.low_km[row], found.likely_km[row], found.high_km[row])
        assert got == pytest.approx(expected, rel=1e-9)


def test_rows_with_faults_are_judged_one_by_one() -> None:
    days, values = fleet(12, 24)
    values[3, 7] = 0.0
    values[8, 5] *= 10
    found = many_vehicles.forecast_many(days=days, values_km=values, horizon_days=90, prior=PRIOR)
    assert found.one_by_one == 2
    for row in (3, 8):
        assert found.likely_km[row] == pytest.approx(one(days[row], values[row], 90)[2])


def test_the_size_of_the_chunk_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    days, values = fleet(50, 12)
    whole = many_vehicles.forecast_many(days=days, values_km=values, horizon_days=90, prior=PRIOR)
    monkeypatch.setattr(many_vehicles, "CHUNK", 7)
    parts = many_vehicles.forecast_many(days=days, values_km=values, horizon_days=90, prior=PRIOR)
    assert parts.high_km == pytest.approx(whole.high_km, rel=1e-12)


def test_a_horizon_has_to_lie_ahead() -> None:
    days, values = fleet(2, 3)
    with pytest.raises(OutOfRangeError):
        many_vehicles.forecast_many(days=days, values_km=values, horizon_days=0, prior=PRIOR)

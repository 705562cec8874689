"""The forecast of use on real histories, by rolling origin, against simple ways.

Those are average rates with the vehicle's own past errors and, where lock/reference is installed, a well-kept library's
automatic exponential smoothing.

Buses: tuned on the 1st, 3rd, 5th ... in order of first appearance, judged here on the 2nd, 4th, 6th ... Those were looked
at at least twice before, while earlier forms of the filter were judged; the form that stands was chosen and tuned without
them. Each bus is foretold three times: alone, with the prior of a kind of vehicle without figures of its own; with what
the whole histories of the buses not set aside teach (level, fall with age, season, spread; what sisters of the same model
did in the twelve months before a day never rests on anything later); and with what all other buses had taught by the day
of the origin, nothing later. The car: thinned to a reading every two to six weeks. It had a part in the tuning of the
forecast of a vehicle alone, so its figures are no test of that.
"""

from __future__ import annotations

import csv
import datetime as dt
import itertools
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from benchmarks.evidence import write
from benchmarks.reference_load import at_reference_ms, load_ms
from twomarks.model.ledger import Reading
from twomarks.planning.usage import Sisters, forecast, judge, prior_of, sister_history, sisters_of
from twomarks.planning.usage.forecast import UsageForecast
from twomarks.planning.usage.judging import History
from twomarks.planning.usage.sisters import SisterHistory

DATA = Path(__file__).resolve().parent / "data"
MILE_KM = 1.609344
LEVELS = np.arange(1, 100) / 100
BUS_MONTHS = (1, 3, 6, 12)
CAR_DAYS = (30, 90, 180, 365)
EVERY = 3
FIRST = 12
SEED = 20
RESAMPLES = 2000
MOST_MS = 20.0

Array = npt.NDArray[np.float64]
Points = list[tuple[int, float]]


@dataclass(frozen=True)
class Case:
    """A history up to its origin, and what then happened: horizon, days, distance [km]; the days to a limit."""

    vehicle: str
    model: str
    known: Points
    targets: tuple[tuple[int, int, float], ...]
    days_to_limit: float | None


def bus_histories() -> dict[str, Points]:
    """Return the buses in order of first appearance: day (the middle of the month) and km."""
    found: dict[str, Points] = {}
    with (DATA / "bus_monthly_odometer.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            day = dt.date.fromisoformat(row["month"] + "-15").toordinal()
            found.setdefault(row["bus"], []).append((day, float(row["odometer_miles"]) * MILE_KM))
    return found


def car_history() -> Points:
    """Return the car's trusted readings, one a day."""
    readings = []
    with (DATA / "one_car_daily_odometer.csv").open(encoding="utf-8") as file:
        for number, row in enumerate(csv.DictReader(file)):
            if row["odometer_m"]:
                day = dt.date.fromisoformat(row["read_at_utc"][:10])
                readings.append(Reading(day=day, steps=int(row["odometer_m"]), number=number))
    history = judge(readings, today=max(reading.day for reading in readings))
    return [(reading.day.toordinal(), reading.value) for reading in history.clean]


def bus_cases(histories: dict[str, Points], *, limit_km: float) -> Iterator[Case]:
    """Return a case every three months, after twelve months of history."""
    for name, points in histories.items():
        for t in range(FIRST, len(points) - 1, EVERY):
            targets = tuple(
                (h, points[t + h][0] - points[t][0], points[t + h][1] - points[t][1]) for h in BUS_MONTHS if t + h < len(points)
            )
            yield Case(name, _model_of(name), points[: t + 1], targets, _days_to(points, t, limit_km))


def car_cases(points: Points, *, limit_km: float) -> Iterator[Case]:
    """Return a case at each of the thinned readings, from the fourth on."""
    gaps = np.random.default_rng(SEED)
    thin = [points[0]]
    for point in points[1:]:
        if point[0] - thin[-1][0] >= gaps.integers(14, 43):
            thin.append(point)
    days, values = np.array([p[0] for p in points]), np.array([p[1] for p in points])
    for t in range(3, len(thin)):
        day, value = thin[t]
        targets = tuple((h, h, float(np.interp(day + h, days, values)) - value) for h in CAR_DAYS if day + h <= points[-1][0])
        full = points.index(thin[t])
        yield Case("car", "", thin[: t + 1], targets, _days_to(points, full, limit_km))


def _days_to(points: Points, t: int, limit_km: float) -> float | None:
    days, values = np.array([p[0] for p in points[t:]]), np.array([p[1] for p in points[t:]])
    if values[-1] - values[0] < limit_km:
        return None
    return float(np.interp(values[0] + limit_km, values, days)) - days[0]


def _judged_history(points: Points) -> History:
    readings = [Reading(day=dt.date.fromordinal(day), steps=round(km * 1000), number=i) for i, (day, km) in enumerate(points)]
    return judge(readings, today=readings[-1].day)


def foretold(case: Case, kind: str, fuel: str, taught: Sisters | None = None) -> UsageForecast:
    """Return the forecast of Twomarks at the origin of `case`."""
    history = _judged_history(case.known)
    return forecast(history, today=history.clean[-1].day, prior=prior_of(kind, fuel), sisters=taught)


class Teachers:
    """What a bus set aside may learn from its sisters, in two ways.

    From the whole histories of the buses that were not set aside; or from all other buses, set aside or not, but nothing
    later than the day of the origin.
    """

    def __init__(self, histories: dict[str, Points], aside: set[str]) -> None:
        self._aside = aside
        self._histories = {name: sister_history(_judged_history(points)) for name, points in histories.items()}

    @cache  # noqa: B019 - one of them lives as long as the bench
    def whole(self, model: str) -> Sisters | None:
        """Return what the buses that were not set aside teach one of `model`."""
        return self._of(model, [(name, one) for name, one in self._histories.items() if name not in self._aside])

    def by_then(self, vehicle: str, model: str, day: int) -> Sisters | None:
        """Return what all buses but `vehicle` had taught by `day`; None where that is too little."""
        known = [
            (name, SisterHistory(tuple(stretch for stretch in one.stretches if stretch[0] + stretch[1] / 2 <= day)))
            for name, one in self._histories.items()
            if name != vehicle
        ]
        return self._of(model, known)

    def _of(self, model: str, known: Sequence[tuple[str, SisterHistory]]) -> Sisters | None:
        near = [one for name, one in known if _model_of(name) == model]
        return sisters_of(near, [one for name, one in known if _model_of(name) != model])


def _model_of(name: str) -> str:
    return name.rpartition("-")[0]


def quantiles(f: UsageForecast, days: int) -> Array:
    """Return the percentiles 1 to 99 of the distance after `days`."""
    return np.array([f.distance.quantile_km(chance=float(level), days=days) for level in LEVELS])


def average(points: Points, span_days: float) -> float:
    """Return the average rate of the last `span_days` of `points` [km/day]."""
    days, values = np.array([p[0] for p in points], float), np.array([p[1] for p in points])
    start = max(days[0], days[-1] - span_days)
    return float((values[-1] - np.interp(start, days, values)) / max(days[-1] - start, 1.0))


def by_average(case: Case, days: int, span_days: float, *, same_horizon: bool) -> Array:
    """Return percentiles about the average rate, spread by the vehicle's own past errors.

    Errors over the horizon asked for, or over one month and widened by the root of the horizon.
    """
    known = case.known
    rate = average(known, span_days)
    step = days if same_horizon else 30
    all_days, values = np.array([p[0] for p in known], float), np.array([p[1] for p in known])
    errors = [
        float(np.interp(day + step, all_days, values)) - value - step * average(known[: i + 1], span_days)
        for i, (day, value) in enumerate(known)
        if i >= min(6, len(known) // 2) and day + step <= all_days[-1]
    ]
    spread = float(np.sqrt(np.mean(np.square(errors)))) if len(errors) >= 3 else 0.35 * rate * days
    if not same_horizon and len(errors) >= 3:
        spread *= (days / 30) ** 0.5
    return np.maximum(rate * days + spread * NORMAL, 0.0)


def _normal() -> Array:
    from scipy.special import ndtri

    return np.asarray(ndtri(LEVELS))


NORMAL = _normal()


def crps(found: Array, true: float) -> float:
    """Return the score of a forecast given by its percentiles: the mean pinball loss, doubled."""
    off = true - found
    return float(2 * np.mean(np.maximum(LEVELS * off, (LEVELS - 1) * off)))


def covered(found: Array, true: float) -> tuple[bool, bool, bool]:
    """Return whether `true` lies in the 50, 80 and 95 % intervals."""
    low, high = (found[1] + found[2]) / 2, (found[96] + found[97]) / 2
    return bool(found[24] <= true <= found[74]), bool(found[9] <= true <= found[89]), bool(low <= true <= high)


@dataclass
class Tally:
    """Scores of one method at one horizon."""

    vehicles: list[str]
    scores: list[float]
    inside: list[tuple[bool, bool, bool]]
    off: list[float]

    def summary(self, unit_km: float) -> dict[str, Any]:
        """Return the mean score, the median error and the coverage with its bootstrap interval over vehicles."""
        inside = np.array(self.inside, float)
        names = sorted(set(self.vehicles))
        places = {name: [i for i, v in enumerate(self.vehicles) if v == name] for name in names}
        chance = np.random.default_rng(SEED)
        means = []
        for _ in range(RESAMPLES if len(names) > 1 else 0):
            drawn = [i for k in chance.integers(0, len(names), len(names)) for i in places[names[k]]]
            means.append(inside[drawn].mean(0))
        low, high = np.percentile(means, [2.5, 97.5], axis=0) if means else (np.full(3, np.nan), np.full(3, np.nan))
        result: dict[str, Any] = {
            "cases": len(self.scores),
            "crps": round(float(np.mean(self.scores)) / unit_km, 1),
            "median_error": round(float(np.median(self.off)) / unit_km, 1),
            "coverage_percent": [round(100 * float(x), 1) for x in inside.mean(0)],
        }
        if means:
            result["coverage_interval_percent"] = [
                [round(100 * float(a), 1), round(100 * float(b), 1)] for a, b in zip(low, high, strict=True)
            ]
        return result


SMOOTHING = "automatic exponential smoothing"
PATHS = 300


def by_smoothing(case: Case) -> dict[int, Array]:
    """Return percentiles by horizon from automatic exponential smoothing of the monthly steps, its simulated paths summed.

    Empty where the library (lock/reference) is not installed. Monthly steps are what it is made for: the car has none.
    """
    try:
        from statsforecast.models import AutoETS
    except ImportError:
        return {}
    steps = np.maximum(np.diff([value for _, value in case.known]), 0.0) / 1000
    model = AutoETS(season_length=1, model="ZZN")
    model.fit(steps)
    paths = np.asarray(model.simulate(h=max(BUS_MONTHS), n_paths=PATHS, seed=SEED))
    if paths.shape != (PATHS, max(BUS_MONTHS)):
        raise ValueError(paths.shape)
    sums = 1000 * np.maximum(paths, 0.0).cumsum(axis=1)
    return {horizon: np.quantile(sums[:, horizon - 1], LEVELS) for horizon in BUS_MONTHS}


ALONE, TAUGHT, BY_THEN = "alone", "with_sisters", "with_sisters_by_then"
OURS = (ALONE, TAUGHT, BY_THEN)


def forecasts(case: Case, kind: str, fuel: str, teachers: Teachers | None) -> dict[str, UsageForecast]:
    """Return the forecasts of Twomarks for `case`, by what they rest on."""
    found = {ALONE: foretold(case, kind, fuel)}
    if teachers is not None:
        found[TAUGHT] = foretold(case, kind, fuel, teachers.whole(case.model))
        found[BY_THEN] = foretold(case, kind, fuel, teachers.by_then(case.vehicle, case.model, case.known[-1][0]))
    return found


def judged(
    cases: Sequence[Case], kind: str, fuel: str, spans: dict[str, float], *, unit_km: float, teachers: Teachers | None = None
) -> dict[str, Any]:
    """Return every method's figures by horizon, and the gains over the best of the others."""
    tallies: dict[tuple[int, str], Tally] = {}
    averages: dict[str, Callable[[Case, int], Array]] = {}
    for (name, span), same in itertools.product(spans.items(), (False, True)):
        label = f"average of {name}, own {'errors of that horizon' if same else 'one-month errors'}"
        averages[label] = partial(by_average, span_days=span, same_horizon=same)
    for case in cases:
        ours = forecasts(case, kind, fuel, teachers)
        smoothed = by_smoothing(case) if teachers is not None else {}
        for horizon, days, true in case.targets:
            found = {name: quantiles(f, days) for name, f in ours.items()}
            found |= {name: method(case, days) for name, method in averages.items()}
            if horizon in smoothed:
                found[SMOOTHING] = smoothed[horizon]
            for name, percentiles in found.items():
                tally = tallies.setdefault((horizon, name), Tally([], [], [], []))
                tally.vehicles.append(case.vehicle)
                tally.scores.append(crps(percentiles, true))
                tally.inside.append(covered(percentiles, true))
                tally.off.append(abs(true - percentiles[49]))
    result: dict[str, Any] = {}
    for horizon in sorted({h for h, _ in tallies}):
        figures = {name: tally.summary(unit_km) for (h, name), tally in tallies.items() if h == horizon}
        best = min((name for name in figures if name not in OURS), key=lambda name: figures[name]["crps"])
        gains = {name: round(100 * (1 - figures[name]["crps"] / figures[best]["crps"]), 1) for name in OURS if name in figures}
        others = (
            {"smoothing_percent": round(100 * (1 - figures[SMOOTHING]["crps"] / figures[best]["crps"]), 1)} if SMOOTHING in figures else {}
        )
        result[str(horizon)] = {"best_baseline": best, "gain_percent": gains, **others, "methods": figures}
    return result


def day_errors(
    cases: Sequence[Case], kind: str, fuel: str, spans: dict[str, float], limit_km: float, teachers: Teachers | None = None
) -> dict[str, Any]:
    """Return the median error of the day on which a limit is passed [days], and how often the 80 % window held it."""
    off: dict[str, list[float]] = {}
    held: dict[str, list[bool]] = {}
    for case in cases:
        if case.days_to_limit is None:
            continue
        start = dt.date.fromordinal(case.known[-1][0])
        true = start + dt.timedelta(days=round(case.days_to_limit))
        for name, f in forecasts(case, kind, fuel, teachers).items():
            window = f.passage((f.last_value or 0.0) + limit_km)
            if window.likely is None:
                raise ValueError(case.vehicle)
            off.setdefault(name, []).append(abs((window.likely - start).days - case.days_to_limit))
            held.setdefault(name, []).append((window.earliest or dt.date.max) <= true <= (window.latest or dt.date.max))
        for name, span in spans.items():
            days = limit_km / max(average(case.known, span), 0.1)
            off.setdefault(f"average of {name}", []).append(abs(days - case.days_to_limit))
    return {
        "limit_km": round(limit_km),
        "cases": len(held[ALONE]),
        "median_days": {name: round(float(np.median(days)), 1) for name, days in off.items()},
        "window_held_percent": {name: round(100 * float(np.mean(one)), 1) for name, one in held.items()},
    }


def cost(here_ms: float) -> dict[str, Any]:
    """Return what judging and forecasting a thousand daily readings takes, as a time where the reference load takes 100 ms."""
    points = car_history()[-1000:]
    readings = [Reading(day=dt.date.fromordinal(day), steps=round(km * 1000), number=i) for i, (day, km) in enumerate(points)]
    today = readings[-1].day
    times = []
    for _ in range(15):
        began = time.perf_counter()
        f = forecast(judge(readings, today=today), today=today)
        f.passage(points[-1][1] + 12_000)
        times.append(1000 * (time.perf_counter() - began))
    took = at_reference_ms(float(np.median(times)), load_here_ms=here_ms)
    print(f"   {len(readings)} readings judged, forecast, one limit: {took:.1f} ms at the reference load (at most {MOST_MS:g})")
    return {"readings": len(readings), "at_reference_ms": round(took, 1), "at_most_ms": MOST_MS}


def _show(title: str, figures: dict[str, Any], unit: str) -> None:
    print(f"   {title}: CRPS in {unit}, coverage of 50/80/95 %")
    for horizon, found in figures.items():
        for name in dict.fromkeys((*found["gain_percent"], found["best_baseline"], SMOOTHING)):
            one = found["methods"].get(name)
            if one is None:
                continue
            gain = f"{found['gain_percent'][name]:+.1f} %" if name in found["gain_percent"] else ""
            print(f"      {horizon:>4} {name:32.32} {one['crps']:8.1f} {one['coverage_percent']} of {one['cases']} {gain}")


def main() -> None:
    """Judge the forecast on the buses set aside and on the car, and write the evidence."""
    histories = bus_histories()
    aside = {name: points for place, (name, points) in enumerate(histories.items()) if place % 2}
    teachers = Teachers(histories, set(aside))
    bus_spans = {"3 months": 91.0, "6 months": 183.0, "12 months": 365.0, "all": 1e9}
    car_spans = {"90 days": 90.0, "180 days": 180.0, "365 days": 365.0, "all": 1e9}
    limit_km, car_limit_km = 6000 * MILE_KM, 10_000.0
    buses = list(bus_cases(aside, limit_km=limit_km))
    car = list(car_cases(car_history(), limit_km=car_limit_km))
    by_bus = judged(buses, "bus", "diesel", bus_spans, unit_km=MILE_KM, teachers=teachers)
    _show(f"{len(aside)} buses set aside, {len(buses)} origins, months ahead", by_bus, "miles")
    by_car = judged(car, "car", "petrol", car_spans, unit_km=1.0)
    _show(f"one car, {len(car)} origins, days ahead", by_car, "km")
    bus_days = day_errors(buses, "bus", "diesel", bus_spans, limit_km, teachers)
    car_days = day_errors(car, "car", "petrol", car_spans, car_limit_km)
    print(f"   day of the next 6,000 miles: {bus_days['median_days']}, window held {bus_days['window_held_percent']} %")
    print(f"   day of the next 10,000 km: {car_days['median_days']}, window held {car_days['window_held_percent']} %")
    result = {"buses": by_bus, "car": by_car, "bus_days": bus_days, "car_days": car_days, "cost": cost(load_ms())}
    counts = {"buses": len(aside), "teaching_buses": len(histories) - len(aside), "bus_origins": len(buses), "car_origins": len(car)}
    write("forecast_history", result, seed=SEED, counts=counts)


if __name__ == "__main__":
    main()

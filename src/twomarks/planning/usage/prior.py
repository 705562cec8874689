"""What is known of a vehicle's use before its first reading: the spread of daily distance over vehicles of its kind."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache

from twomarks import packaged
from twomarks.words import Message, Source, say

__all__ = ["UsagePrior", "prior_of"]

MILE_KM = 1.609344
Z_90 = 1.2815515655446004

_TYPES = {"car": "Car", "van": "Minivan", "4x4": "SUV"}
_POWERTRAINS = {"petrol": "Gasoline", "diesel": "Diesel", "hybrid": "Hybrid Electric (HEV)", "electric": "Battery Electric (BEV)"}
WIDER = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class UsagePrior:
    """The square root of the daily use, over vehicles of a kind, as a normal distribution [root of km a day].

    The root of the published percentiles is close to a straight line on normal paper: 1, 10, 50, 90 and 99 % lie
    within 0.3 of it.
    """

    root_mean: float
    root_spread: float
    basis: Message


@cache
def _table() -> dict[tuple[str, str], tuple[dict[int, float], str]]:
    found: dict[tuple[str, str], tuple[dict[int, float], str]] = {}
    for row in csv.DictReader(packaged.text("reference/usage_prior.csv").splitlines()):
        miles, _ = found.setdefault((row["powertrain"], row["vehicle_type"]), ({}, row["source"]))
        miles[int(row["quantile_percent"])] = float(row["daily_miles"])
    return found


@cache
def prior_of(kind: str = "car", fuel: str = "") -> UsagePrior:
    """Return the prior for a vehicle of `kind` (a word of the vehicle sheet) that burns `fuel`.

    Kinds without figures of their own (motorcycle, trailer, machine) take those of all cars with a spread half as
    wide again: our judgement, no source.
    """
    vehicle_type = _TYPES.get(kind)
    powertrain = _POWERTRAINS.get(fuel, "All")
    miles, source = _table()[(powertrain, vehicle_type or "All")]
    low, middle, high = (math.sqrt(miles[percent] * MILE_KM) for percent in (10, 50, 90))
    spread = (high - low) / (2 * Z_90) * (1.0 if vehicle_type else WIDER)
    basis = say("usage.prior" if vehicle_type else "usage.prior_wider", source=Source("computed", source))
    return UsagePrior(root_mean=middle, root_spread=spread, basis=basis)

"""A flooded lead-acid battery of six cells: its charge from the voltage at rest, when its acid freezes, and cranking in frost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal, cast

from twomarks.reference.circuits import battery_at_rest, battery_cranking, battery_freezing
from twomarks.trade.arrays import Real, Reals, choose, interpolate, require_within
from twomarks.words import Figure, Message, say

__all__ = [
    "BatteryState",
    "acid_freezing",
    "battery_charge",
    "battery_state",
    "cranking_need",
    "cranking_power",
    "rest_voltage_at_80f",
    "specific_gravity",
]

REFERENCE_C = 80.0 / 1.8 - 32.0 / 1.8
"""80 F, the temperature of the table."""
VOLT_PER_C = 0.024 / 10.0 * 1.8
"""0.024 V per 10 F."""
REST_H = 8.0
LOWEST_V, HIGHEST_V = 8.0, 13.6
SURFACE_V = 0.05
"""Above full by this much the battery was charged a short while ago (judgement, no source)."""
FULL_PERCENT, CHARGED_PERCENT, LOW_PERCENT = 95.0, 75.0, 50.0
LEAST_SHIFT_V = 0.005
"""A smaller correction does not show in a voltage read to a hundredth."""
DEAD_V = 11.5
"""Below it a cell may have failed (common practice, no source)."""

State = Literal["charged", "charge it", "low", "flat", "not rested"]


@dataclass(frozen=True, slots=True)
class BatteryState:
    """How far a battery is charged, where its acid freezes by the more cautious source, and what to do about it."""

    state: State
    charge_percent: float
    freeze_c: float
    reasons: tuple[Message, ...]


def rest_voltage_at_80f(*, voltage_v: Real, temp_c: Reals) -> Real:
    """Return a voltage at rest as it would be read at the temperature of the table.

    Parameters
    ----------
    voltage_v : float or ndarray, shape (n,)
        Voltage across the posts, at rest [V], 8 to 13.6.
    temp_c : float or ndarray, shape (n,)
        Temperature of the battery [C], -40 to 60.

    Returns
    -------
    float or ndarray, shape (n,)
        Voltage at 80 F (26.7 C) [V].

    Raises
    ------
    OutOfRangeError
        If a voltage or a temperature is outside its range or not a number.

    Notes
    -----
    0.024 V less per 10 F below 80 F. Range: as above. Departs from the source: none; other pages find the effect smaller, so that in
    frost the answer is on the cautious side.

    References
    ----------
    battery_rest_voltage
    """
    require_within(voltage_v, quantity="voltage", unit="V", source="battery_rest_voltage", low=LOWEST_V, high=HIGHEST_V)
    require_within(temp_c, quantity="temperature", unit="C", source="battery_rest_voltage", low=-40.0, high=60.0)
    shift: Any = VOLT_PER_C * (temp_c - REFERENCE_C)
    return cast("Real", voltage_v + shift)


def battery_charge(*, voltage_v: Real, temp_c: Reals = REFERENCE_C) -> Real:
    """Return how far a battery at rest is charged.

    Parameters
    ----------
    voltage_v : float or ndarray, shape (n,)
        Voltage across the posts, at rest [V], 8 to 13.6.
    temp_c : float or ndarray, shape (n,)
        Temperature of the battery [C], -40 to 60.

    Returns
    -------
    float or ndarray, shape (n,)
        Charge [%], 0 to 100; beyond the table it stays at its ends.

    Raises
    ------
    OutOfRangeError
        If a voltage or a temperature is outside its range or not a number.

    Notes
    -----
    Straight between five rows, at 80 F. Range: flooded cells of 1.265 when full, at rest for 8 hours or more; sealed mats and gels
    stand a little higher. Departs from the source: none.

    References
    ----------
    battery_rest_voltage
    battery_rest_time
    """
    rows = battery_at_rest()
    volts = tuple(row.rest_voltage_v for row in rows)
    at: Any = rest_voltage_at_80f(voltage_v=voltage_v, temp_c=temp_c)
    held = choose(at < volts[0], volts[0] + 0.0 * at, choose(at > volts[-1], volts[-1] + 0.0 * at, at))
    return cast("Real", interpolate(held, volts, tuple(row.charge_percent for row in rows)))


def specific_gravity(*, charge_percent: Real) -> Real:
    """Return the specific gravity of the acid at a charge.

    Parameters
    ----------
    charge_percent : float or ndarray, shape (n,)
        Charge [%], 0 to 100.

    Returns
    -------
    float or ndarray, shape (n,)
        Specific gravity at 80 F [-].

    Raises
    ------
    OutOfRangeError
        If a charge is outside 0 to 100 % or not a number.

    Notes
    -----
    Straight between five rows. Range: flooded cells of 1.265 when full. Departs from the source: none.

    References
    ----------
    battery_rest_voltage
    """
    require_within(charge_percent, quantity="charge", unit="%", source="battery_rest_voltage", low=0.0, high=100.0)
    rows = battery_at_rest()
    return interpolate(charge_percent, tuple(row.charge_percent for row in rows), tuple(row.specific_gravity for row in rows))


def acid_freezing(*, charge_percent: Real) -> tuple[Real, Real]:
    """Return where the acid freezes at a charge, by the more cautious and by the more hopeful of two sources.

    Parameters
    ----------
    charge_percent : float or ndarray, shape (n,)
        Charge [%], 0 to 100.

    Returns
    -------
    tuple of float or ndarray, shape (n,)
        Warmest and coldest freezing point [C]; work with the first.

    Raises
    ------
    OutOfRangeError
        If a charge is outside 0 to 100 % or not a number.

    Notes
    -----
    Each source straight between its rows of specific gravity. Range: specific gravity 1.120 to 1.265. Departs from the source: the
    sources differ by up to 13 K in the middle; the battery table prints colder points than an owner's manual.

    References
    ----------
    battery_freezing_manual
    battery_rest_voltage
    """
    gravity = specific_gravity(charge_percent=charge_percent)
    points: list[Any] = [
        interpolate(gravity, tuple(row.specific_gravity for row in rows), tuple(row.freeze_c for row in rows))
        for rows in battery_freezing().values()
    ]
    first, second = points
    return choose(first > second, first, second), choose(first > second, second, first)


def cranking_power(*, temp_c: Real) -> Real:
    """Return what a battery gives in the cold, of what it gives at 80 F.

    Parameters
    ----------
    temp_c : float or ndarray, shape (n,)
        Temperature of battery and engine [C], -17.8 to 26.7 (0 to 80 F).

    Returns
    -------
    float or ndarray, shape (n,)
        Power [%].

    Raises
    ------
    OutOfRangeError
        If a temperature is outside its range or not a number.

    Notes
    -----
    Straight between three rows. Range: 0 to 80 F; below it the sources that agree are silent. Departs from the source: none.

    References
    ----------
    battery_cranking_pages
    """
    return _by_fahrenheit(temp_c, tuple(row.power_percent for row in battery_cranking()))


def cranking_need(*, temp_c: Real) -> Real:
    """Return what an engine asks of the battery in the cold, of what it asks at 80 F.

    Parameters
    ----------
    temp_c : float or ndarray, shape (n,)
        Temperature of battery and engine [C], -17.8 to 26.7 (0 to 80 F).

    Returns
    -------
    float or ndarray, shape (n,)
        Power needed [%].

    Raises
    ------
    OutOfRangeError
        If a temperature is outside its range or not a number.

    Notes
    -----
    Straight between three rows; oil of another grade moves it. Range: 0 to 80 F. Departs from the source: none.

    References
    ----------
    battery_cranking_pages
    """
    return _by_fahrenheit(temp_c, tuple(row.needed_percent for row in battery_cranking()))


def _by_fahrenheit(temp_c: Any, ys: tuple[float, ...]) -> Any:
    xs = tuple((row.temp_f - 32.0) / 1.8 for row in battery_cranking())
    # A whole number of degrees Fahrenheit is not a whole one of degrees Celsius: 0 F itself is within.
    require_within(temp_c, quantity="temperature", unit="C", source="battery_cranking_pages", low=xs[0] - 1e-9, high=xs[-1] + 1e-9)
    return interpolate(temp_c, xs, ys)


def battery_state(*, voltage_v: float, temp_c: float = REFERENCE_C, rest_h: float | None = None) -> BatteryState:
    """Return how a battery stands by its voltage, in words.

    Parameters
    ----------
    voltage_v : float
        Voltage across the posts [V], 8 to 13.6.
    temp_c : float
        Temperature of the battery [C], -40 to 60.
    rest_h : float or None
        Since it was last charged or drawn from [h], not negative; None where it is not known.

    Returns
    -------
    BatteryState
        ``charged`` from 75 %, ``charge it`` from 50 %, ``low`` below, ``flat`` at the end of the table; ``not rested`` where it
        rested less than 8 hours or reads above full, since then it reads too high.

    Raises
    ------
    OutOfRangeError
        If an argument is outside its range or not a number.

    Notes
    -----
    Range: a flooded battery of 12 V. Departs from the source: the steps at 75 and 50 % are judgement.

    References
    ----------
    battery_rest_voltage
    battery_rest_time
    battery_freezing_manual
    house_judgement
    """
    if rest_h is not None:
        require_within(rest_h, quantity="rest", unit="h", source="battery_rest_time", low=0.0)
    corrected_v = rest_voltage_at_80f(voltage_v=voltage_v, temp_c=temp_c)
    charge = battery_charge(voltage_v=voltage_v, temp_c=temp_c)
    freeze_c, hopeful_c = acid_freezing(charge_percent=charge)
    rows = battery_at_rest()
    is_above = corrected_v > rows[-1].rest_voltage_v + SURFACE_V
    state: State
    if is_above or (rest_h is not None and rest_h < REST_H):
        state = "not rested"
    elif corrected_v <= rows[0].rest_voltage_v:
        state = "flat"
    else:
        state = "charged" if charge >= CHARGED_PERCENT else "charge it" if charge >= LOW_PERCENT else "low"
    told = {"voltage": Figure(voltage_v, "V"), "charge": Figure(float(round(charge)), "%")}
    if abs(corrected_v - voltage_v) < LEAST_SHIFT_V:
        reasons = [say("battery.reads", **told)]
    else:
        reasons = [say("battery.reads_corrected", corrected=Figure(corrected_v, "V"), temp=Figure(temp_c, "C"), **told)]
    if is_above:
        reasons.append(say("battery.surface"))
    elif state == "not rested":
        reasons.append(say("battery.not_rested"))
    elif rest_h is None:
        reasons.append(say("battery.rest_not_known"))
    if state != "not rested":
        reasons.append(say("battery.is_full" if charge >= FULL_PERCENT else f"battery.is_{state.replace(' ', '_')}"))
    if corrected_v < DEAD_V:
        reasons.append(say("battery.cell"))
    reasons.append(say("battery.freezes", freeze=Figure(float(round(freeze_c)), "C"), hopeful=Figure(float(round(hopeful_c)), "C")))
    if temp_c <= freeze_c:
        reasons.append(say("battery.may_be_frozen"))
    return BatteryState(state, charge, freeze_c, tuple(reasons))

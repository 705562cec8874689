"""The vectorised calculations beside the same arithmetic in plain NumPy, as pairs of calls on a million values."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from twomarks.reference.circuits import battery_at_rest, glycol
from twomarks.reference.tables import viscosity_index_basis
from twomarks.trade.battery import VOLT_PER_C, battery_charge
from twomarks.trade.blending import blend_by_volume_astm_d7152
from twomarks.trade.coolant import freeze_point, glycol_after_refills
from twomarks.trade.drain_hole import GRAVITY_M_S2, SHARP_EDGED, Hole, hole_velocity_m_s, orifice_drain_s
from twomarks.trade.film import film_mean_mm
from twomarks.trade.level import Reading, Stick, drain_back_l, oil_volume_l
from twomarks.trade.torque import adapter_setting
from twomarks.trade.tyres import tyre_pressure
from twomarks.trade.viscosity import walther_line
from twomarks.trade.viscosity_index import viscosity_index
from twomarks.trade.volume import K1_PER_C, volume_at, volume_correction_factor

__all__ = ["VALUES", "cases"]

VALUES = 1_000_000
Case = tuple[Callable[[], Any], Callable[[], Any]]


def cases() -> dict[str, Case]:
    """Return by name the call of the engineering and the plain arithmetic that it stands for."""
    return {**_of_viscosity(), **_of_volume_and_level(), **_of_other_circuits()}


def _of_volume_and_level() -> dict[str, Case]:
    """Return the pairs of volume, draining and level."""
    chance = np.random.default_rng(20261125)

    def between(low: float, high: float) -> Any:
        return chance.uniform(low, high, VALUES)

    density, temp_c, volume_l = between(810.0, 1100.0), between(-40.0, 140.0), between(1.0, 9.0)
    kv_mm2_s, head_m, fraction, minutes = between(5.0, 3000.0), between(0.01, 0.4), between(0.0, 1.4), between(0.0, 60.0)
    stick = Stick(full_l=4.7, between_marks_l=1.1)

    def factor(density: Any, temp_c: Any) -> Any:
        growth = K1_PER_C / density * (temp_c - 15.0)
        return np.exp(-growth * (1.0 + 0.8 * growth))

    def film() -> Any:
        return 2000.0 / 3.0 * np.sqrt(kv_mm2_s / 1000.0 * 0.3 / (density * GRAVITY_M_S2 * head_m))

    def drained() -> Any:
        left_m = 0.0
        return 2.0 * 0.04 * (np.sqrt(head_m) - np.sqrt(left_m)) / (SHARP_EDGED * 1e-4 * math.sqrt(2.0 * GRAVITY_M_S2))

    def speed() -> Any:
        square = 1.0 / (2.0 * GRAVITY_M_S2 * SHARP_EDGED**2)
        line = (32.0 * 15.0 / 14.0 + 6.0 * math.pi) * kv_mm2_s * 1e-6 / 0.014 / GRAVITY_M_S2
        return 2.0 * head_m / (line + np.sqrt(line * line + 4.0 * square * head_m))

    def read() -> Any:
        hot_l = 4.7 - (1.0 - fraction) * 1.1 + 0.5 * np.exp(-minutes / 3.0)
        return hot_l * factor(860.0, temp_c) / factor(860.0, np.float64(20.0))

    return {
        "volume correction factor": (
            lambda: volume_correction_factor(density15_kg_m3=density, temp_c=temp_c),
            lambda: factor(density, temp_c),
        ),
        "volume at another temperature": (
            lambda: volume_at(volume_l=volume_l, temp_c=temp_c, to_temp_c=90.0, density15_kg_m3=density),
            lambda: volume_l * factor(density, temp_c) / factor(density, 90.0),
        ),
        "film on a wall": (
            lambda: film_mean_mm(dynamic_viscosity_mpa_s=kv_mm2_s, density_kg_m3=density, wall_height_m=0.3, time_s=head_m),
            film,
        ),
        "emptying through a hole": (lambda: orifice_drain_s(surface_m2=0.04, hole_m2=1e-4, head_m=head_m), drained),
        "speed through a hole": (lambda: hole_velocity_m_s(Hole(14.0, 15.0), head_m=head_m, kv_mm2_s=kv_mm2_s), speed),
        "oil not yet run down": (lambda: drain_back_l(minutes_min=minutes), lambda: 0.5 * np.exp(-minutes / 3.0)),
        "litres of a reading": (lambda: oil_volume_l(stick, Reading(fraction, temp_c, minutes)), read),
    }


def _of_viscosity() -> dict[str, Case]:
    """Return the pairs of the viscosity line, the index and blends."""
    chance = np.random.default_rng(20261126)
    kv40, temp_c = chance.uniform(20.0, 300.0, VALUES), chance.uniform(0.0, 150.0, VALUES)
    kv100 = np.clip(kv40**0.6, 2.5, kv40 - 1.0)
    share = chance.uniform(0.1, 0.9, VALUES)
    line = walther_line(kv_low_mm2_s=73.3, temp_low_c=40.0, kv_high_mm2_s=8.86, temp_high_c=100.0)
    ys, lows, highs = (np.array(column) for column in zip(*viscosity_index_basis(), strict=True))

    def on_line() -> Any:
        return 10.0**10.0 ** (line.a - line.b * np.log10(temp_c + 273.15)) - 0.7

    def index() -> Any:
        low, high = np.interp(kv100, ys, lows), np.interp(kv100, ys, highs)
        power = np.log10(high / kv40) / np.log10(kv100)
        return np.where(kv40 > high, 100.0 * (low - kv40) / (low - high), 100.0 + (10.0**power - 1.0) / 0.00715)

    def blended() -> Any:
        one, other = np.log10(np.log10(kv40 + 0.7)), np.log10(np.log10(kv100 + 0.7))
        total = share + (1.0 - share)
        return 10.0**10.0 ** ((share * one + (1.0 - share) * other) / total) - 0.7

    return {
        "viscosity on a line": (lambda: line.kinematic_viscosity(temp_c=temp_c), on_line),
        "viscosity index": (lambda: viscosity_index(kv40_mm2_s=kv40, kv100_mm2_s=kv100), index),
        "blend of two oils": (
            lambda: blend_by_volume_astm_d7152(kv_mm2_s=(kv40, kv100), volume_l=(share, 1.0 - share)).kv_mm2_s,
            blended,
        ),
    }


def _of_other_circuits() -> dict[str, Case]:
    """Return the pairs of coolant, tyres, battery and adapter."""
    chance = np.random.default_rng(20261127)
    percent, bar = chance.uniform(0.0, 60.0, VALUES), chance.uniform(1.0, 8.0, VALUES)
    cold_c, warm_c = chance.uniform(-40.0, 20.0, VALUES), chance.uniform(20.0, 80.0, VALUES)
    volts, torque_nm = chance.uniform(11.9, 12.7, VALUES), chance.uniform(5.0, 300.0, VALUES)
    reach_m, angle_deg = chance.uniform(0.02, 0.2, VALUES), chance.uniform(0.0, 90.0, VALUES)
    # The table begins with water; its rows rise with the share.
    shares = [0.0, *(row.volume_percent for row in glycol("ethylene") if row.volume_percent > 0.0)]
    points = [0.0, *(row.freeze_c for row in glycol("ethylene") if row.volume_percent > 0.0)]
    rest = battery_at_rest()
    at_rest, charges = [row.rest_voltage_v for row in rest], [row.charge_percent for row in rest]

    def pressure() -> Any:
        return (bar + 1.01325) * (warm_c + 273.15) / (cold_c + 273.15) - 1.01325

    def charge() -> Any:
        at_80f = volts + VOLT_PER_C * (cold_c - 80.0 / 1.8 + 32.0 / 1.8)
        return np.interp(np.where(at_80f < at_rest[0], at_rest[0], np.where(at_80f > at_rest[-1], at_rest[-1], at_80f)), at_rest, charges)

    def setting() -> Any:
        return torque_nm * 0.4 / (0.4 + reach_m * np.cos(np.radians(angle_deg)))

    def refilled() -> Any:
        return 50.0 + (percent - 50.0) * (1.0 - 0.6) ** 3

    return {
        "freezing of coolant": (
            lambda: freeze_point(glycol="ethylene", volume_percent=percent),
            lambda: np.interp(percent, shares, points),
        ),
        "coolant after refills": (
            lambda: glycol_after_refills(start_percent=percent, new_percent=50.0, drained_percent=60.0, times=3),
            refilled,
        ),
        "pressure of a tyre": (lambda: tyre_pressure(pressure_bar=bar, temp_c=cold_c, to_temp_c=warm_c), pressure),
        "charge of a battery": (lambda: battery_charge(voltage_v=volts, temp_c=cold_c), charge),
        "setting behind an adapter": (
            lambda: adapter_setting(torque_nm=torque_nm, wrench_length_m=0.4, adapter_length_m=reach_m, angle_deg=angle_deg),
            setting,
        ),
    }

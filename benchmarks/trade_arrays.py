"""What the checks of a vectorised calculation cost: a million values at once, beside the same arithmetic in plain NumPy.

Each case is a pair of calls, taken in turns; the ratio of their medians is what counts.
"""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable
from typing import Any

import numpy as np

from benchmarks.evidence import write
from benchmarks.reference_load import load_ms
from benchmarks.stopwatch import median_ms
from twomarks.trade.drain_hole import GRAVITY_M_S2, SHARP_EDGED, Hole, hole_velocity_m_s, orifice_drain_s
from twomarks.trade.film import film_mean_mm
from twomarks.trade.level import Reading, Stick, drain_back_l, oil_volume_l
from twomarks.trade.volume import K1_PER_C, volume_at, volume_correction_factor

VALUES = 1_000_000
RUNS = 9
IMPORT_RUNS = 7
AT_MOST = 3.0
IMPORT_AT_MOST = 1.5
IMPORTS = {"import numpy": ["-c", "import numpy"], "import twomarks.trade": ["-c", "import twomarks.trade"]}
Case = tuple[Callable[[], Any], Callable[[], Any]]


def cases() -> dict[str, Case]:
    """Return by name the call of the engineering and the plain arithmetic that it stands for."""
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


def main() -> None:
    """Time every pair, print the ratios, and write the evidence."""
    here_ms = load_ms()
    result: dict[str, object] = {"load_ms": round(here_ms, 1)}
    for name, (ours, plain) in cases().items():
        times: tuple[list[float], list[float]] = ([], [])
        for turn in range(RUNS + 1):
            for taken, call in zip(times, (ours, plain), strict=True):
                began = time.perf_counter()
                call()
                if turn:
                    taken.append(1000.0 * (time.perf_counter() - began))
        ours_ms, plain_ms = (statistics.median(taken) for taken in times)
        ratio = ours_ms / plain_ms
        held = "held" if ratio <= AT_MOST else "NOT HELD"
        print(f"   {name}: {ours_ms:.1f} ms, {ratio:.2f} x plain NumPy (at most {AT_MOST:g}): {held}")
        result[name] = {"ms": round(ours_ms, 1), "times_plain_numpy": round(ratio, 2), "at_most": AT_MOST}
    started = median_ms(IMPORTS, runs=IMPORT_RUNS)
    ratio = started["import twomarks.trade"] / started["import numpy"]
    held = "held" if ratio <= IMPORT_AT_MOST else "NOT HELD"
    print(f"   import twomarks.trade: {ratio:.2f} x import numpy (at most {IMPORT_AT_MOST:g}): {held}")
    result["import twomarks.trade"] = {"times_import_numpy": round(ratio, 2), "at_most": IMPORT_AT_MOST}
    write("trade_arrays", result, counts={"values": VALUES, "runs": RUNS})

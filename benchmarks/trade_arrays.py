"""What the checks of a vectorised calculation cost: a million values at once, beside the same arithmetic in plain NumPy.

Each case is a pair of calls, taken in turns; the ratio of their medians is what counts.
"""

from __future__ import annotations

import statistics
import time

from benchmarks.evidence import write
from benchmarks.reference_load import load_ms
from benchmarks.stopwatch import median_ms
from benchmarks.trade_array_cases import VALUES, cases

RUNS = 9
IMPORT_RUNS = 7
AT_MOST = 3.0
IMPORT_AT_MOST = 1.5
EVERY_MODULE = """
import importlib, pkgutil, twomarks.trade as room
for module in pkgutil.iter_modules(room.__path__, room.__name__ + "."):
    importlib.import_module(module.name)
"""
IMPORTS = {"import numpy": ["-c", "import numpy"], "import twomarks.trade": ["-c", EVERY_MODULE]}
"""All of the engineering, module by module: the package alone loads none of them."""


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

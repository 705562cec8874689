"""The fixed work that every time is measured against, timed in the same run, so that results of two machines compare."""

from __future__ import annotations

import statistics
import time

__all__ = ["REFERENCE_MS", "RUNS", "at_reference_ms", "load", "load_ms"]

RUNS = 15
REFERENCE_MS = 100.0
"""A time stated for Twomarks holds on a machine where the load takes this long."""


def load() -> int:
    """Do the work once: a loop of whole numbers, then array work that leaves the caches."""
    import numpy as np

    s = 0
    for i in range(640_000):
        s += i % 7
    for _ in range(11):
        np.sort(np.sin(np.arange(200_000.0)))
    return s


def load_ms(runs: int = RUNS) -> float:
    """Return the median time of the work [ms]."""
    load()
    times = []
    for _ in range(runs):
        began = time.perf_counter()
        load()
        times.append(time.perf_counter() - began)
    return 1000.0 * statistics.median(times)


def at_reference_ms(measured_ms: float, *, load_here_ms: float) -> float:
    """Return what `measured_ms` would be where the load takes `REFERENCE_MS` [ms]."""
    return measured_ms * REFERENCE_MS / load_here_ms

"""Timing of whole processes, one beside the other, so that a busy machine slows all of them alike."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence

__all__ = ["median_ms", "python_ms"]


def python_ms(arguments: Sequence[str], *, extra: Mapping[str, str] | None = None, allowed: Sequence[int] = (0,)) -> float:
    """Return how long a new Python with `arguments` took from start to end [ms]."""
    # An owner's Python keeps the code it compiled; one that is told not to would compile everything anew at each start.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"} | dict(extra or {})
    began = time.perf_counter()
    done = subprocess.run([sys.executable, *arguments], capture_output=True, text=True, check=False, env=env)
    took_ms = 1000.0 * (time.perf_counter() - began)
    if done.returncode not in allowed:
        raise RuntimeError(done.stderr.strip() or done.stdout.strip())
    return took_ms


def median_ms(commands: Mapping[str, Sequence[str]], *, runs: int, extra: Mapping[str, str] | None = None) -> dict[str, float]:
    """Return the median time of each command [ms], taken in turns after one round that only warms the disk."""
    times: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(runs + 1):
        for name, arguments in commands.items():
            took_ms = python_ms(arguments, extra=extra)
            if turn:
                times[name].append(took_ms)
    return {name: statistics.median(taken) for name, taken in times.items()}

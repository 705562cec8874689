"""How long a command takes from a cold start, against a Python that only imports numpy.

An answer is kept until a row or a document changes. "worked out" takes away what is kept before every run; "asked again"
is the same command while nothing has changed.
"""

from __future__ import annotations

import contextlib
import json
import os
import sqlite3
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from benchmarks.evidence import write
from benchmarks.reference_load import at_reference_ms, load_ms
from benchmarks.stopwatch import median_ms, python_ms

ON = "2026-11-25"
RUNS = 9
LIMITS = {"due": 4.0, "prepare": 10.0}
AGAIN, ANEW = "asked again", "worked out"
BASE = "import numpy"


def main() -> None:
    """Time `due` and `prepare` on the demo household, print their ratios and the share of each stage, and write the evidence."""
    with tempfile.TemporaryDirectory() as home:
        _twomarks("demo", "--no-serve", "--home", home, "--on", ON)
        options = ["--json", "--home", home, "--on", ON]
        commands = {BASE: ["-c", BASE]} | {f"{name}, {AGAIN}": ["-m", "twomarks.app", name, *options] for name in LIMITS}
        times = median_ms(commands, runs=RUNS)
        for name in LIMITS:
            times[f"{name}, {ANEW}"] = statistics.median(_anew_ms(name, options, Path(home)) for _ in range(RUNS))
        here_ms = load_ms()
        result: dict[str, object] = {"load_ms": round(here_ms, 1), "import_numpy_ms": round(times[BASE], 1)}
        print(f"   {BASE}: {times[BASE]:.0f} ms; the reference load takes {here_ms:.0f} ms here")
        for name, limit in LIMITS.items():
            for way in (AGAIN, ANEW):
                took_ms = times[f"{name}, {way}"]
                ratio = took_ms / times[BASE]
                held = "held" if ratio <= limit else "NOT HELD"
                print(f"   {name}, {way}: {took_ms:.0f} ms, {ratio:.2f} x {BASE} (at most {limit:g}): {held}")
                result[f"{name}, {way}"] = {
                    "ms": round(took_ms, 1),
                    "at_reference_ms": round(at_reference_ms(took_ms, load_here_ms=here_ms), 1),
                    "times_import_numpy": round(ratio, 2),
                    "at_most": limit,
                }
        stages = _stages("prepare", options)
        for stage, took_ms in stages.items():
            print(f"      {stage:<28} {took_ms:7.1f} ms  {100 * took_ms / sum(stages.values()):5.1f} %")
        result["stages_ms"] = stages
    write("cold_start", result, counts={"runs": RUNS})


def _anew_ms(name: str, options: list[str], home: Path) -> float:
    """Return how long a command takes when nothing of its answer is kept [ms]."""
    with contextlib.closing(sqlite3.connect(home / "twomarks.sqlite3")) as connection, connection:
        connection.execute("DELETE FROM derived WHERE what LIKE 'due %' OR what LIKE 'prepare %'")
    return python_ms(["-m", "twomarks.app", name, *options])


def _twomarks(*words: str, timings: bool = False) -> subprocess.CompletedProcess[str]:
    env = {**os.environ, **({"TWOMARKS_TIMINGS": "1"} if timings else {})}
    return subprocess.run([sys.executable, "-m", "twomarks.app", *words], capture_output=True, text=True, check=True, env=env)


def _stages(name: str, options: list[str]) -> dict[str, float]:
    """Return what the command itself says of its stages: the last line of its error stream, as JSON."""
    said = _twomarks(name, *options, timings=True).stderr.strip().splitlines()
    if not said or not said[-1].startswith("{"):
        return {}
    return {str(stage): round(1000.0 * float(took_s), 1) for stage, took_s in json.loads(said[-1]).items()}

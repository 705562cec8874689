"""How long the forecast of very many vehicles takes, on two cores, and whether the cost of one stays the same.

A million invented vehicles with 24 readings each, about a month apart; two processes take half of them each. The time is
given as it would be where the reference load takes 100 ms.
"""

from __future__ import annotations

import multiprocessing
import resource
import time
from typing import Any

import numpy as np

from benchmarks.evidence import write
from benchmarks.reference_load import at_reference_ms, load_ms
from twomarks.planning.usage import prior_of
from twomarks.planning.usage.many import CHUNK, forecast_many

COUNTS = (10_000, 100_000, 1_000_000)
READINGS = 24
HORIZON_DAYS = 90.0
CORES = 2
RUNS = 5
SEED = 9
MOST_S = 5.0


def _fleet(count: int, seed: int) -> tuple[Any, Any]:
    """Return invented days and values: a month between readings, more or less, at a rate that differs by vehicle and wanders."""
    chance = np.random.default_rng(seed)
    gaps = chance.integers(20, 41, (count, READINGS - 1))
    rates = chance.gamma(4.0, 9.0, (count, 1)) * chance.gamma(6.0, 1 / 6.0, gaps.shape)
    days = 738_000.0 + np.concatenate([np.zeros((count, 1)), np.cumsum(gaps, axis=1)], axis=1)
    values = 10_000.0 + np.concatenate([np.zeros((count, 1)), np.cumsum(np.round(gaps * rates, 1), axis=1)], axis=1)
    return days, values


def _work(count: int, seed: int, pipe: Any) -> None:
    days, values = _fleet(count, seed)
    prior = prior_of("car", "petrol")
    forecast_many(days=days[:CHUNK], values_km=values[:CHUNK], horizon_days=HORIZON_DAYS, prior=prior)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    pipe.send("ready")
    while pipe.recv() == "run":
        began = time.process_time()
        found = forecast_many(days=days, values_km=values, horizon_days=HORIZON_DAYS, prior=prior)
        pipe.send((found.one_by_one, time.process_time() - began))
    # What the answers take grows with the vehicles; what is needed beside them has to stay as it is.
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    pipe.send(max(0.0, grown / 1024 - 4 * 8 * count / 2**20))


def timed(count: int) -> dict[str, Any]:
    """Return figures for `count` vehicles, two processes at a time.

    Seconds, and seconds that both were busy for, are those of the reference machine: each run is set against the load
    timed just before it. The memory is what is needed beside input and answers.
    """
    start = multiprocessing.get_context("spawn")
    pipes, workers = [], []
    for core in range(CORES):
        here, there = start.Pipe()
        worker = start.Process(target=_work, args=(count // CORES, SEED + core, there))
        worker.start()
        pipes.append(here)
        workers.append(worker)
    for pipe in pipes:
        pipe.recv()
    times, busy, alone = [], [], 0
    for _ in range(RUNS):
        here_ms = load_ms(5)
        began = time.perf_counter()
        for pipe in pipes:
            pipe.send("run")
        told = [pipe.recv() for pipe in pipes]
        times.append(at_reference_ms(time.perf_counter() - began, load_here_ms=here_ms))
        alone = sum(one for one, _ in told)
        busy.append(at_reference_ms(sum(one for _, one in told), load_here_ms=here_ms))
    for pipe in pipes:
        pipe.send("end")
    extra_mb = max(pipe.recv() for pipe in pipes)
    for worker in workers:
        worker.join()
    return {
        "seconds": float(np.median(times)),
        "busy": float(np.median(busy)),
        "one_by_one": alone,
        "extra_mb_per_process": round(extra_mb, 1),
    }


def main() -> None:
    """Time the forecast for a growing number of vehicles and write the evidence."""
    result: dict[str, Any] = {"readings": READINGS, "cores": CORES, "chunk": CHUNK, "at_most_s": MOST_S, "vehicles": {}}
    for count in COUNTS:
        found = timed(count)
        seconds = found.pop("seconds")
        each = 1e6 * found.pop("busy") / count
        result["vehicles"][str(count)] = {"at_reference_s": round(seconds, 2), "processor_us_each": round(each, 2), **found}
        print(f"   {count:>9,} vehicles: {seconds:5.2f} s at the reference load, {each:.2f} us of a processor each, {found}")
    write("many_vehicles", result, seed=SEED, counts={"vehicles": COUNTS[-1], "readings": READINGS})


if __name__ == "__main__":
    main()

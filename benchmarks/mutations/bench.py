"""The bench: every operator on every correct job, a seeded draw of each where there are many, on two processes."""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from typing import Any

from benchmarks.evidence import write
from benchmarks.mutations.cases import correct_jobs
from benchmarks.mutations.mutant import Mutant
from benchmarks.mutations.registry import GROUPS, operators
from benchmarks.mutations.score import Result, score

__all__ = ["AT_LEAST", "FEWEST", "LEAST", "LEAST_EACH", "MOST_EACH", "MOST_SAME", "SEED", "draw", "found_share", "run", "scored"]

SEED = 20
FEWEST = 2000
AT_LEAST = 50
MOST_EACH = 500
LEAST = 0.95
LEAST_EACH = 0.80
MOST_SAME = 0.10
PROCESSES = 2
STATES = ("found", "elsewhere", "silent", "broke", "same")
CHUNK = 25

Drawn = tuple[str, str, int, int]
"""A mutant by group, operator, number of its job and number among those that the operator makes of that job."""


def draw(*, seed: int = SEED, most_each: int = MOST_EACH) -> list[Drawn]:
    """Return which mutants are made: all of an operator, or as many as `most_each` drawn by `seed`."""
    drawn: list[Drawn] = []
    jobs = list(correct_jobs())
    for group in GROUPS:
        for name, operator in operators(group).items():
            every = [(group, name, number, which) for number, job in enumerate(jobs) for which, _ in enumerate(operator(job.case))]
            chance = random.Random(f"{seed} {name}")
            drawn += every if len(every) <= most_each else sorted(chance.sample(every, most_each))
    return drawn


def scored(drawn: Sequence[Drawn]) -> list[Result]:
    """Return what became of each mutant drawn."""
    jobs = list(correct_jobs())
    made: dict[tuple[str, str, int], list[Mutant]] = {}
    results = []
    for group, name, number, which in drawn:
        key = (group, name, number)
        if key not in made:
            made[key] = list(operators(group)[name](jobs[number].case))
        results.append(score(jobs[number], name, made[key][which]))
    return results


def found_share(results: Sequence[Result]) -> float:
    """Return the share of the mistakes that are found, those that are none left out."""
    counted = [one for one in results if one.state != "same"]
    return sum(one.state == "found" for one in counted) / len(counted) if counted else 1.0


def run() -> None:
    """Score every mutant drawn, print the scores and every equivalent one, and write the evidence."""
    began = time.perf_counter()
    jobs = list(correct_jobs())
    wrong = [(job.case.name, one.rule, one.step) for job in jobs for one in job.correct.findings if one.grade != "advice"]
    drawn = draw()
    results = list(_in_two_processes(drawn))
    by_group = {group: [one for one, which in zip(results, drawn, strict=True) if which[0] == group] for group in GROUPS}
    print(f"   {len(jobs)} correct jobs, findings above advice on them: {len(wrong)}")
    for rule in wrong:
        print(f"      {' | '.join(rule)}")
    result: dict[str, Any] = {"jobs": [job.case.name for job in jobs], "wrong_on_the_correct_ones": [" | ".join(one) for one in wrong]}
    for group, scores in by_group.items():
        if scores:
            result[group] = _told(group, scores)
    result["held"] = _held(by_group["operators"], wrong)
    result["survivors"] = _survivors(results)
    result["equivalent"] = [f"{one.case}: {one.what}: {one.same}" for one in results if one.state == "same"]
    print("   held to be as correct as before, by syntax alone:")
    for line in result["equivalent"]:
        print(f"      {line}")
    for what, held in result["held"].items():
        print(f"   {what}: {'held' if held else 'NOT HELD'}")
    print(f"   {time.perf_counter() - began:.0f} s")
    write("mutations", result, seed=SEED, counts={"mutants": len(results), "jobs": len(jobs)})


def _in_two_processes(drawn: Sequence[Drawn]) -> Iterator[Result]:
    chunks = [drawn[start : start + CHUNK] for start in range(0, len(drawn), CHUNK)]
    with ProcessPoolExecutor(PROCESSES) as pool:
        for number, results in enumerate(pool.map(scored, chunks), start=1):
            _progress(number, len(chunks))
            yield from results


def _progress(done: int, of: int) -> None:
    if sys.stderr.isatty():
        bar = "#" * round(40 * done / of)
        print(f"\r   [{bar:<40}] {100 * done // of:3d} %", end="\n" if done == of else "", file=sys.stderr, flush=True)


def _told(group: str, results: Sequence[Result]) -> dict[str, Any]:
    """Print the scores of a group, operator by operator, and return them."""
    print(f"   {group}: {len(results)} mutants, {100 * found_share(results):.1f} % found")
    told: dict[str, Any] = {}
    for name in operators(group):
        ours = [one for one in results if one.operator == name]
        states: Counter[str] = Counter(one.state for one in ours)
        share = f"{100 * found_share(ours):5.1f} %" if ours else "no job for it yet"
        few = "" if len(ours) >= AT_LEAST else f"  (fewer than {AT_LEAST})"
        counts = "  ".join(f"{states[state]} {state}" for state in STATES if states[state])
        print(f"      {name:<28}{len(ours):5d}: {share}  {counts}{few}")
        told[name] = {"mutants": len(ours), **{state: states[state] for state in STATES if states[state]}}
        if ours:
            told[name]["found_percent"] = round(100 * found_share(ours), 1)
    return {"mutants": len(results), "found_percent": round(100 * found_share(results), 1), "by_operator": told}


def _held(results: Sequence[Result], wrong: Sequence[object]) -> dict[str, bool]:
    each = [[one for one in results if one.operator == name] for name in operators("operators")]
    same = sum(one.state == "same" for one in results)
    return {
        f"at least {FEWEST} mutants": len(results) >= FEWEST,
        f"at least {AT_LEAST} an operator": all(len(ours) >= AT_LEAST for ours in each),
        f"{100 * LEAST:.0f} % found": found_share(results) >= LEAST,
        f"no operator below {100 * LEAST_EACH:.0f} %": all(found_share(ours) >= LEAST_EACH for ours in each),
        f"at most {100 * MOST_SAME:.0f} % equivalent": same <= MOST_SAME * len(results),
        "no finding above advice on the correct jobs": not wrong,
    }


def _survivors(results: Sequence[Result]) -> dict[str, list[str]]:
    """Return by operator each mistake that was not found, where it was made, and what was told of something else, if anything."""
    left: dict[str, list[str]] = {}
    for one in results:
        if one.state not in ("found", "same"):
            by = f" by {one.by}" if one.by else ""
            left.setdefault(one.operator, []).append(f"{one.case} | {one.what} | {', '.join(one.steps)} | {one.state}{by}")
    return left

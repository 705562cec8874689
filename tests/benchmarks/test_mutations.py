"""The measure of the rehearsal: its operators know documents alone, draw the same every time, and make one real mistake each."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

import pytest

import benchmarks.mutations
from benchmarks.mutations.bench import MOST_SAME, draw, found_share, scored
from benchmarks.mutations.cases import VEHICLES, correct_jobs
from benchmarks.mutations.mutant import Mutant
from benchmarks.mutations.registry import GROUPS, operators
from benchmarks.mutations.score import score

FOLDER = Path(benchmarks.mutations.__file__).parent
OPERATOR_FILES = [path for group in GROUPS for path in sorted((FOLDER / group).glob("*.py"))]
SERVES = ("dependency.py", "edits.py", "elsewhere.py", "mutant.py", "registry.py")
ALLOWED = (
    "twomarks.model",
    "benchmarks.mutations.dependency",
    "benchmarks.mutations.edits",
    "benchmarks.mutations.elsewhere",
    "benchmarks.mutations.mutant",
)
NAMED = [(group, name) for group in GROUPS for name in operators(group)]


def forbidden(text: str) -> list[str]:
    """Return what a file imports of the project beyond the documents and the operators' own ground."""
    found: list[str] = []
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            found += [one.name for one in node.names]
        elif isinstance(node, ast.ImportFrom):
            found.append(node.module or "")
    return [name for name in found if name.split(".")[0] in ("twomarks", "benchmarks") and not name.startswith(ALLOWED)]


@pytest.mark.parametrize("path", [*OPERATOR_FILES, *(FOLDER / name for name in SERVES)], ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_an_operator_knows_documents_and_no_rule(path: Path) -> None:
    assert forbidden(path.read_text("utf-8")) == []


@pytest.mark.parametrize(
    "line",
    ["from twomarks.procedures.rules import RULES", "import twomarks.procedures.state", "from benchmarks.mutations.score import score"],
)
def test_a_planted_import_of_a_rule_is_caught(line: str) -> None:
    assert forbidden(f"def late() -> None:\n    {line}\n") != []


@pytest.mark.parametrize(("group", "name"), NAMED, ids=lambda value: value)
def test_a_mistake_changes_the_job_and_says_where(group: str, name: str) -> None:
    for job in correct_jobs():
        there = {one["id"] for part in ("steps", "follow_ups") for one in job.case.procedure.get(part, ())}
        whats = []
        for mutant in operators(group)[name](job.case):
            changed = [mutant.procedure not in (None, job.case.procedure), mutant.sheet not in (None, job.case.sheet), bool(mutant.kit)]
            assert any(changed) or mutant.same, mutant.what
            assert mutant.steps or mutant.things
            assert mutant.steps <= there | set(mutant.copies)
            whats.append(mutant.what)
        assert [what for what, count in Counter(whats).items() if count > 1] == []


def test_every_vehicle_has_a_correct_job() -> None:
    assert {job.bound.sheet.name.casefold() for job in correct_jobs()} >= set(VEHICLES)


def test_a_procedure_for_one_kind_of_filter_is_tried_on_three_vehicles() -> None:
    jobs = Counter(job.bound.procedure.key for job in correct_jobs() if job.bound.procedure.applies.filter)
    assert set(jobs.values()) == {3}


def test_the_draw_is_the_same_every_time_and_another_seed_draws_others() -> None:
    assert draw(seed=1, most_each=5) == draw(seed=1, most_each=5)
    assert draw(seed=1, most_each=5) != draw(seed=2, most_each=5)


def test_a_mistake_that_is_none_is_not_found() -> None:
    for job in correct_jobs():
        nothing = Mutant(
            what="nothing", procedure=dict(job.case.procedure), steps=frozenset(job.case.worked), things=frozenset(job.case.roles)
        )
        assert score(job, "none", nothing).state == "silent"


def test_what_is_told_of_something_else_does_not_count() -> None:
    job = next(one for one in correct_jobs() if one.bound.procedure.key == "engine-oil-spin-on")
    small = Mutant(what="a small pan", kit={"pan_l": 0.5}, steps=frozenset({"nowhere"}), things=frozenset({"nothing"}))
    at_pan = Mutant(what="a small pan", kit={"pan_l": 0.5}, things=frozenset({"pan"}))
    assert (score(job, "pan", small).state, score(job, "pan", at_pan).state) == ("elsewhere", "found")


def test_a_seeded_slice_is_found_as_far_as_it_was() -> None:
    drawn = [one for one in draw(most_each=12) if one[0] == "operators"]
    results = scored(drawn)
    assert sum(one.state == "same" for one in results) <= MOST_SAME * len(results)
    assert found_share(results) >= LEAST_OF_THE_SLICE


LEAST_OF_THE_SLICE = 0.93
"""What the rules find of the slice at least; raised as they find more, never lowered."""

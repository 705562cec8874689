"""The locks, the project file and the start file agree."""

from __future__ import annotations

import ast
import os
import re
import sys
from pathlib import Path

import pytest

from tests.repo.ground import ROOT, project

PINNED = re.compile(r"^([A-Za-z0-9._-]+)==([^ ;\\]+)", re.MULTILINE)
LOCKS = ("run", "dev", "reference")


def wanted(name: str) -> set[str]:
    lines = (line.split("#")[0].strip() for line in (ROOT / "lock" / f"{name}.in").read_text("utf-8").splitlines())
    return {line.replace(" ", "") for line in lines if line and not line.startswith("-r")}


def pinned(name: str) -> dict[str, set[str]]:
    versions: dict[str, set[str]] = {}
    for package, version in PINNED.findall((ROOT / "lock" / f"{name}.txt").read_text("utf-8")):
        versions.setdefault(package.lower().replace("_", "-").replace(".", "-"), set()).add(version)
    return versions


def test_what_runs_is_listed_once() -> None:
    assert wanted("run") == {line.replace(" ", "").replace("'", '"') for line in project()["project"]["dependencies"]}


@pytest.mark.parametrize("name", LOCKS)
def test_every_wish_is_locked(name: str) -> None:
    wishes = {re.split(r"[<>=~;]", wish)[0].lower().replace("_", "-") for wish in wanted(name)}
    assert wishes <= set(pinned(name))


@pytest.mark.parametrize("name", LOCKS)
def test_every_package_has_a_hash(name: str) -> None:
    text = (ROOT / "lock" / f"{name}.txt").read_text("utf-8")
    blocks = re.split(r"(?m)^(?=[A-Za-z0-9])", text)[1:]
    assert blocks
    assert [block.splitlines()[0] for block in blocks if "--hash=sha256:" not in block] == []


@pytest.mark.parametrize(("smaller", "larger"), [("run", "dev"), ("dev", "reference")])
def test_the_larger_lock_holds_the_smaller_with_the_same_versions(smaller: str, larger: str) -> None:
    there = pinned(larger)
    assert {name: there.get(name) for name in pinned(smaller)} == pinned(smaller)


def test_no_package_is_locked_in_two_versions() -> None:
    assert {name: versions for lock in LOCKS for name, versions in pinned(lock).items() if len(versions) > 1} == {}


def test_the_start_file_can_be_read_by_an_old_python() -> None:
    ast.parse((ROOT / "start.py").read_text("utf-8"), feature_version=(3, 6))
    assert "f'" not in (ROOT / "start.py").read_text("utf-8").replace("if'", "")


def test_the_start_file_needs_the_standard_library_alone() -> None:
    tree = ast.parse((ROOT / "start.py").read_text("utf-8"))
    names = {alias.name.split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    names |= {(node.module or "").split(".")[0] for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert names <= sys.stdlib_module_names


@pytest.mark.skipif(os.name == "nt", reason="no execute bit on Windows")
@pytest.mark.parametrize("name", [".ci/run", "start.py", "lock/renew.sh"])
def test_what_is_started_can_be_started(name: str) -> None:
    assert os.access(Path(ROOT, name), os.X_OK)

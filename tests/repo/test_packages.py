"""Every package that is asked for is used, and every package that is used is asked for."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.repo.ground import ROOT, project


def said_by_deptry(folder: Path) -> tuple[int, str]:
    done = subprocess.run([sys.executable, "-m", "deptry", "--no-ansi", "src"], cwd=folder, capture_output=True, text=True)
    return done.returncode, done.stdout + done.stderr


def test_every_package_earns_its_place() -> None:
    code, said = said_by_deptry(ROOT)
    assert code == 0, said


@pytest.mark.parametrize(("text", "told"), [("import numpy\n", "'numpy' imported"), ("import click\n", "DEP002 'rich'")])
def test_a_planted_package_is_seen(tmp_path: Path, text: str, told: str) -> None:
    (tmp_path / "src" / "room").mkdir(parents=True)
    (tmp_path / "src" / "room" / "__init__.py").write_text(text, "utf-8")
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "room"\nversion = "1"\ndependencies = ["click", "rich"]\n', "utf-8")
    code, said = said_by_deptry(tmp_path)
    assert code == 1
    assert told in said


def test_nothing_is_excused_that_is_not_asked_for() -> None:
    asked = " ".join(project()["project"]["dependencies"])
    assert [name for name in project()["tool"]["deptry"]["per_rule_ignores"]["DEP002"] if name not in asked] == []

"""The reference pages are what the program says today, and cover all of it."""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib

from tests.repo.ground import ROOT, SOURCE


def test_the_reference_pages_are_up_to_date() -> None:
    done = subprocess.run(
        [sys.executable, str(ROOT / "docs" / "make_reference.py"), "--check"],
        env={name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"} | {"PYTHONPATH": str(ROOT / "src")},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_source_of_the_bibliography_is_listed() -> None:
    page = (ROOT / "docs" / "reference" / "sources.md").read_text("utf-8")
    keys = tomllib.loads((SOURCE / "reference" / "sources.toml").read_text("utf-8"))
    assert [key for key in keys if f"| `{key}` |" not in page] == []


def test_every_command_is_explained() -> None:
    page = (ROOT / "docs" / "reference" / "commands.md").read_text("utf-8")
    sections = re.split(r"(?m)^## ", page)[1:]
    assert sections
    assert [section.splitlines()[0] for section in sections if len(section.splitlines()[2].split()) < 3] == []


def test_every_rule_of_the_rehearsal_is_explained() -> None:
    from twomarks.procedures.rules import RULES

    page = (ROOT / "docs" / "reference" / "rules.md").read_text("utf-8")
    rows = {line.split("`")[1]: line.split(" | ") for line in page.splitlines() if line.startswith("| `")}
    assert set(rows) == {rule.id for rule in RULES}
    assert [name for name, cells in rows.items() if len(cells) != 6 or not all(cell.strip(" |") for cell in cells)] == []

"""The arrows between the rooms hold, and the tool that holds them sees a breach."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.repo.ground import ROOMS, ROOT, SOURCE, project, skeleton

CHECK = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"


def lint(folder: Path) -> tuple[int, str]:
    done = subprocess.run(
        [sys.executable, "-c", CHECK],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder / "src"), "COLUMNS": "200"},
        capture_output=True,
        text=True,
    )
    return done.returncode, done.stdout + done.stderr


def test_the_house_keeps_its_contracts() -> None:
    code, said = lint(ROOT)
    assert code == 0, said


def test_the_rooms_of_the_tests_are_the_rooms_of_the_contract() -> None:
    layers = project()["tool"]["importlinter"]["contracts"][0]["layers"]
    assert [room.strip() for layer in layers for room in layer.split("|")] == list(ROOMS)


def test_every_room_is_there() -> None:
    there = {path.stem for path in SOURCE.iterdir() if path.suffix == ".py" or (path / "__init__.py").exists()} - {"__init__"}
    assert there == set(ROOMS)


def test_an_empty_house_is_clean(tmp_path: Path) -> None:
    code, said = lint(skeleton(tmp_path, {}))
    assert code == 0, said


@pytest.mark.parametrize(
    ("planted", "told"),
    [
        ({"units/up.py": "import twomarks.words\n"}, "twomarks.units is not allowed to import twomarks.words"),
        ({"trade/across.py": "import twomarks.model\n"}, "twomarks.trade is not allowed to import twomarks.model"),
        ({"model/across.py": "import twomarks.trade\n"}, "twomarks.model is not allowed to import twomarks.trade"),
        ({"web/across.py": "import twomarks.cli\n"}, "twomarks.web is not allowed to import twomarks.cli"),
        ({"errors.py": "import twomarks.packaged\n"}, "twomarks.errors is not allowed to import twomarks.packaged"),
        ({"attic/__init__.py": ""}, "twomarks.attic"),
        ({"planning/frame.py": "from django.db import models\n"}, "twomarks.planning is not allowed to import django"),
        ({"trade/chance.py": "import random\n"}, "twomarks.trade is not allowed to import random"),
        ({"words/clock.py": "import time\n"}, "twomarks.words is not allowed to import time"),
        ({"model/net.py": "import socket\n"}, "twomarks.model is not allowed to import socket"),
        ({"trade/late.py": "def late() -> None:\n    import pydantic\n"}, "twomarks.trade is not allowed to import pydantic"),
        ({"planning/draw.py": "import typst\n"}, "twomarks.planning is not allowed to import typst"),
    ],
    ids=lambda value: next(iter(value)) if isinstance(value, dict) else "",
)
def test_a_planted_breach_is_caught(tmp_path: Path, planted: dict[str, str], told: str) -> None:
    code, said = lint(skeleton(tmp_path, planted))
    assert code == 1, said
    assert told in said

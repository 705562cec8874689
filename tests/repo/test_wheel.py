"""What people install is what stands in the repository, and its core runs without the web."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

from tests.repo.ground import PURE, SOURCE

MEGABYTE = 1_000_000
BLOCKED = ("django", "csp", "whitenoise", "granian", "click", "rich", "typst", "platformdirs")
IMPORT_ALL = """
import importlib, pkgutil, sys

class Refusal:
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in BLOCKED:
            raise ImportError("blocked: " + name)

sys.meta_path.insert(0, Refusal())
seen = []
for room in ROOMS:
    module = importlib.import_module("twomarks." + room)
    seen.append(module.__name__)
    for found in pkgutil.walk_packages(getattr(module, "__path__", []), module.__name__ + "."):
        importlib.import_module(found.name)
        seen.append(found.name)
print(len(seen), module.__file__)
"""


def shipped() -> set[str]:
    return {path.relative_to(SOURCE.parent).as_posix() for path in SOURCE.rglob("*") if path.is_file() and "__pycache__" not in path.parts}


def test_the_wheel_holds_every_file_of_the_source(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if ".dist-info/" not in name}
    assert names == shipped()


def test_the_wheel_carries_licence_and_command(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = archive.namelist()
        points = next(archive.read(name).decode() for name in names if name.endswith(".dist-info/entry_points.txt"))
    assert "twomarks=twomarks.app.__main__:main" in points.replace(" ", "")
    assert {name.rsplit("/", 1)[-1] for name in names if "/licenses/" in name} == {"LICENSE", "NOTICE"}


def test_the_wheel_is_small(wheel: Path) -> None:
    assert wheel.stat().st_size < 2 * MEGABYTE


def test_the_core_of_the_wheel_runs_without_the_web(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path)
    code = f"ROOMS = {PURE!r}\nBLOCKED = {BLOCKED!r}\n{IMPORT_ALL}"
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", code],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(tmp_path)},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    assert str(tmp_path) in done.stdout

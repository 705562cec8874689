"""Where things stand in the repository, for the tests that read it."""

from __future__ import annotations

import ast
import shutil
import subprocess
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "twomarks"

ROOMS = (
    "app", "web", "cli", "demo", "exchange", "keeping", "paper", "planning", "procedures", "model", "trade", "reference", "words", "units",
    "packaged", "errors",
)  # fmt: skip
CORE = ROOMS[ROOMS.index("paper") :]
PURE = CORE[1:]
MODULES = ("packaged", "errors")

SKIPPED_FOLDERS = {".git", ".twomarks", "__pycache__", ".mypy_cache", ".pytest_cache", ".ruff_cache", ".hypothesis", "dist", "build"}


@cache
def project() -> dict[str, Any]:
    """Return pyproject.toml."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))


@cache
def tracked() -> tuple[Path, ...]:
    """Return the files that git knows; where there is no git, every file outside the caches."""
    if shutil.which("git") and (ROOT / ".git").exists():
        listed = subprocess.run(["git", "-C", str(ROOT), "ls-files", "-z"], capture_output=True, check=True).stdout.decode("utf-8")
        return tuple(path for path in (ROOT / name for name in listed.split("\0") if name) if path.is_file())
    return tuple(path for path in sorted(ROOT.rglob("*")) if path.is_file() and not SKIPPED_FOLDERS & set(path.relative_to(ROOT).parts))


def text_of(path: Path) -> str | None:
    """Return the text of a file, or None where it is not text."""
    data = path.read_bytes()
    if b"\0" in data[:4096]:
        return None
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return None


def modules(*rooms: str) -> Iterator[Path]:
    """Yield the Python files of these rooms (of all, where none is named)."""
    for room in rooms or ROOMS:
        if room in MODULES:
            yield SOURCE / f"{room}.py"
        else:
            yield from sorted((SOURCE / room).rglob("*.py"))


def shown(path: Path) -> str:
    """Return the path as a reader of a failed test wants it."""
    return path.relative_to(ROOT).as_posix() if path.is_relative_to(ROOT) else path.as_posix()


def tree_of(path: Path) -> ast.Module:
    """Return the syntax tree of a Python file."""
    return ast.parse(path.read_text("utf-8"), filename=str(path))


def skeleton(folder: Path, planted: dict[str, str]) -> Path:
    """Make a copy of the house with empty rooms, its real configuration and the `planted` files; return its root."""
    package = folder / "src" / "twomarks"
    package.mkdir(parents=True)
    (package / "__init__.py").write_text('"""House."""\n', "utf-8")
    for room in ROOMS:
        if room in MODULES:
            (package / f"{room}.py").write_text("", "utf-8")
        else:
            (package / room).mkdir()
            (package / room / "__init__.py").write_text("", "utf-8")
    shutil.copy(ROOT / "pyproject.toml", folder)
    for name in SOURCE.rglob("ruff.toml"):
        target = package / name.relative_to(SOURCE)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(name, target)
    for name, text in planted.items():
        target = package / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if target.suffix == ".py":
            for parent in target.relative_to(package).parents:
                (package / parent / "__init__.py").touch()
        target.write_text(text, "utf-8")
    return folder

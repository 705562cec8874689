"""Below keeping only `packaged` opens a file."""

from __future__ import annotations

import ast

import pytest

from tests.repo.ground import CORE, modules, shown, tree_of

CHANGING = {"chmod", "hardlink_to", "mkdir", "rename", "replace", "rmdir", "symlink_to", "touch", "unlink"}
LOOKING = {
    "cwd",
    "exists",
    "expanduser",
    "glob",
    "home",
    "is_dir",
    "is_file",
    "iterdir",
    "lstat",
    "resolve",
    "rglob",
    "samefile",
    "stat",
    "walk",
}
SURE = {"FileIO", "open", "read_bytes", "read_text", "write_bytes", "write_text"}
OPENERS = {"os", "shutil", "tempfile", "fileinput", "gzip", "bz2", "lzma", "zipfile", "tarfile", "glob", "mmap", "linecache"}
PATHS = {"Path", "PurePath", "PosixPath", "WindowsPath"}
READERS = {"numpy": {"load", "loadtxt", "genfromtxt", "fromfile", "memmap", "save", "savetxt"}, "importlib": {"resources"}}


def breaches(tree: ast.Module) -> list[int]:
    """Return the lines that open, look for or change a file."""
    lines: list[int] = []
    made_paths = _names_of_paths(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            lines += [node.lineno for name in node.names if name.name.split(".")[0] in OPENERS or name.name == "importlib.resources"]
        elif isinstance(node, ast.ImportFrom) and node.module:
            top = node.module.split(".")[0]
            if top in OPENERS or node.module == "importlib.resources" or any(name.name in READERS.get(top, ()) for name in node.names):
                lines.append(node.lineno)
        elif isinstance(node, ast.Call):
            called = node.func
            if isinstance(called, ast.Name) and called.id == "open":
                lines.append(node.lineno)
            elif isinstance(called, ast.Attribute) and called.attr in CHANGING | LOOKING | SURE:
                if called.attr in SURE or _is_path(called.value, made_paths):
                    lines.append(node.lineno)
            elif isinstance(called, ast.Attribute) and isinstance(called.value, ast.Name) and called.value.id in {"np", "numpy"}:
                lines += [node.lineno] if called.attr in READERS["numpy"] else []
    return sorted(set(lines))


def _is_path(node: ast.expr, made: set[str]) -> bool:
    if isinstance(node, ast.Name):
        return node.id in made or node.id in PATHS
    if isinstance(node, ast.Call):
        return _is_path(node.func, made)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div):
        return _is_path(node.left, made)
    return isinstance(node, ast.Attribute) and node.attr in {*PATHS, "parent"}


def _names_of_paths(tree: ast.Module) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.arg)
            and node.annotation is not None
            and set(ast.unparse(node.annotation).replace("|", " ").split()) & PATHS
        ):
            names.add(node.arg)
        elif isinstance(node, ast.Assign) and _is_path(node.value, names):
            names |= {target.id for target in node.targets if isinstance(target, ast.Name)}
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and ast.unparse(node.annotation) in PATHS:
            names.add(node.target.id)
    return names


def test_only_packaged_opens_a_file_below_keeping() -> None:
    rooms = [room for room in CORE if room != "packaged"]
    found = [f"{shown(path)}:{line}" for path in modules(*rooms) for line in breaches(tree_of(path))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "planted",
    [
        "open('x')",
        "import os",
        "import io\nio.open('x')",
        "from pathlib import Path\nPath('x').read_text()",
        "from pathlib import Path\nplace = Path('x') / 'y'\nplace.exists()",
        "def read(file: Path) -> bytes:\n    return file.read_bytes()",
        "def look(file: 'Path') -> str:\n    return file.read_text()",
        "def made(file: Path | None) -> None:\n    file.mkdir()",
        "import pathlib\npathlib.Path('x').unlink()",
        "from importlib import resources",
        "import importlib.resources",
        "from tempfile import mkdtemp",
        "import numpy as np\nnp.loadtxt('x')",
        "def f() -> None:\n    import zipfile",
    ],
)
def test_a_planted_opening_is_seen(planted: str) -> None:
    assert breaches(ast.parse(planted))


@pytest.mark.parametrize("innocent", ["'a-b'.replace('-', ' ')", "step.open", "sheet.home.place", "from pathlib import PurePosixPath"])
def test_what_opens_nothing_is_left_alone(innocent: str) -> None:
    assert breaches(ast.parse(innocent)) == []

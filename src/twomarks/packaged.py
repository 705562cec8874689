"""The only reader of files shipped inside the package, by path below ``twomarks/``.

Rooms ask for their files here by path, so that no room opens a file and none imports another to reach its data.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from twomarks.errors import InputError

__all__ = ["data", "folder", "names", "text"]


def _at(path: str) -> Traversable:
    parts = path.split("/")
    if "" in parts or ".." in parts:
        raise InputError("packaged.path", where=path)
    place: Traversable = resources.files("twomarks")
    for part in parts:
        place = place / part
    return place


def data(path: str) -> bytes:
    """Return the bytes of the shipped file at `path`, such as ``"reference/j300.csv"``."""
    place = _at(path)
    if not place.is_file():
        raise InputError("packaged.missing", where=path)
    return place.read_bytes()


@cache
def text(path: str) -> str:
    """Return the text (UTF-8) of the shipped file at `path`."""
    return data(path).decode("utf-8")


@cache
def names(path: str, ending: str = "") -> tuple[str, ...]:
    """Return the sorted names of the files in the shipped folder `path` that end in `ending`."""
    place = _at(path)
    if not place.is_dir():
        raise InputError("packaged.missing", where=path)
    return tuple(sorted(entry.name for entry in place.iterdir() if entry.is_file() and entry.name.endswith(ending)))


@contextmanager
def folder(path: str) -> Iterator[Path]:
    """Hand out the shipped folder `path` as a folder on disk, for tools that want one (fonts)."""
    with resources.as_file(_at(path)) as place:
        yield place

"""The demo has a folder of its own, and takes no other."""

from __future__ import annotations

from pathlib import Path

import pytest

from twomarks.app.demo import MARK, own_folder
from twomarks.errors import InputError, StorageError


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_demo_that_was_broken_off_is_built_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TWOMARKS_PLACE", str(tmp_path))
    (tmp_path / "demo").mkdir()
    (tmp_path / "demo" / "twomarks.sqlite3").write_bytes(b"half")
    assert names_in(own_folder(None)) == [MARK]


def test_a_named_folder_with_an_earlier_demo_is_built_anew(tmp_path: Path) -> None:
    folder = own_folder(tmp_path / "mine")
    (folder / "card.pdf").write_bytes(b"old")
    assert names_in(own_folder(folder)) == [MARK]


def test_a_named_folder_that_holds_anything_else_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letters").write_text("dear", "utf-8")
    with pytest.raises(InputError) as caught:
        own_folder(tmp_path)
    assert caught.value.key == "demo.not_empty"
    assert names_in(tmp_path) == ["letters"]


def test_a_folder_that_cannot_be_made_is_told_in_words(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises((InputError, StorageError)) as caught:
        own_folder(tmp_path / "file" / "demo")
    assert caught.value.key == "storage.folder"

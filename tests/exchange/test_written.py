"""A file is written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from twomarks.errors import StorageError
from twomarks.exchange.written import write_whole


def test_a_file_takes_the_place_of_the_old_one(tmp_path: Path):
    target = tmp_path / "card.pdf"
    target.write_bytes(b"old")
    write_whole(target, b"new")
    assert target.read_bytes() == b"new"
    assert [p.name for p in tmp_path.iterdir()] == ["card.pdf"]


def test_a_missing_folder_is_refused_in_words(tmp_path: Path):
    with pytest.raises(StorageError) as caught:
        write_whole(tmp_path / "nowhere" / "card.pdf", b"x")
    assert caught.value.key == "storage.not_written"

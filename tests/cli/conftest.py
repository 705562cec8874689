"""A terminal on a made household, and on a copy of it for tests that write."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.household import ALDER, BARE
from tests.cli.shell import Shell


@pytest.fixture(scope="session")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The home of a household, made once and never written to."""
    home = tmp_path_factory.mktemp("cli") / "home"
    shell = Shell(home)
    assert shell.run("build").code == 0
    shell.close()
    return home


@pytest.fixture(scope="session")
def shell(made: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shell]:
    """A terminal on a copy of the made home, for all tests that only ask."""
    home = tmp_path_factory.mktemp("asked") / "home"
    shutil.copytree(made, home)
    asked = Shell(home)
    yield asked
    asked.close()


@pytest.fixture(scope="module")
def own(made: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shell]:
    """A terminal on a copy of the made home that a whole file may write to: its tests hold whatever is kept."""
    home = tmp_path_factory.mktemp("own") / "home"
    shutil.copytree(made, home)
    written = Shell(home)
    yield written
    written.close()


@pytest.fixture
def writing(made: Path, tmp_path: Path) -> Iterator[Shell]:
    """A terminal on a copy of the made home of the test's own, for a test that keeps something."""
    shutil.copytree(made, tmp_path / "home")
    own = Shell(tmp_path / "home")
    yield own
    own.close()


@pytest.fixture
def alder(tmp_path: Path) -> str:
    """The car's sheet as a file."""
    (tmp_path / "alder.toml").write_text(ALDER, "utf-8")
    return str(tmp_path / "alder.toml")


@pytest.fixture
def bare(tmp_path: Path) -> str:
    """The bare van's sheet as a file."""
    (tmp_path / "bare.toml").write_text(BARE, "utf-8")
    return str(tmp_path / "bare.toml")

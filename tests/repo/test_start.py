"""The start file says in words what went wrong, and gives what follows it to the right program."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import IO, Any

import pytest

from tests.repo.ground import ROOT


@pytest.fixture
def start(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> ModuleType:
    monkeypatch.setenv("TWOMARKS_PLACE", str(tmp_path / "place"))
    spec = importlib.util.spec_from_file_location("start", ROOT / "start.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def ready(start: ModuleType, which: str) -> Path:
    folder, _ = start.kept()
    place = Path(folder, f"{which}-{start.key(start.SETS[which][0])}")
    place.mkdir(parents=True)
    (place / "ready").touch()
    return place


def test_no_word_prints_what_there_is() -> None:
    done = subprocess.run([sys.executable, str(ROOT / "start.py")], capture_output=True, text=True)
    assert done.returncode == 0
    assert "start.py test --reference" in done.stdout


def test_an_old_python_is_told_so(start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr(start, "OLDEST", (9, 0))
    with pytest.raises(SystemExit) as stopped:
        start.main(["due"])
    assert stopped.value.code == 2
    assert "needs Python 9.0 or newer" in capsys.readouterr().err


def test_a_place_that_cannot_be_written_is_told(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    blocker = tmp_path / "file"
    blocker.touch()
    monkeypatch.setenv("TWOMARKS_PLACE", str(blocker / "below"))
    with pytest.raises(SystemExit):
        start.kept()
    assert "Cannot write to" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("pip_said", "told"),
    [
        (
            "NewConnectionError: [Errno -3] Temporary failure in name resolution\nERROR: No matching distribution found for click==8.5.1",
            "could not be reached",
        ),
        ("ERROR: No matching distribution found for numpy==2.3", "no build for this system"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES", "differs from the one we locked"),
        ("OSError: [Errno 28] No space left on device", "disk is full"),
        ("SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED]'))", "certificate was not accepted"),
    ],
)
def test_pip_failures_are_told_in_words(
    start: ModuleType, tmp_path: Path, capsys: pytest.CaptureFixture[str], pip_said: str, told: str
) -> None:
    with (tmp_path / "run.log").open("w+", encoding="utf-8") as log:
        log.write(pip_said)
        with pytest.raises(SystemExit) as stopped:
            start.fail(log, "Installing the packages failed.")
    assert stopped.value.code == 2
    assert told in capsys.readouterr().err


def test_a_failed_installation_leaves_no_ready_mark(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(command: list[str], log: IO[str], packages: int = 0) -> int:
        log.write("ERROR: No matching distribution found")
        return int("--require-hashes" in command)

    monkeypatch.setattr(start, "call", refuse)
    with pytest.raises(SystemExit):
        start.environment("run")
    folder, _ = start.kept()
    assert not list(Path(folder).glob("run-*/ready"))


def test_a_full_disk_is_told_before_anything_is_fetched(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(start.SETS, "run", ("lock/run.txt", 10**12, 28))
    with pytest.raises(SystemExit):
        start.environment("run")
    assert "are needed in" in capsys.readouterr().err


def test_a_ready_environment_is_used_as_it_is(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    place = ready(start, "run")

    def never(*arguments: Any) -> int:
        raise AssertionError(arguments)

    monkeypatch.setattr(start, "call", never)
    assert Path(start.environment("run")).parent.parent == place


def test_another_lock_is_another_environment(start: ModuleType) -> None:
    assert start.key("lock/run.txt") != start.key("lock/dev.txt")


def test_an_environment_of_an_earlier_lock_is_swept_away(start: ModuleType, tmp_path: Path) -> None:
    old, new = tmp_path / "run-old", tmp_path / "run-new"
    old.mkdir()
    new.mkdir()
    start.sweep(str(tmp_path), "run", str(new), shared=False)
    assert (old.exists(), new.exists()) == (False, True)


def test_another_checkouts_environment_in_use_stays(start: ModuleType, tmp_path: Path) -> None:
    other = tmp_path / "run-other"
    other.mkdir()
    (other / "ready").touch()
    start.sweep(str(tmp_path), "run", str(tmp_path / "run-new"), shared=True)
    assert other.exists()


@pytest.mark.parametrize(
    ("words", "program"),
    [
        (["due", "--json"], ["-m", "twomarks.app", "due", "--json"]),
        (["shell", "-c", "1"], ["-c", "1"]),
        (["demo"], ["-m", "twomarks.app", "demo"]),
    ],
)
def test_words_go_to_the_right_program(start: ModuleType, monkeypatch: pytest.MonkeyPatch, words: list[str], program: list[str]) -> None:
    ready(start, "run")
    seen: list[list[str]] = []
    monkeypatch.setattr(start, "become", lambda command, env: seen.append(command[1:]) or 0)
    assert start.main(words) == 0
    assert seen == [program]


def test_words_after_test_go_to_pytest_alone(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    ready(start, "dev")
    monkeypatch.setenv("TWOMARKS_CHROMIUM", "")
    seen: list[list[str]] = []
    monkeypatch.setattr(start, "run", lambda command, env: seen.append(command[1:]) or 0)
    assert start.main(["test", "tests/model", "-k", "x"]) == 0
    assert seen == [["-m", "pytest", "tests/model", "-k", "x"]]


def test_a_red_check_makes_the_end_red_and_the_tests_still_run_last(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    ready(start, "dev")
    monkeypatch.setenv("TWOMARKS_CHROMIUM", "")
    seen: list[str] = []

    def run(command: list[str], env: dict[str, str]) -> int:
        seen.append(command[2] if command[1] == "-m" else Path(command[0]).name)
        return int(seen[-1] == "mypy")

    monkeypatch.setattr(start, "run", run)
    assert start.main(["test"]) == 1
    assert seen == ["ruff", "ruff", "mypy", "lint-imports", "pytest"]


def test_without_chromium_it_says_what_is_skipped(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("TWOMARKS_CHROMIUM", raising=False)
    monkeypatch.setattr(start, "CHROMIUM_PLACES", ())
    monkeypatch.setattr(start.shutil, "which", lambda name: None)
    assert start.chromium() == ""
    assert "browser tests are SKIPPED" in capsys.readouterr().err

"""A user's mistake: one clear line with where, what was found and what was expected; exit 2; nothing half-saved."""

from __future__ import annotations

import os
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.household import ALDER, SHELF
from tests.cli.shell import Done, Shell, kept_in, once

ALDERS = ("--vehicle", "Alder")
FILES = {
    "empty.csv": "",
    "header.csv": "date,odometer_km\n",
    "no_dates.csv": "date,odometer_km\nsoon,1000\nlater,2000\n",
    "two_ways.csv": "date,odometer_km\n01/02/2026,1000\n03/04/2026,2000\n",
    "litres.csv": "date,odometer_km\n2026-01-01,100000\n",
    "no_toml.toml": "format = \n",
    "no_format.toml": 'name = "X"\n',
    "shelf.toml": SHELF.replace("1d7c0b9e", "2d7c0b9e"),
}
ONE_LINE: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "missing file": (("import", "readings", "FOLDER/nowhere.csv", *ALDERS), ("nowhere.csv", "no such file")),
    "missing sheet": (("import", "vehicle", "FOLDER/nowhere.toml"), ("nowhere.toml", "no such file")),
    "missing sheet asked about": (("prepare", "--vehicle", "FOLDER/nowhere.toml"), ("nowhere.toml", "no such file")),
    "folder for a file": (("import", "readings", "FOLDER", *ALDERS), ("FOLDER",)),
    "empty history": (("import", "readings", "FOLDER/empty.csv", *ALDERS), ("empty.csv", "no rows", "for example")),
    "header alone": (("import", "readings", "FOLDER/header.csv", *ALDERS), ("header.csv", "nothing was imported")),
    "no dates": (("import", "readings", "FOLDER/no_dates.csv", *ALDERS), ("no_dates.csv",)),
    "day or month first": (("import", "readings", "FOLDER/two_ways.csv", *ALDERS), ("two_ways.csv", "2026-03-31")),
    "wrong unit of a file": (("import", "readings", "FOLDER/litres.csv", *ALDERS, "--unit", "N.m"), ("N.m", "expected a distance")),
    "unknown unit of a file": (("import", "readings", "FOLDER/litres.csv", *ALDERS, "--unit", "kmm"), ("--unit", "kmm", "km")),
    "unknown column": (("import", "readings", "FOLDER/litres.csv", *ALDERS, "--reading-column", "odo"), ("odo", "odometer_km")),
    "unknown vehicle": (("due", "--vehicle", "Aldr"), ('"Aldr"', 'Did you mean "Alder"?')),
    "unknown vehicle to prepare": (("prepare", "--vehicle", "Oak"), ('"Oak"', "Alder, Bare")),
    "unknown vehicle to enter": (("enter", "--vehicle", "Aldr", "--odometer", "140700 km"), ('Did you mean "Alder"?',)),
    "unknown vehicle of a file": (("import", "readings", "FOLDER/litres.csv", "--vehicle", "Bear"), ('Did you mean "Bare"?',)),
    "no vehicle named of two": (("card", "--freeze"), ("Alder, Bare",)),
    "unknown household": (("due", "--household", "Away"), ('"Away"', "Home")),
    "unknown person": (("due", "--person", "B."), ('"B."', "A.")),
    "reading below the last": (("enter", *ALDERS, "--odometer", "1200 km"), ("below the last one", "expected at least")),
    "wrong unit typed": (("enter", *ALDERS, "--odometer", "140700 L"), ("--odometer", "expected a distance", "km")),
    "unknown unit typed": (("enter", *ALDERS, "--odometer", "140700 parsec"), ("--odometer", "parsec")),
    "bare quarts typed": (("enter", *ALDERS, "--odometer", "140700 km", "--volume", "4 qt"), ("--volume", "US qt, imp qt")),
    "wrong unit of a volume": (("enter", *ALDERS, "--odometer", "140700 km", "--volume", "4 km"), ("--volume", "expected a volume")),
    "no unit on the odometer": (("prepare", "--kind", "car", "--fuel", "petrol", "--odometer", "148210"), ('found "148210"', "148210 km")),
    "odometer below nothing": (("prepare", "--kind", "car", "--fuel", "petrol", "--odometer", "-5 km"), ("--odometer", "below zero")),
    "volume below nothing": (("enter", *ALDERS, "--odometer", "140700 km", "--volume", "-4.2 L"), ("--volume", "above zero")),
    "volume of nothing": (("enter", *ALDERS, "--odometer", "140700 km", "--volume-out", "0 L"), ("--volume-out", "above zero")),
    "a level in words": (("level", "middle", *ALDERS), ("READING", "middle", "1/2, 0.5, 50%")),
    "no number": (("enter", *ALDERS, "--odometer", "many"), ("--odometer", "many", "for example")),
    "unknown product": (("enter", *ALDERS, "--odometer", "140700 km", "--product", "loud_brook"), ("product", "quiet_brook")),
    "unknown can": (("enter", *ALDERS, "--odometer", "140700 km", "--can", "blue"), ("can", "old_oil")),
    "unknown item": (("enter", *ALDERS, "--odometer", "140700 km", "--item", "engine_oli"), ("engine_oli",)),
    "unknown card": (("enter", *ALDERS, "--odometer", "140700 km", "--card", "7"), ("--card", '"7"')),
    "level beyond reason": (("enter", *ALDERS, "--odometer", "140700 km", "--level", "80"), ("--level", "80")),
    "day to come of a level": (("level", "1/2", *ALDERS, "--day", "2027-01-01"), ("1 January 2027", "25 November 2026")),
    "bare vehicle without fuel": (("prepare", "--kind", "car"), ("--fuel", "--kind car --fuel petrol")),
    "bare quarts on the odometer": (("prepare", "--kind", "car", "--fuel", "petrol", "--odometer", "5 qt"), ("--odometer",)),
    "second shelf list": (("import", "document", "FOLDER/shelf.toml"), ("shelf.toml", "one", "Shelf")),
    "another kind of document": (("import", "vehicle", "FOLDER/shelf.toml"), ("twomarks/shelf/1", "twomarks/vehicle/1")),
    "no folder for the card": (("card", *ALDERS, "--freeze", "--pdf", "FOLDER/none/card.pdf"), ("card.pdf", "could not be written")),
}  # fmt: skip
USAGE: dict[str, tuple[tuple[str, ...], str]] = {
    "bad date": (("due", "--on", "2026-33-02"), "2026-33-02"),
    "unknown command": (("dew",), "dew"),
    "unknown option": (("due", "--vehcle", "Alder"), "--vehcle"),
    "no argument": (("level",), "READING"),
    "port out of range": (("serve", "--port", "99999"), "99999"),
    "minutes below nothing": (("level", "1/2", "--minutes-since-stop", "-3"), "-3"),
}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of files that hold nothing that could be read."""
    place = tmp_path_factory.mktemp("bad")
    for name, text in FILES.items():
        (place / name).write_text(text, "utf-8")
    return place


@pytest.fixture
def unchanged(shell: Shell) -> Iterator[Shell]:
    """The terminal on the made household; what is kept in it is the same after the test as before."""
    before = kept_in(shell.home)
    yield shell
    assert kept_in(shell.home) == before


def refused(done: Done) -> str:
    """Return the one line that refuses, after looking that there is nothing else."""
    assert done.code == 2, done
    assert "Traceback" not in done.err
    assert done.err.endswith("\n")
    assert done.err.count("\n") == 1, done.err
    return done.err


@pytest.mark.parametrize("case", sorted(ONE_LINE))
def test_a_mistake_is_one_line_and_nothing_is_kept(case: str, unchanged: Shell, folder: Path) -> None:
    words, told = ONE_LINE[case]
    done = unchanged.run(*[word.replace("FOLDER", str(folder)) for word in words])
    assert done.out == ""
    for part in told:
        assert part.replace("FOLDER", str(folder)) in refused(done)


@pytest.mark.parametrize("case", sorted(USAGE))
def test_a_command_line_that_cannot_be_read_says_which_word(case: str, unchanged: Shell) -> None:
    words, told = USAGE[case]
    done = unchanged.run(*words, on=None)
    assert (done.code, done.out) == (2, "")
    assert told in done.err.splitlines()[-1]
    assert "Traceback" not in done.err


def test_all_faults_of_a_file_come_at_once_each_with_its_line(unchanged: Shell, tmp_path: Path) -> None:
    spoilt = ALDER.replace('kind = "car"', 'kind = "car"\nkidn = "car"', 1).replace('"4.3 L"', '"4 qt"').replace('"38 N·m"', "38", 1)
    path = tmp_path / "spoilt.toml"
    path.write_text(spoilt, "utf-8")
    done = unchanged.run("import", "vehicle", str(path))
    heading, *faults = done.err.splitlines()
    assert (done.code, done.out, len(faults)) == (2, "", 3)
    assert str(path) in heading
    lines = spoilt.splitlines()
    for fault, found in zip(faults, ("kidn", "qt", "38"), strict=True):
        number = int(fault.split("line ")[1].split(",")[0])
        assert found in lines[number - 1]
        assert found in fault
    assert "did you mean kind?" in faults[0]
    assert "US qt, imp qt" in faults[1]


def test_a_day_to_come_in_a_file_is_flagged_and_left_out(writing: Shell, tmp_path: Path) -> None:
    file = written(tmp_path, "ahead.csv", "date,odometer_km\n2026-10-01,1000\n2026-11-01,2000\n2027-06-01,3000\n")
    done = writing.run("import", "readings", file, "--vehicle", "Bare", "--json")
    assert (done.code, done.answer["taken"], done.answer["readings_used"]) == (0, 3, 2)
    assert [flag["on"] for flag in done.answer["flags"]] == ["2027-06-01"]


def test_a_vehicle_without_history_is_answered_and_says_that_it_has_none(unchanged: Shell) -> None:
    done = unchanged.run("due", "--vehicle", "Bare")
    assert (done.code, done.err) == (0, "")
    assert "No odometer reading yet" in done.said


@pytest.mark.parametrize("name", ["no_toml.toml", "no_format.toml"])
def test_a_file_that_is_no_document_says_so(unchanged: Shell, folder: Path, name: str) -> None:
    done = unchanged.run("import", "document", str(folder / name))
    assert (done.code, done.out) == (2, "")
    assert name in done.err.splitlines()[0]
    assert "line 1" in done.err


def test_no_household_yet_is_said_and_says_how_to_begin(tmp_path: Path) -> None:
    done = once(tmp_path / "home", "due")
    assert "no household here yet" in refused(done)


def test_a_port_in_use_is_refused_with_another(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        done = once(tmp_path / "home", "serve", "--port", str(port))
    assert str(port) in refused(done)
    assert "--port" in done.err


@pytest.mark.parametrize("words", [("due",), ("selfcheck", "--json"), ("ready",)])
def test_a_home_that_cannot_be_written_is_refused(tmp_path: Path, words: tuple[str, ...]) -> None:
    (tmp_path / "file").write_text("no folder", "utf-8")
    done = once(tmp_path / "file" / "home", *words)
    assert "home folder cannot be written" in refused(done)
    assert done.out == ""


@pytest.mark.skipif(os.name == "nt", reason="needs a limit on the size of files")
def test_a_full_disk_leaves_no_new_home_behind(tmp_path: Path) -> None:
    done = once(tmp_path / "home", "import", "vehicle", written(tmp_path, "alder.toml", ALDER), limit_bytes=16_384)
    assert str(tmp_path / "home") in refused(done)
    assert [path.name for path in (tmp_path / "home").iterdir() if path.suffix == ".sqlite3"] == []


@pytest.mark.skipif(os.name == "nt", reason="needs a limit on the size of files")
def test_a_full_disk_keeps_nothing_of_an_import(writing: Shell, tmp_path: Path) -> None:
    writing.close()
    before = kept_in(writing.home)
    rows = "\n".join(f"{2000 + n // 300}-{1 + n % 300 // 25:02}-{1 + n % 25:02},{1000 + 40 * n}" for n in range(7000))
    file = written(tmp_path, "long.csv", f"date,odometer_km\n{rows}\n")
    done = once(writing.home, "import", "readings", file, "--vehicle", "Bare", limit_bytes=1_000_000)
    assert "disk took no more" in refused(done)
    assert kept_in(writing.home) == before
    assert once(writing.home, "import", "readings", file, "--vehicle", "Bare").code == 0


@pytest.mark.skipif(os.name == "nt", reason="needs a limit on the size of files")
def test_a_full_disk_leaves_the_earlier_card_as_it_was(shell: Shell, tmp_path: Path) -> None:
    card = tmp_path / "card.pdf"
    card.write_bytes(b"the earlier card")
    sheet = written(tmp_path, "alder.toml", ALDER)
    done = once(tmp_path / "home", "card", "--vehicle", sheet, "--pdf", str(card), limit_bytes=16_384)
    assert "could not be written" in refused(done)
    assert card.read_bytes() == b"the earlier card"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["alder.toml", "card.pdf"]


def written(folder: Path, name: str, text: str) -> str:
    """Write a file and return its path."""
    (folder / name).write_text(text, "utf-8")
    return str(folder / name)

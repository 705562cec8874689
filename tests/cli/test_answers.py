"""What a machine reads of each command has the shape that ships with the package."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema
import pytest

from tests.cli.shell import Done, Shell
from twomarks.exchange.answers.catalogue import ANSWERS
from twomarks.exchange.answers.schemas import schema_of

ASKED: dict[str, tuple[str, ...]] = {
    "buy": ("buy", "--months", "6"),
    "card": ("card", "--vehicle", "Alder", "--pdf", "FOLDER/card.pdf"),
    "cost": ("cost", "--rate", "15"),
    "day": ("day", "--vehicle", "Alder", "--item", "engine_oil_and_filter"),
    "due": ("due", "--by", "2027-02-01"),
    "enter": (
        "enter", "--vehicle", "Alder", "--item", "engine_oil_and_filter", "--odometer", "140700 km", "--volume", "4.1 L",
        "--volume-out", "4 L", "--level", "0.9",
    ),
    "gone-wrong": ("procedures", "when-it-goes-wrong"),
    "import-document": ("import", "vehicle", "FOLDER/rush.toml"),
    "import-readings": ("import", "readings", "FOLDER/readings.csv", "--vehicle", "Bare"),
    "level": ("level", "1/2", "--vehicle", "Alder", "--minutes-since-stop", "30"),
    "prepare": ("prepare",),
    "procedure": ("procedures", "walk-round", "--vehicle", "Bare"),
    "procedures": ("procedures",),
    "read-write-up": ("read-writeup", "FOLDER/theirs.txt"),
    "ready": ("ready", "--have", "tool:funnel"),
    "reckon": ("reckon", "convert", "value=7 US qt"),
    "reckon-asks": ("reckon", "convert"),
    "reckon-list": ("reckon",),
    "rehearse": ("rehearse", "engine-oil-cartridge", "--vehicle", "Alder"),
    "selfcheck": ("selfcheck",),
    "text": ("text", "engine-oil-spin-on", "--vehicle", "Alder", "--units", "us"),
    "tools": ("tools", "engine-oil-spin-on", "--vehicle", "Alder"),
    "workdays": ("workdays",),
}  # fmt: skip
RUSH = """
format = "twomarks/vehicle/1"
name = "Rush"
kind = "car"
[engine]
fuel = "petrol"
[circuits.engine_oil]
refill_with_filter = "4 L"
"""
READINGS = "date,odometer_km\n2026-09-01,100000\n2026-10-01,101000\n2026-10-20,1010\n2026-11-01,\n2026-11-20,102500\n"


def asked(shell: Shell, name: str, folder: Path) -> Done:
    """Run the command line of an answer, its files lying in `folder`."""
    (folder / "rush.toml").write_text(RUSH, "utf-8")
    (folder / "readings.csv").write_text(READINGS, "utf-8")
    (folder / "theirs.txt").write_text("Undo the sump plug. Waggle the filter. Pour in 5 quarts.\n", "utf-8")
    words = [word.replace("FOLDER", str(folder)) for word in ASKED[name]]
    return shell.run(*words, "--json")


def test_every_answer_is_asked_for_here() -> None:
    assert set(ASKED) == set(ANSWERS)


@pytest.mark.parametrize("name", sorted(ASKED))
def test_an_answer_has_the_shape_that_ships(name: str, own: Shell, tmp_path: Path) -> None:
    done = asked(own, name, tmp_path)
    assert (done.err, done.code in (0, 1)) == ("", True)
    assert done.out.lstrip().startswith('{\n  "format": "twomarks/answer/' + f'{name}/1"')
    schema = schema_of(name)
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(done.answer, schema, cls=jsonschema.Draft202012Validator, format_checker=jsonschema.FormatChecker())
    assert done.answer["on"] == "2026-11-25"


def test_a_key_more_or_a_word_for_a_number_is_no_answer(own: Shell, tmp_path: Path) -> None:
    answer = asked(own, "due", tmp_path).answer
    for spoiled in ({**answer, "more": 1}, {**answer, "on": 7}, {name: part for name, part in answer.items() if name != "vehicles"}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(spoiled, schema_of("due"))


@pytest.mark.parametrize("name", ["due", "ready", "rehearse", "level", "selfcheck"])
def test_the_text_of_an_answer_says_nothing_unfilled(name: str, own: Shell, tmp_path: Path) -> None:
    done = own.run(*[word.replace("FOLDER", str(tmp_path)) for word in ASKED[name]])
    assert done.err == ""
    assert not re.search(r"[{}\[\]]|\bNone\b", done.out)

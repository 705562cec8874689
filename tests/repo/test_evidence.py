"""A figure that a text quotes from a measurement stands in the evidence, and says where."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from benchmarks.evidence import write
from benchmarks.reference_load import at_reference_ms
from tests.repo.ground import ROOT, shown

QUOTED = re.compile(r"(?P<figure>-?\d+(?:\.\d+)?)[^\d\n<]*<!-- evidence: (?P<name>\w+) (?P<path>[\w.%-]+) -->")
MEASURED = re.compile(r"\b\d+(?:\.\d+)? ?(?:ms|milliseconds|times `?import|x `?import)\b")
PARTS = {"name", "commit", "machine", "seed", "counts", "result"}


def pages() -> list[Path]:
    return [path for path in [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")] if path.name != "CONTRIBUTING.md"]


def value_at(result: Any, path: str) -> float:
    for part in path.split("."):
        result = result[int(part)] if isinstance(result, list) else result[part]
    return float(result)


def wrong_quotes(text: str, folder: Path) -> list[str]:
    """Return the quoted figures that the evidence does not bear out, and measured figures that quote nothing."""
    wrong = []
    for match in QUOTED.finditer(text):
        path = folder / f"{match['name']}.json"
        figure = match["figure"]
        digits = len(figure.partition(".")[2])
        if not path.exists():
            wrong.append(f"{figure}: no evidence {match['name']}")
        elif round(value_at(json.loads(path.read_text("utf-8"))["result"], match["path"]), digits) != float(figure):
            wrong.append(f"{figure}: {match['name']} {match['path']} says otherwise")
    wrong += [f"{match.group()}: quotes no evidence" for match in MEASURED.finditer(re.sub(QUOTED, "", text))]
    return wrong


def test_every_quoted_figure_has_its_evidence() -> None:
    told = [f"{shown(page)}: {what}" for page in pages() for what in wrong_quotes(page.read_text("utf-8"), ROOT / "evidence")]
    assert not told, "\n".join(told)


def test_every_piece_of_evidence_is_whole() -> None:
    for path in (ROOT / "evidence").glob("*.json"):
        content = json.loads(path.read_text("utf-8"))
        assert set(content) == PARTS, path.name
        assert content["name"] == path.stem


def test_evidence_is_written_whole(tmp_path: Path) -> None:
    path = write("trial", {"ratio": 3.14}, seed=7, counts={"runs": 9}, folder=tmp_path)
    content = json.loads(path.read_text("utf-8"))
    assert set(content) == PARTS
    assert (content["seed"], content["counts"], content["result"]) == (7, {"runs": 9}, {"ratio": 3.14})


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("takes 3.1 times as long <!-- evidence: trial ratio -->", True),
        ("takes 3.2 times as long <!-- evidence: trial ratio -->", False),
        ("takes 3.1 times as long <!-- evidence: nothing ratio -->", False),
        ("takes 12 ms", False),
        ("a wait of 12 minutes", True),
    ],
)
def test_a_planted_quote_is_judged(tmp_path: Path, text: str, right: bool) -> None:
    write("trial", {"ratio": 3.14}, folder=tmp_path)
    assert (wrong_quotes(text, tmp_path) == []) is right


def test_a_time_is_carried_over_to_the_reference_machine() -> None:
    assert at_reference_ms(10.0, load_here_ms=200.0) == pytest.approx(5.0)

"""How much of plain write-ups is read: actions found, wrong and missed, for those built with and for those kept aside."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from benchmarks import evidence
from twomarks.procedures.write_ups import drafted

__all__ = ["FOLDER", "KEPT_ASIDE", "Score", "main", "score", "summed", "write_ups"]

FOLDER = Path(__file__).resolve().parent.parent / "tests" / "procedures" / "write_ups"
KEPT_ASIDE = FOLDER / "kept_aside"
FOUND_AT_LEAST = 0.80
WRONG_AT_MOST = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """What was read of one write-up against what a person finds in it; an action is its verb and its thing.

    `in_order` counts the found actions that stand in the order that a person gave, `left_open` the sentences that the reader
    says it did not understand.
    """

    name: str
    style: str
    expected: int
    drafted: int
    missed: tuple[str, ...]
    wrong: tuple[str, ...]
    in_order: int
    left_open: int
    figures: int
    figures_found: int


def write_ups(folder: Path) -> list[Path]:
    """Return the write-ups of a folder, in the order of their names."""
    return sorted(path for path in folder.glob("*.txt") if path.with_suffix(".toml").exists())


def score(path: Path) -> Score:
    """Return how much of the write-up at `path` was read."""
    wanted = tomllib.loads(path.with_suffix(".toml").read_text("utf-8"))
    draft = drafted(path.read_bytes(), where=path.name)
    got: list[tuple[str, str]] = []
    for one in draft.read.sentences:
        got += [(move.action, move.thing) for move in one.moves if not move.repeats and not move.claimed]
        got += [("repeat", "")] if one.again else []
        got += [("reverse", "")] if one.reversed else []
    places: list[int] = []
    missed = []
    left = dict(enumerate(got))
    for action, thing in wanted["actions"]:
        place = next((at for at, (does, to) in left.items() if does in action.split("|") and to in thing.split("|")), None)
        if place is None:
            missed.append(f"{action} {thing}".strip())
        else:
            places.append(place)
            del left[place]
    typed = [figure.typed.text.casefold() for figure in draft.figures]
    return Score(
        name=path.stem,
        style=wanted["style"],
        expected=len(wanted["actions"]),
        drafted=len(got),
        missed=tuple(missed),
        wrong=tuple(f"{does} {to}".strip() for does, to in left.values()),
        in_order=_longest_rising(places),
        left_open=len(draft.read.unplaced),
        figures=len(wanted["figures"]),
        figures_found=sum(any(figure.casefold() in one for one in typed) for figure in wanted["figures"]),
    )


def _longest_rising(places: list[int]) -> int:
    longest: list[int] = []
    for at, place in enumerate(places):
        longest.append(1 + max((longest[before] for before in range(at) if places[before] < place), default=0))
    return max(longest, default=0)


def summed(scores: Iterable[Score]) -> dict[str, Any]:
    """Return the sums and shares of several write-ups."""
    scored = list(scores)
    expected, found = sum(one.expected for one in scored), sum(one.expected - len(one.missed) for one in scored)
    made, wrong = sum(one.drafted for one in scored), sum(len(one.wrong) for one in scored)
    return {
        "write_ups": len(scored),
        "actions_expected": expected,
        "actions_found": found,
        "actions_missed": expected - found,
        "actions_drafted": made,
        "actions_wrong": wrong,
        "share_found": round(found / expected, 4),
        "share_wrong": round(wrong / made, 4),
        "in_order": sum(one.in_order for one in scored),
        "sentences_left_open": sum(one.left_open for one in scored),
        "figures_expected": sum(one.figures for one in scored),
        "figures_found": sum(one.figures_found for one in scored),
    }


def main() -> None:
    """Read every write-up, print what was found, and write it down."""
    halves = {"built_with": FOLDER, "kept_aside": KEPT_ASIDE}
    result: dict[str, Any] = {}
    for name, folder in halves.items():
        scores = [score(path) for path in write_ups(folder)]
        result[name] = summed(scores) | {
            "each": [
                {"name": one.name, "style": one.style, "expected": one.expected, "missed": list(one.missed), "wrong": list(one.wrong)}
                for one in scores
            ]
        }
        whole = result[name]
        shares = (whole["actions_found"], whole["actions_expected"], whole["actions_wrong"], whole["actions_drafted"])
        print("{}: {} of {} actions found, {} of {} drafted ones wrong".format(name, *shares))
    aside = result["kept_aside"]
    result["asked"] = {"share_found_at_least": FOUND_AT_LEAST, "share_wrong_at_most": WRONG_AT_MOST}
    result["met"] = aside["share_found"] >= FOUND_AT_LEAST and aside["share_wrong"] <= WRONG_AT_MOST
    evidence.write("read_write_ups", result, counts={name: result[name]["write_ups"] for name in halves})


if __name__ == "__main__":
    main()

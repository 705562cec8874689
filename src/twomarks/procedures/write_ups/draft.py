"""What was read as a procedure document: a draft that loads and can be rehearsed, with every sentence kept at its step."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from twomarks import units
from twomarks.errors import InputError
from twomarks.model.loading import load_as
from twomarks.model.procedure import THINGS, Procedure, bare_figures
from twomarks.model.writing import new_text
from twomarks.procedures.write_ups.figures import Typed
from twomarks.procedures.write_ups.manner import Said, manner_of, spots_of
from twomarks.procedures.write_ups.placing import Placed
from twomarks.procedures.write_ups.reading import ReadMove, ReadSentence, ReadWriteUp, read_sentences
from twomarks.procedures.write_ups.text import text_of
from twomarks.procedures.write_ups.vocabulary import Noun, vocabulary
from twomarks.words import Reader, render, say

__all__ = ["MOST_STEPS", "DraftedStep", "DraftedWriteUp", "FigureOfWriteUp", "drafted"]

MOST_STEPS = 2_000
"""The most steps that a procedure holds; a write-up that says more is refused."""
ELIDED = "\u2026"
_TITLE = 200
_KEY = 50
_GROUPS = {"circuit": "circuits", "fastening": "fastenings", "tap": "fastenings", "slot": "slots"}
_WAITS = frozenset(("wait", "drain", "run_engine", "warm"))


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftedStep:
    """A step of the draft: its id, the line and the sentence it came from, and its actions with their things."""

    id: str
    line: int
    said: str
    actions: tuple[tuple[str, str], ...]
    repeats: bool = False
    claimed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureOfWriteUp:
    """A figure that the words hold: as typed, read where its unit is certain, and the fact of a sheet that it may be."""

    line: int
    typed: Typed
    path: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftedWriteUp:
    """The draft and its text, what was read, and the figures that belong into a vehicle sheet."""

    procedure: Procedure
    text: str
    read: ReadWriteUp
    steps: tuple[DraftedStep, ...]
    figures: tuple[FigureOfWriteUp, ...]


def drafted(data: bytes, *, where: str, market: str | None = None) -> DraftedWriteUp:
    """Return the draft of the write-up in `data`; quarts, pints and gallons are those of `market`, if one is named.

    Raises
    ------
    InputError
        ``write_up.nothing`` where no sentence says anything to do, ``write_up.too_long`` beyond `MOST_STEPS` steps, and
        what `text_of` raises.
    """
    read = read_sentences(text_of(data, where=where), where=where, market=market)
    if not read.moves and not read.unplaced:
        raise InputError("write_up.nothing", where=where)
    builder = _Builder(read)
    for one in read.sentences:
        builder.add(one)
        if len(builder.steps) > MOST_STEPS:
            raise InputError("write_up.too_long", where=where, line=one.sentence.line, expected=MOST_STEPS)
    builder.finish()
    tables = builder.tables()
    text = f"# {render(say('write_up.head'), Reader())}\n{new_text(tables)}"
    return DraftedWriteUp(
        procedure=load_as(Procedure, text, where=where),
        text=text,
        read=read,
        steps=tuple(builder.drafted),
        figures=tuple(builder.figures),
    )


class _Builder:
    """Makes the steps of a draft, sentence by sentence."""

    def __init__(self, read: ReadWriteUp) -> None:
        self.read = read
        self.steps: list[dict[str, Any]] = []
        self.drafted: list[DraftedStep] = []
        self.figures: list[FigureOfWriteUp] = []
        self.roles: dict[str, Mapping[str, Any]] = {}
        self.cautions: list[dict[str, str]] = []
        self.waiting_step = ""
        self.said = Said(filter_changed=any(move.thing == "filter" and move.action in ("fit", "remove") for move in read.moves))

    def add(self, one: ReadSentence) -> None:
        words = _words(one)
        if one.warns:
            self.cautions.append({"signal": "caution", "words": words, "source": "write-up"})
        for group in _grouped(one.moves):
            self._step(one, group, words)
        if one.open:
            self._undecided(one, words)
        if self.cautions and (one.moves or one.open):
            self.steps[-1].setdefault("caution", []).extend(self.cautions)
            self.cautions = []
        for figure in one.figures:
            self.figures.append(FigureOfWriteUp(line=one.sentence.line, typed=figure, path=_path(figure, one.moves)))

    def finish(self) -> None:
        """Give warnings that stand at the end to the last step."""
        if self.cautions and self.steps:
            self.steps[-1].setdefault("caution", []).extend(self.cautions)

    def _step(self, one: ReadSentence, group: list[ReadMove], words: str) -> None:
        name = f"step-{len(self.steps) + 1}"
        moves = [self._move(move, one, f"{name}-{number}" if number > 1 else name) for number, move in enumerate(group, start=1)]
        step: dict[str, Any] = {**moves[0], "words": words, "said": one.sentence.text}
        if len(moves) > 1:
            step["then"] = moves[1:]
        if group[0].placed.waiting and self.waiting_step:
            step["during"] = self.waiting_step
        if any("wait" in move for move in moves):
            step["hands_free"] = any(move["action"] in ("drain", "wait") for move in moves)
        if any(move["action"] == "drain" for move in moves):
            self.waiting_step = name
        self.steps.append(step)
        self.drafted.append(
            DraftedStep(
                id=name,
                line=one.sentence.line,
                said=one.sentence.text,
                actions=tuple((move.action, move.thing) for move in group),
                repeats=group[0].repeats,
                claimed=group[0].claimed,
            )
        )

    def _undecided(self, one: ReadSentence, words: str) -> None:
        name = f"step-{len(self.steps) + 1}"
        self.steps.append({"id": name, "action": "undecided", "words": words, "said": one.sentence.text})
        self.drafted.append(DraftedStep(id=name, line=one.sentence.line, said=one.sentence.text, actions=(("undecided", ""),)))

    def _move(self, move: ReadMove, one: ReadSentence, name: str) -> dict[str, Any]:
        placed, noun = move.placed, vocabulary().nouns.get(move.thing)
        made: dict[str, Any] = {"id": name, "action": placed.action}
        if noun is not None:
            made.update(self._thing(noun, placed))
        if placed.new:
            made["new"] = True
        made.update(manner_of(placed, noun, one.sentence.text, self.said))
        amount = made.get("amount")
        if amount:
            self._role(amount[1:].partition(".")[0])
        minutes = next((_minutes(figure) for figure in placed.figures if figure.kind == "duration" and figure.value), None)
        if minutes and placed.action in _WAITS:
            made["wait"] = f"{minutes:g} min"
        at = spots_of(placed, one.sentence.text)
        if at:
            made["at"] = at
        self.said.take(placed, noun)
        return made

    def _thing(self, noun: Noun, placed: Placed) -> dict[str, Any]:
        key = "filter_joint" if noun.key == "filter" and placed.action == "tighten" else noun.key
        if noun.role is None and noun.thing not in THINGS:
            return {}
        made: dict[str, Any] = {"thing": noun.thing if noun.role is None else key}
        if noun.role is not None:
            self._role(key)
        if placed.action == "drain":
            through = self.said.opened_drain(noun)
            if through:
                self._role(through)
                made["through"] = through
        if noun.place:
            made["place"] = noun.place
        return made

    def _role(self, key: str) -> None:
        noun = vocabulary().nouns[key]
        if noun.role is None or key in self.roles:
            return
        owner = noun.role.get("of")
        if owner:
            self._role(owner)
        self.roles[key] = noun.role

    def tables(self) -> dict[str, Any]:
        title = (self.read.title or render(say("write_up.untitled"), Reader()))[:_TITLE]
        made: dict[str, Any] = {
            "format": "twomarks/procedure/1",
            "key": _slug(title),
            "title": _plain(title),
            "purpose": render(say("write_up.purpose"), Reader()),
            "language": "en",
        }
        kind = self._filter_kind()
        if kind:
            made["applies"] = {"filter": kind}
        made["roles"] = self.roles
        made["steps"] = self.steps
        return {name: value for name, value in made.items() if value}

    def _filter_kind(self) -> str:
        if "filter_cap" in self.roles:
            return "cartridge"
        if "filter" not in self.roles:
            return ""
        said = " ".join(one.sentence.text.casefold() for one in self.read.sentences if any(move.thing == "filter" for move in one.moves))
        return "spin-on" if re.search(r"\b(?:spin|spun|unscrew\w*|screw\w*|strap|canister|hand[- ]tight|wind|wound)\b", said) else ""


def _grouped(moves: Iterable[ReadMove]) -> list[list[ReadMove]]:
    """Return the moves of a sentence as steps: one step, but for a second wait, what is repeated and what is claimed."""
    groups: list[list[ReadMove]] = []
    for move in moves:
        last = groups[-1] if groups else None
        waits = move.action in _WAITS and any(figure.kind == "duration" for figure in move.placed.figures)
        waited = last is not None and any(one.action in _WAITS and any(f.kind == "duration" for f in one.placed.figures) for one in last)
        same = last is not None and (last[0].repeats, last[0].claimed, last[0].placed.waiting) == (
            move.repeats,
            move.claimed,
            move.placed.waiting,
        )
        if last is not None and same and not (waits and waited):
            last.append(move)
        else:
            groups.append([move])
    return groups


def _words(one: ReadSentence) -> str:
    """Return a sentence as an author's words: a torque that is tightened to stands as a reference, other figures are left out."""
    text = one.sentence.text
    tight = [move for move in one.moves if move.action == "tighten" and _fastening(move.thing)]
    for figure in reversed(one.figures):
        mine = [move for move in tight if figure in move.placed.figures]
        instead = ELIDED
        if figure.kind == "torque" and mine:
            instead = f"\x00{_fastening(mine[-1].thing)}.torque\x01"
        text = f"{text[: figure.start]}{instead}{text[figure.end :]}"
    text = _plain(text)
    text = text.replace("\x00", "{").replace("\x01", "}")
    for _ in range(len(text)):
        bare = bare_figures(text)
        if not bare:
            break
        text = text.replace(bare[0], ELIDED)
    return text if not bare_figures(text) else ELIDED


def _fastening(key: str) -> str:
    key = "filter_joint" if key == "filter" else key
    noun = vocabulary().nouns.get(key)
    return key if noun is not None and noun.role is not None and noun.role["kind"] == "fastening" else ""


def _plain(text: str) -> str:
    return text.replace("{", "(").replace("}", ")").replace("[", "[[").replace("]", "]]")


def _slug(title: str) -> str:
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode("ascii").casefold()
    words = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_KEY].strip("-")
    return words if words[:1].isalpha() else f"write-up-{words}".strip("-")


def _minutes(figure: Typed) -> float:
    return units.in_unit(float(figure.value or 0.0), unit=figure.unit, to="min")


def _path(figure: Typed, moves: tuple[ReadMove, ...]) -> str:
    """Return the fact of a vehicle sheet that a figure may be, "" where it is none."""
    for move in moves:
        if figure not in move.placed.figures:
            continue
        noun = vocabulary().nouns.get(_fastening(move.thing) or move.thing)
        if noun is None or noun.role is None:
            continue
        part = f"{_GROUPS[noun.role['kind']]}.{noun.role['usual']}"
        if figure.kind in ("torque", "turn") and move.action == "tighten":
            return f"{part}.{figure.kind}"
        if figure.kind == "volume" and move.action == "pour":
            return f"{part}.refill"
    return ""

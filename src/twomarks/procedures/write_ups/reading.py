"""A write-up read from its first sentence to its last: what it says to do, what could not be placed, what is to be asked."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from twomarks.procedures.write_ups.clause import Clause
from twomarks.procedures.write_ups.figures import Typed, figures_in
from twomarks.procedures.write_ups.grouping import clauses_of
from twomarks.procedures.write_ups.items import items_of
from twomarks.procedures.write_ups.naming import Context
from twomarks.procedures.write_ups.placing import Placed, place_clause
from twomarks.procedures.write_ups.repeats import repeats, reversed_of, says_again
from twomarks.procedures.write_ups.text import Sentence, sentences
from twomarks.procedures.write_ups.vocabulary import vocabulary
from twomarks.words import Message, say

__all__ = ["Question", "ReadMove", "ReadSentence", "ReadWriteUp", "Unplaced", "read_sentences"]

_TITLE_WORDS = 6
_REASONS = ("verb", "thing", "condition", "repeat", "reverse")
_NEEDS = re.compile(r"^\W*(?:for this,? )?(?:you|i|we)(?:'ll| will| would|'d)? (?:also )?need (?!to\b)", re.IGNORECASE)
_QUARTS = re.compile(r"\b(?:quarts?|qts?|pints?|pts?|gallons?|gals?)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadMove:
    """One action that was found. `repeats` marks one that is done again; `claimed` one that only a clause such as
    "the reverse of removal" speaks for."""

    action: str
    thing: str
    placed: Placed
    repeats: bool = False
    claimed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Unplaced:
    """A sentence, or a part of it, that was not understood, or rests on something that cannot be said yet."""

    line: int
    text: str
    reason: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What the author should be asked, at which line."""

    line: int
    text: str
    what: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSentence:
    """One sentence with what was found in it. `warns` marks a warning, `again` and `reversed` what stands for other steps."""

    sentence: Sentence
    moves: tuple[ReadMove, ...]
    open: str = ""
    warns: bool = False
    again: bool = False
    reversed: bool = False
    figures: tuple[Typed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadWriteUp:
    """A whole write-up as read."""

    title: str
    sentences: tuple[ReadSentence, ...]
    tools: tuple[str, ...]
    unplaced: tuple[Unplaced, ...]
    questions: tuple[Question, ...]
    asides: tuple[Sentence, ...]

    @property
    def moves(self) -> tuple[ReadMove, ...]:
        """Every action found, in order."""
        return tuple(move for one in self.sentences for move in one.moves)


def read_sentences(text: str, *, where: str, market: str | None) -> ReadWriteUp:
    """Return what a write-up says, sentence by sentence; figures are read as in `market`."""
    context = Context()
    title = ""
    found: list[ReadSentence] = []
    tools: list[str] = []
    done: list[Placed] = []
    parts = sentences(text, where=where)
    context.families = _families(parts)
    if len(context.families) == 1:
        context.family = context.families[0]
    for part in parts:
        if part.kind != "sentence":
            if part.kind == "heading" and not title:
                title = part.text.strip(" :#*=-")
            if part.kind == "tools":
                tools.append(part.text)
            elif not part.text.casefold().startswith(tuple(vocabulary().small["toolish"])):
                context.hear(part.text)
            continue
        if not title and not found and _is_title(part.text):
            title = part.text.strip(" .")
            context.hear(part.text)
            continue
        one = _read(part, context, done, market)
        found.append(one)
        done.extend(move.placed for move in one.moves if not move.repeats)
    return ReadWriteUp(
        title=title,
        sentences=tuple(found),
        tools=tuple(tools),
        unplaced=tuple(_unplaced(found)),
        questions=tuple(_questions(found, context)),
        asides=tuple(one.sentence for one in found if not one.moves and not one.open and not one.warns),
    )


def _is_title(text: str) -> bool:
    """Return whether the first sentence names the job and says nothing to do ("New battery.")."""
    clauses = clauses_of(items_of(text, ()))
    bare = [not (one.head or one.particles or one.figures or one.unknown_verb) for one in clauses]
    return len(text.split()) <= _TITLE_WORDS and all(bare)


def _families(parts: tuple[Sentence, ...]) -> tuple[str, ...]:
    heard: dict[str, None] = {}
    for part in parts:
        if part.kind != "tools":
            alone = Context()
            alone.hear(part.text)
            if alone.family:
                heard[alone.family] = None
    return tuple(heard)


def _read(part: Sentence, context: Context, done: list[Placed], market: str | None) -> ReadSentence:
    context.here = []
    context.tried = ""
    context.hear(part.text)
    figures = figures_in(part.text, market=market)
    items = items_of(part.text, figures)
    context.regretted = any(item.kind == "regret" for item in items)
    moves: list[ReadMove] = []
    opened = ""
    warned = again = turned = False
    if not part.text.rstrip().endswith("?") and not _NEEDS.search(part.text):
        for clause in clauses_of(items):
            if clause.reversed:
                turned = True
                moves.extend(ReadMove(action=one.action, thing=one.thing, placed=one, claimed=True) for one in _turned(context))
                continue
            if says_again(clause.text()) and not clause.aside and not clause.negated:
                again = True
                context.mention(clause.named)
                earlier = [*done, *(move.placed for move in moves)]
                more = repeats(f"{clause.text()} {part.text.casefold()}", earlier, context)
                moves.extend(ReadMove(action=one.action, thing=one.thing, placed=one, repeats=True) for one in more)
                opened = opened or ("" if more else "repeat")
                continue
            placing = place_clause(clause, context, moves[-1].placed if moves else None)
            _attach_figures(clause, placing.placed, moves)
            moves.extend(ReadMove(action=one.action, thing=one.thing, placed=one) for one in placing.placed)
            opened = opened or placing.open
            warned = warned or placing.warned
    return ReadSentence(sentence=part, moves=tuple(moves), open=opened, warns=warned, again=again, reversed=turned, figures=figures)


def _turned(context: Context) -> tuple[Placed, ...]:
    found = reversed_of(context)
    context.off.clear()
    return found


def _attach_figures(clause: Clause, placed: list[Placed], moves: list[ReadMove]) -> None:
    """Give figures that stand in a clause of their own (", 35 Nm") to the action before them."""
    if placed or not moves or not (clause.figures or clause.by_hand) or clause.aside or clause.head:
        return
    last = moves[-1]
    noun = vocabulary().nouns.get(last.thing)
    tightens = any(figure.kind in ("torque", "turn") for figure in clause.figures)
    if tightens and len(moves) > 1 and (noun is None or not noun.action("tighten")):
        earlier = vocabulary().nouns.get(moves[-2].thing)
        if moves[-2].action in ("fit", "tighten") and earlier is not None and earlier.action("tighten"):
            moves.insert(len(moves) - 1, moves.pop())
            moves[-1], moves[-2] = moves[-2], moves[-1]
            last, noun = moves[-1], earlier
    one = replace(last.placed, figures=(*last.placed.figures, *clause.figures), by_hand=last.placed.by_hand or clause.by_hand)
    moves[-1] = replace(last, placed=one)
    if (
        one.action == "fit"
        and noun is not None
        and noun.action("tighten")
        and any(figure.kind in ("torque", "turn") for figure in clause.figures)
    ):
        tight = Placed(action="tighten", thing=one.thing, plain="tighten", figures=tuple(clause.figures))
        moves.append(ReadMove(action="tighten", thing=one.thing, placed=tight))


def _unplaced(found: list[ReadSentence]) -> Iterator[Unplaced]:
    for one in found:
        if one.open in _REASONS:
            yield Unplaced(line=one.sentence.line, text=one.sentence.text, reason=say(f"write_up.open_{one.open}"))


def _questions(found: list[ReadSentence], context: Context) -> Iterator[Question]:
    small = vocabulary().small
    for one in found:
        lowered = one.sentence.text.casefold()

        def asked(key: str, one: ReadSentence = one, **figures: str) -> Question:
            return Question(line=one.sentence.line, text=one.sentence.text, what=say(f"write_up.ask_{key}", **figures))

        told: set[str] = set()
        for move in one.moves:
            asks = move.placed.asks
            if asks in ("put_back", "change", "order") and asks not in told:
                told.add(asks)
                yield asked(asks)
            vague = move.action == "tighten" and not move.placed.by_hand and not _tight_to(move.placed)
            if vague and "tight" not in told:
                told.add("tight")
                yield asked("tight")
        if one.reversed:
            yield asked("reverse")
        if one.again and any(move.repeats for move in one.moves):
            yield asked("again")
        if any(side in lowered for side in small["market_sides"]):
            yield asked("side")
        if re.search(r"\bhot\b", lowered) and one.moves:
            yield asked("hot")
        if "before" in lowered and re.search(r"\bbefore (?:all |any of |you start )?(?:that|this|all)\b", lowered):
            yield asked("order")
        for figure in one.figures:
            if figure.could_be:
                yield asked("market", figure=figure.text, units=" / ".join(figure.could_be))
            elif _QUARTS.search(figure.text):
                yield asked("market_taken", figure=figure.text, unit=figure.unit)
    if "engine" in context.assumed and found:
        first = found[0].sentence
        yield Question(line=first.line, text="", what=say("write_up.ask_family"))


def _tight_to(placed: Placed) -> bool:
    return any(figure.kind in ("torque", "turn", "angle") for figure in placed.figures)

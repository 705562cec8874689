"""A sentence as items: what each word is, decided from left to right by what a verb may follow."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.procedures.write_ups.figures import Typed
from twomarks.procedures.write_ups.vocabulary import Verb, folded, tokens_of, vocabulary

__all__ = ["Item", "items_of"]

_ALSO_OBJECTS = frozenset(("both", "her", "this", "that", "these", "those", "one"))
_BREAKS = frozenset(".,;:!?()")
_FIGURE = re.compile(r"figure(\d+)")
_LONGEST = 6
_SMALL = (
    "fillers", "regrets", "reminders", "reverses", "causatives", "negatives", "agents", "others", "modals", "subordinators", "conjunctions",
    "tool_words", "by_hand", "adverbs", "new", "old", "determiners", "prepositions", "objects",
)  # fmt: skip
_BE = frozenset(("is", "are", "be", "being", "been", "was", "were", "gets", "'s"))
_GIVEN = frozenset(("figure", "noun", "object", "other", "determiner", "new", "old"))
_MAY_END = frozenset(("particle", "figure", "hand", "object", "noun", "other"))
_NAMED_FOR = {
    "fillers": "filler", "regrets": "regret", "reminders": "reminder", "reverses": "reverse", "causatives": "cause", "negatives": "not",
    "agents": "agent", "others": "other", "tool_words": "word", "modals": "modal", "subordinators": "sub", "conjunctions": "and",
    "by_hand": "hand",
    "adverbs": "adverb", "new": "new", "old": "old", "determiners": "determiner", "prepositions": "particle", "objects": "object",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One word or phrase: what it is, its words, and for a verb what it may be (a verb and the form it stands in)."""

    kind: str
    words: tuple[str, ...]
    at: int
    noun: str = ""
    head: str = ""
    form: str = ""
    verb: Verb | None = None
    figure: Typed | None = None

    @property
    def text(self) -> str:
        """The words, with spaces."""
        return " ".join(self.words)


def items_of(sentence: str, figures: Sequence[Typed]) -> list[Item]:
    """Return the items of a sentence; the figures found in it stand as one item each."""
    text = sentence
    for number in range(len(figures) - 1, -1, -1):
        text = f"{text[: figures[number].start]} figure{number} {text[figures[number].end :]}"
    return _Reader(tokens_of(text), figures).read()


class _Reader:
    """Goes through the words of one sentence; `may` says whether a verb may stand at the next word."""

    def __init__(self, tokens: list[str], figures: Sequence[Typed]) -> None:
        self.tokens, self.figures = tokens, figures
        self.small = vocabulary().small_phrases
        self.items: list[Item] = []
        self.at = 0
        self.may = True
        self.caused = False
        self.helped = False
        self.awaited: frozenset[str] = frozenset()

    def read(self) -> list[Item]:
        while self.at < len(self.tokens):
            item = self._next()
            self.items.append(item)
            self.at += len(item.words)
            self._follow(item)
        return self.items

    def _next(self) -> Item:
        token = self.tokens[self.at]
        if token in _BREAKS:
            return self._item("break", 1)
        if match := _FIGURE.fullmatch(token):
            return Item(kind="figure", words=(token,), at=self.at, figure=self.figures[int(match[1])])
        small, length = self._small()
        if small == "determiner" and token in _ALSO_OBJECTS and (self._ends_after(length) or (self.caused and token == "her")):
            return self._item("object", length)
        noun, noun_length = self._noun()
        if not self.may and token not in self.awaited and self.items and self.items[-1].kind == "noun" and not noun:
            done = self._verb(0)
            if done is not None and done.verb is not None and done.form in ("past", "participle") and self._ends_after(len(done.words)):
                return done
        verb = None if token in self.awaited else self._verb(noun_length) if self.may else self._runs_on(noun)
        if verb is not None and len(verb.words) >= (length if small not in ("determiner", "particle", "filler") else 0):
            return verb
        if noun and noun_length >= length and not self._is_person(noun) and self._is_part_of(noun_length):
            return self._item("word", noun_length)
        if noun and noun_length >= length and not (small in ("reverse", "regret", "hand") and length >= noun_length):
            return Item(kind="noun", words=tuple(self.tokens[self.at : self.at + noun_length]), at=self.at, noun=noun)
        if small == "filler" and not (self.may or not self.items):
            small, length = self._small(skip=("fillers",))
        if small:
            return self._item(small, length)
        if token in _BE:
            return self._item("be", 1)
        return self._item("word", 1)

    def _is_person(self, noun: str) -> bool:
        known = vocabulary().nouns
        return noun in known and known[noun].kind == "person"

    def _is_part_of(self, length: int) -> bool:
        """Return whether a thing only says of which thing the next one is ("battery cover")."""
        after = self.at + length
        if after >= len(self.tokens):
            return False
        following = folded(self.tokens[after])
        return following in vocabulary().small["parts_of"] and not self._noun_at(after)[0]

    def _runs_on(self, noun: str) -> Item | None:
        """Return a verb that begins anew without a mark, as people speak ("bonnet up take the cap off")."""
        before = next((one.kind for one in reversed(self.items) if one.kind not in ("adverb", "filler")), "")
        if noun or before not in _MAY_END:
            return None
        verb = self._verb(0)
        told = verb is not None and verb.form == "past" and any(one.kind == "agent" for one in self.items)
        if verb is None or (verb.form != "base" and not told):
            return None
        kept, self.at = self.at, self.at + len(verb.words)
        small, _ = self._small() if self.at < len(self.tokens) else ("", 0)
        given = small in ("determiner", "new", "old") or (self.at < len(self.tokens) and self.tokens[self.at] in ("it", "them"))
        self.at = kept
        return verb if given else None

    def _ends_after(self, length: int) -> bool:
        following = self.tokens[self.at + length] if self.at + length < len(self.tokens) else "."
        return following in _BREAKS or following in ("and", "then", "up", "out", "off", "in", "on", "down", "back")

    def _item(self, kind: str, length: int) -> Item:
        return Item(kind=kind, words=tuple(self.tokens[self.at : self.at + length]), at=self.at)

    def _small(self, skip: tuple[str, ...] = ()) -> tuple[str, int]:
        best, longest = "", 0
        for name in _SMALL:
            if name in skip:
                continue
            phrases = self.small[name]
            for length in range(min(_LONGEST, len(self.tokens) - self.at), longest, -1):
                if tuple(self.tokens[self.at : self.at + length]) in phrases:
                    best, longest = _NAMED_FOR[name], length
                    break
        return best, longest

    def _noun(self) -> tuple[str, int]:
        noun, length = self._noun_at(self.at)
        beyond = [self._noun_at(self.at + inside)[1] + inside for inside in range(1, length)]
        if any(end > length for end in beyond):
            return "", 0
        return noun, length

    def _noun_at(self, at: int) -> tuple[str, int]:
        phrases = vocabulary().phrases
        for length in range(min(_LONGEST, len(self.tokens) - at), 0, -1):
            key = tuple(folded(word) for word in self.tokens[at : at + length])
            if key in phrases:
                return phrases[key], length
        return "", 0

    def _verb(self, noun_length: int) -> Item | None:
        known = vocabulary()
        token = self.tokens[self.at]
        if token in known.small["sides"] and not self._is_given():
            return None
        best: Item | None = None
        for head, form in known.forms.get(token, ()):
            if not self._form_fits(form):
                continue
            for verb in known.verbs[head]:
                length = 1 + len(verb.rest)
                if tuple(self.tokens[self.at + 1 : self.at + length]) != verb.rest:
                    continue
                if best is None or length > len(best.words):
                    words = tuple(self.tokens[self.at : self.at + length])
                    best = Item(kind="verb", words=words, at=self.at, head=head, form=form, verb=verb)
            if best is None and any(self._parted(verb.rest) for verb in known.verbs[head]):
                best = Item(kind="verb", words=(token,), at=self.at, head=head, form=form)
        if best is None or (noun_length and self._is_rather_a_noun(best, noun_length)):
            return None
        return best

    def _parted(self, rest: tuple[str, ...]) -> bool:
        """Return whether the words that belong to a verb follow it before the next mark."""
        if self.tokens[self.at] in vocabulary().small["causatives"] and self._lets():
            return False
        place = self.at + 1
        for word in rest:
            while place < len(self.tokens) and self.tokens[place] not in _BREAKS and self.tokens[place] != word:
                place += 1
            if place >= len(self.tokens) or self.tokens[place] != word:
                return False
            if self.tokens[self.at] in vocabulary().small["causatives"] and self._belongs_to_another(place):
                return False
            place += 1
        return True

    def _is_given(self) -> bool:
        """Return whether something is given after this word ("left it", and not "left front")."""
        following = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else "."
        return following in ("it", "them", "the", "a", "my")

    def _in_cause(self) -> bool:
        """Return whether this clause lets something happen."""
        for one in reversed(self.items):
            if one.kind in ("break", "and", "verb"):
                return False
            if one.kind == "cause":
                return True
        return False

    def _lets(self) -> bool:
        """Return whether a word lets something happen ("leave it to drain")."""
        near = self.tokens[self.at + 1 : self.at + 5]
        after = self.at + 2 + near.index("to") if "to" in near else len(self.tokens)
        forms = vocabulary().forms.get(self.tokens[after], ()) if after < len(self.tokens) else ()
        return any(form == "base" for _, form in forms)

    def _belongs_to_another(self, place: int) -> bool:
        """Return whether the particle at `place` follows a verb of its own ("let it cool down")."""
        known = vocabulary()
        heads = [head for head, _ in known.forms.get(self.tokens[place - 1], ())]
        return place - 1 > self.at and any(verb.rest[:1] == (self.tokens[place],) for head in heads for verb in known.verbs[head])

    def _form_fits(self, form: str) -> bool:
        before = self.items[-1] if self.items else None
        if form == "s":
            return self.helped
        if form == "past" and self.helped:
            return False
        if form == "participle":
            return before is not None and before.kind in ("be", "noun")
        if form == "ing":
            return before is not None and before.text in vocabulary().small["before_ing"]
        return True

    def _is_rather_a_noun(self, verb: Item, noun_length: int) -> bool:
        if noun_length > len(verb.words) and noun_length != 1:
            return True
        after = self.at + len(verb.words)
        following = self.tokens[after] if after < len(self.tokens) else "."
        if len(verb.words) > 1:
            return following in _BREAKS and not (verb.verb and verb.verb.alone)
        before = next((one.kind for one in reversed(self.items) if one.kind not in ("adverb", "filler")), "")
        if before in ("other", "object", "noun") and self._in_cause():
            return False
        if self.helped or before in ("agent", "modal", "not", "reminder"):
            return False
        kept, self.at = self.at, after
        try:
            small, _ = self._small()
            noun, _ = self._noun() if after < len(self.tokens) else ("", 0)
        finally:
            self.at = kept
        return not (small in _GIVEN or noun or _FIGURE.fullmatch(following) or following in ("up", "down", "around", "round"))

    def _follow(self, item: Item) -> None:
        """Say whether a verb may follow `item`."""
        vocab = vocabulary()
        match item.kind:
            case "verb":
                self.may = False
                if item.verb is None:
                    self.awaited = frozenset(word for verb in vocab.verbs[item.head] if len(verb.rest) > 1 for word in verb.rest)
            case "break" | "and":
                self.awaited = frozenset()
                self.may, self.caused = True, False
                self.helped = self.helped and item.kind == "and"
            case "agent" | "reminder" | "not":
                self.may = True
            case "noun":
                person = vocab.nouns[item.noun].kind == "person" if item.noun in vocab.nouns else False
                self.helped = person
                self.may, self.caused = person or self.caused, False
            case "other":
                helper = item.words[0] in ("he", "she", "he'll", "she'll")
                self.helped = helper
                self.may, self.caused = helper or self.caused, False
            case "object":
                self.may, self.caused = self.caused, False
            case "cause":
                self.caused = True
            case "modal":
                before = self.items[-2].kind if len(self.items) > 1 else "break"
                passive = any(one.kind == "noun" for one in self.items) and before in ("noun", "be")
                self.may = passive or before not in ("other", "word", "figure", "determiner", "particle") or self.caused
            case "adverb" | "filler" | "new" | "old" | "determiner" | "be" | "sub":
                if item.kind in ("new", "old", "determiner"):
                    self.may = False
                elif item.kind == "be":
                    before = self.items[-2].kind if len(self.items) > 1 else ""
                    self.may = before == "modal"
                elif item.kind == "sub":
                    self.may = True
            case _:
                self.may = False

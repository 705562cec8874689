"""Items grouped into clauses, from left to right: where one ends, what hangs on another, what is only warned of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from twomarks.procedures.write_ups.clause import Clause, Named
from twomarks.procedures.write_ups.items import Item
from twomarks.procedures.write_ups.vocabulary import vocabulary

__all__ = ["clauses_of"]

_HARD = frozenset((".", ";", ":", "!", "?", "(", ")"))
_SOFT = frozenset((",", "and", "then", "and then", "but", "so", "and so", "plus"))
_PHRASAL = frozenset(("by", "for", "as", "until", "till", "after", "before", "since", "where"))
_OPENS_A_CLAUSE = frozenset(("verb", "agent", "other", "noun", "determiner", "be", "figure"))
_RELATES = frozenset(("other", "agent", "noun", "verb", "be", "modal", "word"))
_LEADS = frozenset(("modal", "and", "break", "not", "reminder", "object", "other", "cause"))
_GOES_ON = frozenset(("verb", "agent", "not", "adverb"))
_FOLLOWS_A_PREPOSITION = frozenset(("noun", "word", "figure", "object", "other"))
_OPENS_A_SENTENCE = frozenset(("break", "and", "agent", "adverb", "filler"))


@dataclass(slots=True)
class _Under:
    """A clause that hangs on another ("when it has run out"): its first word, and who acts in it."""

    word: str
    agents: int = 0
    items: int = 0
    figure_first: bool = False


def clauses_of(items: Sequence[Item]) -> list[Clause]:
    """Return the clauses of a sentence in order."""
    return _Grouping(items).clauses


class _Grouping:
    def __init__(self, items: Sequence[Item]) -> None:
        self.items = list(items)
        self.clauses: list[Clause] = []
        self.clause = Clause()
        self.under: _Under | None = None
        self.conditional = self.waiting = self.negated = False
        self.preposition = ""
        self.new = self.old = False
        for index, item in enumerate(self.items):
            self._take(item, index)
        self._close("")

    def _kind_at(self, index: int) -> str:
        return self.items[index].kind if 0 <= index < len(self.items) else "break"

    def _close(self, joined: str) -> None:
        if self.clause.words:
            self.clauses.append(self.clause)
        aside = self.under is not None
        self.clause = Clause(joined=joined, conditional=self.conditional, waiting=self.waiting, negated=self.negated, aside=aside)
        self.preposition, self.new, self.old = "", False, False

    def _take(self, item: Item, index: int) -> None:
        if item.kind in ("break", "and"):
            self._end(item, index)
            return
        if self.under is not None and self._leaves(item):
            self._leave("")
        self.clause.words.extend(item.words)
        if self.under is not None:
            self.under.items += 1
            self.under.agents += item.kind == "agent"
        match item.kind:
            case "verb":
                self._take_verb(item, index)
            case "noun":
                self._take_noun(item, index)
            case "sub":
                self._take_sub(item, index)
            case "particle":
                self._take_particle(item, index)
            case "object" | "other":
                self._take_pronoun(item)
            case "not":
                self._take_not(item)
            case "word":
                self._take_word(item, index)
            case _:
                self._take_small(item)

    def _take_small(self, item: Item) -> None:
        match item.kind:
            case "figure":
                assert item.figure is not None
                self.clause.figures.append(item.figure)
                self.preposition = ""
            case "agent" if self.clause.head or self.clause.negated:
                self._close("")
                self.clause.negated = self.negated = False
            case "cause":
                if item.words[0] == "let" and not self.clause.empty:
                    self.under = None
                    self._close("")
                if not self.clause.head:
                    self.clause.cause = item
            case "reminder":
                self._close(self.clause.joined)
            case "new":
                self.new = True
            case "old":
                self.old = True
            case "hand":
                self.clause.by_hand = True
            case "reverse":
                self.clause.reversed = True
            case "regret":
                self.clause.regret = True

    def _end(self, item: Item, index: int) -> None:
        """End a clause at a mark or at "and"."""
        mark = item.words[0]
        self.clause.words.extend(item.words)
        if self.under is not None:
            if mark in _HARD or mark == "," or self._resumes(item, index, self.under):
                self._leave(mark)
            return
        if mark in _HARD:
            self.conditional = self.conditional and mark in ("(", ":")
            self.negated = False
        elif item.text in _SOFT:
            self.negated = False
        self._close(item.text)

    def _resumes(self, item: Item, index: int, under: _Under) -> bool:
        """Return whether what follows "and" goes on with the main clause ("run it until it is warm and chock the wheels")."""
        then = item.words[-1] == "then"
        return item.kind == "and" and (then or (under.agents == 0 and self._kind_at(index + 1) in _GOES_ON))

    def _leaves(self, item: Item) -> bool:
        under = self.under
        assert under is not None
        if item.kind == "agent":
            return under.agents >= 1 or (under.items >= 1 and under.word != "if")
        figure_done = under.figure_first and under.items >= 1 and item.kind in ("verb", "noun", "determiner")
        return item.text == "go ahead and" or figure_done

    def _leave(self, mark: str) -> None:
        under = self.under
        assert under is not None
        self.under = None
        small = vocabulary().small
        if under.word in small["ifs"] and mark in _HARD:
            self.conditional = False
        if under.word in small["whiles"]:
            self.waiting = True
        if not self.clause.empty:
            self.clause.aside = True
            self.clauses.append(self.clause)
        self.clause = Clause(joined=mark, conditional=self.conditional, waiting=self.waiting)
        self.negated = False
        self.preposition, self.new, self.old = "", False, False

    def _take_sub(self, item: Item, index: int) -> None:
        word, follows = item.text, self._kind_at(index + 1)
        if word == "that" and self.clause.head in ("make", "ensure", "check", "see"):
            return
        if (word in ("that", "which", "who") and not self.clause.named and not self.clause.head) or (
            word == "that" and follows not in _RELATES
        ):
            self._take_pronoun(item)
        elif self._is_phrase(word, follows):
            self._take_particle(item, index)
        else:
            if word in vocabulary().small["ifs"]:
                if self.clause.empty:
                    self.conditional = True
                else:
                    self.clause.conditional = True
            self._close(self.clause.joined)
            self.under = _Under(word, figure_first=follows == "figure")
            self.clause.aside = True

    @staticmethod
    def _is_phrase(word: str, follows: str) -> bool:
        """Return whether a word that may open a clause only stands before a thing ("for leaks", "by hand")."""
        if word == "for":
            return follows != "verb"
        if word in ("by", "as", "where") and follows in ("noun", "determiner", "figure"):
            return True
        return word in _PHRASAL and follows not in _OPENS_A_CLAUSE

    def _take_verb(self, item: Item, index: int) -> None:
        before = self.items[index - 1] if index else None
        if before is not None and before.text == "to" and not self._is_led(index - 1):
            self._close(self.clause.joined)
            self.under = self.under or _Under("to")
            self.clause.aside = True
        if self.clause.head or self._stands_alone(item, before):
            self._close("")
        self.clause.head, self.clause.form, self.clause.verb = item.head, item.form, item.verb
        if not self.clause.named and not self.clause.cause:
            self.preposition = ""

    def _stands_alone(self, item: Item, before: Item | None) -> bool:
        """Return whether what was named before a verb is a clause of its own ("bonnet up take the cap off")."""
        named = self.clause.named
        if not named or self.clause.cause is not None or item.form not in ("base", "past") or not (self.clause.particles or named[-1].new):
            return False
        noun = vocabulary().nouns.get(named[-1].noun)
        is_person = noun is not None and noun.kind == "person"
        return not is_person and (before is None or before.kind not in ("modal", "be"))

    def _is_led(self, index: int) -> bool:
        """Return whether the word "to" at `index` follows what makes an action of the verb after it."""
        if index == 0:
            return True
        before = self.items[index - 1]
        let = before.kind == "noun" and self.clause.cause is not None
        return before.kind in _LEADS or let or before.text == "first thing"

    def _take_noun(self, item: Item, index: int) -> None:
        if self._kind_at(index + 1) == "noun":
            self.clause.named.append(Named(noun=item.noun, after="of"))
            return
        owner = self.items[index - 1].noun if self._kind_at(index - 1) == "noun" else ""
        before = index - 1
        while before > 0 and self.items[before].kind == "determiner" and self.items[before].text != "of":
            before -= 1
        if before > 0 and self.items[before].text == "of" and self._kind_at(before - 1) == "noun" and self.clause.named:
            self.clause.named[-1].owner = item.noun
            self.preposition = "of"
        self.clause.named.append(Named(noun=item.noun, after=self.preposition, new=self.new, old=self.old, owner=owner))
        self.new = self.old = False
        if self._kind_at(index + 1) not in ("noun", "new", "determiner"):
            self.preposition = ""

    def _take_particle(self, item: Item, index: int) -> None:
        if self._kind_at(index - 1) == "determiner":
            self.preposition = ""
            return
        deeper = index + 1
        while self._kind_at(deeper) in ("determiner", "new", "old", "adverb"):
            deeper += 1
        opens = self._kind_at(deeper) in _FOLLOWS_A_PREPOSITION and item.text not in ("back", "away")
        self.clause.particles.append(f"{item.text}+" if opens else item.text)
        if opens:
            self.preposition = item.text

    def _take_pronoun(self, item: Item) -> None:
        acts = self.clause.head or self.clause.cause or item.kind == "object"
        if not acts and item.words[0] in ("he", "she", "he'll", "she'll"):
            return
        if item.words[0] == "everything":
            return
        if not acts or self.preposition in ("", "of"):
            self.clause.pronoun = True
        elif self.preposition in ("on", "over", "round", "around"):
            self.clause.aimed = True
        self.preposition = ""

    def _take_not(self, item: Item) -> None:
        if not (self.clause.named and not self.clause.head):
            self._close(self.clause.joined)
            self.clause.words.extend(item.words)
        self.clause.negated = self.negated = True

    def _take_word(self, item: Item, index: int) -> None:
        clause, known, word = self.clause, vocabulary(), item.words[0]
        before, follows = self._kind_at(index - 1), self._kind_at(index + 1)
        if word in known.states or any(word in verb.rest for verb in known.verbs.get(clause.head, ())):
            clause.particles.append(word)
            return
        clause.told = clause.told or (bool(clause.named) and not clause.head and before == "noun" and not clause.particles)
        directly = before in ("determiner", "new", "old", "verb") and not self.preposition
        if clause.head and directly and not clause.named and follows != "noun":
            clause.stranger = True
        untouched = not (clause.head or clause.named or clause.unknown_verb or clause.pronoun)
        if untouched and word.isalpha() and before in _OPENS_A_SENTENCE and follows in ("determiner", "noun", "object", "new", "old"):
            clause.unknown_verb = word
        if follows not in ("noun", "word"):
            self.preposition = ""

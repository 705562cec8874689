"""The words of write-ups, read from the tables beside this module: things, verbs, circuits and small words."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from twomarks import packaged
from twomarks.model.procedure import ACTIONS, THINGS, Role

__all__ = ["Noun", "Phrase", "Verb", "Vocabulary", "folded", "tokens_of", "vocabulary"]

Phrase = tuple[str, ...]
_FOLDER = "procedures/write_ups"
_GRADE = re.compile(r"\b(\d{1,2}w)[- ]?(\d{2,3})\b")
_WORD = re.compile(r"\d+(?:[.,/]\d+)*[a-z]*\d*|[a-z]+(?:'[a-z]+)?\d*|[.,;:!?()]|-")
_SHORT_FORM = "s"


def tokens_of(text: str) -> list[str]:
    """Return the words and marks of a text in lower case; a hyphen inside a word parts it, one between words is a mark."""
    lowered = _GRADE.sub(r"\1\2", text.casefold().replace("\u2019", "'").replace("\u2018", "'"))
    lowered = re.sub(r"\s[-\u2013\u2014]+\s|\u2014", " ; ", lowered).replace("-", " ").replace("&", " and ")
    return _WORD.findall(lowered)


def folded(word: str) -> str:
    """Return a word without the endings of plural and possession, so that several and one match."""
    word = word.removesuffix("'s").removesuffix("'")
    if len(word) > len("oil") and word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word


@dataclass(frozen=True, slots=True, kw_only=True)
class Noun:
    """A thing that write-ups name: what stands for it in a procedure, and what can be done with it."""

    key: str
    kind: str
    thing: str
    family: str
    like: str
    at: str
    place: str
    role: Mapping[str, Any] | None
    does: frozenset[str]
    means: Mapping[str, str]

    def action(self, plain: str) -> str:
        """Return the exact action that a plain one is on this thing, "" where it makes no sense."""
        exact = self.means.get(plain, plain)
        return exact if exact in self.does else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verb:
    """A verb with its particles: the plain action, and what it needs."""

    does: str
    rest: Phrase
    alone: str = ""
    only: str = ""
    only_classes: tuple[str, ...] = ()
    quiet: bool = False
    always: str = ""
    caused: bool = False
    over: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Vocabulary:
    """All words, keyed as they are looked for."""

    nouns: Mapping[str, Noun]
    phrases: Mapping[Phrase, str]
    open_words: Mapping[str, tuple[str, ...]]
    verbs: Mapping[str, tuple[Verb, ...]]
    forms: Mapping[str, tuple[tuple[str, str], ...]]
    states: Mapping[str, str]
    families: Mapping[str, Mapping[str, str]]
    family_words: Mapping[Phrase, str]
    small: Mapping[str, frozenset[str]]
    small_phrases: Mapping[str, Mapping[Phrase, None]]
    longest: int = field(default=6)


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(packaged.text(f"{_FOLDER}/{name}.toml"))


def _key(words: str) -> Phrase:
    return tuple(folded(word) for word in tokens_of(words))


@cache
def vocabulary() -> Vocabulary:
    """Return the vocabulary; what the language of procedures does not know is left out of it."""
    classes = _table("classes")
    nouns: dict[str, Noun] = {}
    phrases: dict[Phrase, str] = {}
    for key, entry in _table("nouns").items():
        noun = _noun(key, entry, classes)
        if noun is None:
            continue
        nouns[key] = noun
        phrases.update({_key(words): key for words in entry["words"]})
    opened = _table("open_words")
    for name, entry in opened.items():
        phrases.update({_key(words): name for words in entry["words"] if phrases.get(_key(words)) not in nouns})
    table = _table("verbs")
    verbs, forms = _verbs([*table["verb"], *_motions(table["motions"])], table["irregular"])
    families = _table("families")
    small = {name: frozenset(words) for name, words in _table("small_words").items()}
    return Vocabulary(
        nouns=nouns,
        phrases=phrases,
        open_words={name: tuple(key for key in entry["means"] if key in nouns) for name, entry in opened.items()},
        verbs=verbs,
        forms=forms,
        states=table["states"],
        families=families,
        family_words={_key(words): name for name, entry in families.items() for words in entry["words"]},
        small=small,
        small_phrases={name: {tuple(tokens_of(words)): None for words in group} for name, group in small.items()},
    )


def _noun(key: str, entry: Mapping[str, Any], classes: Mapping[str, Any]) -> Noun | None:
    role = entry.get("role")
    thing = entry.get("thing", key)
    if role is None and thing not in THINGS and entry["class"] not in ("surface", "person", "reset"):
        return None
    kind = classes.get(entry["class"], {"does": [], "means": {}})
    known = frozenset(kind["does"]) & frozenset(ACTIONS)
    means = {**kind["means"], **entry.get("means", {})}
    does = known | (frozenset(entry.get("means", {}).values()) & frozenset(ACTIONS))
    if role is not None:
        role = {name: value for name, value in role.items() if name in Role.model_fields}
    return Noun(
        key=key,
        kind=entry["class"],
        thing=thing,
        family=entry.get("family", ""),
        like=entry.get("like", ""),
        at=entry.get("at", ""),
        place=entry.get("place", kind.get("place", "")),
        role=role,
        does=does,
        means=means,
    )


def _motions(table: Mapping[str, list[str]]) -> Iterable[Mapping[str, Any]]:
    for plain, particles in (("remove", table["removes"]), ("fit", table["fits"])):
        yield {"does": plain, "words": [f"{word} {particle}" for word in table["words"] for particle in particles]}


def _verbs(
    entries: Iterable[Mapping[str, Any]], irregular: Mapping[str, Iterable[str]]
) -> tuple[dict[str, tuple[Verb, ...]], dict[str, tuple[tuple[str, str], ...]]]:
    verbs: dict[str, dict[tuple[Phrase, tuple[str, ...]], Verb]] = {}
    for entry in entries:
        for words in entry["words"]:
            head, *rest = tokens_of(words)
            verb = Verb(
                does=entry["does"],
                rest=tuple(rest),
                alone=entry.get("alone", ""),
                only=entry.get("only", ""),
                only_classes=tuple(entry.get("only_classes", ())),
                quiet=entry.get("quiet", False),
                always=entry.get("always", ""),
                caused=entry.get("caused", False),
                over=tuple(entry.get("over", ())),
            )
            verbs.setdefault(head, {}).setdefault((verb.rest, verb.only_classes), verb)
    forms: dict[str, dict[tuple[str, str], None]] = {}
    for head in verbs:
        for form, kind in _forms(head, tuple(irregular.get(head, ()))):
            forms.setdefault(form, {})[(head, kind)] = None
    return {head: tuple(group.values()) for head, group in verbs.items()}, {form: tuple(group) for form, group in forms.items()}


def _forms(head: str, irregular: tuple[str, ...]) -> Iterable[tuple[str, str]]:
    yield head, "base"
    finite = ""
    for form in irregular:
        kind = "ing" if form.endswith("ing") else "s" if form.endswith("s") and form[:-1] in (head, f"{head}e") else "past"
        if kind == "past" and finite and form.endswith("n" if finite != "got" else "en"):
            kind = "participle"
        finite = finite or form
        yield form, kind
    if irregular:
        return
    stem = head.removesuffix("e")
    if re.fullmatch(r"[a-z]{0,3}[^aeiou][aeiou][^aeiouwxy]", head):
        yield f"{head}{head[-1]}ed", "past"
        yield f"{head}{head[-1]}ing", "ing"
    yield (
        f"{head[:-1]}ies"
        if head.endswith("y") and head[-2] not in "aeiou"
        else f"{head}es"
        if head.endswith(("ch", "sh", "ss", "x"))
        else f"{head}s",
        "s",
    )
    yield f"{head[:-1]}ied" if head.endswith("y") and head[-2] not in "aeiou" else f"{stem}ed", "past"
    yield f"{stem if not head.endswith('ee') else head}ing", "ing"

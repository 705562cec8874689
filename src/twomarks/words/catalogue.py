"""The sentences: one file per topic, found by the first part of the key."""

from __future__ import annotations

import tomllib
from functools import cache

from twomarks import packaged
from twomarks.errors import InputError

__all__ = ["keys", "sentence", "term", "topics"]

LANGUAGES = ("en",)


@cache
def _topic(language: str, topic: str) -> dict[str, str]:
    return dict(tomllib.loads(packaged.text(f"words/texts/{language}/{topic}.toml")))


@cache
def topics(language: str = "en") -> tuple[str, ...]:
    """Return the topics that have sentences."""
    return tuple(name.removesuffix(".toml") for name in packaged.names(f"words/texts/{language}", ".toml") if name != "terms.toml")


def keys(language: str = "en") -> tuple[str, ...]:
    """Return every key that has a sentence."""
    return tuple(f"{topic}.{key}" for topic in topics(language) for key in _topic(language, topic))


def sentence(key: str, *, language: str = "en") -> str:
    """Return the sentence of `key`, such as ``"oil.grade_covers"``, with its placeholders."""
    topic, _, rest = key.partition(".")
    if topic not in topics(language) or rest not in _topic(language, topic):
        raise InputError("words.key", found=key)
    return _topic(language, topic)[rest]


@cache
def _terms(language: str) -> dict[str, dict[str, str]]:
    return tomllib.loads(packaged.text(f"words/texts/{language}/terms.toml"))


def term(name: str, *, market: str, language: str = "en") -> str:
    """Return the trade's word for `name` in `market`, such as "bonnet" or "hood"."""
    variants = _terms(language).get(name)
    if variants is None:
        raise InputError("words.term", found=name)
    return variants.get(market, variants["uk"])


@cache
def terms(language: str = "en") -> tuple[str, ...]:
    """Return the names of all terms that differ between markets."""
    return tuple(_terms(language))

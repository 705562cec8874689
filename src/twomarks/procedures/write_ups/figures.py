"""Figures in the words of a write-up: found with their unit, read by market, or told to mean different amounts."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass

from twomarks import packaged, units
from twomarks.errors import InputError

__all__ = ["Typed", "figures_in"]

_WORDS: dict[str, str] = tomllib.loads(packaged.text("procedures/write_ups/numbers.toml"))
_NUMBER = (
    r"\d+\s+\d/\d|\d+/\d|\d+(?:[.,]\d+)*|(?:"
    + "|".join(sorted((word.replace(" ", r"\s+") for word in _WORDS), key=len, reverse=True))
    + r")(?![A-Za-z])"
)
_FIGURE = re.compile(
    rf"(?<![\w./])(?P<number>{_NUMBER})(?:\s*(?:-|\u2013|to)\s*(?P<high>\d+(?:[.,]\d+)?))?"
    r"\s*-?\s*(?P<unit>[A-Za-z\u00b0%][A-Za-z\u00b7\u22c5./\u00b0]*(?:[ -][A-Za-z.]+){0,2})",
    re.IGNORECASE,
)
_KINDS = frozenset(
    ("volume", "torque", "duration", "distance", "length", "pressure", "temperature", "turn", "angle", "mass", "period", "months")
)
_COUNTS = frozenset(("a", "an"))


@dataclass(frozen=True, slots=True)
class Typed:
    """A figure as it was typed: where in the sentence, its kind, and the amount where the market makes it certain.

    `could_be` are the units that the spelling may mean where the market is not known.
    """

    text: str
    start: int
    end: int
    kind: str
    value: float | None = None
    unit: str = ""
    could_be: tuple[str, ...] = ()


def figures_in(sentence: str, *, market: str | None) -> tuple[Typed, ...]:
    """Return the figures with a unit in a sentence."""
    found = []
    for match in _FIGURE.finditer(sentence):
        typed = _read(match, sentence, market)
        if typed is not None:
            found.append(typed)
    return tuple(found)


def _read(match: re.Match[str], sentence: str, market: str | None) -> Typed | None:
    words = match["unit"].split(" ")
    spoken = re.sub(r"\s+", " ", match["number"].casefold())
    number = _WORDS.get(spoken, match["number"])
    for count in range(len(words), 0, -1):
        spelling = " ".join(words[:count]).rstrip(".-")
        end = match.start("unit") + len(" ".join(words[:count]).rstrip(".-"))
        try:
            unit = units.unit_of(spelling, market=market)
        except InputError as error:
            kind = _kind_somewhere(spelling) if error.key == "units.bare" else ""
            expected = error.values.get("expected")
            if kind not in _KINDS or not isinstance(expected, tuple):
                continue
            return Typed(sentence[match.start() : end], match.start(), end, kind, could_be=tuple(str(one) for one in expected))
        if unit.kind not in _KINDS or (spoken in _COUNTS and unit.kind not in ("duration", "volume", "turn", "period", "months")):
            return None
        if len(spelling) == 1 and unit.kind not in ("volume", "temperature") and not match["number"][0].isdigit():
            return None
        try:
            value = units.number(number.replace(",", "."), decimal=".")
        except InputError:
            return None
        certain = None if match["high"] else float(value)
        return Typed(sentence[match.start() : end], match.start(), end, unit.kind, certain, unit.code)
    return None


def _kind_somewhere(spelling: str) -> str:
    """Return the kind of a unit whose spelling means different amounts in different markets."""
    for market in units.MARKETS:
        try:
            return units.unit_of(spelling, market=market).kind
        except InputError:
            continue
    return ""

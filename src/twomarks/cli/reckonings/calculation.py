"""What a calculation asks for and answers, and how what was typed becomes its arguments."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from types import MappingProxyType
from typing import Any, Literal, cast

from twomarks import units
from twomarks.cli.chosen import nearest
from twomarks.cli.options import read_file
from twomarks.errors import DocumentError, InputError
from twomarks.words import Figure, Message

__all__ = ["Asked", "Calculation", "Given", "Reckoned", "Typed", "given_for"]

MOST_PLACES = 6
TELLING = 0.005
TONS_KG = {"US ton": 907.18474, "tonne": 1000.0, "imperial ton": 1016.0469088}
"""2000 and 2240 pounds, and the metric one."""

TEXT, NUMBER, CHOICE, DAY, FILE, YES_OR_NO = "text", "number", "choice", "day", "file", "yes or no"
WORDS_OF_ANSWER = {"yes": True, "no": False}
EVERYBODY_READS = ("s", "h", "mL", "m", "cm", "g")
"""Units that say no more when they are written in the core unit of their kind as well."""
EXAMPLES = {DAY: "2026-11-25", YES_OR_NO: "yes", NUMBER: "3"}

Value = float | str | bool | dt.date


@dataclass(frozen=True, slots=True)
class Asked:
    """One thing that a calculation asks for: its key on the command line and what kind of thing it is.

    `kind` is a kind of `twomarks.units.KINDS`, ``quantity`` (of any kind), ``text``, ``number`` (without a unit), ``choice``
    (one of `choices`), ``day``, ``file`` (its text is handed over) or ``yes or no``. `default` is text, read like a typed value.
    """

    key: str
    kind: str
    example: str = ""
    needed: bool = True
    default: str | None = None
    many: bool = False
    choices: tuple[str, ...] = ()

    @property
    def shown(self) -> str:
        """An accepted value, for a refusal and for the overview."""
        if self.choices:
            return self.example or self.choices[0]
        return self.example or EXAMPLES.get(self.kind, "")


@dataclass(frozen=True, slots=True)
class Typed:
    """One value as it was typed and as it was read; a quantity keeps the unit it was typed in."""

    key: str
    text: str
    value: Value
    quantity: units.Quantity | None = None
    is_default: bool = False

    @property
    def figure(self) -> Figure | None:
        """The figure in the unit as typed, None for what is no quantity."""
        if self.quantity is None:
            return None
        return Figure(
            units.in_unit(self.quantity.core, unit=units.KINDS[self.quantity.kind].core, to=self.quantity.unit), self.quantity.unit
        )

    @property
    def is_converted(self) -> bool:
        """Whether the value was typed in another unit than the one it is reckoned in; it is then said in both."""
        return (
            self.quantity is not None
            and self.quantity.unit not in EVERYBODY_READS
            and units.KINDS[self.quantity.kind].core != self.quantity.unit
        )

    @property
    def in_both_units(self) -> str:
        """The quantity in the unit as typed and in the one it is reckoned in, such as "7 US qt = 6.62 L"."""
        assert self.quantity is not None
        core = units.KINDS[self.quantity.kind].core
        value = units.in_unit(self.quantity.core, unit=core, to=self.quantity.unit)
        places = next((places for places in range(MOST_PLACES) if round(value, places) == round(value, 9)), MOST_PLACES)
        return f"{units.written(value, unit=self.quantity.unit, decimals=places)} = {_telling(self.quantity.core, core)}"


def _telling(value: float, unit: str) -> str:
    """Return a figure with as many decimals as it takes to tell it from its neighbours: half a per cent."""
    usual = units.UNITS[unit].decimals
    places = next(
        (places for places in range(usual, MOST_PLACES) if abs(round(value, places) - value) <= TELLING * abs(value)), MOST_PLACES
    )
    return units.written(value, unit=unit, decimals=None if places == usual else places)


class Given:
    """The arguments of one calculation: values in core units, by the key they were typed under."""

    def __init__(self, typed: Sequence[Typed], *, on: dt.date, market: str | None) -> None:
        self.typed = tuple(typed)
        self.on = on
        self.market = market
        self._by_key: dict[str, list[Typed]] = {}
        for one in typed:
            self._by_key.setdefault(one.key, []).append(one)

    def has(self, key: str) -> bool:
        """Return whether a value stands under `key`, typed or by default."""
        return key in self._by_key

    def number(self, key: str) -> float:
        """Return the number under `key`, in the core unit of its kind."""
        return cast("float", self._by_key[key][0].value)

    def optional(self, key: str) -> float | None:
        """Return the number under `key`, None where nothing was given."""
        return self.number(key) if self.has(key) else None

    def numbers(self, key: str) -> tuple[float, ...]:
        """Return every number that was given under `key`, in the order of the command line."""
        return tuple(cast("float", one.value) for one in self._by_key.get(key, ()))

    def text(self, key: str) -> str:
        """Return the words, the choice or the file's text under `key`, "" where nothing was given."""
        return cast("str", self._by_key[key][0].value) if self.has(key) else ""

    def texts(self, key: str) -> tuple[str, ...]:
        """Return every text that was given under `key`, in the order of the command line."""
        return tuple(cast("str", one.value) for one in self._by_key.get(key, ()))

    def where(self, key: str) -> str:
        """Return what was typed under `key`: for a file its path."""
        return self._by_key[key][0].text if self.has(key) else ""

    def flag(self, key: str) -> bool | None:
        """Return the yes or no under `key`, None where nothing was given."""
        return cast("bool", self._by_key[key][0].value) if self.has(key) else None

    def day(self, key: str) -> dt.date | None:
        """Return the day under `key`, None where nothing was given."""
        return cast("dt.date", self._by_key[key][0].value) if self.has(key) else None

    def quantity(self, key: str) -> units.Quantity:
        """Return the quantity under `key`, with the unit that it was typed in."""
        return cast("units.Quantity", self._by_key[key][0].quantity)

    def figure(self, key: str) -> Figure | None:
        """Return the figure under `key` in the unit as typed, None where nothing was given."""
        return self._by_key[key][0].figure if self.has(key) else None


@dataclass(frozen=True, slots=True)
class Reckoned:
    """An answer: sentences, figures by keys that end in their unit, sources, cautions, and the exit code."""

    lines: tuple[Message, ...]
    results: Mapping[str, Any]
    sources: tuple[str, ...]
    cautions: tuple[Message, ...] = ()
    exit_code: Literal[0, 1] = 0


@dataclass(frozen=True, slots=True)
class Calculation:
    """A calculation by name: what it asks for, and the function that answers.

    `example` are words that it answers, where those of the needed values alone do not do.
    """

    name: str
    reckon: Callable[[Given], Reckoned]
    asked: tuple[Asked, ...]
    example: tuple[str, ...] = ()
    by_key: Mapping[str, Asked] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "by_key", MappingProxyType({one.key: one for one in self.asked}))

    @property
    def example_words(self) -> tuple[str, ...]:
        """The words of a command line that the calculation answers."""
        return self.example or tuple(f"{one.key}={one.shown}" for one in self.asked if one.needed and one.default is None)


def given_for(calculation: Calculation, words: Sequence[str], *, market: str | None, decimal: str | None, on: dt.date) -> Given:
    """Return the arguments that ``key=value`` words give a calculation.

    Raises
    ------
    InputError
        Where one word cannot be used or one value is missing.
    DocumentError
        Where there are several faults: all of them at once.
    """
    faults: list[InputError] = []
    typed: list[Typed] = []
    seen: set[str] = set()
    for word in words:
        try:
            one = _typed(calculation, word, seen, market=market, decimal=decimal)
        except InputError as fault:
            faults.append(fault)
        else:
            typed.append(one)
    for asked in calculation.asked:
        if asked.key in seen:
            continue
        if asked.default is not None:
            typed.append(replace(_read(asked, asked.default, market=market, decimal="."), is_default=True))
        elif asked.needed:
            faults.append(
                InputError("reckon.missing", where=calculation.name, found=asked.key, example=f"{asked.key}={_quoted(asked.shown)}")
            )
    if len(faults) > 1:
        raise DocumentError("reckon.faults", where=calculation.name, faults=faults)
    if faults:
        raise faults[0]
    return Given(typed, on=on, market=market)


def _quoted(text: str) -> str:
    return f'"{text}"' if " " in text else text


def _typed(calculation: Calculation, word: str, seen: set[str], *, market: str | None, decimal: str | None) -> Typed:
    key, equals, text = word.partition("=")
    key = key.strip()
    if not equals:
        first = calculation.asked[0]
        raise InputError("reckon.no_equals", where=calculation.name, found=word, example=f"{first.key}={_quoted(first.shown)}")
    asked = calculation.by_key.get(key)
    if asked is None:
        known = tuple(calculation.by_key)
        raise InputError("reckon.key", where=calculation.name, found=key, nearest=nearest(key, known) or None, expected=known)
    if key in seen and not asked.many:
        raise InputError("reckon.twice", where=calculation.name, found=key)
    seen.add(key)
    return _read(asked, text.strip(), market=market, decimal=decimal)


def _read(asked: Asked, text: str, *, market: str | None, decimal: str | None) -> Typed:
    if not text:
        raise InputError("reckon.empty", where=asked.key, example=asked.shown)
    match asked.kind:
        case "text":
            return Typed(asked.key, text, text)
        case "choice":
            if text.casefold() not in asked.choices:
                raise InputError(
                    "reckon.choice",
                    where=asked.key,
                    found=text,
                    nearest=nearest(text.casefold(), asked.choices) or None,
                    expected=asked.choices,
                )
            return Typed(asked.key, text, text.casefold())
        case "yes or no":
            if text.casefold() not in WORDS_OF_ANSWER:
                raise InputError("reckon.choice", where=asked.key, found=text, expected=tuple(WORDS_OF_ANSWER))
            return Typed(asked.key, text, WORDS_OF_ANSWER[text.casefold()])
        case "day":
            try:
                return Typed(asked.key, text, dt.date.fromisoformat(text))
            except ValueError:
                raise InputError("cli.date", where=asked.key, found=text, example=asked.shown) from None
        case "file":
            try:
                return Typed(asked.key, text, read_file(Path(text)).decode("utf-8-sig"))
            except UnicodeDecodeError:
                raise InputError("reckon.not_text", where=text) from None
        case "number":
            value, rest = units.split_number(text, decimal=decimal, where=asked.key, example=asked.shown)
            if rest:
                raise InputError("reckon.no_unit", where=asked.key, found=text, example=asked.shown)
            return Typed(asked.key, text, float(value))
    kind = None if asked.kind == "quantity" else asked.kind
    try:
        read = units.quantity(text, kind=kind, market=market, decimal=decimal, where=asked.key)
    except InputError as refused:
        if refused.key != "units.bare":
            raise
        raise _both_readings(asked, text, decimal) or refused from None
    return Typed(asked.key, text, read.core, read)


def _both_readings(asked: Asked, text: str, decimal: str | None) -> InputError | None:
    """Return the refusal of a unit that means different amounts, with what each market would read; None where none reads it."""
    readings: list[str] = []
    for market in units.MARKETS:
        with contextlib.suppress(InputError):
            read = units.quantity(text, market=market, decimal=decimal)
            readings.append(Typed(asked.key, text, read.core, read).in_both_units)
    if not readings:
        return _tons(asked, text, decimal)
    meant = tuple(dict.fromkeys(readings))
    if len(meant) == 1:
        return InputError("reckon.bare_one", where=asked.key, found=text, example=meant[0])
    return InputError("reckon.bare", where=asked.key, found=text, expected=meant)


def _tons(asked: Asked, text: str, decimal: str | None) -> InputError | None:
    """Return the refusal of a bare ton, which no market reads, with what each ton weighs."""
    number, rest = units.split_number(text, decimal=decimal, where=asked.key, example=asked.shown)
    if not rest.casefold().startswith("ton"):
        return None
    readings = tuple(f"{units.written(float(number) * kg, unit='kg')} ({name})" for name, kg in TONS_KG.items())
    return InputError("reckon.bare", where=asked.key, found=text, expected=readings)

"""A fact: a figure as text with its unit, its source, and whether it was confirmed on this vehicle."""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError, core_schema

from twomarks import units
from twomarks.errors import InputError
from twomarks.units import Quantity
from twomarks.words import Figure, Source

__all__ = [
    "AngleFact",
    "BaseNumberFact",
    "BrakeFact",
    "CountFact",
    "DateFact",
    "DensityFact",
    "DistanceFact",
    "DurationFact",
    "DynamicViscosityFact",
    "Fact",
    "FactKind",
    "KinematicViscosityFact",
    "LengthFact",
    "LevelFact",
    "Line",
    "MeasuredFact",
    "Name",
    "Part",
    "PeriodFact",
    "PressureFact",
    "ReadFact",
    "ShareFact",
    "SuspensionFact",
    "TemperatureFact",
    "TextFact",
    "Texts",
    "TorqueFact",
    "TurnFact",
    "VolumeFact",
    "fault",
    "listed",
    "shown",
]

_FACT_KEYS = ("value", "source", "confirmed")
LONGEST = 400
_READ_AS_FIGURE = ("number.none", "number.unreadable", "units.missing", "units.unknown")
SHOWN = 60
LARGEST = 10**9
"""No figure about a vehicle is larger than this in the core unit of its kind."""
EXAMPLES: Mapping[str, str] = {
    "angle": "90 deg",
    "base number": "8.1 mg KOH/g",
    "count": "3",
    "density": "850 kg/m3",
    "distance": "12000 km",
    "duration": "8 min",
    "dynamic viscosity": "3.5 mPa·s",
    "kinematic viscosity": "12.1 mm2/s",
    "length": "76 mm",
    "months": "12 months",
    "pressure": "2.3 bar",
    "share": "0.8 %",
    "temperature": "-30 C",
    "torque": "38 N·m",
    "turn": "3/4 turn",
    "voltage": "12.4 V",
    "volume": "4.3 L",
}
"""One accepted text of each kind of figure."""
A_DAY = "2026-11-30"


@dataclass(frozen=True, slots=True)
class Fact:
    """A figure as it was written, with its source and, where it has a unit, as an exact quantity.

    `sourced` is False where neither the fact nor any group around it names a source: it then counts as memory.
    """

    text: str
    source: Source
    confirmed: str = ""
    quantity: Quantity | None = None
    sourced: bool = True

    @property
    def figure(self) -> Figure:
        """The fact as a figure, in the unit it was written in."""
        if self.quantity is None:
            return Figure(self.text, "", self.source, self.confirmed)
        unit = units.UNITS[self.quantity.unit]
        return Figure(float((self.quantity.exact - unit.offset) / unit.factor), unit.code, self.source, self.confirmed)

    @property
    def day(self) -> dt.date:
        """The fact as a day."""
        return _day(self.text)

    @property
    def core(self) -> float:
        """The fact in the core unit of its kind."""
        if self.quantity is None:
            raise InputError("fact.no_number", found=self.text)
        return self.quantity.core

    def __str__(self) -> str:
        return self.text


def fault(error: InputError) -> PydanticCustomError:
    """Return `error` as the validation library wants it: a key and plain values, no sentence."""
    values = {name: value for name, value in error.values.items() if value not in ("", None, ()) and name != "where"}
    return PydanticCustomError(error.key, error.key, values)


def shown(value: object) -> str:
    """Return what was found as it is shown in a fault: on one line, cut short; of a table or an array that it is one."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    text = "a table" if isinstance(value, dict) else "an array" if isinstance(value, list | tuple) else str(value)
    return "".join(sign if sign.isprintable() else " " for sign in text[:SHOWN])


def _fact(kind: FactKind) -> Callable[[object], Fact]:
    """Return the reader of facts of this kind."""
    example = kind.example

    def read(value: object) -> Fact:
        if isinstance(value, Fact):
            return value
        table: Mapping[str, Any] = value if isinstance(value, dict) else {"value": value}
        unknown = [key for key in table if key not in (*_FACT_KEYS, "inherited")]
        if unknown:
            near = difflib.get_close_matches(unknown[0], _FACT_KEYS, 1, 0.6)
            raise fault(InputError("fact.key", found=shown(unknown[0]), expected=_FACT_KEYS, nearest="".join(near), example=example))
        text = table.get("value")
        if not isinstance(text, str) or not text.strip():
            raise fault(InputError("fact.text", found=shown(text), example=example))
        if len(text) > LONGEST:
            raise fault(InputError("fact.too_long", found=shown(text), expected=LONGEST, example=example))
        for key, instance in (("source", "handbook: p. 214"), ("confirmed", "A., 2026-03-02")):
            if key in table and not isinstance(table[key], str):
                raise fault(InputError("fact.words", what=key, found=shown(table[key]), example=instance))
        try:
            if kind.words and text.strip() not in kind.words:
                near = difflib.get_close_matches(text.strip(), kind.words, 1, 0.5)
                raise InputError("document.word", found=shown(text), expected=kind.words, nearest="".join(near))
            if kind.date:
                _day(text.strip())
            source = table.get("source") or table.get("inherited")
            return Fact(
                text.strip(),
                Source.read(source) if source else Source("memory"),
                table.get("confirmed", ""),
                _quantity(text, kind.kinds) if kind.kinds else None,
                source is not None,
            )
        except InputError as error:
            raise fault(InputError(error.key, **{**error.values, "example": example}) if error.key in _READ_AS_FIGURE else error) from None

    return read


def _day(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise InputError("fact.day", found=shown(text), example=A_DAY) from None


def _quantity(text: str, kinds: tuple[str, ...]) -> Quantity:
    found = units.quantity(text, decimal=".", default_unit="" if kinds == ("count",) else None)
    if found.kind not in kinds:
        wanted = units.UNITS[units.KINDS[kinds[0]].core].shown
        raise InputError("units.kind", found=units.UNITS[found.unit].shown, expected=kinds[0], example=wanted)
    if found.exact <= 0 and found.kind != "temperature":
        raise InputError("fact.not_positive", found=shown(text), example=EXAMPLES.get(kinds[0], ""))
    if abs(found.exact) > LARGEST:
        raise InputError("fact.too_large", found=shown(text), example=EXAMPLES.get(kinds[0], ""))
    if found.kind == "count" and found.exact.denominator != 1:
        raise InputError("fact.whole", found=shown(text), example=EXAMPLES["count"])
    return found


@dataclass(frozen=True, slots=True)
class FactKind:
    """Marks a field as a fact of these kinds (none: text), as one of these words or as a date: how it is read, and its schema."""

    kinds: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    date: bool = False

    @property
    def example(self) -> str:
        """A text that would be accepted."""
        if self.date:
            return A_DAY
        return EXAMPLES.get(self.kinds[0], "") if self.kinds else self.words[0] if self.words else "16 x 22"

    def __get_pydantic_core_schema__(self, _source: object, _handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(_fact(self))

    def __get_pydantic_json_schema__(self, _core: object, _handler: object) -> dict[str, Any]:
        value: dict[str, Any] = (
            {"enum": list(self.words)} if self.words else {"type": "string", **({"format": "date"} if self.date else {"minLength": 1})}
        )
        table = {"type": "object", "required": ["value"], "additionalProperties": False}
        properties = {"value": value, "source": {"type": "string"}, "confirmed": {"type": "string"}}
        return {
            "anyOf": [value, {**table, "properties": properties}],
            "description": f"a fact ({' or '.join(self.kinds) or ('date' if self.date else 'text')})",
        }


VolumeFact: TypeAlias = Annotated[Fact, FactKind(("volume",))]
TorqueFact: TypeAlias = Annotated[Fact, FactKind(("torque",))]
DistanceFact: TypeAlias = Annotated[Fact, FactKind(("distance",))]
TemperatureFact: TypeAlias = Annotated[Fact, FactKind(("temperature",))]
DurationFact: TypeAlias = Annotated[Fact, FactKind(("duration",))]
LengthFact: TypeAlias = Annotated[Fact, FactKind(("length",))]
PressureFact: TypeAlias = Annotated[Fact, FactKind(("pressure",))]
PeriodFact: TypeAlias = Annotated[Fact, FactKind(("months", "period"))]
AngleFact: TypeAlias = Annotated[Fact, FactKind(("angle",))]
TurnFact: TypeAlias = Annotated[Fact, FactKind(("turn",))]
ShareFact: TypeAlias = Annotated[Fact, FactKind(("share",))]
BaseNumberFact: TypeAlias = Annotated[Fact, FactKind(("base number",))]
DensityFact: TypeAlias = Annotated[Fact, FactKind(("density",))]
KinematicViscosityFact: TypeAlias = Annotated[Fact, FactKind(("kinematic viscosity",))]
DynamicViscosityFact: TypeAlias = Annotated[Fact, FactKind(("dynamic viscosity",))]
MeasuredFact: TypeAlias = Annotated[Fact, FactKind(("length", "share", "voltage", "temperature", "pressure"))]
DateFact: TypeAlias = Annotated[Fact, FactKind(date=True)]
CountFact: TypeAlias = Annotated[Fact, FactKind(("count",))]
TextFact: TypeAlias = Annotated[Fact, FactKind()]
BrakeFact: TypeAlias = Annotated[Fact, FactKind(words=("front wheels", "rear wheels", "transmission", "electric"))]
LevelFact: TypeAlias = Annotated[Fact, FactKind(words=("dipstick", "overflow", "marks", "sight"))]
ReadFact: TypeAlias = Annotated[Fact, FactKind(words=("warm", "cold"))]
SuspensionFact: TypeAlias = Annotated[Fact, FactKind(words=("steel", "air"))]


def listed(value: object) -> object:
    """Return a TOML array as a tuple, anything else as it is for the types to judge."""
    return tuple(value) if isinstance(value, list) else value


Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=120)]
Line: TypeAlias = Annotated[str, Field(min_length=1, max_length=LONGEST)]
Texts: TypeAlias = Annotated[tuple[Line, ...], BeforeValidator(listed)]


def _known_source(text: str) -> str:
    try:
        Source.read(text)
    except InputError as error:
        raise fault(error) from None
    return text


SourceText: TypeAlias = Annotated[Line, AfterValidator(_known_source)]


class Part(BaseModel):
    """A group of a document: strict, frozen, and no key that is not known.

    `source` is handed down to every fact below that has none of its own; `was` records earlier keys of this part;
    `retired` says that it is no longer on the vehicle though the daybook still mentions it.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, defer_build=True, allow_inf_nan=False)

    source: SourceText | None = None
    was: Texts = ()
    retired: bool = False

"""A fact: a figure as text with its unit, its source, and whether it was confirmed on this vehicle."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError, core_schema

from twomarks import units
from twomarks.errors import InputError
from twomarks.units import Quantity
from twomarks.words import Figure, Source

__all__ = [
    "AngleFact",
    "CountFact",
    "DensityFact",
    "DistanceFact",
    "DurationFact",
    "DynamicViscosityFact",
    "Fact",
    "FactKind",
    "KinematicViscosityFact",
    "LengthFact",
    "Line",
    "Name",
    "Part",
    "PeriodFact",
    "PressureFact",
    "ShareFact",
    "TemperatureFact",
    "TextFact",
    "Texts",
    "TorqueFact",
    "TurnFact",
    "VolumeFact",
    "fault",
    "listed",
]

_FACT_KEYS = ("value", "source", "confirmed")
LONGEST = 400


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


def _fact(kinds: tuple[str, ...]) -> Callable[[object], Fact]:
    """Return the reader of facts of these kinds; none means text."""
    example = {"volume": "4.3 L", "torque": "38 N·m", "distance": "12000 km", "temperature": "-30 C", "months": "12 months"}.get(
        kinds[0] if kinds else "", f"5 {units.UNITS[units.KINDS[kinds[0]].core].shown}" if kinds else "16 x 22"
    )

    def read(value: object) -> Fact:
        if isinstance(value, Fact):
            return value
        table: Mapping[str, Any] = value if isinstance(value, dict) else {"value": value}
        unknown = [key for key in table if key not in (*_FACT_KEYS, "inherited")]
        if unknown:
            raise fault(InputError("fact.key", found=unknown[0], expected=_FACT_KEYS, example=example))
        text = table.get("value")
        if not isinstance(text, str) or not text.strip() or len(text) > LONGEST:
            raise fault(InputError("fact.text", found=str(text)[:40], example=example))
        for key in ("source", "confirmed"):
            if key in table and not isinstance(table[key], str):
                raise fault(InputError("fact.words", what=key, found=str(table[key])[:40], example="handbook: p. 214"))
        try:
            source = table.get("source") or table.get("inherited")
            return Fact(
                text.strip(),
                Source.read(source) if source else Source("memory"),
                table.get("confirmed", ""),
                _quantity(text, kinds) if kinds else None,
                source is not None,
            )
        except InputError as error:
            raise fault(error) from None

    return read


def _quantity(text: str, kinds: tuple[str, ...]) -> Quantity:
    found = units.quantity(text, decimal=".", default_unit="" if kinds == ("count",) else None)
    if found.kind not in kinds:
        shown = units.UNITS[units.KINDS[kinds[0]].core].shown
        raise InputError("units.kind", found=units.UNITS[found.unit].shown, expected=kinds[0], example=shown)
    if found.exact < 0 and found.kind != "temperature":
        raise InputError("fact.negative", found=text)
    return found


_SCHEMA = {
    "anyOf": [
        {"type": "string", "minLength": 1},
        {
            "type": "object",
            "required": ["value"],
            "additionalProperties": False,
            "properties": {"value": {"type": "string", "minLength": 1}, "source": {"type": "string"}, "confirmed": {"type": "string"}},
        },
    ]
}


@dataclass(frozen=True, slots=True)
class FactKind:
    """Marks a field as a fact of these kinds (none: text): how it is read, its schema, and that sources go down to it."""

    kinds: tuple[str, ...] = ()

    def __get_pydantic_core_schema__(self, _source: object, _handler: object) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(_fact(self.kinds))

    def __get_pydantic_json_schema__(self, _core: object, _handler: object) -> dict[str, Any]:
        return {**_SCHEMA, "description": f"a fact ({' or '.join(self.kinds) or 'text'})"}


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
DensityFact: TypeAlias = Annotated[Fact, FactKind(("density",))]
KinematicViscosityFact: TypeAlias = Annotated[Fact, FactKind(("kinematic viscosity",))]
DynamicViscosityFact: TypeAlias = Annotated[Fact, FactKind(("dynamic viscosity",))]
CountFact: TypeAlias = Annotated[Fact, FactKind(("count",))]
TextFact: TypeAlias = Annotated[Fact, FactKind()]


def listed(value: object) -> object:
    """Return a TOML array as a tuple, anything else as it is for the types to judge."""
    return tuple(value) if isinstance(value, list) else value


Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=120)]
Line: TypeAlias = Annotated[str, Field(min_length=1, max_length=LONGEST)]
Texts: TypeAlias = Annotated[tuple[Line, ...], BeforeValidator(listed)]


class Part(BaseModel):
    """A group of a document: strict, frozen, and no key that is not known.

    `source` is handed down to every fact below that has none of its own; `was` records earlier keys of this part;
    `retired` says that it is no longer on the vehicle though the daybook still mentions it.
    """

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, defer_build=True, allow_inf_nan=False)

    source: Line | None = None
    was: Texts = ()
    retired: bool = False

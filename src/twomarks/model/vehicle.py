"""The vehicle sheet (``twomarks/vehicle/1``): all facts known about one vehicle."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import BeforeValidator, Field

from twomarks import units
from twomarks.errors import InputError
from twomarks.model.facts import (
    BrakeFact,
    CountFact,
    DurationFact,
    Fact,
    LengthFact,
    LevelFact,
    Name,
    Part,
    PressureFact,
    ReadFact,
    ShareFact,
    SuspensionFact,
    TemperatureFact,
    TextFact,
    Texts,
    TorqueFact,
    TurnFact,
    VolumeFact,
    listed,
)
from twomarks.model.service_items import Key, Limits, Measured, ServiceItem, Use, item_faults

__all__ = [
    "Accepts",
    "Chassis",
    "Circuit",
    "Counter",
    "Engine",
    "Fastening",
    "Limits",
    "Measured",
    "ServiceItem",
    "Slot",
    "Use",
    "VehicleSheet",
    "vehicle_faults",
]

FORMAT = "twomarks/vehicle/1"
UUID = r"^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$"
TextFacts: TypeAlias = Annotated[tuple[TextFact, ...], BeforeValidator(listed)]


class Engine(Part):
    """The engine, as far as choosing oil and working beside it need to know."""

    fuel: Literal["petrol", "diesel", "lpg", "hybrid", "electric"]
    after_treatment: Texts = ()
    turbo: bool | None = None
    keyless: bool | None = None
    code: TextFact | None = None
    power: TextFact | None = None


class Chassis(Part):
    """What the vehicle stands on and is held by.

    `raised_to_drain` says whether it has to be raised to reach the plugs beneath, `undertray` whether a tray is in the
    way of them; absent means that nobody has looked.
    """

    parking_brake: BrakeFact | None = None
    lifting_points: TextFact | None = None
    raised_to_drain: bool | None = None
    undertray: bool | None = None
    transfer_case: bool | None = None
    suspension: SuspensionFact | None = None
    chassis_number: TextFact | None = None
    tyres: TextFact | None = None
    tyre_pressure_front: PressureFact | None = None
    tyre_pressure_rear: PressureFact | None = None


class Counter(Part):
    """A running total and the unit it shows."""

    unit: Literal["km", "mi", "h", "L"]


class Accepts(Part):
    """One block of what a circuit accepts: one of the grades AND one of the categories AND one of the approvals.

    A list that is absent means that nobody has looked; an empty one that none is asked for.
    """

    grades: TextFacts | None = None
    categories: TextFacts | None = None
    approvals: TextFacts | None = None
    coldest: TemperatureFact | None = None
    hottest: TemperatureFact | None = None


class Circuit(Part):
    """A body of fluid. Which refill is meant is always said; a bare capacity is refused.

    `read` says whether the maker reads the stick warm or cold; `fill_to` how far up the span to fill, where room is kept for
    fuel above it, and `no_start_from` from where on the engine must not be started (100 % is the upper mark).
    `below_hole` is how far below its hole the level may stand, `limited_slip` what a limited-slip unit asks of its oil,
    `mixture` the share of concentrate, `order` the order in which the wheels are bled.
    """

    name: str = Field(default="", max_length=120)
    refill_with_filter: VolumeFact | None = None
    refill_without_filter: VolumeFact | None = None
    refill: VolumeFact | None = None
    dry_fill: VolumeFact | None = None
    between_marks: VolumeFact | None = None
    level: LevelFact | None = None
    settle: DurationFact | None = None
    read: ReadFact | None = None
    fill_to: ShareFact | None = None
    no_start_from: ShareFact | None = None
    holds: TextFact | None = None
    below_hole: LengthFact | None = None
    limited_slip: TextFact | None = None
    mixture: ShareFact | None = None
    order: TextFact | None = None
    accepts: Annotated[tuple[Accepts, ...], BeforeValidator(listed)] = ()


class Fastening(Part):
    """Anything undone and done up again: clamping (a bolt) or sealing (a plug)."""

    name: str = Field(default="", max_length=120)
    circuit: Key | None = None
    kind: Literal["sealing", "clamping"]
    drive: TextFact | None = None
    thread: TextFact | None = None
    torque: TorqueFact | None = None
    turn: TurnFact | None = None
    seal: Key | None = None
    count: CountFact | None = None
    place: TextFact | None = None


class Slot(Part):
    """A place where a replaceable part goes, with the part numbers that go there."""

    name: str = Field(default="", max_length=120)
    kind: Literal["spin-on", "cartridge", "seal", "element", "belt", "battery", "tyre", "bulb", "other"] | None = None
    renew: Literal["every time", "when worn", "at its interval"] | None = None
    numbers: TextFacts = ()
    sizes: TextFact | None = None
    holds: VolumeFact | None = None
    count: CountFact | None = None
    height: LengthFact | None = None


class VehicleSheet(Part):
    """A vehicle sheet. Bare is enough to begin: kind and fuel; every further fact sharpens the answers."""

    format: Annotated[str, Field(pattern=r"^twomarks/vehicle/1(\.\d+)?$")]
    id: Annotated[str, Field(pattern=UUID)] | None = None
    name: Name
    kind: Literal["car", "van", "4x4", "motorcycle", "trailer", "machine"]
    make: TextFact | None = None
    model: TextFact | None = None
    year: TextFact | None = None
    engine: Engine
    chassis: Chassis = Chassis()
    use: Use = Use()
    counters: dict[Key, Counter] = {}
    circuits: dict[Key, Circuit] = {}
    fastenings: dict[Key, Fastening] = {}
    slots: dict[Key, Slot] = {}
    items: dict[Key, ServiceItem] = {}

    def facts(self) -> Iterator[tuple[str, Fact]]:
        """Yield the path and the fact of everything the sheet says, in the order of its groups."""
        yield from _facts(self, "")

    @property
    def unsourced(self) -> tuple[str, ...]:
        """The paths of the facts for which nobody named a source."""
        return tuple(path for path, fact in self.facts() if not fact.sourced)

    @property
    def bare(self) -> bool:
        """Whether the sheet says no more than what the vehicle is."""
        return not (self.circuits or self.fastenings or self.slots or self.items)


def _facts(value: object, path: str) -> Iterator[tuple[str, Fact]]:
    if isinstance(value, Fact):
        yield path, value
    elif isinstance(value, Part):
        for name in type(value).model_fields:
            yield from _facts(getattr(value, name), f"{path}.{name}" if path else name)
    elif isinstance(value, Mapping):
        for key, part in value.items():
            yield from _facts(part, f"{path}.{key}")
    elif isinstance(value, tuple):
        for number, part in enumerate(value):
            yield from _facts(part, f"{path}[{number}]")


def vehicle_faults(document: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    """Yield path and fault of everything in a sheet's raw tables that single fields cannot see.

    Works on the tables as written, so that these faults come together with those of the fields.
    """
    groups = {name: tables for name in ("circuits", "fastenings", "slots", "items") if isinstance(tables := document.get(name), dict)}
    for key, circuit in groups.get("circuits", {}).items():
        if isinstance(circuit, dict) and "capacity" in circuit:
            expected = ("refill_with_filter", "refill_without_filter", "refill", "dry_fill")
            yield ("circuits", key, "capacity"), InputError("model.capacity", found="capacity", expected=expected)
        if isinstance(circuit, dict):
            yield from _span_fault(("circuits", key, "between_marks"), circuit)
    for key, fastening in groups.get("fastenings", {}).items():
        if isinstance(fastening, dict):
            yield from _reference(("fastenings", key, "circuit"), fastening.get("circuit"), groups.get("circuits", {}))
            yield from _reference(("fastenings", key, "seal"), fastening.get("seal"), groups.get("slots", {}))
    parts = {key for name in ("circuits", "fastenings", "slots") for key in groups.get(name, {})}
    for key, item in groups.get("items", {}).items():
        roles = item.get("roles") if isinstance(item, dict) else None
        for role, part in roles.items() if isinstance(roles, dict) else ():
            yield from _reference(("items", key, "roles", role), part, dict.fromkeys(parts))
    yield from item_faults(groups.get("items", {}))
    yield from _renamed(groups)


def _span_fault(path: tuple[str | int, ...], circuit: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    """Yield a fault where as much lies between the marks as the whole refill: a pour by it would start the engine short."""
    span = _volume_l(circuit.get("between_marks"))
    refills = {name: _volume_l(circuit.get(name)) for name in ("refill_with_filter", "refill_without_filter", "refill")}
    least = min((volume for volume in refills.values() if volume is not None), default=None)
    if span is not None and least is not None and span >= least:
        named = next(name for name, volume in refills.items() if volume == least)
        yield path, InputError("model.span", found=_text(circuit["between_marks"]), expected=_text(circuit[named]), what=named)


def _text(fact: object) -> str:
    return str(fact.get("value", "") if isinstance(fact, dict) else fact)


def _volume_l(fact: object) -> float | None:
    """Return a volume as written, in litres; None where there is none or its own field finds fault with it."""
    if fact is None:
        return None
    try:
        found = units.quantity(_text(fact), decimal=".")
    except InputError:
        return None
    return found.core if found.kind == "volume" else None


def _reference(path: tuple[str | int, ...], key: object, known: Mapping[str, Any]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    if isinstance(key, str) and key not in known:
        near = difflib.get_close_matches(key, known, 1, 0.6)
        yield path, InputError("model.reference", found=key, expected=tuple(sorted(known)), nearest="".join(near))


def _renamed(groups: Mapping[str, Mapping[str, Any]]) -> Iterator[tuple[tuple[str | int, ...], InputError]]:
    for name, parts in groups.items():
        claimed: dict[str, str] = {}
        for key, part in parts.items():
            was = part.get("was") if isinstance(part, dict) else None
            for old in was if isinstance(was, list) else ():
                if old in parts or old in claimed:
                    yield (name, key, "was"), InputError("model.was", found=str(old))
                claimed[str(old)] = key

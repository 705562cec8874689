"""Service items: recurring work with its limits, what is measured, what it is called for after, and the stated use."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, Literal, TypeAlias, get_args

from pydantic import BeforeValidator, Field

from twomarks import units
from twomarks.errors import InputError
from twomarks.model.facts import DateFact, DistanceFact, DurationFact, MeasuredFact, Name, Part, PeriodFact, Texts, VolumeFact, listed

__all__ = ["CONDITIONS", "Condition", "Key", "Limits", "Measured", "ServiceItem", "Use", "item_faults"]

KEY = r"^[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*$"
Key: TypeAlias = Annotated[str, Field(pattern=KEY, max_length=60)]
Condition = Literal["short_trips", "frost", "idling", "dust", "towing", "heat", "wading", "for_hire"]
CONDITIONS: tuple[Condition, ...] = get_args(Condition)
"""What makes a vehicle's use a hard one."""
HowOften: TypeAlias = Literal["mostly", "often", "seldom"]


def _words(value: object) -> object:
    return (value,) if isinstance(value, str) else listed(value)


class Limits(Part):
    """The limits of a service item; whichever comes first."""

    distance: DistanceFact | None = None
    time: PeriodFact | None = None
    hours: DurationFact | None = None
    fuel: VolumeFact | None = None


class Measured(Part):
    """What is measured of an item and where its limit lies: `least` for what wears down, `most` for what rises.

    `new` is the value after the work was done. `goes_by` says what wears it: the distance, or the time.
    """

    what: str = Field(default="", max_length=120)
    places: Texts = ()
    least: MeasuredFact | None = None
    most: MeasuredFact | None = None
    new: MeasuredFact | None = None
    goes_by: Literal["distance", "time"] | None = None


class Use(Part):
    """How the vehicle is driven, as its owner states it: how often each thing that handbooks call hard use."""

    short_trips: HowOften | None = None
    frost: HowOften | None = None
    idling: HowOften | None = None
    dust: HowOften | None = None
    towing: HowOften | None = None
    heat: HowOften | None = None
    wading: HowOften | None = None
    for_hire: HowOften | None = None

    @property
    def stated(self) -> Mapping[str, str]:
        """What was stated, by condition."""
        return {name: said for name in CONDITIONS if (said := getattr(self, name)) is not None}


class ServiceItem(Part):
    """A recurring piece of work; `procedure` names one by its key, `roles` says which part plays which role in it.

    `use` overrides what follows from the vehicle's use; `hard_when` narrows which conditions are hard use for this item.
    `event` is what calls for it out of turn, `within` how soon then. `by` is a fixed date, `again` how it comes back.
    """

    name: str = Field(default="", max_length=120)
    procedure: Key | None = None
    every: Limits | None = None
    hard_use: Limits | None = None
    use: Literal["normal", "hard"] | None = None
    hard_when: Annotated[tuple[Condition, ...], BeforeValidator(listed)] = ()
    event: Annotated[tuple[Name, ...], BeforeValidator(_words, json_schema_input_type=str | list[str])] = ()
    within: PeriodFact | None = None
    measured: Measured | None = None
    by: DateFact | None = None
    again: PeriodFact | None = None
    roles: dict[Key, Key] = {}


Fault: TypeAlias = tuple[tuple[str | int, ...], InputError]


def item_faults(items: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield path and fault of everything in the raw tables of items that single fields cannot see."""
    for key, item in items.items():
        if not isinstance(item, dict):
            continue
        for name, needs in (("again", "by"), ("within", "event"), ("hard_when", "hard_use")):
            if name in item and needs not in item:
                yield ("items", key, name), InputError("model.needs", found=name, expected=needs)
        measured = item.get("measured")
        if isinstance(measured, dict):
            yield from _measured_faults(("items", key, "measured"), measured)


def _measured_faults(path: tuple[str | int, ...], measured: Mapping[str, Any]) -> Iterator[Fault]:
    limits = [name for name in ("least", "most") if name in measured]
    if len(limits) != 1:
        yield path, InputError("model.one_limit", found=tuple(limits), expected=("least", "most"))
        return
    limit, new = _read(measured[limits[0]]), _read(measured.get("new"))
    if limit is None or new is None:
        return
    if limit.kind != new.kind:
        yield (*path, "new"), InputError("units.kind", found=new.text, expected=limit.kind, example=limit.text)
    elif (new.exact <= limit.exact) if limits[0] == "least" else (new.exact >= limit.exact):
        yield (*path, "new"), InputError("model.new_beyond", found=new.text, expected=limit.text)


def _read(fact: object) -> units.Quantity | None:
    text = fact.get("value") if isinstance(fact, dict) else fact
    if not isinstance(text, str):
        return None
    try:
        return units.quantity(text, decimal=".")
    except InputError:
        return None

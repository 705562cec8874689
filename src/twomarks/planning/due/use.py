"""Which schedule holds, the usual one or that for hard use, by how the owner says the vehicle is driven."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from twomarks.model.service_items import CONDITIONS
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.model.service_items import Limits, ServiceItem

__all__ = ["HOW_OFTEN", "is_hard", "limits_of", "use_reasons"]

HOW_OFTEN = ("mostly", "often", "seldom")
_AXES = ("distance", "time", "hours", "fuel")


def is_hard(item: ServiceItem, stated: Mapping[str, str]) -> bool:
    """Return whether the limits for hard use hold: the item says so, or one of its conditions is how the vehicle mostly runs."""
    if item.hard_use is None:
        return False
    return item.use == "hard" if item.use is not None else bool(_stated(item, stated, "mostly"))


def limits_of(item: ServiceItem, *, hard: bool) -> dict[str, Figure]:
    """Return the limits that hold: those for hard use where they are given and hold, else the usual ones."""
    found: dict[str, Figure] = {}
    sets: list[Limits | None] = [item.hard_use if hard else None, item.every]
    for limits in sets:
        for axis in _AXES:
            fact = getattr(limits, axis, None) if limits is not None else None
            if fact is not None and axis not in found:
                found[axis] = fact.figure
    return found


def use_reasons(item: ServiceItem, stated: Mapping[str, str]) -> Iterator[Message]:
    """Yield why this schedule holds, and what of the stated use the handbook has to decide.

    "Often" is asked about and changes nothing: handbooks say "mainly", and where that begins is theirs to say.
    """
    mostly, often = _stated(item, stated, "mostly"), _stated(item, stated, "often")
    if item.hard_use is None:
        wears = item.every is not None and any(getattr(item.every, axis) is not None for axis in ("distance", "hours", "fuel"))
        if mostly and wears and item.use is None:
            yield say("due.no_hard_interval", uses=mostly)
    elif item.use == "hard":
        yield say("due.hard_use")
    elif item.use == "normal":
        if mostly:
            yield say("due.normal_all_the_same", uses=mostly)
    elif mostly:
        yield say("due.hard_by_use", uses=mostly)
    elif often:
        yield say("due.use_often", uses=often)
    elif not _known(item, stated):
        yield say("due.use_unstated")


def _conditions(item: ServiceItem) -> tuple[str, ...]:
    return item.hard_when or CONDITIONS


def _stated(item: ServiceItem, stated: Mapping[str, str], how_often: str) -> tuple[Message, ...]:
    return tuple(say(f"use.{name}") for name in _conditions(item) if stated.get(name) == how_often)


def _known(item: ServiceItem, stated: Mapping[str, str]) -> bool:
    return any(name in stated for name in _conditions(item))

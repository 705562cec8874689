"""The figures that the steps of a bound procedure use: each once, with the part it belongs to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from twomarks.procedures.bound import Bound
from twomarks.procedures.sheet_facts import figure_of, part_of
from twomarks.words import Figure, Message, Wording, keys, say

__all__ = ["UsedFigure", "used_figures"]

_NOT_OF_THE_SHEET = ("practice", "pour", "choice", "each", "term")


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedFigure:
    """A figure with the part it belongs to and what it is of that part."""

    owner: Wording
    fact: Message | str
    figure: Figure

    @property
    def is_confirmed(self) -> bool:
        """Whether somebody has confirmed it on this vehicle."""
        return bool(self.figure.confirmed)


def used_figures(bound: Bound) -> tuple[UsedFigure, ...]:
    """Return every figure of the vehicle sheet that a step of `bound` uses, in the order in which they are first used."""
    found: dict[tuple[str, str], UsedFigure] = {}
    for role, fact, figure in _figures(bound):
        found.setdefault((role, fact), UsedFigure(owner=bound.name(role), fact=_named(fact), figure=figure))
    return tuple(found.values())


def _figures(bound: Bound) -> Iterator[tuple[str, str, Figure]]:
    roles_by_path = {bound.path(role): role for role in bound.roles}
    for step in bound.steps:
        for wording in (step.words, step.look, step.accept, step.reject):
            for name, value in (wording.figures if wording is not None else {}).items():
                role, _, fact = name.partition(".")
                if fact and role not in _NOT_OF_THE_SHEET and isinstance(value, Figure):
                    yield role, fact, value
        for move in step.moves:
            if move.action == "pour":
                yield from _refills(bound, move.things)
            part, _, fact = move.amount_path.rpartition(".")
            if move.amount is not None and part in roles_by_path:
                yield roles_by_path[part], fact, move.amount


def _refills(bound: Bound, roles: tuple[str, ...]) -> Iterator[tuple[str, str, Figure]]:
    for role in roles:
        part = part_of(bound.sheet, "circuit", bound.roles.get(role, ""))
        for fact in ("refill_with_filter", "refill_without_filter", "refill"):
            figure = figure_of(part, fact)
            if figure is not None:
                yield role, fact, figure
                break


def _named(fact: str) -> Message | str:
    return say(f"procedure.fact_{fact}") if f"procedure.fact_{fact}" in keys() else fact.replace("_", " ")

"""A mistake made in a correct job, and the job it is made in: plain documents, as they stand in their files."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from twomarks.model.vehicle import VehicleSheet

__all__ = ["Case", "Document", "Mutant", "Operator"]

Document: TypeAlias = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A correct job: a procedure on a vehicle.

    `worked` are the ids of the steps that are worked on this vehicle, in order; `roles` maps a role to its key in the
    sheet; `item` is the service item for which the procedure is bound, "" where there is none.
    """

    procedure: Document
    sheet: Document
    vehicle: VehicleSheet
    worked: tuple[str, ...]
    roles: Mapping[str, str]
    item: str = ""

    @property
    def name(self) -> str:
        """What the case is called in lists."""
        whole = self.procedure["key"] if not self.item or self._alone else f"{self.procedure['key']} as {self.item}"
        return f"{whole} on {self.vehicle.name}"

    @property
    def _alone(self) -> bool:
        """Whether no other service item of the vehicle is worked by the same procedure."""
        return sum(one.procedure == self.procedure["key"] for one in self.vehicle.items.values()) == 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """A job with one mistake in it, and where the mistake was made.

    `what` says which mistake, in short. What is None was left as it is. `kit` overrules what is known of the kit.
    `steps` are the ids of the steps in which the mistake was made, or between which an order was broken; `things` are
    the roles, things and tools that it concerns; `paths` the places in the sheet. `copies` maps the id of a step that
    was made anew to the step it was taken from. `same` says why the job is as correct as before, "" where it is not.
    """

    what: str
    procedure: Document | None = None
    sheet: Document | None = None
    kit: Mapping[str, Any] = field(default_factory=dict)
    steps: frozenset[str] = frozenset()
    things: frozenset[str] = frozenset()
    paths: frozenset[str] = frozenset()
    copies: Mapping[str, str] = field(default_factory=dict)
    same: str = ""


Operator: TypeAlias = Callable[[Case], Iterator[Mutant]]
"""One kind of mistake: its name is what a list calls it, the first line of its docstring what the mistake is."""

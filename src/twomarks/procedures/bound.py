"""A procedure bound to a vehicle: plain values, with every role resolved and every figure in place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from twomarks.model.procedure import Fluid, Place, Procedure, Signal, Spot, Step
from twomarks.model.vehicle import VehicleSheet
from twomarks.trade.pour import PourPlan
from twomarks.words import Figure, Message, Wording

__all__ = [
    "SORTS",
    "STREAMS",
    "Bound",
    "BoundCaution",
    "BoundFollowUp",
    "BoundMove",
    "BoundStep",
    "Choices",
    "CircuitAtWork",
    "Lack",
    "Volumes",
]

SORTS: Mapping[Fluid, str] = {
    "engine oil": "engine",
    "gearbox oil": "gear",
    "transfer case oil": "gear",
    "axle oil": "gear",
    "coolant": "coolant",
    "brake fluid": "brake",
    "diesel fuel": "fuel",
}
"""What the rules tell apart: each sort of circuit is opened, filled and proved in its own way."""

STREAMS: Mapping[str, str] = {"engine": "engine oil", "gear": "gear oil", "coolant": "coolant", "brake": "brake fluid", "fuel": "fuel"}
"""The stream of waste that each sort of circuit makes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What was chosen for the day, beyond the sheet: the oil, the pour plan, whether the vehicle must be raised.

    `raised` and `undertray` None leave it to the sheet; where that says nothing either, the rehearsal plays the longer way.
    """

    oil_name: str = ""
    pour: PourPlan | None = None
    raised: bool | None = None
    undertray: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Volumes:
    """Volumes of the circuit at work [L]; `full_l` None where the sheet has no refill. `defaults` names assumed ones."""

    refill_l: float | None
    span_l: float
    residue_l: float
    filter_l: float
    defaults: tuple[Message, ...] = ()

    @property
    def full_l(self) -> float | None:
        """Volume at the upper mark, the filter filled [L]."""
        return None if self.refill_l is None else self.refill_l + self.residue_l

    @property
    def least_l(self) -> float | None:
        """Volume at the lower mark [L]."""
        return None if self.full_l is None else self.full_l - self.span_l


@dataclass(frozen=True, slots=True, kw_only=True)
class CircuitAtWork:
    """One circuit of the procedure: its fluid, its volumes, and the roles of what opens it.

    `drains` let it out from below, `fills` are plugs through which it is filled and its level is seen, `bleeds` let air
    out. `filler` is the thing that is opened to pour, where no plug is.
    """

    role: str
    fluid: Fluid
    volumes: Volumes
    filters: frozenset[str] = frozenset()
    drains: tuple[str, ...] = ()
    fills: tuple[str, ...] = ()
    bleeds: tuple[str, ...] = ()

    @property
    def sort(self) -> str:
        """What the rules tell apart: engine, gear, coolant, brake."""
        return SORTS[self.fluid]

    @property
    def stream(self) -> str:
        """The stream of waste that comes out of it."""
        return STREAMS[self.sort]

    @property
    def filler(self) -> str:
        """The thing that is opened to pour, "" where it is a plug."""
        return {"engine": "filler", "coolant": "coolant_tank", "brake": "brake_fluid_tank"}.get(self.sort, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """A figure or part that the sheet does not have: its path, what it is, where it is usually found, how bad."""

    path: str
    what: Message
    where_to_find: Message
    grade: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundCaution:
    """A caution with its figures, and where it comes from."""

    signal: Signal
    words: Wording
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundMove:
    """One move of a step with its things resolved; `id` is that of the step, which stands for all its moves.

    `amount` None with an `amount_path` is an empty box to be filled in. `litres` is the volume of a pour where it is
    known [L]. `part` says what a step of a branch is.
    """

    id: str
    action: str
    things: tuple[str, ...]
    through: str = ""
    at: tuple[Spot, ...] = ()
    tools: tuple[str, ...] = ()
    new: bool = False
    manner: str = ""
    pace: str = ""
    amount: Figure | None = None
    amount_path: str = ""
    litres: float | None = None
    cautions: tuple[BoundCaution, ...] = ()
    place: Place = ""
    active_min: float = 0.0
    wait_min: float = 0.0
    wait: Figure | None = None
    during: str = ""
    each: str = ""
    hands_free: bool = False
    part: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundStep(BoundMove):
    """One step: its own move, all its `moves` in the order in which they are made (its own among them), and its words.

    The wait of a step is that of whichever of its moves waits; `holds` says whether its condition is known to hold.
    """

    step: Step
    words: Wording
    moves: tuple[BoundMove, ...]
    look: Wording | None = None
    accept: Wording | None = None
    reject: Wording | None = None
    condition: Wording | None = None
    holds: bool | None = True
    record: tuple[str, ...] = ()

    def does(self, *actions: str) -> bool:
        """Return whether any of the moves is one of `actions`."""
        return any(move.action in actions for move in self.moves)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundFollowUp:
    """A follow-up with its figures: after so many kilometres or days, whichever comes first; `checks` is what it is about."""

    id: str
    words: Wording
    checks: tuple[str, ...] = ()
    after_km: float | None = None
    after_days: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A procedure bound to a vehicle sheet.

    `roles` maps a role to the key in the sheet; `kinds` maps a role to its kind. `left_out` are the steps whose
    condition is known not to hold.
    """

    procedure: Procedure
    sheet: VehicleSheet
    item: str
    choices: Choices
    roles: Mapping[str, str]
    kinds: Mapping[str, str]
    steps: tuple[BoundStep, ...]
    lacks: tuple[Lack, ...]
    settle_min: float
    run_down_min: float
    drain_min: float
    hazards: tuple[BoundCaution, ...] = ()
    follow_ups: tuple[BoundFollowUp, ...] = ()
    left_out: tuple[str, ...] = ()
    rests_on: tuple[Message, ...] = ()
    circuits: Mapping[str, CircuitAtWork] = field(default_factory=dict)
    filter_kind: str = ""
    openings: frozenset[str] = frozenset()
    filters: frozenset[str] = frozenset()
    joints: frozenset[str] = frozenset()
    seals: frozenset[str] = frozenset()
    parking_brake: str = ""
    keyless: bool | None = None
    transfer_case: bool | None = None
    undertray: bool | None = None
    air_suspension: bool | None = None
    electric_brake: bool | None = None
    hybrid: bool | None = None

    @property
    def engine_oil(self) -> str:
        """The role of the engine's oil, "" where the procedure has none."""
        return next(iter(self.of_sort("engine")), "")

    @property
    def fills(self) -> frozenset[str]:
        """The roles of the plugs through which a circuit is filled and its level is seen."""
        return frozenset(name for circuit in self.circuits.values() for name in circuit.fills)

    @property
    def drains(self) -> frozenset[str]:
        """The roles of what lets a circuit out from below."""
        return frozenset(name for circuit in self.circuits.values() for name in circuit.drains)

    @property
    def bleeds(self) -> frozenset[str]:
        """The roles of what lets the air out of a circuit."""
        return frozenset(name for circuit in self.circuits.values() for name in circuit.bleeds)

    def serving(self, *purposes: str) -> tuple[str, ...]:
        """Return the roles that are there for any of these purposes, in the order of the procedure."""
        return tuple(name for name, role in self.procedure.roles.items() if role.serves in purposes)

    def serves(self, things: tuple[str, ...], *purposes: str) -> bool:
        """Return whether any of `things` is a role that is there for any of these purposes."""
        roles = self.procedure.roles
        return any(thing in roles and roles[thing].serves in purposes for thing in things)

    def of_sort(self, *sorts: str) -> tuple[str, ...]:
        """Return the roles of the circuits of these sorts, in the order of the procedure."""
        return tuple(role for role, circuit in self.circuits.items() if circuit.sort in sorts)

    def circuits_in(self, things: tuple[str, ...]) -> tuple[str, ...]:
        """Return those of `things` that are circuits."""
        return tuple(thing for thing in things if thing in self.circuits)

    def circuit_of(self, thing: str) -> str:
        """Return the role of the circuit that a thing is, opens, or sits in; "" where it belongs to none."""
        seen: set[str] = set()
        while thing not in self.circuits:
            role = self.procedure.roles.get(thing)
            if role is None or role.of is None or thing in seen:
                return ""
            seen.add(thing)
            thing = role.of
        return thing

    @property
    def moves(self) -> Iterator[BoundMove]:
        """Every move of every step, in order."""
        return (move for step in self.steps for move in step.moves)

    def path(self, role: str, fact: str = "") -> str:
        """Return the path in the sheet of a role, or of one of its facts."""
        group = {"circuit": "circuits", "fastening": "fastenings", "tap": "fastenings", "slot": "slots"}.get(self.kinds.get(role, ""), "")
        whole = f"{group}.{self.roles[role]}" if group and role in self.roles else role
        return f"{whole}.{fact}" if fact else whole

    def name(self, role: str) -> Wording:
        """Return the name of a role, as the procedure writes it."""
        part = self.procedure.roles.get(role)
        return Wording(part.name if part else role)

    def seals_of(self, *roles: str) -> tuple[str, ...]:
        """Return the roles of the seals that belong to any of `roles`."""
        return tuple(seal for seal in sorted(self.seals) if self.procedure.roles[seal].of in roles)

    def step(self, name: str) -> BoundStep:
        """Return the step whose id is `name`."""
        return next(step for step in self.steps if step.id == name)

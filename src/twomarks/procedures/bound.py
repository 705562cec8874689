"""A procedure bound to a vehicle: plain values, with every role resolved and every figure in place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from twomarks.model.procedure import Place, Procedure, Signal, Spot, Step
from twomarks.model.vehicle import VehicleSheet
from twomarks.trade.pour import PourPlan
from twomarks.words import Figure, Message, Wording

__all__ = ["Bound", "BoundCaution", "BoundFollowUp", "BoundMove", "BoundStep", "Choices", "Lack", "Volumes"]


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
    known [L].
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
    hands_free: bool = False
    record: tuple[str, ...] = ()

    def does(self, *actions: str) -> bool:
        """Return whether any of the moves is one of `actions`."""
        return any(move.action in actions for move in self.moves)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundFollowUp:
    """A follow-up with its figures: after so many kilometres or days, whichever comes first."""

    id: str
    words: Wording
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
    volumes: Volumes
    settle_min: float
    run_down_min: float
    drain_min: float
    hazards: tuple[BoundCaution, ...] = ()
    follow_ups: tuple[BoundFollowUp, ...] = ()
    left_out: tuple[str, ...] = ()
    rests_on: tuple[Message, ...] = ()
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

    @property
    def moves(self) -> Iterator[BoundMove]:
        """Every move of every step, in order."""
        return (move for step in self.steps for move in step.moves)

    def path(self, role: str, fact: str = "") -> str:
        """Return the path in the sheet of a role, or of one of its facts."""
        group = {"circuit": "circuits", "fastening": "fastenings", "slot": "slots"}.get(self.kinds.get(role, ""), "")
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

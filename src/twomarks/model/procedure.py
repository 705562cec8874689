"""The procedure document: ordered steps in terms of roles, with every amount a reference to a fact of the vehicle sheet."""

from __future__ import annotations

import re
from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from twomarks import units
from twomarks.errors import InputError

__all__ = [
    "ACTIONS",
    "BRANCH_PARTS",
    "CONDITIONS",
    "THINGS",
    "Action",
    "Applies",
    "Belongs",
    "Branch",
    "BranchPart",
    "CautionWords",
    "Condition",
    "ConditionName",
    "Fluid",
    "FollowUp",
    "Move",
    "Played",
    "Procedure",
    "Role",
    "RoleKind",
    "Step",
    "Thing",
    "bare_figures",
    "minutes_of",
    "placeholders",
    "reference",
]

FORMAT = "twomarks/procedure/1"

Action = Literal[
    "place", "take_away", "gather", "wear", "secure", "chock",
    "raise", "support", "shake", "lower",
    "open", "close", "loosen", "remove", "fit", "tighten",
    "connect", "disconnect",
    "drain", "pour", "decant", "bleed", "prime",
    "warm", "run_engine", "stop_engine", "drive", "press", "wait",
    "release", "turn",
    "clean", "oil", "inspect", "measure", "record", "reset", "say",
    "undecided",
]  # fmt: skip
"""What a step does, each with a physical meaning in the rehearsal; grows with the jobs that the language covers.

``undecided`` stands in a draft where a sentence was not understood: it does nothing, and is told until an action is chosen.
"""

Thing = Literal[
    "vehicle", "brake", "gear", "range_lever", "air_suspension", "key", "tag", "chocks", "stands", "jack", "helper", "people",
    "gloves", "glasses", "kit", "container", "waste_can", "pan", "old_filter", "old_oil", "old_seal",
    "bonnet", "undertray", "filler", "filler_area", "dipstick", "drain_area", "seat", "housing", "new_filter",
    "rags", "tools", "funnel", "spills", "lamp", "leaks", "engine", "reminder", "daybook",
    "old_coolant", "old_brake_fluid", "poured", "cover", "paint_cover", "jar", "container_seal",
    "oil_class", "limited_slip", "breather", "mixture", "heater", "top_hose", "fan",
    "pedal", "bleed_order", "bleed_hose", "dust_caps",
    "wheel_faces", "nut_seats", "swap_pattern", "tread", "tyre_pressure", "pressure_sensors",
    "service_mode", "caliper_hook", "brake_parts", "disc", "new_pads", "guides", "brake_hose", "piston",
    "flames", "fuel_low_pressure", "fuel_tap", "old_fuel",
    "lead_cover", "polarity", "codes", "doors", "jewellery", "vent_hose", "terminal_covers", "posts", "new_battery", "old_battery",
    "charging_voltage", "learned",
    "airbox", "airbox_inside", "duct_cover", "new_element", "air_seat", "air_duct", "intake",
    "tensioner", "pulleys", "belt_ribs", "belt_routing", "belt_noise", "ready_lamp", "springs", "spring_clamp",
    "orange_cables", "airbags", "air_conditioning", "gas_fuel", "high_pressure_lines",
    "ground_below", "coolant_tank", "brake_fluid_tank", "battery", "belt", "hoses", "tyre", "lights", "washer_tank",
]  # fmt: skip
"""Things every vehicle or drive has, so that no sheet need name them; everything else is a role."""

ConditionName = Literal[
    "raised", "undertray", "keyless", "transfer_case", "transmission_brake", "air_suspension", "two_pours", "top_up",
    "electric_brake", "front_brake", "rear_brake", "hybrid",
]  # fmt: skip
"""What a condition may rest on; the binding says of each whether it holds, or that it is not known."""

RoleKind = Literal["circuit", "fastening", "tap", "slot", "tool", "pan"]
Fluid = Literal["engine oil", "gearbox oil", "transfer case oil", "axle oil", "coolant", "brake fluid", "diesel fuel"]
Serves = Literal["drain", "fill", "bleed", "wheel", "caliper", "pads", "battery", "negative", "positive", "air", "belt"]
Spot = Literal[
    "level", "hard", "outdoors", "lifting points", "both sides", "four points", "drain plug", "filter", "rigid", "out of range",
    "front end", "rear end",
]  # fmt: skip
Place = Literal["above", "under", "at wheel", "bench", "inside", ""]
Signal = Literal["danger", "warning", "caution", "notice"]
Manner = Literal[
    "", "to figure", "by hand", "first pour", "second pour", "by table", "to level", "warm", "cold", "to thermostat",
    "shut before release", "pumped", "held", "slow stop",
    "snug", "swapped", "wet", "pushed back", "asleep", "until hard", "dirty side", "clean side",
]  # fmt: skip
Pace = Literal["", "idle only", "crosswise"]
BranchPart = Literal["stop", "look", "next"]

ACTIONS: tuple[str, ...] = get_args(Action)
BRANCH_PARTS: tuple[str, ...] = get_args(BranchPart)
THINGS: tuple[str, ...] = get_args(Thing)
CONDITIONS: tuple[str, ...] = get_args(ConditionName)

_KEY = r"^[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*$"
Key: TypeAlias = Annotated[str, Field(pattern=_KEY, max_length=60)]
_REFERENCE = re.compile(r"^\{([a-z_0-9]+)\.([a-z_0-9]+)\}$")
_PLACEHOLDER = re.compile(r"\{([a-z_0-9]+)(?:\.([a-z_0-9]+))?(?:#[^{}]*)?\}")
_FIGURE = re.compile(
    r"(?<![\w.])(\d+(?:[.,]\d+)?)\s*((?:lbf\s(?:ft|in)|N\sm)\b|[A-Za-z\u00b0%][A-Za-z\u00b7./\u00b0-]*(?:\s(?:qt|gal|pt|fl oz))?)"
)


def _listed(value: object) -> object:
    return tuple(value) if isinstance(value, list) else (value,) if isinstance(value, str) else value


Words: TypeAlias = Annotated[str, Field(min_length=1, max_length=2000)]
Line: TypeAlias = Annotated[str, Field(min_length=1, max_length=200)]

# Where a file may give one word for an array of one, the schema says so too.
Keys: TypeAlias = Annotated[tuple[Key, ...], BeforeValidator(_listed, json_schema_input_type=Key | tuple[Key, ...])]
Lines: TypeAlias = Annotated[tuple[Line, ...], BeforeValidator(_listed, json_schema_input_type=Line | tuple[Line, ...])]
Spots: TypeAlias = Annotated[tuple[Spot, ...], BeforeValidator(_listed, json_schema_input_type=Spot | tuple[Spot, ...])]
Whens: TypeAlias = Annotated[
    tuple[ConditionName, ...], BeforeValidator(_listed, json_schema_input_type=ConditionName | tuple[ConditionName, ...])
]
Actions: TypeAlias = Annotated[tuple[Action, ...], BeforeValidator(_listed, json_schema_input_type=Action | tuple[Action, ...])]
Places: TypeAlias = Annotated[tuple[Place, ...], BeforeValidator(_listed, json_schema_input_type=Place | tuple[Place, ...])]
Fuels: TypeAlias = Annotated[tuple[str, ...], BeforeValidator(_listed, json_schema_input_type=str | tuple[str, ...])]


class _Part(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, defer_build=True)


class Role(_Part):
    """A part that a procedure names and a vehicle sheet holds; `usual` is the key it has in most sheets.

    `of` says what it belongs to: a fastening of a circuit opens it, a slot of a circuit is its filter, a fastening of a
    slot holds the part in it, a slot of a fastening is its seal. `fluid` says what is in a circuit, `serves` what a
    fastening of a circuit is for, and what any other part is there for: to hold a wheel, as a pole of the battery, on the
    air side. A tap is a fastening that is opened and closed, never torqued.
    """

    kind: RoleKind
    name: Line
    usual: Key | None = None
    of: Key | None = None
    optional: bool = False
    fluid: Fluid = "engine oil"
    serves: Serves = "drain"


class CautionWords(_Part):
    """A caution that stands before the step's words; `source` is a key of the bibliography, or free words."""

    signal: Signal
    words: Words
    source: Line = "common_practice"


class Condition(_Part):
    """When a step is worked: facts that the binding may know, and the author's words for when it does not.

    `has` names roles that the vehicle must have: known where its sheet holds them, else nobody has said.
    """

    when: Whens = ()
    has: Keys = ()
    words: Words


class Move(_Part):
    """One thing that a hand does: its action, the things acted on, by which amount, with which tools.

    `amount` and a `wait` in braces are references to facts (``"{drain_plug.torque}"``). A move inside a step is worked
    where the step is, unless it names a place of its own.
    """

    id: Key
    action: Action
    thing: Key | None = None
    things: Keys = ()
    through: Key | None = None
    at: Spots = ()
    tools: Keys = ()
    new: bool = False
    manner: Manner = ""
    pace: Pace = ""
    amount: Line | None = None
    place: Place = ""
    wait: Line | None = None

    @property
    def acted_on(self) -> tuple[str, ...]:
        """Every thing or role that the move acts on, in order."""
        return ((self.thing,) if self.thing else ()) + self.things


class Step(Move):
    """One step: a move, those that the same hand makes just before (`first`) and after it (`then`), and the author's words.

    What a hand does in one go is one step; the rehearsal plays and judges its moves one by one. `during` names the
    waiting step in which this one is worked. `each` repeats the step, once for every word, which stands as ``{each}``;
    neighbouring steps of one `lap` are gone through together for each word ("all of it at one wheel, then at the next").
    `said` is the sentence of a write-up that a drafted step came from, as it was written, figures and all. `part` says
    what a step of a branch is: stop this, look at this, or the next mild step.
    """

    words: Words
    first: Annotated[tuple[Move, ...], BeforeValidator(_listed)] = ()
    then: Annotated[tuple[Move, ...], BeforeValidator(_listed)] = ()
    caution: Annotated[tuple[CautionWords, ...], BeforeValidator(_listed)] = ()
    look: Words | None = None
    accept: Words | None = None
    reject: Words | None = None
    active: Line | None = None
    hands_free: bool = False
    during: Key | None = None
    condition: Condition | None = None
    record: Lines = ()
    each: Lines = ()
    lap: Key | None = None
    said: Words | None = None
    part: BranchPart | None = None

    @property
    def moves(self) -> tuple[Move, ...]:
        """Every move of the step in the order in which it is made, its own among them."""
        return (*self.first, self, *self.then)


class FollowUp(_Part):
    """A check asked for later, after a distance or a period, whichever comes first; `checks` are what is tightened or read again."""

    id: Key
    words: Words
    checks: Keys = ()
    after_distance: Line | None = None
    after_time: Line | None = None


class Applies(_Part):
    """Where a procedure applies: fuels, the kind of filter, the circuits a sheet must have; empty means any."""

    fuel: Fuels = ()
    filter: Literal["spin-on", "cartridge", ""] = ""


class Belongs(_Part):
    """The steps of a card that a branch belongs to: those with one of these moves on one of these things.

    What is left out does not matter. A thing is meant by what it is for (drain, fill, bleed, filter, joint, seal) or by
    its own name; `of` is the sort of circuit: engine, gear, coolant, brake.
    """

    actions: Actions = ()
    things: Keys = ()
    of: Keys = ()
    places: Places = ()


class Played(_Part):
    """Where a branch is rehearsed: from this step of that procedure on, in its stead or when it is `done`.

    Where the branch mends it, the procedure `goes_on` behind it, and is rehearsed to its end.
    """

    procedure: Key
    step: Key
    done: bool = False
    goes_on: bool = False


class Branch(_Part):
    """What makes a procedure a branch: a short way out when something goes wrong, or when somebody is hurt.

    `number` is its place among them, `sign` what one sees. `give_up` is the point where one stops and has it towed (or
    goes to hospital), `never` what not to do, `sources` keys of the bibliography.
    """

    number: Annotated[int, Field(ge=1, le=99)]
    hurt: bool = False
    sign: Words
    belongs: Annotated[tuple[Belongs, ...], BeforeValidator(_listed)] = ()
    played: Annotated[tuple[Played, ...], BeforeValidator(_listed)] = ()
    give_up: Words
    never: Annotated[Lines, Field(min_length=1)]
    sources: Keys = ("common_practice",)


class ToolWords(_Part):
    """A tool the procedure asks for: its name, and the role whose drive or torque decides its size."""

    name: Line
    fits: Key | None = None
    reaches: Line | None = None


class Procedure(_Part):
    """A written procedure (``twomarks/procedure/1``)."""

    format: Annotated[str, Field(pattern=r"^twomarks/procedure/1(\.\d+)?$")]
    id: Annotated[str, Field(pattern=r"^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$")] | None = None
    key: Key
    title: Line
    purpose: Words
    language: Annotated[str, Field(pattern=r"^[a-z]{2}$")] = "en"
    applies: Applies = Applies()
    roles: dict[Key, Role] = {}
    tools: dict[Key, ToolWords] = {}
    hazards: Annotated[tuple[CautionWords, ...], BeforeValidator(_listed)] = ()
    steps: Annotated[tuple[Step, ...], BeforeValidator(_listed), Field(min_length=1, max_length=2000)]
    follow_ups: Annotated[tuple[FollowUp, ...], BeforeValidator(_listed)] = ()
    branch: Branch | None = None
    derived_from: Lines = Field(default=(), alias="from")

    @property
    def name(self) -> str:
        """The procedure's own name, for lists."""
        return self.title


def reference(text: str) -> tuple[str, str] | None:
    """Return role and fact of a reference such as ``"{drain_plug.torque}"``, or None when `text` is none."""
    match = _REFERENCE.match(text)
    return (match[1], match[2]) if match else None


def placeholders(text: str) -> tuple[tuple[str, str], ...]:
    """Return the name and the fact ("" when there is none) of every placeholder in an author's words."""
    return tuple((match[1], match[2] or "") for match in _PLACEHOLDER.finditer(text))


def bare_figures(text: str) -> tuple[str, ...]:
    """Return the figures with a unit that are typed into an author's words, where a reference should stand."""
    found = []
    for match in _FIGURE.finditer(_PLACEHOLDER.sub("", text)):
        spelling = match[2].rstrip(".")
        try:
            units.unit_of(spelling)
        except InputError as error:
            if error.key != "units.bare":
                continue
        found.append(match[0].rstrip("."))
    return tuple(found)


def minutes_of(text: str, *, where: str = "") -> float:
    """Return a duration of a step [min]."""
    return units.quantity(text, kind="duration", decimal=".", where=where).core

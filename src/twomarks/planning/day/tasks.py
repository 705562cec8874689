"""From the bound procedures of a day to the tasks of a search: what each step rests on, what it must not be parted from."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from twomarks.planning.day.footprints import Footprint, footprints
from twomarks.planning.day.joined import Joined
from twomarks.planning.day.problem import Limit, Problem, Task, Value
from twomarks.procedures.actions import start_state
from twomarks.procedures.bound import Bound
from twomarks.procedures.state import Known

__all__ = ["DayTasks", "Hands", "Origin", "Strictness", "day_tasks"]

_THINGS_OF_THE_WAY = (
    "support", "attitude", "shaken", "undertray", "chocks", "key", "tag", "bonnet", "filler", "coolant_tank", "brake_fluid_tank",
    "engine", "brake", "gear", "range_lever", "ground", "air", "people", "tools", "rags", "funnel", "pan at", "pan holds", "gloves",
    "glasses", "asleep", "undone", "service_mode", "flames", "doors",
)  # fmt: skip
"""How the vehicle, the worker and the place stand; a job needs these as it had them alone, whoever brought them about."""
_FIRST_OF_ALL = frozenset(
    {"support", "attitude", "undertray", "engine", "pan holds", "pan at", "filler", "coolant_tank", "brake_fluid_tank", "undone", "bonnet"}
)
_SERVES: Mapping[tuple[str, Known], tuple[Known, ...]] = {
    ("spills", "none"): ("wiped",),
    ("key", "with the worker"): ("out of range",),
    ("attitude", "tilted"): ("level",),
    ("raised end", None): ("four points",),
    ("chocks", "set"): ("both sides",),
}
_OPENED = ("filler", "coolant_tank", "brake_fluid_tank")
_NO_PLACE = frozenset({"", "bench"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Hands:
    """Who works and with what: pairs of hands, pans, sets of stands, and how many circuits of one vehicle may be open at once."""

    pairs: int = 1
    pans: int = 1
    stand_sets: int = 1
    open_circuits: int = 1


@dataclass(frozen=True, slots=True)
class Strictness:
    """How closely a job must find things as it found them alone.

    With `all` in everything that any other job changes; else in what matters most, and in what is `asked`: the vehicle, the
    job, the step and the variable, each of which a rehearsal has shown to matter.
    """

    all: bool = True
    asked: frozenset[tuple[int, int, str, str]] = frozenset()


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a task comes from: the number of its vehicle and of its job there, and its steps."""

    vehicle: int
    job: int
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DayTasks:
    """The tasks of a day, and where each comes from."""

    problem: Problem
    origins: tuple[Origin, ...]


@dataclass(frozen=True, slots=True)
class _Job:
    vehicle: int
    number: int
    view: Bound
    prints: tuple[Footprint, ...]
    ends: Mapping[str, Known]


def day_tasks(
    vehicles: Sequence[Joined],
    hands: Hands,
    *,
    strictness: Strictness | None = None,
    active: Mapping[tuple[int, int, str], float] | None = None,
) -> DayTasks:
    """Return the tasks of the jobs of `vehicles`; `active` says how long the hands take where a step was timed before [min]."""
    jobs: list[_Job] = []
    for number, joined in enumerate(vehicles):
        for at, view in enumerate(joined.views):
            prints, ends = footprints(joined, view)
            jobs.append(_Job(number, at, view, prints, ends))
    tasks: list[Task] = []
    origins: list[Origin] = []
    chains: list[tuple[int, ...]] = []
    limits: list[Limit] = []
    pans: list[str] = []
    supports: list[str] = []
    for number in range(len(vehicles)):
        mine = [job for job in jobs if job.vehicle == number]
        pans.append(f"{number}/pan holds")
        supports.append(f"{number}/support")
        tokens = []
        for job in mine:
            others = [one for one in mine if one is not job]
            shared = {name for one in others for mark in one.prints for name in mark.writes}
            token = f"{number}/open:{job.number}"
            tokens.append(token)
            chain = []
            for task, steps in _tasks_of(job, shared, token, strictness or Strictness(), active or {}):
                chain.append(len(tasks))
                tasks.append(task)
                origins.append(Origin(number, job.number, steps))
            chains.append(tuple(chain))
        limits.append(Limit(tuple(tokens), None, hands.open_circuits))
    limits += [Limit(tuple(pans), "nothing", hands.pans), Limit(tuple(supports), "wheels", hands.stand_sets)]
    start: dict[str, Value] = {}
    for number, joined in enumerate(vehicles):
        state = start_state(joined.bound)
        start |= {f"{number}/{name}": state.peek(name) for name in state.names("")}
    heats = {name for job in jobs for name in job.ends if name.startswith("heat:")}
    strict = {f"{number}/{name}" for number in range(len(vehicles)) for name in (*_THINGS_OF_THE_WAY, *heats)}
    capacity = {"hands": hands.pairs} | {f"at {number}": 1 for number in range(len(vehicles))}
    tasks = _after_what_ends(tasks, chains, strict)
    problem = Problem(
        tasks=tuple(tasks),
        chains=tuple(chains),
        capacity=capacity,
        start=start,
        limits=tuple(limits),
        ends=tuple({f"{job.vehicle}/{name}": value for name, value in job.ends.items()} for job in jobs),
        strict=frozenset(strict),
        serves={(f"{n}/{name}", value): other for n in range(len(vehicles)) for (name, value), other in _SERVES.items()},
    )
    return DayTasks(problem, tuple(origins))


def _tasks_of(
    job: _Job, shared: set[str], token: str, strictness: Strictness, timed: Mapping[tuple[int, int, str], float]
) -> list[tuple[Task, tuple[str, ...]]]:
    prints = job.prints
    blocks = _blocks(job)
    opened = _open_after(job)
    asked = [_asked(job, at, shared, strictness) for at in range(len(prints))]
    held = _held(prints, asked)
    vehicle = str(job.vehicle)
    found: list[tuple[Task, tuple[str, ...]]] = []
    for at, mark in enumerate(prints):
        step = mark.steps[0]
        hosts = {one.id for one in prints[at - 1].steps} if at else set()
        before_within = at > 0 and found[-1][0].within and step.during and step.during == prints[at - 1].steps[0].during
        within = bool(step.during) and (step.during in hosts or bool(before_within))
        active = sum(timed.get((job.vehicle, job.number, one.id), one.active_min) for one in mark.steps)
        wait = sum(one.wait_min for one in mark.steps)
        if not step.hands_free:
            active, wait = active + wait, 0.0
        exact = {name for name in asked[at] if (job.vehicle, job.number, step.id, name) in strictness.asked}
        needs = {
            f"{vehicle}/{name}": value
            for name, value in mark.reads.items()
            if name in asked[at] and (name in exact or not _is_number(value))
        }
        sets: dict[str, Value] = {f"{vehicle}/{name}": value for name, value in mark.writes.items()}
        if opened[at] != (opened[at - 1] if at else False):
            sets[token] = "open" if opened[at] else None
        brings = _brings(mark, vehicle) if mark.set_up and shared else {}
        task = Task(
            name=f"{vehicle}/{step.id}",
            active_min=active,
            wait_min=wait,
            uses={"hands": 1} if step.place in _NO_PLACE else {"hands": 1, f"at {vehicle}": 1},
            needs=needs,
            sets=sets,
            brings=brings,
            spare=bool(brings),
            within=within,
            block=f"{vehicle}/{job.number}/{blocks[at]}" if blocks[at] else "",
            looks=all(move.action in ("inspect", "clean") for one in mark.steps for move in one.moves),
            vehicle=vehicle,
            place=step.place,
            exact=frozenset(f"{vehicle}/{name}" for name in exact),
            holds={f"{vehicle}/{name}": value for name, value in held[at].items()},
        )
        found.append((task, tuple(one.id for one in mark.steps)))
    return found


def _is_number(value: Known) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def _brings(mark: Footprint, vehicle: str) -> dict[str, Value]:
    """Return what must hold already for a step to be left out: all that it sets, but for what passes with any step.

    A job that is alone on its vehicle is worked as it is written.
    """
    passing = {"people", "tools", "rags"}
    if mark.raises:
        return {f"{vehicle}/{name}": mark.writes[name] for name in ("support", "attitude", "shaken") if name in mark.writes}
    if mark.lowers:
        return {f"{vehicle}/{name}": mark.writes[name] for name in ("support",)}
    taken_away = {thing for step in mark.steps for move in step.moves if move.action == "take_away" for thing in move.things}
    clear = any(move.action == "inspect" for step in mark.steps for move in step.moves)
    counted = {"tools", "rags"} & taken_away | ({"people"} if clear else set())
    return {
        f"{vehicle}/{name}": value for name, value in mark.writes.items() if value is not None and (name not in passing or name in counted)
    }


def _asked(job: _Job, at: int, shared: set[str], strictness: Strictness) -> set[str]:
    """Return the variables that a step must find as it found them alone."""
    mark = job.prints[at]
    wanted = shared & mark.reads.keys()
    if strictness.all:
        return wanted
    about = {name for name in wanted if name in _FIRST_OF_ALL or name.startswith("heat:")}
    steps = {step.id for step in mark.steps}
    mine = {name for at_, of, step, name in strictness.asked if (at_, of) == (job.vehicle, job.number) and step in steps}
    return about | (mine & wanted)


def _held(prints: tuple[Footprint, ...], asked: list[set[str]]) -> list[dict[str, Known]]:
    """Return, for every step, what the job has brought about before it and looks at from it on, before changing it itself.

    A number, a clock or a volume, may be changed by nobody else at all.
    """
    found: list[dict[str, Known]] = [{} for _ in prints]
    for name in set().union(*asked):
        given = False
        since = 0
        for at, mark in enumerate(prints):
            own = mark.set_up and name in mark.writes and (mark.raises or mark.lowers or name in mark.writes)
            if name in asked[at] and given and not own:
                for between in range(since + 1, at + 1):
                    found[between][name] = mark.reads[name]
            if name in mark.writes:
                given, since = True, at
    return found


def _open_after(job: _Job) -> list[bool]:
    """Return after which steps a circuit of the job stands open: a plug, a tap, a filter or a cap of it."""
    view = job.view
    plugs = view.openings | view.joints
    away: set[str] = set()
    found = []
    for mark in job.prints:
        for name, value in mark.writes.items():
            kind, _, role = name.partition(":")
            if kind == "fastening" and role in plugs:
                (away.discard if value == "tight" else away.add)(name)
            elif kind == "part" and role in view.filters:
                (away.add if value == "off" else away.discard)(name)
            elif name in _OPENED:
                (away.add if value == "open" else away.discard)(name)
        found.append(bool(away) and bool(view.circuits))
    return found


def _blocks(job: _Job) -> list[int]:
    """Return the number of the block that every step belongs to, 0 for none: from a fastening undone to the last one tight again."""
    view = job.view
    undone: set[str] = set()
    found: list[int] = []
    number = 0
    for mark in job.prints:
        was = bool(undone)
        for name, value in mark.writes.items():
            kind, _, role = name.partition(":")
            if kind == "fastening":
                (undone.discard if value == "tight" else undone.add)(name)
            elif kind == "part" and role in view.filters:
                (undone.add if value == "off" else undone.discard)(name)
        if undone and not was:
            number += 1
        found.append(number if undone or was else 0)
    bleeding = [at for at, mark in enumerate(job.prints) for step in mark.steps if step.does("bleed") and view.of_sort("brake")]
    if bleeding:
        first, last = bleeding[0], max(at for at, block in enumerate(found) if block)
        found[first : last + 1] = [found[first] or 1] * (last + 1 - first)
    return found


def _after_what_ends(tasks: list[Task], chains: list[tuple[int, ...]], strict: set[str]) -> list[Task]:
    """Put what ends a state for good, such as an engine never run or nothing yet undone, after all that needs that state."""
    setters: dict[tuple[str, Value], int] = {}
    for task in tasks:
        for pair in task.sets.items():
            setters[pair] = setters.get(pair, 0) + 1
    chain_of = {number: at for at, chain in enumerate(chains) for number in chain}
    needing: dict[str, list[tuple[int, Value]]] = {}
    for number, task in enumerate(tasks):
        for name, value in task.needs.items():
            if (name in strict or name in task.exact) and (name, value) not in setters:
                needing.setdefault(name, []).append((number, value))
    found = []
    for number, task in enumerate(tasks):
        before = {
            one
            for name, value in task.sets.items()
            for one, needed in needing.get(name, ())
            if needed != value and chain_of[one] != chain_of[number]
        }
        found.append(replace(task, after=tuple(sorted({*task.after, *before}))) if before else task)
    return found

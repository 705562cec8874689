"""Twenty days of sixty steps for the day bench, made from their seeds: all invented, none measured.

Three jobs on each of two vehicles, ten steps each, drawn from four shapes of work: oil that drains and settles, a unit that is
filled to its level, brakes or wheels that are handled in one go, and looking with a long wait. Minutes are of the size that
such steps have (common practice, no source). One set of stands, one pan, one open circuit for each vehicle; every
fourth day has two pairs of hands.
"""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.planning.day.problem import Limit, Problem, Task, Value
from twomarks.planning.workdays.draws import Draws

__all__ = ["INSTANCES", "STEPS", "invented_day"]

INSTANCES = 20
STEPS = 60
VEHICLES = 2
JOBS_EACH = 3


def invented_day(seed: int) -> Problem:
    """Return the invented day of a seed."""
    draws = Draws(seed)
    tasks: list[Task] = []
    chains: list[tuple[int, ...]] = []
    tokens: list[tuple[str, ...]] = []
    for vehicle in range(VEHICLES):
        mine = []
        for job in range(JOBS_EACH):
            made = _job(draws, str(vehicle), f"{vehicle}.{job}")
            chains.append(tuple(range(len(tasks), len(tasks) + len(made))))
            tasks += made
            mine.append(f"open:{vehicle}.{job}")
        tokens.append(tuple(mine))
    limits = (
        *(Limit(those, None, 1) for those in tokens),
        Limit(tuple(f"support:{vehicle}" for vehicle in range(VEHICLES)), "wheels", 1),
        Limit(tuple(f"pan:{vehicle}.{job}" for vehicle in range(VEHICLES) for job in range(JOBS_EACH)), None, 1),
    )
    supports = {f"support:{vehicle}": "wheels" for vehicle in range(VEHICLES)}
    capacity = {"hands": 2 if seed % 4 == 3 else 1} | {f"at {vehicle}": 1 for vehicle in range(VEHICLES)}
    return Problem(
        tasks=tuple(tasks), chains=tuple(chains), capacity=capacity, start=supports, limits=limits, strict=frozenset(supports)
    )  # fmt: skip


def _job(draws: Draws, vehicle: str, name: str) -> list[Task]:
    shape = draws.below(4)
    support, opened, pan = f"support:{vehicle}", f"open:{name}", f"pan:{name}"

    def step(
        what: str, most: int, *, place: str = "under", wait: int = 0, sets: Mapping[str, Value] | None = None,
        needs: Mapping[str, Value] | None = None, block: str = "", within: bool = False, spare: bool = False,
    ) -> Task:  # fmt: skip
        at = {} if place == "bench" else {f"at {vehicle}": 1}
        return Task(
            name=f"{name} {what}", active_min=float(1 + draws.below(most)), wait_min=float(wait and wait + draws.below(wait)),
            uses={"hands": 1, **at}, place=place, vehicle=vehicle, block=block and f"{name} {block}", within=within, spare=spare,
            sets=sets or {}, brings=(sets or {}) if spare else {}, needs=needs or {},
            holds={support: needs[support]} if needs and support in needs else {},
        )  # fmt: skip

    up, down = {support: "stands"}, {support: "wheels"}
    kit = step("kit", 8, place="bench")
    raising = step("raise", 8, place="at wheel", sets=up, spare=True)
    lowering = step("lower", 4, place="at wheel", sets=down, spare=True)
    if shape == 0:
        return [
            kit, raising, step("undo", 3, needs=up, sets={opened: "open", pan: "there"}, block="plug"),
            step("drain", 2, needs=up, wait=10, block="plug"), step("seal", 4, place="bench", within=True, block="plug"),
            step("tighten", 3, needs=up, block="plug"), lowering, step("pour", 6, place="above", needs=down, wait=5),
            step("read", 3, place="above", needs=down, sets={opened: None}, wait=8),
            step("decant", 6, place="bench", within=True, sets={pan: None}),
        ]  # fmt: skip
    if shape == 1:
        return [
            kit, raising, step("look", 4, needs=up), step("fill out", 4, needs=up, sets={opened: "open", pan: "there"}, block="unit"),
            step("drain", 2, needs=up, wait=8, block="unit"), step("drain in", 4, needs=up, block="unit"),
            step("fill", 9, needs=up, wait=2, block="unit"), step("tighten", 3, needs=up, sets={opened: None}, block="unit"),
            step("decant", 5, place="bench", sets={pan: None}), lowering,
        ]  # fmt: skip
    if shape == 2:
        return [
            kit, step("crack", 5, place="at wheel", needs=down), raising, step("off", 7, place="at wheel", needs=up, block="wheel"),
            step("clean", 9, place="at wheel", needs=up, block="wheel"), step("on", 7, place="at wheel", needs=up, block="wheel"),
            step("snug", 4, place="at wheel", needs=up), lowering, step("torque", 6, place="at wheel", needs=down),
            step("pressures", 6, place="at wheel"),
        ]  # fmt: skip
    return [
        kit, step("open", 3, place="above", wait=15), step("test", 5, place="above", wait=20), step("note", 3, place="bench"),
        step("clean", 8, place="above"), step("dry", 2, place="above", wait=25), step("grease", 5, place="above"),
        step("close", 4, place="above"), step("try", 5, place="inside", wait=5), step("write", 4, place="bench"),
    ]  # fmt: skip

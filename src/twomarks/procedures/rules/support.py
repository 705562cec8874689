"""Rules about what the vehicle stands on, who is under it, and what keeps it where it is."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, any_of, must, shown, violated

__all__ = ["RULES"]

_SUPPORT = "hse_indg434"
_raising = acting("raise")


def _under(moment: Moment) -> bool:
    return not moment.end and moment.step.place == "under"


def _under_raised(moment: Moment) -> bool:
    return _under(moment) and moment.state.get("support") != "wheels"


def _ground(moment: Moment) -> Outcome:
    if moment.kit.ground in ("soft", "slope"):
        return violated(thing="vehicle")
    return must("ground", "hard and level")(moment)


def _raising_with_range_lever(moment: Moment) -> bool:
    return _raising(moment) and bool(moment.bound.transfer_case)


def _air_may_move(moment: Moment) -> bool:
    return (_raising(moment) or _under(moment)) and moment.bound.air_suspension is not False


def _air_suspension(moment: Moment) -> Outcome:
    if moment.state.get("air_suspension") == "in":
        return shown()
    return Outcome("violated" if moment.bound.air_suspension else "not shown", thing="air_suspension")


def _under_air_springs(moment: Moment) -> bool:
    return _under(moment) and bool(moment.bound.air_suspension)


def _off_its_springs(moment: Moment) -> Outcome:
    return violated(thing="vehicle") if moment.state.get("support") == "wheels" else shown()


def _lifting_points(moment: Moment) -> Outcome:
    return shown() if "lifting points" in moment.step.at else Outcome("not shown", thing="vehicle")


def _rigid(moment: Moment) -> Outcome:
    return shown() if "rigid" in moment.step.at else Outcome("not shown", thing="stands")


def _on_jack(moment: Moment) -> Outcome:
    return shown() if moment.state.get("support") == "jack" else violated(thing="vehicle")


def _sets_stands(moment: Moment) -> bool:
    """Return whether the vehicle is set on something; a part that is held up meanwhile is no vehicle."""
    return acting("support")(moment) and not set(moment.step.things) & moment.bound.kinds.keys()


def _key_away(moment: Moment) -> Outcome:
    if moment.bound.keyless:
        return must("key", "out of range")(moment)
    return must("key", "with the worker", "out of range")(moment)


def _hands_near(moment: Moment) -> bool:
    if _under(moment) or acting("inspect", on=("belt", "hoses"))(moment):
        return True
    undoes = acting("loosen", "remove", "open", "turn")(moment)
    return undoes and moment.bound.serves(moment.step.things, "wheel", "caliper", "pads", "battery", "negative", "positive", "air", "belt")


def _chocks_going(moment: Moment) -> bool:
    return acting("take_away", on=("chocks",))(moment)


def _someone_knows(moment: Moment) -> Outcome:
    return shown() if moment.kit.helper else must("said:helper", True)(moment)


def _starts(moment: Moment) -> bool:
    """Return whether it starts, or moves off after something was let out of it or undone."""
    if not acting("run_engine", "drive")(moment):
        return False
    opened = any_of(moment.state, "drained", tuple(moment.bound.circuits)) or bool(moment.state.get("undone"))
    return opened or moment.step.action == "run_engine"


def _harm(name: str, when: Callable[[Moment], bool], holds: Callable[[Moment], Outcome], source: str = _SUPPORT) -> Rule:
    return Rule(id=name, family="support", grade="harm", when=when, holds=holds, source=source, protects=True)


RULES = (
    _harm("ground", _raising, _ground),
    _harm("brake", _raising, must("brake", "on")),
    _harm("gear", _raising, must("gear", "in")),
    _harm("range", _raising_with_range_lever, must("range_lever", "in"), "common_practice"),
    _harm("air_suspension", _air_may_move, _air_suspension, "common_practice"),
    _harm("chocks", _raising, must("chocks", "both sides")),
    _harm("chocks_stay", _chocks_going, must("support", "wheels")),
    _harm("lifting_points", _raising, _lifting_points),
    _harm("stands_rigid", acting("support"), _rigid),
    _harm("air_springs", _under_air_springs, _off_its_springs, "common_practice"),
    _harm("stands", _under_raised, must("support", "stands")),
    _harm("shaken", _under_raised, must("shaken", True)),
    _harm("still_under", acting("lower"), must("people", "clear")),
    _harm("start_people", _starts, must("people", "clear")),
    _harm("engine_stopped", _under, must("engine", "off")),
    _harm("key_away", _hands_near, _key_away, "common_practice"),
    Rule(id="jack_first", family="support", grade="omission", when=_sets_stands, holds=_on_jack),
    Rule(id="helper", family="support", grade="advice", when=_under, holds=_someone_knows),
)

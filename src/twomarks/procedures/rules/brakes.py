"""Rules about brakes: fresh fluid of the right kind, no air from above, and a pedal that is firm before the vehicle moves."""

from __future__ import annotations

from twomarks.procedures.actions.fluids import WHEELS
from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, before_moving, drained, first_thing, must, shown, violated
from twomarks.words import Figure

__all__ = ["RULES"]


def _brake(moment: Moment) -> tuple[str, ...]:
    return moment.bound.of_sort("brake")


def _bleeds(moment: Moment) -> bool:
    return bool(_brake(moment)) and acting("bleed", on=_brake(moment))(moment)


def _pours(moment: Moment) -> bool:
    return bool(_brake(moment)) and acting("pour", on=_brake(moment))(moment)


def _first_bleed(moment: Moment) -> bool:
    return _bleeds(moment) and not drained(moment, "brake")


def _first_bleed_with_booster(moment: Moment) -> bool:
    return _first_bleed(moment) and moment.bound.sheet.kind not in ("motorcycle", "trailer")


def _fluid_near_paint(moment: Moment) -> bool:
    opens = acting("open", on=("brake_fluid_tank",))(moment) and bool(_brake(moment))
    return opens or _pours(moment) or _first_bleed(moment)


def _tank_full(moment: Moment) -> Outcome:
    for role in _brake(moment):
        if not moment.state.get(f"filled:{role}"):
            return violated(thing=role)
    return shown()


def _strokes_said(moment: Moment) -> Outcome:
    return shown() if moment.step.amount_path else Outcome("not shown", thing="pedal")


def _shut_before_release(moment: Moment) -> Outcome:
    return (
        shown() if moment.step.manner == "shut before release" else Outcome("not shown", thing=moment.step.through or first_thing(moment))
    )


def _touched(moment: Moment) -> bool:
    return bool(moment.state.get("brakes touched"))


def _moves_after(moment: Moment) -> bool:
    return before_moving(moment) and _touched(moment)


def _drives_on_after(moment: Moment) -> bool:
    """Return whether it goes on the road, or is left, after brakes were touched; the test of a slow stop itself is not yet that."""
    return _touched(moment) and (moment.end or (moment.step.action == "drive" and moment.step.manner != "slow stop"))


def _renewed_and_moves(moment: Moment) -> bool:
    return before_moving(moment) and bool(drained(moment, "brake"))


def _every_wheel(moment: Moment) -> Outcome:
    wheels = 2 if moment.bound.sheet.kind == "motorcycle" else WHEELS
    done = [name for name in moment.state.names("bled:") if moment.state.get(name)]
    if len(done) >= wheels:
        return shown()
    role = drained(moment, "brake")[0]
    return violated(thing=role, count=Figure(float(len(done)), ""), variable=f"drained:{role}")


def _level(moment: Moment) -> Outcome:
    for role in drained(moment, "brake"):
        outcome = must(f"reading:{role}", "good")(moment)
        if outcome.verdict != "shown":
            return outcome
    return shown()


def _tank_in_play(moment: Moment) -> bool:
    return before_moving(moment) and bool(_brake(moment))


RULES = (
    Rule(id="paint_covered", family="brakes", grade="damage", when=_fluid_near_paint, holds=must("placed:paint_cover", True)),
    Rule(id="sealed_fluid", family="brakes", grade="harm", when=_pours, holds=must("seen:container_seal", True), protects=True),
    Rule(id="brake_cap_read", family="brakes", grade="harm", when=_pours, holds=must("seen:brake_fluid_tank", True), protects=True),
    Rule(id="booster_empty", family="brakes", grade="omission", when=_first_bleed_with_booster, holds=must("booster", "empty")),
    Rule(id="bleed_order", family="brakes", grade="omission", when=_first_bleed, holds=must("seen:bleed_order", True)),
    Rule(id="bleed_hose", family="brakes", grade="harm", when=_bleeds, holds=must("joined:bleed_hose", "added"), protects=True),
    Rule(id="tank_topped_up", family="brakes", grade="harm", when=_bleeds, holds=_tank_full, protects=True),
    Rule(id="strokes_said", family="brakes", grade="harm", when=_bleeds, holds=_strokes_said, protects=True),
    Rule(id="shut_before_release", family="brakes", grade="harm", when=_bleeds, holds=_shut_before_release, protects=True),
    Rule(id="every_wheel_bled", family="brakes", grade="harm", when=_renewed_and_moves, holds=_every_wheel, protects=True),
    Rule(id="brake_level", family="brakes", grade="harm", when=_renewed_and_moves, holds=_level, protects=True),
    Rule(id="dust_caps", family="brakes", grade="omission", when=_renewed_and_moves, holds=must("dust_caps", "shut")),
    Rule(id="brake_tank_shut", family="brakes", grade="harm", when=_tank_in_play, holds=must("brake_fluid_tank", "shut"), protects=True),
    Rule(id="brake_leaks", family="brakes", grade="harm", when=_moves_after, holds=must("leaks", "dry", "running", "after"), protects=True),
    Rule(id="pedal_firm", family="brakes", grade="harm", when=_moves_after, holds=must("pedal", "firm"), protects=True),
    Rule(id="slow_stop", family="brakes", grade="harm", when=_drives_on_after, holds=must("slow stop", True), protects=True),
)

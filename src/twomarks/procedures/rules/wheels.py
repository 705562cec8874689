"""Rules about wheels: cracked loose on the ground, clean faces, by hand, crosswise, tight on the ground, and tightened again."""

from __future__ import annotations

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, before_moving, first_thing, must, must_all, shown, violated
from twomarks.words import Figure

__all__ = ["RETORQUE_KM", "RULES"]

RETORQUE_KM = (40.0, 100.0)
"""After which distance wheel nuts are tightened again [km]: 25 to 50 miles, or 50 to 100 km, by tyre makers' pages."""

_RETORQUE = "wheel_retorque_pages"


def _nuts(moment: Moment) -> tuple[str, ...]:
    """Return the fastenings of the wheels on which this move acts."""
    if moment.end:
        return ()
    fastenings = (thing for thing in moment.step.things if moment.bound.kinds.get(thing) == "fastening")
    return tuple(thing for thing in fastenings if moment.bound.serves((thing,), "wheel"))


def _all_nuts(moment: Moment) -> tuple[str, ...]:
    return tuple(role for role in moment.bound.serving("wheel") if moment.bound.kinds.get(role) == "fastening")


def _wheels(moment: Moment) -> tuple[str, ...]:
    return tuple(role for role in moment.bound.serving("wheel") if moment.bound.kinds.get(role) == "slot")


def _cracks(moment: Moment) -> bool:
    return acting("loosen")(moment) and bool(_nuts(moment))


def _takes_nuts(moment: Moment) -> bool:
    return acting("remove")(moment) and bool(_nuts(moment))


def _takes_wheels(moment: Moment) -> bool:
    return acting("remove")(moment) and moment.bound.serves(moment.step.things, "wheel")


def _fits_wheels(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(set(moment.step.things) & set(_wheels(moment)))


def _swaps(moment: Moment) -> bool:
    return _fits_wheels(moment) and moment.step.manner == "swapped"


def _fits_nuts(moment: Moment) -> bool:
    return acting("fit")(moment) and bool(_nuts(moment))


def _tightens_nuts(moment: Moment) -> bool:
    return acting("tighten")(moment) and bool(_nuts(moment))


def _tightens_nuts_home(moment: Moment) -> bool:
    return _tightens_nuts(moment) and moment.step.manner != "snug"


def _cracked(moment: Moment) -> Outcome:
    for nut in _nuts(moment):
        if moment.state.get(f"fastening:{nut}") not in ("loose", "by hand"):
            return violated(thing=nut)
    return shown()


def _by_hand(moment: Moment) -> Outcome:
    for nut in _nuts(moment):
        if moment.state.get(f"fastening:{nut}") not in ("by hand", "tight"):
            return violated(thing=nut)
    return shown()


def _crosswise(moment: Moment) -> Outcome:
    return shown() if moment.step.pace == "crosswise" else Outcome("not shown", thing=first_thing(moment))


def _touched(moment: Moment) -> tuple[str, ...]:
    """Return the fastenings of wheels that are, or were, undone."""
    nuts = _all_nuts(moment)
    return tuple([nut for nut in nuts if moment.state.get(f"snug:{nut}") is not None or moment.state.get(f"fastening:{nut}") != "tight"])


def _lowers_on_wheels(moment: Moment) -> bool:
    return acting("lower")(moment) and bool(_touched(moment))


def _snug(moment: Moment) -> Outcome:
    for nut in _touched(moment):
        if not moment.state.get(f"snug:{nut}"):
            return Outcome("not shown", thing=nut, variable=f"fastening:{nut}")
    return shown()


def _moves_on_wheels(moment: Moment) -> bool:
    return before_moving(moment) and bool(_touched(moment))


def _torqued(moment: Moment) -> Outcome:
    for nut in _touched(moment):
        if moment.state.get(f"fastening:{nut}") != "tight":
            return violated(thing=nut, variable=f"fastening:{nut}")
    return shown()


def _moves_or_lowers(moment: Moment) -> bool:
    return bool(_wheels(moment)) and (before_moving(moment) or acting("lower")(moment))


def _wheels_on(moment: Moment) -> Outcome:
    for wheel in _wheels(moment):
        if moment.state.get(f"part:{wheel}") == "off":
            return violated(thing=wheel, variable=f"part:{wheel}")
    return shown()


def _ends_on_wheels(moment: Moment) -> bool:
    return moment.end and bool(_touched(moment))


def _again(moment: Moment) -> Outcome:
    for follow in moment.bound.follow_ups:
        about = set(follow.checks) & set(_all_nuts(moment))
        if about and follow.after_km is not None and RETORQUE_KM[0] <= follow.after_km <= RETORQUE_KM[1]:
            return shown()
    nut = _touched(moment)[0]
    low, high = (Figure(distance, "km") for distance in RETORQUE_KM)
    return Outcome("not shown", {"low": low, "high": high}, nut, f"fastening:{nut}")


def _swapped_end(moment: Moment) -> bool:
    return moment.end and bool(moment.state.get("swapped"))


def _raises_an_end(moment: Moment) -> bool:
    return acting("raise")(moment) and bool({"front end", "rear end"} & set(moment.step.at))


def _holds_without_it(moment: Moment) -> Outcome:
    """Return whether what stays down is held where the parking brake acts on the end that goes up, or through the shafts."""
    acts_on = moment.bound.parking_brake
    held = {"front wheels": "rear end", "rear wheels": "front end", "electric": "front end"}.get(acts_on)
    return shown() if held in moment.step.at else must("chocks", "both sides")(moment)


_ON_STANDS = must_all(("support", "shaken"), "stands", True)

RULES = (
    Rule(id="nuts_cracked", family="wheels", grade="harm", when=_cracks, holds=must("support", "wheels"), protects=True),
    Rule(id="nuts_loose_first", family="wheels", grade="harm", when=_takes_nuts, holds=_cracked, protects=True),
    Rule(
        id="wheel_off_on_stands", family="wheels", grade="harm", when=_takes_wheels, holds=_ON_STANDS, source="hse_indg434", protects=True
    ),
    Rule(id="brake_of_the_raised_end", family="wheels", grade="harm", when=_raises_an_end, holds=_holds_without_it, protects=True),
    Rule(id="tread_measured", family="wheels", grade="omission", when=_swaps, holds=must("measured:tread", True)),
    Rule(id="swap_pattern", family="wheels", grade="damage", when=_swaps, holds=must("seen:swap_pattern", True)),
    Rule(id="tyre_direction", family="wheels", grade="damage", when=_swaps, holds=must("seen:tyre", True)),
    Rule(
        id="wheel_faces",
        family="wheels",
        grade="harm",
        when=_fits_wheels,
        holds=must("clean:wheel_faces", True),
        source=_RETORQUE,
        protects=True,
    ),
    Rule(id="nut_seats", family="wheels", grade="harm", when=_fits_nuts, holds=must("seen:nut_seats", True), protects=True),
    Rule(id="nuts_by_hand", family="wheels", grade="harm", when=_tightens_nuts, holds=_by_hand, protects=True),
    Rule(id="nuts_crosswise", family="wheels", grade="harm", when=_tightens_nuts, holds=_crosswise, protects=True),
    Rule(id="nuts_snug", family="wheels", grade="harm", when=_lowers_on_wheels, holds=_snug, protects=True),
    Rule(id="wheels_on", family="wheels", grade="harm", when=_moves_or_lowers, holds=_wheels_on, protects=True),
    Rule(id="nuts_on_ground", family="wheels", grade="harm", when=_tightens_nuts_home, holds=must("support", "wheels"), protects=True),
    Rule(id="nuts_torqued", family="wheels", grade="harm", when=_moves_on_wheels, holds=_torqued, protects=True),
    Rule(id="retorque", family="wheels", grade="harm", when=_ends_on_wheels, holds=_again, source=_RETORQUE, protects=True),
    Rule(id="pressures_set", family="wheels", grade="omission", when=_swapped_end, holds=must("measured:tyre_pressure", True)),
    Rule(id="sensors_learned", family="wheels", grade="advice", when=_swapped_end, holds=must("seen:pressure_sensors", True)),
)

"""Rules about what ends a card: high voltage, airbags, air conditioning, gas fuel, high-pressure lines; and springs under load."""

from __future__ import annotations

from collections.abc import Callable

from twomarks.procedures.rules.rule import Moment, Outcome, Rule, acting, must, violated

__all__ = ["RULES"]

_LOOKING = frozenset({"inspect", "say", "record", "wait", "undecided"})


def _works_on(thing: str) -> Callable[[Moment], bool]:
    def when(moment: Moment) -> bool:
        return not moment.end and moment.step.action not in _LOOKING and thing in moment.step.things

    return when


def _never(thing: str) -> Callable[[Moment], Outcome]:
    return lambda _moment: violated(thing=thing)


def _not_from_this_card(name: str, thing: str) -> Rule:
    return Rule(id=name, family="ends the card", grade="harm", when=_works_on(thing), holds=_never(thing), protects=True)


def _lets_springs_go(moment: Moment) -> bool:
    return acting("loosen", "remove", "release", "open", "disconnect")(moment) and bool({"springs", "tensioner"} & set(moment.step.things))


RULES = (
    _not_from_this_card("orange_cables", "orange_cables"),
    _not_from_this_card("airbags", "airbags"),
    _not_from_this_card("air_conditioning", "air_conditioning"),
    _not_from_this_card("gas_fuel", "gas_fuel"),
    _not_from_this_card("high_pressure_lines", "high_pressure_lines"),
    Rule(
        id="springs_held",
        family="ends the card",
        grade="harm",
        when=_lets_springs_go,
        holds=must("placed:spring_clamp", True),
        protects=True,
    ),
)

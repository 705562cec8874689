"""Which rules are asked: those that could never speak of a procedure are left aside, and nothing is lost by it."""

from __future__ import annotations

import pytest

from tests.procedures import parts_sheets, sheets
from tests.procedures.mistakes import drop
from twomarks.procedures import rehearsal
from twomarks.procedures.binding import bind
from twomarks.procedures.library import library_keys, library_procedure
from twomarks.procedures.rules import RULES, rules_for
from twomarks.procedures.rules.rule import Moment, Rule


class EveryRule:
    """Asks every rule at every move."""

    def at(self, _moment: Moment) -> tuple[Rule, ...]:
        return RULES


VEHICLES = [parts_sheets.VAN, parts_sheets.HYBRID]


@pytest.mark.parametrize("key", library_keys())
@pytest.mark.parametrize("text", VEHICLES, ids=["van", "hybrid"])
def test_asking_every_rule_brings_nothing_more(key: str, text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    procedure = library_procedure(key)
    for one in (procedure, *(drop(procedure, step.id) for step in procedure.steps[1::4])):
        played = bind(one, sheets.sheet(text))
        asked = rehearsal.rehearse(played)
        with monkeypatch.context() as patched:
            patched.setattr(rehearsal, "rules_for", lambda _bound: EveryRule())
            everything = rehearsal.rehearse(played)
        assert asked.findings == everything.findings
        assert asked.checked == everything.checked


def test_an_oil_change_is_not_asked_about_wheels_and_poles() -> None:
    oil = {rule.id for rule in rules_for(bind(library_procedure("engine-oil-spin-on"), sheets.sheet(sheets.CAR))).rules}
    wheels = {rule.id for rule in rules_for(bind(library_procedure("tyre-rotation"), sheets.sheet(sheets.CAR))).rules}
    assert not {"retorque", "negative_first", "fuel_primed", "belt_gauged"} & oil
    assert {"brake_of_the_raised_end", "held_without_brake"} <= oil
    assert "retorque" in wheels
    assert "negative_first" not in wheels

"""What is decided for the day: a person's answer first, then the sheet, else the longer way."""

from __future__ import annotations

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import bound
from twomarks.procedures.choices import choice_question, choices_from, choices_of
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.words import Reader, render

SPIN_ON = library_procedure("engine-oil-spin-on")
RAISING = {"raise", "stands", "lower"}
SAYS_SO = sheets.CAR.replace("[chassis]", "[chassis]\nraised_to_drain = false\nundertray = false")


def _ids(text: str, **choices: object) -> set[str]:
    return {step.id for step in bound(SPIN_ON, text, **choices).steps}


@pytest.mark.parametrize(("word", "decided"), [("have", True), ("have not", False), ("do not know", None)])
def test_an_answer_decides_for_its_own_vehicle(word: str, decided: bool | None) -> None:
    answers = {choice_question("raised", "Birch"): word, choice_question("undertray", "Sorrel"): "have not"}
    chosen = choices_from(answers, sheets.sheet(sheets.CAR))
    assert (chosen.raised, chosen.undertray) == (decided, None)


def test_nothing_is_decided_where_nobody_has_answered() -> None:
    chosen = choices_from({}, sheets.sheet(sheets.CAR))
    assert (chosen.raised, chosen.undertray) == (None, None)


def test_the_sheet_decides_where_nobody_has_answered() -> None:
    assert not RAISING & _ids(SAYS_SO)
    assert "tray-off" not in _ids(SAYS_SO)
    assert not {"jack", "axle_stands"} & {tool.key for tool in needs_of(bound(SPIN_ON, SAYS_SO)).tools}


def test_an_answer_outweighs_the_sheet() -> None:
    assert _ids(SAYS_SO, raised=True) >= RAISING
    assert "tray-off" in _ids(SAYS_SO, undertray=True)


def test_where_nobody_has_said_the_longer_way_stays_with_its_condition() -> None:
    step = bound(SPIN_ON).step("raise")
    assert step.holds is None
    assert step.condition is not None


def test_the_choices_of_a_procedure_say_what_they_ask_and_what_is_decided() -> None:
    asked = {one.question: one for one in choices_of(bound(SPIN_ON, undertray=False))}
    assert {question: one.decided for question, one in asked.items()} == {"choice:raised:Birch": None, "choice:undertray:Birch": False}
    assert "splash shield" in render(asked["choice:undertray:Birch"].what, Reader.of("us"))
    assert choices_of(bound(library_procedure("walk-round"), sheets.BARE)) == ()

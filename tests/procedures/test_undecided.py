"""A sentence of a draft for which no action was chosen: it loads, does nothing, and is told at its step."""

from __future__ import annotations

from tests.procedures.mistakes import bound
from twomarks.model.procedure import Procedure, Step
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import rehearse


def with_sentences(*names: str) -> Procedure:
    whole = library_procedure("engine-oil-spin-on")
    added = tuple(Step(id=name, action="undecided", words="Give it a wiggle.", said="Give it 2 wiggles.") for name in names)
    return whole.model_copy(update={"steps": (*whole.steps[:4], *added, *whole.steps[4:])})


def test_each_undecided_sentence_is_told_at_its_own_step() -> None:
    found = rehearse(bound(with_sentences("wiggle", "wiggle-again"))).findings
    assert [(one.rule, one.step, one.grade, one.basis) for one in found] == [
        ("undecided", "wiggle", "harm", "violated"),
        ("undecided", "wiggle-again", "harm", "violated"),
    ]


def test_a_procedure_with_an_action_for_every_sentence_is_not_told() -> None:
    assert not [one for one in rehearse(bound(library_procedure("engine-oil-spin-on"))).findings if one.rule == "undecided"]

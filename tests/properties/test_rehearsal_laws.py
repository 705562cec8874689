"""Laws of the rehearsal: litres are conserved, a dropped protecting move is always found, free swaps change nothing."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.procedures.mistakes import apart, bound, drop, new_findings
from twomarks.model.procedure import Procedure, Step
from twomarks.procedures.actions import play, start_state
from twomarks.procedures.bound import Choices
from twomarks.procedures.library import library_procedure
from twomarks.procedures.order import may_swap, order_of
from twomarks.procedures.rehearsal import rehearse

OIL_KEYS = ("engine-oil-spin-on", "engine-oil-cartridge")
GEAR_KEYS = ("manual-gearbox-oil", "transfer-case-oil", "axle-oil")
KEYS = (*OIL_KEYS, *GEAR_KEYS, "coolant", "brake-fluid")
NOT_PROTECTING = {
    "air-set": "the car and the 4x4 stand on steel springs; tested on air springs",
    "rinse": "what was spilled is wiped once more before the engine runs",
    "fill-up": "nothing to fill up where the level is high enough",
    "caps-off": "no hose goes on over a cap",
    "range-lever": "neither the car nor the van has a range lever",
    "key-far": "the key is taken out by another step; tested on a keyless vehicle",
    "read-before-start": "one pour that is sure; tested where the refill is only remembered",
    "pour-second": "one pour is enough",
    "settle": "putting the undertray back takes longer than the wait; tested without an undertray",
    "top-up": "nothing to add where the reading is high enough",
}


ON_STEEL = ("manual-gearbox-oil", "transfer-case-oil", "brake-fluid")


@cache
def _moves(key: str) -> tuple[str, ...]:
    excused = {name for name in NOT_PROTECTING if name != "air-set" or key in ON_STEEL}
    return tuple(move.id for step in library_procedure(key).steps for move in step.moves if move.id not in excused)


@pytest.mark.parametrize("key", KEYS)
@given(data=st.data())
def test_dropping_any_protecting_move_brings_a_finding(key: str, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(_moves(key)))
    assert new_findings(drop(library_procedure(key), name))


def _total(steps: tuple[Step, ...], procedure: Procedure) -> tuple[float, float]:
    played = bound(procedure.model_copy(update={"steps": steps}))
    state = start_state(played)
    (circuit,) = played.circuits
    before = state.number(f"litres:{circuit}")
    for step in played.steps:
        for move in step.moves:
            play(state, move, played)
    amounts = [state.number(f"litres:{store}") for store in (circuit, "pan", "can")]
    poured = state.number("poured")
    assert before is not None
    assert poured is not None
    return sum(amount for amount in amounts if amount is not None), before + poured


MOVING = ("drain", "pour", "decant", "remove", "fit", "bleed", "open", "close", "loosen", "measure")


@pytest.mark.parametrize("key", KEYS)
@given(seed=st.permutations(range(20)))
def test_no_litre_comes_from_nowhere_or_is_lost(key: str, seed: list[int]) -> None:
    procedure = apart(library_procedure(key))
    moving = [step for step in procedure.steps if step.action in MOVING]
    steps = tuple(moving[number] for number in seed if number < len(moving))
    total, expected = _total(steps, procedure)
    assert total == pytest.approx(expected)


@cache
def _order(key: str) -> tuple[Procedure, dict[str, frozenset[str]]]:
    procedure = library_procedure(key)
    return procedure, dict(order_of(bound(procedure, undertray=True, raised=True)))


@pytest.mark.parametrize("key", OIL_KEYS)
@given(data=st.data())
def test_swapping_neighbours_that_owe_each_other_nothing_brings_no_finding(key: str, data: st.DataObject) -> None:
    procedure, order = _order(key)
    free = [
        number
        for number, (one, two) in enumerate(zip(procedure.steps, procedure.steps[1:], strict=False))
        if one.id in order and two.id in order and may_swap(order, one.id, two.id) and two.during != one.id and not (one.wait or two.wait)
        and one.place == two.place
    ]  # fmt: skip
    number = data.draw(st.sampled_from(free))
    steps = list(procedure.steps)
    steps[number], steps[number + 1] = steps[number + 1], steps[number]
    swapped = procedure.model_copy(update={"steps": tuple(steps)})
    found = [one for one in new_findings(swapped, undertray=True, raised=True) if one.grade != "advice"]
    assert found == []


@pytest.mark.parametrize("key", KEYS)
def test_a_rehearsal_is_the_same_every_time(key: str) -> None:
    played = bound(library_procedure(key))
    assert rehearse(played) == rehearse(played)
    assert played.choices == bound(library_procedure(key)).choices
    assert isinstance(played.choices, Choices)

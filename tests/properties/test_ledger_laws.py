"""Laws of the ledgers: merging ticks again changes nothing, balances are sums of what holds, the chain stays whole."""

from __future__ import annotations

import dataclasses
import itertools
import random
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.keeping.samples import ALDER, CARD_ID, card, move, tick
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.questions.values import current
from twomarks.keeping.records.shelf import StockMoveRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.corrections import withdraw_row
from twomarks.keeping.services.households import found_household
from twomarks.keeping.services.shelf import record_stock_moves
from twomarks.keeping.services.ticks import record_ticks
from twomarks.keeping.services.vehicles import add_vehicle
from twomarks.keeping.services.workdays import start_workday

WITH_DATABASE = settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], deadline=None)
STEPS = [step.id for step in card().steps]
NAMES = (f"Home {number}" for number in itertools.count())
pytestmark = pytest.mark.django_db


def household() -> Scope:
    return found_household(next(NAMES), "A.")


@WITH_DATABASE
@given(
    marks=st.lists(st.tuples(st.sampled_from(STEPS[:4]), st.sampled_from(("done", "undone"))), min_size=1, max_size=12),
    order=st.randoms(use_true_random=False),
)
def test_ticks_sent_in_pieces_in_any_order_and_again_are_each_kept_once(db: None, marks: list[Any], order: random.Random) -> None:
    scope = household()
    add_vehicle(scope, ALDER, where="alder.toml")
    start_workday(scope, card())
    sent = [tick(number, target, what) for number, (target, what) in enumerate(marks, 1)]
    for _ in range(4):
        piece = order.sample(sent, order.randint(0, len(sent)))
        answer = record_ticks(scope, piece)
        assert answer.kept + answer.known <= len(piece)
    record_ticks(scope, order.sample(sent, len(sent)))
    again = record_ticks(scope, sent)
    assert (again.kept, again.known, again.waiting) == (0, len(sent), {})
    assert [kept.id for kept in questions.ticks(scope, CARD_ID)] == [one.id for one in sent]
    last = dict(marks)
    states = questions.progress(scope, CARD_ID)
    assert all(states[target] == ("done" if what == "done" else "to do") for target, what in last.items())
    assert questions.verify(scope).whole


@WITH_DATABASE
@given(
    doings=st.lists(
        st.tuples(st.sampled_from(("move", "correct", "withdraw")), st.integers(-3000, 3000), st.integers(0, 20)), min_size=1, max_size=15
    )
)
def test_the_stock_is_the_sum_of_what_holds_and_no_more_is_taken_than_there_is(db: None, doings: list[tuple[str, int, int]]) -> None:
    scope = household()
    holds: dict[Any, int] = {}
    for what, amount, which in doings:
        roots = list(holds)
        root = roots[which % len(roots)] if roots else None
        if what == "withdraw" and root is not None:
            withdraw_row(scope, "stock moves", root)
            del holds[root]
        elif what == "correct" and root is not None:
            after = {**holds, root: amount}
            if _written(scope, amount, root, allowed=amount >= 0 or sum(after.values()) >= 0):
                holds = after
        elif _written(scope, amount, None, allowed=amount >= 0 or sum(holds.values()) + amount >= 0):
            holds[current(scope, StockMoveRow).latest("number").root] = amount
    assert questions.stock(scope) == ({"quiet_brook": sum(holds.values())} if holds else {})
    assert questions.verify(scope).whole


def _written(scope: Scope, amount: int, root: Any, *, allowed: bool) -> bool:
    said = dataclasses.replace(move(amount), root=root)
    if allowed:
        record_stock_moves(scope, [said])
        return True
    with pytest.raises(InputError):
        record_stock_moves(scope, [said])
    return False

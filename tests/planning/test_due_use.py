"""The schedule follows from how the owner says the vehicle is driven, and the reason says so."""

from __future__ import annotations

import pytest

from tests.planning.due_ground import ago, one, told
from twomarks.model.service_items import CONDITIONS
from twomarks.planning.due import Done
from twomarks.words import Reader, render

BOTH = 'every = { distance = "12000 km", time = "12 months" }\nhard_use = { distance = "6000 km", time = "6 months" }\n'
DONE = Done(day=ago(30), odometer_km=58_800)


@pytest.mark.parametrize("condition", CONDITIONS)
def test_any_use_that_is_mostly_so_takes_the_shorter_interval(condition: str) -> None:
    due = one(BOTH, DONE, stated={condition: "mostly"})
    assert due.hard_use
    assert due.due_at is not None
    assert due.due_at.value == 64_800
    (reason,) = [message for message in due.reasons if message.key == "due.hard_by_use"]
    assert "mostly" in render(reason, Reader())


def test_the_sheet_states_the_use_and_a_later_answer_comes_before_it() -> None:
    head = '[use]\ntowing = "mostly"\n'
    assert one(BOTH, DONE, head=head).hard_use
    assert not one(BOTH, DONE, head=head, stated={"towing": "seldom"}).hard_use


def test_often_asks_and_changes_nothing() -> None:
    due = one(BOTH, DONE, stated={"dust": "often"})
    assert not due.hard_use
    assert told(due)[0] == "due.use_often"


def test_use_that_nobody_stated_is_said() -> None:
    assert told(one(BOTH, DONE))[0] == "due.use_unstated"
    assert "due.use_unstated" not in told(one(BOTH, DONE, stated={"towing": "seldom"}))


def test_only_the_conditions_that_the_item_names_count() -> None:
    narrowed = BOTH + 'hard_when = ["dust"]\n'
    assert not one(narrowed, DONE, stated={"towing": "mostly"}).hard_use
    assert one(narrowed, DONE, stated={"dust": "mostly"}).hard_use


def test_what_the_item_says_comes_before_the_stated_use() -> None:
    due = one(BOTH + 'use = "normal"\n', DONE, stated={"towing": "mostly"})
    assert (due.hard_use, told(due)[0]) == (False, "due.normal_all_the_same")
    assert one(BOTH + 'use = "hard"\n', DONE).hard_use


def test_no_shorter_interval_is_made_up() -> None:
    plain = 'every = { distance = "12000 km" }\n'
    due = one(plain, DONE, stated={"towing": "mostly"})
    assert not due.hard_use
    assert due.due_at is not None
    assert due.due_at.value == 70_800
    assert told(due)[0] == "due.no_hard_interval"
    assert "due.no_hard_interval" not in told(one('every = { time = "12 months" }\n', DONE, stated={"towing": "mostly"}))

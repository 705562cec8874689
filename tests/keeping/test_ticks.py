"""Ticks: merged by id, taken in each device's order, refused without words where words are needed."""

from __future__ import annotations

import dataclasses
import itertools
from uuid import uuid4

import pytest

from tests.keeping.samples import CARD_ID, card, tick
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import ticks, workdays

STEPS = [step.id for step in card().steps]


@pytest.fixture
def started(scope: Scope) -> Scope:
    workdays.start_workday(scope, card())
    return scope


def test_the_frozen_card_comes_back_as_it_was(started: Scope) -> None:
    assert questions.card(started, CARD_ID) == card()


def test_the_same_card_again_is_the_workday_that_was_started(started: Scope) -> None:
    assert workdays.start_workday(started, card()) == questions.workday(started, CARD_ID)
    assert len(questions.workdays(started)) == 1


def test_a_started_card_never_changes(started: Scope) -> None:
    with pytest.raises(InputError) as refused:
        workdays.start_workday(started, dataclasses.replace(card(), title="another job"))
    assert refused.value.key == "keeping.card_frozen"


@pytest.mark.parametrize("changed", [{"id": "one"}, {"vehicle": "Hazel"}, {"steps": (*card().steps, card().steps[0])}])
def test_a_card_that_cannot_be_told_apart_is_refused(scope: Scope, changed: dict[str, object]) -> None:
    with pytest.raises(InputError):
        workdays.start_workday(scope, dataclasses.replace(card(), **changed))  # type: ignore[arg-type]
    assert questions.workdays(scope) == ()


def test_ticks_are_kept_once_however_often_they_are_sent(started: Scope) -> None:
    sent = [tick(1, STEPS[0]), tick(2, STEPS[1])]
    first = ticks.record_ticks(started, sent)
    assert (first.kept, first.known, first.waiting) == (2, 0, {})
    again = ticks.record_ticks(started, [*sent, tick(3, STEPS[2]), tick(3, STEPS[2])])
    assert (again.kept, again.known) == (1, 3)
    assert [kept.device_sequence for kept in questions.ticks(started, CARD_ID)] == [1, 2, 3]


@pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
def test_the_order_of_arrival_does_not_matter(started: Scope, order: tuple[int, ...]) -> None:
    sent = [tick(1, STEPS[0]), tick(2, STEPS[0], "undone"), tick(3, STEPS[0])]
    ticks.record_ticks(started, [sent[place] for place in order])
    assert questions.progress(started, CARD_ID)[STEPS[0]] == "done"


def test_a_gap_waits_and_names_the_missing_number(started: Scope) -> None:
    sent = [tick(count, STEPS[count]) for count in range(1, 5)]
    answer = ticks.record_ticks(started, [sent[0], sent[2], sent[3]])
    assert (answer.kept, answer.waiting) == (1, {"phone": 2})
    answer = ticks.record_ticks(started, sent)
    assert (answer.kept, answer.known, answer.waiting) == (3, 1, {})
    assert [kept.device_sequence for kept in questions.ticks(started, CARD_ID)] == [1, 2, 3, 4]


def test_each_device_counts_for_itself(started: Scope) -> None:
    ticks.record_ticks(started, [tick(1, STEPS[0])])
    ticks.record_ticks(started, [tick(1, STEPS[0], "undone", device="tablet")])
    assert questions.progress(started, CARD_ID)[STEPS[0]] == "to do"


@pytest.mark.parametrize("what", ["left out", "set aside", "answer", "figure", "differs"])
def test_what_needs_words_is_refused_without(started: Scope, what: str) -> None:
    with pytest.raises(InputError) as refused:
        ticks.record_ticks(started, [tick(1, STEPS[0]), tick(2, STEPS[1], what, words="  ")])
    assert refused.value.key == "keeping.tick_words"
    assert questions.ticks(started, CARD_ID) == ()
    ticks.record_ticks(started, [tick(1, STEPS[0]), tick(2, STEPS[1], what, words="seized")])


@pytest.mark.parametrize(
    ("wrong", "key"),
    [
        (tick(1, "no such step"), "keeping.tick_target"),
        (tick(1, STEPS[0], card=uuid4()), "keeping.card_unknown"),
        (tick(0, STEPS[0]), "keeping.tick_device"),
        (tick(1, STEPS[0], device=""), "keeping.tick_device"),
    ],
)
def test_a_tick_of_nothing_known_is_refused(started: Scope, wrong: object, key: str) -> None:
    with pytest.raises(InputError) as refused:
        ticks.record_ticks(started, [wrong])  # type: ignore[list-item]
    assert refused.value.key == key


def test_an_id_or_a_place_used_twice_for_different_things_is_refused(started: Scope) -> None:
    ticks.record_ticks(started, [tick(1, STEPS[0])])
    with pytest.raises(InputError) as differs:
        ticks.record_ticks(started, [dataclasses.replace(tick(1, STEPS[0]), target=STEPS[1])])
    assert differs.value.key == "keeping.tick_differs"
    with pytest.raises(InputError) as taken:
        ticks.record_ticks(started, [dataclasses.replace(tick(1, STEPS[0]), id=uuid4())])
    assert taken.value.key == "keeping.tick_sequence"


def test_a_workday_is_closed_up_when_nothing_is_left_to_do(started: Scope) -> None:
    targets = list(questions.progress(started, CARD_ID))
    ticks.record_ticks(started, [tick(count, target) for count, target in enumerate(targets[:-1], 1)])
    assert questions.workday(started, CARD_ID).state == "started"
    ticks.record_ticks(started, [tick(len(targets), targets[-1], "left out", words="not fitted here")])
    assert questions.workday(started, CARD_ID).state == "closed up"

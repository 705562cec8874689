"""What is said on the telephone when somebody is hurt, and a card that is set aside."""

from __future__ import annotations

import pytest

from tests.keeping.samples import CARD_ID, card, tick
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.help import settle_help
from twomarks.keeping.services.ticks import record_ticks
from twomarks.keeping.services.workdays import start_workday
from twomarks.planning.help_call import HelpCall


def test_nothing_is_said_where_nothing_was_entered(scope: Scope) -> None:
    assert questions.help_call(scope) == HelpCall()


def test_number_and_address_are_kept_and_changed(scope: Scope) -> None:
    settle_help(scope, number=" 112 ", address="3 Example Lane,\n behind the barn")
    assert questions.help_call(scope) == HelpCall(number="112", address="3 Example Lane, behind the barn")
    settle_help(scope, number="", address="")
    assert questions.help_call(scope) == HelpCall()


@pytest.mark.parametrize("number", ["the neighbour", "112; drop", "+", "1" * 25, "javascript:1"])
def test_a_number_that_no_telephone_dials_is_refused(scope: Scope, number: str) -> None:
    with pytest.raises(InputError) as told:
        settle_help(scope, number=number, address="")
    assert told.value.key == "wrong.help_number"
    assert questions.help_call(scope) == HelpCall()


def test_an_address_longer_than_a_card_holds_is_refused(scope: Scope) -> None:
    with pytest.raises(InputError) as told:
        settle_help(scope, number="112", address="x" * 241)
    assert told.value.key == "wrong.help_address"


def test_a_card_set_aside_says_so_and_loses_no_mark(scope: Scope) -> None:
    start_workday(scope, card())
    first = card().steps[0].id
    record_ticks(scope, [tick(1, first), tick(2, "", "set aside", words="Thread stripped: to be towed.")])
    workday = questions.workday(scope, CARD_ID)
    assert workday.set_aside == "Thread stripped: to be towed."
    assert workday.state == "started"
    assert questions.progress(scope, CARD_ID)[first] == "done"
    assert len(questions.ticks(scope, CARD_ID)) == 2
    record_ticks(scope, [tick(3, "", "undone")])
    assert questions.workday(scope, CARD_ID).set_aside == ""
    assert questions.progress(scope, CARD_ID)[first] == "done"


def test_a_card_is_not_set_aside_without_words(scope: Scope) -> None:
    start_workday(scope, card())
    with pytest.raises(InputError) as told:
        record_ticks(scope, [tick(1, "", "set aside", words="  ")])
    assert told.value.key == "keeping.tick_words"

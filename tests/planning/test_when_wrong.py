"""When it goes wrong, as phone, paper and text show it: a step's own branches, and what is said first."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest

from tests.procedures.mistakes import bound
from tests.sample_card import sample_card
from twomarks.planning.card import JobCard
from twomarks.planning.card_from import job_card
from twomarks.planning.help_call import HelpCall, call_first
from twomarks.planning.when_wrong import all_branches, belonging_to, of_card, of_step
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.rehearsal import rehearse
from twomarks.words import Reader, render


@pytest.fixture(scope="module")
def card() -> JobCard:
    played = bound(library_procedure("engine-oil-spin-on"))
    return job_card(played, rehearse(played), needs_of(played), card_id=uuid.UUID(int=1), day=dt.date(2026, 5, 16))


def at(card: JobCard, name: str) -> tuple[str, ...]:
    return belonging_to(next(step for step in card.steps if step.step == name))


@pytest.mark.parametrize(
    ("step", "branch"),
    [
        ("plug-loose", "plug-will-not-move"),
        ("plug-loose", "head-rounded"),
        ("drain", "daylight-gone"),
        ("plug-tight", "thread-stripped"),
        ("plug-tight", "plug-never-tightens"),
        ("filter-loose", "filter-will-not-move"),
        ("filter-off", "old-rubber-missing"),
        ("seal-new", "metal-or-water-in-oil"),
        ("pour-first", "wrong-fluid-not-started"),
        ("first-start", "lamp-stays-on"),
        ("first-start", "leak-after-start"),
        ("read-after", "overfilled"),
        ("baseline", "level-rises"),
        ("plug-in", "moved-on-stands"),
    ],
)
def test_a_step_leads_to_what_may_go_wrong_at_it(card: JobCard, step: str, branch: str) -> None:
    assert branch in at(card, step)


@pytest.mark.parametrize(
    ("step", "branch"),
    [("plug-loose", "pedal-soft"), ("plug-loose", "coolant-boils"), ("kit", "plug-will-not-move"), ("enter", "moved-on-stands")],
)
def test_a_step_does_not_lead_to_what_cannot_go_wrong_at_it(card: JobCard, step: str, branch: str) -> None:
    assert branch not in at(card, step)


def test_a_card_prints_the_branches_of_its_own_steps(card: JobCard) -> None:
    keys = {one.key for one in of_card(card)}
    assert keys == {key for step in card.steps for key in belonging_to(step)}
    assert "plug-will-not-move" in keys
    assert not keys & {"coolant-does-not-go-in", "pedal-soft", "gear-empty-fill-stuck"}
    assert [one.key for one in of_card(card)] == [one.key for one in all_branches() if one.key in keys]


def test_a_card_that_does_not_say_what_its_steps_concern_gets_every_branch() -> None:
    found = of_card(sample_card())
    assert len(found) == 22
    assert not any(one.hurt for one in found)
    assert of_step(sample_card().steps[0]) == ()


def test_somebody_hurt_comes_first_and_belongs_to_no_step_alone() -> None:
    assert [one.hurt for one in all_branches()] == [True] * 7 + [False] * 22
    assert all(one.rests_on.key == "wrong.sources" for one in all_branches() if one.hurt)


@pytest.mark.parametrize(("market", "number"), [("uk", "999"), ("us", "911"), ("au", "000"), ("metric", "112")])
def test_the_call_is_the_readers_own_country_where_nobody_entered_a_number(market: str, number: str) -> None:
    first, where = (render(one, Reader.of(market)) for one in call_first(HelpCall(), market))
    assert number in first
    assert "We are at" not in where


def test_the_number_and_the_address_that_were_entered_are_said() -> None:
    said = [render(one, Reader.of("uk")) for one in call_first(HelpCall(number="112", address="3 Example Lane, behind the barn"), "uk")]
    assert said == ["Call 112 first.", "We are at: 3 Example Lane, behind the barn"]


def test_every_branch_names_where_it_comes_from() -> None:
    for one in all_branches():
        said = render(one.rests_on, Reader())
        assert said == "Common practice, no source." or said.startswith("From: ")
        assert [len(steps) > 0 for _, steps in one.parts] == [True, True, True]

"""The back of the card: somebody is hurt on a page of its own, and what may go wrong at the card's own steps."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from pypdf import PdfReader

from tests.paper.reading import squeezed, text_of
from tests.sample_card import sample_card
from twomarks.paper.job_card import job_card_pdf
from twomarks.planning.help_call import HelpCall
from twomarks.planning.when_wrong import all_branches
from twomarks.procedures.concerns import Concern
from twomarks.words import Reader, render

CALL = HelpCall(number="112", address="3 Example Lane, behind the barn")


def pages(market: str, call: HelpCall | None = None) -> list[str]:
    made = job_card_pdf(sample_card(), Reader.of(market), call)
    return [squeezed(page.extract_text()) for page in PdfReader(io.BytesIO(made)).pages]


@pytest.mark.parametrize("market", ["metric", "us"])
def test_everything_for_whoever_is_hurt_stands_on_one_page_in_the_readers_paper(market: str) -> None:
    found = [page for page in pages(market, CALL) if "Somebody is hurt" in page and "Call 112 first." in page]
    assert len(found) == 1
    reader = Reader.of(market)
    for branch in all_branches():
        if not branch.hurt:
            continue
        assert branch.title in found[0]
        for words in (*(step.words for step in branch.steps), branch.give_up, *branch.never):
            assert squeezed(render(words, reader)) in found[0]
    assert "We are at: 3 Example Lane, behind the barn" in found[0]


def test_where_nothing_was_entered_the_country_says_whom_to_call_and_a_line_is_left_for_the_place() -> None:
    back = next(page for page in pages("us") if "Call 911 first." in page)
    assert "we are at" in back


def test_the_branches_name_where_they_come_from() -> None:
    text = " ".join(pages("metric"))
    assert "Common practice, no source." in text
    assert "National Poisons Centre of New Zealand" in text


def test_a_card_prints_what_may_go_wrong_at_its_own_steps_alone() -> None:
    card = sample_card()
    steps = tuple(
        replace(step, concerns=(Concern("tighten", "drain", "engine"),) if step.action == "tighten" else ()) for step in card.steps
    )
    text = text_of(job_card_pdf(replace(card, steps=steps), Reader.of("metric")))
    assert "The thread is stripped" in text
    assert "The brake pedal is soft" not in text
    whole = text_of(job_card_pdf(card, Reader.of("metric")))
    assert all(branch.title in whole for branch in all_branches())

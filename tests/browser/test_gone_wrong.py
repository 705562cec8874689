"""When it goes wrong, in the garage: two taps from a step, without a network, spoken, and a card that ends without losing a mark."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import DESK, PHONE
from tests.browser.test_card import all_sent, becomes, kept, mark, ready
from tests.web.household import Household
from twomarks.keeping import questions
from twomarks.keeping.services.help import settle_help

IN_VIEW = """(part) => { const box = part.getBoundingClientRect(); return box.top >= -1 && box.top < innerHeight && box.height > 0; }"""


@pytest.fixture
def card(page: Any, live_server: Any, home: Household) -> Any:
    """The card's page, ready, in a household that entered whom to call and where it is."""
    settle_help(home.scope, number="112", address="3 Example Lane, behind the barn")
    page.goto(f"{live_server.url}/workdays/card/{home.card}/")
    ready(page)
    return page


def number_of(home: Household, action: str) -> int:
    """Return the number of the first step of the card that does `action`."""
    return next(step.number for step in questions.card(home.scope, home.card).steps if step.action == action)


def goes_wrong(page: Any, number: int) -> None:
    page.get_by_role("link", name=f"It goes wrong at step {number}", exact=True).click()


def shown_keys(page: Any, part: str) -> list[str]:
    rows = page.locator(f"[data-wrong-part={part}] [data-branch]")
    return [row.get_attribute("data-branch") for row in rows.all()]


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("view", ["All steps", "One step"])
def test_two_taps_lead_from_a_step_to_its_own_branch(card: Any, home: Household, size: dict[str, int], view: str) -> None:
    card.set_viewport_size(size)
    number = number_of(home, "tighten") if view == "All steps" else 1
    card.get_by_role("button", name=view).click()
    goes_wrong(card, number)
    assert card.locator("#wrong").evaluate(IN_VIEW)
    key = "plug-never-tightens" if view == "All steps" else "moved-on-stands"
    card.locator(f"#branch-{key} > summary").click()
    ends = card.locator(f"#branch-{key} .ends")
    assert ends.is_visible()
    assert "Here the job ends" in ends.inner_text()


@pytest.mark.parametrize("size", [PHONE, DESK], ids=["phone", "desk"])
def test_two_taps_lead_from_a_step_to_whom_to_call(card: Any, home: Household, size: dict[str, int]) -> None:
    card.set_viewport_size(size)
    goes_wrong(card, number_of(home, "drain"))
    card.locator("#wrong").get_by_role("link", name="Somebody is hurt").click()
    call = card.locator("#hurt .call")
    assert call.evaluate(IN_VIEW)
    assert "Call 112 first." in call.inner_text()
    assert "We are at: 3 Example Lane, behind the barn" in call.inner_text()
    assert call.get_by_role("link", name="Call 112").get_attribute("href") == "tel:112"


def test_what_may_go_wrong_at_the_step_stands_first_and_all_else_below(card: Any, home: Household) -> None:
    everything = shown_keys(card, "others")
    assert len(everything) == 22
    number = number_of(home, "tighten")
    goes_wrong(card, number)
    here, others = shown_keys(card, "here"), shown_keys(card, "others")
    assert "thread-stripped" in here
    assert "pedal-soft" in others
    assert sorted(here + others) == sorted(everything)
    assert card.get_by_role("heading", name=f"At step {number}").is_visible()
    goes_wrong(card, number_of(home, "run_engine"))
    assert "lamp-stays-on" in shown_keys(card, "here")
    assert "thread-stripped" not in shown_keys(card, "here")
    card.locator("#wrong").get_by_role("link", name="Back to step").click()
    assert card.locator(f"#step-{number_of(home, 'run_engine')}").evaluate(IN_VIEW)


def test_all_of_it_is_there_without_a_network(card: Any, home: Household) -> None:
    card.wait_for_selector("job-card[data-kept=yes]")
    card.expects_to_be_offline = True
    card.context.set_offline(True)
    card.reload()
    ready(card)
    goes_wrong(card, number_of(home, "tighten"))
    card.locator("#branch-thread-stripped > summary").click()
    assert "Pour nothing" in card.locator("#branch-thread-stripped").inner_text()
    card.locator("#branch-hurt-jet > summary").click()
    assert "At once, always" in card.locator("#branch-hurt-jet").inner_text()
    assert "3 Example Lane" in card.locator("#hurt .call").inner_text()
    card.context.set_offline(False)


def test_a_job_that_ends_is_set_aside_with_words_and_taken_up_again_without_losing_a_mark(card: Any, home: Household) -> None:
    mark(card, 1).click()
    becomes(card, 1, "done")
    goes_wrong(card, number_of(home, "tighten"))
    branch = card.locator("#branch-thread-stripped")
    branch.locator("> summary").click()
    words = branch.get_by_role("textbox")
    words.fill("")
    branch.get_by_role("button", name="Set the card aside").click()
    assert branch.locator(".fault").is_visible()
    words.fill("Thread stripped: to be towed.")
    branch.get_by_role("button", name="Set the card aside").click()
    notice = card.get_by_role("region", name="Set aside")
    notice.wait_for()
    assert "Thread stripped: to be towed." in notice.inner_text()
    all_sent(card)
    assert questions.workday(home.scope, home.card).set_aside == "Thread stripped: to be towed."
    card.reload()
    ready(card)
    assert notice.is_visible()
    becomes(card, 1, "done")
    notice.get_by_role("button", name="Take it up again").click()
    notice.wait_for(state="hidden")
    all_sent(card)
    assert questions.workday(home.scope, home.card).set_aside == ""
    assert [what for _, what, _ in kept(home)] == ["done", "set aside", "undone"]
    becomes(card, 1, "done")


def test_a_card_is_set_aside_without_a_network_too(card: Any, home: Household) -> None:
    card.wait_for_selector("job-card[data-kept=yes]")
    card.expects_to_be_offline = True
    card.context.set_offline(True)
    card.locator("#branch-pedal-soft > summary").click()
    card.locator("#branch-pedal-soft").get_by_role("button", name="Set the card aside").click()
    card.get_by_role("region", name="Set aside").wait_for()
    card.reload()
    ready(card)
    assert card.get_by_role("region", name="Set aside").is_visible()
    card.context.set_offline(False)
    all_sent(card)
    assert questions.workday(home.scope, home.card).set_aside == "The brake pedal is soft: to be towed."


def test_a_branch_is_read_aloud_as_steps_are(card: Any) -> None:
    card.evaluate("() => { window.heard = []; speechSynthesis.speak = (said) => heard.push(said.text); }")
    card.locator("#branch-hurt-burned > summary").click()
    card.locator("#branch-hurt-burned").get_by_role("button", name="Read aloud").click()
    heard = card.evaluate("() => heard.join(' ')")
    assert heard.startswith("Burnt or scalded")
    assert "Cool running water on it" in heard
    assert "No ice" in heard
    assert "Kent" not in heard


def test_the_settings_keep_whom_to_call(page: Any, live_server: Any, home: Household) -> None:
    page.goto(f"{live_server.url}/settings/#help")
    page.get_by_label("Whom to call").fill("999")
    page.get_by_label("Where you are").fill("3 Example Lane")
    page.get_by_role("button", name="Keep these").click()
    assert questions.help_call(home.scope).number == "999"
    page.goto(f"{live_server.url}/workdays/card/{home.card}/")
    assert "3 Example Lane" in page.locator("#hurt .call").inner_text()

"""The job card in the garage: marks, gates, waits, away and back, no network and network again."""

from __future__ import annotations

from typing import Any

import pytest

from tests.web.household import Household
from twomarks.keeping import questions


@pytest.fixture
def card(page: Any, live_server: Any, home: Household) -> Any:
    """The card's page, ready."""
    page.goto(f"{live_server.url}/workdays/card/{home.card}/")
    ready(page)
    return page


def ready(page: Any) -> None:
    page.wait_for_selector("job-card[data-ready=yes]")


def mark(page: Any, number: int) -> Any:
    return page.get_by_role("button", name=f"Done: step {number}", exact=True)


def held(page: Any, button: Any, *, for_ms: int = 900) -> None:
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(for_ms)
    page.mouse.up()


def state(page: Any, number: int) -> str:
    return str(page.locator(f"#step-{number}").get_attribute("data-state"))


def becomes(page: Any, number: int, wanted: str) -> None:
    page.wait_for_selector(f"#step-{number}[data-state={wanted}]")


def all_sent(page: Any) -> None:
    page.wait_for_selector("job-card[data-waiting='0']")


def through(page: Any, gate: str) -> None:
    box = page.locator(f"#gate-{gate}")
    for button in box.get_by_role("button", name="As it should be").all():
        button.click()
    held(page, box.get_by_role("button", name="Hold to go on"))
    page.wait_for_selector(f"#gate-{gate}[data-state=open]")


def kept(home: Household) -> list[tuple[str, str, str]]:
    return [(tick.target, tick.what, tick.words) for tick in questions.ticks(home.scope, home.card)]


def test_a_mark_is_drawn_taken_back_and_survives_a_reload(card: Any, home: Household) -> None:
    mark(card, 1).click()
    becomes(card, 1, "done")
    mark(card, 2).click()
    becomes(card, 2, "done")
    mark(card, 2).click()
    becomes(card, 2, "todo")
    all_sent(card)
    card.reload()
    ready(card)
    assert (state(card, 1), state(card, 2)) == ("done", "todo")
    assert mark(card, 1).get_attribute("aria-pressed") == "true"
    assert [what for _, what, _ in kept(home)] == ["done", "done", "undone"]


def test_marks_made_without_a_network_arrive_once_when_it_is_back(card: Any, home: Household) -> None:
    card.wait_for_selector("job-card[data-kept=yes]")
    card.expects_to_be_offline = True
    card.context.set_offline(True)
    mark(card, 1).click()
    becomes(card, 1, "done")
    mark(card, 2).click()
    becomes(card, 2, "done")
    assert card.locator("job-card").get_attribute("data-waiting") == "2"
    assert kept(home) == []
    card.reload()
    ready(card)
    assert (state(card, 1), state(card, 2)) == ("done", "done")
    card.context.set_offline(False)
    all_sent(card)
    card.reload()
    ready(card)
    all_sent(card)
    assert [what for _, what, _ in kept(home)] == ["done", "done"]


def test_a_lost_answer_does_not_double_a_mark(card: Any, home: Household) -> None:
    card.expects_to_be_offline = True
    lost = []

    def lose_first(route: Any) -> None:
        answer = route.fetch()
        if lost:
            route.fulfill(response=answer)
        else:
            lost.append(answer.status)
            route.abort("internetdisconnected")

    card.route("**/ticks/", lose_first)
    mark(card, 1).click()
    card.wait_for_timeout(300)
    assert lost == [200]
    assert card.locator("job-card").get_attribute("data-waiting") == "1"
    mark(card, 2).click()
    all_sent(card)
    assert len(kept(home)) == 2


def test_two_devices_see_each_others_marks(card: Any, browser: Any, live_server: Any, home: Household) -> None:
    mark(card, 1).click()
    becomes(card, 1, "done")
    all_sent(card)
    other = browser.new_context().new_page()
    other.goto(card.url)
    ready(other)
    assert state(other, 1) == "done"
    other.get_by_role("button", name="Done: step 2", exact=True).click()
    becomes(other, 2, "done")
    all_sent(other)
    other.context.close()
    card.reload()
    ready(card)
    assert (state(card, 1), state(card, 2)) == ("done", "done")


def test_a_gate_holds_what_stands_behind_it_until_every_question_is_answered(card: Any, home: Household) -> None:
    mark(card, 4).click(force=True)
    card.wait_for_timeout(200)
    assert state(card, 4) == "todo"
    gate = card.locator("#gate-g1")
    held(card, gate.get_by_role("button", name="Hold to go on"))
    assert gate.get_attribute("data-state") == "closed"
    gate.get_by_role("button", name="Not yet").first.click()
    gate.get_by_text("Stop here.").first.wait_for()
    through(card, "g1")
    mark(card, 4).click()
    becomes(card, 4, "done")


def test_a_gate_is_asked_again_when_a_step_before_it_is_taken_back(card: Any) -> None:
    mark(card, 2).click()
    becomes(card, 2, "done")
    through(card, "g1")
    mark(card, 2).click()
    card.wait_for_selector("#gate-g1[data-state=closed]")
    assert "step 2 was taken back" in card.locator("#gate-g1").inner_text()


def test_a_step_that_asks_for_a_deliberate_press_does_not_take_a_tap(card: Any) -> None:
    mark(card, 3).click()
    card.wait_for_timeout(200)
    assert state(card, 3) == "todo"
    mark(card, 3).focus()
    card.keyboard.press("Space")
    card.wait_for_timeout(200)
    assert state(card, 3) == "todo"
    held(card, mark(card, 3))
    becomes(card, 3, "done")


def test_a_deliberate_press_by_keyboard_is_enter_twice(card: Any) -> None:
    mark(card, 3).focus()
    card.keyboard.press("Enter")
    card.wait_for_timeout(100)
    assert state(card, 3) == "todo"
    card.keyboard.press("Enter")
    becomes(card, 3, "done")


def test_a_plain_step_takes_the_space_bar(card: Any) -> None:
    mark(card, 1).focus()
    card.keyboard.press("Space")
    becomes(card, 1, "done")


def test_a_step_is_left_out_only_with_a_reason(card: Any, home: Household) -> None:
    card.get_by_role("button", name="Otherwise at step 2", exact=True).click()
    row = card.locator("#step-2")
    row.get_by_role("button", name="Leave step 2 out").click()
    assert row.get_by_text("Found: no words").is_visible()
    assert state(card, 2) == "todo"
    card.fill("#reason-2", "no handbrake fitted")
    row.get_by_role("button", name="Leave step 2 out").click()
    becomes(card, 2, "left")
    assert "Left out: no handbrake fitted" in row.inner_text()
    all_sent(card)
    assert kept(home)[-1][1:] == ("left out", "no handbrake fitted")


def test_mine_differs_is_said_at_its_step(card: Any, home: Household) -> None:
    card.get_by_role("button", name="Otherwise at step 6").click()
    card.fill("#reason-6", "hex 19 mm")
    card.locator("#step-6").get_by_role("button", name="Mine differs").click()
    card.get_by_text("Mine differs: hex 19 mm").wait_for()
    all_sent(card)
    assert kept(home)[-1][1:] == ("differs", "hex 19 mm")


def test_an_empty_box_is_filled_in_where_it_is_seen(card: Any, home: Household) -> None:
    row = card.locator("#step-17")
    row.get_by_label("Fill in as you see it").fill("6 N·m")
    row.get_by_role("button", name="Keep").first.click()
    row.locator(".stub .emptybox", has_text="6 N·m").wait_for()
    all_sent(card)
    assert kept(home)[-1][1:] == ("figure", "fastenings.undertray.torque: 6 N·m")


def test_a_wait_goes_on_over_a_reload(card: Any) -> None:
    row = card.locator("#step-7")
    row.get_by_role("button", name="Start the wait").click()
    card.wait_for_selector("#step-7 [data-running=yes]")
    card.evaluate(
        """() => new Promise((done) => { const open = indexedDB.open('twomarks-card'); open.onsuccess = () => {
          const store = open.result.transaction('timers', 'readwrite').objectStore('timers');
          const all = store.getAll();
          all.onsuccess = () => { const row = all.result[0]; row.started -= 300000; store.put(row).onsuccess = done; }; }; })"""
    )
    card.reload()
    ready(card)
    assert card.locator("#step-7 [data-clock]").inner_text().startswith(("6:5", "7:00"))


def test_who_comes_back_sees_where_they_were(card: Any) -> None:
    mark(card, 1).click()
    held(card, mark(card, 3))
    becomes(card, 3, "done")
    card.reload()
    ready(card)
    where = card.get_by_role("region", name="Where you were")
    assert where.is_visible()
    said = where.inner_text()
    assert "Last done: step 3." in said
    assert "It stands on axle stands." in said
    assert "Not done before it: step 2." in said
    assert "Next: step 2." in said
    box = where.bounding_box()
    assert 0 <= box["y"] < 200
    assert card.locator("#step-2").bounding_box()["y"] == pytest.approx(box["y"] + box["height"], abs=1)


def test_what_is_said_of_where_one_was_is_that_of_the_last_done_step(card: Any) -> None:
    mark(card, 1).click()
    becomes(card, 1, "done")
    card.reload()
    ready(card)
    said = card.get_by_role("region", name="Where you were").inner_text()
    assert "It stands on its wheels." in said
    assert "axle stands" not in said
    assert "Not done before it" not in said


def test_done_steps_fold_to_one_line_and_open_again(card: Any) -> None:
    for number in (1, 2):
        mark(card, number).click()
        becomes(card, number, "done")
    first = card.locator("#step-1")
    assert first.bounding_box()["height"] < 70
    assert card.locator("#step-2").bounding_box()["height"] > 100
    first.get_by_role("button", name="Show step 1", exact=True).click()
    assert first.bounding_box()["height"] > 100
    first.get_by_role("button", name="Fold step 1", exact=True).click()
    assert first.bounding_box()["height"] < 70
    mark(card, 1).click()
    becomes(card, 1, "todo")
    assert first.bounding_box()["height"] > 100


def test_what_is_under_the_finger_stays_there_when_steps_above_it_fold(card: Any) -> None:
    mark(card, 1).click()
    becomes(card, 1, "done")
    card.evaluate("scrollBy(0, document.querySelector('#step-2 .mark').getBoundingClientRect().top - 400)")
    scrolled, height = card.evaluate("[scrollY, document.querySelector('#step-1').offsetHeight]")
    assert scrolled > height
    mark(card, 2).click()
    card.wait_for_selector("#step-1[data-folded]")
    card.wait_for_timeout(100)
    assert mark(card, 2).bounding_box()["y"] == pytest.approx(400, abs=2)


def test_the_cautions_for_the_whole_of_it_stand_above_the_steps(card: Any) -> None:
    cautions = card.get_by_role("region", name="Cautions for the whole of it")
    assert "slips off a jack" in cautions.inner_text()
    assert cautions.bounding_box()["y"] < card.locator("#step-1").bounding_box()["y"]
    for line in card.locator(".gates a").all():
        assert card.locator(line.get_attribute("href").replace("#", "[id='") + "']").count() == 1


def test_one_step_at_a_time_does_not_pass_a_closed_gate(card: Any) -> None:
    card.get_by_role("button", name="One step").click()
    seen = []
    for _ in range(8):
        here = card.locator("[data-here]")
        seen.append(here.get_attribute("id"))
        card.get_by_role("button", name="Next", exact=True).click()
    assert seen[:4] == ["step-1", "step-2", "step-3", "gate-g1"]
    assert set(seen[4:]) == {"gate-g1"}


def test_the_figure_is_the_largest_thing_of_one_step(card: Any) -> None:
    card.get_by_role("button", name="One step").click()
    sizes = card.evaluate(
        "() => [...document.querySelectorAll('[data-here] *')].filter((part) => part.checkVisibility() && part.childNodes.length"
        " && [...part.childNodes].some((one) => one.nodeType === 3 && one.data.trim()))"
        ".map((part) => [parseFloat(getComputedStyle(part).fontSize), part.className])"
    )
    assert max(sizes)[1].startswith("number")
    assert max(sizes)[0] >= 72


def test_two_taps_lead_from_any_step_to_what_to_do_when_somebody_is_hurt(card: Any) -> None:
    card.locator("[data-part=head]").get_by_role("link", name="Somebody is hurt").click()
    assert card.get_by_role("heading", name="Somebody is hurt").is_visible()


def test_a_closed_up_card_leads_to_the_daybook(card: Any, home: Household) -> None:
    steps = questions.card(home.scope, home.card)
    for number in range(1, len(steps.steps) + 1):
        for gate in steps.gates:
            if gate.before == steps.steps[number - 1].id:
                through(card, gate.id)
        button = mark(card, number)
        button.focus()
        card.keyboard.press("Enter")
        if card.locator(f"#step-{number}").get_attribute("data-deliberate") == "yes":
            card.keyboard.press("Enter")
        card.wait_for_selector(f"#step-{number}:not([data-state=todo])")
    through(card, "g6")
    all_sent(card)
    card.get_by_role("link", name="Enter it in the daybook").click()
    assert f"card={home.card}" in card.url
    assert questions.workday(home.scope, home.card).state == "closed up"


def test_a_refused_mark_is_told_and_the_later_ones_still_arrive(card: Any, home: Household) -> None:
    card.evaluate("document.querySelector('job-card').tick('no-such-step', 'done', '')")
    card.locator("[data-part=refused]", has_text="no-such-step").wait_for()
    mark(card, 1).click()
    becomes(card, 1, "done")
    all_sent(card)
    card.wait_for_timeout(200)
    assert [what for _, what, _ in kept(home)] == ["done"]


STATES = """async ([names, ticks]) => {
  const { stateOf } = await import('/static/workdays/state.js');
  const steps = names.map((id, at) => ({ id, number: at + 1, moves: [id.startsWith('read') ? 'measure' : 'pour'] }));
  const state = stateOf(ticks.map(([target, what]) => ({ target, what, words: '' })), steps, []);
  return [...state.steps.values()].map((one) => one.state).join(' ');
}"""


@pytest.mark.parametrize(
    ("steps", "ticks", "states"),
    [
        ("read pour", [("read", "done")], "done todo"),
        ("read pour", [("pour", "done"), ("read", "done")], "done done"),
        ("read pour", [("read", "done"), ("pour", "done")], "void done"),
        ("read pour", [("read", "done"), ("pour", "done"), ("read", "undone"), ("read", "done")], "done done"),
        ("read pour", [("read", "done"), ("pour", "done"), ("pour", "undone")], "done todo"),
        ("read pour read2", [("read", "done"), ("pour", "done")], "done done todo"),
        ("read pour read2", [("read", "done"), ("pour", "done"), ("read2", "done"), ("pour", "done")], "done done void"),
        ("pour read read2", [("pour", "done"), ("read", "done"), ("pour", "undone"), ("pour", "done")], "done void todo"),
    ],
)
def test_a_reading_of_the_level_no_longer_counts_once_oil_was_poured_and_none_is_read_again(
    card: Any, steps: str, ticks: list[tuple[str, str]], states: str
) -> None:
    assert card.evaluate(STATES, [steps.split(), ticks]) == states

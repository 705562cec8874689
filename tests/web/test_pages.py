"""Every page opens, says what it must, and carries nothing inline and nothing from outside."""

from __future__ import annotations

import re

import pytest
from django.test import Client

from tests.web.household import Household
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.web.look.pictures import stick
from twomarks.web.vehicles.facts_shown import groups_of
from twomarks.web.workdays.card_page import pour_lines

PATHS = [
    "/due/",
    "/vehicles/",
    "/vehicles/Alder/",
    "/procedures/",
    "/procedures/engine-oil-spin-on/",
    "/procedures/walk-round/",
    "/workdays/",
    "/workdays/of/Alder/",
    "/shelf/",
    "/daybook/",
    "/daybook/Alder/",
    "/daybook/Alder/enter/",
    "/daybook/Alder/level/",
    "/daybook/Alder/noticed/",
    "/daybook/Alder/odometer/",
    "/start/",
    "/start/Alder/",
    "/settings/",
]
INLINE = re.compile(r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son[a-z]+=|(?:src|href)=\"(?:https?:)?//")


@pytest.mark.parametrize("path", PATHS)
def test_a_page_opens_and_has_nothing_inline(path: str, client: Client, home: Household) -> None:
    answer = client.get(path)
    assert answer.status_code == 200
    assert INLINE.search(answer.content.decode()) is None
    assert "default-src 'self'" in answer["Content-Security-Policy"]


@pytest.mark.parametrize("path", PATHS)
def test_every_id_on_a_page_stands_once(path: str, client: Client, home: Household) -> None:
    ids = re.findall(r'\sid="([^"]+)"', client.get(path).content.decode())
    assert sorted(ids) == sorted(set(ids))


@pytest.mark.parametrize("path", PATHS)
def test_help_stands_beside_every_page(path: str, client: Client, home: Household) -> None:
    assert '<aside class="margin' in client.get(path).content.decode()


def test_the_current_word_is_marked(client: Client, home: Household) -> None:
    assert re.search(r'href="/due/" aria-current="page">Due<', client.get("/due/").content.decode())
    assert re.search(r'href="/daybook/" aria-current="true">Daybook<', client.get("/daybook/Alder/").content.decode())


def test_an_empty_household_opens_on_the_two_questions(client: Client, empty: Scope) -> None:
    answer = client.get("/", follow=True)
    assert answer.redirect_chain[-1][0] == "/start/"
    assert "Two questions" in answer.content.decode()


def test_a_page_that_is_not_there_says_so(client: Client, home: Household) -> None:
    answer = client.get("/nowhere/")
    assert answer.status_code == 404
    assert "Nothing here" in answer.content.decode()


def test_an_unknown_vehicle_is_told_with_the_nearest_name(client: Client, home: Household) -> None:
    answer = client.get("/vehicles/Aldr/")
    assert answer.status_code == 400
    assert "Alder" in answer.content.decode()


def test_the_sheet_says_each_source_and_who_confirmed(client: Client, home: Household) -> None:
    page = client.get("/vehicles/Alder/").content.decode()
    assert "handbook: owner&#x27;s book, p. 216. Confirmed on this vehicle: A., 2026-03-02, book in hand" in page
    assert "told, not confirmed" in page


def test_a_flagged_reading_is_listed_with_its_reason(client: Client, home: Household) -> None:
    page = client.get("/daybook/Alder/").content.decode()
    assert "Left out, and why" in page
    assert "1400" in page


def test_every_window_has_its_row_in_the_table(client: Client, home: Household) -> None:
    page = client.get("/due/").content.decode()
    pictures = page.count('class="picture lying"')
    table = page[page.index("The same as a table</caption>") :]
    table = table[: table.index("</table>")]
    assert pictures == table.count("<tr>") - 1
    assert pictures > 0


def test_an_item_without_a_last_time_is_not_known_with_what_settles_it(client: Client, home: Household) -> None:
    page = client.get("/due/").content.decode()
    assert "Not known" in page
    assert "Brake fluid: when it was last done" in page


def test_a_check_says_on_or_after_its_day_and_at_which_odometer_figure(client: Client, home: Household) -> None:
    client.post("/daybook/Alder/enter/", {"day": "2026-11-25", "odometer": "140900", "title": "Oil", "card": home.card})
    checks = questions.follow_ups(home.scope, still_open=True)
    page = re.sub(r"\s+", " ", client.get("/due/").content.decode())
    assert page.count("on or after ") == len([check for check in checks if check.due_day])
    assert len(checks) > 0
    assert page.count("</span>Alder</a>, on or after ") == page.count("on or after ")
    assert page.count("or at 1") == len([check for check in checks if check.due_odometer_steps])


def test_neighbouring_readings_that_ask_for_the_same_stand_in_one_line(client: Client, home: Household) -> None:
    pour = questions.card(home.scope, home.card).pour
    assert pour
    lines = pour_lines(pour.rows)
    assert [line.amount.value for line in lines if line.take_out] == [-row.add.value for row in pour.rows if row.add.value < 0]  # type: ignore[operator,union-attr]
    assert len({(line.amount, line.take_out, line.note) for line in lines}) == len(lines)


def test_texts_of_one_source_stand_in_one_line_and_parts_are_numbered(client: Client, home: Household) -> None:
    sheet = questions.sheet(home.scope, "Alder")
    first = sheet.circuits["engine_oil"].accepts[0]
    twice = sheet.circuits["engine_oil"].model_copy(update={"accepts": (first, first)})
    oil = groups_of(sheet.model_copy(update={"circuits": {"engine_oil": twice}}))
    names = [line.what for group in oil if group.key == "circuits.engine_oil" for line in group.lines]
    assert [name for name in names if name.startswith("accepts")] == [
        "accepts, grades, 1 of 2",
        "accepts, categories, 1 of 2",
        "accepts, grades, 2 of 2",
        "accepts, categories, 2 of 2",
    ]


def test_a_waste_can_has_the_room_that_readiness_counts_on(client: Client, home: Household) -> None:
    page = client.get("/shelf/").content.decode()
    cans = page[page.index('id="cans"') : page.index('id="tools"')]
    assert re.search(r'<span class="number">5.5</span><small>L</small>', cans)  # 95 % of 10 L, less the 4 L that are in it


def test_open_checks_of_a_vehicle_stand_soonest_first_and_done_ones_after_them(client: Client, home: Household) -> None:
    client.post("/daybook/Alder/enter/", {"day": "2026-11-25", "odometer": "140900", "title": "Oil", "card": home.card})
    first, *others = questions.follow_ups(home.scope, still_open=True)
    client.post(f"/daybook/Alder/check/{first.root}/", {"result": "all dry"})
    page = client.get("/daybook/Alder/").content.decode()
    places = [page.index(f"/daybook/Alder/check/{one.root}/") for one in others]
    assert places == sorted(places)
    assert page.index("all dry") > max(places)


@pytest.mark.parametrize("reading", [-0.3, -0.05, 0.0, 0.1, 0.5, 0.9, 1.0, 1.1])
def test_the_words_of_a_reading_never_stand_on_those_of_a_mark(reading: float) -> None:
    drawn = stick(reading=reading)
    assert drawn.text_at is not None
    assert min(abs(drawn.text_at - mark) for mark in (drawn.upper, drawn.lower)) >= 16
    assert abs(drawn.text_at - (drawn.reading or 0)) <= 18


def test_the_paper_card_is_a_pdf(client: Client, home: Household) -> None:
    answer = client.get(f"/workdays/card/{home.card}/paper/")
    assert answer["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_items_of_general_practice_say_so_where_they_are_due(client: Client, empty: Scope) -> None:
    client.post("/start/", {"kind": "car", "fuel": "petrol", "odometer": "61240"})
    client.post("/start/Car/general/", {"last-done:Car:brake_fluid": "earlier"})
    page = client.get("/due/").content.decode()
    assert "Brake fluid</h2>" in page
    known, unknown = page.split('id="unknown"')
    assert known.count("Common practice, not your handbook.") == known.count('<h2 id="due-') == known.count("Answer it anew")
    assert "Common practice, not your handbook." in unknown
    assert "When was each last done on Car" in unknown


def test_a_home_without_a_household_is_told_in_words(client: Client, db: None) -> None:
    answer = client.get("/due/")
    assert answer.status_code == 400
    assert "no household" in answer.content.decode()

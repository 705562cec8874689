"""Forms keep what was typed, say what was found and what is expected, and keep nothing by halves."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from django.test import Client

from tests.web.household import TODAY, Household
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.households import change_reader
from twomarks.planning.in_engine import label_said
from twomarks.words import Reader, render


def entered(**more: object) -> dict[str, object]:
    return {"day": TODAY.isoformat(), "odometer": "140900", "items": ["engine_oil_and_filter"], "title": "Oil", **more}


def test_two_answers_and_a_label_make_a_vehicle(client: Client, empty: Scope) -> None:
    answer = client.post("/start/", {"kind": "van", "fuel": "diesel", "odometer": "61 240 mi", "label": "5W-30, ACEA C3"}, follow=True)
    page = answer.content.decode()
    assert answer.redirect_chain[-1][0] == "/start/Van/"
    assert "ACEA C3" in page
    assert "Start the walk-round" in page
    assert [round(one.value) for one in questions.readings(empty, "Van")] == [round(61240 * 1.609344)]


def test_a_bare_quantity_needs_no_unit_where_the_field_names_one(client: Client, empty: Scope) -> None:
    client.post("/start/", {"kind": "car", "fuel": "petrol", "odometer": "61240"})
    assert [one.value for one in questions.readings(empty, "Car")] == [61240.0]


@pytest.mark.parametrize(("odometer", "told"), [("", "Found: nothing"), ("many", "does not start with a number"), ("4.3 L", "distance")])
def test_the_first_page_refuses_in_words_and_keeps_what_was_typed(odometer: str, told: str, client: Client, empty: Scope) -> None:
    answer = client.post("/start/", {"kind": "car", "odometer": odometer, "label": "5W-30 from the shed"})
    page = answer.content.decode()
    assert answer.status_code == 400
    assert told in page
    assert "5W-30 from the shed" in page
    assert "Change" in page
    assert questions.vehicles(empty) == ()


def test_an_entry_moves_stock_waste_level_and_the_due_window(client: Client, home: Household) -> None:
    before = {item.item: item.likely for item in questions.due(home.scope, "Alder", TODAY)}
    answer = client.post(
        "/daybook/Alder/enter/",
        entered(product="quiet_brook", volume_in="4.1 L", volume_out="4.0", can="old_oil", level="750", note="dry"),
    )
    assert answer.status_code == 302
    book = questions.daybook(home.scope, "Alder")
    assert (book.entries[0].odometer_steps, book.entries[0].volume_in_ml) == (140_900_000, 4100)
    assert book.level_checks[0].permille == 750
    assert questions.stock(home.scope)["quiet_brook"] == 900
    assert questions.cans(home.scope)["old_oil"] == 8000
    after = {item.item: item.likely for item in questions.due(home.scope, "Alder", TODAY)}
    assert before["engine_oil_and_filter"] < after["engine_oil_and_filter"]  # type: ignore[operator]


def test_an_entry_from_a_card_asks_for_its_follow_ups(client: Client, home: Household) -> None:
    page = client.get(f"/daybook/Alder/enter/?card={home.card}").content.decode()
    assert 'value="Engine oil and filter"' in page
    client.post("/daybook/Alder/enter/", entered(card=home.card, day=TODAY.isoformat()))
    assert len(questions.follow_ups(home.scope, still_open=True)) == len(questions.card(home.scope, home.card).follow_ups)
    assert questions.workday(home.scope, home.card).state == "entered"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"day": (TODAY + dt.timedelta(days=1)).isoformat()}, "a date that has come already"),
        ({"day": "yesterday"}, "yesterday"),
        ({"odometer": "9000"}, "140"),
        ({"volume_in": "4 qt"}, "different amounts in different countries"),
        ({"items": [], "title": ""}, "at least one item"),
    ],
)
def test_an_entry_is_refused_in_words_and_nothing_of_it_is_kept(
    typed: dict[str, object], told: str, client: Client, home: Household
) -> None:
    number = questions.last_number(home.scope)
    answer = client.post("/daybook/Alder/enter/", entered(note="kept as typed", **typed))
    page = answer.content.decode()
    assert answer.status_code == 400
    assert told in page
    assert "kept as typed" in page
    assert questions.last_number(home.scope) == number


def test_more_oil_than_the_shelf_knows_of_is_kept_and_empties_the_shelf(client: Client, home: Household) -> None:
    assert client.post("/daybook/Alder/enter/", entered(volume_in="9 L", product="quiet_brook")).status_code == 302
    assert questions.daybook(home.scope, "Alder").entries[0].volume_in_ml == 9000
    assert questions.stock(home.scope).get("quiet_brook", 0) == 0


def test_a_reading_below_the_last_is_kept_when_the_owner_says_so(client: Client, home: Household) -> None:
    client.post("/daybook/Alder/odometer/", {"day": TODAY.isoformat(), "odometer": "9000"})
    assert len(questions.readings(home.scope, "Alder")) == 51
    client.post("/daybook/Alder/odometer/", {"day": TODAY.isoformat(), "odometer": "9000", "anyway": "on"})
    assert len(questions.readings(home.scope, "Alder")) == 52


def test_a_level_is_kept_in_thousandths(client: Client, home: Household) -> None:
    client.post("/daybook/Alder/level/", {"day": TODAY.isoformat(), "level": "375", "minutes": "10"})
    check = questions.daybook(home.scope, "Alder").level_checks[0]
    assert (check.permille, check.minutes_since_stop, check.circuit) == (375, 10, "engine_oil")


METRIC = {"distance": "km", "volume": "L", "torque": "N.m", "temperature": "C", "pressure": "bar", "length": "mm", "currency": "EUR"}
LIGHT = {"tone": "dark", "sun": "on", "keys": "off"}


def test_units_change_what_is_shown_and_nothing_that_is_kept(client: Client, home: Household) -> None:
    number = questions.last_number(home.scope)
    client.post("/settings/", {"market": "us", **LIGHT, **METRIC})
    page = client.get("/vehicles/Alder/").content.decode()
    assert "lbf·ft" in page
    assert 'data-tone="dark" data-sun="on" data-keys="off"' in page
    assert questions.last_number(home.scope) == number


def test_units_market_and_currency_are_the_persons_and_hold_in_every_browser(client: Client, home: Household) -> None:
    client.post("/settings/", {"market": "us", **LIGHT, **METRIC, "distance": "km", "volume": "imp qt", "currency": " gbp"})
    reader = questions.reader(home.scope)
    assert (reader.market, reader.currency) == ("us", "GBP")
    assert (reader.units["torque"], reader.units["volume"], reader.units["distance"]) == ("lbf.ft", "imp qt", "mi")
    page = Client().get("/vehicles/Alder/").content.decode()
    assert "lbf·ft" in page
    assert 'data-tone="auto" data-sun="off" data-keys="on"' in page
    assert "United States, some your own" in page


def test_a_person_reads_as_they_chose_until_they_choose_anew(client: Client, home: Household) -> None:
    change_reader(home.scope, Reader.of("uk", units={"torque": "kgf.m"}, zone="Europe/London", currency="GBP"))
    page = client.get("/settings/").content.decode()
    assert re.search(r'value="kgf.m"[^>]* checked', page)
    assert 'value="GBP"' in page
    client.post("/settings/", {"market": "uk", **LIGHT, **METRIC, "distance": "mi", "torque": "N.m", "pressure": "psi", "currency": "GBP"})
    reader = questions.reader(home.scope)
    assert (reader.units["torque"], reader.units["distance"], reader.zone) == ("N.m", "mi", "Europe/London")


def test_a_currency_that_is_none_is_refused_in_words(client: Client, home: Household) -> None:
    answer = client.post("/settings/", {"market": "us", **LIGHT, **METRIC, "currency": "euros"})
    assert answer.status_code == 400
    assert "Found: &quot;euros&quot;. Expected: the three letters of a currency" in answer.content.decode()
    assert questions.reader(home.scope).market == "metric"


def test_the_first_answer_says_what_may_top_up_the_oil_and_how_cold_its_grade_is_tested(client: Client, empty: Scope) -> None:
    asked = {"kind": "car", "fuel": "petrol", "odometer": "61240", "label": "5W-30, ACEA C3, approval EX 229-5"}
    page = client.post("/start/", asked, follow=True).content.decode()
    reader = questions.reader(empty)
    label = questions.prepare(empty, "Car", TODAY).in_engine
    assert label
    said = [render(line, reader) for line in label_said(label)]
    assert len(said) == 4
    assert all(line.replace("'", "&#x27;") in page for line in said)
    assert "−30\u00a0°C" in page
    assert "−35\u00a0°C" in page


def test_a_damaged_cookie_counts_as_none(client: Client, home: Household) -> None:
    client.cookies["twomarks-reader"] = "x" * 50
    assert client.get("/due/").status_code == 200


def test_a_flagged_reading_comes_back_on_the_owners_word(client: Client, home: Household) -> None:
    (flag,) = questions.history(home.scope, "Alder", TODAY).flags
    assert client.post(f"/daybook/Alder/confirm/{flag.reading.root}/").status_code == 302
    assert questions.history(home.scope, "Alder", TODAY).flags == ()


def test_a_check_is_closed_with_what_was_seen(client: Client, home: Household) -> None:
    client.post("/daybook/Alder/enter/", entered(card=home.card))
    check = questions.follow_ups(home.scope, still_open=True)[0]
    client.post(f"/daybook/Alder/check/{check.root}/", {"result": "dry"})
    closed = [one for one in questions.follow_ups(home.scope, still_open=False) if one.root == check.root]
    assert [(one.done_on, one.result) for one in closed] == [(TODAY, "dry")]


def test_answers_to_readiness_are_not_asked_again(client: Client, home: Household) -> None:
    page = client.get("/workdays/of/Alder/").content.decode()
    asked = page.count('value="do not know"')
    prepared = questions.prepare(home.scope, "Alder", TODAY)
    assert prepared.job.readiness
    unknown = [one.question for one in prepared.job.readiness.items if one.state == "not known" and one.kind == "tool"]
    client.post("/workdays/of/Alder/answers/", {f"answer:{unknown[0]}": "have", f"answer:{unknown[1]}": "stolen"})
    assert questions.answers(home.scope) == {unknown[0]: "have"}
    assert client.get("/workdays/of/Alder/").content.decode().count('value="do not know"') == asked - 1


def test_starting_twice_opens_the_same_card(client: Client, home: Household) -> None:
    first = client.post("/workdays/of/Alder/start/")
    again = client.post("/workdays/of/Alder/start/")
    assert first["Location"] == again["Location"]
    assert "This very card was started already." in client.get("/workdays/of/Alder/").content.decode()


def test_what_was_last_done_is_kept_by_vehicle(client: Client, empty: Scope) -> None:
    client.post("/start/", {"kind": "car", "fuel": "petrol", "odometer": "61240"})
    page = client.get("/start/Car/").content.decode()
    assert "common practice, not your handbook" in page.lower()
    assert "last-done:Car:brake_fluid" in page
    client.post("/start/Car/general/", {"last-done:Car:brake_fluid": "earlier", "last-done:Van:brake_fluid": "earlier"})
    assert questions.answers(empty) == {"last-done:Car:brake_fluid": "earlier"}

"""What happened, what was seen and measured, how it is driven: kept by one page, shown where it matters."""

from __future__ import annotations

import datetime as dt

import pytest
from django.test import Client

from tests.web.household import SHEET, TODAY, Household
from twomarks.keeping import questions
from twomarks.keeping.services.documents import save_document

MEASURED = """
[items.front_tyres]
name = "front tyres"
event = "waded"
[items.front_tyres.measured]
what = "tread"
places = ["left", "right"]
least = { value = "1.6 mm", source = "told: local rules, invented" }
[items.yearly_test]
name = "yearly test"
by = "2027-03-31"
again = "12 months"
"""
PAGE = "/daybook/Alder/noticed/"


@pytest.fixture
def measuring(home: Household) -> Household:
    """The household, whose sheet says what is measured of the tyres."""
    save_document(home.scope, SHEET + MEASURED, where="alder.toml")
    return home


def test_one_tap_keeps_what_happened_and_opens_what_it_calls_for(client: Client, measuring: Household) -> None:
    answer = client.post(f"{PAGE}event/", {"event": "waded"}, follow=True)
    assert answer.status_code == 200
    assert [one.event for one in questions.vehicle_events(measuring.scope, "Alder")] == ["waded"]
    due = client.get("/due/").content.decode()
    assert "what happened comes first" in due.lower()


def test_what_no_item_answers_is_told_as_common_practice(client: Client, measuring: Household) -> None:
    answer = client.post(f"{PAGE}event/", {"event": "overheated"}, follow=True)
    assert "Common practice" in answer.content.decode()


def test_a_word_that_is_no_event_is_refused(client: Client, measuring: Household) -> None:
    assert client.post(f"{PAGE}event/", {"event": "flown"}).status_code == 400
    assert questions.vehicle_events(measuring.scope, "Alder") == ()


def test_a_snag_stands_above_everything_due_until_an_entry_closes_it(client: Client, home: Household) -> None:
    said = {"snag-what": "brake pulls", "snag-where": "front", "snag-how_bad": "do not drive", "snag-day": TODAY.isoformat()}
    assert client.post(f"{PAGE}snag/", said).status_code == 302
    due = client.get("/due/").content.decode()
    assert due.index("Do not drive.") < due.index("Engine oil and filter")
    assert "brake pulls" in due
    (snag,) = questions.snags(home.scope)
    entry = client.get("/daybook/Alder/enter/").content.decode()
    assert str(snag.root) in entry
    entered = {"day": TODAY.isoformat(), "odometer": "140900", "snags": [str(snag.root)], "minutes": "1.5 h", "cost": "12.40"}
    assert client.post("/daybook/Alder/enter/", entered).status_code == 302
    assert questions.snags(home.scope) == ()
    kept = questions.daybook(home.scope, "Alder").entries[0]
    assert (kept.minutes, kept.cost_minor, kept.currency) == (90, 1240, "EUR")


def test_a_snag_without_words_keeps_the_rest_of_what_was_typed(client: Client, home: Household) -> None:
    said = {"snag-what": " ", "snag-where": "behind the left wheel", "snag-how_bad": "watch", "snag-day": TODAY.isoformat()}
    answer = client.post(f"{PAGE}snag/", said)
    page = answer.content.decode()
    assert answer.status_code == 400
    assert "a few words on what is not right" in page
    assert "behind the left wheel" in page
    assert questions.snags(home.scope) == ()


def test_measured_values_are_kept_place_by_place_and_listed(client: Client, measuring: Household) -> None:
    earlier = (TODAY - dt.timedelta(days=200)).isoformat()
    client.post(f"{PAGE}measured/", {"measured-day": earlier, "measured-value_0": "5.0", "measured-value_1": "5 mm"})
    client.post(f"{PAGE}measured/", {"measured-day": TODAY.isoformat(), "measured-value_0": "4.2 mm", "measured-value_1": ""})
    kept = questions.measurements(measuring.scope, "Alder")
    assert [(one.place, one.value) for one in kept] == [("left", 5.0), ("right", 5.0), ("left", 4.2)]
    page = client.get("/daybook/Alder/").content.decode()
    assert "Tread, left" in page


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({}, "at least one measured value"),
        ({"measured-value_0": "4.2 V"}, "length"),
        ({"measured-value_0": "thin"}, "does not start with a number"),
    ],
)
def test_a_value_that_cannot_be_is_refused_in_words(typed: dict[str, str], told: str, client: Client, measuring: Household) -> None:
    answer = client.post(f"{PAGE}measured/", {"measured-day": TODAY.isoformat(), **typed})
    assert answer.status_code == 400
    assert told in answer.content.decode()
    assert questions.measurements(measuring.scope, "Alder") == ()


def test_how_it_is_driven_is_kept_and_shown_as_chosen(client: Client, home: Household) -> None:
    assert client.post(f"{PAGE}use/", {"use-towing": "mostly", "use-dust": "seldom"}).status_code == 302
    assert questions.stated_use(home.scope, "Alder") == {"towing": "mostly", "dust": "seldom"}
    assert 'value="mostly" id="id_use-towing_0" checked' in client.get(PAGE).content.decode()
    before = questions.last_number(home.scope)
    client.post(f"{PAGE}use/", {"use-towing": "mostly", "use-dust": "seldom"})
    assert questions.last_number(home.scope) == before


def test_a_sheet_that_measures_nothing_has_no_form_for_it(client: Client, home: Household) -> None:
    assert "What you measured" not in client.get(PAGE).content.decode()


def test_the_sheet_shows_every_kind_of_limit(client: Client, measuring: Household) -> None:
    page = " ".join(client.get("/vehicles/Alder/").content.decode().replace("\u00a0", " ").split())
    for told in ("Tread at least 1.6 mm: left, right", "After: waded", "By 31 March 2027, then every 12 months"):
        assert told in page


def test_what_happened_is_known_where_the_work_is_prepared(client: Client, measuring: Household) -> None:
    client.post(f"{PAGE}event/", {"event": "waded"})
    prepared = questions.prepare(measuring.scope, "Alder", TODAY)
    assert prepared.due == questions.due(measuring.scope, "Alder", TODAY)
    assert "event" in {item.binds for item in prepared.due}

"""The card's page when it goes wrong: all of it stands in the page itself; whom to call is entered on the settings page."""

from __future__ import annotations

import re
from uuid import UUID, uuid4

from django.test import Client

from tests.web.household import TODAY, Household
from twomarks.keeping import questions
from twomarks.keeping.services.help import settle_help
from twomarks.keeping.services.ticks import record_ticks
from twomarks.model.ledger import Tick
from twomarks.planning.help_call import HelpCall
from twomarks.planning.when_wrong import all_branches

CHOICES = {
    "market": "metric", "tone": "auto", "sun": "off", "keys": "on", "currency": "EUR",
    "distance": "km", "volume": "L", "torque": "N.m", "temperature": "C", "pressure": "bar", "length": "mm",
}  # fmt: skip


def test_every_branch_stands_in_the_page_so_that_it_is_kept_with_it(client: Client, home: Household) -> None:
    page = client.get(f"/workdays/card/{home.card}/").content.decode()
    assert re.findall(r'data-branch="([^"]+)"', page) == [one.key for one in all_branches()]
    assert page.index('id="hurt"') < page.index('id="wrong"')
    assert "Call 112 or your local emergency number first." in page
    assert 'href="tel:112"' in page


def test_what_was_entered_stands_in_the_page_and_is_dialled(client: Client, home: Household) -> None:
    settle_help(home.scope, number="+44 20 7946 0000", address="3 <b>Example</b> Lane")
    page = client.get(f"/workdays/card/{home.card}/").content.decode()
    assert 'href="tel:+442079460000"' in page
    assert "We are at: 3 &lt;b&gt;Example&lt;/b&gt; Lane" in page


def test_a_step_names_the_branches_that_belong_to_it(client: Client, home: Household) -> None:
    page = client.get(f"/workdays/card/{home.card}/").content.decode()
    number = next(step.number for step in questions.card(home.scope, home.card).steps if step.action == "tighten")
    row = page[page.index(f'id="step-{number}"') :]
    found = re.search(r'data-wrong="([^"]*)"', row)
    assert found
    assert "thread-stripped" in found[1].split()


def test_number_and_address_are_entered_with_the_settings(client: Client, home: Household) -> None:
    answer = client.post("/settings/", {**CHOICES, "help_number": "112", "help_address": "3 Example Lane"})
    assert answer.status_code == 302
    assert questions.help_call(home.scope) == HelpCall(number="112", address="3 Example Lane")
    assert "3 Example Lane" in client.get("/settings/").content.decode()


def test_a_number_that_no_telephone_dials_is_refused_and_what_was_typed_stays(client: Client, home: Household) -> None:
    answer = client.post("/settings/", {**CHOICES, "market": "us", "help_number": "the neighbour", "help_address": "3 Example Lane"})
    page = answer.content.decode()
    assert answer.status_code == 400
    assert "found &quot;the neighbour&quot;" in page
    assert "3 Example Lane" in page
    assert questions.help_call(home.scope) == HelpCall()
    assert questions.reader(home.scope).market == "metric"


def test_the_list_of_workdays_says_why_a_card_was_set_aside(client: Client, home: Household) -> None:
    aside = Tick(
        id=uuid4(), card=UUID(home.card), target="", what="set aside", words="Thread stripped.", device="d", device_sequence=1, day=TODAY
    )
    record_ticks(home.scope, [aside])
    page = client.get("/workdays/").content.decode()
    assert "set aside: Thread stripped." in page

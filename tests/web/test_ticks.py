"""Marks arrive in the device's order, are never doubled, and are refused in words."""

from __future__ import annotations

import json
from typing import Any
from uuid import UUID, uuid4

import pytest
from django.test import Client

from tests.web.household import Household
from twomarks.keeping import questions

DEVICE = "3f2c9d0e-0000-4000-8000-00000000000a"


def tick(home: Household, sequence: int, **more: Any) -> dict[str, Any]:
    steps = questions.card(home.scope, home.card).steps
    return {
        "id": str(uuid4()),
        "card": home.card,
        "target": steps[0].id,
        "what": "done",
        "words": "",
        "device": DEVICE,
        "device_sequence": sequence,
        "day": "2026-11-25",
        "at": "2026-11-25T10:41:00.000Z",
        **more,
    }


def sent(client: Client, home: Household, *ticks: Any) -> Any:
    return client.post(f"/workdays/card/{home.card}/ticks/", json.dumps({"ticks": ticks}), content_type="application/json")


def test_ticks_are_kept_once_however_often_they_are_sent(client: Client, home: Household) -> None:
    marks = [tick(home, 1), tick(home, 2, what="undone")]
    for _ in range(3):
        answer = sent(client, home, *marks)
        assert sorted(answer.json()["kept"]) == sorted(mark["id"] for mark in marks)
    assert [kept.id for kept in questions.ticks(home.scope, home.card)] == [UUID(mark["id"]) for mark in marks]


def test_a_tick_after_a_gap_waits_for_the_missing_one(client: Client, home: Household) -> None:
    first, second = tick(home, 1), tick(home, 2, what="undone")
    assert sent(client, home, second).json() == {"kept": [], "refused": []}
    assert len(sent(client, home, first, second).json()["kept"]) == 2


def test_leaving_out_without_words_is_refused_and_what_came_before_is_kept(client: Client, home: Household) -> None:
    good, bad = tick(home, 1), tick(home, 2, what="left out", words=" ")
    said = sent(client, home, good, bad).json()
    assert said["kept"] == [good["id"]]
    assert [refusal["id"] for refusal in said["refused"]] == [bad["id"]]
    assert said["refused"][0]["words"]


@pytest.mark.parametrize(
    "spoilt",
    [
        {"what": "exploded"},
        {"device_sequence": True},
        {"device_sequence": 2**63},
        {"day": 20261125},
        {"at": 1764067260},
        {"id": "1"},
        {"words": "x" * 501},
        {"device": "phone"},
    ],
)
def test_a_tick_of_another_shape_is_refused(spoilt: dict[str, Any], client: Client, home: Household) -> None:
    answer = sent(client, home, tick(home, 1, **spoilt))
    assert answer.status_code == 400
    assert answer.json()["said"]
    assert questions.ticks(home.scope, home.card) == ()


@pytest.mark.parametrize("body", ["", "[]", "{}", '{"ticks": 3}', '{"ticks": [3]}', "\x00"])
def test_a_body_that_is_no_list_of_ticks_is_refused(body: str, client: Client, home: Household) -> None:
    answer = client.post(f"/workdays/card/{home.card}/ticks/", body, content_type="application/json")
    assert answer.status_code == 400


def test_a_post_without_the_token_is_refused(home: Household) -> None:
    answer = Client(enforce_csrf_checks=True).post(f"/workdays/card/{home.card}/ticks/", "{}", content_type="application/json")
    assert answer.status_code == 403


def test_the_card_shows_the_ticks_that_are_kept(client: Client, home: Household) -> None:
    mark = tick(home, 1)
    sent(client, home, mark)
    assert mark["id"] in client.get(f"/workdays/card/{home.card}/").content.decode()


def test_a_walk_round_starts_from_a_bare_vehicle(client: Client, home: Household) -> None:
    answer = client.post("/workdays/of/Alder/walk/", follow=True)
    assert answer.status_code == 200
    assert "Walk-round" in answer.content.decode()

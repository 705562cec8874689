"""What is measured, what happens, what is noticed and closed, what a workshop asks: kept, refused, and found again."""

from __future__ import annotations

import json

import pytest

from tests.keeping.samples import ALDER_ID, TODAY, answer, entry, event, measurement, quote, snag
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.records.entries import EntryRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import answers, corrections, entries, noticed
from twomarks.words import Reader, message_of, render


def due_item(scope: Scope, key: str):  # type: ignore[no-untyped-def]
    return next(one for one in questions.due(scope, "Alder", TODAY) if one.item == key)


def test_measured_values_make_an_item_due(scope: Scope) -> None:
    assert due_item(scope, "front_pads").state == "not known"
    for day, mm in (("2026-01-10", 8.0), ("2026-11-20", 2.1)):
        noticed.record_measurement(scope, "Alder", measurement(day, mm), today=TODAY)
    due = due_item(scope, "front_pads")
    assert (due.state, due.binds) == ("in the window", "measurement")


@pytest.mark.parametrize(
    ("change", "key"),
    [
        ({"item": "brake_fluid"}, "keeping.not_measured"),
        ({"item": "front_padz"}, "keeping.item_unknown"),
        ({"place": "middle"}, "keeping.place_unknown"),
        ({"kind": "voltage"}, "units.kind"),
    ],
)
def test_a_value_that_belongs_nowhere_is_refused_in_words(scope: Scope, change: dict[str, str], key: str) -> None:
    from dataclasses import replace

    with pytest.raises(InputError) as refused:
        noticed.record_measurement(scope, "Alder", replace(measurement(), **change), today=TODAY)  # type: ignore[arg-type]
    assert refused.value.key == key
    assert "{" not in render(message_of(refused.value), Reader())
    assert questions.measurements(scope, "Alder") == ()


def test_an_event_opens_its_items_and_work_entered_after_it_closes_them(scope: Scope) -> None:
    noticed.record_event(scope, "Alder", event(day="2026-11-24"), today=TODAY)
    assert due_item(scope, "front_pads").binds == "event"
    entries.record_entry(scope, "Alder", entry("2026-11-24", km=None, items=("front_pads",)), today=TODAY)
    assert due_item(scope, "front_pads").bounds == ()
    noticed.record_event(scope, "Alder", event(day="2026-11-24"), today=TODAY)
    assert [message.key for message in due_item(scope, "front_pads").reasons][-1] == "due.event_same_day"


def test_a_snag_is_open_until_an_entry_names_it_and_again_when_that_entry_is_withdrawn(scope: Scope) -> None:
    kept = noticed.record_snag(scope, "Alder", snag(), today=TODAY)
    closing = entries.record_entry(scope, "Alder", entry(km=None, items=(), snags=(kept.root,)), today=TODAY)
    assert questions.snags(scope) == ()
    assert [one.what for one in questions.snags(scope, still_open=False)] == ["knocks over bumps"]
    entries.withdraw_entry(scope, closing.root)
    assert [one.root for one in questions.snags(scope, "Alder")] == [kept.root]


def test_a_snag_that_was_never_so_is_withdrawn(scope: Scope) -> None:
    kept = noticed.record_snag(scope, "Alder", snag(), today=TODAY)
    corrections.withdraw_row(scope, "snags", kept.root)
    assert questions.snags(scope, still_open=False) == ()


def test_the_worst_snag_comes_first(scope: Scope) -> None:
    for what, how_bad in (("wiper smears", "watch"), ("brake pulls", "do not drive"), ("knocks", "next workday")):
        noticed.record_snag(scope, "Alder", snag(what, how_bad), today=TODAY)
    assert [one.what for one in questions.snags(scope)] == ["brake pulls", "knocks", "wiper smears"]


def test_empty_words_and_unknown_degrees_are_refused(scope: Scope) -> None:
    for bad in (snag("  "), snag(how_bad="dreadful")):
        with pytest.raises(InputError):
            noticed.record_snag(scope, "Alder", bad, today=TODAY)
    with pytest.raises(InputError):
        noticed.record_event(scope, "Alder", event(" "), today=TODAY)


def test_the_latest_quote_holds(scope: Scope) -> None:
    noticed.record_quote(scope, "Alder", quote(15_000, day="2026-01-01"), today=TODAY)
    noticed.record_quote(scope, "Alder", quote(18_900), today=TODAY)
    assert questions.quotes(scope, "Alder")["engine_oil_and_filter"].amount_minor == 18_900
    with pytest.raises(InputError):
        noticed.record_quote(scope, "Alder", quote(0), today=TODAY)


def test_the_stated_use_is_the_latest_answer_to_each_question(scope: Scope) -> None:
    asked = f"use:{ALDER_ID}:towing"
    answers.record_answers(scope, [answer("seldom", asked)], today=TODAY)
    answers.record_answers(scope, [answer("mostly", asked)], today=TODAY)
    assert questions.stated_use(scope, "Alder") == {"towing": "mostly"}


def test_a_text_without_the_later_fields_is_written_as_it_always_was(scope: Scope) -> None:
    kept = noticed.record_snag(scope, "Alder", snag(), today=TODAY)
    plain = entries.record_entry(scope, "Alder", entry(km=None), today=TODAY)
    told = entries.record_entry(scope, "Alder", entry(km=None, minutes=50, snags=(kept.root,)), today=TODAY)
    texts = {row.root: json.loads(row.payload)["event"] for row in EntryRow.objects.filter(household=scope.household)}
    assert {"minutes", "snags"} & set(texts[plain.root]) == set()
    assert texts[told.root]["minutes"] == 50
    assert texts[told.root]["snags"] == [str(kept.root)]
    assert questions.verify(scope).whole

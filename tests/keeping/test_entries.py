"""The daybook entry with all that comes with it: all or nothing, corrected and withdrawn as a whole."""

from __future__ import annotations

import datetime as dt
from uuid import uuid4

import pytest

from tests.keeping.samples import ALDER, ALDER_ID, CARD_ID, TODAY, card, check, entry, move, reading, waste
from twomarks.errors import InputError
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import entries, follow_ups, readings, shelf, workdays
from twomarks.keeping.services.documents import save_document
from twomarks.planning.card import CardFollowUp
from twomarks.words import Reader, Wording, message_of, render


def whole_entry(scope: Scope, **changed: object) -> object:
    said: dict[str, object] = {
        "stock_out": [move(-4000, day="2026-11-21")],
        "waste_in": [waste(4200, day="2026-11-21")],
        "level": check("2026-11-21", 950),
        "follow_ups": [CardFollowUp(id="next_morning", words=Wording("look under the car"), after_days=1, after_km=500)],
        "today": TODAY,
    }
    return entries.record_entry(scope, "Alder", **{"entry": entry(), **said, **changed})  # type: ignore[arg-type]


def test_an_entry_brings_its_reading_stock_waste_level_and_follow_up(scope: Scope) -> None:
    shelf.record_stock_moves(scope, [move(5000)])
    kept = whole_entry(scope)
    book = questions.daybook(scope, "Alder")
    assert [done.root for done in book.entries] == [kept.root]  # type: ignore[attr-defined]
    assert [row.value for row in questions.readings(scope, "Alder")] == [120_000]
    assert questions.stock(scope) == {"quiet_brook": 1000}
    assert questions.cans(scope) == {"red_can": 4200}
    assert [seen.permille for seen in book.level_checks] == [950]
    (asked,) = book.follow_ups
    assert (asked.due_day, asked.due_odometer_steps, asked.done_on) == (dt.date(2026, 11, 22), 120_500_000, None)
    assert kept.chain  # type: ignore[attr-defined]
    assert questions.verify(scope).whole


def test_the_entry_makes_the_item_done(scope: Scope) -> None:
    whole_entry(scope, stock_out=[])
    done = questions.done(scope, "Alder")
    assert (done["engine_oil_and_filter"].day, done["engine_oil_and_filter"].odometer_km) == (dt.date(2026, 11, 21), 120_000)
    assert done["engine_oil_and_filter"].about is None


def test_an_entry_known_only_about_keeps_its_range(scope: Scope) -> None:
    about = entry("2025-07-02", None, day_from=dt.date(2025, 1, 1), day_to=dt.date(2025, 12, 31))
    entries.record_entry(scope, "Alder", about, today=TODAY)
    assert questions.done(scope, "Alder")["engine_oil_and_filter"].about == (dt.date(2025, 1, 1), dt.date(2025, 12, 31))


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"entry": entry("2026-11-26")}, "keeping.day_to_come"),
        ({"entry": entry(km=90_000)}, "keeping.reading_below"),
        ({"entry": entry(items=("engine_oil",))}, "keeping.item_unknown"),
        ({"entry": entry(card=uuid4())}, "keeping.card_unknown"),
        ({"entry": entry(root=uuid4())}, "keeping.row_unknown"),
        ({"stock_out": [move(-9000)]}, "keeping.below_nothing"),
        ({"stock_out": [move(-1, unit="piece")]}, "keeping.unit_changed"),
        ({"level": check("2026-12-24")}, "keeping.day_to_come"),
    ],
)
def test_a_fault_anywhere_keeps_nothing(scope: Scope, changed: dict[str, object], key: str) -> None:
    shelf.record_stock_moves(scope, [move(5000)])
    readings.record_reading(scope, "Alder", reading("2026-10-01", 118_000), today=TODAY)
    before = questions.last_number(scope)
    with pytest.raises(InputError) as refused:
        whole_entry(scope, **changed)
    assert refused.value.key == key
    assert questions.last_number(scope) == before
    assert questions.daybook(scope, "Alder").entries == ()
    assert questions.stock(scope) == {"quiet_brook": 5000}
    assert questions.cans(scope) == {}


def test_what_is_not_on_the_shelf_is_told_in_the_readers_units(scope: Scope) -> None:
    shelf.record_stock_moves(scope, [move(5000)])
    with pytest.raises(InputError) as refused:
        shelf.record_stock_moves(scope, [move(-9000)])
    text = render(message_of(refused.value), Reader.of("us"))
    assert "9.51\u00a0US qt" in text
    assert "5.28\u00a0US qt" in text


def test_an_item_that_is_misspelt_is_told_with_the_nearest(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        whole_entry(scope, entry=entry(items=("engine_oil_and_filtr",)), stock_out=[])
    assert refused.value.values["nearest"] == "engine_oil_and_filter"


def test_an_unknown_vehicle_keeps_nothing(scope: Scope) -> None:
    with pytest.raises(InputError) as refused:
        entries.record_entry(scope, "Hazel", entry(), today=TODAY)
    assert refused.value.key == "keeping.vehicle_unknown"


def test_a_corrected_entry_replaces_all_that_came_with_it(scope: Scope) -> None:
    shelf.record_stock_moves(scope, [move(5000)])
    first = whole_entry(scope)
    root = first.root  # type: ignore[attr-defined]
    whole_entry(scope, entry=entry(km=119_500, root=root), stock_out=[move(-4500, day="2026-11-21")])
    assert [row.value for row in questions.readings(scope, "Alder")] == [119_500]
    assert questions.stock(scope) == {"quiet_brook": 500}
    assert questions.cans(scope) == {"red_can": 4200}
    book = questions.daybook(scope, "Alder")
    assert [(done.root, done.odometer_steps) for done in book.entries] == [(root, 119_500_000)]
    assert len(book.follow_ups) == len(book.level_checks) == 1
    assert questions.verify(scope).whole


def test_a_withdrawn_entry_takes_back_all_that_came_with_it(scope: Scope) -> None:
    shelf.record_stock_moves(scope, [move(5000)])
    kept = whole_entry(scope)
    entries.withdraw_entry(scope, kept.root)  # type: ignore[attr-defined]
    book = questions.daybook(scope, "Alder")
    assert (book.entries, book.level_checks, book.follow_ups) == ((), (), ())
    assert questions.readings(scope, "Alder") == ()
    assert questions.stock(scope) == {"quiet_brook": 5000}
    assert questions.done(scope, "Alder") == {}
    assert questions.verify(scope).whole


def test_follow_ups_are_listed_open_until_they_are_done(scope: Scope) -> None:
    whole_entry(scope, stock_out=[])
    (asked,) = questions.follow_ups(scope, still_open=True)
    assert asked.root is not None
    follow_ups.close_follow_up(scope, asked.root, day=dt.date(2026, 11, 22), result="dry", today=TODAY)
    assert questions.follow_ups(scope, "Alder", still_open=True) == ()
    (closed,) = questions.follow_ups(scope, "Alder", still_open=False)
    assert (closed.done_on, closed.result, closed.words) == (dt.date(2026, 11, 22), "dry", Wording("look under the car"))
    with pytest.raises(InputError) as refused:
        follow_ups.close_follow_up(scope, asked.root, day=dt.date(2026, 12, 22), today=TODAY)
    assert refused.value.key == "keeping.day_to_come"


def test_a_follow_up_of_the_card_is_asked_by_its_id(scope: Scope) -> None:
    workdays.start_workday(scope, card())
    on_card = card().follow_ups[0]
    done = entry(card=CARD_ID, follow_ups=(on_card.id, "hear whether it rattles"))
    entries.record_entry(scope, "Alder", done, today=TODAY)
    words = [asked.words for asked in questions.follow_ups(scope)]
    assert on_card.words in words
    assert Wording("hear whether it rattles") in words
    assert questions.workday(scope, CARD_ID).state == "entered"


def test_a_card_is_entered_once_and_its_entry_corrected(scope: Scope) -> None:
    workdays.start_workday(scope, card())
    kept = entries.record_entry(scope, "Alder", entry(card=CARD_ID), today=TODAY)
    before = questions.last_number(scope)
    with pytest.raises(InputError) as refused:
        entries.record_entry(scope, "Alder", entry(card=CARD_ID), today=TODAY)
    assert (refused.value.key, refused.value.values["number"]) == ("keeping.card_entered", kept.number)
    assert questions.last_number(scope) == before
    entries.record_entry(scope, "Alder", entry(km=120_100, card=CARD_ID, root=kept.root), today=TODAY)
    entries.withdraw_entry(scope, kept.root)
    entries.record_entry(scope, "Alder", entry(card=CARD_ID), today=TODAY)


def test_a_card_of_another_vehicle_is_refused(scope: Scope) -> None:
    save_document(scope, ALDER.replace("Alder", "Beech").replace(str(ALDER_ID), str(uuid4())), where="beech.toml")
    workdays.start_workday(scope, card())
    with pytest.raises(InputError) as refused:
        entries.record_entry(scope, "Beech", entry(card=CARD_ID), today=TODAY)
    assert (refused.value.key, refused.value.values["expected"]) == ("keeping.card_of_another", "Alder")


def test_a_card_names_every_text_that_it_was_bound_from(scope: Scope) -> None:
    prepared = questions.prepare(scope, "Alder", TODAY).job.card
    assert {one.kind for one in prepared.revisions} == {"vehicle", "shelf", "procedure"}
    held = {one.sha256 for kind in ("vehicle", "shelf") for one in questions.documents(scope, kind)}
    assert {one.sha256 for one in prepared.revisions if one.kind != "procedure"} == held


def test_the_oil_filled_last_is_the_one_in_the_engine_whatever_went_elsewhere(scope: Scope) -> None:
    oil = {"engine_oil_and_filter"}
    assert questions.filled_with(scope, "Alder", oil) == ""
    entries.record_entry(scope, "Alder", entry(product="Quiet Brook (SAE 5W-30, ACEA C3)", volume_in_ml=4000), today=TODAY)
    later = entry(day="2026-11-22", km=120_100, items=("brake_fluid",), product="Stopper (DOT 4)", volume_in_ml=500)
    entries.record_entry(scope, "Alder", later, today=TODAY)
    assert questions.filled_with(scope, "Alder", oil) == "SAE 5W-30, ACEA C3"

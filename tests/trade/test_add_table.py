"""What to add or take out for a reading, and what the table says of itself."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError
from twomarks.trade.add_table import add_table
from twomarks.words import Message, Reader, render


def test_the_table_for_a_litre_between_the_marks():
    rows = {row.reading_fraction: row for row in add_table(between_marks_l=1.0, steps=4)}
    assert {reading: row.add_l for reading, row in rows.items()} == {
        0.0: 0.5,
        0.25: 0.5,
        0.5: 0.4,
        0.75: 0.15,
        1.0: 0.0,
        1.25: -0.35,
        1.5: -0.6,
        1.75: -0.85,
    }
    assert rows[0.0].then == "read again"
    assert rows[0.75].then == "done"
    assert [reading for reading, row in rows.items() if not row.start] == [1.5, 1.75]


@pytest.mark.parametrize("span_l", [0.06, 0.08, 0.2])
def test_a_small_span_is_filled_by_halves_too(span_l: float):
    first = add_table(between_marks_l=span_l)[0]
    assert 0.0 < first.add_l <= 0.5 * span_l


@pytest.mark.parametrize(
    "wrong",
    [
        {"target": 0.0},
        {"target": float("nan")},
        {"target": 1.2},
        {"steps": 1},
        {"upper": 0.9},
        {"no_start_from": 0.5},
        {"lower_zone": 1.0},
        {"settle_min": 0.0},
        {"between_marks_l": -1.0},
    ],
)
def test_a_table_that_cannot_be_is_refused(wrong: dict):
    with pytest.raises(InputError):
        add_table(**{"between_marks_l": 1.0, **wrong})


def test_each_table_names_the_reading_it_is_valid_for():
    before = add_table(between_marks_l=1.0, when="before the start", settle_min=5.0)
    after = add_table(between_marks_l=1.0, warm=True)
    assert said(before.valid_for) == (
        "The table before the start holds for a reading before the first run, 5 min after pouring, cold, on level ground."
    )
    assert "10 min (common practice, not your handbook) after the stop, with the oil warm, on level ground" in said(after.valid_for)
    assert "oil cold" in said(add_table(between_marks_l=1.0, warm=False).valid_for)
    assert "warm or cold as the handbook says" in said(add_table(between_marks_l=1.0).valid_for)


def test_a_default_span_says_so_and_does_not_overfill_a_shorter_stick():
    table = add_table(between_marks_l=None)
    assert "1 L between the marks, which is a default (common practice" in said(table.notes[0])
    for row in table:
        if row.reading_fraction <= 1.0:
            assert row.reading_fraction + max(row.add_l, 0.0) / 0.7 <= max(1.0, row.reading_fraction) + 1e-9
    assert "default" not in said(add_table(between_marks_l=1.0).notes[0])


def test_from_where_the_engine_must_not_start_is_the_makers_or_a_default_that_says_so():
    default, makers = add_table(between_marks_l=1.0), add_table(between_marks_l=1.0, no_start_from=1.25)
    assert next(row.reading_fraction for row in makers if not row.start) == 1.25
    assert "a default (common practice)" in " ".join(map(said, default.notes))
    assert "(the maker's limit)" in " ".join(map(said, makers.notes))


def test_above_the_upper_mark_it_says_how_oil_is_taken_out():
    assert "hand pump" in " ".join(map(said, add_table(between_marks_l=1.0).notes))


def test_where_room_is_kept_for_fuel_the_table_aims_at_the_lower_zone():
    table = add_table(between_marks_l=1.2, lower_zone=0.5, steps=4)
    assert [(row.reading_fraction, row.add_l) for row in table if row.reading_fraction <= 1.0] == [
        (0.0, 0.6),
        (0.25, 0.3),
        (0.5, 0.0),
        (0.75, 0.0),
        (1.0, 0.0),
    ]
    assert "it is changed" in " ".join(map(said, table.notes))


def said(message: Message) -> str:
    return render(message, Reader()).replace("\u00a0", " ")

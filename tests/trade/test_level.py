"""The pour plan: neither overfilled nor started short, and no capacity made up."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.level import add_table, first_pour, pour_without_capacity, sigma_of_source
from twomarks.words import Reader, render


def plan(kind: str, **more):
    arguments = {"refill_l": 4.3, "between_marks_l": 1.1, "refill_sigma_l": sigma_of_source(kind, volume_l=4.3), **more}
    return first_pour(**arguments)


@pytest.mark.parametrize("kind", ["handbook", "stamped", "measured"])
def test_a_figure_from_the_book_allows_one_pour(kind: str):
    found = plan(kind)
    assert found.kind == "one pour"
    assert found.first_l == pytest.approx(3.75)
    assert not found.needs_reading_before_start


@pytest.mark.parametrize("kind", ["told", "memory", "practice"])
def test_a_figure_from_memory_needs_two_pours_and_a_reading_before_the_start(kind: str):
    found = plan(kind)
    assert found.kind == "two pours"
    assert found.needs_reading_before_start
    assert found.least_l > found.most_l
    assert found.first_l <= found.most_l
    assert found.pours[1].volume_l is None
    assert [reason.key for reason in found.reasons] == ["level.no_single_pour", "level.stands_high", "level.read_before_start"]


def test_the_reading_before_the_start_allows_for_the_filter():
    found = plan("memory", filter_l=0.3)
    assert "level.stands_high_by" in [reason.key for reason in found.reasons]
    for row in found.before_start:
        if row.start and row.add_l == 0.0:
            assert row.reading_fraction * 1.1 - 0.3 >= -1e-9
        assert row.reading_fraction * 1.1 + max(row.add_l, 0.0) - 0.3 <= max(1.1, row.reading_fraction * 1.1 - 0.3) + 1e-9
    assert not found.before_start[0].start


def test_an_unknown_span_needs_a_reading_before_the_start():
    found = plan("handbook", between_marks_l=None)
    assert found.kind == "two pours"
    assert found.after_run == ()
    assert found.least_l is None


def test_an_uncertain_span_narrows_the_room_below():
    assert plan("handbook", between_marks_sigma_l=0.2).least_l > plan("handbook").least_l


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


@pytest.mark.parametrize("wrong", [{"target": 0.0}, {"target": 1.2}, {"steps": 1}])
def test_a_table_that_aims_beyond_its_marks_is_refused(wrong: dict):
    with pytest.raises(OutOfRangeError):
        add_table(between_marks_l=1.0, **wrong)


def test_what_was_measured_out_less_half_a_span_is_poured():
    found = pour_without_capacity(measured_out_l=5.2, between_marks_l=1.1)
    assert found.first_l == pytest.approx(4.65)
    assert found.needs_reading_before_start


@pytest.mark.parametrize("arguments", [{"measured_out_l": None, "between_marks_l": 1.1}, {"measured_out_l": 5.2, "between_marks_l": None}])
def test_without_a_measure_the_stick_decides(arguments: dict):
    found = pour_without_capacity(**arguments)
    assert found.first_l is None
    assert found.pours[0].what.key == "level.pour_step_by_step"


def test_a_capacity_less_certain_than_itself_falls_back_to_the_stick():
    found = first_pour(refill_l=0.5, between_marks_l=0.3, refill_sigma_l=0.4)
    assert found.kind == "by the stick"
    assert found.first_l is None


@pytest.mark.parametrize(
    "wrong",
    [
        {"refill_l": 0.0},
        {"refill_l": float("nan")},
        {"between_marks_l": 4.3},
        {"between_marks_l": -1.0},
        {"refill_sigma_l": -0.1},
        {"p_over": 0.0},
        {"p_short": 0.5},
    ],
)
def test_nonsense_is_refused(wrong: dict):
    with pytest.raises(OutOfRangeError):
        plan("handbook", **wrong)


def test_an_unknown_source_is_refused():
    with pytest.raises(InputError):
        sigma_of_source("hearsay", volume_l=4.3)


def test_every_message_renders():
    plans = [plan("handbook", filter_l=0.3), plan("memory", filter_l=0.0), plan("handbook", between_marks_l=None)]
    plans += [pour_without_capacity(measured_out_l=5.2, between_marks_l=1.1), pour_without_capacity(between_marks_l=None)]
    for found in plans:
        for message in (*found.reasons, *(pour.what for pour in found.pours)):
            assert "{" not in render(message, Reader())
            assert "?" not in render(message, Reader())

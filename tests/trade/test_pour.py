"""The pour plan: neither overfilled nor started short, and no capacity made up."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.add_table import StickFacts
from twomarks.trade.fills import refill_for
from twomarks.trade.pour import first_pour, pour_without_capacity
from twomarks.trade.source_spread import sigma_of_source
from twomarks.words import Reader, message_of, render


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
    assert [reason.key for reason in found.reasons] == [
        "level.no_single_pour",
        "level.stands_high",
        "level.read_before_start",
        "level.valid_before_run",
        "level.valid_after_run",
        "level.no_start_default",
        "level.take_out_how",
    ]


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


def test_what_was_measured_out_less_half_a_span_is_poured():
    found = pour_without_capacity(measured_out_l=5.2, between_marks_l=1.1)
    assert found.first_l == pytest.approx(4.65)
    assert found.needs_reading_before_start


@pytest.mark.parametrize("arguments", [{"measured_out_l": None, "between_marks_l": 1.1}, {"measured_out_l": 5.2, "between_marks_l": None}])
def test_without_a_measure_the_stick_decides(arguments: dict):
    found = pour_without_capacity(**arguments)
    assert found.first_l is None
    assert found.pours[0].what.key == "level.pour_step_by_step"


def test_what_was_measured_out_says_what_it_lacks_without_a_span():
    found = pour_without_capacity(measured_out_l=5.2, between_marks_l=None)
    assert "level.measured_needs_span" in [reason.key for reason in found.reasons]


@pytest.mark.parametrize(("filter_l", "key"), [(None, "stands_high"), (0.3, "stands_high_by"), (0.0, "same_filter")])
def test_without_a_capacity_the_filter_counts_all_the_same(filter_l: float | None, key: str):
    found = pour_without_capacity(measured_out_l=5.2, between_marks_l=1.1, filter_l=filter_l)
    assert f"level.{key}" in [reason.key for reason in found.reasons]


def test_a_filter_that_takes_less_than_nothing_is_refused():
    with pytest.raises(OutOfRangeError):
        pour_without_capacity(between_marks_l=1.1, filter_l=-0.1)


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


def test_an_uncertain_filter_narrows_the_room_on_both_sides():
    sure, unsure = plan("handbook", filter_l=0.3, filter_sigma_l=0.0), plan("handbook", filter_l=0.3, filter_sigma_l=0.2)
    assert unsure.least_l > sure.least_l
    assert unsure.most_l < sure.most_l


def test_the_makers_reading_reaches_both_tables():
    facts = StickFacts(settle_min=4.0, warm=True, lower_zone=0.6, no_start_from=1.2)
    found = plan("memory", filter_l=0.22, stick=facts)
    assert found.after_table.no_start_from == 1.2
    assert found.before_table.no_start_from == pytest.approx(1.4)
    assert found.after_table.valid_for.key == "level.valid_after_run_warm"
    assert all(row.add_l <= 0.0 for row in found.after_run if row.reading_fraction >= 0.6)


@pytest.mark.parametrize(
    ("job", "expected"),
    [({"filter_is_new": True}, 4.3), ({"filter_is_new": False}, 4.0), ({"filter_is_new": True, "engine_is_dry": True}, 4.9)],
)
def test_each_job_has_its_own_fill(job: dict, expected: float):
    assert refill_for(with_filter_l=4.3, without_filter_l=4.0, dry_l=4.9, **job) == expected


@pytest.mark.parametrize(
    ("given", "key"),
    [
        ({"filter_is_new": True, "without_filter_l": 4.0}, "level.fill_kind"),
        ({"filter_is_new": False, "with_filter_l": 4.3}, "level.fill_kind"),
        ({"filter_is_new": True, "dry_l": 4.9}, "level.fill_kind"),
        ({"filter_is_new": True}, "level.fill_kind"),
        ({"filter_is_new": True, "with_filter_l": 4.3, "without_filter_l": 4.6}, "level.fill_order"),
        ({"filter_is_new": True, "with_filter_l": 4.3, "dry_l": 4.1}, "level.fill_order"),
    ],
)
def test_mixed_up_fills_are_an_error(given: dict, key: str):
    with pytest.raises(InputError) as refused:
        refill_for(**given)
    assert refused.value.key == key
    assert "{" not in render(message_of(refused.value), Reader())


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

"""A reading on the stick: how it may be typed, and that nothing told to do overfills."""

from __future__ import annotations

import datetime as dt

import pytest

from twomarks.cli.stick import StickReading, advice, rise_since, stick_reading
from twomarks.errors import InputError
from twomarks.keeping.values import Daybook
from twomarks.model.ledger import Entry, LevelCheck, TopUp
from twomarks.trade.add_table import add_table
from twomarks.words import Figure

SPAN_L = 1.1
SPAN = Figure(SPAN_L, "L")
ROWS = add_table(between_marks_l=SPAN_L).rows
DAY = dt.date(2026, 11, 20)


@pytest.mark.parametrize(
    ("typed", "permille"),
    [("1/2", 500), ("0", 0), ("1", 1000), ("7/8", 875), ("0.333", 333), ("1 1/4", 1250), ("½", 500), ("-0.25", -250), ("120%", 1200)],
)
def test_a_reading_is_read(typed: str, permille: int) -> None:
    assert stick_reading(typed, decimal=".").permille == permille


def test_the_readers_own_decimal_mark_is_read() -> None:
    assert stick_reading("0,5", decimal=",").permille == 500


@pytest.mark.parametrize("typed", ["", "full", "3.5", "-2", "50 mm", "1/0"])
def test_what_is_no_place_on_the_stick_is_refused(typed: str) -> None:
    with pytest.raises(InputError):
        stick_reading(typed, decimal=".")


@pytest.mark.parametrize("permille", range(-200, 2001, 13))
def test_what_is_added_never_passes_the_upper_mark_and_what_is_taken_out_never_the_lower(permille: int) -> None:
    told = advice(StickReading(permille, ""), ROWS, span=SPAN)
    assert told.add_l is not None
    after = permille / 1000 + told.add_l / SPAN_L
    assert told.add_l <= 0 or after <= 1.0 + 1e-9
    assert told.add_l >= 0 or after >= 0.0
    assert told.start or permille < 0 or permille > 1375


def test_less_is_added_the_higher_it_stands() -> None:
    added = [advice(StickReading(permille, ""), ROWS, span=SPAN).add_l or 0.0 for permille in range(0, 1001, 10)]
    assert added == sorted(added, reverse=True)


def _daybook(*, entries: tuple[Entry, ...] = (), top_ups: tuple[TopUp, ...] = ()) -> Daybook:
    check = LevelCheck(day=DAY, circuit="engine_oil", permille=500)
    return Daybook(entries=entries, level_checks=(check,), top_ups=top_ups, follow_ups=())


def test_a_rise_is_told_unless_oil_was_added_or_changed() -> None:
    risen = StickReading(900, "0.9")
    added = TopUp(day=DAY, circuit="engine_oil", volume_ml=400)
    changed = Entry(day=DAY, vehicle="Alder", items=("engine_oil_and_filter",))
    assert rise_since(_daybook(), risen, "engine_oil") is not None
    assert rise_since(_daybook(), StickReading(560, "0.56"), "engine_oil") is None
    assert rise_since(_daybook(), risen, "gearbox") is None
    assert rise_since(_daybook(top_ups=(added,)), risen, "engine_oil") is None
    assert rise_since(_daybook(entries=(changed,)), risen, "engine_oil") is None

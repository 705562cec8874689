"""What was worked out may be dropped: no answer changes."""

from __future__ import annotations

import datetime as dt

import pytest

from tests.keeping.samples import ALDER, CLIMATE, TODAY, answer, card, entry, reading
from twomarks.keeping import questions
from twomarks.keeping.records.derived import DerivedRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import answers, derived, entries, places, readings, workdays

NEXT = dt.date(2027, 5, 25)


@pytest.fixture
def settled(scope: Scope) -> Scope:
    settle(scope)
    readings.record_readings(scope, "Alder", [reading(f"2026-{month:02d}-01", 100_000 + 1_000 * month) for month in range(1, 11)])
    workdays.start_workday(scope, card())
    entries.record_entry(scope, "Alder", entry(km=111_000), today=TODAY)
    return scope


def settle(scope: Scope, climate: str = CLIMATE) -> None:
    places.settle_place(scope, name="Invented place", latitude=47.5, longitude=19.0, zone="Europe/Budapest", climate=climate)


def everything(scope: Scope) -> tuple[object, ...]:
    return (
        questions.design_temperatures(scope, TODAY, NEXT),
        questions.due(scope, "Alder", TODAY),
        questions.usage(scope, "Alder", TODAY).spread_on(NEXT),
        questions.history(scope, "Alder", TODAY),
        questions.daybook(scope, "Alder"),
        questions.stock(scope),
        questions.cans(scope),
        questions.answers(scope),
        questions.workdays(scope),
        questions.verify(scope),
        questions.sheet_revision(scope, "Alder").text == ALDER,
    )


def test_dropping_what_was_worked_out_changes_no_answer(settled: Scope) -> None:
    first = everything(settled)
    assert DerivedRow.objects.filter(household=settled.household).exists()
    from_table = everything(settled)
    assert derived.drop_derived(settled) > 0
    assert first == from_table == everything(settled)


def test_the_kept_answer_is_used(settled: Scope, monkeypatch: pytest.MonkeyPatch) -> None:
    first = questions.design_temperatures(settled, TODAY, NEXT)

    def never(**_: object) -> None:
        raise AssertionError

    monkeypatch.setattr("twomarks.trade.climate.coldest_start", never)
    answers.record_answers(settled, [answer("have")])
    assert questions.design_temperatures(settled, TODAY, NEXT) == first
    assert questions.design_temperatures(settled, TODAY.replace(day=1), NEXT) == first
    with pytest.raises(AssertionError):
        questions.design_temperatures(settled, dt.date(2026, 6, 1), dt.date(2026, 8, 1))


def test_another_record_of_the_climate_gives_another_answer(settled: Scope) -> None:
    first = questions.design_temperatures(settled, TODAY, NEXT)
    settle(settled, CLIMATE.replace(",-1", ",-3"))
    second = questions.design_temperatures(settled, TODAY, NEXT)
    assert first is not None
    assert second is not None
    assert second.coldest.value_c < first.coldest.value_c


def test_a_place_without_a_record_has_no_design_temperatures(scope: Scope) -> None:
    assert questions.design_temperatures(scope, TODAY, NEXT) is None


def test_old_answers_are_cleared_away(settled: Scope) -> None:
    questions.design_temperatures(settled, TODAY, NEXT)
    settle(settled, CLIMATE + "\n# changed\n")
    questions.design_temperatures(settled, TODAY, NEXT)
    assert DerivedRow.objects.filter(household=settled.household).count() == 1


def test_a_whole_answer_is_kept_until_a_row_is_written(settled: Scope) -> None:
    made = []

    def make() -> str:
        made.append(1)
        return f"answer {len(made)}"

    def ask() -> str:
        return questions.kept_answer(settled, "test", make, today=TODAY, further=("a reader",))

    assert (ask(), ask()) == ("answer 1", "answer 1")
    answers.record_answers(settled, [answer("have")], today=TODAY)
    assert ask() == "answer 2"
    derived.drop_derived(settled)
    assert ask() == "answer 3"

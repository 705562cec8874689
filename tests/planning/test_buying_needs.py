"""The invented household's own needs over two years: what is due comes back at the vehicle's pace, with the oil that meets the call."""

from __future__ import annotations

import datetime as dt
from collections import Counter

import pytest

from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.planning.buying.ahead import VehicleAhead, needs_ahead
from twomarks.planning.due import DueItem
from twomarks.procedures.library import library
from twomarks.trade.climate import DesignTemperature
from twomarks.words import Reader, render

TODAY = dt.date(2026, 11, 25)
COLD = DesignTemperature(value_c=-20.0, low_c=-22.0, high_c=-18.0, method="percentile", winters=10, once_in_years=10.0)
ITEM = "engine_oil_and_filter"


def alder(*, daily_km: float, likely: dt.date | None, cold: DesignTemperature | None = COLD) -> VehicleAhead:
    sheet = load_as(VehicleSheet, packaged.text("demo/files/alder.toml"), where="alder.toml")
    due = (DueItem(item=ITEM, name="engine oil and filter", state="in the window", likely=likely, opens=likely, closes=likely),)
    return VehicleAhead(sheet=sheet, due=due, daily_km=daily_km, procedures={ITEM: library()["engine-oil-spin-on"]}, coldest=cold)


@pytest.fixture(scope="module")
def shelf() -> ShelfList:
    return load_as(ShelfList, packaged.text("demo/files/shelf.toml"), where="shelf.toml")


@pytest.mark.parametrize(("daily_km", "times"), [(1.0, 2), (66.0, 4), (200.0, 10)])
def test_an_item_comes_back_after_its_shortest_limit(shelf: ShelfList, daily_km: float, times: int) -> None:
    # 15 000 km or 12 months: by time at a kilometre a day, every 227 or 75 days at 66 or 200 km.
    found = needs_ahead([alder(daily_km=daily_km, likely=TODAY)], shelf=shelf, stock={}, today=TODAY, months=24)
    assert len(found.needs) == times
    assert {need.volume_ml for need in found.needs} == {found.needs[0].volume_ml}
    assert found.needs[0].month == 0
    assert Counter(found.reserve_ml.values()) == Counter({500: 1})


def test_what_is_past_its_limit_is_needed_this_month(shelf: ShelfList) -> None:
    found = needs_ahead([alder(daily_km=1.0, likely=TODAY - dt.timedelta(days=90))], shelf=shelf, stock={}, today=TODAY, months=6)
    assert [need.month for need in found.needs] == [0]


def test_an_item_that_nobody_knows_the_day_of_is_not_bought_for(shelf: ShelfList) -> None:
    assert needs_ahead([alder(daily_km=1.0, likely=None)], shelf=shelf, stock={}, today=TODAY, months=6).needs == ()


def test_without_an_oil_that_is_shown_to_meet_the_call_the_question_is_told(shelf: ShelfList) -> None:
    found = needs_ahead([alder(daily_km=1.0, likely=TODAY, cold=None)], shelf=shelf, stock={}, today=TODAY, months=6)
    assert found.needs == ()
    assert "is shown to meet" in render(found.open_questions[0], Reader())

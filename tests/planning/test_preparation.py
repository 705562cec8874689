"""The main job on a made-up vehicle: what is bought, and what its card rests on."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.procedures import sheets
from twomarks.errors import OutOfRangeError
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.planning.card import Revision
from twomarks.planning.preparation import Given, prepare
from twomarks.planning.usage import forecast, judge
from twomarks.procedures.library import library
from twomarks.trade.climate import DesignTemperature

TODAY = dt.date(2026, 3, 1)
SHELF = """format = "twomarks/shelf/1"
name = "Invented shelf"
[oils.example]
name = "Example"
fluid = "engine oil"
label = "SAE 5W-30, ACEA C3, approval EX 229-5"
[shops.near]
name = "Near"
currency = "EUR"
[[shops.near.prices]]
item = "example"
size = "5 L"
price = "40.00"
day = 2026-02-14
[shops.far]
name = "Far"
currency = "PLN"
[[shops.far.prices]]
item = "example"
size = "5 L"
price = "120.00"
day = 2026-02-14
"""


def given(**more: object) -> Given:
    history = judge((), today=TODAY)
    whole = Given(
        sheet=sheets.sheet(sheets.CAR),
        today=TODAY,
        history=history,
        forecast=forecast(history, today=TODAY),
        done={},
        procedures=library(),
        shelf=load_as(ShelfList, SHELF, where="test"),
        coldest=lambda _first, _last: DesignTemperature(-20.0, -22.0, -18.0, "extreme values", 30, 10.0),
        revisions=(Revision(kind="vehicle", key="Alder", sha256="a" * 64),),
    )
    return replace(whole, **more)  # type: ignore[arg-type]


def test_prices_in_two_currencies_are_not_compared_unless_one_is_paid_in() -> None:
    bought = prepare(given()).job.purchase
    assert bought is not None
    assert (bought.cost, bought.bought_ml) == (None, 5000)
    paid = prepare(given(currency="PLN")).job.purchase
    assert paid is not None
    assert (paid.cost, paid.currency) == (Decimal(120), "PLN")


def test_a_stock_below_nothing_counts_as_none() -> None:
    short = prepare(given(stock={"example": -700}, currency="EUR")).job.purchase
    assert short is not None
    assert (short.from_stock_ml, short.bought_ml) == (0, 5000)


@pytest.mark.parametrize("words", ["not ACEA C3", "ACEA C3 level"])
def test_an_oil_that_its_label_leaves_open_is_never_taken(words: str) -> None:
    job = prepare(given(shelf=load_as(ShelfList, SHELF.replace("ACEA C3", words), where="test"))).job
    assert (job.oil, job.purchase) == (None, None)
    assert job.oils[0].verdict.state == "not shown"
    assert all(fluid.product == "" for fluid in job.card.fluids)


def test_the_handbooks_limit_of_heat_reaches_the_verdict() -> None:
    sheet = sheets.sheet(sheets.CAR.replace('coldest = "-30 C"', 'coldest = "-30 C"\nhottest = "30 C"'))
    assert sheet.circuits["engine_oil"].accepts[0].hottest is not None
    summers = {day: DesignTemperature(day, day - 1, day + 1, "extreme values", 30, 10.0) for day in (28.0, 36.0)}
    states = [prepare(given(sheet=sheet, hottest=lambda *_, day=day: summers[day])).job.oils[0].verdict.state for day in summers]
    assert states == ["meets", "does not meet"]


def test_a_card_is_another_once_a_text_that_it_rests_on_has_changed() -> None:
    first, same, other = (
        prepare(given(procedure_sha256=lambda key, mark=mark: f"{key} {mark}")).job.card for mark in ("one", "one", "two")
    )
    assert first == same
    assert first.id != other.id
    assert first.revisions[-1] == Revision(kind="procedure", key="engine-oil-spin-on", sha256="engine-oil-spin-on one")


def test_a_slip_in_a_data_sheet_names_its_oil() -> None:
    slipped = SHELF.replace("[shops.near]", '[oils.example.data]\nhths = "35 mPa.s"\n[shops.near]', 1)
    with pytest.raises(OutOfRangeError) as refused:
        prepare(given(shelf=load_as(ShelfList, slipped, where="test")))
    assert refused.value.values["where"] == "Example"

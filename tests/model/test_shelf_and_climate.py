"""The shelf list with its prices, and the climate record with its days."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest

from tests.model.texts import faults, only_fault
from twomarks.model.climate import ClimateRecord
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList

SHELF = """format = "twomarks/shelf/1"
name = "Shelf"
[oils.amber]
name = "Amber"
label = "SAE 5W-30"
[shops.corner]
name = "Corner"
currency = "EUR"
"""


def priced(price: str) -> str:
    return SHELF + f"prices = [{{ {price} }}]\n"


def record(rows: str, place: str = "latitude = 50.1\nlongitude = 8") -> str:
    daily = f'daily = """\ndate,tmin_c,tmax_c\n{rows}\n"""'
    return f'format = "twomarks/climate/1"\nname = "Hill"\nsource = "made up"\n{daily}\n[place]\n{place}\n'


def test_a_price_is_exact_and_has_its_day() -> None:
    shelf = load_as(ShelfList, priced('item = "amber", size = "5 L", price = "41.90", day = 2026-02-14'), where="")
    (price,) = shelf.shops["corner"].prices
    assert (price.price, price.day) == (Decimal("41.90"), dt.date(2026, 2, 14))
    assert price.size is not None
    assert price.size.core == 5.0


@pytest.mark.parametrize("amount", ["41.90", '"41,90"', '"1.234"', '"-1"', '"nan"', '"1e9"', '"free"'])
def test_an_amount_that_is_no_price_is_refused(amount: str) -> None:
    assert only_fault(priced(f'item = "amber", price = {amount}, day = 2026-02-14')).key == "model.price"


@pytest.mark.parametrize("day", ['"2026-02-14"', "2026-02-14T08:00:00", "2026"])
def test_a_day_is_a_date(day: str) -> None:
    fault = only_fault(priced(f'item = "amber", price = "1.00", day = {day}'))
    assert (fault.key, fault.values["expected"]) == ("document.type", "a date")


def test_a_price_of_nothing_on_the_list_names_the_nearest() -> None:
    fault = only_fault(priced('item = "ambr", price = "1.00", day = 2026-02-14'))
    assert (fault.key, fault.values["path"], fault.values["nearest"]) == ("model.reference", "shops.corner.prices[0].item", "amber")


def test_a_data_sheet_that_is_thicker_when_hot_is_refused() -> None:
    sheet = '\n[oils.amber.data]\nkv40 = "12 mm2/s"\nkv100 = "63.8 mm2/s"\n'
    fault = only_fault(SHELF.replace("\n[shops", f"{sheet}[shops"))
    assert (fault.key, fault.values["path"]) == ("oil.sheet_crossed", "oils.amber.data")


def test_cranking_pumping_and_base_number_are_read() -> None:
    sheet = '\n[oils.amber.data]\nccs = "6200 mPa·s"\nccs_at = "-30 C"\nmrv = "25000 mPa·s"\nmrv_at = "-35 C"\ntbn = "8.1 mg KOH/g"\n'
    data = load_as(ShelfList, SHELF.replace("\n[shops", f"{sheet}[shops"), where="").oils["amber"].data
    assert data is not None
    assert [fact.core for fact in (data.ccs, data.ccs_at, data.mrv, data.mrv_at, data.tbn) if fact] == [6200.0, -30.0, 25000.0, -35.0, 8.1]


def test_a_currency_is_a_code() -> None:
    fault = only_fault(SHELF.replace("EUR", "euro"))
    assert (fault.key, fault.values["example"]) == ("document.form", "EUR")


def test_the_days_of_a_record_are_read() -> None:
    found = load_as(ClimateRecord, record("1996-01-30,-12.5,-3\n\n1996-01-31,-8,1.5"), where="")
    assert found.days() == ((dt.date(1996, 1, 30), -12.5, -3.0), (dt.date(1996, 1, 31), -8.0, 1.5))


@pytest.mark.parametrize(
    "row", ["1996-02-30,1,2", "1996-01-29,1,2", "1996-01-30,1,2", "1996-02-01,1", "1996-02-01,nan,2", "1996-02-01,-400,2", "1996-02-01,x,2"]
)
def test_a_row_that_is_no_later_day_is_named(row: str) -> None:
    fault = only_fault(record(f"1996-01-30,-12.5,-3\n{row}"))
    assert (fault.key, fault.values["row"], fault.values["found"]) == ("model.climate_row", 3, row)


def test_all_faulty_rows_come_at_once_up_to_a_page_of_them() -> None:
    found = faults(record("\n".join("x" * count for count in range(1, 60))))
    assert len(found) == 20


def test_columns_the_wrong_way_round_are_seen_but_not_a_single_day() -> None:
    turned = record("1996-01-30,3,-2\n1996-01-31,4,-1\n1996-02-01,-1,4")
    assert only_fault(turned).key == "model.climate_turned"
    load_as(ClimateRecord, record("1996-01-30,-2,3\n1996-01-31,4,-1\n1996-02-01,-1,4"), where="")


@pytest.mark.parametrize("daily", ["date,low,high\n1996-01-30,1,2", "1996-01-30,1,2", "date;tmin_c;tmax_c"])
def test_the_first_line_names_the_columns(daily: str) -> None:
    text = (
        f'format = "twomarks/climate/1"\nname = "Hill"\nsource = "made up"\ndaily = """{daily}"""\n[place]\nlatitude = 1\nlongitude = 1\n'
    )
    assert {fault.key for fault in faults(text)} <= {"model.climate_header", "document.too_short"}


@pytest.mark.parametrize(
    ("place", "key"),
    [
        ("latitude = 91\nlongitude = 8", "document.above"),
        ("latitude = -91\nlongitude = 8", "document.below"),
        ("latitude = nan\nlongitude = 8", "document.type"),
    ],
)
def test_a_place_lies_on_the_globe(place: str, key: str) -> None:
    assert only_fault(record("1996-01-30,-12.5,-3", place)).key == key

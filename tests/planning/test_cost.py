"""What servicing costs: materials as used, own time, each 1,000 km after a year, the workshop, other intervals; all prices invented."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.planning.due_ground import TODAY, ago, sheet, steady
from twomarks import units
from twomarks.model.ledger import Entry, Quote
from twomarks.model.loading import load_as
from twomarks.model.shelf import ShelfList
from twomarks.planning.cost import against_workshop, costed, interval_costs, materials_of, per_distance, workdays
from twomarks.planning.cost.work import CostedWork
from twomarks.words import Message, Reader, keys, render

SHELF = load_as(
    ShelfList,
    """format = "twomarks/shelf/1"
name = "Invented"
[oils.brook]
name = "Quiet Brook 5W-30"
label = { value = "SAE 5W-30", source = "label" }
[parts.filter]
name = "Oil filter"
numbers = [{ value = "ZZ-1184", source = "label" }]
[shops.mill]
name = "Mill"
currency = "EUR"
prices = [
  { item = "brook", size = "5 L", price = "40.00", day = 2025-01-10 },
  { item = "brook", size = "1 L", price = "11.00", day = 2025-01-10 },
  { item = "brook", size = "5 L", price = "50.00", day = 2025-12-01 },
  { item = "filter", price = "9.80", day = 2025-01-10 },
]
[shops.far]
name = "Far"
currency = "USD"
prices = [{ item = "brook", size = "5 L", price = "1.00", day = 2025-01-10 }]
""",
    where="test",
)
OIL = Entry(
    day=dt.date(2025, 6, 1),
    vehicle="Invented",
    items=("oil",),
    product="Quiet Brook 5W-30 (SAE 5W-30)",
    volume_in_ml=4200,
    parts=("ZZ-1184",),
    minutes=50,
)


def said(*messages: Message) -> list[str]:
    for message in messages:
        assert message.key in keys()
        assert "{" not in render(message, Reader())
    return [message.key for message in messages]


def work(entry: Entry = OIL, rate: str = "0") -> CostedWork:
    return costed(entry, SHELF, vehicle="Invented", currency="EUR", rate=Decimal(rate))


def test_materials_count_as_used_by_the_price_before_the_work() -> None:
    found = materials_of(OIL, SHELF, currency="EUR")
    # 4.2 L of 5 L for 40.00, and the filter; the dearer oil of later and the small container do not matter.
    assert found.amount == Decimal("33.60") + Decimal("9.80")
    assert said(*found.reckoned) == ["cost.fluid", "cost.part"]
    assert found.unpriced == ()


def test_only_where_there_is_no_earlier_price_the_first_later_one_counts() -> None:
    early = materials_of(replace(OIL, day=dt.date(2024, 1, 1), parts=()), SHELF, currency="EUR")
    late = materials_of(replace(OIL, day=dt.date(2026, 1, 1), parts=()), SHELF, currency="EUR")
    assert (early.amount, late.amount) == (Decimal("33.60"), Decimal("42.00"))


def test_what_the_owner_entered_comes_before_any_reckoning() -> None:
    found = materials_of(replace(OIL, cost_minor=2950, currency="EUR"), SHELF, currency="EUR")
    assert (found.amount, said(*found.reckoned)) == (Decimal("29.50"), ["cost.as_entered"])
    other = materials_of(replace(OIL, cost_minor=2950, currency="USD"), SHELF, currency="EUR")
    assert (other.amount, said(*other.unpriced)) == (None, ["cost.other_currency"])


def test_what_has_no_price_is_named_and_never_made_up() -> None:
    found = materials_of(replace(OIL, product="Another oil", parts=("ZZ-1184", "QQ-1")), SHELF, currency="EUR")
    assert found.amount == Decimal("9.80")
    assert said(*found.unpriced) == ["cost.no_price_fluid", "cost.no_price_part"]
    nothing = materials_of(replace(OIL, volume_in_ml=None, parts=()), SHELF, currency="EUR")
    assert (nothing.amount, said(*nothing.unpriced)) == (None, ["cost.nothing_noted"])
    assert materials_of(OIL, None, currency="EUR").amount is None


def test_own_time_counts_nothing_until_it_is_given_a_rate() -> None:
    assert work().total == Decimal("43.40")
    assert work(rate="12").time == Decimal("10.00")
    assert work(rate="12").total == Decimal("53.40")


def test_a_workday_is_all_work_of_one_day() -> None:
    tray = replace(OIL, volume_in_ml=None, parts=(), cost_minor=600, currency="EUR", minutes=10)
    about = replace(tray, day_from=dt.date(2025, 5, 1), day_to=dt.date(2025, 7, 1))
    days = workdays([work(), work(tray), work(about), work(replace(OIL, day=dt.date(2025, 8, 1), parts=("QQ-1",)))])
    assert [(day.day.isoformat(), len(day.works)) for day in days] == [("2025-08-01", 1), ("2025-06-01", 1), ("2025-06-01", 2)]
    assert (days[2].total, days[2].minutes, days[2].complete) == (Decimal("49.40"), 60, True)
    assert not days[0].complete


def test_a_workday_of_which_no_price_is_known_has_no_total() -> None:
    (day,) = workdays([work(replace(OIL, volume_in_ml=None, parts=("QQ-1",)))])
    assert day.total is None


def test_each_thousand_km_is_not_said_before_a_full_year() -> None:
    young = per_distance([work(replace(OIL, day=ago(360)))], steady(), currency="EUR", today=TODAY)
    assert young.amount is None
    assert young.why_not is not None
    assert said(young.why_not) == ["cost.not_a_year"]
    none = per_distance([], steady(), currency="EUR", today=TODAY)
    assert none.why_not is not None
    assert said(none.why_not) == ["cost.no_cost_yet"]


def test_each_thousand_km_counts_what_was_spent_after_the_first_work() -> None:
    entries = [replace(OIL, day=ago(days), cost_minor=8000, currency="EUR") for days in (600, 300, 100)]
    found = per_distance([work(entry) for entry in entries], steady(), currency="EUR", today=TODAY)
    assert (found.since, found.total, found.left_out) == (ago(600), Decimal(160), 0)
    assert found.distance_km == pytest.approx(600 * 40, rel=0.01)
    assert float(found.amount or 0) == pytest.approx(160 / 24, rel=0.01)


def test_the_first_work_alone_prices_no_distance() -> None:
    found = per_distance([work(replace(OIL, day=ago(600)))], steady(), currency="EUR", today=TODAY)
    assert found.why_not is not None
    assert said(found.why_not) == ["cost.nothing_since"]


def test_work_without_a_price_is_counted_beside_the_figure() -> None:
    entries = [replace(OIL, day=ago(600)), replace(OIL, day=ago(300)), replace(OIL, day=ago(200), volume_in_ml=None, parts=("QQ-1",))]
    assert per_distance([work(entry) for entry in entries], steady(), currency="EUR", today=TODAY).left_out == 1


def quoted(**more: object) -> dict[str, Quote]:
    said = {"day": TODAY, "vehicle": "Invented", "item": "oil", "amount_minor": 18_900, "currency": "EUR", "shop": "in town", **more}
    return {"oil": Quote(**said)}  # type: ignore[arg-type]


def test_home_is_set_against_the_quote() -> None:
    (found,) = against_workshop([work()], quoted(), currency="EUR")
    assert (found.quote, found.saved) == (Decimal("189.00"), Decimal("145.60"))


@pytest.mark.parametrize(
    ("entry", "quote", "key"),
    [
        (None, {}, "cost.not_done_at_home"),
        (replace(OIL, parts=("QQ-1",)), {}, "cost.not_priced_at_home"),
        (replace(OIL, items=("oil", "other")), {}, "cost.not_priced_at_home"),
        (OIL, {"currency": "USD"}, "cost.quote_other_currency"),
    ],
)
def test_what_cannot_be_set_against_a_quote_says_why(entry: Entry | None, quote: dict[str, object], key: str) -> None:
    (found,) = against_workshop([] if entry is None else [work(entry)], quoted(**quote), currency="EUR")
    assert found.saved is None
    assert found.why_not is not None
    assert said(found.why_not) == [key]


def test_another_interval_changes_the_year_only_where_its_limit_comes_first() -> None:
    # 14,600 km a year: 12,000 km come round 1.2 times, 12 months once.
    document = sheet('every = { distance = "12000 km", time = "12 months" }\n')
    (found,) = interval_costs(document, [work()], steady(), currency="EUR", stated={})
    assert found.first == "distance"
    assert found.times_a_year == pytest.approx(14_610 / 12_000, rel=0.05)
    change = {(one.axis, float(one.limit.value)): one.change for one in found.others}
    assert change["distance", 9000.0] > 0
    assert change["distance", 15_000.0] < 0
    # A longer time saves nothing: the distance comes first.
    assert change["time", 15.0] == 0
    # A longer distance saves no more than down to once a year.
    assert -change["distance", 15_000.0] <= (found.a_year - Decimal("43.40")) + Decimal("0.01")


def test_the_interval_for_hard_use_is_the_one_that_costs() -> None:
    document = sheet('every = { distance = "12000 km" }\nhard_use = { distance = "6000 km" }\n')
    (usual,) = interval_costs(document, [work()], steady(), currency="EUR", stated={})
    (hard,) = interval_costs(document, [work()], steady(), currency="EUR", stated={"towing": "mostly"})
    assert hard.a_year == pytest.approx(2 * usual.a_year, abs=Decimal("0.02"))


def test_an_item_without_a_known_cost_or_interval_is_left_out() -> None:
    free = [work(replace(OIL, cost_minor=0, currency="EUR"))]
    assert interval_costs(sheet('every = { time = "12 months" }\n'), free, steady(), currency="EUR", stated={}) == ()
    assert interval_costs(sheet(""), [work()], steady(), currency="EUR", stated={}) == ()
    assert interval_costs(sheet('every = { time = "12 months" }\n'), [], steady(), currency="EUR", stated={}) == ()
    assert units.amount_of(4340, "EUR") == Decimal("43.40")

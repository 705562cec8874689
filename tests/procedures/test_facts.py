"""A sheet as arguments of the engineering, with its sources put back on what comes out."""

from __future__ import annotations

from tests.procedures import sheets
from twomarks.procedures.facts import label_in, missing_figures, oil_call, oil_verdict_for, pour_plan
from twomarks.procedures.library import library_procedure
from twomarks.trade.label import read_label
from twomarks.trade.oil import OilOnOffer
from twomarks.words import Figure, Source

FUEL_SLOT = sheets.sheet(
    sheets.BARE + '\n[slots.fuel_filter]\nkind = "cartridge"\nholds = { value = "0.9 L", source = "label: on the filter" }\n'
).slots["fuel_filter"]
CAR, BARE = sheets.sheet(sheets.CAR), sheets.sheet(sheets.BARE)


def test_the_call_is_what_the_sheet_says() -> None:
    (block,) = oil_call(CAR).blocks
    assert (block.grades, block.categories, block.approvals) == (("0W-30", "5W-30"), ("ACEA C3",), ("EX 229-5",))
    assert block.coldest_c == -30.0


def test_what_nobody_looked_up_is_not_the_same_as_nothing_asked() -> None:
    assert oil_call(BARE).blocks == ()
    (block,) = oil_call(sheets.sheet(sheets.VAN)).blocks
    assert block.approvals is None


def test_a_verdict_carries_the_sources_of_the_sheet() -> None:
    offer = OilOnOffer("Example", read_label("SAE 5W-30, ACEA C3, approval EX 229-5"))
    verdict = oil_verdict_for(CAR, offer=offer, coldest_start_c=-22.0)
    assert verdict.state == "meets"
    limits = [reason.figures["limit"] for reason in verdict.reasons if "limit" in reason.figures]
    assert limits == [Figure(-30.0, "C", Source("handbook", "owner's book, p. 214"))]


def test_the_data_sheet_is_judged_beside_the_sheets_own_limits() -> None:
    offer = OilOnOffer("Example", read_label("SAE 5W-30, ACEA C3, approval EX 229-5"), hths_mpa_s=3.5, ash_percent=0.78)
    verdict = oil_verdict_for(CAR, offer=offer, coldest_start_c=-22.0)
    told = {reason.key: reason.figures for reason in verdict.reasons}
    assert told["oil.film_holds"]["limit"] == Figure(2.9, "mPa.s")
    assert told["oil.handbook_cold"]["limit"] == Figure(-30.0, "C", Source("handbook", "owner's book, p. 214"))


def test_what_stays_is_the_dry_fill_less_the_refill() -> None:
    offer = OilOnOffer("Example", read_label("SAE 5W-30, ACEA C3, approval EX 229-5"))
    filled = sheets.CAR.replace("[circuits.engine_oil]\n", '[circuits.engine_oil]\ndry_fill = "4.8 L"\n', 1)
    assert filled != sheets.CAR
    mixture = oil_verdict_for(sheets.sheet(filled), offer=offer, coldest_start_c=-22.0).mixture
    assert mixture is not None
    assert abs(mixture.share - 0.5 / 4.8) < 1e-9
    assert oil_verdict_for(CAR, offer=offer, coldest_start_c=-22.0).mixture is None


def test_the_label_of_what_is_inside_is_read() -> None:
    label = label_in(CAR)
    assert label is not None
    assert str(label.grade) == "5W-30"
    assert label_in(BARE) is None


def test_a_plan_carries_the_sources_of_refill_and_span() -> None:
    plan = pour_plan(CAR)
    figures = {name: value for reason in plan.reasons for name, value in reason.figures.items()}
    assert figures["refill"] == Figure(4.3, "L", Source("handbook", "owner's book, p. 214"))
    assert figures["between"] == Figure(1.1, "L", Source("measured", "A., 2026-03-02"))
    assert figures["filter"] == Figure(0.3, "L", Source("supplier", "data sheet"))


def test_the_volume_of_a_fuel_filter_is_never_that_of_the_oil_filter() -> None:
    plan = pour_plan(CAR)
    assert pour_plan(CAR.model_copy(update={"slots": {"fuel_filter": FUEL_SLOT, **CAR.slots}})) == plan
    named = CAR.model_copy(update={"slots": {"fuel_filter": FUEL_SLOT, "main_filter": CAR.slots["oil_filter"]}})
    assert pour_plan(named).reasons[1].key == "level.stands_high"
    item = CAR.items["engine_oil_and_filter"]
    told = item.model_copy(update={"roles": {**item.roles, "filter": "main_filter"}})
    assert pour_plan(named.model_copy(update={"items": {"engine_oil_and_filter": told}})) == plan


def test_a_remembered_refill_needs_a_reading_before_the_start() -> None:
    remembered = sheets.CAR.replace('source = "handbook: owner\'s book, p. 214"', 'source = "memory"')
    assert not pour_plan(CAR).needs_reading_before_start
    assert pour_plan(sheets.sheet(remembered)).needs_reading_before_start


def test_without_a_refill_no_number_is_made_up() -> None:
    plan = pour_plan(BARE)
    assert plan.kind == "by the stick"
    assert plan.first_l is None


def test_figures_worth_fetching_come_worst_first_and_are_not_asked_again() -> None:
    bare = missing_figures(BARE, library_procedure("engine-oil-spin-on"))
    assert [one.path for one in bare[:3]] == [
        "circuits.engine_oil.refill_with_filter",
        "circuits.engine_oil.accepts",
        "fastenings.engine_oil_drain.torque",
    ]
    assert [one.harm_rank for one in bare] == sorted(one.harm_rank for one in bare)
    assert 5 <= len(bare) <= 10
    assert missing_figures(CAR, library_procedure("engine-oil-spin-on"), item="engine_oil_and_filter") == ()


def test_the_makers_own_way_to_read_the_stick_bounds_the_tables() -> None:
    own = sheets.CAR.replace(
        "[circuits.engine_oil]",
        '[circuits.engine_oil]\nread = "warm"\nfill_to = { value = "60 %", source = "handbook: p. 220" }\nno_start_from = "130 %"',
        1,
    )
    plan = pour_plan(sheets.sheet(own))
    rows = plan.after_table.rows
    assert max(row.reading_fraction + row.add_l / 1.1 for row in rows if row.add_l > 0) <= 0.6
    assert all(row.start == (row.reading_fraction < 1.3) for row in rows if row.reading_fraction > 1.0)
    zone = next(figure for reason in plan.reasons for name, figure in reason.figures.items() if name == "zone")
    assert zone == Figure(60.0, "%", Source("handbook", "p. 220"))

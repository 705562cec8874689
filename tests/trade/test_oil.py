"""The oil verdict: the handbook wins, what is not shown is not met, and every answer has its reason."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.label import read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict
from twomarks.words import Figure, Reader, render

BLOCK = CallBlock(grades=("0W-30", "5W-30"), categories=("ACEA C3",), approvals=("EX 229-5",), coldest_c=-35.0)
GOOD = "SAE 0W-30, ACEA C3-21, approval EX 229-5"


def verdict(label: str, *blocks: CallBlock, coldest: float | None = -20.0, **more) -> OilVerdict:
    offer = OilOnOffer("example", read_label(label), **{key: more.pop(key) for key in list(more) if key in ("kv100_mm2_s", "hths_mpa_s")})
    return oil_verdict(call=OilCall(blocks or (BLOCK,)), offer=offer, coldest_start_c=coldest, **more)


def margin(found: OilVerdict, name: str) -> float:
    return next(one.margin for one in found.margins if one.name == name)


def keys(messages) -> list[str]:
    return [message.key for message in messages]


def test_grade_category_approval_and_cold_together_meet():
    found = verdict(GOOD)
    assert found.state == "meets"
    assert {"oil.grade_listed", "oil.category_met", "oil.approval_met", "oil.handbook_cold"} <= set(keys(found.reasons))
    assert found.settles == ()
    assert margin(found, "cold_handbook") == pytest.approx(15.0)
    assert margin(found, "cranking_test") == pytest.approx(15.0)


@pytest.mark.parametrize("spelt", ["EX229-5", "ex 229 5", "EX-229-5", "ex2295"])
def test_an_approval_is_compared_apart_from_case_spaces_and_hyphens(spelt: str):
    assert verdict(f"0W-30, ACEA C3, approval {spelt}").state == "meets"


@pytest.mark.parametrize("spelt", ["EX 229-51", "EX 229", "EX 225-9", "A EX 229-5", "EX 22-95", "EX 2-29-5", "EX 22 95"])
def test_another_approval_is_not_the_one_asked_for(spelt: str):
    found = verdict(f"0W-30, ACEA C3, approval {spelt}")
    assert found.state == "not shown"


@pytest.mark.parametrize(
    "words", ["suitable for EX 229-5", "meets EX 229-5", "recommended for engines requiring approval EX 229-5", "EX 229-5"]
)
def test_the_sellers_word_is_no_approval(words: str):
    found = verdict(f"0W-30, ACEA C3; {words}")
    assert found.state == "not shown"
    assert found.reasons[0].key == "oil.approval_only_claimed"
    assert keys(found.settles) == ["oil.settle_label_approval"]


def test_an_approval_nobody_has_looked_up_is_not_taken_as_none():
    found = verdict(GOOD, CallBlock(("0W-30",), ("ACEA C3",), None, -35.0))
    assert found.state == "not shown"
    assert keys(found.settles) == ["oil.settle_handbook_approval"]


def test_no_approval_asked_for_needs_none():
    assert verdict("0W-30 ACEA C3", CallBlock(("0W-30",), ("ACEA C3",), (), -35.0)).state == "meets"


def test_full_ash_is_refused_where_c_is_asked_for():
    found = verdict("5W-30 ACEA A3/B4; approval EX 229-5", after_treatment=("dpf",))
    assert found.state == "does not meet"
    excluded = found.reasons[0]
    assert excluded.key == "oil.category_excluded"
    assert "1.6" in render(excluded, Reader())
    assert "0.8" in render(excluded, Reader())


def test_full_ash_before_a_particle_filter_is_not_fine_where_the_handbook_is_silent():
    block = CallBlock(("5W-30",), (), (), None)
    assert verdict("5W-30 ACEA A3/B4", block, after_treatment=("dpf",)).state == "not shown"
    assert verdict("5W-30 ACEA A3/B4", block).state == "meets"


def test_full_ash_that_the_handbook_names_before_a_particle_filter_carries_a_warning():
    block = CallBlock(("5W-30",), ("ACEA A3/B4",), (), -35.0)
    found = verdict("5W-30 ACEA A3/B4", block, after_treatment=("dpf",))
    assert found.state == "meets"
    assert "oil.full_ash_allowed" in keys(found.reasons)
    assert "oil.full_ash_allowed" not in keys(verdict("5W-30 ACEA A3/B4", block).reasons)


@pytest.mark.parametrize("words", ["not ACEA C3", "ACEA C3 level", "replaces ACEA C3", "ACEA C3, applied for"])
def test_a_category_that_the_label_leaves_open_is_not_shown(words: str):
    found = verdict(f"SAE 0W-30; {words}; approval EX 229-5")
    assert found.state == "not shown"
    assert found.reasons[0].key == "oil.category_only_claimed"
    assert keys(found.settles) == ["oil.settle_label_category"]


def test_hotter_than_the_handbook_allows_is_refused_and_unknown_heat_is_not_shown():
    block = CallBlock(("5W-30",), ("ACEA C3",), (), -35.0, 30.0)
    hot = verdict("5W-30, ACEA C3", block, hottest_day_c=34.0)
    assert (hot.state, hot.reasons[0].key) == ("does not meet", "oil.hotter_than_handbook")
    assert margin(hot, "heat_handbook") == pytest.approx(-4.0)
    assert verdict("5W-30, ACEA C3", block, hottest_day_c=29.0).state == "meets"
    unknown = verdict("5W-30, ACEA C3", block)
    assert (unknown.state, keys(unknown.settles)) == ("not shown", ["oil.settle_climate"])


def test_where_no_entry_is_met_the_one_for_the_oils_own_grade_is_told():
    other = CallBlock(("0W-30",), ("ACEA C3",), (), -40.0)
    own = CallBlock(("5W-30",), ("ACEA C3",), (), -15.0)
    found = verdict("5W-30, ACEA C3", other, own, coldest=-20.0)
    assert found.state == "does not meet"
    assert found.reasons[0].key == "oil.colder_than_handbook"


def test_a_gear_oil_is_held_to_the_handbooks_own_limit_of_cold():
    block = CallBlock(("75W-90",), ("API GL-4",), (), -15.0)
    assert verdict("75W-90, API GL-4", block, coldest=-20.0).state == "does not meet"
    assert verdict("75W-90, API GL-4", block, coldest=-10.0).state == "meets"
    assert verdict("75W-90, API GL-4", block, coldest=None).state == "not shown"


def test_a_second_class_on_the_label_lifts_an_exclusion_by_the_first():
    found = verdict("0W-30, ACEA A3/B4, ACEA C4; approval EX 229-5")
    assert found.state == "not shown"


def test_a_grade_that_the_handbook_does_not_list_is_refused():
    found = verdict("5W-40, ACEA C3, approval EX 229-5")
    assert found.state == "does not meet"
    assert found.reasons[0].key == "oil.grade_not_listed"


def test_colder_than_the_handbook_allows_is_refused():
    found = verdict(GOOD, coldest=-36.0)
    assert found.state == "does not meet"
    assert found.reasons[0].key == "oil.colder_than_handbook"
    assert found.reasons[0].figures["coldest"] == Figure(-36.0, "C")


def test_the_handbooks_limit_of_cold_comes_before_the_test_point():
    found = verdict("5W-30, ACEA C3, approval EX 229-5", coldest=-32.0)
    assert found.state == "meets"
    assert "oil.colder_but_allowed" in keys(found.reasons)
    assert margin(found, "cranking_test") == pytest.approx(-2.0)


def test_without_a_limit_in_the_handbook_the_test_point_decides():
    block = CallBlock(("0W-30", "5W-30"), ("ACEA C3",), (), None)
    assert verdict("5W-30 ACEA C3", block, coldest=-30.0).state == "meets"
    beyond = verdict("5W-30 ACEA C3", block, coldest=-30.1)
    assert beyond.state == "not shown"
    assert beyond.reasons[0].key == "oil.colder_than_tested"
    assert keys(beyond.settles) == ["oil.settle_handbook_cold"]


def test_an_uncertain_cold_start_is_told():
    assert "oil.cold_edge" in keys(verdict(GOOD, coldest=-34.0, coldest_start_low_c=-36.0).reasons)


def test_an_unknown_climate_is_not_shown():
    found = verdict(GOOD, coldest=None)
    assert found.state == "not shown"
    assert keys(found.settles) == ["oil.settle_climate"]


def test_nothing_looked_up_is_not_shown_and_says_what_would_settle_it():
    found = oil_verdict(call=OilCall(), offer=OilOnOffer("x", read_label("5W-30 API SP")), fuel="diesel", coldest_start_c=-32.0)
    assert found.state == "not shown"
    assert "oil.settle_handbook" in keys(found.settles)
    assert {"oil.colder_than_tested", "oil.petrol_only"} <= set(keys(found.reasons))


def test_any_one_block_may_be_met():
    other = CallBlock(("10W-40",), ("API SP",), (), -20.0)
    found = verdict("10W-40 API SP", BLOCK, other, coldest=-10.0)
    assert found.state == "meets"
    told = next(reason for reason in found.reasons if reason.key == "oil.block_of")
    assert (told.figures["number"], told.figures["count"]) == (2, 2)


def test_blocks_are_not_mixed():
    other = CallBlock(("10W-40",), ("API SP",), (), -20.0)
    assert verdict("10W-40 ACEA C3; approval EX 229-5", BLOCK, other, coldest=-10.0).state != "meets"


def test_a_data_sheet_that_contradicts_the_grade_is_refused():
    assert verdict(GOOD, kv100_mm2_s=12.0, hths_mpa_s=3.5).state == "meets"
    assert verdict(GOOD, kv100_mm2_s=12.5).state == "does not meet"
    assert verdict(GOOD, kv100_mm2_s=12.0, hths_mpa_s=2.8).state == "does not meet"


def test_an_unknown_category_in_the_call_is_told_not_guessed():
    found = verdict(GOOD, CallBlock(("0W-30",), ("XQ 99",), (), -35.0))
    assert found.state == "not shown"
    assert "oil.category_asked_unknown" in keys(found.reasons)


def test_an_unreadable_grade_in_the_call_is_told_not_guessed():
    found = verdict(GOOD, CallBlock(("thin",), ("ACEA C3",), (), -35.0))
    assert found.state == "not shown"


def test_the_oil_that_stays_in_is_spoken_of():
    assert "oil.mix_alike" in keys(verdict(GOOD, in_engine=read_label("0W-30 ACEA C3")).reasons)
    assert "oil.mix_differs" in keys(verdict(GOOD, in_engine=read_label("10W-40 API SN")).reasons)
    assert "oil.in_engine_not_known" in keys(verdict(GOOD).reasons)


def test_gear_oil_is_judged_by_grade_and_category():
    block = CallBlock(("75W-90",), ("API GL-5",), (), None)
    assert verdict("SAE 75W-90, API GL-5", block).state == "meets"
    assert verdict("SAE 80W-90, API GL-5", block).state == "does not meet"
    assert verdict("SAE 75W-90, API GL-5", CallBlock(("75W-90",), ("API GL-4",), (), None)).state == "does not meet"


@pytest.mark.parametrize("label", [GOOD, "", "5W-40 ACEA A3/B4 API SN", "10W-40", "meets API CK-4 15W-40"])
@pytest.mark.parametrize("market", ["uk", "us"])
def test_every_reason_renders(label: str, market: str):
    found = verdict(label, BLOCK, CallBlock(), coldest=-32.3, coldest_start_low_c=-34.3, after_treatment=("dpf",), fuel="diesel")
    for message in (*found.reasons, *found.settles):
        assert "{" not in render(message, Reader(market=market))


def test_the_verdict_is_a_sentence_with_the_reason_that_decides():
    meets, fails, left_open = verdict(GOOD), verdict("5W-40, ACEA C3, approval EX 229-5"), verdict("0W-30, ACEA C3")
    assert render(meets.sentence, Reader()).startswith("example: it meets what the handbook asks for; the closest limit: ")
    assert "5W-40" in render(fails.sentence, Reader())
    assert fails.sentence.key == "oil.verdict_does_not_meet"
    assert "EX 229-5" in render(left_open.sentence, Reader())
    for one in (meets, fails, left_open):
        assert "?" not in render(one.sentence, Reader()).replace("\u00a0", " ")


def test_margins_are_ranked_from_the_smallest_share_of_their_limit():
    found = verdict(GOOD, kv100_mm2_s=12.0, hths_mpa_s=3.5)
    assert [one.relative for one in found.margins] == sorted(one.relative for one in found.margins)
    assert found.margins[0].name == "class_hths_least"


def test_a_reason_that_rests_on_a_source_names_it():
    found = verdict("5W-30 ACEA A3/B4; approval EX 229-5")
    sources = {reason.message.key: reason.sources for reason in found.told}
    assert sources["oil.category_excluded"] == ("acea_limits",)
    assert sources["oil.cranks"] == ("sae_j300",)
    assert sources["oil.approval_met"] == ()


@pytest.mark.parametrize(
    ("label", "key"), [("DOT 4", "oil.is_brake_fluid"), ("coolant OAT", "oil.is_coolant"), ("API TC", "oil.is_two_stroke_oil")]
)
def test_another_fluid_is_refused(label: str, key: str):
    found = verdict(label)
    assert (found.state, found.reasons[0].key) == ("does not meet", key)


def test_sulphur_in_the_fuel_is_a_reason():
    block = CallBlock(("15W-40",), ("API CK-4",), (), -15.0)
    known = verdict("15W-40, API CK-4", block, coldest=-10.0, fuel_sulphur_ppm=10.0)
    assert "oil.caution_sulphur" not in keys(known.reasons)
    assert "oil.caution_sulphur" in keys(verdict("15W-40, API CK-4", block, coldest=-10.0).reasons)
    high = verdict("15W-40, API CK-4", block, coldest=-10.0, fuel_sulphur_ppm=2000.0)
    assert (high.state, high.reasons[0].key) == ("not shown", "oil.category_not_shown")


@pytest.mark.parametrize(
    ("label", "fuel", "key"),
    [
        ("5W-30, API SP", "diesel", "oil.petrol_only"),
        ("15W-40, API CI-4", "petrol", "oil.diesel_only"),
        ("10W-30, API FA-4", "diesel", "oil.thin_unasked"),
    ],
)
def test_a_category_of_another_engine_is_not_fine_where_the_handbook_is_silent(label: str, fuel: str, key: str):
    block = CallBlock(("5W-30", "15W-40", "10W-30"), (), (), -15.0)
    found = verdict(label, block, coldest=-10.0, fuel=fuel)
    assert found.state == "not shown"
    assert key in keys(found.reasons)


def test_thin_diesel_oil_is_refused_where_ck4_is_asked_for():
    block = CallBlock(("10W-30",), ("API CK-4",), (), -15.0)
    assert verdict("10W-30, API FA-4", block, coldest=-10.0).state == "does not meet"
    assert verdict("10W-30, API FB-4", block, coldest=-10.0).state == "does not meet"
    assert verdict("10W-30, API FA-4/CK-4", block, coldest=-10.0).state == "meets"


def test_a_climate_that_crosses_itself_is_refused():
    with pytest.raises(InputError, match=r"oil\.climate_crossed"):
        verdict(GOOD, coldest=20.0, hottest_day_c=10.0)
    with pytest.raises(InputError, match=r"oil\.interval_crossed"):
        verdict(GOOD, coldest=-20.0, coldest_start_low_c=-10.0)
    with pytest.raises(OutOfRangeError):
        verdict(GOOD, coldest=float("nan"))


def test_resource_conserving_matches_the_ilsac_standard_of_its_category():
    block = CallBlock(("5W-30", "0W-16"), ("ILSAC GF-5",), (), -25.0)
    found = verdict("5W-30, API SP resource conserving", block)
    assert found.state == "meets"
    assert "oil.matches_ilsac" in keys(found.reasons)
    assert verdict("5W-30, API SP", block).state == "not shown"
    assert verdict("5W-30, API SL energy conserving", block).state == "not shown"
    assert verdict("0W-16, API SP resource conserving", block).state != "meets"


@pytest.mark.parametrize("words", ["dpf", "DPF", "particulate filter", "closed particle filter", "GPF"])
def test_a_particle_filter_is_known_by_any_of_its_names(words: str):
    block = CallBlock(("5W-30",), (), (), None)
    assert verdict("5W-30 ACEA A3/B4", block, after_treatment=(words,)).state == "not shown"


def test_an_ash_that_is_only_remembered_names_no_source():
    block = CallBlock(("10W-40",), (), (), None)
    sources = {reason.message.key: reason.sources for reason in verdict("10W-40 ACEA E7", block, after_treatment=("dpf",)).told}
    assert sources["oil.full_ash"] == ()


def test_an_approval_of_other_letters_is_named_beside_the_one_that_is_missing():
    call = OilCall((CallBlock(grades=("5W-30",), categories=("ACEA C3",), approvals=("EX 229.5",)),))
    shown = oil_verdict(call=call, offer=OilOnOffer("x", read_label("5W-30, ACEA C3, approval EX 229 5")), coldest_start_c=-10.0)
    assert shown.state == "not shown"
    assert "the label does not show it, it shows EX 229 5." in render(shown.sentence, Reader())
    silent = oil_verdict(call=call, offer=OilOnOffer("x", read_label("5W-30, ACEA C3")), coldest_start_c=-10.0)
    assert "the label does not show it." in render(silent.sentence, Reader())


@pytest.mark.parametrize(("label", "is_open"), [("15W-40 CI-4", True), ("15W-40 CJ-4", False), ("15W-40 CI-4 ACEA E4", False)])
def test_before_a_filter_a_diesel_category_without_a_limit_of_ash_is_spoken_of(label: str, is_open: bool):
    call = OilCall((CallBlock(grades=("15W-40",), categories=("API CH-4",), approvals=()),))
    found = oil_verdict(call=call, offer=OilOnOffer("x", read_label(label)), fuel="diesel", after_treatment=("dpf",), coldest_start_c=-5.0)
    assert ("oil.ash_not_limited" in [reason.key for reason in found.reasons]) is is_open


def test_two_sentences_in_one_reason_are_not_parted_by_a_comma():
    call = OilCall((CallBlock(grades=("10W-30",), categories=("API CK-4",), approvals=()),))
    found = oil_verdict(call=call, offer=OilOnOffer("x", read_label("10W-30 FA-4")), fuel="diesel", coldest_start_c=-5.0)
    text = render(found.sentence, Reader())
    assert ".," not in text
    assert "called for. A thin diesel" in text

"""What stays in the engine: a share, a band of viscosity, and what both oils carry."""

from __future__ import annotations

import pytest

from twomarks.errors import OutOfRangeError
from twomarks.trade.label import read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict
from twomarks.trade.oil_mixture import mixture_of

BLOCK = CallBlock(("5W-30",), ("ACEA C3",), (), -25.0)


def offer(label: str = "5W-30, ACEA C3", kv100: float | None = None) -> OilOnOffer:
    return OilOnOffer("example", read_label(label), kv100_mm2_s=kv100)


def test_two_oils_of_one_grade_stay_in_it():
    mixture = mixture_of(offer=offer(), in_engine=read_label("5W-30, ACEA C3"), stays_l=0.5, fill_l=4.5)
    assert mixture.share == pytest.approx(0.1)
    assert (mixture.kv100_low_mm2_s, mixture.kv100_high_mm2_s) == (pytest.approx(9.3), pytest.approx(12.5))
    assert (mixture.winter, [str(one) for one in mixture.categories]) == ("5W", ["ACEA C3"])
    assert mixture.cautions


def test_figures_of_both_oils_give_one_viscosity_and_one_grade():
    mixture = mixture_of(
        offer=offer(kv100=12.0), in_engine=read_label("10W-40, API SN"), stays_l=2.0, fill_l=2.0, in_engine_kv100_mm2_s=14.5
    )
    assert mixture.kv100_low_mm2_s == mixture.kv100_high_mm2_s == pytest.approx(13.17, abs=0.01)
    assert (mixture.hot_grades, mixture.winter, mixture.categories) == (("40",), "10W", ())
    assert "oil.mixture_at" in [message.key for message in mixture.messages]


def test_where_a_label_shows_no_grade_no_viscosity_is_made_up():
    mixture = mixture_of(offer=offer(), in_engine=read_label("ACEA C3"), stays_l=0.4, fill_l=4.3)
    assert (mixture.kv100_low_mm2_s, mixture.hot_grades, mixture.winter, mixture.cautions) == (None, (), "", ())


def test_a_category_that_the_other_oil_covers_is_carried_by_both():
    mixture = mixture_of(offer=offer("5W-30, API SP"), in_engine=read_label("5W-30, API SL"), stays_l=0.4, fill_l=4.3)
    assert [str(one) for one in mixture.categories] == ["API SL"]


@pytest.mark.parametrize(("stays", "fill"), [(-0.1, 4.0), (0.4, 0.0), (float("nan"), 4.0), (0.4, -4.0)])
def test_impossible_volumes_are_refused(stays: float, fill: float):
    with pytest.raises(OutOfRangeError):
        mixture_of(offer=offer(), in_engine=read_label("5W-30"), stays_l=stays, fill_l=fill)


def verdict(stays: float, inside: str = "10W-40, API SN") -> OilVerdict:
    return oil_verdict(
        call=OilCall((BLOCK,)), offer=offer(), coldest_start_c=-20.0, in_engine=read_label(inside), stays_l=stays, fill_l=4.0
    )


@pytest.mark.parametrize(
    ("stays", "state", "key"),
    [(0.4, "meets", "oil.mix_small"), (0.8, "meets", "oil.mix_noticeable"), (1.4, "not shown", "oil.mix_grave")],
)
def test_how_much_of_another_oil_may_stay(stays: float, state: str, key: str):
    found = verdict(stays)
    assert found.state == state
    assert key in [reason.key for reason in found.reasons]
    assert [message.key for message in found.settles] == (["oil.settle_mix"] if state == "not shown" else [])


def test_what_stays_of_an_oil_that_meets_the_call_is_no_matter():
    assert verdict(3.0, "SAE 5W-30, ACEA C3-21").state == "meets"


def test_a_share_that_is_not_known_is_only_spoken_of():
    found = oil_verdict(call=OilCall((BLOCK,)), offer=offer(), coldest_start_c=-20.0, in_engine=read_label("10W-40, API SN"))
    assert (found.state, found.mixture) == ("meets", None)


def test_two_oils_of_one_grade_mix_to_that_grade():
    mixture = mixture_of(offer=OilOnOffer("x", read_label("15W-40 CI-4")), in_engine=read_label("10W-40 CH-4"), stays_l=0.4, fill_l=7.0)
    assert mixture.hot_grades == ("40",)

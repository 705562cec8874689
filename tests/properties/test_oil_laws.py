"""Laws of the oil verdict: what is not known never helps, cold never helps, and margins are ranked."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from twomarks.reference.oil_categories import categories
from twomarks.trade.label import read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict
from twomarks.trade.oil_mixture import mixture_of
from twomarks.words import Reader, render

GRADES = ["0W-20", "0W-30", "5W-30", "5W-40", "10W-40", "15W-40", "30"]
KEYS = sorted(key for key, row in categories().items() if row.line != "gear")
LABELS = st.builds(
    lambda grade, keys, approved: ", ".join([grade, *keys, *(["approval EX 229-5"] if approved else [])]),
    st.sampled_from(GRADES),
    st.lists(st.sampled_from(KEYS), max_size=3, unique=True),
    st.booleans(),
)
BLOCKS = st.builds(
    CallBlock,
    st.none() | st.lists(st.sampled_from(GRADES), max_size=3).map(tuple),
    st.none() | st.lists(st.sampled_from(KEYS), max_size=3).map(tuple),
    st.none() | st.sampled_from([(), ("EX 229-5",)]),
    st.none() | st.floats(-40.0, 0.0),
    st.none() | st.floats(20.0, 50.0),
)
CALLS = st.lists(BLOCKS, max_size=3).map(lambda blocks: OilCall(tuple(blocks)))
COLD = st.none() | st.floats(-50.0, 10.0)
HOT = st.none() | st.floats(11.0, 50.0)
FILTERS = st.sampled_from([(), ("dpf",), ("gpf", "scr")])
FUELS = st.sampled_from(["", "petrol", "diesel"])
RANK = {"does not meet": 0, "not shown": 1, "meets": 2}


def verdict(call: OilCall, label: str, cold: float | None, hot: float | None, fuel: str, after: tuple[str, ...]) -> OilVerdict:
    offer = OilOnOffer("example", read_label(label))
    return oil_verdict(call=call, offer=offer, fuel=fuel, after_treatment=after, coldest_start_c=cold, hottest_day_c=hot)


@given(CALLS, LABELS, COLD, HOT, FUELS, FILTERS)
def test_a_verdict_has_its_sentence_its_reasons_and_what_settles_it(call, label, cold, hot, fuel, after):
    found = verdict(call, label, cold, hot, fuel, after)
    assert found.reasons
    assert bool(found.settles) == (found.state == "not shown")
    assert [one.relative for one in found.margins] == sorted(one.relative for one in found.margins)
    for message in (found.sentence, *found.reasons, *found.settles, *(one.message for one in found.margins)):
        assert "{" not in render(message, Reader())
    if found.state == "meets":
        assert all(reason.state in ("meets", "") for reason in found.told)


@given(BLOCKS, LABELS, COLD, HOT, st.sampled_from(["grades", "categories", "approvals"]))
def test_what_nobody_has_looked_up_is_never_met(block, label, cold, hot, name):
    assert verdict(OilCall((replace(block, **{name: None}),)), label, cold, hot, "", ()).state != "meets"


@given(CALLS, LABELS, st.floats(-40.0, 10.0), st.floats(0.0, 10.0), HOT)
def test_a_colder_start_never_helps(call, label, cold, colder, hot):
    warm, cool = (verdict(call, label, at, hot, "", ()) for at in (cold, cold - colder))
    assert RANK[cool.state] <= RANK[warm.state]


@given(CALLS, LABELS, st.floats(-40.0, 10.0), HOT)
def test_the_order_of_the_label_does_not_matter(call, label, cold, hot):
    turned = ", ".join(reversed(label.split(", ")))
    assert verdict(call, label, cold, hot, "", ()).state == verdict(call, turned, cold, hot, "", ()).state


@given(CALLS, LABELS, COLD, HOT)
def test_taking_the_approval_off_a_label_never_helps(call, label, cold, hot):
    bare = label.replace(", approval EX 229-5", "")
    assert RANK[verdict(call, bare, cold, hot, "", ()).state] <= RANK[verdict(call, label, cold, hot, "", ()).state]


@given(LABELS, LABELS, st.floats(0.0, 5.0), st.floats(0.1, 10.0), st.floats(2.0, 30.0), st.floats(2.0, 30.0))
def test_a_mixture_lies_between_its_oils_and_its_share_between_none_and_all(new, old, stays, fill, kv_new, kv_old):
    offer = OilOnOffer("example", read_label(new), kv100_mm2_s=kv_new)
    mixture = mixture_of(offer=offer, in_engine=read_label(old), stays_l=stays, fill_l=fill, in_engine_kv100_mm2_s=kv_old)
    assert 0.0 <= mixture.share < 1.0
    assert min(kv_new, kv_old) * (1 - 1e-9) <= mixture.kv100_low_mm2_s == mixture.kv100_high_mm2_s <= max(kv_new, kv_old) * (1 + 1e-9)

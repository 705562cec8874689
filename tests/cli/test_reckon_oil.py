"""`twomarks reckon oil`: the verdict as a sentence, its reasons, margins and exit code."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError, OutOfRangeError

LABEL = "label=SAE 0W-30, ACEA C3-21, approval EX 229-5"
CALL = ("grades=0W-30, 5W-30", "categories=ACEA C3", "approvals=EX 229-5", "handbook-coldest=-30 C")
SHEET = ("kv40=63.8 mm2/s", "kv100=12.0 mm2/s", "hths=3.5 mPa.s", "ccs=5800 mPa.s", "ccs-at=-35 C", "ash=0.78 %", "tbn=8.1 mg KOH/g")


def test_an_oil_that_meets_ends_with_nought_and_says_its_closest_limit():
    found = answered("oil", LABEL, "name=Example", *CALL, *SHEET, "coldest=-20 C")
    assert (found.results["verdict"], found.exit_code) == ("meets", 0)
    assert told(found).startswith("Example: it meets what the handbook asks for; the closest limit: high-shear viscosity 3.5 mPa·s")
    assert "The data sheet gives 0.78% sulphated ash; ACEA C3 allows up to 0.80%." in told(found)


def test_margins_stand_from_the_closest_limit_up():
    relative = [row["relative"] for row in answered("oil", LABEL, *CALL, *SHEET, "coldest=-20 C").results["margins"]]
    assert len(relative) > 5
    assert relative == sorted(relative)


@pytest.mark.parametrize("approvals", ["approvals=not looked", ""])
def test_nobody_looked_whether_an_approval_is_asked_for(approvals: str):
    words = [word for word in (LABEL, *CALL[:2], approvals, CALL[3], "coldest=-20 C") if word]
    found = answered("oil", *words)
    assert (found.results["verdict"], found.exit_code) == ("not shown", 1)
    assert "Nobody has looked up whether the handbook asks for an approval." in told(found)
    assert '"none" is an answer too' in told(found)


def test_an_approval_that_is_asked_for_and_none_are_two_answers():
    without = "label=SAE 0W-30, ACEA C3-21"
    assert answered("oil", without, *CALL[:2], "approvals=none", CALL[3], "coldest=-20 C").exit_code == 0
    assert answered("oil", without, *CALL, "coldest=-20 C").results["verdict"] == "not shown"


def test_what_a_label_only_claims_is_kept_apart():
    found = answered("oil", "label=0W-30, ACEA C3; suitable for EX 229-5", *CALL, "coldest=-20 C")
    assert found.results["verdict"] == "not shown"
    assert "the seller's own word and no approval" in told(found)


def test_nothing_looked_up_says_what_to_fetch():
    found = answered("oil", LABEL)
    assert (found.results["verdict"], found.exit_code) == ("not shown", 1)
    assert "What would settle it: The page of the handbook on engine oil" in told(found)


def test_what_stays_in_the_engine_is_reckoned_with_its_caution():
    words = (LABEL, *CALL, "coldest=-20 C", "kv100=12.0 mm2/s", "in-engine=10W-40, API SN", "stays=0.4 L", "fill=4.3 L")
    found = answered("oil", *words)
    assert found.results["verdict"] == "meets"
    assert found.results["share_of_old_oil"] == pytest.approx(0.4 / 4.7)
    assert found.results["mixture_grades"] == ["30"]
    assert "count on 10W" in told(found)
    assert "astm_d7152" in found.sources
    grave = answered("oil", *words[:-2], "stays=2.0 L", "fill=4.3 L")
    assert grave.results["verdict"] == "not shown"
    assert "More of the old oil drained" in told(grave)


def test_fahrenheit_and_quarts_are_read_in_their_units():
    found = answered("oil", LABEL, *CALL, "coldest=-4 F", "in-engine=5W-30 ACEA C3", "stays=0.5 US qt", "fill=4.5 US qt", market="us")
    assert found.results["share_of_old_oil"] == pytest.approx(0.1)
    assert "−4 °F" in told(found, market="us")


def test_impossible_figures_are_refused_by_name():
    with pytest.raises(InputError, match=r"oil\.sheet_crossed"):
        answered("oil", LABEL, "kv40=12 mm2/s", "kv100=63.8 mm2/s")
    with pytest.raises(OutOfRangeError) as refused:
        answered("oil", LABEL, "in-engine=5W-30", "stays=-1 L", "fill=4 L")
    assert refused.value.values["quantity"] == "volume"
    with pytest.raises(InputError, match=r"oil\.climate_crossed"):
        answered("oil", LABEL, "coldest=20 C", "hottest=10 C")


def test_as_json_every_reason_says_what_it_comes_to():
    found = answered_json("oil", "label=5W-40, ACEA A3/B4", *CALL, "coldest=-20 C", "after-treatment=dpf")
    assert found["results"]["verdict"] == "does not meet"
    reasons = {row["reason"]: row for row in found["results"]["reasons"]}
    assert reasons["category_excluded"]["comes_to"] == "does not meet"
    assert reasons["category_excluded"]["sources"] == "acea_limits"
    assert reasons["grade_not_listed"]["sources"] is None


def test_margins_are_said_from_the_closest():
    text = told(answered("oil", "label=5W-30, ACEA C3", "grades=5W-30", "categories=ACEA C3", "approvals=none", "coldest=-20 C"))
    assert "the closest limit: coldest start −20 °C, tested to crank at −30 °C." in text
    assert "Next closest: coldest start −20 °C, tested to pump at −35 °C." in text
    refused = told(answered("oil", "label=5W-30", "grades=5W-30", "categories=ACEA C3", "approvals=none", "coldest=-20 C"))
    assert "Closest to a limit: coldest start −20 °C" in refused

"""`twomarks reckon category` and `label`: the answer in words, its source and how far it was seen."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import DocumentError, InputError


@pytest.mark.parametrize(
    ("have", "asked", "covered", "status"),
    [
        ("API CJ-4", "ci-4+", "yes", "a"),
        ("API SP", "SL", "yes", "a2"),
        ("API FA-4", "API CK-4", "no", "a2"),
        ("API FB-4", "API CK-4", "no", "d"),
        ("API CK-4", "API CF-4", "not shown", "d"),
        ("API CH-4", "API CG-4", "not shown", "c"),
    ],
)
def test_the_answer_and_how_far_it_was_seen(have: str, asked: str, covered: str, status: str):
    found = answered("category", f"have={have}", f"asked={asked}")
    assert (found.results["covered"], found.results["status"]) == (covered, status)
    assert found.sources
    assert found.exit_code == 0
    if status == "c":
        assert "rests on memory" in told(found)


def test_the_fuels_sulphur_and_the_filter_are_reasons():
    plain = answered("category", "have=CK-4", "asked=CJ-4", "sulphur=10 ppm")
    assert plain.cautions == ()
    sulphur = answered("category", "have=CK-4", "asked=CJ-4", "sulphur=50 ppm")
    assert "The fuel has 50 ppm sulphur: above 15 ppm" in told(sulphur)
    above = answered("category", "have=CK-4", "asked=CJ-4", "sulphur=1000 ppm")
    assert above.results["covered"] == "not shown"
    assert "at most 500 ppm" in told(above)
    assert "blocks a particle filter" in told(answered("category", "have=ACEA A3/B4", "asked=ACEA A3/B4", "after-treatment=dpf"))


def test_an_open_answer_says_what_would_settle_it():
    assert "What would settle it: Whether the handbook itself" in told(answered("category", "have=API CL-4", "asked=API CK-4"))


def test_an_unknown_category_is_refused_with_an_example():
    with pytest.raises(InputError) as refused:
        answered("category", "have=XQ 9", "asked=API CK-4")
    assert (refused.value.key, refused.value.values["found"]) == ("oil.category_unknown", "XQ 9")


def test_missing_and_unknown_values_are_told_at_once():
    with pytest.raises(DocumentError) as refused:
        answered("category", "hav=API SP")
    assert {fault.key for fault in refused.value.faults} == {"reckon.key", "reckon.missing"}


def test_a_label_says_what_it_says_and_what_was_not_understood():
    found = answered("label", "text=5W-30; API SP/CK-4; ACEA 2021 C3; approved EX 229-5; meets EX 9; zoom", market="uk")
    assert found.results == {
        "fluid": "engine oil",
        "grade": "5W-30",
        "categories": ["API SP", "API CK-4", "ACEA C3-21"],
        "approvals": ["EX 229-5"],
        "marks": [],
        "claims": ["EX 9"],
        "not_understood": ["zoom"],
    }
    assert "no approval and no category: EX 9" in told(found)
    assert "Not understood: zoom." in told(found)


def test_a_label_of_another_fluid_and_an_empty_one():
    assert "Fluid: brake fluid." in told(answered("label", "text=DOT 5.1"))
    assert "Viscosity grade of a gear oil: 75W-90." in told(answered("label", "text=75W-90 GL-5 LS"))
    assert "The label says nothing." in told(answered("label", "text=,"))


def test_as_json_the_sources_carry_their_status():
    found = answered_json("category", "have=API CJ-4", "asked=API CI-4")
    assert found["results"]["covered"] == "yes"
    assert [(source["key"], source["status"]) for source in found["sources"]] == [("api_cj4", "a")]


def test_a_label_that_is_too_early_or_too_old_is_told_by_the_day():
    early = told(answered("label", "text=15W-40 API CL-4"))
    assert "API CL-4 can be claimed from 1 January 2027 on" in early
    old = told(answered("category", "have=ACEA C3-16", "asked=ACEA C3"))
    assert "could be marketed until 1 May 2023" in old
    assert "marketed" not in told(answered("label", "text=5W-30 ACEA C3-23"))


def test_clutch_indices_give_a_class():
    assert answered("clutch-class", "dynamic=1.8", "static=1.9", "stop=1.85").results["classes"] == ["MA", "MA2"]
    assert "has no class for wet clutches" in told(answered("clutch-class", "dynamic=1.0", "static=1.9", "stop=1.85"))


def test_a_verdict_of_one_step_is_said_once():
    assert told(answered("category", "have=API FA-4", "asked=API CK-4")).count("may not be used where") == 1
    assert "do not say it outright" in told(answered("category", "have=API CK-4", "asked=API CG-4"))


@pytest.mark.parametrize(
    ("text", "sources"),
    [
        ("5W-30, API SP", ("sae_j300", "api_guide")),
        ("75W-90", ("sae_j306",)),
        ("coolant, ethylene glycol", ("house_judgement",)),
    ],
)
def test_a_label_names_the_sources_of_what_was_read_on_it(text: str, sources: tuple[str, ...]):
    assert answered("label", f"text={text}").sources == sources

"""What a label says, in the spellings that people type."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError
from twomarks.trade.categories import parse_category
from twomarks.trade.grades import parse_grade
from twomarks.trade.label import Label, read_label


def said(label: Label) -> tuple[str, list[str], tuple[str, ...]]:
    return str(label.grade), [str(category) for category in label.categories], label.approvals


@pytest.mark.parametrize(
    "text",
    [
        "SAE 5W-30, API SP/CK-4, ACEA C3-21, approval EX 229-5",
        "sae 5w30 api sp / ck-4 acea c3-2021 approval ex 229-5",
        "5W-30\nAPI SP/CK-4\nACEA C3-21\nApproved: EX 229-5",
        "5W/30; API Service SP/CK-4; ACEA C3 (2021); EX 229-5 approved",
    ],
)
def test_one_label_in_many_spellings(text: str):
    grade, categories, approvals = said(read_label(text))
    assert (grade, categories) == ("5W-30", ["API SP", "API CK-4", "ACEA C3-21"])
    assert [approval.upper() for approval in approvals] == ["EX 229-5"]


def test_seller_words_are_claims_and_nothing_else():
    label = read_label("5W-40, API SN; meets EX 502-3, EX 501-1; suitable for use where ACEA C3 is called for")
    assert said(label) == ("5W-40", ["API SN"], ())
    assert label.claims == ("EX 502-3", "EX 501-1", "ACEA C3 is called for")


@pytest.mark.parametrize(
    "text",
    ["not approved to EX 229-5", "approval pending EX 229-5", "requires approval EX 229-5", "for engines with approval EX 229-5 required"],
)
def test_an_approval_that_is_wanted_or_pending_or_denied_is_none(text: str):
    assert read_label(f"5W-30; {text}").approvals == ()


@pytest.mark.parametrize(
    "words",
    [
        "formerly approval EX 229-5",
        "lacks approval EX 229-5",
        "similar to oils with approval EX 229-5",
        "replaces oils with approval EX 229-5",
        "based on approved EX 229-5",
        "cannot be approved EX 229-5",
        "isn't approved to EX 229-5",
        "for vehicles with approval EX 229-5",
        "approved: see handbook, EX 229-5",
        "self-approved EX 229-5",
        "Dealer approved EX 229-5",
        "approval EX 229-5, withdrawn",
        "approval EX 229-5, applied for",
    ],
)
def test_words_around_an_approval_that_leave_it_in_doubt_make_it_a_claim(words: str):
    label = read_label(f"SAE 5W-30, ACEA C2; {words}")
    assert (label.approvals, str(label.grade)) == ((), "5W-30")
    assert any("EX 229-5" in claim for claim in label.claims)


@pytest.mark.parametrize(
    "words",
    [
        "not ACEA C3",
        "NOT ACEA C3",
        "non ACEA C3",
        "without ACEA C3",
        "do not use where ACEA C3 is required",
        "ACEA C3 level",
        "ACEA C3 QUALITY",
        "ACEA C3-like",
        "ACEA C3 equivalent",
        "similar to ACEA C3",
        "reaches ACEA C3",
        "in the manner of ACEA C3",
        "for ACEA C3 engines",
        "replaces ACEA C3",
        "surpasses ACEA C3",
        "ACEA C3 withdrawn",
        "ACEA C3 (pending)",
        "ACEA C3, applied for",
        "ACEA C3 not met",
        "not ACEA C2, C3",
        "ACEA C3?",
    ],
)
def test_words_beside_a_category_that_leave_it_in_doubt_make_it_a_claim(words: str):
    label = read_label(f"SAE 5W-30; {words}; approval EX 229-5")
    assert (label.categories, label.approvals, str(label.grade)) == ((), ("EX 229-5",), "5W-30")
    assert any("C3" in claim for claim in label.claims)


@pytest.mark.parametrize(
    "text",
    ["behaves as SAE 5W-30", "replaces 5W-30", "5W-30-like", "meets 5W-30", "SAE 10W-40 and SAE 5W-30", "suitable where 5W-30 is asked"],
)
def test_a_grade_that_an_oil_is_only_like_or_one_of_two_is_not_its_grade(text: str):
    assert read_label(f"{text}; ACEA C3").grade is None


@pytest.mark.parametrize(
    "text",
    [
        "Fully synthetic engine oil 5W-30 ACEA C3, API SP. Approvals: EX 229-5 / EX 52-D. Meets EX 9-9.",
        "High performance motor oil, SAE 5W-30, Specifications: ACEA C3 and API SP, approved by the maker: EX 229-5 and EX 52-D",
        "LOWMOOR LONG SAE 5W-30 ACEA C3 API SP RESOURCE CONSERVING; MANUFACTURER APPROVALS EX 229-5, EX 52-D",
        "5 L 5w-30 acea c3 api sp; ex 229-5 and ex 52-d approved",
    ],
)
def test_a_plain_label_keeps_what_it_says_among_other_words(text: str):
    grade, categories, approvals = said(read_label(text))
    assert (grade, categories) == ("5W-30", ["ACEA C3", "API SP"])
    assert [approval.upper() for approval in approvals] == ["EX 229-5", "EX 52-D"]


def test_an_approval_after_a_claim_is_one_only_where_it_is_said_anew():
    assert read_label("meets EX 1-1 and approved to EX 2-2").approvals == ("EX 2-2",)
    assert read_label("suitable for EX 1-1 approval").approvals == ()


def test_what_is_not_understood_is_listed():
    label = read_label("0W-20 ILSAC GF-6A API SP resource conserving, sparkling, EX 31")
    assert said(label) == ("0W-20", ["ILSAC GF-6A", "API SP"], ())
    assert (label.not_understood, label.marks) == (("sparkling", "EX 31"), ("resource conserving",))


@pytest.mark.parametrize(
    ("text", "categories"),
    [
        ("API CI-4 PLUS/SL", ["API CI-4 PLUS", "API SL"]),
        ("ci-4+", ["API CI-4 PLUS"]),
        ("ACEA A3/B4-2016 API SN/CF", ["ACEA A3/B4-16", "API SN", "API CF"]),
        ("ACEA C2/C3", ["ACEA C2", "ACEA C3"]),
        ("C3", ["ACEA C3"]),
        ("JASO T903 MA2", ["JASO MA2"]),
        ("API GL-5", ["API GL-5"]),
        ("super oil for all", []),
    ],
)
def test_categories(text: str, categories: list[str]):
    assert [str(category) for category in read_label(text).categories] == categories


@pytest.mark.parametrize(
    ("text", "grade"),
    [("75W-90", "75W-90"), ("SAE 80W90", "80W-90"), ("SAE 30", "30"), ("10W", "10W"), ("SAE 90", "90"), ("7W-30", "None"), ("", "None")],
)
def test_grades(text: str, grade: str):
    assert str(read_label(text).grade) == grade


@pytest.mark.parametrize("text", ["", "W", "6W-30", "5W-33", "75W-90", "5W-30-40", "SAE"])
def test_no_grade_is_refused(text: str):
    with pytest.raises(InputError) as told:
        parse_grade(text)
    assert told.value.key == "oil.grade_unknown"


@pytest.mark.parametrize("text", ["", "API", "XQ 99", "ACEA C9", "C3 and more", "EX 229-5"])
def test_no_category_is_refused(text: str):
    with pytest.raises(InputError) as told:
        parse_category(text)
    assert told.value.key == "oil.category_unknown"


@pytest.mark.parametrize(
    ("text", "categories"),
    [
        ("API SP/SN PLUS", ["API SP", "API SN PLUS"]),
        ("api:sp", ["API SP"]),
        ("API-SP & CK-4", ["API SP", "API CK-4"]),
        ("API SP or CK-4, ACEA E7", ["API SP", "API CK-4", "ACEA E7"]),
        ("API CK-4 / E9 / DH-2", ["API CK-4", "ACEA E9", "JASO DH-2"]),
        ("ACEA A3/B3/B4", ["ACEA A3/B3", "ACEA A3/B4"]),
        ("ACEA A3/B4, C3", ["ACEA A3/B4", "ACEA C3"]),
        ("ACEA 2016 A3/B4, C3", ["ACEA A3/B4-16", "ACEA C3-16"]),
        ("ACEA C3 2021", ["ACEA C3-21"]),
        ("ACEA C3 (2004)", ["ACEA C3-04"]),
        ("ACEA A3-98", []),
        ("C3-21", ["ACEA C3-21"]),
        ("JASO MA-2", ["JASO MA2"]),
        ("JASO T 903: MA/MA2", ["JASO MA", "JASO MA2"]),
        ("JASO DH-2F/DL-0", ["JASO DH-2F", "JASO DL-0"]),
        ("API CL-4/CK-4", ["API CL-4", "API CK-4"]),
        ("API FB-4", ["API FB-4"]),
        ("ILSAC GF-7A", ["ILSAC GF-7A"]),
        ("ILSAC GF-6", []),
        ("API GL-4/GL-5/MT-1", ["API GL-4", "API GL-5", "API MT-1"]),
        ("API GL-4+", []),
        ("petrol E5 and E10", []),
        ("ACEA E5", ["ACEA E5"]),
    ],
)
def test_lists_editions_and_other_issuers(text: str, categories: list[str]):
    assert [str(category) for category in read_label(text).categories] == categories


@pytest.mark.parametrize(
    ("text", "fluid", "marks"),
    [
        ("5W-30 API SP (Resource Conserving)", "engine oil", ("resource conserving",)),
        ("75W-90 GL-5 LS", "gear oil", ("limited slip",)),
        ("80W-90 GL-5, limited-slip", "gear oil", ("limited slip",)),
        ("API GL-5 for limited slip axles", "gear oil", ()),
        ("DOT 4", "brake fluid", ("DOT 4",)),
        ("Brake fluid DOT5.1, ISO 4925 class 6", "brake fluid", ("DOT 5.1", "brake fluid", "ISO 4925")),
        ("not DOT 5", "", ()),
        ("replaces DOT 3", "", ()),
        ("Coolant, Si-OAT, ethylene glycol, ASTM D3306", "coolant", ("coolant", "Si-OAT", "ethylene glycol", "ASTM D3306")),
        ("Antifreeze", "coolant", ("coolant",)),
        ("ATF", "automatic gearbox fluid", ("automatic gearbox fluid",)),
        ("2-stroke oil JASO FD, API TC", "two-stroke oil", ("two-stroke oil", "JASO FD", "API TC")),
        ("SAE HD-30", "engine oil", ()),
        ("", "", ()),
    ],
)
def test_a_label_of_another_fluid_is_told_apart(text: str, fluid: str, marks: tuple[str, ...]):
    label = read_label(text)
    assert (label.fluid, set(label.marks)) == (fluid, set(marks))


@pytest.mark.parametrize(
    ("text", "grade"), [("HD 30", "30"), ("SAE HD-40", "40"), ("monograde 50", "50"), ("straight 30", "30"), ("SAE 20W", "20W")]
)
def test_single_grades(text: str, grade: str):
    assert str(read_label(text).grade) == grade


def test_a_mark_in_doubt_is_not_dropped():
    assert read_label("not DOT 5").not_understood == ("not DOT 5",)
    assert read_label("API GL-5 for limited slip axles").not_understood == ("for limited slip axles",)


def test_a_text_longer_than_a_label_is_refused() -> None:
    with pytest.raises(InputError, match=r"label\.too_long"):
        read_label("approved " * 200)


@pytest.mark.parametrize("text", ["0W-20, API SP-RC, ILSAC GF-6A", "0w20 api sp-rc ilsac gf-6a", "0W-20 API SP rc ILSAC GF-6A"])
def test_resource_conserving_is_read_in_any_case(text: str):
    label = read_label(text)
    assert [str(category) for category in label.categories] == ["API SP", "ILSAC GF-6A"]
    assert label.marks == ("resource conserving",)
    assert label.claims == ()

"""Service categories against what their issuers print.

Sources: category description of API CJ-4 (status a); Technical Bulletin 1 of 2016 and trade press on CK-4 (a2); an additive
industry page on FA-4 (a2); API motor oil guide, petrol and diesel (a2); press copies of the release on CL-4 and FB-4 (a, without
the user language); supplier pages on ACEA (a2) and JASO T 903 (a2).
"""

from __future__ import annotations

import pytest

from twomarks.trade.categories import covers

OLDER_DIESEL = ["CI-4 PLUS", "CI-4", "CH-4", "CG-4", "CF-4"]


@pytest.mark.parametrize("asked", OLDER_DIESEL)
def test_cj4_covers_what_its_description_names(asked: str):
    cover = covers("API CJ-4", f"API {asked}")
    assert (cover.covered, cover.status) == ("yes", "a")
    assert [caution.key for caution in cover.cautions] == ["oil.caution_sulphur"]


@pytest.mark.parametrize("asked", ["CJ-4", "CI-4 PLUS", "CI-4", "CH-4"])
def test_ck4_covers_what_its_text_names(asked: str):
    assert covers("API CK-4", f"API {asked}").covered == "yes"


@pytest.mark.parametrize("asked", ["CG-4", "CF-4"])
def test_ck4_stops_at_ch4(asked: str):
    cover = covers("API CK-4", f"API {asked}")
    assert cover.covered == "not shown"
    assert len(cover.steps) == 2


@pytest.mark.parametrize("thin", ["FA-4", "FB-4"])
@pytest.mark.parametrize("asked", ["CL-4", "CK-4", "CJ-4", *OLDER_DIESEL, "CF-2", "CF"])
def test_thin_diesel_categories_stand_in_for_nothing(thin: str, asked: str):
    assert covers(f"API {thin}", f"API {asked}").covered == "no"


@pytest.mark.parametrize("have", ["CK-4", "CJ-4", "CI-4 PLUS", "CI-4", "CH-4"])
def test_nothing_stands_in_for_fa4(have: str):
    assert covers(f"API {have}", "API FA-4").covered == "no"


@pytest.mark.parametrize("have", ["CL-4", "CK-4", "CH-4"])
@pytest.mark.parametrize("asked", ["CF", "CF-2", "CD"])
def test_diesel_is_never_inferred_by_newness(have: str, asked: str):
    assert covers(f"API {have}", f"API {asked}").covered == "not shown"


def test_every_petrol_category_covers_every_earlier_one_and_no_later_one():
    order = ["SQ", "SP", "SN PLUS", "SN", "SM", "SL", "SJ", "SH", "SG"]
    for newer, have in enumerate(order):
        for older, asked in enumerate(order):
            assert covers(f"API {have}", f"API {asked}").covered == ("yes" if newer <= older else "no")


@pytest.mark.parametrize(
    ("have", "asked", "covered"),
    [
        ("ACEA C3-21", "ACEA C3", "yes"),
        ("ACEA C3-21", "ACEA C3-16", "yes"),
        ("ACEA C3-16", "ACEA C3-21", "not shown"),
        ("ACEA C3", "ACEA C3-21", "not shown"),
        ("ACEA A3/B4", "ACEA C3", "no"),
        ("ACEA A5/B5", "ACEA C2", "no"),
        ("ACEA C3", "ACEA C4", "no"),
        ("ACEA C2", "ACEA C4", "no"),
        ("ACEA C2", "ACEA C3", "no"),
        ("ACEA C5", "ACEA C3", "no"),
        ("ACEA A5/B5", "ACEA A3/B4", "no"),
        ("ACEA A7/B7", "ACEA A3/B4", "no"),
        ("ACEA C6", "ACEA C4", "no"),
        ("ACEA C7", "ACEA C3", "no"),
        ("ACEA C3", "ACEA A3/B4", "not shown"),
        ("ACEA C6", "ACEA C5", "not shown"),
        ("JASO MA2", "JASO MA", "yes"),
        ("JASO MB", "JASO MA", "no"),
        ("JASO MA", "JASO MA2", "not shown"),
        ("API SP", "API CK-4", "not shown"),
        ("ILSAC GF-6B", "ILSAC GF-5", "no"),  # from memory
        ("ILSAC GF-6A", "ILSAC GF-5", "not shown"),  # only from memory, never a yes
    ],
)
def test_classes(have: str, asked: str, covered: str):
    assert covers(have, asked).covered == covered

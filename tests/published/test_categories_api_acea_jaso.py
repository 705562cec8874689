"""Service categories against what their issuers print.

Sources: category description of API CJ-4 (status a); Technical Bulletin 1 of 2016 and trade press on CK-4 (a2); an additive
industry page on FA-4 (a2); API motor oil guide, petrol and diesel (a2); press copies of the release on CL-4 and FB-4 (a, without
the user language); supplier pages on ACEA (a2) and JASO T 903 (a2).
"""

from __future__ import annotations

import pytest

from twomarks.reference.oil_categories import categories, category_steps
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
    ],
)
def test_classes(have: str, asked: str, covered: str):
    assert covers(have, asked).covered == covered


ILSAC = [
    # trade magazine of July 2015 (a2): "each prior step in the GF series has been backwards compatible"
    ("GF-5", "GF-4", "yes"),
    ("GF-5", "GF-3", "yes"),
    # reference pages for car owners (a2): GF-6A "broadly backward compatible with applications that called for the earlier GF-5"
    ("GF-6A", "GF-5", "yes"),
    ("GF-6A", "GF-4", "yes"),
    ("GF-5", "GF-6A", "no"),
    # the same pages (a2): GF-6B "is not a drop-in replacement for thicker oils"; GF-7B treated like it
    ("GF-6B", "GF-5", "no"),
    ("GF-6B", "GF-6A", "no"),
    ("GF-6B", "GF-7A", "no"),
    ("GF-7B", "GF-6A", "no"),
    ("GF-7B", "GF-5", "no"),
    # "newer" is no match by itself (a2): what GF-7A includes was not seen
    ("GF-7A", "GF-6A", "not shown"),
    ("GF-7B", "GF-6B", "not shown"),
]


@pytest.mark.parametrize(("have", "asked", "covered"), ILSAC)
def test_ilsac_goes_back_but_for_its_thin_branch(have: str, asked: str, covered: str):
    assert covers(f"ILSAC {have}", f"ILSAC {asked}").covered == covered


@pytest.mark.parametrize(("ilsac", "api"), [("GF-7A", "SQ"), ("GF-6A", "SP"), ("GF-5", "SN"), ("GF-6A", "SN"), ("GF-7A", "SJ")])
def test_an_ilsac_oil_is_one_of_its_api_category_and_the_earlier_ones(ilsac: str, api: str):
    """API guide (a2): "API SP with Resource Conserving matches ILSAC GF-6A by combining API SP performance with ..."."""
    assert covers(f"ILSAC {ilsac}", f"API {api}").covered == "yes"
    assert covers(f"API {api}", f"ILSAC {ilsac}").covered == "not shown"


@pytest.mark.parametrize("asked", ["CH-4", "CG-4", "CF-4", "CE", "CD"])
def test_ci4_may_be_used_in_place_of_what_the_guide_names(asked: str):
    """API motor oil guide of about 2007, a copy (a2): "Can be used in place of CD, CE, CF-4, CG-4, and CH-4 oils."."""
    assert covers("API CI-4", f"API {asked}").covered == "yes"
    assert covers(f"API {asked}", "API CI-4").covered == "not shown"


@pytest.mark.parametrize("asked", ["CE", "CD"])
def test_what_ci4_covers_is_not_handed_on_to_cj4(asked: str):
    cover = covers("API CJ-4", f"API {asked}")
    assert cover.covered == "not shown"
    assert "oil.chain_not_said" in [caution.key for caution in cover.cautions]


@pytest.mark.parametrize(("have", "asked"), [("CI-4", "CJ-4"), ("CH-4", "CJ-4"), ("CJ-4", "CK-4"), ("CH-4", "CK-4")])
def test_what_a_newer_diesel_category_exceeds_does_not_reach_it(have: str, asked: str):
    """CJ-4 description (a): "exceed the performance criteria of"; of CK-4 the same (a2)."""
    assert covers(f"API {have}", f"API {asked}").covered == "no"


@pytest.mark.parametrize("asked", ["CK-4", "CJ-4", "CI-4 PLUS", "CI-4", "CH-4"])
def test_cl4_was_expected_to_go_back_and_is_not_shown_to(asked: str):
    """An article before the approval (a2): "is likely to ... be backward compatible to older categories"; no user language seen."""
    cover = covers("API CL-4", f"API {asked}")
    assert (cover.covered, [step.key for step in cover.steps]) == ("not shown", ["oil.open_expected"])
    assert cover.settles


@pytest.mark.parametrize("thin", ["FA-4", "FB-4"])
def test_nothing_at_all_is_covered_by_a_thin_diesel_category_but_itself(thin: str):
    for key in categories():
        assert covers(f"API {thin}", key).covered == ("yes" if key == f"API {thin}" else "no")


FUELS = [
    # CJ-4 description (a): up to 500 ppm; above 15 ppm after-treatment and interval may suffer
    ("API CJ-4", 10.0, "yes", None),
    ("API CJ-4", 15.0, "yes", None),
    ("API CJ-4", 50.0, "yes", "oil.sulphur_minded"),
    ("API CJ-4", 501.0, "not shown", "oil.sulphur_above"),
    ("API CK-4", 500.0, "yes", "oil.sulphur_minded"),
    # FA-4 page (a2): "not recommended for use with fuels having greater than 15 ppm sulfur"
    ("API FA-4", 15.0, "yes", None),
    ("API FA-4", 16.0, "not shown", "oil.sulphur_above"),
    # API guide (a2): CI-4 for fuel of up to 0.5 % sulphur
    ("API CI-4", 5000.0, "yes", None),
    ("API CI-4", 5001.0, "not shown", "oil.sulphur_above"),
    # pages on JASO M 355 (a2): DH-2 for at most 0.005 %
    ("JASO DH-2", 51.0, "not shown", "oil.sulphur_above"),
]


@pytest.mark.parametrize(("category", "ppm", "covered", "key"), FUELS)
def test_sulphur_in_the_fuel_is_a_reason(category: str, ppm: float, covered: str, key: str | None):
    cover = covers(category, category, fuel_sulphur_ppm=ppm)
    told = {message.key for message in (*cover.steps, *cover.cautions)}
    assert cover.covered == covered
    assert told & {"oil.sulphur_minded", "oil.sulphur_above"} == ({key} if key else set())


def test_sulphur_that_is_not_known_is_spoken_of():
    assert [caution.key for caution in covers("API CK-4", "API CK-4").cautions] == ["oil.caution_sulphur"]


LIMITS = [
    # class, least and most high-shear viscosity, sulphated ash: supplier charts and additive makers' pages (a2)
    ("ACEA A3/B4", 3.5, None, 1.6),
    ("ACEA A5/B5", 2.9, 3.5, 1.6),
    ("ACEA A7/B7", 2.9, 3.5, 1.6),
    ("ACEA C2", 2.9, None, 0.8),
    ("ACEA C3", 3.5, None, 0.8),
    ("ACEA C4", 3.5, None, 0.5),
    ("ACEA C5", 2.6, 2.9, 0.8),
    ("ACEA C6", 2.6, 2.9, 0.8),
    ("ACEA E4", 3.5, None, 2.0),
    ("API FA-4", 2.9, 3.2, 1.0),
    ("API CK-4", 3.5, None, 1.0),
    # T 903:2023 (a2): sulphated ash at most 1.2 %, high-shear viscosity at least 2.9
    ("JASO MA", 2.9, None, 1.2),
    ("JASO MA2", 2.9, None, 1.2),
]


@pytest.mark.parametrize(("key", "least", "most", "ash"), LIMITS)
def test_the_limits_of_a_class(key: str, least: float, most: float | None, ash: float):
    row = categories()[key]
    assert (row.hths_min_mpa_s.value, row.hths_max_mpa_s and row.hths_max_mpa_s.value, row.ash_max_percent.value) == (least, most, ash)
    assert "c" not in {row.hths_min_mpa_s.status, row.ash_max_percent.status}


def test_the_thinnest_class_of_acea_has_a_film_of_its_own():
    # additive industry summaries of 2023 (a2): 2.3 to 2.6; its ash is from memory and not printed as read
    row = categories()["ACEA C7"]
    assert (row.hths_min_mpa_s.value, row.hths_max_mpa_s.value) == (2.3, 2.6)
    assert (row.hths_min_mpa_s.status, row.hths_max_mpa_s.status) == ("a2", "a2")
    assert row.ash_max_percent.status not in ("a", "a2")


@pytest.mark.parametrize("name", ["ACEA A3/B3", "ACEA C1"])
def test_a_class_removed_in_2021_says_so(name: str):
    # additive industry summaries (a2)
    assert "oil.caution_withdrawn" in [caution.key for caution in covers(name, name).cautions]


@pytest.mark.parametrize("name", ["ILSAC GF-6B", "ILSAC GF-7B"])
def test_the_shield_is_for_0w_16_alone(name: str):
    # bulletin on GF-7 (a2): "Shield ... only SAE 0W-16"
    assert "oil.caution_very_thin_petrol" in [caution.key for caution in covers(name, name).cautions]


HEAVY = [
    # a board member of ATIEL, June 2024 (a2): E6 and E9 "superseded by new ACEA E8 and ACEA E11 categories"; nothing more
    ("ACEA E8", "ACEA E6", "not shown", "oil.open_followed"),
    ("ACEA E11", "ACEA E9", "not shown", "oil.open_followed"),
    ("ACEA E6", "ACEA E8", "not shown", "oil.other_class"),
    # trade magazine (a2): E4 for Euro I to V, E8 for Euro VI
    ("ACEA E4", "ACEA E8", "no", "oil.category_no_step"),
    # limits remembered, not read: they exclude nothing
    ("ACEA E7", "ACEA E8", "not shown", "oil.ash_above"),
    ("ACEA E9", "ACEA E7", "not shown", "oil.from_memory"),
    ("ACEA E7-22", "ACEA E7-16", "yes", "oil.category_newer_issue"),
    ("ACEA E7", "ACEA E4", "not shown", "oil.other_class"),
]


@pytest.mark.parametrize(("have", "asked", "covered", "key"), HEAVY)
def test_heavy_duty_classes(have: str, asked: str, covered: str, key: str):
    cover = covers(have, asked)
    assert (cover.covered, cover.steps[0].key) == (covered, key)


JASO = [
    # table of clutch indices of T 903 (a2): the bands of MA1 and MA2 lie inside that of MA and do not meet; MB is for dry clutches
    ("MA1", "MA", "yes"),
    ("MA2", "MA", "yes"),
    ("MA1", "MA2", "no"),
    ("MA2", "MA1", "no"),
    ("MA", "MA2", "not shown"),
    ("MB", "MA", "no"),
    ("MB", "MA2", "no"),
    # pages on M 355 (a2): DH-2 keeps the level of DH-1 with limits of ash, for particle filters
    ("DH-2", "DH-1", "not shown"),
    ("DH-1", "DH-2", "no"),
    ("DH-1", "DL-1", "no"),
    ("DH-2", "DL-1", "not shown"),
]


@pytest.mark.parametrize(("have", "asked", "covered"), JASO)
def test_jaso_classes(have: str, asked: str, covered: str):
    assert covers(f"JASO {have}", f"JASO {asked}").covered == covered


def test_what_rests_on_memory_is_not_shown_and_says_so():
    remembered = [step for step in category_steps().values() if step.seen.status == "c"]
    assert remembered
    for step in remembered:
        cover = covers(step.have, step.asked)
        assert (cover.covered, cover.status, cover.steps[0].key) == ("not shown", "c", "oil.from_memory")


def test_gl5_is_not_taken_for_gl4():
    """Trade press on lubrication (a): GL-5 in a gearbox with synchronisers brings two to four times the copper."""
    cover = covers("API GL-5", "API GL-4")
    assert (cover.covered, [caution.key for caution in cover.cautions]) == ("no", ["oil.caution_gear_synchroniser"])


def test_an_older_petrol_class_before_a_filter_carries_its_ash():
    cautions = [caution.key for caution in covers("ACEA A3/B4", "ACEA A3/B4", after_treatment=("dpf",)).cautions]
    assert cautions == ["oil.caution_full_ash"]
    assert covers("ACEA C3", "ACEA C3", after_treatment=("dpf",)).cautions == ()


def test_misprints_of_public_charts_are_not_repeated():
    """One chart prints "<= 3.5" for A3/B4, a page ">= 3.5" as the upper end of A5/B5: the first is a least, the second a most."""
    assert categories()["ACEA A3/B4"].hths_min_mpa_s.value == 3.5
    assert categories()["ACEA A3/B4"].hths_max_mpa_s is None
    assert categories()["ACEA A5/B5"].hths_max_mpa_s.value == 3.5


def test_an_obsolete_category_carries_its_year():
    cautions = covers("API SG", "API SG").cautions
    assert [(caution.key, caution.figures["year"]) for caution in cautions] == [("oil.caution_obsolete_after", 1993)]

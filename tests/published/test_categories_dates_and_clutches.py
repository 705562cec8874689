"""Dates of claims, years of obsolete categories and clutch indices, as printed.

Sources: ACEA light-duty sequences 2021 and 2023, heavy-duty 2022 revision 1, first pages of document copies (a); press copies of
the release on CL-4 and FB-4 (a); category description of CJ-4 (a); bulletin on CK-4 (a2); additive industry bulletins on GF-7 (a2);
tables of obsolete categories in a copy of the API guide and on a retailer's page (a2); additive industry pages on JASO T 903 (a2).
"""

from __future__ import annotations

import datetime as dt

import pytest

from twomarks.errors import OutOfRangeError
from twomarks.reference.oil_categories import categories, category_dates
from twomarks.trade.category_dates import claim_cautions
from twomarks.trade.category_names import parse_category
from twomarks.trade.clutch_class import clutch_classes_of

EDITIONS = [
    # line, edition, first allowable use, mandatory for new claims, may be marketed until (a)
    ("light duty", 2016, "1 Dec 2016", "1 Dec 2017", "1 May 2023"),
    ("light duty", 2021, "1 May 2021", "1 May 2022", "1 Aug 2025"),
    ("light duty", 2023, "1 Aug 2023", "1 Aug 2024", ""),
    ("heavy duty", 2016, "1 Dec 2016", "1 Dec 2017", "1 May 2024"),
    ("heavy duty", 2022, "1 May 2022", "1 May 2023", "1 Oct 2024"),
    ("heavy duty", 2023, "17 Oct 2023", "17 Oct 2024", ""),
    ("heavy duty", 2012, "14 Dec 2012", "14 Dec 2013", "1 Dec 2018"),
    ("light duty", 2010, "22 Dec 2010", "22 Dec 2011", "22 Dec 2014"),
]


def day(printed: str) -> dt.date | None:
    return dt.datetime.strptime(printed, "%d %b %Y").replace(tzinfo=dt.UTC).date() if printed else None


@pytest.mark.parametrize(("line", "edition", "first", "new", "last"), EDITIONS)
def test_the_validity_of_an_acea_edition(line: str, edition: int, first: str, new: str, last: str):
    dates = category_dates()["ACEA", line, edition]
    assert (dates.first, dates.new_claims, dates.last) == (day(first), day(new), day(last))
    assert dates.seen.status == "a"


FIRST_LICENCES = [
    ("API CJ-4", "15 Oct 2006"),  # a
    ("API CK-4", "1 Dec 2016"),  # a2
    ("API CL-4", "1 Jan 2027"),  # a
    ("API FB-4", "1 Jan 2027"),  # a
    ("API SQ", "31 Mar 2025"),  # a2
    ("ILSAC GF-7A", "31 Mar 2025"),  # a2
    ("ILSAC GF-7B", "31 Mar 2025"),  # a2
]


@pytest.mark.parametrize(("name", "first"), FIRST_LICENCES)
def test_a_label_before_its_first_licence_is_too_early(name: str, first: str):
    category, begins = parse_category(name), day(first)
    assert begins is not None
    before = claim_cautions(category, on=begins - dt.timedelta(days=1))
    assert [message.key for message in before] == ["oil.claim_too_early"]
    assert before[0].figures["first"] == begins
    assert claim_cautions(category, on=begins) == ()


@pytest.mark.parametrize(
    ("name", "last"),
    [("ACEA C3-16", "1 May 2023"), ("ACEA E7-16", "1 May 2024"), ("ACEA C6-21", "1 Aug 2025"), ("ILSAC GF-6A", "31 Mar 2026")],
)
def test_a_label_after_its_last_day_is_old(name: str, last: str):
    category, ends = parse_category(name), day(last)
    assert ends is not None
    assert claim_cautions(category, on=ends) == ()
    assert [message.key for message in claim_cautions(category, on=ends + dt.timedelta(days=1))] == ["oil.claim_too_late"]


@pytest.mark.parametrize("name", ["ACEA C3", "API SN", "JASO MA2", "ACEA C3-99"])
def test_where_no_date_is_known_nothing_is_said(name: str):
    assert claim_cautions(parse_category(name), on=dt.date(2026, 11, 25)) == ()


OBSOLETE = [
    # not for most engines built after (a2); of SB an older copy of the guide prints 1963
    ("SH", 1996),
    ("SG", 1993),
    ("SF", 1988),
    ("SE", 1979),
    ("SD", 1971),
    ("SC", 1967),
    ("SB", 1951),
    ("SA", 1930),
    ("CG-4", 2009),
    ("CF-4", 2009),
    ("CF-2", 2009),
    ("CF", 1994),
    ("CE", 1994),
    ("CD-II", 1994),
    ("CD", 1994),
    ("CC", 1990),
    ("CB", 1961),
    ("CA", 1959),
]


@pytest.mark.parametrize(("name", "year"), OBSOLETE)
def test_an_obsolete_category_names_its_last_year(name: str, year: int):
    assert categories()[f"API {name}"].built_until == year


CLUTCHES = [
    # dynamic, static, stop time: MA 1.35-2.50, 1.45-2.50, 1.40-2.50; MA2 from 1.50, 1.60, 1.60; MA1 below these (a2)
    ((1.35, 1.45, 1.40), ("MA", "MA1")),
    ((1.49, 1.59, 1.59), ("MA", "MA1")),
    ((1.50, 1.60, 1.60), ("MA", "MA2")),
    ((2.49, 2.49, 2.49), ("MA", "MA2")),
    ((1.60, 1.50, 1.70), ("MA",)),
    ((1.34, 1.60, 1.60), ()),
    ((1.80, 1.90, 1.39), ()),
    # a third table with a static index from 1.15 is out of date: such an oil has no class
    ((1.50, 1.15, 1.60), ()),
]


@pytest.mark.parametrize(("indices", "classes"), CLUTCHES)
def test_all_three_clutch_indices_must_lie_in_the_band(indices: tuple[float, float, float], classes: tuple[str, ...]):
    dynamic, static, stop = indices
    assert clutch_classes_of(dynamic_friction_index=dynamic, static_friction_index=static, stop_time_index=stop) == classes


def test_an_impossible_index_is_refused():
    with pytest.raises(OutOfRangeError):
        clutch_classes_of(dynamic_friction_index=-1.0, static_friction_index=1.5, stop_time_index=1.5)

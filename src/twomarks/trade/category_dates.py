"""When a service category could be claimed: a label that is too early for its category, or too old."""

from __future__ import annotations

import datetime as dt

from twomarks.reference.oil_categories import category_dates
from twomarks.trade.category_names import Category
from twomarks.words import Message, say

__all__ = ["claim_cautions"]


def claim_cautions(category: Category, *, on: dt.date) -> tuple[Message, ...]:
    """Return what the day says of a label that claims a category.

    Parameters
    ----------
    category : Category
        The category on the label, with its edition where the label names one.
    on : date
        The day on which the label is read.

    Returns
    -------
    tuple of Message
        That the category cannot be claimed yet, or that oils with this claim could be marketed only until an earlier day; empty
        where no date is known, or none is passed.

    Notes
    -----
    The edition that follows satisfies the uses of the one before, so an old claim is no worse an oil, only an older one. A class
    of ACEA without an edition has no dates. Departs from the sources: none.

    References
    ----------
    acea_editions, acea_update_rule, api_pc12, api_cj4, api_ck4, ilsac_gf7
    """
    of = category.row.line if category.body == "ACEA" else category.name
    dates = category_dates().get((category.body, of, category.year))
    if dates is None:
        return ()
    if on < dates.first:
        return (say("oil.claim_too_early", have=str(category), first=dates.first),)
    if dates.last is not None and on > dates.last:
        return (say("oil.claim_too_late", have=str(category), last=dates.last),)
    return ()

"""The three fills of an engine, which are distinct facts: refill with a new filter, refill without, and dry fill."""

from __future__ import annotations

from itertools import pairwise

from twomarks.errors import InputError
from twomarks.trade.arrays import require_within
from twomarks.words import Figure, Message, say

__all__ = ["refill_for"]

FACTS = ("refill_with_filter", "refill_without_filter", "dry_fill")


def refill_for(
    *,
    filter_is_new: bool,
    engine_is_dry: bool = False,
    with_filter_l: float | None = None,
    without_filter_l: float | None = None,
    dry_l: float | None = None,
) -> float:
    """Return the one of three distinct facts that a job refills by; one never stands in for another.

    Parameters
    ----------
    filter_is_new : bool
        Whether a new filter is fitted.
    engine_is_dry : bool
        Whether the engine was never filled, or was stripped; a drained one is not dry.
    with_filter_l : float or None
        Refill with a new filter [L], above 0; None where it is not known.
    without_filter_l : float or None
        Refill where the filter stays [L], above 0.
    dry_l : float or None
        Fill of a dry engine with its filter [L], above 0.

    Returns
    -------
    float
        Litres as poured [L].

    Raises
    ------
    InputError
        If the fact that the job needs is not among those given, or the three do not rise: without filter, with filter, dry.
    OutOfRangeError
        If one of them is not above 0.

    Notes
    -----
    A drained engine keeps some of its oil, so that its refill is less than the fill of a dry one. Departs from the source: none.

    References
    ----------
    level_practice
    """
    given = dict(zip(FACTS, (with_filter_l, without_filter_l, dry_l), strict=True))
    for volume_l in given.values():
        if volume_l is not None:
            require_within(volume_l, quantity="volume", unit="L", source="level_practice", above=0.0)
    rising = [(name, given[name]) for name in ("refill_without_filter", "refill_with_filter", "dry_fill") if given[name] is not None]
    for (less, less_l), (more, more_l) in pairwise(rising):
        if less_l is not None and more_l is not None and less_l > more_l:
            raise InputError(
                "level.fill_order", less=_named(less), more=_named(more), found=Figure(less_l, "L"), expected=Figure(more_l, "L")
            )
    needed = "dry_fill" if engine_is_dry else "refill_with_filter" if filter_is_new else "refill_without_filter"
    found = given[needed]
    if found is None:
        raise InputError("level.fill_kind", expected=_named(needed), found=tuple(_named(name) for name, _ in rising) or None)
    return found


def _named(fact: str) -> Message:
    return say(f"level.{fact}")

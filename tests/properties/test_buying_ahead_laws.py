"""No cheaper way exists: small months tried out whole."""

from __future__ import annotations

import itertools
from decimal import Decimal
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from twomarks.planning.buying import Offer
from twomarks.planning.buying.horizon import Keeps, Limits, Need, Stock, plan_buying
from twomarks.words import say

MONTHS = 3
LARGEST = 3


def cheapest(needs: tuple[int, ...], sizes: tuple[tuple[int, int], ...], fee: int, opened_months: int, there: int) -> int:
    """Return the least cost by trying every number of containers in every month, opened no earlier than they are needed."""
    most = max(1, -(-sum(needs) // min(size for size, _ in sizes)))

    @cache
    def from_month(month: int, sealed: tuple[int, ...], opened: tuple[tuple[int, int], ...]) -> int:
        if month == MONTHS:
            return 0
        best = 10**9
        for counts in itertools.product(range(most + 1), repeat=len(sizes)):
            # More than the rest needs, or more than a container opened beyond the need, is never cheaper.
            if _volume(counts, sizes) > sum(needs[month:]) + LARGEST:
                continue
            cost = sum(count * price for count, (_, price) in zip(counts, sizes, strict=True)) + (fee if any(counts) else 0)
            have = tuple(a + b for a, b in zip(sealed, counts, strict=True))
            for opening in itertools.product(*(range(count + 1) for count in have)):
                fresh = _volume(opening, sizes)
                if fresh > needs[month] + LARGEST:
                    continue
                after = _after(needs[month], [*opened, (month, fresh)], month, opened_months)
                if after is None:
                    continue
                rest = tuple(a - b for a, b in zip(have, opening, strict=True))
                best = min(best, cost + from_month(month + 1, rest, after))
        return best

    return from_month(0, (0,) * len(sizes), ((0, there),) if there else ())


def _volume(counts: tuple[int, ...], sizes: tuple[tuple[int, int], ...]) -> int:
    return sum(count * size for count, (size, _) in zip(counts, sizes, strict=True))


def _after(missing: int, opened: list[tuple[int, int]], month: int, opened_months: int) -> tuple[tuple[int, int], ...] | None:
    kept = []
    for since, volume in opened:
        if month - since >= opened_months:
            continue
        used = min(volume, missing)
        missing -= used
        if volume > used:
            kept.append((since, volume - used))
    return None if missing else tuple(kept)


@pytest.mark.parametrize("fee", [0, 4])
@given(
    needs=st.tuples(*[st.integers(0, 3)] * MONTHS),
    small=st.integers(2, 5),
    large=st.integers(4, 9),
    opened_months=st.integers(1, MONTHS),
    there=st.integers(0, 2),
)
@settings(max_examples=15, deadline=None)
def test_no_cheaper_way_exists(fee: int, needs: tuple[int, ...], small: int, large: int, opened_months: int, there: int) -> None:
    sizes = ((1, small), (LARGEST, large))
    offers = [
        Offer(key=str(size), product="oil", shop="yard", size_ml=1000 * size, price=Decimal(price), currency="EUR") for size, price in sizes
    ]
    limits = Limits(delivery={"yard": Decimal(fee)}, keeps={"oil": Keeps(opened_months=opened_months)}, waiting_a_year=0.0)
    wanted = [Need(month=m, product="oil", volume_ml=1000 * n, what=say("buying.reserve", reserve=m)) for m, n in enumerate(needs) if n]
    plan = plan_buying(wanted, offers=offers, stock={"oil": Stock(opened_ml=1000 * there)}, months=MONTHS, limits=limits)
    assert plan.cost == cheapest(needs, sizes, fee, opened_months, there)
    assert plan.proven

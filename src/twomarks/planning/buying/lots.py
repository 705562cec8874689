"""Lot sizes of one product whose orders cost the same whatever their size: the method of Wagner and Whitin, exactly."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from twomarks.errors import InputError

__all__ = ["LotPlan", "lot_sizes"]


@dataclass(frozen=True, slots=True)
class LotPlan:
    """How much to order in each period, and what it all costs."""

    orders: tuple[Fraction, ...]
    cost: Fraction


def lot_sizes(
    *,
    demand: Sequence[Fraction | int | Decimal],
    setup_cost: Sequence[Fraction | int | Decimal] | Fraction | int | Decimal,
    holding_cost: Fraction | int | Decimal,
) -> LotPlan:
    """Return the cheapest orders over the periods of `demand`, by the method of Wagner and Whitin (1958), exactly.

    An order costs its `setup_cost` (one figure, or one a period) whatever its size; a unit kept from one period to the
    next costs `holding_cost`.
    """
    wanted = [Fraction(amount) for amount in demand]
    fixed = [Fraction(setup_cost)] * len(wanted) if isinstance(setup_cost, int | Fraction | Decimal) else [Fraction(s) for s in setup_cost]
    if len(fixed) != len(wanted) or any(amount < 0 for amount in wanted):
        raise InputError("buying.lots", found=len(fixed), expected=len(wanted))
    keep = Fraction(holding_cost)
    best = [Fraction(0)]
    start_of = [0]
    for end in range(1, len(wanted) + 1):
        if wanted[end - 1] == 0:
            best.append(best[-1])
            start_of.append(-1)
            continue
        carried = Fraction(0)
        ahead = Fraction(0)
        found: tuple[Fraction, int] | None = None
        for start in range(end, 0, -1):
            carried += keep * ahead
            ahead += wanted[start - 1]
            cost = best[start - 1] + fixed[start - 1] + carried
            if found is None or cost < found[0]:
                found = (cost, start)
        assert found is not None
        best.append(found[0])
        start_of.append(found[1])
    orders = [Fraction(0)] * len(wanted)
    end = len(wanted)
    while end > 0:
        start = start_of[end]
        if start < 0:
            end -= 1
            continue
        orders[start - 1] = sum(wanted[start - 1 : end], Fraction(0))
        end = start - 1
    return LotPlan(tuple(orders), best[-1])

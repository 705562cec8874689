"""The largest set of readings that can all be true: none below an earlier one, no step faster than can be driven."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence

__all__ = ["longest_chain"]


def longest_chain(points: Sequence[tuple[float, float]], *, per_day: float, must: Sequence[bool]) -> tuple[int, ...]:
    """Return the indices of the largest consistent set of `points` (day, value), in order.

    Two readings agree when the later is not below the earlier and the step between is at most `per_day` a day. Those
    marked in `must` count more than all others together; among equally large sets the one with the earlier readings.
    """
    n = len(points)
    if all(0 <= points[i][1] - points[i - 1][1] <= per_day * (points[i][0] - points[i - 1][0]) for i in range(1, n)):
        return tuple(range(n))
    # Agreement is an order in two directions at once: value, and headroom = per_day * day - value.
    order = sorted(range(n), key=lambda i: (points[i][1], per_day * points[i][0] - points[i][1], i))
    headroom = [per_day * day - value for day, value in points]
    ranks = sorted(set(headroom))
    most = [(0, -1)] * (len(ranks) + 1)
    total = [0] * n
    before = [-1] * n
    for i in order:
        rank = bisect_right(ranks, headroom[i])
        best = (0, -1)
        at = rank
        while at > 0:
            best = max(best, most[at])
            at -= at & -at
        # Earlier readings weigh a little more, so that of two equal explanations the later reading is the doubted one.
        total[i] = best[0] + n * n * (n + 1 if must[i] else 1) + (n - i)
        before[i] = best[1]
        at = bisect_left(ranks, headroom[i]) + 1
        while at < len(most):
            most[at] = max(most[at], (total[i], i))
            at += at & -at
    chain = []
    at = max(range(n), key=total.__getitem__) if n else -1
    while at >= 0:
        chain.append(at)
        at = before[at]
    return tuple(reversed(chain))

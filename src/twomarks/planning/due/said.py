"""Which limit of an item comes first, and what is left of it, as one message."""

from __future__ import annotations

from twomarks.planning.due.values import DueItem
from twomarks.words import Figure, Message, say

__all__ = ["what_drives"]


def what_drives(item: DueItem) -> Message | None:
    """Return which limit comes first and what is left of it, or by how much it is passed; None where no limit is known."""
    if not item.bounds:
        return None
    over = item.bounds[0].passed or (item.days_left is not None and item.days_left < 0)
    left = None if item.left is None or item.left.unit == "day" else item.left
    if left is not None and over:
        left = None if float(left.value) > 0 else Figure(-float(left.value), left.unit, left.source)
    days = None if item.days_left is None else Figure(abs(item.days_left), "day")
    what = say(f"due.binds_{item.binds}")
    return say("due.over" if over else "due.left", what=what, place=item.bounds[0].place or None, left=left, days=days)

"""The answer of `selfcheck`: what was looked at, and whether it is in order."""

from __future__ import annotations

from typing import Literal

from twomarks.exchange.answers.said import Answer, Part, Said

__all__ = ["LookedAtSaid", "SelfcheckAnswer"]


class LookedAtSaid(Part):
    """One thing that was looked at."""

    thing: str
    state: Literal["in order", "look at this", "not in order"]
    what: Said


class SelfcheckAnswer(Answer):
    """The answer of `selfcheck`; `in_order` is false where anything is not in order."""

    format: Literal["twomarks/answer/selfcheck/1"] = "twomarks/answer/selfcheck/1"
    home: str
    in_order: bool
    looked_at: tuple[LookedAtSaid, ...]

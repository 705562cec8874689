"""A block of a text: what it is, and the message that stands in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from twomarks.words import Message, Wording

__all__ = ["Block", "Kind"]

Kind = Literal["title", "heading", "paragraph", "item", "step", "caution", "finding", "under"]


@dataclass(frozen=True, slots=True)
class Block:
    """One block. `number` is that of a step; an `under` belongs to the step before it."""

    kind: Kind
    words: Message | Wording
    number: int = 0

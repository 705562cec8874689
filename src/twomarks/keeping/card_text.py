"""A job card as the text that is frozen, and back."""

from __future__ import annotations

import hashlib
import json

from twomarks.errors import InputError
from twomarks.keeping.canonical import canonical, restored
from twomarks.planning.card import JobCard

__all__ = ["card_of", "sha256_of", "text_of_card"]


def text_of_card(card: JobCard) -> str:
    """Return the canonical text of a card."""
    return canonical(card)


def card_of(text: str) -> JobCard:
    """Return the card that `text_of_card` made the text from.

    Raises
    ------
    InputError
        Where the text is damaged, or a newer Twomarks wrote it.
    """
    try:
        tree = json.loads(text)
    except ValueError as error:
        raise InputError("keeping.cannot_read", found="JobCard", expected=str(error)) from None
    return restored(JobCard, tree)


def sha256_of(text: str) -> str:
    """Return the SHA-256 of a text, in hexadecimal."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()

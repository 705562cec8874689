"""What the tests of paper read back: the text of a PDF, and every figure that a card holds."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from pypdf import PdfReader

from twomarks.planning.card import JobCard, PourRow
from twomarks.words import Figure, Message, Reader, Wording, figure_text, sentence

__all__ = ["figures_in", "squeezed", "text_of", "texts_of_figures"]


def squeezed(text: str) -> str:
    """Return text with every run of white space as one space, none after a hyphen: paper breaks lines where it likes."""
    return re.sub(r"(?<=\w)-\s+(?=\w)", "-", re.sub(r"\s+", " ", text))


def text_of(pdf: bytes) -> str:
    """Return all text of a PDF on one line."""
    return squeezed(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


def figures_in(value: Any) -> Iterator[Figure]:
    """Yield every figure in a card that its words say; readings of the pour table are tried apart."""
    match value:
        case Figure():
            yield value
        case PourRow():
            return
        case Message() | Wording():
            template = value.text if isinstance(value, Wording) else sentence(value.key)
            for name, part in value.figures.items():
                if "{" + name in template:
                    yield from figures_in(part)
        case tuple():
            for part in value:
                yield from figures_in(part)
        case _ if is_dataclass(value) and not isinstance(value, type):
            for field in fields(value):
                yield from figures_in(getattr(value, field.name))


def texts_of_figures(card: JobCard, reader: Reader) -> set[str]:
    """Return the figures of a card as `reader` reads them."""
    return {squeezed(figure_text(figure, reader)) for figure in figures_in(card)}

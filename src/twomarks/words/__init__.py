"""Sentences for people: messages in, text for one reader out."""

from twomarks.words.catalogue import keys, sentence, term, terms
from twomarks.words.frozen import from_plain, plain
from twomarks.words.message import SOURCE_KINDS, Figure, Message, Source, SourceKind, Value, Wording, say
from twomarks.words.reader import CHOICES, PRESETS, Reader
from twomarks.words.render import date_text, figure_text, fill, message_of, number_text, render, source_text, value_text

__all__ = [
    "CHOICES",
    "PRESETS",
    "SOURCE_KINDS",
    "Figure",
    "Message",
    "Reader",
    "Source",
    "SourceKind",
    "Value",
    "Wording",
    "date_text",
    "figure_text",
    "fill",
    "from_plain",
    "keys",
    "message_of",
    "number_text",
    "plain",
    "render",
    "say",
    "sentence",
    "source_text",
    "term",
    "terms",
    "value_text",
]

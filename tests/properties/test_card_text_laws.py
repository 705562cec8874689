"""Laws of kept texts: whatever a card or an event says, its text gives it back, and the same value gives the same text."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import types
import typing
from decimal import Decimal
from typing import Any, Literal, Union, get_args, get_origin
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twomarks.keeping.canonical import canonical, restored
from twomarks.keeping.card_text import card_of, text_of_card
from twomarks.keeping.values import Confirmation, FollowUp
from twomarks.model.ledger import Answer, Entry, LevelCheck, Reading, StockMove, Tick, TopUp, WasteMove
from twomarks.planning.card import JobCard
from twomarks.words import SOURCE_KINDS, Figure, Message, Source, Wording

NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
WORDS = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)
NAMES = st.sampled_from(("torque", "volume", "a", "b_2"))
SOURCES = st.builds(Source, st.sampled_from(SOURCE_KINDS), WORDS)
MONEY = st.decimals(allow_nan=False, allow_infinity=False, places=2, min_value=0, max_value=9999)
FIGURES = st.builds(Figure, st.one_of(NUMBERS, WORDS, MONEY), st.sampled_from(("L", "N.m", "C", "", "EUR")), st.none() | SOURCES, WORDS)
PLAIN = st.one_of(WORDS, st.integers(-(2**53), 2**53), NUMBERS, MONEY, st.dates(), FIGURES, SOURCES, st.none())
MESSAGES = st.recursive(
    st.builds(Message, WORDS, st.dictionaries(NAMES, PLAIN, max_size=2)),
    lambda inner: st.builds(Message, WORDS, st.dictionaries(NAMES, inner | st.tuples(inner, PLAIN), max_size=2)),
    max_leaves=3,
)
LEAVES: dict[Any, st.SearchStrategy[Any]] = {
    str: WORDS,
    bool: st.booleans(),
    int: st.integers(-(2**62), 2**62),
    float: NUMBERS,
    dt.date: st.dates(),
    dt.datetime: st.datetimes(timezones=st.just(dt.UTC)),
    UUID: st.uuids(),
    Decimal: MONEY,
    Figure: FIGURES,
    Source: SOURCES,
    Message: MESSAGES,
    Wording: st.builds(Wording, WORDS, st.dictionaries(NAMES, PLAIN, max_size=2)),
}


def of(hint: Any) -> st.SearchStrategy[Any]:
    """Return the values that a field of this type may hold."""
    if hint in LEAVES:
        return LEAVES[hint]
    if hint is types.NoneType:
        return st.none()
    origin = get_origin(hint)
    if origin is Literal:
        return st.sampled_from(get_args(hint))
    if origin in (Union, types.UnionType):
        return st.one_of([of(part) for part in get_args(hint)])
    if origin is tuple:
        return st.lists(of(get_args(hint)[0]), max_size=2).map(tuple)
    hints = typing.get_type_hints(hint)
    return st.builds(hint, **{field.name: of(hints[field.name]) for field in dataclasses.fields(hint)})


@given(of(JobCard))
def test_a_card_comes_back_from_its_text(card: JobCard) -> None:
    text = text_of_card(card)
    assert card_of(text) == card
    assert text_of_card(card_of(text)) == text


@pytest.mark.parametrize("kind", [Reading, LevelCheck, TopUp, StockMove, WasteMove, Answer, Tick, Entry, Confirmation, FollowUp])
def test_an_event_comes_back_from_its_text(kind: type) -> None:
    @given(of(kind))
    def comes_back(event: Any) -> None:
        text = canonical(event)
        assert restored(kind, json.loads(text)) == event
        assert canonical(restored(kind, json.loads(text))) == text

    comes_back()

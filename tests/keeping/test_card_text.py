"""A card as text: the same card always gives the same text, and the text gives the card back."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from tests.sample_card import sample_card
from twomarks.errors import InputError
from twomarks.keeping.card_text import card_of, sha256_of, text_of_card
from twomarks.procedures.concerns import Concern


def test_the_sample_card_comes_back_equal() -> None:
    assert card_of(text_of_card(sample_card())) == sample_card()


def test_the_text_is_canonical() -> None:
    text = text_of_card(sample_card())
    assert text == json.dumps(json.loads(text), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    assert text_of_card(card_of(text)) == text
    assert len(sha256_of(text)) == 64


@pytest.mark.parametrize(
    "damage",
    [
        lambda tree: tree.pop("steps"),
        lambda tree: tree.update(colour="red"),
        lambda tree: tree.update(day="soon"),
        lambda tree: tree.update(hang_tag="yes"),
        lambda tree: tree["steps"][0].update(place="on the roof"),
    ],
)
def test_a_damaged_card_is_refused(damage: object) -> None:
    tree = json.loads(text_of_card(sample_card()))
    damage(tree)  # type: ignore[operator]
    with pytest.raises(InputError) as refused:
        card_of(json.dumps(tree))
    assert refused.value.key == "keeping.cannot_read"


def test_a_text_that_is_no_json_is_refused() -> None:
    with pytest.raises(InputError) as refused:
        card_of("{")
    assert refused.value.key == "keeping.cannot_read"


def test_what_the_steps_concern_is_frozen_and_older_cards_stay_as_they_were() -> None:
    older = sample_card()
    assert '"concerns"' not in text_of_card(older)
    step = replace(older.steps[0], concerns=(Concern("loosen", "drain", "engine"),))
    newer = replace(older, steps=(step, *older.steps[1:]))
    assert card_of(text_of_card(newer)) == newer
    assert card_of(text_of_card(older)) == older

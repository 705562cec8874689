"""The pour table says each reading as a person sees it on the stick."""

from __future__ import annotations

import pytest

from tests.sample_card import sample_card
from twomarks.paper.pour_words import printed_pour, reading_text
from twomarks.words import Reader

METRIC = Reader.of("metric")


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        (0.0, "lower mark"),
        (1.0, "upper mark"),
        (0.125, "⅛ up"),
        (0.5, "½ up"),
        (0.875, "⅞ up"),
        (0.3, "30\u00a0% up"),
        (-0.25, "¼ below the lower mark"),
        (-1.0, "100\u00a0% below the lower mark"),
        (1.375, "⅜ above the upper mark"),
        (2.1, "110\u00a0% above the upper mark"),
    ],
)
def test_a_reading_is_an_eighth_where_it_is_one(reading: float, words: str) -> None:
    assert reading_text(reading, METRIC) == words


def test_the_highest_reading_stands_at_the_top() -> None:
    pour = sample_card().pour
    assert pour is not None
    readings = [row["reading"] for row in printed_pour(pour, METRIC)["rows"]]
    assert readings == sorted(readings, reverse=True)


def test_a_negative_figure_is_taken_out_and_a_zero_is_nothing() -> None:
    pour = sample_card().pour
    assert pour is not None
    amounts = {row["reading"]: row["add"] for row in printed_pour(pour, Reader.of("us"))["rows"]}
    assert amounts[1.25] == "take out 0.32\u00a0US qt"
    assert amounts[1.0] == "nothing"
    assert amounts[0.0] == "0.9\u00a0US qt"

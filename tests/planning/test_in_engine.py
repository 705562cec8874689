"""What is in the engine is said by its label, and the daybook's word outweighs the sheet's."""

from __future__ import annotations

from twomarks.planning.in_engine import label_said
from twomarks.trade.label import read_label
from twomarks.words import Reader, render


def test_a_sellers_word_is_told_as_one() -> None:
    said = [render(one, Reader()) for one in label_said(read_label("5W-30, ACEA C3, suitable for EX 229-5"))]
    assert any("seller's own word" in line and "EX 229-5" in line for line in said)


def test_a_label_without_a_grade_says_nothing_of_cold() -> None:
    assert "prepare.label_cold" not in [one.key for one in label_said(read_label("ACEA C3"))]

"""The plain arithmetic that the engineering is timed against answers the same."""

from __future__ import annotations

import numpy as np
import pytest

from benchmarks.trade_array_cases import cases

CASES = cases()


@pytest.mark.parametrize("name", CASES)
def test_both_sides_of_a_pair_answer_alike(name: str) -> None:
    ours, plain = CASES[name]
    np.testing.assert_allclose(ours(), plain(), rtol=1e-9, atol=1e-9)

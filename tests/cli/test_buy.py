"""`buy` says what to order, when and what for, and what it cannot plan; wrong input is told in words."""

from __future__ import annotations

import pytest

from tests.cli.shell import Shell


def test_what_cannot_be_planned_is_told_with_the_reason(shell: Shell) -> None:
    # This household has no climate record, so that no oil is shown to meet what the handbook asks for.
    answer = shell.run("buy", "--months", "24", "--json").answer
    assert answer["format"] == "twomarks/answer/buy/1"
    assert answer["orders"] == []
    assert "is shown to meet" in answer["open_questions"][0]["text"]
    assert "Not planned" in shell.run("buy").out


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--budget", "much"), "120"),
        (("--budget", "-3"), "120"),
        (("--room", "5 qt"), "different amounts"),
        (("--months", "0"), "--months"),
        (("--vehicle", "Nobody"), "Nobody"),
    ],
)
def test_wrong_input_is_refused_in_words(shell: Shell, words: tuple[str, ...], told: str) -> None:
    done = shell.run("buy", *words)
    assert done.code == 2
    assert told in done.err
    assert "Traceback" not in done.err

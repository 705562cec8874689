"""The overview: what there is, for whoever types a command that only holds others."""

from __future__ import annotations

import pytest

from tests.cli.shell import Shell


@pytest.mark.parametrize(("words", "named"), [((), "prepare"), (("import",), "readings")])
def test_a_command_that_holds_others_says_which_there_are(shell: Shell, words: tuple[str, ...], named: str) -> None:
    done = shell.run(*words, on=None)
    assert (done.code, done.err) == (0, "")
    assert done.out.startswith("Usage: twomarks")
    assert f"\n  {named} " in done.out


def test_the_help_of_a_kept_vehicle_promises_no_file(shell: Shell) -> None:
    assert "--vehicle NAME " in shell.run("due", "--help", on=None).out
    assert "--vehicle NAME|FILE" in shell.run("prepare", "--help", on=None).out

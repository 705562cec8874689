"""Every command line that a page shows is one that the program takes."""

from __future__ import annotations

import re
import shlex

import click
import pytest

from tests.repo.ground import ROOT, shown

FENCE = re.compile(r"```(?:sh|console|bash)?\n(.*?)```", re.DOTALL)
STARTS = ("python3 start.py ", "twomarks ")
OF_START = {"test", "bench", "shell"}


def shown_commands() -> list[tuple[str, str]]:
    """Return page and words of every command line of Twomarks in the pages."""
    found = []
    for page in [ROOT / "README.md", *sorted((ROOT / "docs").rglob("*.md"))]:
        if page.parent.name == "reference":
            continue
        for block in FENCE.findall(page.read_text("utf-8")):
            for line in block.splitlines():
                start = next((start for start in STARTS if line.startswith(start)), None)
                words = line.removeprefix(start).partition(" #")[0].strip() if start else ""
                if words and words.split()[0] not in OF_START:
                    found.append((shown(page), words))
    return found


def parse(words: str) -> None:
    """Parse a command line as far as its options go, without running it."""
    from twomarks.app.__main__ import APP_COMMANDS
    from twomarks.cli.group import lazy_group

    command: click.Command = lazy_group(APP_COMMANDS)
    context = click.Context(command, info_name="twomarks")
    rest = shlex.split(words)
    while isinstance(command, click.Group):
        found = command.get_command(context, rest[0])
        if found is None:
            raise click.UsageError(f"no command {rest[0]}")
        command, rest = found, rest[1:]
        context = click.Context(command, info_name=command.name, parent=context)
    parser = command.make_parser(context)
    _, left, _ = parser.parse_args(args=list(rest))
    if left:
        raise click.UsageError(f"not taken: {left}")


@pytest.mark.parametrize(("where", "words"), shown_commands())
def test_a_command_line_in_a_page_is_taken(where: str, words: str) -> None:
    parse(words)


@pytest.mark.parametrize("words", ["no-such-command", "due --no-such-option", "due left over"])
def test_a_planted_command_line_is_refused(words: str) -> None:
    with pytest.raises(click.UsageError):
        parse(words)

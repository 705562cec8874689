"""Answers on the terminal: messages for one reader, wrapped, with headings; the JSON form instead where it was asked for."""

from __future__ import annotations

import shutil
import textwrap
from collections.abc import Iterable

import click
from pydantic import BaseModel

from twomarks.words import Message, Reader, Value, Wording, render, say, value_text

__all__ = ["Terminal"]

NARROW, WIDE = 60, 110


class Terminal:
    """Writes messages for one reader to the standard output."""

    def __init__(self, reader: Reader) -> None:
        self.reader = reader
        self.width = max(NARROW, min(WIDE, shutil.get_terminal_size((100, 24)).columns - 1))

    def text(self, value: Value) -> str:
        """Return a value as text for the reader."""
        return value_text(value, self.reader)

    def heading(self, key: str, **figures: Value) -> None:
        """Write a heading with a line of space before it."""
        click.echo()
        click.echo(click.style(render(say(key, **figures), self.reader), bold=True))

    def line(self, message: Message | Wording | str, *, indent: int = 2, mark: str = "") -> None:
        """Write one message, wrapped; `mark` stands before its first line."""
        text = message if isinstance(message, str) else render(message, self.reader)
        lead = " " * indent + (f"{mark} " if mark else "")
        click.echo(textwrap.fill(text, self.width, initial_indent=lead, subsequent_indent=" " * len(lead), break_long_words=False))

    def lines(self, messages: Iterable[Message | Wording | str], *, indent: int = 4, mark: str = "-") -> None:
        """Write several messages as a list."""
        for message in messages:
            self.line(message, indent=indent, mark=mark)

    @staticmethod
    def json(answer: BaseModel) -> None:
        """Write an answer as JSON."""
        click.echo(answer.model_dump_json(indent=2, exclude_none=True))

"""Answers on the terminal: messages for one reader, wrapped, with headings; the JSON form instead where it was asked for."""

from __future__ import annotations

import json
import shutil
import textwrap
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, Protocol, cast

import click

from twomarks.words import Message, Reader, Value, Wording, from_plain, plain, render, say, value_text

if TYPE_CHECKING:
    from pydantic import BaseModel

__all__ = ["Script", "Speaker", "Terminal"]

NARROW, WIDE = 60, 110


class Speaker(Protocol):
    """What an answer is said to: a terminal, or a script that is said later."""

    def heading(self, key: str, **figures: Value) -> None:
        """Say a heading."""

    def line(self, message: Message | Wording | str, *, indent: int = 2, mark: str = "") -> None:
        """Say one message."""

    def lines(self, messages: Iterable[Message | Wording | str], *, indent: int = 4, mark: str = "-") -> None:
        """Say several messages as a list."""


class Script:
    """Takes down an answer as messages, to be kept as text and said to whoever reads it."""

    def __init__(self) -> None:
        self._said: list[dict[str, Any]] = []

    def heading(self, key: str, **figures: Value) -> None:
        """Take down a heading."""
        self._said.append({"heading": plain(say(key, **figures))})

    def line(self, message: Message | Wording | str, *, indent: int = 2, mark: str = "") -> None:
        """Take down one message."""
        self._said.append({"line": plain(message), "indent": indent, "mark": mark})

    def lines(self, messages: Iterable[Message | Wording | str], *, indent: int = 4, mark: str = "-") -> None:
        """Take down several messages."""
        for message in messages:
            self.line(message, indent=indent, mark=mark)

    def text(self) -> str:
        """Return all of it as text, for `Terminal.speak`."""
        return json.dumps(self._said, ensure_ascii=False)


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

    def line(self, message: Message | Wording | str, *, indent: int = 2, mark: str = "", hang: int = 0) -> None:
        """Write one message, wrapped; `mark` stands before its first line, the others hang by `hang` more."""
        text = message if isinstance(message, str) else render(message, self.reader)
        lead = " " * indent + (f"{mark} " if mark else "")
        rest = " " * (len(lead) + hang)
        click.echo(textwrap.fill(text, self.width, initial_indent=lead, subsequent_indent=rest, break_long_words=False))

    def lines(self, messages: Iterable[Message | Wording | str], *, indent: int = 4, mark: str = "-") -> None:
        """Write several messages as a list."""
        for message in messages:
            self.line(message, indent=indent, mark=mark)

    def speak(self, script: str) -> None:
        """Write what a `Script` took down."""
        for said in json.loads(script):
            if "heading" in said:
                message = cast("Message", from_plain(said["heading"]))
                self.heading(message.key, **message.figures)
            else:
                self.line(cast("Message | Wording | str", from_plain(said["line"])), indent=said["indent"], mark=said["mark"])

    @staticmethod
    def json(answer: BaseModel) -> None:
        """Write an answer as JSON."""
        click.echo(answer.model_dump_json(indent=2, exclude_none=True))

"""Errors on the command line: one clear line on the error stream, and the exit code."""

from __future__ import annotations

from collections.abc import Iterator

import click

from twomarks.errors import DocumentError, OutOfRangeError, TwomarksError
from twomarks.words import Message, Reader, message_of, render, say

__all__ = ["BAD_INPUT", "lines_of", "report"]

BAD_INPUT = 2


def lines_of(error: TwomarksError, reader: Reader) -> Iterator[str]:
    """Yield the lines that say `error`: one, or one for each fault of a document after a heading; after a range where it is from."""
    message = message_of(error)
    yield render(message, reader)
    if isinstance(error, OutOfRangeError) and (source := str(error.values["source"])):
        from twomarks.reference.bibliography import reference

        yield f"  {render(say('range.range_from', title=reference(source).title), reader)}"
    if isinstance(error, DocumentError):
        faults = message.figures["faults"]
        assert isinstance(faults, tuple)
        for fault in faults:
            assert isinstance(fault, Message)
            yield f"  {render(fault, reader)}"


def report(error: TwomarksError, reader: Reader) -> int:
    """Write `error` to the error stream and return the exit code for bad input."""
    for line in lines_of(error, reader):
        click.echo(line, err=True)
    return BAD_INPUT

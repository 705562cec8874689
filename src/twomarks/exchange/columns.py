"""A table in a text file: which sign parts its columns, which column is meant, how dates and numbers are written."""

from __future__ import annotations

import csv
import datetime as dt
import difflib
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from twomarks.errors import InputError

__all__ = ["DayOrder", "Table", "column", "day_order", "decimal_mark", "read_day", "table"]

DELIMITERS = ",;\t|"
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ]|$)")
_MONTH = re.compile(r"(\d{4})-(\d{1,2})$")
_PARTS = re.compile(r"(\d{1,4})[./\- ](\d{1,2})[./\- ](\d{2,4})(?:[T ]|$)")


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of a text file with their line numbers; `header` is empty where the first row is data."""

    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]
    where: str


@dataclass(frozen=True, slots=True)
class DayOrder:
    """How a column writes its dates: "iso", "day first", "month first" or "month" (a whole month)."""

    name: str


def table(data: bytes, *, where: str) -> Table:
    """Return the rows of a delimited text file (UTF-8, or Windows' Western European where it is not UTF-8).

    Raises
    ------
    InputError
        ``table.empty`` for a file without rows, ``table.binary`` for one that is no text.
    """
    if b"\0" in data[:4096]:
        raise InputError("table.binary", where=where)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    head = next((line for line in text.splitlines() if line.strip()), "")
    delimiter = max(DELIMITERS, key=head.count)
    rows = tuple(_rows(text, delimiter))
    if not rows:
        raise InputError("table.empty", where=where)
    first = tuple(cell.strip() for cell in rows[0][1])
    has_header = not any(any(sign.isdigit() for sign in cell) and not cell[:1].isalpha() for cell in first)
    return Table(first if has_header else (), rows[1:] if has_header else rows, where)


def _rows(text: str, delimiter: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    reader = csv.reader(io.StringIO(text), delimiter=delimiter)
    for cells in reader:
        if any(cell.strip() for cell in cells):
            yield reader.line_num, tuple(cells)


def column(header: Sequence[str], wanted: str | None, guesses: Sequence[str], *, where: str, what: str, default: int) -> int:
    """Return the index of the column called `wanted` (or its number from 1), or the first one that a guess fits."""
    if wanted is not None:
        if wanted in header:
            return list(header).index(wanted)
        if wanted.isdigit() and int(wanted) >= 1 and not header:
            return int(wanted) - 1
        near = difflib.get_close_matches(wanted, list(header), 1, 0.5)
        raise InputError("table.column", where=where, found=wanted, expected=tuple(header), nearest=near[0] if near else "")
    for guess in guesses:
        for index, name in enumerate(header):
            if guess in name.casefold():
                return index
    if header and len(header) > 2:
        raise InputError("table.which_column", where=where, what=what, expected=tuple(header))
    return default


def decimal_mark(cells: Sequence[str]) -> str:
    """Return the decimal mark that a column of numbers uses, judged over all its cells; "." where nothing tells."""
    votes = {".": 0, ",": 0}
    for cell in cells:
        marks = [mark for mark in cell if mark in votes]
        if not marks:
            continue
        last = marks[-1]
        tail = len(cell) - cell.rfind(last) - 1
        if len(set(marks)) == 2 or (len(marks) == 1 and tail != 3):
            votes[last] += 1
        elif len(marks) > 1 or tail == 3:
            votes["," if last == "." else "."] += 0 if len(marks) == 1 else 1
    return "," if votes[","] > votes["."] else "."


def day_order(cells: Sequence[str], *, where: str) -> DayOrder:
    """Return how a column writes its dates, judged over all its cells.

    Raises
    ------
    InputError
        ``table.day_order`` where day and month could be either way round in every cell.
    """
    seen = [cell.strip() for cell in cells if cell.strip()]
    if not seen:
        return DayOrder("iso")
    if sum(bool(_ISO.match(cell)) for cell in seen) * 2 >= len(seen):
        return DayOrder("iso")
    if sum(bool(_MONTH.match(cell)) for cell in seen) * 2 >= len(seen):
        return DayOrder("month")
    first = second = 0
    for cell in seen:
        match = _PARTS.match(cell)
        if match:
            first = max(first, int(match[1]))
            second = max(second, int(match[2]))
    if first > 31:
        return DayOrder("iso")
    if first > 12 >= second:
        return DayOrder("day first")
    if second > 12 >= first:
        return DayOrder("month first")
    raise InputError("table.day_order", where=where, found=seen[0], example="2026-03-31")


def read_day(cell: str, order: DayOrder) -> tuple[dt.date, dt.date, dt.date]:
    """Return the day that a cell says, with the first and the last day it may mean (a month is known only about).

    Raises
    ------
    ValueError
        Where the cell is no date.
    """
    text = cell.strip()
    if order.name == "month" or (_MONTH.match(text) and not _ISO.match(text)):
        match = _MONTH.match(text)
        if match is None:
            raise ValueError(text)
        first = dt.date(int(match[1]), int(match[2]), 1)
        last = (first + dt.timedelta(days=31)).replace(day=1) - dt.timedelta(days=1)
        return first + (last - first) // 2, first, last
    match = _ISO.match(text) or _PARTS.match(text)
    if match is None:
        raise ValueError(text)
    one, two, three = int(match[1]), int(match[2]), int(match[3])
    if order.name == "iso" or one > 31:
        day = dt.date(one, two, three)
    else:
        year = three + 2000 if three < 100 else three
        day = dt.date(year, two, one) if order.name == "day first" else dt.date(year, one, two)
    return day, day, day

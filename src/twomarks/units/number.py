"""Numbers as people type them: fractions, thousands and either decimal mark, and never a silent guess."""

from __future__ import annotations

import re
from fractions import Fraction

from twomarks.errors import InputError

__all__ = ["number", "split_number"]

_VULGAR = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_SPACES = "\u00a0\u202f'’ "
_NUMBER = re.compile(
    r"(?P<sign>[+\-−]?)\s*(?P<digits>\d+\s+\d+\s*/\s*\d+|\d+\s*/\s*\d+|\d[\d.,\u00a0\u202f'’ ]*\d|\d)\s*(?P<rest>.*)",
    re.DOTALL,
)
_GROUPED = re.compile(rf"\d{{1,3}}([{_SPACES}]\d{{3}})+([.,]\d+)?")
_TWO_WAYS = re.compile(r"[1-9]\d{0,2}[.,]\d{3}")
LONGEST = 64


def split_number(text: str, *, decimal: str | None = None, where: str = "", example: str = "4.3 L") -> tuple[Fraction, str]:
    """Return the number `text` starts with, exact, and what follows it (the unit as typed).

    `decimal` is the decimal mark of the reader's market ("." or ","); with None, "1,234" can be read two ways and is
    refused. `example` is what a refusal shows as expected.
    """
    spread = text.strip()
    for sign, plain in _VULGAR.items():
        spread = re.sub(rf"(?<=\d)\s*{sign}", f" {plain}", spread).replace(sign, plain)
    match = _NUMBER.fullmatch(spread) if len(spread) <= LONGEST else None
    if match is None:
        raise InputError("number.none", where=where, found=text[:LONGEST], example=example)
    value = number(match["digits"], decimal=decimal, where=where)
    return (-value if match["sign"] in ("-", "−") else value), match["rest"].strip()


def number(text: str, *, decimal: str | None = None, where: str = "") -> Fraction:
    """Return the unsigned number written in `text`, exact."""
    try:
        return _number(text.strip(), decimal, where)
    except (ValueError, ZeroDivisionError):
        raise InputError("number.unreadable", where=where, found=text, example="1234.5") from None


def _number(text: str, decimal: str | None, where: str) -> Fraction:
    if "/" in text:
        return sum((Fraction(part.replace(" ", "")) for part in re.split(r"(?<=\d)\s+(?=\d+\s*/)", text)), Fraction(0))
    if re.search(f"[{_SPACES}]", text) and not _GROUPED.fullmatch(text):
        raise ValueError(text)
    text = re.sub(f"[{_SPACES}]", "", text)
    marks = {mark for mark in ".," if mark in text}
    if not marks:
        return Fraction(text)
    if len(marks) == 2:
        point = text[max(text.rfind(","), text.rfind("."))]
        group = "," if point == "." else "."
        if not re.fullmatch(rf"\d{{1,3}}(\{group}\d{{3}})+\{point}\d+", text):
            raise ValueError(text)
        return Fraction(text.replace(group, "").replace(point, "."))
    mark = marks.pop()
    if text.count(mark) > 1:
        if not re.fullmatch(rf"\d{{1,3}}(\{mark}\d{{3}})+", text):
            raise ValueError(text)
        return Fraction(text.replace(mark, ""))
    if decimal is None and _TWO_WAYS.fullmatch(text):
        raise InputError("number.two_ways", where=where, found=text, first=text.replace(mark, ""), second=text.replace(mark, "."))
    if decimal is not None and mark != decimal:
        if _TWO_WAYS.fullmatch(text):
            return Fraction(text.replace(mark, ""))
        raise InputError("number.decimal_mark", where=where, found=text, expected=decimal)
    return Fraction(text.replace(mark, "."))

"""The text of a write-up: taken in under stated limits, and as sentences that know their line."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.procedures.write_ups.vocabulary import vocabulary

__all__ = ["LARGEST", "MOST_SENTENCES", "Sentence", "sentences", "text_of"]

LARGEST = 1_000_000
"""The most bytes of a write-up."""
MOST_SENTENCES = 10_000
"""The most sentences of a write-up."""
LONGEST = 1_500
"""The most characters of one sentence that stays whole; a longer one is parted at a space."""
SHORT_WORDS = 12
TITLE_WORDS = 20
WRAPPED = 70
_KEPT = "\t\n\r"
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_MARKER = re.compile(r"^\s*(?:\(?\d{1,3}[.):]|\(?[a-zA-Z][.)]|(?:step|Step|STEP)\s+\d{1,3}[.:)]?|[-*+\u2022\u2013\u00b7])\s+")
_STARTS = frozenset(("so", "then", "right", "and", "oh", "okay", "ok", "well", "now", "next", "um", "anyway", "first", "after", "once"))
_END = re.compile(r"(?<=[.!?])[\"')]*\s+(?=[\"'(]?[A-Z0-9])")
_SHORTENED = re.compile(r"\b(?:approx|e\.g|i\.e|ca|vs)\.$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Sentence:
    """One sentence as it was written: its line, and what it is (a sentence, a heading, or a line of tools)."""

    text: str
    line: int
    kind: str = "sentence"
    listed: bool = False


def text_of(data: bytes, *, where: str) -> str:
    """Return the text of a write-up's bytes.

    Raises
    ------
    InputError
        ``write_up.too_large``, ``write_up.not_utf8``, ``write_up.control`` (with line and column) or ``write_up.empty``.
    """
    if len(data) > LARGEST:
        raise InputError("write_up.too_large", where=where, found=len(data), expected=LARGEST)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError("write_up.not_utf8", where=where, line=line, found=f"0x{data[error.start]:02x}") from None
    for place, letter in enumerate(text):
        if letter not in _KEPT and (unicodedata.category(letter) in ("Cc", "Cs") or letter in _TURNING):
            line = text.count("\n", 0, place) + 1
            column = place - text.rfind("\n", 0, place)
            raise InputError("write_up.control", where=where, line=line, column=column, found=f"U+{ord(letter):04X}")
    if not text.strip():
        raise InputError("write_up.empty", where=where)
    return text


def sentences(text: str, *, where: str) -> tuple[Sentence, ...]:
    """Return the sentences of a write-up in order, headings and lines of tools among them."""
    found: list[Sentence] = []
    listing_tools = False
    for block, line, listed, heading in _blocks(text):
        toolish = _is_toolish(block)
        if not block.strip():
            listing_tools = False
            continue
        if heading:
            listing_tools = toolish
            found.append(Sentence(block.strip(), line, "heading", listed))
            continue
        if toolish or (listing_tools and listed):
            listing_tools = listing_tools or block.rstrip().endswith(":")
            found.append(Sentence(block.strip(), line, "tools", listed))
            continue
        listing_tools = False
        found.extend(Sentence(part, line, "sentence", listed) for part in _parts(block))
        if len(found) > MOST_SENTENCES:
            raise InputError("write_up.too_many", where=where, line=line, expected=MOST_SENTENCES)
    return tuple(found)


def _blocks(text: str) -> list[tuple[str, int, bool, bool]]:
    """Return block, first line, whether it was listed, whether it is a heading; a line that was only wrapped is joined."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    any_listed = any(_MARKER.match(line) for line in lines)
    blocks: list[tuple[str, int, bool, bool]] = []
    before = ""
    for number, line in enumerate(lines, start=1):
        marker = _MARKER.match(line)
        body = line[marker.end() :] if marker else line.strip()
        joins = (
            not marker
            and bool(body)
            and len(before.strip()) >= WRAPPED
            and body[0].islower()
            and body.split()[0].rstrip(",") not in _STARTS
            and before.rstrip()[-1:] not in (".", "!", "?", ":", ";")
            and len(blocks[-1][0]) < LONGEST
        )
        if joins:
            whole, first, listed, _ = blocks[-1]
            blocks[-1] = (f"{whole} {body}", first, listed, False)
        else:
            after = lines[number] if number < len(lines) else "x"
            is_first = not any(block.strip() for block, *_ in blocks)
            blocks.append((body, number, marker is not None, not marker and _is_heading(body, is_first, after, any_listed)))
        before = line
    return blocks


def _is_heading(body: str, is_first: bool, after: str, any_listed: bool) -> bool:
    words = body.split()
    most = TITLE_WORDS if is_first and not after.strip() else SHORT_WORDS
    if not words or len(words) > most or body.rstrip()[-1] in ".!?;,":
        return False
    if body.rstrip().endswith(":"):
        return True
    if body.isupper() and len(words) > 1:
        return True
    return is_first and (not after.strip() or any_listed)


def _is_toolish(block: str) -> bool:
    lead = block.partition(":")[0] if ":" in block else block if len(block.split()) <= len(["what", "you", "will", "need"]) else ""
    words = lead.casefold().split()
    named = bool(set(words) & vocabulary().small["tool_headings"]) and len(words) <= SHORT_WORDS // 2 and block.rstrip().endswith(":")
    return named or " ".join(words) in vocabulary().small["toolish"]


def _parts(block: str) -> list[str]:
    parts: list[str] = []
    for piece in _END.split(block.strip()):
        if parts and _SHORTENED.search(parts[-1]):
            parts[-1] = f"{parts[-1]} {piece}"
        elif piece.strip():
            parts.append(piece.strip())
    return [short for part in parts for short in _shortened(part)]


def _shortened(part: str) -> list[str]:
    found = []
    while len(part) > LONGEST:
        cut = part.rfind(" ", 0, LONGEST)
        cut = cut if cut > 0 else LONGEST
        found.append(part[:cut].strip())
        part = part[cut:].strip()
    return [*found, part] if part else found

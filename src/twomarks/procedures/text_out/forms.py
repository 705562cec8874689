"""Blocks as plain text or as Markdown for one reader."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Iterable, Mapping

from twomarks.procedures.text_out.block import Block
from twomarks.words import Reader, render

__all__ = ["FORMS", "as_text"]

WIDTH = 78
_ACTIVE = re.compile(r"([\\`*_\[\]<>#|~])")
_STARTS = re.compile(r"^(\s*)([-+]|\d+(?=[.)]))", re.MULTILINE)


def as_text(blocks: Iterable[Block], reader: Reader, *, form: str = "plain") -> str:
    """Return the text of `blocks` in one of `FORMS`, ending with a line's end."""
    return FORMS[form](blocks, reader)


def _plain(blocks: Iterable[Block], reader: Reader) -> str:
    lines: list[str] = []
    for block in blocks:
        text = _one_line(block, reader)
        match block.kind:
            case "title":
                lines += [text, "=" * min(len(text), WIDTH)]
            case "heading":
                lines += ["", text, "-" * min(len(text), WIDTH)]
            case "step":
                lines.append(_wrapped(text, f"{block.number:>2}. ", "    "))
            case "item":
                lines.append(_wrapped(text, "- ", "  "))
            case "caution" | "finding":
                lines.append(_wrapped(text, "!   ", "    "))
            case "under":
                lines.append(_wrapped(text, "    ", "    "))
            case _:
                lines.append(_wrapped(text, "", ""))
    return "\n".join(lines).rstrip("\n") + "\n"


def _one_line(block: Block, reader: Reader) -> str:
    return " ".join(render(block.words, reader).split())


def _wrapped(text: str, first: str, rest: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False)


def _markdown(blocks: Iterable[Block], reader: Reader) -> str:
    parts: list[str] = []
    before = ""
    for block in blocks:
        text = _escaped(_one_line(block, reader))
        match block.kind:
            case "title":
                part = f"# {text}"
            case "heading":
                part = f"## {text}"
            case "step":
                part = f"{block.number}. {text}"
            case "item":
                part = f"- {text}"
            case "caution" | "finding":
                part = f"> {text}"
            case "under":
                part = f"   - {text}"
            case _:
                part = text
        close = block.kind in ("item", "under") and before in ("item", "under", "step")
        parts.append(part if not parts else f"\n{part}" if close else f"\n\n{part}")
        before = block.kind
    return "".join(parts) + "\n"


def _escaped(text: str) -> str:
    return _STARTS.sub(r"\1\\\2", _ACTIVE.sub(r"\\\1", text)) if not text[:1].isdigit() else _ACTIVE.sub(r"\\\1", text)


FORMS: Mapping[str, Callable[[Iterable[Block], Reader], str]] = {"plain": _plain, "markdown": _markdown}
"""The forms a text may have."""

"""What screens and paper may be drawn with: the listed colours, no word or ornament that the look forbids."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.repo.ground import SOURCE, shown

LIGHT = "F3F5F0 FFFFFF EAE2CB 171A1C 4A5053 727A7C C6CCC7 5A2D82 E7DEF1"
DARK = "14171A 1E2326 2C2A23 F2F0E7 BCC1BE 868E8E 3A4144 CBA8F5 37264D"
SIGNALS = "9B1C1F E77722 F7C600 005387"
ALLOWED = {f"#{value}".lower() for value in f"{LIGHT} {DARK} {SIGNALS} 000000".split()} | {"#fff", "#000"}

DRAWN = {".html", ".css", ".svg", ".js", ".typ"}
WITH_COLOURS = DRAWN | {".py"}
ROOMS = ("web", "paper")

HEX = re.compile(r"(?<![\w&/#-])#(?:[0-9a-fA-F]{8}|[0-9a-fA-F]{6}|[0-9a-fA-F]{3,4})(?![\w-])")
ANCHOR = re.compile(
    r"""(?:href|xlink:href|data-[\w-]+|action|hash|for)\s*=\s*["'][^"']*$|url\(\s*["']?$|querySelector(?:All)?\(\s*["'`][^"'`]*$"""
)
FUNCTION = re.compile(r"(?i)(?<![\w.-])(rgba?|hsla?|hwb|lab|lch|oklab|oklch|color-mix|luma|cmyk)\(")
NAMED = (
    "aqua|beige|black|blue|brown|coral|crimson|cyan|fuchsia|gold|gray|green|grey|indigo|ivory|khaki|lavender|lime|magenta|maroon|navy|olive|orange"
    "|orchid|pink|plum|purple|red|salmon|silver|tan|teal|tomato|turquoise|violet|wheat|white|yellow"
)
CSS_NAMED = re.compile(
    rf"(?i)(?:^|[;{{\s])(?:--[\w-]+|color|background(?:-color)?|border[\w-]*|outline[\w-]*|fill|stroke|caret-color|accent-color)\s*:[^;}}]*(?<![\w-])({NAMED})(?![\w-])"
)
MARKUP_NAMED = re.compile(rf"""(?i)\b(?:fill|stroke|stop-color|color|bgcolor)\s*=\s*["']({NAMED})["']""")
WORDS = re.compile(r"(?i)\b(overdue|due soon|urgent|upcoming)\b|>\s*OK\s*<")
PICTURES = re.compile("[\U0001f000-\U0001faff\u2600-\u26ff\u2700-\u27bf\ufe0f]")
INLINE = re.compile(
    r"""(?i)<style\b|\sstyle\s*=\s*["'{]|<script\b(?![^>]*\bsrc=)[^>]*>|\son[a-z]+\s*=\s*["']|javascript:|<(?:script|link|img|iframe)\b[^>]*["']\s*(?:https?:)?//"""
)
ORNAMENT = re.compile(
    r"(?i)border-radius\s*:\s*+(?!0\b)|box-shadow\s*:\s*+(?!none\b)|text-shadow\s*:\s*+(?!none\b)|drop-shadow\(|(?:linear|radial|conic)-gradient\((?![^)]*ok)"
    r"|font-style\s*:\s*(?:italic|oblique)|text-transform\s*:\s*uppercase|small-caps"
)
HATCH = re.compile(r"(?i)repeating-linear-gradient\(")


def strip_comments(text: str, kind: str) -> str:
    """Return the text with comments blanked, so that a reason may name what is not drawn."""
    patterns = {
        ".html": r"\{#.*?#\}|\{% comment %\}.*?\{% endcomment %\}|<!--.*?-->",
        ".svg": r"<!--.*?-->",
        ".typ": r"(?m)//.*$|/\*.*?\*/",
    }
    pattern = patterns.get(kind, r"/\*.*?\*/" if kind in (".css", ".js") else r"(?!)")
    return re.sub(pattern, lambda match: re.sub(r"[^\n]", " ", match.group()), text, flags=re.DOTALL)


def strange_colours(text: str, kind: str) -> Iterator[tuple[int, str]]:
    """Yield line and words of every colour that is not on the list."""
    for match in HEX.finditer(text):
        before = text[max(0, match.start() - 80) : match.start()].rsplit("\n", 1)[-1]
        if match.group().lower() not in ALLOWED and not ANCHOR.search(before):
            yield _at(text, match)
    if kind in DRAWN:
        found = [*FUNCTION.finditer(text)] if kind != ".js" else []
        found += [*CSS_NAMED.finditer(text)] if kind == ".css" else []
        found += [*MARKUP_NAMED.finditer(text)] if kind in (".html", ".svg") else []
        yield from (_at(text, match) for match in found)


def forbidden(text: str, kind: str) -> Iterator[tuple[int, str]]:
    """Yield line and words of everything else that the look forbids in a file of this kind."""
    patterns = [WORDS, PICTURES]
    if kind in (".html", ".svg"):
        patterns.append(INLINE)
    if kind == ".css":
        patterns.append(ORNAMENT)
        text = HATCH.sub("hatch(", text)
    for pattern in patterns:
        yield from (_at(text, match) for match in pattern.finditer(text))


def _at(text: str, match: re.Match[str]) -> tuple[int, str]:
    return text.count("\n", 0, match.start()) + 1, match.group().strip()


def drawn(endings: set[str]) -> list[Path]:
    return [
        path
        for room in ROOMS
        for path in sorted((SOURCE / room).rglob("*"))
        if path.suffix in endings and "vendor" not in path.parts and "migrations" not in path.parts
    ]


def test_no_colour_outside_the_list() -> None:
    told = []
    for path in drawn(WITH_COLOURS):
        text = strip_comments(path.read_text("utf-8"), path.suffix)
        told += [f"{shown(path)}:{line}: {words}" for line, words in strange_colours(text, path.suffix)]
    assert not told, "\n".join(told)


def test_nothing_forbidden_is_drawn() -> None:
    told = []
    for path in drawn(DRAWN):
        text = strip_comments(path.read_text("utf-8"), path.suffix)
        told += [f"{shown(path)}:{line}: {words}" for line, words in forbidden(text, path.suffix)]
    assert not told, "\n".join(told)


def test_no_sentence_uses_a_forbidden_word() -> None:
    told = []
    for path in sorted((SOURCE / "words" / "texts").rglob("*.toml")):
        text = path.read_text("utf-8")
        told += [
            f"{shown(path)}:{line}: {words}"
            for pattern in (WORDS, PICTURES)
            for line, words in map(lambda m, t=text: _at(t, m), pattern.finditer(text))
        ]
    assert not told, "\n".join(told)


@pytest.mark.parametrize(
    ("planted", "kind"),
    [
        ("a { color: #ff0000; }", ".css"),
        ("a { color: #5A2D83; }", ".css"),
        ("a { background: rgb(1 2 3); }", ".css"),
        ("a { border: 1px solid red; }", ".css"),
        ("--stripe: green;", ".css"),
        ('<path fill="orange"/>', ".svg"),
        ('<path fill="#123456"/>', ".svg"),
        ("PAINT = '#00aa00'", ".py"),
        ('#let ink = rgb("#101010")', ".typ"),
    ],
)
def test_a_planted_colour_is_seen(planted: str, kind: str) -> None:
    assert list(strange_colours(planted, kind))


@pytest.mark.parametrize(
    ("innocent", "kind"),
    [
        ("a { color: #5a2d82; background: currentColor; }", ".css"),
        ("a { color: CanvasText; white-space: nowrap; }", ".css"),
        ('<a href="#add">', ".html"),
        ('<use href="/x.svg#face"/>', ".svg"),
        ("step.id === 'x#1'", ".js"),
    ],
)
def test_a_listed_colour_and_an_anchor_are_left_alone(innocent: str, kind: str) -> None:
    assert list(strange_colours(innocent, kind)) == []


@pytest.mark.parametrize(
    ("planted", "kind"),
    [
        ("<p>Overdue since May</p>", ".html"),
        ("<b>OK</b>", ".html"),
        ("<p>due soon</p>", ".html"),
        ('<p style="width: 3px">', ".html"),
        ("<style>a{}</style>", ".html"),
        ("<script>go()</script>", ".html"),
        ('<button onclick="go()">', ".html"),
        ('<img src="https://example.org/a.png">', ".html"),
        ("<p>\U0001f527 work</p>", ".html"),
        ("a { border-radius: 4px; }", ".css"),
        ("a { box-shadow: 0 0 2px; }", ".css"),
        ("a { background: linear-gradient(#000, #fff); }", ".css"),
        ("a { font-style: italic; }", ".css"),
    ],
)
def test_a_planted_ornament_or_word_is_seen(planted: str, kind: str) -> None:
    assert list(forbidden(planted, kind))


@pytest.mark.parametrize(
    ("innocent", "kind"),
    [
        ('<script type="module" src="/static/card.js"></script>', ".html"),
        ("a { border-radius: 0; background: repeating-linear-gradient(60deg, #000 0 1px, transparent 1px 6px); }", ".css"),
        ('<a href="https://example.org/">', ".html"),
        ("<p>in the window since 3 November</p>", ".html"),
    ],
)
def test_what_the_look_allows_is_left_alone(innocent: str, kind: str) -> None:
    assert list(forbidden(innocent, kind)) == []

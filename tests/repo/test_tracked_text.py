"""What no file of the repository may say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.repo.ground import ROOT, shown, text_of, tracked

HOSTS = re.compile(
    r"pypi\.(org|python)|test\.pypi|pythonhosted\.org|registry\.npmjs|npmjs\.(com|org)|registry\.yarnpkg|unpkg\.com|cdn\.jsdelivr|cdnjs\."
    r"|deb\.debian|security\.debian|crates\.io|proxy\.golang|ghcr\.io|docker\.io|--(extra-)?index-url|--find-links|--trusted-host"
)
OUTSIDE = {
    "a path of one machine": r"(?<![\w.])/(work|home/\w+|root)/",
    "a folder outside the repository": r"(?<![\w/.-])shared/",
    "a page that is not in the repository": r"\b(design|style|libraries|look|trade|check-values)\.md\b",
    "the number of an issue": r"(?i)\b(issue|ticket|pull request|PR|task|milestone) ?(no\. ?)?#?\d+\b",
    "a bare number sign with a number": r"(?<![\w&#/\"'(=:`])#(?!0{3})\d{1,4}\b(?![0-9a-fA-F-])",
    "who wrote it when": r"(?i)\b(this|last|next|previous|earlier|another) session\b|\bsub-?agents?\b|\btranscripts?\b",
    "work left for later": r"\b(TODO|FIXME|XXX|HACK)\b",
}
PROSE = {".py", ".md", ".toml", ".txt", ".html", ".js", ".css", ".svg", ".typ", ".sh", ".in", ".csv", ".json", ""}
OWN = {"tests/repo/test_tracked_text.py"}
FOREIGN = {"LICENSE", "src/twomarks/web/static/vendor", "tests/browser/vendor"}


def files() -> list[Path]:
    return [path for path in tracked() if shown(path) not in OWN]


def is_foreign(name: str) -> bool:
    return any(name == start or name.startswith(start + "/") for start in FOREIGN) or "/vendor/" in name or ".min." in name


def found(patterns: dict[str, str], text: str) -> list[tuple[int, str, str]]:
    """Return line, what is wrong and the words found."""
    return [
        (text.count("\n", 0, match.start()) + 1, what, match.group())
        for what, pattern in patterns.items()
        for match in re.finditer(pattern, text)
    ]


def test_no_file_names_a_registry_or_a_place_to_fetch_from() -> None:
    told = []
    for path in files():
        text = text_of(path)
        if text is not None and (match := HOSTS.search(text)):
            told.append(f"{shown(path)}: {match.group()}")
    assert not told, "\n".join(told)


def test_locks_hold_no_address() -> None:
    for path in sorted((ROOT / "lock").iterdir()):
        assert "://" not in path.read_text("utf-8"), path.name


def test_no_file_speaks_of_anything_but_the_project() -> None:
    told = []
    for path in files():
        name = shown(path)
        if path.suffix not in PROSE or is_foreign(name):
            continue
        text = text_of(path)
        told += [f"{name}:{line}: {what}: {words}" for line, what, words in found(OUTSIDE, text or "")]
    assert not told, "\n".join(told)


@pytest.mark.parametrize(
    "planted",
    [
        "see /work/x/y",
        "as shared/data has it",
        "# design.md section 4",
        "closes issue 3",
        "fixes it, see #12",
        "asked in the last session",
        "# TODO later",
    ],
)
def test_a_planted_word_is_seen(planted: str) -> None:
    assert found(OUTSIDE, planted)


@pytest.mark.parametrize("planted", ["https://pypi.org/simple", "--index-url x", "https://files.pythonhosted.org/a.whl"])
def test_a_planted_host_is_seen(planted: str) -> None:
    assert HOSTS.search(planted)


@pytest.mark.parametrize(
    "innocent", ["color: #123456;", "href='#step-7'", "django.contrib.sessions", "static/shared/x.css", "a task in 12 steps"]
)
def test_what_is_harmless_is_left_alone(innocent: str) -> None:
    assert found(OUTSIDE, innocent) == []

"""The documents point at what exists."""

from __future__ import annotations

import re
from pathlib import Path

from tests.repo.ground import ROOMS, ROOT, shown

LINK = re.compile(r"!?\[[^\]]*\]\(([^)#\s]+)(?:#[^)]*)?\)")
FENCE = re.compile(r"```.*?```", re.DOTALL)
REPO_PATH = re.compile(r"`((?:src|tests|docs|lock|benchmarks|evidence|\.ci)/[\w./-]*\w)`")
FOLDERS = ("tutorial", "how-to", "reference", "explanation")


def pages() -> list[Path]:
    return [*sorted(ROOT.glob("*.md")), *sorted((ROOT / "docs").rglob("*.md"))]


def test_every_link_leads_somewhere() -> None:
    broken = [
        f"{shown(page)}: {target}"
        for page in pages()
        for target in LINK.findall(FENCE.sub("", page.read_text("utf-8")))
        if "://" not in target and not target.startswith("mailto:") and not (page.parent / target).exists()
    ]
    assert not broken, "\n".join(broken)


def test_every_path_that_is_named_exists() -> None:
    missing = [
        f"{shown(page)}: {name}" for page in pages() for name in REPO_PATH.findall(page.read_text("utf-8")) if not (ROOT / name).exists()
    ]
    assert not missing, "\n".join(missing)


def test_every_page_can_be_reached_from_the_index() -> None:
    seen: set[Path] = set()
    waiting = [ROOT / "docs" / "index.md"]
    while waiting:
        page = waiting.pop().resolve()
        if page in seen or page.suffix != ".md" or not page.exists():
            continue
        seen.add(page)
        waiting += [page.parent / target for target in LINK.findall(page.read_text("utf-8")) if "://" not in target]
    assert [shown(page) for page in (ROOT / "docs").rglob("*.md") if page.resolve() not in seen] == []


def test_each_kind_of_document_is_there() -> None:
    assert [folder for folder in FOLDERS if not list((ROOT / "docs" / folder).glob("*.md"))] == []


def test_the_architecture_names_every_room() -> None:
    text = (ROOT / "ARCHITECTURE.md").read_text("utf-8")
    assert [room for room in ROOMS if not re.search(rf"^(?:\w+ \| )?{room}\b", text, re.MULTILINE)] == []


def test_the_guide_for_contributors_stays_short() -> None:
    assert len((ROOT / "CONTRIBUTING.md").read_text("utf-8").splitlines()) < 150

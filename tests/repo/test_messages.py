"""Every key that code speaks has its sentence, and every sentence is spoken."""

from __future__ import annotations

import ast
import re
import tomllib
from functools import cache

import pytest

from tests.repo.ground import SOURCE, modules, shown, text_of, tree_of

TEXTS = SOURCE / "words" / "texts"
SPEAKERS = {"Message", "say"}
NOT_KEYED = {
    "NetworkUsedError",
    "LookupError",
    "ValueError",
    "TypeError",
    "KeyError",
    "RuntimeError",
    "OSError",
    "AssertionError",
    "ImportError",
}
KEY = re.compile(r"[a-z][a-z0-9_]*\.[a-z0-9_.-]+")
OTHER_FILES = {".html", ".js", ".toml", ".txt", ".typ"}
PLACEHOLDER = re.compile(r"\{([a-z_][a-z0-9_]*)")


@cache
def sentences(language: str = "en") -> dict[str, str]:
    found: dict[str, str] = {}
    for path in sorted((TEXTS / language).glob("*.toml")):
        if path.name != "terms.toml":
            found |= {f"{path.stem}.{key}": text for key, text in tomllib.loads(path.read_text("utf-8")).items()}
    return found


def spoken(tree: ast.Module) -> tuple[list[tuple[int, str]], list[tuple[int, str]]]:
    """Return the keys that are spoken outright and the patterns of those put together, each with its line."""
    outright: list[tuple[int, str]] = []
    patterns: list[tuple[int, str]] = []
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.id if isinstance(node.func, ast.Name) else node.func.attr if isinstance(node.func, ast.Attribute) else ""
        if name not in SPEAKERS and not (name.endswith("Error") and name not in NOT_KEYED):
            continue
        for first in _choices(node.args[0]) if node.args else []:
            if isinstance(first, ast.Constant) and isinstance(first.value, str):
                outright.append((node.lineno, first.value))
            elif isinstance(first, ast.JoinedStr):
                patterns.append((node.lineno, _pattern(first)))
    return outright, patterns


def _choices(node: ast.expr) -> list[ast.expr]:
    return [*_choices(node.body), *_choices(node.orelse)] if isinstance(node, ast.IfExp) else [node]


def _pattern(node: ast.JoinedStr) -> str:
    return "".join(re.escape(str(part.value)) if isinstance(part, ast.Constant) else "[a-z0-9_.-]+" for part in node.values)


def literals(tree: ast.Module) -> tuple[set[str], set[str]]:
    """Return every string of a module, and the patterns of those put together that look like keys."""
    strings = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}
    joined = {_pattern(node) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr)}
    return strings, {pattern for pattern in joined if re.match(r"[a-z_0-9]+\\\.|\[a-z0-9_\.-\]\+\\\.[a-z_]", pattern)}


def test_every_spoken_key_has_a_sentence() -> None:
    missing = []
    for path in modules():
        outright, patterns = spoken(tree_of(path))
        missing += [f"{shown(path)}:{line}: {key}" for line, key in outright if key not in sentences()]
        missing += [
            f"{shown(path)}:{line}: {pattern}" for line, pattern in patterns if not any(re.fullmatch(pattern, key) for key in sentences())
        ]
    assert not missing, "\n".join(missing)


def test_every_sentence_is_spoken() -> None:
    strings: set[str] = set()
    patterns: set[str] = set()
    for path in modules():
        found, joined = literals(tree_of(path))
        strings |= found
        patterns |= joined
    others = "\n".join(
        text_of(path) or "" for path in SOURCE.rglob("*") if path.suffix in OTHER_FILES and "texts" not in path.parts and path.is_file()
    )
    spoken_elsewhere = set(KEY.findall(others))
    silent = [
        key
        for key in sentences()
        if key not in strings and key not in spoken_elsewhere and not any(re.fullmatch(pattern, key) for pattern in patterns)
    ]
    assert not silent, "\n".join(silent)


def test_every_text_file_is_flat() -> None:
    assert [key for key, text in sentences().items() if not isinstance(text, str)] == []


def test_every_language_has_the_same_keys_and_figures() -> None:
    for folder in TEXTS.iterdir():
        other = sentences(folder.name)
        assert set(other) == set(sentences())
        assert {key: sorted(set(PLACEHOLDER.findall(text))) for key, text in other.items()} == {
            key: sorted(set(PLACEHOLDER.findall(text))) for key, text in sentences().items()
        }


@pytest.mark.parametrize(
    "planted",
    [
        "say('oil.no_such_key')",
        "raise InputError('units.no_such_key', where='x')",
        "Message('no_topic.x', {})",
        "say('a.b' if x else 'c.d')",
    ],
)
def test_a_planted_key_without_sentence_is_seen(planted: str) -> None:
    outright, _ = spoken(ast.parse(planted))
    assert outright
    assert all(key not in sentences() for _, key in outright)


def test_a_key_put_together_is_held_to_its_pattern() -> None:
    _, patterns = spoken(ast.parse("say(f'units.{kind}')"))
    assert [pattern for _, pattern in patterns] == [r"units\.[a-z0-9_.-]+"]

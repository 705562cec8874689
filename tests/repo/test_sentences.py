"""Rooms speak in messages: sentences stand in words, in templates and in the help of commands, nowhere else."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator

import pytest

from tests.repo.ground import ROOMS, modules, shown, tree_of

LONGEST = 3
WORD = re.compile(r"[\"'(\[]*[A-Za-zÀ-ÖØ-öø-ÿ][A-Za-zÀ-ÖØ-öø-ÿ'’-]*[.,;:!?)\]\"']*")
SQL = re.compile(r"\s*(ALTER|BEGIN|CREATE|DELETE|DROP|INSERT|PRAGMA|SELECT|UPDATE|VACUUM|WITH|BEFORE|AFTER|WHEN|RAISE)\b")
HELP = {"help", "short_help", "epilog", "metavar"}
COMMAND = re.compile(r"twomarks(\.\w+)+:\w+")
WITH_HELP = ("cli", "app")
DESCRIPTIONS = {"Field": {"description", "title", "examples"}}
"""What a schema says of a key is documentation of a format, shipped beside the format, as a docstring is of a function."""
CHECKED = tuple(room for room in ROOMS if room != "words")


def words_in(text: str) -> int:
    """Return how many words a reader would count; statements for the database are not for a reader."""
    if SQL.match(text):
        return 0
    return sum(1 for token in text.split() if WORD.fullmatch(token))


def sentences(tree: ast.Module, *, help_allowed: bool) -> list[tuple[int, str]]:
    """Return line and text of every string of four words or more that is no docstring (nor help, where that is allowed)."""
    passed: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant | ast.JoinedStr):
            passed.add(id(node.value))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in DESCRIPTIONS:
            told = DESCRIPTIONS[node.func.id]
            passed |= {id(part) for keyword in node.keywords if keyword.arg in told for part in ast.walk(keyword.value)}
        if help_allowed and isinstance(node, ast.Call):
            passed |= {id(part) for keyword in node.keywords if keyword.arg in HELP for part in ast.walk(keyword.value)}
        if isinstance(node, ast.AnnAssign) and ast.unparse(node.annotation) == "TypeAlias" and node.value is not None:
            passed.add(id(node.value))
        if help_allowed and isinstance(node, ast.Tuple) and len(node.elts) == 2:
            command = node.elts[0]
            if isinstance(command, ast.Constant) and isinstance(command.value, str) and COMMAND.fullmatch(command.value):
                passed.add(id(node.elts[1]))
    return [(line, text) for line, text in _texts(tree, passed) if words_in(text) > LONGEST]


def _texts(node: ast.AST, passed: set[int]) -> Iterator[tuple[int, str]]:
    if id(node) in passed:
        return
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        joined = _joined(node)
        if joined is not None:
            yield node.lineno, joined
            return
    if isinstance(node, ast.JoinedStr | ast.Constant):
        joined = _joined(node)
        if joined is not None:
            yield node.lineno, joined  # type: ignore[attr-defined]
        if isinstance(node, ast.Constant):
            return
    for child in ast.iter_child_nodes(node):
        if not (isinstance(node, ast.JoinedStr) and isinstance(child, ast.Constant)):
            yield from _texts(child, passed)


def _joined(node: ast.AST) -> str | None:
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        return "".join(_joined(part) or "" if isinstance(part, ast.Constant) else "{}" for part in node.values)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        left, right = _joined(node.left), _joined(node.right)
        return None if left is None and right is None else f"{left or '{}'}{right or '{}'}"
    return None


def test_no_room_but_words_holds_a_sentence() -> None:
    found = [
        f"{shown(path)}:{line}: {text}"
        for room in CHECKED
        for path in modules(room)
        for line, text in sentences(tree_of(path), help_allowed=room in WITH_HELP)
    ]
    assert not found, "\n".join(found)


@pytest.mark.parametrize(
    "planted",
    [
        "x = 'the plug is still out'",
        "raise ValueError('the plug is ' + name + ' out')",
        "x = f'the plug {name} is out'",
        "x = f'{due} in the window since {day}'",
        "def f():\n    'Doc.'\n    return 'the plug is out'",
        "option('--day', help='the day of the work')",
        "x = ('the plug '\n     'is still out')",
    ],
)
def test_a_planted_sentence_is_seen(planted: str) -> None:
    assert sentences(ast.parse(planted), help_allowed=False)


@pytest.mark.parametrize(
    "innocent",
    [
        "'''This module does this and that.'''",
        "def f():\n    '''Return the plug that is out.'''",
        "x = 'engine oil drain'",
        "x = 'CREATE TRIGGER t BEFORE UPDATE ON readings BEGIN SELECT 1; END'",
        "x = '12 mm / 16 x 22 / 4.3 L / 38 N·m'",
        "say('oil.grade_covers', have='5W-30')",
        "Document: TypeAlias = 'Sheet | Procedure | Shelf | Record'",
        "low_km: float = Field(description='10 % of the chance lies below')",
    ],
)
def test_what_no_reader_reads_is_left_alone(innocent: str) -> None:
    assert sentences(ast.parse(innocent), help_allowed=False) == []


def test_help_is_allowed_where_commands_are() -> None:
    assert sentences(ast.parse("option('--day', help='the day of the work, ' + shown)"), help_allowed=True) == []
    assert sentences(ast.parse("COMMANDS = {'due': ('twomarks.cli.due:due', 'What is due and when.')}"), help_allowed=True) == []

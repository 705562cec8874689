"""Every answer there is: its name, and the type that says what stands in it."""

from __future__ import annotations

import importlib

from twomarks.errors import InputError
from twomarks.exchange.answers.said import Answer

__all__ = ["ANSWERS", "answer_type", "format_of"]

ANSWERS: dict[str, tuple[str, str]] = {
    "buy": ("buy", "BuyAnswer"),
    "card": ("card", "CardAnswer"),
    "cost": ("cost", "CostAnswer"),
    "day": ("day", "DayAnswer"),
    "due": ("due", "DueAnswer"),
    "enter": ("enter", "EnterAnswer"),
    "gone-wrong": ("gone_wrong", "GoneWrongAnswer"),
    "import-document": ("imports", "DocumentAnswer"),
    "import-readings": ("imports", "ImportAnswer"),
    "level": ("level", "LevelAnswer"),
    "prepare": ("prepare", "PrepareAnswer"),
    "procedure": ("procedures", "ProcedureAnswer"),
    "procedures": ("procedures", "ProceduresAnswer"),
    "read-write-up": ("read_write_up", "ReadWriteUpAnswer"),
    "ready": ("ready", "ReadyAnswer"),
    "reckon": ("reckon", "ReckonAnswer"),
    "reckon-asks": ("reckon", "ReckonAsksAnswer"),
    "reckon-list": ("reckon", "ReckonListAnswer"),
    "rehearse": ("rehearse", "RehearseAnswer"),
    "selfcheck": ("selfcheck", "SelfcheckAnswer"),
    "text": ("text", "TextAnswer"),
    "tools": ("text", "ToolsAnswer"),
    "workdays": ("workdays", "WorkdaysAnswer"),
}
"""Name -> module and type; the name stands in the answer's format."""
VERSION = 1


def answer_type(name: str) -> type[Answer]:
    """Return the type of the answer `name`."""
    if name not in ANSWERS:
        raise InputError("answer_schema.unknown", found=name, expected=tuple(ANSWERS))
    module, kind = ANSWERS[name]
    found: type[Answer] = getattr(importlib.import_module(f"twomarks.exchange.answers.{module}"), kind)
    return found


def format_of(name: str) -> str:
    """Return the format that the answer `name` carries."""
    return f"twomarks/answer/{name}/{VERSION}"

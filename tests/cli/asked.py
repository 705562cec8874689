"""A calculation as the command line asks it, without the command around it."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

from click.testing import CliRunner

from twomarks.cli.reckon import reckon
from twomarks.cli.reckonings.calculation import Reckoned, given_for
from twomarks.cli.reckonings.names import calculation
from twomarks.words import Reader, render

__all__ = ["answered", "answered_json", "told"]

ON = dt.date(2026, 11, 25)


def answered(name: str, *words: str, market: str = "metric") -> Reckoned:
    """Return what a calculation answers to ``key=value`` words."""
    asked = calculation(name)
    return asked.reckon(given_for(asked, words, market=market, decimal=".", on=ON))


def told(answer: Reckoned, *, market: str = "metric") -> str:
    """Return the sentences and cautions of an answer, as one reader sees them."""
    text = "\n".join(render(line, Reader.of(market)) for line in (*answer.lines, *answer.cautions))
    assert "?" not in text
    assert "{" not in text
    return text.replace("\u00a0", " ")


def answered_json(name: str, *words: str) -> dict[str, Any]:
    """Return the whole answer of ``twomarks reckon NAME ... --json``."""
    ran = CliRunner().invoke(reckon, [name, *words, "--json", "--on", ON.isoformat()])
    assert ran.exception is None or isinstance(ran.exception, SystemExit), ran.exception
    found: dict[str, Any] = json.loads(ran.output)
    return found

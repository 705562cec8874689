"""How long each stage of a command took; written to the error stream when ``TWOMARKS_TIMINGS`` is set."""

from __future__ import annotations

import json
import os
import time

import click

__all__ = ["Stages"]

VARIABLE = "TWOMARKS_TIMINGS"


class Stages:
    """Notes the end of each stage."""

    def __init__(self) -> None:
        self._last = time.perf_counter()
        self._seconds: dict[str, float] = {}
        self.wanted = bool(os.environ.get(VARIABLE))

    def end(self, name: str) -> None:
        """Note that the stage `name` has ended now."""
        now = time.perf_counter()
        self._seconds[name] = self._seconds.get(name, 0.0) + now - self._last
        self._last = now

    def tell(self) -> None:
        """Write the seconds of each stage as JSON, where somebody wants them."""
        if self.wanted:
            click.echo(json.dumps({name: round(seconds, 5) for name, seconds in self._seconds.items()}), err=True)

"""One process that runs command lines on one home, as a terminal would: quick, because it starts once."""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import sqlite3
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

__all__ = ["ROOT", "Done", "Shell", "kept_in", "once"]

ROOT = Path(__file__).resolve().parents[2]
DERIVED = {"derived"}
WORKER = """
import contextlib, io, json, sys, traceback
from twomarks.app.__main__ import run
for line in sys.stdin:
    asked = json.loads(line)
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        if asked == ["build"]:
            from pathlib import Path
            from tests.cli.household import build
            from twomarks.app.opening import open_home
            open_home(None)
            build()
            code = 0
        else:
            try:
                code = run(asked)
            except BaseException:
                code = 99
                traceback.print_exc()
    print(json.dumps([code, out.getvalue(), err.getvalue()]), flush=True)
"""


@dataclass(frozen=True, slots=True)
class Done:
    """What a command line came to."""

    code: int
    out: str
    err: str

    @property
    def answer(self) -> dict[str, Any]:
        """The answer as JSON."""
        found: dict[str, Any] = json.loads(self.out)
        return found

    @property
    def said(self) -> str:
        """The text of the answer on one line, apart from where it was wrapped."""
        return " ".join(self.out.split())


def environment(home: Path) -> dict[str, str]:
    """Return the environment of a terminal whose home is `home`."""
    plain = {name: value for name, value in os.environ.items() if not name.startswith(("TWOMARKS_", "DJANGO_"))}
    return {
        **plain,
        "TWOMARKS_HOME": str(home),
        "HOME": str(home),
        "PYTHONPATH": os.pathsep.join((str(ROOT / "src"), str(ROOT))),
        "PYTHONIOENCODING": "utf-8",
        "NO_COLOR": "1",
    }


class Shell:
    """A terminal on one home."""

    def __init__(self, home: Path) -> None:
        self.home = home
        self._process = subprocess.Popen(
            [sys.executable, "-c", WORKER],
            env=environment(home),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            encoding="utf-8",
        )

    def run(self, *words: str, on: str | None = "2026-11-25") -> Done:
        """Run a command line, with a fixed today where it takes one."""
        asked = [*words, *(["--on", on] if on and words != ("build",) else [])]
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.write(json.dumps(asked) + "\n")
        self._process.stdin.flush()
        line = self._process.stdout.readline()
        assert line, "the command line ended its process"
        return Done(*json.loads(line))

    def close(self) -> None:
        """End the process."""
        assert self._process.stdin is not None
        assert self._process.stdout is not None
        self._process.stdin.close()
        self._process.wait(timeout=60)
        self._process.stdout.close()


def once(home: Path, *words: str, limit_bytes: int | None = None, **variables: str) -> Done:
    """Run a command line in a process of its own, its files limited in size where a full disk is meant."""
    limited = None
    if limit_bytes is not None:
        import resource

        most = limit_bytes

        def limited() -> None:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))

    done = subprocess.run(
        [sys.executable, "-m", "twomarks.app", *words],
        env={**environment(home), **variables},
        capture_output=True,
        text=True,
        encoding="utf-8",
        stdin=subprocess.DEVNULL,
        preexec_fn=limited,
        timeout=300,
    )
    return Done(done.returncode, done.stdout, done.stderr)


def kept_in(home: Path) -> str:
    """Return a digest of all that is kept in a home, answers worked out from it left out; "" where there is nothing."""
    database = home / "twomarks.sqlite3"
    if not database.exists():
        return ""
    digest = hashlib.sha256()
    with contextlib.closing(sqlite3.connect(database)) as connection:
        names = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")]
        for name in names:
            if name in DERIVED or name.startswith("sqlite_"):
                continue
            for row in connection.execute(f'SELECT * FROM "{name}" ORDER BY 1'):
                digest.update(repr((name, row)).encode())
    return digest.hexdigest()

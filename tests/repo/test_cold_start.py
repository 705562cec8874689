"""A command loads only what it needs."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

ON = "2026-11-25"
HEAVY = (
    *("numpy", "scipy", "pandas", "ortools", "highspy", "typst", "PIL", "rich", "granian", "whitenoise", "csp", "tomlkit"),
    *("django.contrib.auth", "django.contrib.sessions", "django.contrib.staticfiles", "django.contrib.admin"),
    *("twomarks.web", "twomarks.paper"),
)
ASK = """
import io, json, sys
from twomarks.app.__main__ import run
words = json.loads(sys.argv[1])
answer, sys.stdout = sys.stdout, io.StringIO()
code = run(words)
json.dump({"code": code, "said": sys.stdout.getvalue(), "loaded": sorted(sys.modules)}, answer)
"""


def asked(*words: str) -> tuple[int, str, set[str]]:
    """Run a command in a process of its own; return its exit code, what it said and the modules it loaded."""
    done = subprocess.run(
        [sys.executable, "-c", ASK, json.dumps(words)],
        capture_output=True,
        text=True,
        env={name: value for name, value in os.environ.items() if name != "DJANGO_SETTINGS_MODULE"},
    )
    assert done.returncode == 0, done.stderr
    answer = json.loads(done.stdout)
    assert answer["code"] == 0, done.stderr
    return answer["code"], answer["said"], set(answer["loaded"])


def test_due_loads_no_array_library_no_solver_and_no_accounts(tmp_path: Path) -> None:
    asked("demo", "--no-serve", "--home", str(tmp_path), "--on", ON)
    _, said, loaded = asked("due", "--json", "--home", str(tmp_path), "--on", ON)
    answer = json.loads(said)
    assert answer["format"].startswith("twomarks/answer/due/1")
    assert "django.db" in loaded
    assert [name for name in HEAVY if name in loaded] == []


def test_help_loads_no_framework() -> None:
    _, said, loaded = asked("--help")
    assert "due" in said
    assert [name for name in (*HEAVY, "django", "pydantic") if name in loaded] == []


def test_a_heavy_module_would_be_seen() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "import numpy, sys, json; print(json.dumps(sorted(sys.modules)))"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert "numpy" in HEAVY
    assert "numpy" in json.loads(done.stdout)

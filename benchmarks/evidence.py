"""What a long suite or a bench found, written down so that a text may quote it."""

from __future__ import annotations

import json
import os
import platform
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

__all__ = ["FOLDER", "commit", "machine", "write"]

ROOT = Path(__file__).resolve().parent.parent
FOLDER = ROOT / "evidence"


def write(
    name: str, result: Mapping[str, Any], *, seed: int | None = None, counts: Mapping[str, int] | None = None, folder: Path = FOLDER
) -> Path:
    """Write ``<name>.json`` (commit, machine, seed, counts, result) and return its path."""
    if not name.replace("_", "").isalnum():
        raise ValueError(name)
    folder.mkdir(exist_ok=True)
    content = {
        "name": name,
        "commit": commit(),
        "machine": machine(),
        "seed": seed,
        "counts": dict(counts or {}),
        "result": dict(result),
    }
    path = folder / f"{name}.json"
    path.write_text(json.dumps(content, indent=2, ensure_ascii=False, allow_nan=False) + "\n", "utf-8")
    return path


def commit() -> str:
    """Return the commit of this checkout, with a plus where source files differ from it."""
    try:
        head = _git("rev-parse", "--short=12", "HEAD")
        changed = _git("status", "--porcelain", "--", "src", "benchmarks", "lock")
    except (OSError, subprocess.CalledProcessError):
        return "unknown"
    return f"{head}+" if changed else head


def machine() -> dict[str, Any]:
    """Return what the times depend on."""
    return {
        "processor": _processor(),
        "cores": len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count(),
        "system": f"{platform.system()} {platform.machine()}",
        "python": platform.python_version(),
    }


def _git(*words: str) -> str:
    return subprocess.run(["git", "-C", str(ROOT), *words], capture_output=True, text=True, check=True).stdout.strip()


def _processor() -> str:
    try:
        lines = Path("/proc/cpuinfo").read_text("utf-8").splitlines()
    except OSError:
        return platform.processor()
    return next((line.partition(":")[2].strip() for line in lines if line.startswith("model name")), platform.processor())

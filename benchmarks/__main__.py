"""Run the benches: all of them, or those whose name begins with the word given."""

from __future__ import annotations

import importlib
import pkgutil
import sys
from pathlib import Path

FOLDER = Path(__file__).resolve().parent
NOT_BENCHES = {"__main__", "evidence", "reference_load", "stopwatch"}


def benches() -> list[str]:
    """Return the names of the benches: every module or package here with a `main`, beside those that serve them."""
    found = [module for module in pkgutil.iter_modules([str(FOLDER)]) if module.name not in NOT_BENCHES]
    texts = {one.name: FOLDER / (f"{one.name}/__init__.py" if one.ispkg else f"{one.name}.py") for one in found}
    return [name for name, path in texts.items() if "def main(" in path.read_text("utf-8")]


def main(words: list[str]) -> int:
    """Run what was asked for and return the exit code."""
    wanted = [name for name in benches() if not words or any(name.startswith(word) for word in words)]
    if not wanted:
        print(f"No bench is called {' '.join(words)}. There are: {', '.join(benches())}.", file=sys.stderr)
        return 2
    failed = []
    for name in wanted:
        print(f"== {name}", flush=True)
        try:
            importlib.import_module(f"benchmarks.{name}").main()
        except Exception as error:  # noqa: BLE001 - one bench that fails must not hide the others
            print(f"   failed: {error!r}", file=sys.stderr)
            failed.append(name)
    print(f"{len(wanted) - len(failed)} benches ran, {len(failed)} failed.")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

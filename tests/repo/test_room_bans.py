"""Each room's own list of banned calls holds, and a planted call is seen in every room."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from tests.repo.ground import CORE, MODULES, ROOMS, ROOT, skeleton

CLOCKS = {
    "today": "import datetime as dt\n\nday = dt.date.today()\n",
    "now": "import datetime as dt\n\nat = dt.datetime.now(dt.UTC)\n",
    "utcnow": "from datetime import datetime\n\nat = datetime.utcnow()\n",
    "time": "import time\n\nat = time.time()\n",
}
CHANCES = {
    "random": "import random\n\nx = random.random()\n",
    "numpy": "import numpy as np\n\nx = np.random.default_rng()\n",
    "uuid4": "import uuid\n\nx = uuid.uuid4()\n",
}
DATABASE = {"database": "from django.db import connection\n\nx = connection\n"}
ABOVE = ("app", "web", "cli", "demo", "exchange")


def banned(folder: Path) -> set[str]:
    """Return the files below src/twomarks in which ruff sees a banned call."""
    done = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "--no-cache", "--select", "TID251", "--output-format", "json", "src"],
        cwd=folder,
        capture_output=True,
        text=True,
    )
    assert done.returncode in (0, 1), done.stderr
    package = (folder / "src" / "twomarks").resolve()
    return {Path(fault["filename"]).resolve().relative_to(package).as_posix() for fault in json.loads(done.stdout)}


def planted(rooms: tuple[str, ...], calls: dict[str, str]) -> dict[str, str]:
    return {f"{room}/planted_{name}.py": text for room in rooms if room not in MODULES for name, text in calls.items()}


def test_the_house_calls_nothing_banned() -> None:
    assert banned(ROOT) == set()


def test_a_clock_is_seen_in_every_room(tmp_path: Path) -> None:
    files = planted(ROOMS, CLOCKS) | {"errors.py": CLOCKS["today"], "packaged.py": CLOCKS["time"], "web/accounts/views.py": CLOCKS["now"]}
    assert banned(skeleton(tmp_path, files)) == set(files)


def test_the_one_clock_may_read_the_time(tmp_path: Path) -> None:
    assert banned(skeleton(tmp_path, {"keeping/clock.py": CLOCKS["now"]})) == set()


def test_chance_and_the_framework_are_seen_below_keeping(tmp_path: Path) -> None:
    files = planted(CORE, CHANCES | DATABASE)
    assert banned(skeleton(tmp_path, files)) == set(files)


def test_the_database_is_seen_above_keeping(tmp_path: Path) -> None:
    files = planted(ABOVE, DATABASE)
    assert banned(skeleton(tmp_path, files)) == set(files)


@pytest.mark.parametrize("place", ["keeping/records.py", "web/accounts/models.py"])
def test_the_database_belongs_to_keeping_and_accounts(tmp_path: Path, place: str) -> None:
    assert banned(skeleton(tmp_path, {place: DATABASE["database"]})) == set()


def test_a_new_room_is_held_to_the_strictest_list(tmp_path: Path) -> None:
    files = planted(("attic",), CLOCKS | CHANCES | DATABASE)
    assert banned(skeleton(tmp_path, files)) == set(files)

"""The wheel, built once for the tests that look into it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.repo.ground import ROOT

BUILD = "import sys; from flit_core.buildapi import build_wheel; print(build_wheel(sys.argv[1]))"


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the path of the wheel built from this checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    done = subprocess.run([sys.executable, "-c", BUILD, str(folder)], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    return folder / done.stdout.split()[-1]

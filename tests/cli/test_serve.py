"""The pages of a home that was never used: the first one asks what the vehicle is."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

PATIENCE_S = 30.0


@pytest.fixture
def address(tmp_path: Path) -> Iterator[str]:
    """The address of the pages of an empty home, served as an owner would."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    command = [sys.executable, "-m", "twomarks.app", "serve", "--home", str(tmp_path / "home"), "--port", str(port)]
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, env=os.environ.copy())
    try:
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until and process.poll() is None:
            try:
                urllib.request.urlopen(f"http://127.0.0.1:{port}/start/", timeout=5).close()
                break
            except (urllib.error.URLError, ConnectionError):
                time.sleep(0.1)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.communicate()


def test_an_empty_home_opens_on_the_first_question(address: str) -> None:
    with urllib.request.urlopen(f"{address}/", timeout=10) as answer:
        page = answer.read().decode()
    assert answer.url == f"{address}/start/"
    assert 'name="odometer"' in page

"""What every test stands on: no network, tiers skipped by name, one Chromium, law suites of a fixed size."""

from __future__ import annotations

import atexit
import ipaddress
import os
import shutil
import sys
import tempfile
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

REFERENCE = os.environ.get("TWOMARKS_REFERENCE") == "1"
LONG = os.environ.get("TWOMARKS_LONG") == "1"
CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")

NO_HOME = tempfile.mkdtemp(prefix="twomarks-tests-")
atexit.register(shutil.rmtree, NO_HOME, ignore_errors=True)
os.environ["TWOMARKS_HOME"] = NO_HOME  # no test may find the home of the person who runs it
os.environ.pop("TWOMARKS_DATABASE", None)
os.environ.pop("TWOMARKS_POSTGRES", None)

settings.register_profile("slice", max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("long", max_examples=2000, deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("long" if LONG else "slice")


class NetworkUsedError(RuntimeError):
    """A test reached for an address outside this machine."""


def _refuse_the_network(event: str, arguments: tuple[Any, ...]) -> None:
    if event != "socket.connect":
        return
    address = arguments[1]
    host = address[0] if isinstance(address, tuple) else ""
    if host in ("", "localhost"):
        return
    try:
        local = ipaddress.ip_address(host.partition("%")[0]).is_loopback
    except ValueError:
        local = False
    if not local:
        raise NetworkUsedError(f"a test connects to {host}")


sys.addaudithook(_refuse_the_network)


def chromium() -> str:
    """Return the path of the Chromium that the browser tests drive, or "" where there is none."""
    named = os.environ.get("TWOMARKS_CHROMIUM")
    if named is not None:
        return named
    return next((place for place in map(shutil.which, CHROMIUM_NAMES) if place), "")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    skips = {
        "reference": pytest.mark.skip(reason="compares with reference libraries: start.py test --reference"),
        "long": pytest.mark.skip(reason="full counts: start.py test --long"),
        "browser": pytest.mark.skip(reason="no Chromium found: install it or set TWOMARKS_CHROMIUM"),
    }
    wanted = {"reference": REFERENCE, "long": LONG, "browser": bool(chromium())}
    for item in items:
        if "/tests/browser/" in item.path.as_posix():
            item.add_marker(pytest.mark.browser)
        for name, skip in skips.items():
            if item.get_closest_marker(name) and not wanted[name]:
                item.add_marker(skip)


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict[str, Any]:
    """How Chromium is started: the system's own, without a sandbox where the tests run as root."""
    arguments = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
    return {"executable_path": chromium(), "args": [*arguments, "--disable-dev-shm-usage"], "headless": True}

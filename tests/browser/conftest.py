"""Real Chromium on a phone's and a desk's screen; every test fails on a console error and on any request to the outside."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.db import connections

from tests.web.household import TODAY, Household, furnished

os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # the browser's driver runs a loop in the test's own thread
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
# The served pages and the test ask at the same time: each thread needs a connection of its own, so no database in memory.
if connections["default"].vendor == "sqlite":
    connections["default"].settings_dict["TEST"]["NAME"] = str(Path(os.environ["TWOMARKS_HOME"]) / "browser-tests.sqlite3")
AXE = Path(__file__).parent / "vendor" / "axe.min.js"
OWN = ("http://localhost", "http://127.0.0.1", "data:", "blob:")


@pytest.fixture(scope="session", autouse=True)
def _flush_past_triggers() -> Iterator[None]:
    from tests.keeping.flushing import past_triggers

    with past_triggers():
        yield


@pytest.fixture(autouse=True)
def _fixed_day(settings: Any) -> None:
    settings.TWOMARKS_ON = TODAY.isoformat()


@pytest.fixture
def home(transactional_db: None, page: Any) -> Iterator[Household]:
    """A household with a car, a shelf, an entry and a started card, where the served pages see it.

    The page is left before the household goes, so that nothing asks for what is no longer there.
    """
    yield furnished()
    page.goto("about:blank")


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args: dict[str, Any]) -> dict[str, Any]:
    """A phone, read in British English, with motion reduced."""
    return {**browser_context_args, "viewport": PHONE, "locale": "en-GB", "timezone_id": "Europe/London", "reduced_motion": "reduce"}


@pytest.fixture(autouse=True)
def _quiet(request: pytest.FixtureRequest) -> Iterator[None]:
    if "page" not in request.fixturenames:
        yield
        return
    page = request.getfixturevalue("page")
    told: list[str] = []
    outside: list[str] = []
    page.on("console", lambda message: told.append(message.text) if message.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: told.append(str(error)))
    page.on("request", lambda asked: outside.append(asked.url) if not asked.url.startswith(OWN) else None)
    yield
    expected = getattr(page, "expects_to_be_offline", False)
    assert [text for text in told if not (expected and "ERR_INTERNET_DISCONNECTED" in text)] == []
    assert outside == []


@pytest.fixture(scope="session")
def base_url() -> str:
    """No address stands before those that tests open; the plugin's own fixture of this name is deprecated in its form."""
    return ""


@pytest.fixture(scope="session")
def axe() -> str:
    """The text of the accessibility checker."""
    return AXE.read_text("utf-8")

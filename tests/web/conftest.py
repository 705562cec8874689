"""Pages over a household of the test's own, on a fixed day."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.web.household import TODAY, Household, founded, furnished
from twomarks.keeping.scope import Scope


@pytest.fixture(scope="session", autouse=True)
def _flush_past_triggers() -> Iterator[None]:
    from tests.keeping.flushing import past_triggers

    with past_triggers():
        yield


@pytest.fixture(autouse=True)
def _fixed_day(settings: object) -> None:
    settings.TWOMARKS_ON = TODAY.isoformat()  # type: ignore[attr-defined]


@pytest.fixture
def empty(db: None) -> Scope:
    """A household in which nothing is kept yet."""
    return founded()


@pytest.fixture
def home(db: None) -> Household:
    """A household with a car, a shelf, an entry and a started card."""
    return furnished()

"""A household with an invented vehicle, shelf and place, in a database of the test's own."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.keeping.samples import ALDER, SHELF
from twomarks.keeping.scope import Scope


@pytest.fixture
def scope(db: None) -> Scope:
    """The scope of the first person of a household with one vehicle and a shelf list."""
    return founded("Home", "A.")


@pytest.fixture
def other(db: None) -> Scope:
    """Another household with the same names."""
    return founded("Home", "A.")


@pytest.fixture(scope="session", autouse=True)
def _flush_past_triggers() -> Iterator[None]:
    from tests.keeping.flushing import past_triggers

    with past_triggers():
        yield


def founded(name: str, person: str) -> Scope:
    """Return the scope of a new household with the samples' vehicle and shelf list."""
    from twomarks.keeping.services.documents import save_document
    from twomarks.keeping.services.households import found_household

    scope = found_household(name, person)
    save_document(scope, ALDER, where="alder.toml")
    save_document(scope, SHELF, where="shelf.toml")
    return scope

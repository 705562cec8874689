"""Every row of every table says where it comes from and how far it was seen."""

from __future__ import annotations

import pytest

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.reference.bibliography import STATUSES, reference, references, weakest
from twomarks.reference.oil_categories import categories, category_steps
from twomarks.reference.tables import rows

TABLES = [name.removesuffix(".csv") for name in packaged.names("reference", ".csv")]


@pytest.mark.parametrize("table", [name for name in TABLES if name != "usage_prior"])
def test_every_row_has_source_locator_and_status(table: str):
    assert table in TABLES
    assert rows(table)
    for row in rows(table):
        assert row["source"] in references()
        assert row["locator"]
        assert row["status"] in STATUSES


def test_every_entry_of_the_bibliography_is_whole():
    for entry in references().values():
        assert entry.title
        assert entry.what
        assert entry.seen
        assert entry.status in STATUSES


def test_every_step_is_between_known_categories():
    for step in category_steps().values():
        assert step.have in categories()
        assert step.asked in categories()
        assert step.have != step.asked


def test_no_step_is_told_twice():
    pairs = [(row["have"], row["asked"]) for row in rows("category_steps")]
    assert len(pairs) == len(set(pairs))


def test_a_step_from_memory_carries_no_source():
    assert all((step.seen.status == "c") == (step.seen.source == "house_judgement") for step in category_steps().values())


def test_a_conclusion_is_no_stronger_than_its_weakest_source():
    assert weakest("a", "a2") == "a2"
    assert weakest("a2", "c", "a") == "c"
    assert weakest("a", "b") == "b"


def test_an_unknown_source_is_refused():
    with pytest.raises(InputError):
        reference("nowhere")

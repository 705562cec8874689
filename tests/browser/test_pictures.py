"""The command that takes the pictures of the documentation still finds on the pages what it takes pictures of."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

from tests.web.household import Household

DOCS = Path(__file__).resolve().parents[2] / "docs"


@pytest.fixture(scope="module")
def pictures() -> ModuleType:
    """The script as a module."""
    described = importlib.util.spec_from_file_location("make_pictures", DOCS / "make_pictures.py")
    assert described
    assert described.loader
    module = importlib.util.module_from_spec(described)
    described.loader.exec_module(module)
    return module


def test_every_picture_kept_is_one_that_the_command_takes(pictures: ModuleType) -> None:
    assert {f"{name}.png" for name, *_ in pictures.PICTURES} == {path.name for path in (DOCS / "pictures").iterdir()}


def test_the_card_and_its_one_step_stand_where_the_pictures_show_them(
    pictures: ModuleType, page: Any, live_server: Any, home: Household
) -> None:
    pictures.one_step(page, live_server.url, "Alder")
    assert page.locator("[data-here]").get_attribute("data-action") == "tighten"
    page.get_by_role("button", name="All steps").click()
    pictures.card(page, live_server.url, "Alder")
    where = page.get_by_role("region", name="Where you were")
    assert "There is no oil in the engine: do not start." in where.inner_text()
    assert 0 < where.bounding_box()["y"] < 300


def test_the_lists_open_where_the_pictures_show_them(pictures: ModuleType, page: Any, live_server: Any, home: Household) -> None:
    pictures.due(page, live_server.url)
    assert page.locator(".picture.lying").first.is_visible()
    pictures.work(page, live_server.url)
    assert page.get_by_role("heading", name="In short").is_visible()

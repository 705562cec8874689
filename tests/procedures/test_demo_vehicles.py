"""The procedures on the invented vehicles that ship: what the demo shows must rehearse cleanly."""

from __future__ import annotations

import datetime as dt
import io
import uuid

import pytest
from pypdf import PdfReader

from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.vehicle import VehicleSheet
from twomarks.paper.job_card import job_card_pdf
from twomarks.planning.card_from import job_card
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Bound, Choices
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.library import library_procedure
from twomarks.procedures.needs import needs_of
from twomarks.procedures.rehearsal import rehearse
from twomarks.words import Reader

ITEM = "engine_oil_and_filter"


def _bound(name: str) -> Bound:
    sheet = load_as(VehicleSheet, packaged.text(f"demo/files/{name}.toml"), where=name)
    procedure = sheet.items[ITEM].procedure
    assert procedure is not None
    return bind(library_procedure(procedure), sheet, item=ITEM, choices=Choices(oil_name="Example", pour=pour_plan(sheet)))


@pytest.mark.parametrize("name", ["alder", "hazel", "rowan"])
def test_the_oil_change_rehearses_without_a_finding_above_advice(name: str) -> None:
    assert [one for one in rehearse(_bound(name)).findings if one.grade != "advice"] == []


@pytest.mark.parametrize("name", ["alder", "hazel", "rowan"])
def test_every_role_is_found_in_the_sheet(name: str) -> None:
    played = _bound(name)
    assert set(played.roles) == set(played.procedure.roles)


def test_the_torque_that_the_van_lacks_is_an_empty_box_on_its_card() -> None:
    played = _bound("hazel")
    card = job_card(played, rehearse(played), needs_of(played), card_id=uuid.UUID(int=1), day=dt.date(2026, 5, 16))
    boxes = {stub.fact: stub.figure for step in card.steps for stub in step.stubs if stub.fact}
    assert boxes["fastenings.engine_oil_drain.torque"] is None
    assert boxes["fastenings.filter_cap.torque"] is not None


@pytest.mark.parametrize(("name", "fewest", "most", "pages"), [("alder", 38, 50, 8), ("hazel", 45, 50, 9), ("rowan", 38, 50, 9)])
def test_the_card_is_short_enough_to_be_worked_from(name: str, fewest: int, most: int, pages: int) -> None:
    played = _bound(name)
    card = job_card(played, rehearse(played), needs_of(played), card_id=uuid.UUID(int=1), day=dt.date(2026, 5, 16))
    assert fewest <= len(card.steps) <= most
    printed = [page.extract_text() for page in PdfReader(io.BytesIO(job_card_pdf(card, Reader.of("metric")))).pages]
    work = next(number for number, text in enumerate(printed) if text.startswith("When it goes wrong"))
    tag = 1
    assert work + tag <= pages
    assert len(printed) - work - tag <= 4

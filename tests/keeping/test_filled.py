"""A figure taken down during the work becomes a fact, with who took it down and when."""

from __future__ import annotations

from tests.keeping.samples import TODAY, entry
from twomarks.keeping import questions
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.documents import save_document
from twomarks.keeping.services.entries import record_entry
from twomarks.model.ledger import FilledFigure


def filled(scope: Scope, *figures: tuple[str, str]) -> None:
    made = entry(km=120_500, figures=tuple(FilledFigure(what=what, text=text) for what, text in figures))
    record_entry(scope, "Alder", made, today=TODAY)


def test_a_missing_fact_is_written_with_its_source_and_the_old_revision_stays(scope: Scope) -> None:
    before = questions.sheet_revision(scope, "Alder")
    filled(scope, ("circuits.engine_oil.settle", "9 min"))
    settle = questions.sheet(scope, "Alder").circuits["engine_oil"].settle
    assert settle is not None
    assert (settle.text, settle.source.kind, settle.confirmed) == ("9 min", "told", "")
    after = questions.sheet_revision(scope, "Alder")
    assert after.number == before.number + 1
    assert before.sha256 in {one.sha256 for one in questions.revisions(scope, before.document)}


def test_what_is_seen_on_the_part_is_measured_and_confirmed_and_a_torque_is_only_told(scope: Scope) -> None:
    text = questions.sheet_revision(scope, "Alder").text
    save_document(scope, text + '\n[fastenings.engine_oil_drain]\nkind = "sealing"\ncircuit = "engine_oil"\n', where="Alder")
    filled(scope, ("fastenings.engine_oil_drain.drive", "hex socket 17 mm"), ("fastenings.engine_oil_drain.torque", "38 N·m"))
    plug = questions.sheet(scope, "Alder").fastenings["engine_oil_drain"]
    assert plug.drive is not None
    assert plug.torque is not None
    assert (plug.drive.source.kind, plug.drive.confirmed[-10:]) == ("measured", "2026-11-21")
    assert (plug.torque.source.kind, plug.torque.confirmed) == ("told", "")


def test_a_fact_that_stands_is_not_overwritten(scope: Scope) -> None:
    filled(scope, ("circuits.engine_oil.refill_with_filter", "9 L"))
    kept = questions.sheet(scope, "Alder").circuits["engine_oil"].refill_with_filter
    assert kept is not None
    assert kept.text == "4.3 L"


def test_what_does_not_read_as_the_fact_stays_in_the_entry_alone(scope: Scope) -> None:
    before = questions.sheet_revision(scope, "Alder")
    filled(scope, ("circuits.engine_oil.settle", "a while"), ("nowhere.at.all", "3"), ("odometer", "120500"))
    assert questions.sheet_revision(scope, "Alder") == before
    (kept,) = questions.daybook(scope, "Alder").entries
    assert [figure.text for figure in kept.figures] == ["a while", "3", "120500"]

"""Two households with equal names: nothing that one asks or writes reaches the other."""

from __future__ import annotations

import datetime as dt
import importlib
import inspect
import pkgutil
from collections.abc import Callable
from typing import Any
from uuid import UUID, uuid4

import pytest
from django.apps import apps

from tests.keeping.samples import (
    ALDER,
    ALDER_ID,
    CARD_ID,
    CLIMATE,
    SHELF,
    TODAY,
    answer,
    card,
    check,
    entry,
    event,
    measurement,
    move,
    quote,
    reading,
    snag,
    tick,
    top_up,
    waste,
)
from twomarks.errors import InputError
from twomarks.keeping import questions, services
from twomarks.keeping.questions.values import current
from twomarks.keeping.records.ledger import ledgers
from twomarks.keeping.scope import Scope
from twomarks.keeping.services import (
    answers,
    corrections,
    derived,
    documents,
    entered,
    entries,
    filled,
    follow_ups,
    households,
    levels,
    noticed,
    places,
    readings,
    shelf,
    ticks,
    vehicles,
    workdays,
    worked,
)
from twomarks.keeping.services import help as help_service
from twomarks.model.ledger import FilledFigure
from twomarks.words import Reader

Doing = Callable[[Scope], Any]
STEPS = [step.id for step in card().steps]
PLACE = {"name": "Invented place", "latitude": 47.5, "longitude": 19.0, "zone": "Europe/Budapest"}


def help_settled(scope: Scope, number: str) -> object:
    """Keep what is said on the telephone."""
    return help_service.settle_help(scope, number=number, address="3 Example Lane")


def root_of(scope: Scope, ledger: str) -> UUID:
    table = next(row for row in ledgers() if row.ledger == ledger)
    return UUID(str(current(scope, table).first().root))


WRITING: dict[str, Doing] = {
    "answers.record_answers": lambda scope: answers.record_answers(scope, [answer("have not")]),
    "derived.drop_derived": derived.drop_derived,
    "documents.save_document": lambda scope: documents.save_document(scope, ALDER.replace("1.1 L", "1.2 L"), where="alder.toml"),
    "entries.record_entry": lambda scope: entries.record_entry(
        scope, "Alder", entry(km=121_000), stock_out=[move(-100)], waste_in=[waste(10)], level=check(), today=TODAY
    ),
    "entered.record_entered": lambda scope: entered.record_entered(
        scope,
        "Alder",
        entered.Entered(
            events=(event("overheated"),),
            measurements=(measurement(mm=5.0),),
            quotes=(quote(21_000),),
            answers=(answer("20 EUR", "cost:own-time"),),
        ),
        today=TODAY,
    ),
    "worked.record_work": lambda scope: worked.record_work(
        scope,
        "Alder",
        worked.Worked(day=TODAY, title="Oil", volume_in_ml=4000),
        today=TODAY,
    ),
    "follow_ups.close_follow_up": lambda scope: follow_ups.close_follow_up(scope, root_of(scope, "follow-ups"), day=TODAY, today=TODAY),
    "help.settle_help": lambda scope: help_settled(scope, "911"),
    "households.add_person": lambda scope: households.add_person(scope, "C."),
    "households.change_reader": lambda scope: households.change_reader(scope, Reader.of("us")),
    "households.close_household": households.close_household,
    "levels.record_level_check": lambda scope: levels.record_level_check(scope, "Alder", check(), today=TODAY),
    "levels.record_top_up": lambda scope: levels.record_top_up(scope, "Alder", top_up(), today=TODAY),
    "noticed.record_event": lambda scope: noticed.record_event(scope, "Alder", event("dust"), today=TODAY),
    "noticed.record_measurement": lambda scope: noticed.record_measurement(scope, "Alder", measurement(mm=5.5), today=TODAY),
    "noticed.record_quote": lambda scope: noticed.record_quote(scope, "Alder", quote(20_000), today=TODAY),
    "noticed.record_snag": lambda scope: noticed.record_snag(scope, "Alder", snag("smells hot"), today=TODAY),
    "places.settle_place": lambda scope: places.settle_place(scope, **{**PLACE, "latitude": 60.0}),  # type: ignore[arg-type]
    "readings.confirm_reading": lambda scope: readings.confirm_reading(scope, "Alder", root_of(scope, "readings"), day=TODAY),
    "readings.record_reading": lambda scope: readings.record_reading(scope, "Alder", reading("2026-11-24", 122_000), today=TODAY),
    "readings.record_readings": lambda scope: readings.record_readings(scope, "Alder", [reading("2026-11-23", 121_000)]),
    "shelf.record_stock_moves": lambda scope: shelf.record_stock_moves(scope, [move(500)], today=TODAY),
    "shelf.record_waste_move": lambda scope: shelf.record_waste_move(scope, waste(500), today=TODAY),
    "ticks.record_ticks": lambda scope: ticks.record_ticks(scope, [tick(2, STEPS[1])]),
    "filled.keep_filled": lambda scope: filled.keep_filled(
        scope, "Alder", [FilledFigure(what="circuits.engine_oil.settle", text="9 min")], day=TODAY
    ),
    "vehicles.add_vehicle": lambda scope: vehicles.add_vehicle(scope, ALDER.replace("0c6c0b9e", "0c6c0b9f").replace("Alder", "Rowan")),
    "workdays.start_workday": lambda scope: workdays.start_workday(scope, card(uuid4())),
    "corrections.withdraw_row": lambda scope: corrections.withdraw_row(scope, "readings", root_of(scope, "readings")),
    "entries.withdraw_entry": lambda scope: entries.withdraw_entry(scope, root_of(scope, "entries")),
}
ASKING: dict[str, Doing] = {
    "answers": questions.answers,
    "can_with_room": lambda scope: questions.can_with_room(scope, 4000),
    "cans": questions.cans,
    "card": lambda scope: questions.card(scope, CARD_ID),
    "chain_head": questions.chain_head,
    "climate": lambda scope: questions.climate(scope) is not None,
    "cost": lambda scope: questions.cost(scope, today=TODAY),
    "daybook": lambda scope: questions.daybook(scope, "Alder"),
    "design_temperatures": lambda scope: questions.design_temperatures(scope, TODAY, dt.date(2027, 11, 25)),
    "documents": lambda scope: questions.documents(scope, "vehicle"),
    "done": lambda scope: questions.done(scope, "Alder"),
    "due": lambda scope: questions.due(scope, "Alder", TODAY),
    "filled_figures": lambda scope: questions.filled_figures(scope, CARD_ID),
    "filled_with": lambda scope: questions.filled_with(scope, "Alder", {"engine_oil_and_filter"}),
    "follow_ups": questions.follow_ups,
    "help_call": questions.help_call,
    "history": lambda scope: questions.history(scope, "Alder", TODAY),
    "household_name": questions.household_name,
    "kept_answer": lambda scope: questions.kept_answer(scope, "name", lambda: questions.household_name(scope), today=TODAY),
    "last_number": questions.last_number,
    "measurements": lambda scope: questions.measurements(scope, "Alder"),
    "outlook": lambda scope: questions.outlook(scope, "Alder", TODAY).due,
    "own_time_rate": questions.own_time_rate,
    "people": questions.people,
    "place": questions.place,
    "prepare": lambda scope: questions.prepare(scope, "Alder", TODAY).due,
    "procedures": lambda scope: set(questions.procedures(scope)),
    "progress": lambda scope: questions.progress(scope, CARD_ID),
    "quotes": lambda scope: questions.quotes(scope, "Alder"),
    "reader": questions.reader,
    "readings": lambda scope: questions.readings(scope, "Alder"),
    "revision": lambda scope: questions.revision(scope, questions.vehicle(scope, "Alder").sha256),
    "revisions": lambda scope: questions.revisions(scope, ALDER_ID),
    "shelf": lambda scope: questions.shelf(scope) is not None,
    "sheet": lambda scope: questions.sheet(scope, "Alder"),
    "sheet_revision": lambda scope: questions.sheet_revision(scope, "Alder"),
    "snags": questions.snags,
    "stated_use": lambda scope: questions.stated_use(scope, "Alder"),
    "stock": questions.stock,
    "ticks": lambda scope: questions.ticks(scope, CARD_ID),
    "usage": lambda scope: questions.usage(scope, "Alder", TODAY).spread_on(dt.date(2027, 5, 1)),
    "vehicle": lambda scope: questions.vehicle(scope, "Alder"),
    "vehicle_events": lambda scope: questions.vehicle_events(scope, "Alder"),
    "vehicles": questions.vehicles,
    "verify": questions.verify,
    "workday": lambda scope: questions.workday(scope, CARD_ID),
    "workdays": questions.workdays,
}
BY_ID: dict[str, Callable[[Scope, Scope], Any]] = {
    "another's row": lambda mine, theirs: corrections.withdraw_row(mine, "readings", root_of(theirs, "readings")),
    "another's entry": lambda mine, theirs: entries.withdraw_entry(mine, root_of(theirs, "entries")),
    "another's entry corrected": lambda mine, theirs: entries.record_entry(
        mine, "Alder", entry(km=None, root=root_of(theirs, "entries")), today=TODAY
    ),
    "another's follow-up": lambda mine, theirs: follow_ups.close_follow_up(mine, root_of(theirs, "follow-ups"), day=TODAY, today=TODAY),
    "another's reading": lambda mine, theirs: readings.confirm_reading(mine, "Alder", root_of(theirs, "readings")),
    "another's check": lambda mine, theirs: levels.record_level_check(mine, "Alder", check(root=root_of(theirs, "level checks"))),
    "another's snag": lambda mine, theirs: entries.record_entry(
        mine, "Alder", entry(km=None, snags=(root_of(theirs, "snags"),)), today=TODAY
    ),
    "another's measurement": lambda mine, theirs: noticed.record_measurement(
        mine, "Alder", measurement(root=root_of(theirs, "measurements")), today=TODAY
    ),
    "another's person": lambda mine, theirs: answers.record_answers(Scope(mine.household, theirs.person), [answer("have")]),
    "another's reader": lambda mine, theirs: questions.reader(Scope(mine.household, theirs.person)),
    "another's text": lambda mine, theirs: questions.revision(mine, _only_theirs(theirs)),
}


def _only_theirs(theirs: Scope) -> str:
    return documents.save_document(theirs, ALDER.replace("1.1 L", "1.3 L"), where="alder.toml").sha256


def settled(scope: Scope) -> None:
    """Give a household one of everything."""
    documents.save_document(scope, SHELF, where="shelf.toml")
    places.settle_place(scope, **PLACE, climate=CLIMATE)  # type: ignore[arg-type]
    help_settled(scope, "112")
    shelf.record_stock_moves(scope, [move(5000)])
    readings.record_reading(scope, "Alder", reading("2026-10-01", 118_000), today=TODAY)
    workdays.start_workday(scope, card())
    ticks.record_ticks(scope, [tick(1, STEPS[0])])
    levels.record_level_check(scope, "Alder", check("2026-10-02"), today=TODAY)
    entries.record_entry(scope, "Alder", entry(km=120_000, follow_ups=("look",)), waste_in=[waste(4000)], today=TODAY)
    answers.record_answers(scope, [answer("have"), answer("mostly", question=f"use:{ALDER_ID}:towing")])
    noticed.record_measurement(scope, "Alder", measurement("2026-10-02", 7.0), today=TODAY)
    noticed.record_event(scope, "Alder", event(), today=TODAY)
    noticed.record_snag(scope, "Alder", snag(), today=TODAY)
    noticed.record_quote(scope, "Alder", quote(), today=TODAY)


@pytest.fixture
def mine(scope: Scope) -> Scope:
    settled(scope)
    return scope


@pytest.fixture
def theirs(other: Scope) -> Scope:
    settled(other)
    return other


def rows_of(scope: Scope) -> dict[str, list[dict[str, Any]]]:
    """Return every row of every table of a household."""
    found = {}
    for table in apps.get_app_config("keeping").get_models():
        name = table._meta.db_table
        if name == "derived":
            continue
        narrowed = {"id": scope.household} if name == "household" else {"household": scope.household}
        found[name] = list(table._default_manager.filter(**narrowed).order_by("pk").values())
    return found


def named_functions() -> set[str]:
    found = set()
    for module in pkgutil.iter_modules(services.__path__):
        room = importlib.import_module(f"twomarks.keeping.services.{module.name}")
        for name in getattr(room, "__all__", ()):
            function = getattr(room, name)
            if inspect.isfunction(function) and next(iter(inspect.signature(function).parameters), "") == "scope":
                found.add(f"{module.name}.{name}")
    return found


def test_every_service_is_tried() -> None:
    inner = {"shelf.moves", "writing.append", "writing.latest", "writing.withdraw"}
    assert named_functions() - inner == set(WRITING)


def test_every_question_is_tried() -> None:
    assert {name for name in questions.__all__ if inspect.isfunction(getattr(questions, name))} == set(ASKING)


@pytest.mark.parametrize("name", sorted(WRITING))
def test_a_service_reaches_only_its_own_household(mine: Scope, theirs: Scope, name: str) -> None:
    before = rows_of(theirs)
    WRITING[name](mine)
    assert rows_of(theirs) == before


@pytest.mark.parametrize("name", sorted(ASKING))
def test_a_question_is_answered_from_its_own_household(mine: Scope, theirs: Scope, name: str) -> None:
    before = ASKING[name](mine)
    for doing, written in WRITING.items():
        if doing != "households.close_household":
            written(theirs)
    assert ASKING[name](mine) == before


@pytest.mark.parametrize("name", sorted(BY_ID))
def test_an_id_of_the_other_household_is_unknown_here(mine: Scope, theirs: Scope, name: str) -> None:
    with pytest.raises(InputError):
        BY_ID[name](mine, theirs)


def test_a_household_that_has_nothing_sees_nothing(theirs: Scope) -> None:
    empty = households.found_household("Empty", "A.")
    assert questions.vehicles(empty) == ()
    assert questions.stock(empty) == questions.cans(empty) == questions.answers(empty) == {}
    assert questions.snags(empty) == ()
    assert questions.workdays(empty) == questions.follow_ups(empty) == questions.documents(empty, "vehicle") == ()
    assert questions.place(empty) is None
    for name in ("card", "ticks", "sheet", "revisions", "due", "workday"):
        with pytest.raises(InputError):
            ASKING[name](empty)

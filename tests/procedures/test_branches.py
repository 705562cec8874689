"""When it goes wrong: every branch stops, looks and goes on mildly, and does no harm where it is worked."""

from __future__ import annotations

import pytest

from tests.procedures import fluid_sheets, sheets
from tests.procedures.mistakes import ITEM, SHEET_OF
from twomarks.errors import DocumentError, InputError
from twomarks.model.loading import load
from twomarks.model.procedure import BRANCH_PARTS, Played, Procedure, bare_figures, placeholders
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Choices
from twomarks.procedures.branches import branch_keys, branch_of, branch_text, branches, brought_to_light, played_with, worded
from twomarks.procedures.concerns import Concern, belongs, concerns_of
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.library import library, library_procedure
from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.rehearsal import Finding, rehearse
from twomarks.reference.bibliography import references
from twomarks.words import Message, Reader, Wording, render
from twomarks.words.catalogue import terms

KEYS = branch_keys()
WORK = tuple(key for key in KEYS if not branch_of(branches()[key]).hurt)
PLACES = [(key, place) for key in WORK for place in branch_of(branches()[key]).played]
SHEETS = {
    "engine-oil-spin-on": (sheets.CAR, sheets.OLD),
    "engine-oil-cartridge": (sheets.VAN,),
    "manual-gearbox-oil": (fluid_sheets.CAR,),
    "coolant": (fluid_sheets.VAN,),
    "brake-fluid": (fluid_sheets.CAR,),
}
PROMISED = (
    "plug-will-not-move", "filter-will-not-move", "head-rounded", "thread-stripped", "plug-never-tightens", "old-rubber-missing",
    "leak-after-start", "lamp-stays-on", "started-without-oil", "overfilled", "wrong-fluid-not-started", "wrong-fluid-started",
    "level-rises", "coolant-does-not-go-in", "coolant-boils", "pedal-soft", "bleed-screw-snapped", "gear-empty-fill-stuck",
    "metal-or-water-in-oil", "fluid-on-exhaust", "moved-on-stands", "daylight-gone",
    "hurt-crushed", "hurt-bleeding", "hurt-burned", "hurt-eye", "hurt-swallowed", "hurt-jet", "hurt-fumes",
)  # fmt: skip


def light(key: str, place: Played, text: str, branch: Procedure | None = None) -> tuple[Finding, ...]:
    """Return what the branch brings to light on the vehicle of `text`."""
    sheet = sheets.sheet(text)
    host = library_procedure(place.procedure)
    item = ITEM if place.procedure.startswith("engine-oil") else None
    choices = Choices(oil_name="Example 5W-30", pour=pour_plan(sheet) if item else None)
    return brought_to_light(branch or branches()[key], host, place, sheet, item=item, choices=choices)


def without(branch: Procedure, move: str) -> Procedure:
    """Return the branch without the move called `move`, be it a step of its own or made on the way."""
    steps = []
    for step in branch.steps:
        if step.id == move:
            continue
        left = {part: tuple(one for one in getattr(step, part) if one.id != move) for part in ("first", "then")}
        steps.append(step.model_copy(update=left))
    assert len(steps) < len(branch.steps) or tuple(steps) != branch.steps
    return branch.model_copy(update={"steps": tuple(steps)})


def test_every_branch_that_a_card_promises_is_there() -> None:
    assert set(KEYS) == set(PROMISED)


@pytest.mark.parametrize("key", KEYS)
def test_a_branch_loads_like_any_procedure(key: str) -> None:
    document = load(branch_text(key), where=key)
    assert isinstance(document, Procedure)
    assert document == branches()[key]
    assert document.key == key


def test_branches_have_ids_and_places_of_their_own() -> None:
    every = [*library().values(), *branches().values()]
    assert len({one.id for one in every}) == len(every)
    for hurt in (True, False):
        numbers = [branch_of(one).number for one in branches().values() if branch_of(one).hurt is hurt]
        assert numbers == list(range(1, len(numbers) + 1))
    assert next(branch_of(one).hurt for one in branches().values())


@pytest.mark.parametrize("key", KEYS)
def test_a_branch_stops_looks_and_goes_on_and_says_where_it_ends(key: str) -> None:
    branch = branches()[key]
    parts = [step.part for step in branch.steps]
    assert sorted(parts, key=lambda part: BRANCH_PARTS.index(part or "")) == parts
    assert set(parts) == set(BRANCH_PARTS)
    about = branch_of(branch)
    assert about.give_up
    assert about.never
    assert set(about.sources) <= set(references())


@pytest.mark.parametrize("key", WORK)
def test_where_a_branch_ends_somebody_else_takes_over(key: str) -> None:
    words = branch_of(branches()[key]).give_up.lower()
    assert any(way in words for way in ("tow", "carried", "workshop", "recovery service", "somebody who", "another way to drive"))


@pytest.mark.parametrize("key", KEYS)
def test_the_words_of_a_branch_need_no_vehicle_and_hold_no_typed_figure(key: str) -> None:
    branch = branches()[key]
    about = branch_of(branch)
    texts = [about.sign, about.give_up, *about.never]
    for step in branch.steps:
        texts += [step.words, *(text for text in (step.look, step.accept, step.reject) if text), *(one.words for one in step.caution)]
    for text in texts:
        assert bare_figures(text) == ()
        for name, fact in placeholders(text):
            assert (name == "term" and fact in terms()) or (name == "practice" and fact in PRACTICE)
        for market in ("uk", "us", "au", "metric"):
            assert "{" not in render(worded(text), Reader.of(market))


@pytest.mark.parametrize("key", WORK)
def test_every_branch_belongs_to_a_step_of_the_library(key: str) -> None:
    about = branch_of(branches()[key])
    found = set()
    for name, text in SHEET_OF.items():
        played = bind(library_procedure(name), sheets.sheet(text))
        found |= {name for step in played.steps if belongs(about.belongs, concerns_of(step, played), place=step.place)}
    assert found
    assert {place.procedure for place in about.played} <= found


@pytest.mark.parametrize(("key", "place"), PLACES)
def test_a_branch_is_played_at_a_step_that_it_belongs_to_or_just_after(key: str, place: Played) -> None:
    host = library_procedure(place.procedure)
    assert place.step in [step.id for step in host.steps]


@pytest.mark.parametrize(("key", "place"), PLACES, ids=[f"{key}-{place.procedure}" for key, place in PLACES])
def test_a_branch_brings_no_harm_where_it_is_worked(key: str, place: Played) -> None:
    for text in SHEETS[place.procedure]:
        assert [(one.rule, one.step, one.thing) for one in light(key, place, text) if one.grade != "advice"] == []


def test_every_branch_of_the_work_is_rehearsed_somewhere() -> None:
    assert {key for key, _ in PLACES} == set(WORK)


MISTAKES = [
    ("leak-after-start", "halt", "stopped_first"),
    ("lamp-stays-on", "halt", "stopped_first"),
    ("wrong-fluid-started", "halt", "stopped_first"),
    ("coolant-boils", "halt", "stopped_first"),
    ("moved-on-stands", "halt", "clear_before_lift"),
    ("plug-never-tightens", "seal-off", "one_new_seal"),
    ("plug-never-tightens", "in", "by_hand_first"),
]


@pytest.mark.parametrize(("key", "move", "rule"), MISTAKES)
def test_a_move_left_out_of_a_branch_is_found(key: str, move: str, rule: str) -> None:
    branch = without(branches()[key], move)
    place = branch_of(branch).played[0]
    found = light(key, place, SHEETS[place.procedure][0], branch)
    assert rule in {one.rule for one in found}


def test_nobody_need_be_clear_of_a_vehicle_lifted_for_the_first_time() -> None:
    played = bind(library_procedure("engine-oil-spin-on"), sheets.sheet(sheets.CAR), item=ITEM)
    assert "clear_before_lift" not in {one.rule for one in rehearse(played).findings}
    assert "stopped_first" not in {one.rule for one in rehearse(played).findings}


def test_a_branch_whose_step_is_not_there_is_refused() -> None:
    with pytest.raises(InputError) as told:
        played_with(branches()["overfilled"], library_procedure("walk-round"), Played(procedure="walk-round", step="nowhere"))
    assert told.value.key == "procedure.during"


def test_a_procedure_is_no_branch() -> None:
    with pytest.raises(InputError) as told:
        branch_of(library_procedure("walk-round"))
    assert told.value.key == "procedure.no_branch"
    with pytest.raises(InputError):
        branch_text("nothing-goes-wrong")


def changed(old: str, new: str) -> list[str]:
    """Return the keys of the faults that loading a branch with a changed text tells."""
    text = branch_text("overfilled")
    assert old in text
    with pytest.raises(DocumentError) as told:
        load(text.replace(old, new, 1), where="overfilled")
    return [fault.key for fault in told.value.faults]


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('part = "stop"\n', "", "procedure.parts"),
        ('part = "look"\n', 'part = "next"\n', "procedure.parts"),
        ('part = "next"\n', 'part = "look"\n', ""),
        ("table of this card", "table of {handbook}", "procedure.placeholder"),
        ("It was driven overfull", "It was driven for 20 km overfull", "procedure.bare_figure"),
    ],
)
def test_a_branch_out_of_its_order_is_refused_at_its_line(old: str, new: str, key: str) -> None:
    if key:
        assert key in changed(old, new)
    else:
        text = branch_text("overfilled").replace(old, new, 1)
        assert isinstance(load(text, where="overfilled"), Procedure)


def test_a_part_in_a_procedure_that_is_no_branch_is_refused() -> None:
    text = branch_text("overfilled")
    start, end = text.index("[branch]"), text.index("[roles.oil]")
    with pytest.raises(DocumentError) as told:
        load(text[:start] + text[end:], where="x")
    assert {fault.key for fault in told.value.faults} == {"procedure.part_outside"}


@pytest.mark.parametrize(
    ("step", "thing", "sort"),
    [
        ("plug-loose", "drain", "engine"),
        ("filter-loose", "joint", "engine"),
        ("seal-new", "seal", "engine"),
        ("pour-first", "engine", "engine"),
        ("baseline", "dipstick", ""),
    ],
)
def test_what_a_step_concerns_is_told_by_what_the_thing_is_for(step: str, thing: str, sort: str) -> None:
    played = bind(library_procedure("engine-oil-spin-on"), sheets.sheet(sheets.CAR), item=ITEM)
    found = concerns_of(played.step(step), played)
    assert any((one.thing, one.of) == (thing, sort) for one in found)
    assert all(isinstance(one, Concern) for one in found)


def test_the_words_of_a_branch_carry_the_figures_of_practice_with_their_source() -> None:
    words = worded("for {practice.cool_burn}")
    assert isinstance(words, Wording)
    assert render(words, Reader()) == "for 20\u00a0min"
    assert not isinstance(words, Message)

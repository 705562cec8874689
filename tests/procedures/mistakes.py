"""Single mistakes made in a correct procedure: one move dropped, made earlier, doubled or changed."""

from __future__ import annotations

from itertools import groupby

from tests.procedures import fluid_sheets, sheets
from twomarks.model.procedure import Move, Procedure, Step
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Bound, Choices
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.kit import Kit
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import Finding, rehearse

SHEET_OF = {
    "engine-oil-spin-on": sheets.CAR,
    "engine-oil-cartridge": sheets.VAN,
    "manual-gearbox-oil": fluid_sheets.CAR,
    "transfer-case-oil": fluid_sheets.OLD,
    "axle-oil": fluid_sheets.VAN,
    "coolant": fluid_sheets.VAN,
    "brake-fluid": fluid_sheets.CAR,
}
ITEM = "engine_oil_and_filter"


def bound(procedure: Procedure, text: str = "", *, item: str = ITEM, **choices: object) -> Bound:
    """Return the procedure bound to its matching vehicle, or to the one in `text`, with a pour plan."""
    sheet = sheets.sheet(text or SHEET_OF.get(procedure.key, sheets.CAR))
    plan = pour_plan(sheet)
    chosen = {"oil_name": "Example 5W-30", "pour": plan, **choices}
    return bind(procedure, sheet, item=item, choices=Choices(**chosen))  # type: ignore[arg-type]


def step_of(procedure: Procedure, name: str) -> str:
    """Return the id of the step in which the move called `name` is made, `name` itself where there is none."""
    return next((step.id for step in procedure.steps if name in [move.id for move in step.moves]), name)


def apart(procedure: Procedure) -> Procedure:
    """Return `procedure` with every move as a step of its own."""
    return procedure.model_copy(update={"steps": tuple(step for _, step in _moves(procedure))})


def _moves(procedure: Procedure) -> list[tuple[str, Step]]:
    """Return every move as a step of its own, with the id of the step it comes from."""
    return [(step.id, _alone(move, step)) for step in procedure.steps for move in step.moves]


def _alone(move: Move, step: Step) -> Step:
    if move is step:
        return step.model_copy(update={"first": (), "then": ()})
    own = {name: getattr(move, name) for name in Move.model_fields} | {"place": move.place or step.place}
    said = {name: getattr(step, name) for name in ("words", "look", "accept", "reject", "caution", "condition", "during")}
    return Step(**own, **said)


def _joined(procedure: Procedure, moves: list[tuple[str, Step]]) -> Procedure:
    """Return `procedure` with neighbouring moves of one step joined again to that step."""
    steps = []
    for name, group in groupby(moves, key=lambda one: one[0]):
        run = [step for _, step in group]
        place = next((number for number, step in enumerate(run) if step.id == name), 0)
        parts = [Move(**{field: getattr(step, field) for field in Move.model_fields}) for step in run]
        steps.append(run[place].model_copy(update={"first": tuple(parts[:place]), "then": tuple(parts[place + 1 :])}))
    return procedure.model_copy(update={"steps": tuple(steps)})


def _names(moves: list[tuple[str, Step]]) -> list[str]:
    return [step.id for _, step in moves]


def drop(procedure: Procedure, name: str) -> Procedure:
    """Return `procedure` without one move."""
    moves = _moves(procedure)
    assert name in _names(moves)
    return _joined(procedure, [one for one in moves if one[1].id != name])


def move(procedure: Procedure, name: str, *, before: str) -> Procedure:
    """Return `procedure` with one move made before another, as a step of its own."""
    moves = _moves(procedure)
    step = moves[_names(moves).index(name)][1].model_copy(update={"during": None})
    rest = [one for one in moves if one[1].id != name]
    place = _names(rest).index(before)
    return _joined(procedure, [*rest[:place], (f"{name} alone", step), *rest[place:]])


def double(procedure: Procedure, name: str) -> Procedure:
    """Return `procedure` with one move made twice."""
    moves = _moves(procedure)
    place = _names(moves).index(name)
    again = moves[place][1].model_copy(update={"id": f"{name}-twice"})
    return _joined(procedure, [*moves[: place + 1], (again.id, again), *moves[place + 1 :]])


def change(procedure: Procedure, name: str, **fields: object) -> Procedure:
    """Return `procedure` with fields of one move changed."""
    moves = _moves(procedure)
    assert name in _names(moves)
    return _joined(procedure, [(of, step.model_copy(update=fields) if step.id == name else step) for of, step in moves])


def new_findings(mistaken: Procedure, kit: Kit | None = None, **choices: object) -> tuple[Finding, ...]:
    """Return the findings of a mistaken procedure that the correct one does not have."""
    correct = rehearse(bound(library_procedure(mistaken.key), "", **choices))
    known = {(one.rule, one.step) for one in correct.findings}
    return tuple(one for one in rehearse(bound(mistaken, "", **choices), kit).findings if (one.rule, one.step) not in known)

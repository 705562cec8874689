"""Single mistakes made in a correct procedure: a step dropped, swapped, doubled or changed."""

from __future__ import annotations

from tests.procedures import sheets
from twomarks.model.procedure import Procedure, Step
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Bound, Choices
from twomarks.procedures.facts import pour_plan
from twomarks.procedures.kit import Kit
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import Finding, rehearse

SHEET_OF = {"engine-oil-spin-on": sheets.CAR, "engine-oil-cartridge": sheets.VAN}


def bound(procedure: Procedure, text: str = "", **choices: object) -> Bound:
    """Return the procedure bound to its matching vehicle, or to the one in `text`, with a pour plan."""
    sheet = sheets.sheet(text or SHEET_OF.get(procedure.key, sheets.CAR))
    plan = pour_plan(sheet)
    chosen = {"oil_name": "Example 5W-30", "pour": plan, **choices}
    return bind(procedure, sheet, item="engine_oil_and_filter", choices=Choices(**chosen))  # type: ignore[arg-type]


def _with(procedure: Procedure, steps: list[Step]) -> Procedure:
    return procedure.model_copy(update={"steps": tuple(steps)})


def drop(procedure: Procedure, name: str) -> Procedure:
    """Return `procedure` without one step."""
    assert name in [step.id for step in procedure.steps]
    return _with(procedure, [step for step in procedure.steps if step.id != name])


def move(procedure: Procedure, name: str, *, before: str) -> Procedure:
    """Return `procedure` with one step moved to before another."""
    step = next(one for one in procedure.steps if one.id == name).model_copy(update={"during": None})
    rest = [one for one in procedure.steps if one.id != name]
    place = [one.id for one in rest].index(before)
    return _with(procedure, [*rest[:place], step, *rest[place:]])


def double(procedure: Procedure, name: str) -> Procedure:
    """Return `procedure` with one step done twice."""
    steps: list[Step] = []
    for step in procedure.steps:
        steps.append(step)
        if step.id == name:
            steps.append(step.model_copy(update={"id": f"{name}-twice"}))
    return _with(procedure, steps)


def change(procedure: Procedure, name: str, **fields: object) -> Procedure:
    """Return `procedure` with fields of one step changed."""
    assert name in [step.id for step in procedure.steps]
    return _with(procedure, [step.model_copy(update=fields) if step.id == name else step for step in procedure.steps])


def new_findings(mistaken: Procedure, kit: Kit | None = None, **choices: object) -> tuple[Finding, ...]:
    """Return the findings of a mistaken procedure that the correct one does not have."""
    correct = rehearse(bound(library_procedure(mistaken.key), **choices))
    known = {(one.rule, one.step) for one in correct.findings}
    return tuple(one for one in rehearse(bound(mistaken, **choices), kit).findings if (one.rule, one.step) not in known)

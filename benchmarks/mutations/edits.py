"""Changes to a procedure's tables as they stand in the file: every one returns a new document and leaves the old one alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from benchmarks.mutations.mutant import Case, Document
from twomarks.model.procedure import Move

__all__ = [
    "Spot",
    "acted_on",
    "alone",
    "between",
    "inserted",
    "listed",
    "moved",
    "moves_of",
    "place_of",
    "step_index",
    "swapped",
    "with_fields",
    "with_role",
    "without_move",
    "without_moves",
    "without_step",
    "without_thing",
    "worked_moves",
    "worked_steps",
]

Row = Mapping[str, Any]
_OF_MOVE = frozenset(Move.model_fields)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a move stands: the index of its step, the step's id, the number of the move in it, and the move itself."""

    index: int
    step: str
    number: int
    move: Row

    @property
    def action(self) -> str:
        """What the move does."""
        return str(self.move["action"])

    @property
    def things(self) -> tuple[str, ...]:
        """What the move acts on."""
        return acted_on(self.move)


def listed(value: object) -> list[Any]:
    """Return an array as it may stand in a file, where one alone need not be an array."""
    return [] if value is None else list(value) if isinstance(value, list | tuple) else [value]


def acted_on(move: Row) -> tuple[str, ...]:
    """Return every thing and role that a move acts on or through, in order."""
    return tuple(dict.fromkeys([*listed(move.get("thing")), *listed(move.get("things")), *listed(move.get("through"))]))


def moves_of(step: Row) -> list[Row]:
    """Return every move of a step in the order in which it is made, its own among them."""
    own = {name: value for name, value in step.items() if name in _OF_MOVE}
    return [*listed(step.get("first")), own, *listed(step.get("then"))]


def place_of(step: Row, move: Row) -> str:
    """Return where a move is made: its own place, else that of its step."""
    return str(move.get("place") or step.get("place") or "")


def step_index(document: Document, step: str) -> int:
    """Return the index of the step called `step`."""
    return next(number for number, one in enumerate(document["steps"]) if one["id"] == step)


def worked_steps(case: Case) -> list[tuple[int, Row]]:
    """Return index and tables of every step that is worked on this vehicle."""
    worked = set(case.worked)
    return [(index, step) for index, step in enumerate(case.procedure["steps"]) if step["id"] in worked]


def worked_moves(case: Case, *actions: str) -> Iterator[Spot]:
    """Yield every move that is made on this vehicle, or those of `actions` alone."""
    for index, step in worked_steps(case):
        for number, move in enumerate(moves_of(step)):
            if not actions or move["action"] in actions:
                yield Spot(index, str(step["id"]), number, move)


def _with_steps(document: Document, steps: Iterable[Row]) -> Document:
    kept = list(steps)
    ids = {step["id"] for step in kept}
    return {**document, "steps": [_untied(step) if step.get("during") not in (None, *ids) else step for step in kept]}


def _untied(step: Row) -> Row:
    return {name: value for name, value in step.items() if name != "during"}


def _rebuilt(step: Row, moves: Sequence[Row], own: int) -> Row:
    """Return `step` with these moves, the one numbered `own` as its own; the step keeps its id."""
    rest = {name: value for name, value in step.items() if name not in _OF_MOVE and name not in ("first", "then")}
    made = {**rest, **moves[own], "id": step["id"]}
    if step.get("place") and "place" not in moves[own]:
        made["place"] = step["place"]
    for name, part in (("first", moves[:own]), ("then", moves[own + 1 :])):
        if part:
            made[name] = [dict(move) for move in part]
    return made


def _own_number(step: Row) -> int:
    return len(listed(step.get("first")))


def without_step(document: Document, index: int) -> Document:
    """Return `document` without a step; what was worked during it is then worked by itself."""
    return _with_steps(document, [step for number, step in enumerate(document["steps"]) if number != index])


def without_move(document: Document, spot: Spot) -> Document:
    """Return `document` without one move; a step that has none left goes with it."""
    return without_moves(document, [spot])


def without_moves(document: Document, spots: Iterable[Spot]) -> Document:
    """Return `document` without these moves; a step that has none left goes with them."""
    gone: dict[int, set[int]] = {}
    for spot in spots:
        gone.setdefault(spot.index, set()).add(spot.number)
    steps = []
    for index, step in enumerate(document["steps"]):
        if index not in gone:
            steps.append(step)
            continue
        moves = moves_of(step)
        kept = [number for number in range(len(moves)) if number not in gone[index]]
        if kept:
            own = kept.index(_own_number(step)) if _own_number(step) in kept else 0
            steps.append(_rebuilt(step, [moves[number] for number in kept], own))
    return _with_steps(document, steps)


def with_fields(document: Document, spot: Spot, **fields: Any) -> Document:
    """Return `document` with fields of one move changed; None takes a field away."""
    step = document["steps"][spot.index]
    moves = moves_of(step)
    changed = {**moves[spot.number], **fields}
    moves[spot.number] = {name: value for name, value in changed.items() if value is not None}
    made = dict(_rebuilt(step, moves, _own_number(step)))
    if spot.number == _own_number(step) and "place" in fields and fields["place"] is None:
        made.pop("place", None)
    return {**document, "steps": [made if index == spot.index else one for index, one in enumerate(document["steps"])]}


def without_thing(document: Document, spot: Spot, thing: str) -> Document:
    """Return `document` with one thing less in a move; a move that has none left is not made."""
    rest = [one for one in (*listed(spot.move.get("thing")), *listed(spot.move.get("things"))) if one != thing]
    return with_fields(document, spot, thing=None, things=rest) if rest else without_move(document, spot)


def alone(document: Document, spot: Spot, *, name: str) -> Row:
    """Return one move as a step of its own called `name`, with the words, cautions, condition and repeats of the step it comes from."""
    step = document["steps"][spot.index]
    kept = {field: step[field] for field in ("words", "caution", "condition", "each") if field in step}
    made = {**kept, **spot.move, "id": name}
    place = place_of(step, spot.move)
    if place:
        made["place"] = place
    if spot.number == _own_number(step):
        made |= {field: step[field] for field in ("active", "hands_free", "look", "accept", "reject", "record") if field in step}
    return made


def inserted(document: Document, step: Row, *, after: str = "", before: str = "") -> Document:
    """Return `document` with a step put in after or before another."""
    steps = list(document["steps"])
    place = step_index(document, after) + 1 if after else step_index(document, before)
    return _with_steps(document, [*steps[:place], step, *steps[place:]])


def between(document: Document, spot: Spot, anchor: str) -> frozenset[str]:
    """Return the step of a move, the step called `anchor` and all between them: those past which the move is made elsewhere."""
    first, last = sorted((spot.index, step_index(document, anchor)))
    return frozenset(str(step["id"]) for step in document["steps"][first : last + 1])


def moved(document: Document, spot: Spot, *, after: str = "", before: str = "") -> tuple[Document, str]:
    """Return `document` with one move made elsewhere, as a step of its own, and the id of that step."""
    whole = len(moves_of(document["steps"][spot.index])) == 1
    name = spot.step if whole else f"{spot.move['id']}-{'late' if after else 'soon'}"
    step = {field: value for field, value in alone(document, spot, name=name).items() if field != "during"}
    return inserted(without_move(document, spot), step, after=after, before=before), name


def swapped(document: Document, first: int, second: int) -> Document:
    """Return `document` with two steps in each other's place; neither is worked during the other then."""
    steps = list(document["steps"])
    ids = {steps[first]["id"], steps[second]["id"]}
    steps[first], steps[second] = (_untied(one) if one.get("during") in ids else one for one in (steps[second], steps[first]))
    return _with_steps(document, steps)


def with_role(document: Document, name: str, role: Row) -> Document:
    """Return `document` with one role more."""
    return {**document, "roles": {**document.get("roles", {}), name: dict(role)}}

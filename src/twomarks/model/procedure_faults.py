"""What single fields of a procedure cannot see: names that lead nowhere, figures typed into an author's words."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from twomarks import units
from twomarks.errors import InputError
from twomarks.model.procedure import BRANCH_PARTS, THINGS, bare_figures, placeholders, reference

__all__ = ["procedure_faults"]

PROVIDED = ("term", "each", "pour", "practice", "choice", "vehicle")
"""What stands in a placeholder without being a role: terms, the repeat's word, the pour plan, practice, choices."""

Path: TypeAlias = tuple[str | int, ...]
Fault: TypeAlias = tuple[Path, InputError]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Names:
    """What a step may name: placeholders, things and tools, and the ids of the steps and moves before it."""

    known: set[str]
    roles: Mapping[str, Mapping[str, Any]]
    things: tuple[str, ...]
    tools: tuple[str, ...]
    steps: set[str]
    moves: set[str]


def procedure_faults(document: Mapping[str, Any]) -> Iterator[Fault]:
    """Yield path and fault of everything in a procedure's raw tables that single fields cannot see.

    Works on the tables as written, so that these faults come together with those of the fields.
    """
    roles = _tables(document.get("roles"))
    known = {*roles, *PROVIDED}
    for name, role in roles.items():
        owner = role.get("of")
        if isinstance(owner, str) and owner not in roles:
            yield ("roles", name, "of"), _unknown("procedure.of", owner, roles)
        yield from _word_faults(role.get("name"), ("roles", name, "name"), known)
    names = _Names(
        known=known, roles=roles, things=(*roles, *THINGS), tools=tuple(_tables(document.get("tools"))), steps=set(), moves=set()
    )
    steps = _rows(document.get("steps"))
    for number, step in enumerate(steps):
        yield from _step_faults(step, ("steps", number), names)
    yield from _lap_faults(steps)
    yield from _branch_faults(document.get("branch"), steps, known)
    for name, tool in _tables(document.get("tools")).items():
        yield from _word_faults(tool.get("name"), ("tools", name, "name"), known)
        for fact in ("fits", "reaches"):
            role_name = tool.get(fact)
            if isinstance(role_name, str) and role_name not in roles:
                yield ("tools", name, fact), _unknown("procedure.of", role_name, roles)
    for number, hazard in enumerate(_rows(document.get("hazards"))):
        yield from _word_faults(hazard.get("words"), ("hazards", number, "words"), known)
    for number, follow in enumerate(_rows(document.get("follow_ups"))):
        yield from _follow_up_faults(follow, ("follow_ups", number), known)


def _unknown(key: str, found: str, known: Iterable[str]) -> InputError:
    words = tuple(sorted(known))
    near = difflib.get_close_matches(found, words, 1, 0.6)
    return InputError(key, found=found, expected=words, nearest=near[0] if near else "")


def _tables(value: object) -> dict[str, dict[str, Any]]:
    return {name: table for name, table in value.items() if isinstance(table, dict)} if isinstance(value, dict) else {}


def _rows(value: object) -> list[dict[str, Any]]:
    return [row if isinstance(row, dict) else {} for row in value] if isinstance(value, list) else []


def _texts(value: object) -> list[str]:
    return [one for one in value if isinstance(one, str)] if isinstance(value, list) else [value] if isinstance(value, str) else []


def _step_faults(step: dict[str, Any], path: Path, names: _Names) -> Iterator[Fault]:
    during = step.get("during")
    if isinstance(during, str) and during not in names.steps:
        yield (*path, "during"), InputError("procedure.during", found=during, expected=tuple(sorted(names.steps)))
    moves = [(path, step)]
    for part in ("first", "then"):
        moves += [((*path, part, number), move) for number, move in enumerate(_rows(step.get(part)))]
    for where, move in moves:
        yield from _move_faults(move, where, names)
    if isinstance(step.get("id"), str):
        names.steps.add(step["id"])
    waits = [(where, move["wait"]) for where, move in moves if isinstance(move.get("wait"), str)]
    for where, wait in waits[1:]:
        yield (*where, "wait"), InputError("procedure.wait_twice", found=wait)
    for field in ("words", "look", "accept", "reject"):
        yield from _word_faults(step.get(field), (*path, field), names.known)
    for number, caution in enumerate(_rows(step.get("caution"))):
        yield from _word_faults(caution.get("words"), (*path, "caution", number, "words"), names.known)
    condition = step.get("condition")
    if isinstance(condition, dict):
        yield from _word_faults(condition.get("words"), (*path, "condition", "words"), names.known)
        for role in _texts(condition.get("has")):
            if role not in names.roles:
                yield (*path, "condition", "has"), _unknown("procedure.of", role, names.roles)
        if not (condition.get("when") or condition.get("has")):
            yield (*path, "condition"), InputError("procedure.condition", found=str(step.get("id", "")))
    yield from _quantity_faults(step.get("active"), ("duration",), (*path, "active"))


def _lap_faults(steps: list[dict[str, Any]]) -> Iterator[Fault]:
    """Yield a fault at a step that parts the steps of a lap, or that is not repeated for the same words as the rest of it."""
    ended: dict[str, object] = {}
    before: str | None = None
    for number, step in enumerate(steps):
        lap = step.get("lap")
        lap = lap if isinstance(lap, str) else None
        if lap is not None:
            parted = lap in ended and before != lap
            if parted or not step.get("each") or step.get("each") != ended.get(lap, step.get("each")):
                yield ("steps", number - 1 if parted else number, "lap"), InputError("procedure.lap", found=lap)
            ended[lap] = step.get("each")
        before = lap


def _branch_faults(branch: object, steps: list[dict[str, Any]], known: set[str]) -> Iterator[Fault]:
    """Yield a fault where a branch does not stop, look and go on in this order, or where another procedure claims to."""
    parts = [step.get("part") for step in steps]
    if not isinstance(branch, dict):
        for number, part in enumerate(parts):
            if part is not None:
                yield ("steps", number, "part"), InputError("procedure.part_outside", found=str(part))
        return
    for field in ("sign", "give_up"):
        yield from _word_faults(branch.get(field), ("branch", field), known)
    for line in _texts(branch.get("never")):
        yield from _word_faults(line, ("branch", "never"), known)
    wanted = BRANCH_PARTS
    if [part for part in wanted if part in parts] != list(wanted):
        yield ("branch",), InputError("procedure.parts", found=tuple(str(part) for part in parts), expected=wanted)
    last = 0
    for number, part in enumerate(parts):
        place = wanted.index(part) if part in wanted else -1
        if place < last:
            yield ("steps", number, "part"), InputError("procedure.part", found=str(part or ""), expected=wanted[last:])
        last = max(last, place)


def _move_faults(move: dict[str, Any], path: Path, names: _Names) -> Iterator[Fault]:
    name = move.get("id")
    if isinstance(name, str):
        if name in names.moves:
            yield (*path, "id"), InputError("procedure.step_twice", found=name)
        names.moves.add(name)
    for field in ("thing", "through", "things"):
        for thing in _texts(move.get(field)):
            if thing not in names.things:
                yield (*path, field), _unknown("procedure.thing", thing, names.things)
    for tool in _texts(move.get("tools")):
        if tool not in names.tools:
            yield (*path, "tools"), _unknown("procedure.tool", tool, names.tools)
    yield from _amount_faults(move, path, names)


_FACTS_OF_ACTION: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("tighten", "fastening"): ("torque", "turn"),
    ("tighten", "tap"): ("torque", "turn"),
    ("pour", "circuit"): ("refill", "refill_with_filter", "refill_without_filter", "dry_fill", "between_marks"),
}
"""The facts that can be the amount of an action, by the kind of the role that has them."""


def _amount_faults(move: dict[str, Any], path: Path, names: _Names) -> Iterator[Fault]:
    known = names.known
    amount = move.get("amount")
    if isinstance(amount, str):
        named = reference(amount)
        if named is None:
            yield (*path, "amount"), InputError("procedure.amount", found=amount, example="{drain_plug.torque}")
        elif named[0] not in known:
            yield (*path, "amount"), _unknown("procedure.placeholder", named[0], known)
        else:
            facts = _FACTS_OF_ACTION.get((str(move.get("action")), str(names.roles.get(named[0], {}).get("kind"))), (named[1],))
            if named[1] not in facts:
                yield (*path, "amount"), _unknown("procedure.amount_fact", named[1], facts)
    wait = move.get("wait")
    named = reference(wait) if isinstance(wait, str) else None
    if named is None:
        yield from _quantity_faults(wait, ("duration",), (*path, "wait"))
    elif named[0] not in known:
        yield (*path, "wait"), _unknown("procedure.placeholder", named[0], known)


def _follow_up_faults(follow: dict[str, Any], path: Path, known: set[str]) -> Iterator[Fault]:
    if not (follow.get("after_distance") or follow.get("after_time")):
        yield path, InputError("procedure.follow_up", found=str(follow.get("id", "")))
    yield from _quantity_faults(follow.get("after_distance"), ("distance",), (*path, "after_distance"))
    yield from _quantity_faults(follow.get("after_time"), ("period", "months"), (*path, "after_time"))
    yield from _word_faults(follow.get("words"), (*path, "words"), known)


def _quantity_faults(text: object, kinds: tuple[str, ...], path: Path) -> Iterator[Fault]:
    if not isinstance(text, str):
        return
    try:
        found = units.quantity(text, decimal=".")
        if found.kind not in kinds:
            raise InputError("units.kind", found=text, expected=kinds[0], example=units.UNITS[units.KINDS[kinds[0]].core].shown)
    except InputError as error:
        yield path, error


def _word_faults(text: object, path: Path, known: set[str]) -> Iterator[Fault]:
    if not isinstance(text, str):
        return
    for name, _ in placeholders(text):
        if name not in known:
            yield path, _unknown("procedure.placeholder", name, known)
    for figure in bare_figures(text):
        yield path, InputError("procedure.bare_figure", found=figure, example="{drain_plug.torque}")

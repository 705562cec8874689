"""Amounts that belong to something else: another circuit's refill, another fastening's torque, a figure in the wrong unit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from benchmarks.mutations.edits import Spot, with_fields, with_role, worked_moves
from benchmarks.mutations.mutant import Case, Document, Mutant, Operator
from twomarks.model.procedure import reference

__all__ = ["OPERATORS"]

_VOLUMES = ("refill_with_filter", "refill_without_filter", "refill", "dry_fill", "between_marks")
_SLIPS = {"L": ("qt", "gal", "mm"), "N·m": ("lbf ft", "ft lb", "kg"), "mm": ("L",), "min": ("km",), "km": ("min",)}
"""What stands in a sheet where somebody copied a figure and not its unit; most of it a sheet refuses, some of it looks right."""
_TYPED = ("4 L", "38 N·m", "15 min", "30 lbf ft", "5 qt", "2.5 bar")


def other_refill(case: Case) -> Iterator[Mutant]:
    """What is poured is the volume of another circuit, or another volume of the same one."""
    for spot in worked_moves(case, "pour"):
        for circuit in spot.things:
            key = case.roles.get(circuit)
            if key is None:
                continue
            for fact in _present(case.sheet["circuits"][key]):
                if spot.move.get("amount") == f"{{{circuit}.{fact}}}":
                    continue
                yield _poured(spot, circuit, f"{{{circuit}.{fact}}}", case.procedure)
            for other, part in case.sheet["circuits"].items():
                if other == key:
                    continue
                role = {"kind": "circuit", "name": "another circuit", "usual": other, "optional": True}
                for fact in _present(part):
                    yield _poured(spot, circuit, f"{{other_circuit.{fact}}}", with_role(case.procedure, "other_circuit", role), other)


def _present(circuit: Mapping[str, Any]) -> tuple[str, ...]:
    return tuple(fact for fact in _VOLUMES if fact in circuit)


def _poured(spot: Spot, circuit: str, amount: str, procedure: Document, other: str = "") -> Mutant:
    named = f"{other}: {amount}" if other else amount
    return Mutant(
        what=f"{spot.move['id']} pours {named}",
        procedure=with_fields(procedure, spot, amount=amount),
        steps=frozenset({spot.step}),
        things=frozenset({circuit}),
    )


def other_torque(case: Case) -> Iterator[Mutant]:
    """A fastening is tightened to the torque of another one, or to a figure that is no torque."""
    for spot in worked_moves(case, "tighten"):
        named = reference(str(spot.move.get("amount", "")))
        if named is None:
            continue
        own = case.roles.get(named[0])
        for other, part in case.sheet.get("fastenings", {}).items():
            for fact in ("torque", "turn"):
                if other == own or fact not in part:
                    continue
                role = {"kind": "fastening", "name": "another fastening", "usual": other, "optional": True}
                changed = with_role(case.procedure, "other_fastening", role)
                yield _tightened(spot, f"{{other_fastening.{fact}}}", changed, other)
        for fact in ("thread", "drive", "count", "seal"):
            yield _tightened(spot, f"{{{named[0]}.{fact}}}", case.procedure)


def _tightened(spot: Spot, amount: str, procedure: Document, other: str = "") -> Mutant:
    return Mutant(
        what=f"{spot.move['id']} to {f'{other}: ' if other else ''}{amount}",
        procedure=with_fields(procedure, spot, amount=amount),
        steps=frozenset({spot.step}),
        things=frozenset(spot.things),
    )


def wrong_unit(case: Case) -> Iterator[Mutant]:
    """A figure stands in a unit that it was not meant in, or is typed into the words instead of being taken from the sheet."""
    for name, key in case.roles.items():
        group = {"circuit": "circuits", "fastening": "fastenings", "slot": "slots"}.get(case.procedure["roles"][name]["kind"], "")
        part = case.sheet.get(group, {}).get(key, {})
        for fact, value in part.items():
            text = str(value.get("value", "") if isinstance(value, dict) else value)
            figure, _, unit = text.partition(" ")
            for slip in _SLIPS.get(unit, ()):
                wrong = f"{figure} {slip}"
                changed = {**part, fact: {**value, "value": wrong} if isinstance(value, dict) else wrong}
                yield Mutant(
                    what=f"{group}.{key}.{fact} as {wrong} instead of {text}",
                    sheet={**case.sheet, group: {**case.sheet[group], key: changed}},
                    things=frozenset({name}),
                    paths=frozenset({f"{group}.{key}.{fact}"}),
                )
    for number, spot in enumerate(worked_moves(case)):
        step = case.procedure["steps"][spot.index]
        if spot.move["id"] != step["id"] or not spot.move.get("amount"):
            continue
        typed = _TYPED[number % len(_TYPED)]
        words = f"{step['words']} That is {typed}."
        steps = [{**one, "words": words} if one is step else one for one in case.procedure["steps"]]
        yield Mutant(
            what=f"{typed} typed into {spot.step}",
            procedure={**case.procedure, "steps": steps},
            steps=frozenset({spot.step}),
            things=frozenset(spot.things),
        )


OPERATORS: tuple[Operator, ...] = (other_refill, other_torque, wrong_unit)

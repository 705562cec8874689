"""Binding: a procedure and a vehicle sheet become steps with every role resolved and every figure in place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields
from itertools import groupby

from twomarks import units
from twomarks.model.procedure import CautionWords, FollowUp, Move, Procedure, Step, minutes_of, placeholders, reference
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.bound import Bound, BoundCaution, BoundFollowUp, BoundMove, BoundStep, Choices, Lack
from twomarks.procedures.conditions import condition_values
from twomarks.procedures.lacks import lacks_of
from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.sheet_facts import GROUPS, circuits_of, figure_of, part_of
from twomarks.words import Figure, Value, Wording, say

__all__ = ["Bound", "Choices", "Lack", "bind"]

_DAYS = {"day": 1.0, "week": 7.0, "month": 365.25 / 12, "year": 365.25}


def bind(procedure: Procedure, sheet: VehicleSheet, *, item: str | None = None, choices: Choices | None = None) -> Bound:
    """Return `procedure` bound to `sheet`, with the roles that the service item `item` names and the day's choices."""
    chosen = choices or Choices()
    roles = _roles(procedure, sheet, item)
    kinds = {name: role.kind for name, role in procedure.roles.items()}
    groups = _groups(procedure)
    conditions = condition_values(sheet, chosen)
    figures = _Figures(procedure, sheet, roles, chosen)
    circuits = circuits_of(sheet, roles, procedure)
    steps: list[BoundStep] = []
    left_out: list[str] = []
    for step, rounds in _rounds(procedure.steps):
        holds = _holds(step, conditions, roles)
        if holds is False:
            left_out.append(step.id)
            continue
        steps.extend(_bound_step(step, holds, rounds, figures))
    oil = next((name for name, circuit in circuits.items() if circuit.sort == "engine"), "")
    settle = figures.get(oil, "settle")
    by_practice = bool(oil) and figures.sheet_figure(oil, "settle") is None
    assumed = (say("rehearsal.default_settle", wait=PRACTICE["settle"]),) if by_practice else ()
    return Bound(
        procedure=procedure,
        sheet=sheet,
        item=item or "",
        choices=chosen,
        roles=roles,
        kinds=kinds,
        steps=tuple(steps),
        lacks=lacks_of(procedure, sheet, roles, tuple(steps)),
        settle_min=_minutes(settle) if settle is not None else _minutes(PRACTICE["settle"]),
        run_down_min=_minutes(PRACTICE["shortest_run_down"]),
        drain_min=_minutes(PRACTICE["drain"]),
        hazards=_cautions(procedure.hazards, figures),
        follow_ups=tuple(_follow_up(one, figures) for one in procedure.follow_ups),
        left_out=tuple(dict.fromkeys(left_out)),
        rests_on=(*(one for circuit in circuits.values() for one in circuit.volumes.defaults), *assumed),
        circuits=circuits,
        filter_kind=procedure.applies.filter,
        parking_brake=_text(getattr(sheet.chassis, "parking_brake", None)),
        keyless=conditions["keyless"],
        transfer_case=conditions["transfer_case"],
        undertray=conditions["undertray"],
        air_suspension=conditions["air_suspension"],
        electric_brake=conditions["electric_brake"],
        hybrid=conditions["hybrid"],
        **groups,
    )


def _text(fact: object) -> str:
    return str(getattr(fact, "text", fact) or "")


def _minutes(figure: Figure) -> float:
    return units.in_unit(float(figure.value), unit=figure.unit, to="min")


def _roles(procedure: Procedure, sheet: VehicleSheet, item: str | None) -> dict[str, str]:
    named: Mapping[str, str] = sheet.items[item].roles if item and item in sheet.items else {}
    found: dict[str, str] = {}
    for name, role in procedure.roles.items():
        owner = found.get(role.of) if role.of else None
        key = named.get(name) or _belonging(sheet, role.kind, owner) or role.usual
        if key and part_of(sheet, role.kind, key) is not None:
            found[name] = key
    return found


def _belonging(sheet: VehicleSheet, kind: str, owner: str | None) -> str | None:
    """Return the key of the part that the sheet itself says belongs to `owner`: the seal of a fastening."""
    fastening = sheet.fastenings.get(owner) if owner and kind == "slot" else None
    return getattr(fastening, "seal", None)


def _groups(procedure: Procedure) -> dict[str, frozenset[str]]:
    roles = procedure.roles

    def of(owner: str, *kinds: str) -> frozenset[str]:
        return frozenset(name for name, role in roles.items() if role.kind in kinds and role.of and roles[role.of].kind == owner)

    return {
        "openings": of("circuit", "fastening", "tap"),
        "filters": of("circuit", "slot"),
        "joints": of("slot", "fastening"),
        "seals": of("fastening", "slot") | of("tap", "slot"),
    }


def _rounds(steps: tuple[Step, ...]) -> Iterator[tuple[Step, tuple[tuple[int, str], ...]]]:
    """Yield every step with the numbered words it is repeated for here; a lap is gone through word by word."""
    for lap, group in groupby(steps, key=lambda step: step.lap or step.id):
        together = tuple(group)
        numbered = tuple(enumerate(together[0].each or ("",), start=1))
        if together[0].lap != lap or len(together) == 1:
            yield from ((step, numbered) for step in together)
        else:
            yield from ((step, (one,)) for one in numbered for step in together)


def _holds(step: Step, conditions: Mapping[str, bool | None], roles: Mapping[str, str]) -> bool | None:
    if step.condition is None:
        return True
    values = [conditions[name] for name in step.condition.when]
    values += [True if name in roles else None for name in step.condition.has]
    if False in values:
        return False
    return None if None in values else True


class _Figures:
    """Figures of one binding: of roles from the sheet, of practice, of the pour plan and of the choices."""

    def __init__(self, procedure: Procedure, sheet: VehicleSheet, roles: Mapping[str, str], choices: Choices) -> None:
        self.procedure, self.sheet, self.roles, self.choices = procedure, sheet, roles, choices

    def sheet_figure(self, role: str, fact: str) -> Figure | None:
        if role not in self.roles:
            return None
        return figure_of(part_of(self.sheet, self.procedure.roles[role].kind, self.roles[role]), fact)

    def get(self, name: str, fact: str) -> Figure | None:
        match name:
            case "practice":
                return PRACTICE.get(fact)
            case "pour":
                return self._pour(fact)
            case "vehicle":
                return figure_of(self.sheet.chassis, fact)
            case _:
                figure = self.sheet_figure(name, fact)
                return PRACTICE.get(fact) if figure is None and fact == "settle" else figure

    def _pour(self, fact: str) -> Figure | None:
        plan = self.choices.pour
        number = {"first": 0, "second": 1}.get(fact)
        if plan is None or number is None or number >= len(plan.pours):
            return None
        volume_l = plan.pours[number].volume_l
        return None if volume_l is None else Figure(volume_l, "L")

    def wording(self, text: str, each: str = "") -> Wording:
        figures: dict[str, Value] = {}
        for name, fact in placeholders(text):
            if name == "term":
                continue
            if name == "each":
                figures["each"] = each
            elif name == "choice":
                figures["choice.product"] = self.choices.oil_name
            elif not fact:
                figures[name] = Wording(self.procedure.roles[name].name) if name in self.procedure.roles else None
            else:
                figures[f"{name}.{fact}"] = self.get(name, fact)
        return Wording(text, figures)

    def maybe(self, text: str | None, each: str = "") -> Wording | None:
        return None if text is None else self.wording(text, each)


def _cautions(cautions: tuple[CautionWords, ...], figures: _Figures) -> tuple[BoundCaution, ...]:
    return tuple(BoundCaution(signal=one.signal, words=figures.wording(one.words), source=one.source) for one in cautions)


def _follow_up(follow: FollowUp, figures: _Figures) -> BoundFollowUp:
    distance = units.quantity(follow.after_distance, kind="distance", decimal=".").core if follow.after_distance else None
    days = None
    if follow.after_time:
        period = units.quantity(follow.after_time, decimal=".")
        days = float(period.exact) * (_DAYS["month"] if period.kind == "months" else 1.0)
    words = figures.wording(follow.words)
    return BoundFollowUp(id=follow.id, words=words, checks=follow.checks, after_km=distance, after_days=days)


def _amount(move: Move, figures: _Figures) -> tuple[Figure | None, str]:
    named = reference(move.amount) if move.amount else None
    if named is None:
        return None, ""
    name, fact = named
    figure = figures.get(name, fact)
    if figure is None and move.action == "tighten":
        other = {"torque": "turn", "turn": "torque"}.get(fact, "")
        instead = figures.get(name, other) if other else None
        if instead is not None:
            figure, fact = instead, other
    part = figures.procedure.roles.get(name)
    group = GROUPS.get(part.kind, "") if part else ""
    key = figures.roles.get(name) or (part.usual if part else None) or name
    return figure, f"{group}.{key}.{fact}" if group else f"{name}.{fact}"


def _wait(move: Move, figures: _Figures) -> tuple[float, Figure | None]:
    if move.wait is None:
        return 0.0, None
    named = reference(move.wait)
    figure = figures.get(*named) if named else Figure(minutes_of(move.wait), "min")
    return (0.0, None) if figure is None else (_minutes(figure), figure)


def _bound_move(move: Move, step: Step, name: str, each: str, cautions: tuple[BoundCaution, ...], figures: _Figures) -> BoundMove:
    amount, path = _amount(move, figures)
    wait_min, wait = _wait(move, figures)
    return BoundMove(
        id=name,
        action=move.action,
        things=move.acted_on,
        through=move.through or "",
        at=move.at,
        tools=move.tools,
        new=move.new,
        manner=move.manner,
        pace=move.pace,
        amount=amount,
        amount_path=path,
        litres=float(amount.value) if amount is not None and move.action == "pour" and amount.unit == "L" else None,
        cautions=cautions,
        place=move.place or step.place,
        active_min=minutes_of(step.active) if step.active and move is step else 0.0,
        wait_min=wait_min,
        wait=wait,
        during=step.during or "",
        each=each,
        hands_free=step.hands_free,
        part=step.part or "",
    )


def _bound_step(step: Step, holds: bool | None, rounds: tuple[tuple[int, str], ...], figures: _Figures) -> Iterator[BoundStep]:
    cautions = _cautions(step.caution, figures)
    for number, each in rounds:
        name = f"{step.id}-{number}" if step.each else step.id
        moves = tuple(_bound_move(move, step, name, each, cautions, figures) for move in step.moves)
        own = moves[len(step.first)]
        waiting = next((move for move in moves if move.wait is not None), own)
        yield BoundStep(
            **{field.name: getattr(own, field.name) for field in fields(own)} | {"wait": waiting.wait, "wait_min": waiting.wait_min},
            step=step,
            words=figures.wording(step.words, each),
            moves=moves,
            look=figures.maybe(step.look, each),
            accept=figures.maybe(step.accept, each),
            reject=figures.maybe(step.reject, each),
            condition=figures.maybe(step.condition.words) if step.condition and holds is None else None,
            holds=holds,
            record=tuple(text.replace("{each}", each) for text in step.record),
        )

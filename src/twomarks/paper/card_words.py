"""A job card as the words and figures that its sheet is filled with, for one reader."""

from __future__ import annotations

import datetime as dt
from typing import Any

from twomarks.paper.back_words import printed_back
from twomarks.paper.card_steps import findings_at, printed_findings, printed_gate, printed_step
from twomarks.paper.figures import clock_text, is_unconfirmed
from twomarks.paper.pour_words import printed_pour
from twomarks.planning.card import CardFluid, CardFollowUp, CardPart, CardTool, CardWaste, JobCard
from twomarks.planning.help_call import HelpCall
from twomarks.units import UNITS
from twomarks.words import Figure, Message, Reader, date_text, figure_text, keys, render, say, sentence, value_text
from twomarks.words.render import fill

__all__ = ["card_words", "labels"]

SHORT = 8
STEPS_AHEAD = 7
"""The pour plan floats to where a page has room for it; handed over this many steps early, it never comes after its pour."""
UNIT_ORDER = ("distance", "volume", "torque", "temperature", "pressure")
REGIONS = {"uk": "GB", "us": "US", "au": "AU"}
KINDS = ("car", "van", "4x4", "motorcycle", "trailer", "machine")


def labels(reader: Reader) -> dict[str, str]:
    """Return every sentence of the topic that needs no figure, by its key."""
    found = {}
    for key in keys(reader.language):
        if key.startswith("paper."):
            text = sentence(key, language=reader.language)
            if "{" not in text.replace("{term.", ""):
                found[key] = fill(text, {}, reader)
    return found


def card_words(card: JobCard, reader: Reader, call: HelpCall) -> dict[str, Any]:
    """Return everything that stands on the card, as text, in the order in which it is worked."""
    places = {step.id for step in card.steps}
    gates: dict[str, list[dict[str, Any]]] = {place: [] for place in (*places, "")}
    for gate in card.gates:
        gates[gate.before if gate.before in places else ""].append(printed_gate(gate, reader))
    loose = tuple(finding for finding in card.findings if finding.step not in places)
    pours = [place for place, step in enumerate(card.steps) if "pour" in (step.moves or (step.action,))] if card.pour else []
    plan_at = card.steps[max(0, pours[0] - STEPS_AHEAD)].id if pours else ""
    return {
        "say": labels(reader),
        "paper": "us-letter" if reader.market == "us" else "a4",
        "language": reader.language,
        "region": REGIONS.get(reader.market),
        "day_numbers": [card.day.year, card.day.month, card.day.day],
        "title": card.title,
        "subtitle": _subtitle(card, reader),
        "times": _times(card, reader),
        "hazards": [{"signal": hazard.signal, "words": render(hazard.words, reader)} for hazard in card.hazards],
        "findings": printed_findings(loose, reader),
        "tools": [_tool(tool, reader) for tool in card.tools],
        "parts": [_part(part, reader) for part in card.parts],
        "fluids": [_fluid(fluid, reader) for fluid in card.fluids],
        "waste": [_waste(waste, reader) for waste in card.waste],
        "unconfirmed": _unconfirmed(card, reader),
        "steps": [
            printed_step(step, card, reader)
            | {"gates": gates[step.id], "plan_here": step.id == plan_at, "pour_here": bool(pours) and step is card.steps[pours[0]]}
            for step in card.steps
        ],
        "end_gates": gates[""],
        "pour": printed_pour(card.pour, reader) if card.pour is not None else None,
        "pour_at_end": card.pour is not None and not pours,
        "follow_ups": [_follow_up(follow, card, reader) for follow in card.follow_ups],
        "blanks": _blanks(card, reader),
        "checked": [render(message, reader) for message in card.checked],
        "defaults": _defaults(card, reader),
        "not_seen": [render(message, reader) for message in card.not_seen],
        "back": printed_back(card, call, reader),
        "tag": _tag(card, reader) if card.hang_tag else None,
        "foot": _foot(card, reader),
    }


def _subtitle(card: JobCard, reader: Reader) -> str:
    kind = render(say(f"paper.kind_{card.vehicle_kind}"), reader) if card.vehicle_kind in KINDS else card.vehicle_kind
    return render(say("paper.subtitle", vehicle=card.vehicle, kind=kind, odometer=card.odometer), reader)


def _times(card: JobCard, reader: Reader) -> str:
    if not card.elapsed_min:
        return ""
    active, elapsed = clock_text(card.active_min, reader), clock_text(card.elapsed_min, reader)
    return render(say("paper.times", active=active, elapsed=elapsed), reader)


def _tool(tool: CardTool, reader: Reader) -> dict[str, str]:
    return {"name": render(tool.name, reader), "figure": figure_text(tool.figure, reader) if tool.figure is not None else "", "note": ""}


def _part(part: CardPart, reader: Reader) -> dict[str, str]:
    number = figure_text(part.number, reader) if part.number is not None else ""
    name = render(part.name, reader)
    return {
        "name": " ".join((render(say("paper.count", count=part.count), reader), name)) if part.count != 1 else name,
        "figure": number,
        "note": "" if number else render(say("paper.number_unknown"), reader),
    }


def _fluid(fluid: CardFluid, reader: Reader) -> dict[str, str]:
    name = render(fluid.name, reader)
    return {
        "name": f"{name}: {fluid.product}" if fluid.product else name,
        "figure": figure_text(fluid.volume, reader) if fluid.volume is not None else "",
        "note": "" if fluid.volume is not None else render(say("paper.volume_unknown"), reader),
    }


def _waste(waste: CardWaste, reader: Reader) -> dict[str, str]:
    return {"name": render(waste.name, reader), "figure": figure_text(waste.volume, reader) if waste.volume is not None else "", "note": ""}


def _unconfirmed(card: JobCard, reader: Reader) -> list[str]:
    """Return one line for every figure that was told and never confirmed, before the first undo."""
    return [
        render(say("paper.unconfirmed_line", number=step.number, label=stub.label, figure=stub.figure), reader)
        for step in card.steps
        for stub in step.stubs
        if stub.figure is not None and is_unconfirmed(stub.figure)
    ]


def _follow_up(follow: CardFollowUp, card: JobCard, reader: Reader) -> dict[str, Any]:
    when, on = [], []
    if follow.after_days is not None:
        due = card.day + dt.timedelta(days=round(follow.after_days))
        when.append(render(say("paper.follow_days", days=Figure(follow.after_days, "day")), reader))
        on.append(render(say("paper.follow_day", day=due), reader))
    if follow.after_km is not None:
        when.append(render(say("paper.follow_distance", distance=Figure(follow.after_km, "km")), reader))
        if card.odometer is not None and not isinstance(card.odometer.value, str):
            reached = Figure(_km(card.odometer) + follow.after_km, "km")
            on.append(render(say("paper.follow_at", odometer=reached), reader))
    return {"words": render(follow.words, reader), "when": when, "on": on, "both": len(when) > 1}


def _km(odometer: Figure) -> float:
    unit = UNITS[odometer.unit]
    return float(odometer.value) * float(unit.factor)


def _blanks(card: JobCard, reader: Reader) -> list[str]:
    distance = UNITS[reader.unit_for("km")].shown
    volume = UNITS[reader.unit_for("L")].shown
    asked: list[Message] = [say("paper.blank_odometer", unit=distance)]
    if card.pour is not None:
        asked += [say("paper.blank_poured", unit=volume), say("paper.blank_level")]
    asked += [say("paper.blank_started"), say("paper.blank_finished"), say("paper.blank_by")]
    return [render(message, reader) for message in asked]


def _defaults(card: JobCard, reader: Reader) -> list[str]:
    at_steps = [
        render(say("paper.defaults_line", number=step.number, found=finding.found), reader)
        for step in card.steps
        for finding in findings_at(step, card)
        if finding.basis == "default"
    ]
    places = {step.id for step in card.steps}
    whole = [render(finding.found, reader) for finding in card.findings if finding.basis == "default" and finding.step not in places]
    assumed = [render(message, reader) for message in card.rests_on]
    return list(dict.fromkeys([*at_steps, *whole, *assumed]))


_TAGS = {"engine oil": "oil", "gear oil": "gear", "coolant": "coolant", "brake fluid": "brakes", "fuel": "fuel"}
"""What the tag warns of, by what is let out."""


def _tag(card: JobCard, reader: Reader) -> dict[str, str]:
    streams = [waste.stream for waste in card.waste]
    out = next((_TAGS[stream] for stream in streams if stream in _TAGS), "other")
    return {
        "words": render(say(f"paper.tag_words_{out}"), reader),
        "more": render(say(f"paper.tag_more_{out}"), reader),
        "vehicle": render(say("paper.tag_vehicle", vehicle=card.vehicle, day=card.day), reader),
    }


def _foot(card: JobCard, reader: Reader) -> dict[str, list[list[str]]]:
    """Return the cells of the title block in its two rows, label and value; the page counts itself in."""
    stubs = [stub for step in card.steps for stub in step.stubs]
    empty = sum(1 for stub in stubs if stub.figure is None)
    told = sum(1 for stub in stubs if stub.figure is not None and is_unconfirmed(stub.figure))
    state = render(say("paper.figures_state", sourced=len(stubs) - empty - told, told=told, empty=empty), reader)
    units = ", ".join(UNITS[reader.units[kind]].shown for kind in UNIT_ORDER if kind in reader.units)
    counter = value_text(card.odometer, reader) if card.odometer is not None else ""
    bound = ", ".join(f"{revision.key} {revision.sha256[:SHORT]}" for revision in card.revisions)
    above = (
        ("paper.foot_vehicle", f"{card.vehicle}, {counter}" if counter else card.vehicle),
        ("paper.foot_day", date_text(card.day, reader)),
        ("paper.foot_card", card.id[:SHORT]),
        ("paper.foot_page", render(say("paper.page", page="<n>", pages="<m>"), reader)),
    )
    below = (("paper.foot_revision", bound or "\u2013"), ("paper.foot_units", units), ("paper.foot_figures", state))
    return {place: [[render(Message(key), reader), value] for key, value in cells] for place, cells in (("above", above), ("below", below))}

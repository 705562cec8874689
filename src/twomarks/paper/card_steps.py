"""Steps, gates and findings of a job card as the words that their sheet is filled with."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from twomarks.paper.figures import clock_text, printed_figure
from twomarks.planning.card import CardFinding, CardStep, Gate, JobCard, Stub
from twomarks.words import Message, Reader, Wording, render, say

__all__ = ["findings_at", "printed_findings", "printed_gate", "printed_step"]

PLACES = {"above": "above", "under": "under", "at wheel": "wheel", "bench": "bench", "inside": "inside"}
LONG_STEP = 1800


def printed_step(step: CardStep, card: JobCard, reader: Reader) -> dict[str, Any]:
    """Return one step for its sheet; `long` steps may be parted over two pages, all others may not."""
    words = {
        "number": step.number,
        "small": _small_line(step, card, reader),
        "cautions": [{"signal": caution.signal, "words": render(caution.words, reader)} for caution in step.cautions],
        "condition": _text(step.condition, reader),
        "words": render(step.words, reader),
        "look": _text(step.look, reader),
        "accept": _text(step.accept, reader),
        "reject": _text(step.reject, reader),
        "wait": _wait(step, card, reader),
        "record": list(step.record),
        "stubs": [_stub(stub, reader) for stub in step.stubs],
        "findings": printed_findings(findings_at(step, card), reader),
    }
    return words | {"long": len(str(words)) - len(str(words["stubs"])) > LONG_STEP}


def findings_at(step: CardStep, card: JobCard) -> tuple[CardFinding, ...]:
    """Return the findings that stand at a step, each once: its own, and those of the card that name it."""
    return tuple(dict.fromkeys((*step.findings, *(finding for finding in card.findings if finding.step == step.id))))


def _text(words: Wording | None, reader: Reader) -> str:
    return render(words, reader) if words is not None else ""


def _stub(stub: Stub, reader: Reader) -> dict[str, Any]:
    return {"label": render(stub.label, reader), "figure": printed_figure(stub.figure, reader) if stub.figure is not None else None}


def _small_line(step: CardStep, card: JobCard, reader: Reader) -> str:
    """Return where the step is done, how long the hands are at it, in which wait it falls, and whether it wants a second look."""
    parts: list[Message] = []
    if step.place in PLACES:
        parts.append(say(f"paper.place_{PLACES[step.place]}"))
    if step.active_min:
        parts.append(say("paper.active", time=clock_text(step.active_min, reader)))
    waiting = next((other.number for other in card.steps if other.id == step.during), None)
    if waiting is not None:
        parts.append(say("paper.during", number=waiting))
    if step.deliberate:
        parts.append(say("paper.second_look"))
    return ", ".join(render(part, reader) for part in parts)


def _wait(step: CardStep, card: JobCard, reader: Reader) -> dict[str, str] | None:
    if not step.wait_min:
        return None
    said = say("paper.wait_hands" if step.hands_free else "paper.wait", time=clock_text(step.wait_min, reader))
    numbers = tuple(str(other.number) for other in card.steps if other.during == step.id)
    fill = render(say("paper.wait_fill", numbers=len(numbers), list=numbers), reader) if numbers else ""
    return {"words": render(said, reader), "fill": fill}


def printed_gate(gate: Gate, reader: Reader) -> dict[str, Any]:
    """Return a gate for its sheet: its title and what is looked at and said."""
    return {
        "title": render(say("paper.gate", name=say(f"gate.{gate.name.replace(' ', '_')}")), reader),
        "questions": [render(question, reader) for question in gate.questions],
    }


def printed_findings(findings: Sequence[CardFinding], reader: Reader) -> list[dict[str, str]]:
    """Return findings for their sheet: open ones first, as they come; one set aside carries its reason."""
    ordered = sorted(findings, key=lambda finding: bool(finding.set_aside))
    return [
        {
            "title": render(
                say(
                    "paper.set_aside" if finding.set_aside else "paper.finding",
                    grade=say(f"paper.grade_{finding.grade}"),
                    basis=say(f"paper.basis_{finding.basis.replace(' ', '_')}"),
                ),
                reader,
            ),
            "basis": finding.basis,
            "expected": render(finding.expected, reader),
            "found": render(finding.found, reader),
            "remedy": render(finding.remedy, reader),
            "reason": finding.set_aside,
        }
        for finding in ordered
    ]

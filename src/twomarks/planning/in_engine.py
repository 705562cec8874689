"""What is in the engine, by the label of the oil that was filled, as messages for whoever tops it up."""

from __future__ import annotations

from twomarks.trade.grades import EngineOilGrade, lowest_cranking_c, lowest_pumping_c
from twomarks.trade.label import Label
from twomarks.words import Figure, Message, say

__all__ = ["label_said"]


def label_said(label: Label) -> tuple[Message, ...]:
    """Return what the label says, how cold its grade is tested, what may top it up, and what the label cannot tell."""
    grade = str(label.grade) if label.grade else ""
    said = [say("prepare.label", grade=grade, categories=tuple(str(one) for one in label.categories), approvals=label.approvals)]
    if label.claims:
        said.append(say("prepare.label_claims", words=label.claims))
    if label.not_understood:
        said.append(say("prepare.label_not_understood", words=label.not_understood))
    if isinstance(label.grade, EngineOilGrade) and label.grade.winter:
        cranking, pumping = (Figure(lowest(label.grade.winter), "C") for lowest in (lowest_cranking_c, lowest_pumping_c))
        said.append(say("prepare.label_cold", grade=grade, cranking=cranking, pumping=pumping))
    return (*said, say("prepare.label_top_up", grade=grade), say("prepare.label_handbook"))

"""What is in the engine, by the label of the oil that was filled, as messages for whoever tops it up."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.model.procedure import Procedure
from twomarks.model.vehicle import VehicleSheet
from twomarks.trade.grades import EngineOilGrade, lowest_cranking_c, lowest_pumping_c
from twomarks.trade.label import Label
from twomarks.words import Figure, Message, say

__all__ = ["items_filling", "label_said"]


def items_filling(sheet: VehicleSheet, procedures: Mapping[str, Procedure], circuit: str) -> frozenset[str]:
    """Return the service items whose work fills `circuit`, by their procedures; where the sheet names none, the circuit's own."""
    found = {circuit}
    for key, item in sheet.items.items():
        if item.procedure is None or item.procedure not in procedures:
            continue
        roles = procedures[item.procedure].roles.items()
        if any(role.kind == "circuit" and (item.roles.get(name) or role.usual or name) == circuit for name, role in roles):
            found.add(key)
    return frozenset(found)


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

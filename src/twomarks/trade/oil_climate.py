"""How an oil stands to the climate: the handbook's limits of cold and heat, else the test points of its winter grade."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.grades import EngineOilGrade, lowest_cranking_c, lowest_pumping_c
from twomarks.words import Figure, Message, say

__all__ = ["Findings", "State", "judge_cold", "judge_cold_by_grade", "judge_heat"]

State = Literal["meets", "does not meet", "not shown"]
RANK: dict[State, int] = {"meets": 0, "not shown": 1, "does not meet": 2}


@dataclass(slots=True)
class Findings:
    """What has been found so far about one oil and one entry of the handbook."""

    state: State = "meets"
    bad: int = 0
    grade_missed: bool = False
    reasons: list[tuple[int, Message]] = field(default_factory=list)
    settles: list[Message] = field(default_factory=list)
    margins: dict[str, float] = field(default_factory=dict)

    def add(self, state: State, reason: Message, *, settles: Message | None = None) -> None:
        """Add what one part of the entry says, its reason, and what would settle it."""
        self.state = max(self.state, state, key=RANK.__getitem__)
        self.bad += RANK[state]
        self.reasons.append((RANK[state], reason))
        if settles is not None:
            self.settles.append(settles)

    def note(self, reason: Message) -> None:
        """Add a reason that changes nothing."""
        self.reasons.append((0, reason))


def judge_cold(
    findings: Findings,
    grade: EngineOilGrade | GearOilGrade | None,
    *,
    limit_c: float | None,
    coldest_start_c: float | None,
    coldest_start_low_c: float | None = None,
) -> None:
    """Add what the coldest start says.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    grade : EngineOilGrade or GearOilGrade or None
        The grade on the label.
    limit_c : float or None
        How cold the handbook allows the oil [C]; None where it does not say.
    coldest_start_c : float or None
        Coldest start to reckon with [C]; None where no climate is known.
    coldest_start_low_c : float or None
        Lower end of its interval [C].

    Notes
    -----
    The handbook's limit comes first. A gear oil has no test of starting: without a limit nothing is said of it.

    References
    ----------
    sae_j300
    """
    if isinstance(grade, GearOilGrade) and limit_c is None:
        return
    if coldest_start_c is None:
        findings.add("not shown", say("oil.climate_not_known"), settles=say("oil.settle_climate"))
        return
    winter = grade.winter if isinstance(grade, EngineOilGrade) else ""
    coldest = Figure(coldest_start_c, "C")
    if limit_c is not None:
        findings.margins["above_handbook_limit_k"] = coldest_start_c - limit_c
        limit = Figure(limit_c, "C")
        if coldest_start_c < limit_c:
            findings.add("does not meet", say("oil.colder_than_handbook", coldest=coldest, limit=limit))
        else:
            findings.add("meets", say("oil.handbook_cold", coldest=coldest, limit=limit))
            if coldest_start_low_c is not None and coldest_start_low_c < limit_c:
                findings.note(say("oil.cold_edge", low=Figure(coldest_start_low_c, "C"), limit=limit))
            if winter:
                _note_cold_by_grade(findings, winter, coldest_start_c)
    elif winter:
        judge_cold_by_grade(findings, winter, coldest_start_c=coldest_start_c)
    elif grade is not None:
        findings.add("not shown", say("oil.no_winter_grade", have=str(grade)), settles=say("oil.settle_handbook_cold"))


def judge_heat(findings: Findings, *, limit_c: float | None, hottest_day_c: float | None) -> None:
    """Add what the hottest day says, where the handbook has a limit of heat for the grade.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    limit_c : float or None
        How hot the handbook allows the oil [C]; None where it does not say.
    hottest_day_c : float or None
        Hottest day to reckon with [C]; None where no climate is known.

    References
    ----------
    house_judgement
    """
    if limit_c is None:
        return
    if hottest_day_c is None:
        findings.add("not shown", say("oil.climate_not_known"), settles=say("oil.settle_climate"))
        return
    findings.margins["below_handbook_limit_k"] = limit_c - hottest_day_c
    hot = hottest_day_c > limit_c
    reason = say("oil.hotter_than_handbook" if hot else "oil.handbook_heat", hottest=Figure(hottest_day_c, "C"), limit=Figure(limit_c, "C"))
    findings.add("does not meet" if hot else "meets", reason)


def judge_cold_by_grade(findings: Findings, winter: str, *, coldest_start_c: float) -> None:
    """Add what the test points of a winter grade say of the coldest start.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    winter : str
        The winter grade, such as ``5W``.
    coldest_start_c : float
        Coldest start to reckon with [C].

    References
    ----------
    sae_j300
    """
    figures = _margins_by_grade(findings, winter, coldest_start_c)
    if findings.margins["above_cranking_test_k"] >= 0.0:
        findings.add("meets", say("oil.cranks", **figures))
    else:
        findings.add("not shown", say("oil.colder_than_tested", **figures), settles=say("oil.settle_handbook_cold"))


def _margins_by_grade(findings: Findings, winter: str, coldest_start_c: float) -> Mapping[str, Figure | str]:
    cranking, pumping = lowest_cranking_c(winter), lowest_pumping_c(winter)
    findings.margins["above_cranking_test_k"] = coldest_start_c - cranking
    findings.margins["above_pumping_test_k"] = coldest_start_c - pumping
    return {"winter": winter, "coldest": Figure(coldest_start_c, "C"), "cranking": Figure(cranking, "C"), "pumping": Figure(pumping, "C")}


def _note_cold_by_grade(findings: Findings, winter: str, coldest_start_c: float) -> None:
    figures = _margins_by_grade(findings, winter, coldest_start_c)
    findings.note(say("oil.cranks" if findings.margins["above_cranking_test_k"] >= 0.0 else "oil.colder_but_allowed", **figures))

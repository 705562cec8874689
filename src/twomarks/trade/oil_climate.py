"""How an oil stands to the climate: the handbook's limits of cold and heat, else the test points of its winter grade."""

from __future__ import annotations

from collections.abc import Mapping

from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.grades import EngineOilGrade, lowest_cranking_c, lowest_pumping_c
from twomarks.trade.oil_findings import GRADE_SPAN_K, Findings
from twomarks.words import Figure, Value, say

__all__ = ["judge_cold", "judge_cold_by_grade", "judge_heat"]

J300 = ("sae_j300",)


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
        How cold the handbook allows the oil [C], -60 to 40; None where it does not say.
    coldest_start_c : float or None
        Coldest start to reckon with [C], -100 to 80; None where no climate is known.
    coldest_start_low_c : float or None
        Lower end of its interval [C], -200 to 80.

    Notes
    -----
    The handbook's limit comes first. A gear oil has no test of starting: without a limit nothing is said of it. Departs from
    the sources: none.

    References
    ----------
    sae_j300
    """
    if isinstance(grade, GearOilGrade) and limit_c is None:
        return
    if coldest_start_c is None:
        findings.add("not shown", say("oil.climate_not_known"), settles=(say("oil.settle_climate"),))
        return
    winter = grade.winter if isinstance(grade, EngineOilGrade) else ""
    coldest = Figure(coldest_start_c, "C")
    if limit_c is not None:
        margin = findings.measure("cold_handbook", found=coldest_start_c, limit=limit_c, unit="C", span=GRADE_SPAN_K)
        limit = Figure(limit_c, "C")
        if margin.margin < 0.0:
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
        findings.add("not shown", say("oil.no_winter_grade", have=str(grade)), settles=(say("oil.settle_handbook_cold"),))


def judge_heat(findings: Findings, *, limit_c: float | None, hottest_day_c: float | None) -> None:
    """Add what the hottest day says, where the handbook has a limit of heat for the grade.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    limit_c : float or None
        How hot the handbook allows the oil [C], -20 to 70; None where it does not say.
    hottest_day_c : float or None
        Hottest day to reckon with [C], -100 to 80; None where no climate is known.

    Notes
    -----
    Without a limit in the handbook nothing is said of heat. Departs from the sources: none.

    References
    ----------
    house_judgement
    """
    if limit_c is None:
        return
    if hottest_day_c is None:
        findings.add("not shown", say("oil.climate_not_known"), settles=(say("oil.settle_climate"),))
        return
    margin = findings.measure("heat_handbook", found=hottest_day_c, limit=limit_c, unit="C", at_most=True, span=GRADE_SPAN_K)
    hot = margin.margin < 0.0
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
        Coldest start to reckon with [C], -100 to 80.

    Notes
    -----
    Test points are no permissions: colder than tested is ``not shown``, never fine. Departs from the sources: none.

    References
    ----------
    sae_j300
    """
    figures, above = _by_grade(findings, winter, coldest_start_c)
    if above >= 0.0:
        findings.add("meets", say("oil.cranks", **figures), sources=J300)
    else:
        findings.add("not shown", say("oil.colder_than_tested", **figures), settles=(say("oil.settle_handbook_cold"),), sources=J300)


def _by_grade(findings: Findings, winter: str, coldest_start_c: float) -> tuple[Mapping[str, Value], float]:
    cranking, pumping = lowest_cranking_c(winter), lowest_pumping_c(winter)
    above = findings.measure("cranking_test", found=coldest_start_c, limit=cranking, unit="C", source=J300[0], span=GRADE_SPAN_K)
    findings.measure("pumping_test", found=coldest_start_c, limit=pumping, unit="C", source=J300[0], span=GRADE_SPAN_K)
    points: dict[str, Value] = {"cranking": Figure(cranking, "C"), "pumping": Figure(pumping, "C")}
    return {"winter": winter, "coldest": Figure(coldest_start_c, "C"), **points}, above.margin


def _note_cold_by_grade(findings: Findings, winter: str, coldest_start_c: float) -> None:
    figures, above = _by_grade(findings, winter, coldest_start_c)
    findings.note(say("oil.cranks" if above >= 0.0 else "oil.colder_but_allowed", **figures), sources=J300)

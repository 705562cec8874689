"""What a data sheet says of an oil: whether it bears out the grade and the classes on the label, and suits the exhaust."""

from __future__ import annotations

from collections.abc import Iterable

from twomarks.reference.oil_categories import CategoryRow, Limit
from twomarks.trade.category_names import Category
from twomarks.trade.grades import EngineOilGrade, limits_of
from twomarks.trade.oil_findings import Findings, shown
from twomarks.trade.oil_offer import OilOnOffer
from twomarks.words import Figure, Message, Value, say

__all__ = ["judge_asked_classes", "judge_sheet_classes", "judge_sheet_filter", "judge_sheet_grade"]

J300 = "sae_j300"
MEMORY = "c"
ROUNDING = 1e-9
CAR_ASH_PERCENT, LORRY_ASH_PERCENT = 0.8, 1.0


def judge_sheet_grade(findings: Findings, grade: EngineOilGrade, *, offer: OilOnOffer) -> None:
    """Add whether the figures of the data sheet keep the limits of the grade on the label.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    grade : EngineOilGrade
        The grade on the label.
    offer : OilOnOffer
        The oil with its data sheet.

    Notes
    -----
    At 100 C the lower limit belongs to the band and the upper does not. A cranking or pumping figure taken colder than the grade
    is tested bears it out where it keeps the limit, one taken warmer contradicts it where it does not; else it says nothing.
    Departs from the source: that rule, by which an oil only thickens as it cools.

    References
    ----------
    sae_j300
    """
    rows = limits_of(str(grade))
    for row in rows:
        if row.grade == grade.winter:
            _judge_kv100(findings, row.grade, offer.kv100_mm2_s, row.kv100_min_mm2_s, None)
            _judge_cold(findings, "ccs", row.grade, offer.ccs_mpa_s, offer.ccs_temp_c, row.ccs_max_mpa_s, row.ccs_temp_c)
            _judge_cold(findings, "mrv", row.grade, offer.mrv_mpa_s, offer.mrv_temp_c, row.mrv_max_mpa_s, row.mrv_temp_c)
        else:
            _judge_kv100(findings, row.grade, offer.kv100_mm2_s, row.kv100_min_mm2_s, row.kv100_max_mm2_s)
            _judge_film(findings, row.grade, offer.hths_mpa_s, row.hths_min_mpa_s)


def _judge_kv100(findings: Findings, grade: str, found: float | None, low: float, high: float | None) -> None:
    if found is None or (high is None and found >= low):
        return
    figures: dict[str, Value] = {"found": Figure(found, "mm2/s"), "low": Figure(low, "mm2/s"), "grade": grade}
    if high is None:
        findings.add("does not meet", say("oil.sheet_below_winter", **figures), sources=(J300,))
        return
    least = findings.measure("kv100_least", found=found, limit=low, unit="mm2/s", source=J300)
    most = findings.measure("kv100_most", found=found, limit=high, unit="mm2/s", source=J300, at_most=True)
    figures["high"] = Figure(high, "mm2/s")
    if least.margin >= 0.0 and most.margin > 0.0:
        findings.note(say("oil.sheet_fits", **figures), sources=(J300,))
    else:
        findings.add("does not meet", say("oil.sheet_contradicts", **figures), sources=(J300,))


def _judge_film(findings: Findings, grade: str, found: float | None, limit: float | None) -> None:
    if found is None or limit is None:
        return
    margin = findings.measure("hths_least", found=found, limit=limit, unit="mPa.s", source=J300)
    figures: dict[str, Value] = {"grade": grade, "found": Figure(found, "mPa.s"), "limit": Figure(limit, "mPa.s")}
    if margin.margin < 0.0:
        findings.add("does not meet", say("oil.film_thin", **figures), sources=(J300,))
    else:
        findings.note(say("oil.film_holds", **figures), sources=(J300,))


def _judge_cold(
    findings: Findings,
    test: str,
    grade: str,
    found: float | None,
    at_c: float | None,
    limit: float | None,
    test_c: float | None,
) -> None:
    if found is None or limit is None or test_c is None:
        return
    figures: dict[str, Value] = {
        "grade": grade,
        "found": Figure(found, "mPa.s"),
        "limit": Figure(limit, "mPa.s"),
        "tested": Figure(test_c, "C"),
    }
    if at_c is None:
        findings.note(say(f"oil.{test}_without_temperature", **figures))
        return
    figures["at"] = Figure(at_c, "C")
    keeps = found <= limit
    if (keeps and at_c > test_c) or (not keeps and at_c < test_c):
        findings.note(say(f"oil.{test}_elsewhere", **figures), sources=(J300,))
        return
    findings.measure(test, found=found, limit=limit, unit="mPa.s", source=J300, at_most=True)
    if keeps:
        findings.note(say(f"oil.{test}_holds", **figures), sources=(J300,))
    else:
        findings.add("does not meet", say(f"oil.{test}_above", **figures), sources=(J300,))


def judge_sheet_classes(findings: Findings, *, offer: OilOnOffer) -> None:
    """Add whether the figures of the data sheet keep the limits of the classes on the label.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    offer : OilOnOffer
        The oil with its label and data sheet.

    Notes
    -----
    A class that its own data sheet contradicts is none. A limit that is only remembered contradicts nothing and is told as
    such. Departs from the sources: none.

    References
    ----------
    acea_limits, acea_e4_2008, acea_a5b5_2021, api_fa4, api_ck4, jaso_t903, jaso_m355
    """
    for category in offer.label.categories:
        for key, found, limit, unit, at_most in _compared(category.row, offer):
            figures: dict[str, Value] = {
                "have": str(category),
                "found": shown(value=found, unit=unit),
                "limit": shown(value=limit.value, unit=unit),
            }
            beyond = found > limit.value + ROUNDING if at_most else found < limit.value - ROUNDING
            if not beyond:
                continue
            if limit.status == MEMORY:
                findings.note(say(f"oil.class_{key}_remembered", **figures))
            else:
                findings.add("does not meet", say(f"oil.class_{key}", **figures), sources=(category.row.seen.source,))


def _compared(row: CategoryRow, offer: OilOnOffer) -> Iterable[tuple[str, float, Limit, str, bool]]:
    for key, found, limit, unit, at_most in (
        ("ash_above", offer.ash_percent, row.ash_max_percent, "%", True),
        ("film_below", offer.hths_mpa_s, row.hths_min_mpa_s, "mPa.s", False),
        ("film_above", offer.hths_mpa_s, row.hths_max_mpa_s, "mPa.s", True),
        ("base_below", offer.tbn_mgkoh_g, row.tbn_min_mgkoh_g, "mgKOH/g", False),
    ):
        if found is not None and limit is not None:
            yield key, found, limit, unit, at_most


def judge_asked_classes(findings: Findings, asked: tuple[Category, ...], *, offer: OilOnOffer) -> None:
    """Add whether the ash and the high-shear viscosity of the data sheet keep within what any one class asked for allows.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    asked : tuple of Category
        The classes that the handbook asks for; any one will do.
    offer : OilOnOffer
        The oil with its data sheet.

    Notes
    -----
    Excluded is what exceeds the widest limit of all classes asked for, where each has one that was read and not remembered; the
    margin is that to the widest. Departs from the sources: none.

    References
    ----------
    acea_limits, acea_e4_2008, acea_a5b5_2021, jaso_m355
    """
    ash = [category.row.ash_max_percent for category in asked]
    film = [category.row.hths_min_mpa_s for category in asked]
    names = tuple(str(category) for category in asked)
    source = asked[0].row.seen.source if asked else ""
    widest_ash, widest_film = _widest(ash, at_most=True), _widest(film, at_most=False)
    if offer.ash_percent is not None and widest_ash is not None:
        margin = findings.measure("ash_most", found=offer.ash_percent, limit=widest_ash, unit="%", source=source, at_most=True)
        figures: dict[str, Value] = {
            "asked": names,
            "found": shown(value=offer.ash_percent, unit="%"),
            "limit": shown(value=widest_ash, unit="%"),
        }
        _within(findings, margin.margin, say("oil.asked_ash_above", **figures), say("oil.asked_ash_holds", **figures), source)
    if offer.hths_mpa_s is not None and widest_film is not None:
        margin = findings.measure("class_hths_least", found=offer.hths_mpa_s, limit=widest_film, unit="mPa.s", source=source)
        figures = {"asked": names, "found": Figure(offer.hths_mpa_s, "mPa.s"), "limit": Figure(widest_film, "mPa.s")}
        _within(findings, margin.margin, say("oil.asked_film_below", **figures), say("oil.asked_film_holds", **figures), source)


def _widest(limits: list[Limit | None], *, at_most: bool) -> float | None:
    read = [limit.value for limit in limits if limit is not None and limit.status != MEMORY]
    if not read or len(read) < len(limits):
        return None
    return max(read) if at_most else min(read)


def _within(findings: Findings, margin: float, beyond: Message, holds: Message, source: str) -> None:
    if margin < -ROUNDING:
        findings.add("does not meet", beyond, sources=(source,))
    else:
        findings.note(holds, sources=(source,))


def judge_sheet_filter(findings: Findings, *, offer: OilOnOffer) -> None:
    """Add what the ash of the data sheet means for a particle filter, where the handbook asks for no class.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    offer : OilOnOffer
        The oil with its data sheet.

    Notes
    -----
    Classes for particle filters allow 0.5 or 0.8 % of ash in cars, API CK-4 and JASO DH-2 1.0 and 1.1 % in lorries: up to 0.8 %
    nothing is said against it, above it is ``not shown``. Departs from the sources: the step from classes to a bare figure.

    References
    ----------
    acea_limits, api_ck4, jaso_m355
    """
    if offer.ash_percent is None or offer.ash_percent <= CAR_ASH_PERCENT + ROUNDING:
        return
    figures: dict[str, Value] = {
        "found": shown(value=offer.ash_percent, unit="%"),
        "car": shown(value=CAR_ASH_PERCENT, unit="%"),
        "lorry": shown(value=LORRY_ASH_PERCENT, unit="%"),
    }
    settles = (say("oil.settle_handbook_category"),)
    findings.add("not shown", say("oil.ash_before_filter", **figures), settles=settles, sources=("acea_limits", "api_ck4"))

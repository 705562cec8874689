"""Whether an oil meets what the handbook asks for, in this climate, on top of what is in the engine.

The handbook always wins: nothing that it excludes is called fine, and what nobody has looked up is never taken as met.
"""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.trade.arrays import require, require_within
from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.grades import EngineOilGrade
from twomarks.trade.label import Label
from twomarks.trade.oil_call import (
    CallBlock,
    OilCall,
    Surroundings,
    judge_approval,
    judge_category,
    judge_fluid,
    judge_grade,
    note_exhaust_and_fuel,
)
from twomarks.trade.oil_climate import judge_cold, judge_cold_by_grade, judge_heat
from twomarks.trade.oil_findings import RANK, Findings, Margin, Reason, State
from twomarks.trade.oil_mixture import GRAVE_SHARE, SMALL_SHARE, Mixture, mixture_of
from twomarks.trade.oil_offer import OilOnOffer
from twomarks.trade.oil_sheet import judge_asked_classes, judge_sheet_classes, judge_sheet_filter, judge_sheet_grade
from twomarks.words import Figure, Message, Value, say

__all__ = ["CallBlock", "OilCall", "OilOnOffer", "OilVerdict", "State", "oil_verdict"]


@dataclass(frozen=True, slots=True)
class OilVerdict:
    """The verdict: why (what fails first), which facts would settle what is open, the margins from the smallest up, the mixture."""

    state: State
    told: tuple[Reason, ...]
    settles: tuple[Message, ...]
    margins: tuple[Margin, ...] = ()
    mixture: Mixture | None = None
    oil: str = ""

    @property
    def reasons(self) -> tuple[Message, ...]:
        """The sentences of the reasons."""
        return tuple(dict.fromkeys(reason.message for reason in self.told))

    @property
    def sources(self) -> tuple[str, ...]:
        """Keys of the bibliography that the reasons rest on, in their order."""
        return tuple(dict.fromkeys(source for reason in self.told for source in reason.sources))

    @property
    def sentence(self) -> Message:
        """The verdict as a sentence, with the reason that decides or the margin that is smallest."""
        if self.state == "meets":
            closest = self.margins[0].message if self.margins else None
            return say("oil.verdict_meets", oil=self.oil, margin=closest)
        deciding = next((reason.message for reason in self.told if reason.state == self.state), None)
        if self.state == "does not meet":
            return say("oil.verdict_does_not_meet", oil=self.oil, reason=deciding)
        return say("oil.verdict_not_shown", oil=self.oil, reason=deciding)


def oil_verdict(
    *,
    call: OilCall,
    offer: OilOnOffer,
    fuel: str = "",
    fuel_sulphur_ppm: float | None = None,
    after_treatment: tuple[str, ...] = (),
    coldest_start_c: float | None,
    coldest_start_low_c: float | None = None,
    hottest_day_c: float | None = None,
    in_engine: Label | None = None,
    in_engine_kv100_mm2_s: float | None = None,
    stays_l: float | None = None,
    fill_l: float | None = None,
) -> OilVerdict:
    """Return whether an oil meets the handbook's call in this climate, with reasons.

    Parameters
    ----------
    call : OilCall
        What the handbook asks for.
    offer : OilOnOffer
        The oil, by its label and, where there is one, its data sheet.
    fuel : str
        ``petrol``, ``diesel``, ``lpg``, ``hybrid``, or "" where unknown.
    fuel_sulphur_ppm : float, optional
        Sulphur in the fuel [ppm] by mass, 0 to 50 000.
    after_treatment : tuple of str
        Such as ``("dpf", "scr")``.
    coldest_start_c : float or None
        Coldest start to reckon with until the next change [C], -100 to 80; None where no climate is known.
    coldest_start_low_c : float or None
        Lower end of its interval [C], -200 to 80, not above `coldest_start_c`.
    hottest_day_c : float or None
        Hottest day to reckon with until the next change [C], -100 to 80; asked for only where the handbook has a limit of heat.
    in_engine : Label or None
        Label of the oil that stays in part; None where it is not known.
    in_engine_kv100_mm2_s : float or None
        Viscosity at 100 C of that oil [mm2/s], 1 to 500; the band of its grade where left out.
    stays_l : float or None
        How much of it stays [L], 0 to 200.
    fill_l : float or None
        How much is poured [L], above 0, up to 500.

    Returns
    -------
    OilVerdict
        ``meets`` only where grade, category, approval and cold start are all shown to be met for one block; ``does not meet``
        where for every block something is excluded; else ``not shown``, with what would settle it. Reasons: what fails first.

    Raises
    ------
    OutOfRangeError
        If a temperature, a volume, the sulphur or the viscosity is outside its range.
    InputError
        If the coldest start is above the hottest day, or the lower end of its interval above it.

    Notes
    -----
    An approval asked for that is not on the label is never more than ``not shown``, whatever the seller claims. The handbook's
    own limit of cold comes before the test points of the grade, which are no permissions; those decide only where it has none.
    A stated grade or class that the data sheet contradicts is none. What stays of an oil that is not shown to meet the call is
    told, and leaves the verdict open above a quarter of the fill. Margins are ranked by their share of the limit, smallest
    first. Departs from the sources: none.

    References
    ----------
    sae_j300, api_guide_2009, acea_limits, acea_update_rule, astm_d7152
    """
    _require_climate(coldest_start_c, coldest_start_low_c, hottest_day_c)
    around = Surroundings(fuel, fuel_sulphur_ppm, after_treatment)
    mixture = None
    if in_engine is not None and stays_l is not None and fill_l is not None:
        mixture = mixture_of(offer=offer, in_engine=in_engine, stays_l=stays_l, fill_l=fill_l, in_engine_kv100_mm2_s=in_engine_kv100_mm2_s)
    if not call.blocks:
        best = _nobody_looked(offer, around, coldest_start_c)
        _note_mixture(best, None, offer.label, in_engine, mixture, around)
        return _told(best, offer, mixture)
    judged = [_judge(block, offer, around) for block in call.blocks]
    for block, one in zip(call.blocks, judged, strict=True):
        judge_cold(
            one,
            offer.label.grade,
            limit_c=block.coldest_c,
            coldest_start_c=coldest_start_c,
            coldest_start_low_c=coldest_start_low_c,
        )
        judge_heat(one, limit_c=block.hottest_c, hottest_day_c=hottest_day_c)
    # Of entries that fail alike the one for the oil's own grade tells more than one for another grade.
    best = min(judged, key=lambda findings: (RANK[findings.state], findings.grade_missed, findings.bad))
    at = judged.index(best)
    if len(judged) > 1:
        best.note(say("oil.block_of", number=at + 1, count=len(judged)))
    _note_mixture(best, call.blocks[at], offer.label, in_engine, mixture, around)
    return _told(best, offer, mixture)


def _require_climate(coldest_c: float | None, coldest_low_c: float | None, hottest_c: float | None) -> None:
    for value, quantity, low in (
        (coldest_c, "coldest start", -100.0),
        (coldest_low_c, "coldest start", -200.0),
        (hottest_c, "hottest day", -100.0),
    ):
        if value is not None:
            require_within(value, quantity=quantity, unit="C", source="house_judgement", low=low, high=80.0)
    if coldest_c is not None and hottest_c is not None:
        require(coldest_c <= hottest_c, "oil.climate_crossed", coldest=Figure(coldest_c, "C"), hottest=Figure(hottest_c, "C"))
    if coldest_c is not None and coldest_low_c is not None:
        require(coldest_low_c <= coldest_c, "oil.interval_crossed", coldest=Figure(coldest_c, "C"), low=Figure(coldest_low_c, "C"))


def _told(findings: Findings, offer: OilOnOffer, mixture: Mixture | None) -> OilVerdict:
    order = {"does not meet": 0, "not shown": 1, "meets": 2, "": 2}
    told = tuple(dict.fromkeys(sorted(findings.reasons, key=lambda reason: order[reason.state])))
    settles = tuple(dict.fromkeys(findings.settles)) if findings.state == "not shown" else ()
    margins = tuple(sorted(findings.margins, key=lambda margin: (margin.relative, margin.name)))
    return OilVerdict(findings.state, told, settles, margins, mixture, offer.name)


def _nobody_looked(offer: OilOnOffer, around: Surroundings, coldest_start_c: float | None) -> Findings:
    findings = Findings()
    findings.add("not shown", say("oil.handbook_not_looked"), settles=(say("oil.settle_handbook"),))
    judge_fluid(findings, offer.label)
    _judge_sheet(findings, offer, around)
    if isinstance(offer.label.grade, EngineOilGrade) and offer.label.grade.winter and coldest_start_c is not None:
        judge_cold_by_grade(findings, offer.label.grade.winter, coldest_start_c=coldest_start_c)
    note_exhaust_and_fuel(findings, offer.label, around)
    return findings


def _judge(block: CallBlock, offer: OilOnOffer, around: Surroundings) -> Findings:
    findings = Findings()
    judge_fluid(findings, offer.label)
    judge_grade(findings, block, offer.label)
    _judge_sheet(findings, offer, around, block)
    judge_category(findings, block, offer.label, around)
    judge_approval(findings, block, offer.label)
    return findings


def _judge_sheet(findings: Findings, offer: OilOnOffer, around: Surroundings, block: CallBlock | None = None) -> None:
    if isinstance(offer.label.grade, EngineOilGrade):
        judge_sheet_grade(findings, offer.label.grade, offer=offer)
    judge_sheet_classes(findings, offer=offer)
    if block is not None and block.categories:
        judge_asked_classes(findings, block.known_categories, offer=offer)
    elif around.has_filter:
        judge_sheet_filter(findings, offer=offer)


def _note_mixture(
    findings: Findings, block: CallBlock | None, label: Label, in_engine: Label | None, mixture: Mixture | None, around: Surroundings
) -> None:
    """Add what stays in the engine: told where it is like the new oil, minded where it is not shown to meet the call itself."""
    if isinstance(label.grade, GearOilGrade) and in_engine is None:
        return
    if in_engine is None:
        findings.note(say("oil.in_engine_not_known"))
        return
    shared = {category.key for category in in_engine.categories} & {category.key for category in label.categories}
    alike = in_engine.grade == label.grade and bool(shared)
    if alike:
        findings.note(say("oil.mix_alike"))
    else:
        findings.note(say("oil.mix_differs", have=label.text, inside=in_engine.text))
    if mixture is None:
        return
    for message in mixture.messages:
        findings.note(message, sources=("astm_d7152",))
    if block is None or alike or _suits(block, in_engine, around):
        return
    figures: dict[str, Value] = {"share": Figure(100.0 * mixture.share, "%"), "inside": in_engine.text}
    if mixture.share > GRAVE_SHARE:
        findings.add("not shown", say("oil.mix_grave", limit=Figure(100.0 * GRAVE_SHARE, "%"), **figures), settles=(say("oil.settle_mix"),))
    else:
        findings.note(say("oil.mix_small" if mixture.share <= SMALL_SHARE else "oil.mix_noticeable", **figures))


def _suits(block: CallBlock, label: Label, around: Surroundings) -> bool:
    findings = Findings()
    judge_grade(findings, block, label)
    judge_category(findings, block, label, around)
    judge_approval(findings, block, label)
    return findings.state == "meets"

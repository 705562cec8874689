"""Whether an oil meets what the handbook asks for, in this climate, on top of what is in the engine.

The handbook always wins: nothing that it excludes is called fine, and what nobody has looked up is never taken as met.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from twomarks.errors import InputError
from twomarks.reference.tables import categories
from twomarks.trade.categories import Category, Cover, covers, parse_category
from twomarks.trade.gear_grades import GearOilGrade, parse_gear_grade
from twomarks.trade.grades import EngineOilGrade, limits_of, parse_grade
from twomarks.trade.label import Label, approval_key, same_approval
from twomarks.trade.oil_climate import RANK, Findings, State, judge_cold, judge_cold_by_grade, judge_heat
from twomarks.words import Figure, Message, Value, say

__all__ = ["CallBlock", "OilCall", "OilOnOffer", "OilVerdict", "State", "oil_verdict"]

PARTICLE_FILTERS = ("dpf", "gpf")


@dataclass(frozen=True, slots=True)
class CallBlock:
    """One block of the handbook: one of the grades AND one of the categories AND one of the approvals.

    An empty tuple means that somebody looked and none is asked for; None means that nobody looked.
    """

    grades: tuple[str, ...] | None = None
    categories: tuple[str, ...] | None = None
    approvals: tuple[str, ...] | None = None
    coldest_c: float | None = None
    hottest_c: float | None = None


@dataclass(frozen=True, slots=True)
class OilCall:
    """What the handbook asks for: any one of the blocks may be met. No block: nobody has looked."""

    blocks: tuple[CallBlock, ...] = ()


@dataclass(frozen=True, slots=True)
class OilOnOffer:
    """An oil: its name, its label, and figures of its data sheet where there are any."""

    name: str
    label: Label
    kv40_mm2_s: float | None = None
    kv100_mm2_s: float | None = None
    hths_mpa_s: float | None = None


@dataclass(frozen=True, slots=True)
class OilVerdict:
    """The verdict, why, which facts would settle what is open, and margins (keys end in the unit; k is kelvin)."""

    state: State
    reasons: tuple[Message, ...]
    settles: tuple[Message, ...]
    margins: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))


def oil_verdict(
    *,
    call: OilCall,
    offer: OilOnOffer,
    fuel: str = "",
    after_treatment: tuple[str, ...] = (),
    coldest_start_c: float | None,
    coldest_start_low_c: float | None = None,
    hottest_day_c: float | None = None,
    in_engine: Label | None = None,
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
    after_treatment : tuple of str
        Such as ``("dpf", "scr")``.
    coldest_start_c : float or None
        Coldest start to reckon with until the next change [C]; None where no climate is known.
    coldest_start_low_c : float or None
        Lower end of its interval [C].
    hottest_day_c : float or None
        Hottest day to reckon with until the next change [C]; asked for only where the handbook has a limit of heat.
    in_engine : Label or None
        Label of the oil that stays in part; None where it is not known.

    Returns
    -------
    OilVerdict
        ``meets`` only where grade, category, approval and cold start are all shown to be met for one block; ``does not meet``
        where for every block something is excluded; else ``not shown``, with what would settle it. Reasons: what fails first.

    Notes
    -----
    An approval asked for that is not on the label is never more than ``not shown``, whatever the seller claims. The handbook's
    own limit of cold comes before the test points of the grade, which are no permissions; those decide only where it has none.
    A stated grade that the data sheet contradicts is no grade. Departs from the sources: none.

    References
    ----------
    sae_j300, api_guide_2009, acea_limits, acea_update_rule
    """
    if not call.blocks:
        return _nobody_looked(offer, fuel, after_treatment, coldest_start_c)
    judged = [_judge(block, offer, fuel, after_treatment) for block in call.blocks]
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
    if len(judged) > 1:
        best.note(say("oil.block_of", number=judged.index(best) + 1, count=len(judged)))
    _note_mixing(best, offer.label, in_engine)
    ordered = [reason for _, reason in sorted(best.reasons, key=lambda one: -one[0])]
    settles = tuple(dict.fromkeys(best.settles)) if best.state == "not shown" else ()
    return OilVerdict(best.state, tuple(dict.fromkeys(ordered)), settles, MappingProxyType(best.margins))


def _nobody_looked(offer: OilOnOffer, fuel: str, after_treatment: tuple[str, ...], coldest_start_c: float | None) -> OilVerdict:
    findings = Findings()
    findings.add("not shown", say("oil.handbook_not_looked"), settles=say("oil.settle_handbook"))
    if isinstance(offer.label.grade, EngineOilGrade) and offer.label.grade.winter and coldest_start_c is not None:
        winter = offer.label.grade.winter
        judge_cold_by_grade(findings, winter, coldest_start_c=coldest_start_c)
    _note_ash(findings, offer.label, after_treatment)
    _note_fuel(findings, offer.label, fuel)
    ordered = [reason for _, reason in sorted(findings.reasons, key=lambda one: -one[0])]
    return OilVerdict("not shown", tuple(ordered), tuple(dict.fromkeys(findings.settles)), MappingProxyType(findings.margins))


def _judge(block: CallBlock, offer: OilOnOffer, fuel: str, after_treatment: tuple[str, ...]) -> Findings:
    findings = Findings()
    _grade(findings, block, offer)
    _category(findings, block, offer.label, after_treatment)
    _approval(findings, block, offer.label)
    if not block.categories:
        _note_fuel(findings, offer.label, fuel)
    return findings


def _asked_grade(text: str) -> EngineOilGrade | GearOilGrade | None:
    for parse in (parse_grade, parse_gear_grade):
        try:
            return parse(text)
        except InputError:
            continue
    return None


def _grade(findings: Findings, block: CallBlock, offer: OilOnOffer) -> None:
    have = offer.label.grade
    if block.grades is None:
        findings.add("not shown", say("oil.grade_not_looked"), settles=say("oil.settle_handbook_grade"))
    elif have is None:
        findings.add("not shown", say("oil.grade_not_on_label"), settles=say("oil.settle_label_grade"))
    elif not block.grades:
        findings.note(say("oil.grade_not_asked", have=str(have)))
    elif have in [_asked_grade(text) for text in block.grades]:
        findings.add("meets", say("oil.grade_listed", have=str(have)))
    elif any(_asked_grade(text) is None for text in block.grades):
        findings.add(
            "not shown", say("oil.grade_asked_unknown", have=str(have), asked=block.grades), settles=say("oil.settle_handbook_grade")
        )
    else:
        findings.grade_missed = True
        findings.add("does not meet", say("oil.grade_not_listed", have=str(have), asked=block.grades))
    if isinstance(have, EngineOilGrade) and have.hot:
        _data_sheet(findings, have, offer)


def _data_sheet(findings: Findings, have: EngineOilGrade, offer: OilOnOffer) -> None:
    row = limits_of(str(have))[-1]
    if offer.kv100_mm2_s is not None and row.kv100_max_mm2_s is not None:
        low, high = row.kv100_min_mm2_s, row.kv100_max_mm2_s
        findings.margins["kv100_above_least_mm2_s"] = offer.kv100_mm2_s - low
        findings.margins["kv100_below_most_mm2_s"] = high - offer.kv100_mm2_s
        figures = {"found": Figure(offer.kv100_mm2_s, "mm2/s"), "low": Figure(low, "mm2/s"), "high": Figure(high, "mm2/s")}
        if low <= offer.kv100_mm2_s < high:
            findings.note(say("oil.sheet_fits", grade=have.hot, **figures))
        else:
            findings.add("does not meet", say("oil.sheet_contradicts", grade=have.hot, **figures))
    if offer.hths_mpa_s is not None and row.hths_min_mpa_s is not None:
        findings.margins["hths_above_least_mpa_s"] = offer.hths_mpa_s - row.hths_min_mpa_s
        if offer.hths_mpa_s < row.hths_min_mpa_s:
            limit = Figure(row.hths_min_mpa_s, "mPa.s")
            findings.add("does not meet", say("oil.film_thin", grade=have.hot, found=Figure(offer.hths_mpa_s, "mPa.s"), limit=limit))


def _category(findings: Findings, block: CallBlock, label: Label, after_treatment: tuple[str, ...]) -> None:
    if block.categories is None:
        findings.add("not shown", say("oil.category_not_looked"), settles=say("oil.settle_handbook_category"))
        _note_ash(findings, label, after_treatment)
        return
    if not block.categories:
        findings.note(say("oil.category_not_asked"))
        _note_ash(findings, label, after_treatment)
        return
    asked = tuple(text for text in block.categories if _is_known(text))
    unknown = tuple(text for text in block.categories if not _is_known(text))
    pairs = [(covers(str(have), text), have, parse_category(text)) for text in asked for have in label.categories]
    yes = next((pair for pair in pairs if pair[0].covered == "yes"), None)
    if yes is not None:
        cover, have, wanted = yes
        findings.add("meets", say("oil.category_met", have=str(have), asked=str(wanted), steps=cover.steps))
        for caution in cover.cautions:
            findings.note(caution)
        if _is_full_ash(label, after_treatment):
            findings.note(say("oil.full_ash_allowed", have=tuple(str(have) for have in label.categories)))
        return
    settles = say("oil.settle_label_category", asked=block.categories)
    if unknown:
        findings.add("not shown", say("oil.category_asked_unknown", asked=unknown), settles=settles)
    if not label.categories:
        claimed = next((text for text in label.claims if any(_names(text, name.split()[-1]) for name in block.categories)), None)
        reason = say("oil.category_not_on_label", asked=block.categories)
        if claimed is not None:
            reason = say("oil.category_only_claimed", have=claimed, asked=block.categories)
        findings.add("not shown", reason, settles=settles)
    elif asked:
        _category_missed(findings, pairs, asked, label, settles, excludable=not unknown)


def _names(claim: str, category: str) -> bool:
    return approval_key(category.rsplit(maxsplit=1)[-1]) in approval_key(claim)


def _is_known(text: str) -> bool:
    try:
        parse_category(text)
    except InputError:
        return False
    return True


def _category_missed(
    findings: Findings,
    pairs: list[tuple[Cover, Category, Category]],
    asked: tuple[str, ...],
    label: Label,
    settles: Message,
    *,
    excludable: bool,
) -> None:
    """Say that none of the categories asked for is met; excluded is what every related category on the label excludes."""
    excluded = excludable
    for wanted in {wanted for _, _, wanted in pairs}:
        related = [cover for cover, have, other in pairs if other == wanted and _are_related(have, wanted)]
        excluded = excluded and bool(related) and all(cover.covered == "no" for cover in related)
    telling = [cover for cover, have, wanted in pairs if _are_related(have, wanted)] or [cover for cover, _, _ in pairs]
    steps = tuple(dict.fromkeys(step for cover in telling for step in (*cover.steps, *cover.cautions)))
    figures: dict[str, Value] = {"have": tuple(str(have) for have in label.categories), "asked": asked, "steps": steps}
    if excluded:
        findings.add("does not meet", say("oil.category_excluded", **figures))
    else:
        findings.add("not shown", say("oil.category_not_shown", **figures), settles=settles)


def _are_related(have: Category, wanted: Category) -> bool:
    one, other = categories()[have.key], categories()[wanted.key]
    return have.body == wanted.body and one.line.split()[0] == other.line.split()[0]


def _approval(findings: Findings, block: CallBlock, label: Label) -> None:
    if block.approvals is None:
        findings.add("not shown", say("oil.approval_not_looked"), settles=say("oil.settle_handbook_approval"))
        return
    if not block.approvals:
        findings.note(say("oil.approval_not_asked"))
        return
    met = next((text for text in label.approvals if any(same_approval(text, asked) for asked in block.approvals)), None)
    if met is not None:
        findings.add("meets", say("oil.approval_met", have=met))
        return
    claimed = next((text for text in (*label.claims, *label.not_understood) if any(_names(text, asked) for asked in block.approvals)), None)
    if claimed is not None:
        reason = say("oil.approval_only_claimed", have=claimed, asked=block.approvals)
    else:
        reason = say("oil.approval_not_on_label", asked=block.approvals)
    findings.add("not shown", reason, settles=say("oil.settle_label_approval", asked=block.approvals))


def _is_full_ash(label: Label, after_treatment: tuple[str, ...]) -> bool:
    ash = {categories()[have.key].saps for have in label.categories}
    return any(part.casefold() in PARTICLE_FILTERS for part in after_treatment) and "full" in ash and not {"mid", "low"} & ash


def _note_ash(findings: Findings, label: Label, after_treatment: tuple[str, ...]) -> None:
    """A particle filter and a label of full ash only: no handbook word, but no harmless matter either."""
    if _is_full_ash(label, after_treatment):
        findings.add(
            "not shown",
            say("oil.full_ash", have=tuple(str(have) for have in label.categories)),
            settles=say("oil.settle_handbook_category"),
        )


def _note_fuel(findings: Findings, label: Label, fuel: str) -> None:
    lines = {categories()[have.key].line for have in label.categories if have.body == "API"}
    if fuel == "diesel" and lines == {"petrol"}:
        findings.add(
            "not shown",
            say("oil.petrol_only", have=tuple(str(have) for have in label.categories)),
            settles=say("oil.settle_handbook_category"),
        )


def _note_mixing(findings: Findings, label: Label, in_engine: Label | None) -> None:
    if in_engine is None:
        findings.note(say("oil.in_engine_not_known"))
        return
    same_grade = in_engine.grade == label.grade
    shared = {have.key for have in in_engine.categories} & {have.key for have in label.categories}
    if same_grade and shared:
        findings.note(say("oil.mix_alike"))
    else:
        findings.note(say("oil.mix_differs", have=label.text, inside=in_engine.text))

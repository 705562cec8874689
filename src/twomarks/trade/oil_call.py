"""What the handbook asks of an oil, and whether the label shows it: grade, category, approval."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.errors import InputError
from twomarks.trade.categories import Cover, covers, has_particle_filter
from twomarks.trade.category_names import Category, parse_category
from twomarks.trade.gear_grades import GearOilGrade, parse_gear_grade
from twomarks.trade.grades import EngineOilGrade, parse_grade
from twomarks.trade.label import Label, approval_key, same_approval
from twomarks.trade.label_marks import RESOURCE_CONSERVING
from twomarks.trade.oil_findings import Findings
from twomarks.words import Message, Value, say

__all__ = [
    "CallBlock",
    "OilCall",
    "Surroundings",
    "judge_approval",
    "judge_category",
    "judge_fluid",
    "judge_grade",
    "note_exhaust_and_fuel",
]

NO_OIL = ("brake fluid", "coolant", "automatic gearbox fluid", "two-stroke oil")
API = "API"
MATCHED = {"SN": "GF-5", "SP": "GF-6A", "SQ": "GF-7A"}
"""What a petrol category with "resource conserving" matches, in the grades that are not SAE 16 or thinner."""
THINNEST = ("8", "12", "16")


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

    @property
    def known_categories(self) -> tuple[Category, ...]:
        """Those of the categories asked for that are known here."""
        return tuple(category for text in self.categories or () if (category := _category(text)) is not None)


@dataclass(frozen=True, slots=True)
class OilCall:
    """What the handbook asks for: any one of the blocks may be met. No block: nobody has looked."""

    blocks: tuple[CallBlock, ...] = ()


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What else an oil's category has to suit: the fuel, its sulphur [ppm], and what cleans the exhaust."""

    fuel: str = ""
    fuel_sulphur_ppm: float | None = None
    after_treatment: tuple[str, ...] = ()

    @property
    def has_filter(self) -> bool:
        """Whether there is a particle filter."""
        return has_particle_filter(self.after_treatment)


def _category(text: str) -> Category | None:
    try:
        return parse_category(text)
    except InputError:
        return None


def _asked_grade(text: str) -> EngineOilGrade | GearOilGrade | None:
    for parse in (parse_grade, parse_gear_grade):
        try:
            return parse(text)
        except InputError:
            continue
    return None


def judge_fluid(findings: Findings, label: Label) -> None:
    """Add that a label is of no oil at all, where it is.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    label : Label
        The label as understood.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    if label.fluid in NO_OIL:
        findings.add("does not meet", say(f"oil.is_{label.fluid.replace(' ', '_').replace('-', '_')}", have=label.text))


def judge_grade(findings: Findings, block: CallBlock, label: Label) -> None:
    """Add whether the grade on the label is one that the handbook allows.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    block : CallBlock
        One entry of the handbook.
    label : Label
        The label as understood.

    Notes
    -----
    A grade is listed or it is not: a thinner or thicker one is no substitute. Departs from the sources: none.

    References
    ----------
    sae_j300, sae_j306
    """
    have = label.grade
    if block.grades is None:
        findings.add("not shown", say("oil.grade_not_looked"), settles=(say("oil.settle_handbook_grade"),))
    elif have is None:
        findings.add("not shown", say("oil.grade_not_on_label"), settles=(say("oil.settle_label_grade"),))
    elif not block.grades:
        findings.note(say("oil.grade_not_asked", have=str(have)))
    elif have in [_asked_grade(text) for text in block.grades]:
        findings.add("meets", say("oil.grade_listed", have=str(have)))
    elif any(_asked_grade(text) is None for text in block.grades):
        unknown = say("oil.grade_asked_unknown", have=str(have), asked=block.grades)
        findings.add("not shown", unknown, settles=(say("oil.settle_handbook_grade"),))
    else:
        findings.grade_missed = True
        findings.add("does not meet", say("oil.grade_not_listed", have=str(have), asked=block.grades))


def judge_category(findings: Findings, block: CallBlock, label: Label, around: Surroundings) -> None:
    """Add whether a category on the label serves for one that the handbook asks for.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    block : CallBlock
        One entry of the handbook.
    label : Label
        The label as understood.
    around : Surroundings
        Fuel and exhaust.

    Notes
    -----
    Excluded is what every related category on the label excludes; one of another line says nothing. Departs from the sources:
    none.

    References
    ----------
    api_guide, api_guide_2009, acea_update_rule, acea_limits
    """
    if not block.categories:
        if block.categories is None:
            findings.add("not shown", say("oil.category_not_looked"), settles=(say("oil.settle_handbook_category"),))
        else:
            findings.note(say("oil.category_not_asked"))
        note_exhaust_and_fuel(findings, label, around)
        return
    asked = block.known_categories
    unknown = tuple(text for text in block.categories if _category(text) is None)
    pairs = [(_cover(have, wanted, around), have, wanted) for wanted in asked for have in (*label.categories, *_matched(label))]
    yes = next((pair for pair in pairs if pair[0].covered == "yes"), None)
    if yes is not None:
        cover, have, wanted = yes
        if have not in label.categories:
            findings.note(say("oil.matches_ilsac", have=str(have)), sources=("api_guide",))
        findings.add("meets", say("oil.category_met", have=str(have), asked=str(wanted), steps=cover.steps), sources=cover.sources)
        for caution in cover.cautions:
            findings.note(caution, sources=cover.sources)
        if _is_full_ash(label, around):
            findings.note(say("oil.full_ash_allowed", have=_named(label)), sources=_ash_sources(label))
        elif _is_ash_open(label, around):
            findings.note(say("oil.ash_not_limited", have=_named(label)))
        return
    settles = (say("oil.settle_label_category", asked=block.categories),)
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


def _cover(have: Category, wanted: Category, around: Surroundings) -> Cover:
    return covers(str(have), str(wanted), fuel_sulphur_ppm=around.fuel_sulphur_ppm)


def _matched(label: Label) -> tuple[Category, ...]:
    """Return the ILSAC standards that petrol categories with "resource conserving" on a label match."""
    thin = not isinstance(label.grade, EngineOilGrade) or label.grade.hot in THINNEST
    if thin or RESOURCE_CONSERVING not in label.marks:
        return ()
    names = [MATCHED[category.name] for category in label.categories if category.body == API and category.name in MATCHED]
    return tuple(Category("ILSAC", name) for name in names)


def _named(label: Label) -> tuple[str, ...]:
    return tuple(str(category) for category in label.categories)


def _names(claim: str, wanted: str) -> bool:
    return approval_key(wanted.rsplit(maxsplit=1)[-1]) in approval_key(claim)


def _category_missed(
    findings: Findings,
    pairs: list[tuple[Cover, Category, Category]],
    asked: tuple[Category, ...],
    label: Label,
    settles: tuple[Message, ...],
    *,
    excludable: bool,
) -> None:
    excluded = excludable
    for wanted in {wanted for _, _, wanted in pairs}:
        related = [cover for cover, have, other in pairs if other == wanted and _are_related(have, wanted)]
        excluded = excluded and bool(related) and all(cover.covered == "no" for cover in related)
    telling = [cover for cover, have, wanted in pairs if _are_related(have, wanted)] or [cover for cover, _, _ in pairs]
    steps = tuple(dict.fromkeys(step for cover in telling for step in (*cover.steps, *cover.cautions)))
    figures: dict[str, Value] = {"have": _named(label), "asked": tuple(str(category) for category in asked), "steps": steps}
    sources = tuple(dict.fromkeys(source for cover in telling for source in cover.sources))
    if excluded:
        findings.add("does not meet", say("oil.category_excluded", **figures), sources=sources)
    else:
        findings.add("not shown", say("oil.category_not_shown", **figures), settles=settles, sources=sources)


def _are_related(have: Category, wanted: Category) -> bool:
    return have.body == wanted.body and have.row.line.split()[0] == wanted.row.line.split()[0]


def judge_approval(findings: Findings, block: CallBlock, label: Label) -> None:
    """Add whether an approval that the handbook asks for stands on the label.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    block : CallBlock
        One entry of the handbook.
    label : Label
        The label as understood.

    Notes
    -----
    Compared as text; what the seller claims is no approval, and an approval that is missing is never more than ``not shown``.
    Departs from the sources: none.

    References
    ----------
    house_judgement
    """
    if block.approvals is None:
        findings.add("not shown", say("oil.approval_not_looked"), settles=(say("oil.settle_handbook_approval"),))
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
        reason = say("oil.approval_not_on_label", asked=block.approvals, shown=label.approvals or None)
    findings.add("not shown", reason, settles=(say("oil.settle_label_approval", asked=block.approvals),))


def _is_full_ash(label: Label, around: Surroundings) -> bool:
    ash = {category.row.saps for category in label.categories}
    return around.has_filter and "full" in ash and not {"mid", "low"} & ash


def _is_ash_open(label: Label, around: Surroundings) -> bool:
    """Return whether there is a filter and the label shows only diesel categories of which no limit of ash was seen."""
    rows = [category.row for category in label.categories]
    return around.has_filter and bool(rows) and all(row.line == "diesel" and row.ash_max_percent is None for row in rows)


def _ash_sources(label: Label) -> tuple[str, ...]:
    """Return where the limits of ash were read; those that are only remembered have no source."""
    read = [category.row for category in label.categories if category.row.ash_max_percent and category.row.ash_max_percent.status != "c"]
    return tuple(dict.fromkeys(row.seen.source for row in read if row.saps == "full"))


def note_exhaust_and_fuel(findings: Findings, label: Label, around: Surroundings) -> None:
    """Add what the exhaust and the fuel leave open about a label, where the handbook asks for no category.

    Parameters
    ----------
    findings : Findings
        What it is added to.
    label : Label
        The label as understood.
    around : Surroundings
        Fuel and exhaust.

    Notes
    -----
    Full ash before a particle filter, petrol categories alone in a diesel or diesel ones alone in a petrol engine, and a thin
    diesel category that no handbook names: each is ``not shown``. Departs from the sources: none.

    References
    ----------
    acea_limits, api_guide, api_fa4
    """
    settles = (say("oil.settle_handbook_category"),)
    if _is_full_ash(label, around):
        findings.add("not shown", say("oil.full_ash", have=_named(label)), settles=settles, sources=_ash_sources(label))
    elif _is_ash_open(label, around):
        findings.note(say("oil.ash_not_limited", have=_named(label)))
    lines = {category.row.line for category in label.categories if category.body == API}
    thin = tuple(str(category) for category in label.categories if category.row.line == "diesel thin")
    if lines == {"diesel thin"}:
        findings.add("not shown", say("oil.thin_unasked", have=thin), settles=settles, sources=("api_fa4",))
    others = len({category.body for category in label.categories}) > 1
    if around.fuel == "diesel" and lines == {"petrol"} and not others:
        findings.add("not shown", say("oil.petrol_only", have=_named(label)), settles=settles, sources=("api_guide",))
    if around.fuel == "petrol" and lines and lines <= {"diesel", "diesel thin"} and not others:
        findings.add("not shown", say("oil.diesel_only", have=_named(label)), settles=settles, sources=("api_guide",))

"""What a label says, and which service category may be used where another is asked for."""

from __future__ import annotations

from typing import Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.trade.categories import covers
from twomarks.trade.category_dates import claim_cautions
from twomarks.trade.category_names import parse_category
from twomarks.trade.clutch_class import clutch_classes_of
from twomarks.trade.gear_grades import GearOilGrade
from twomarks.trade.label import read_label
from twomarks.words import Message, say

__all__ = ["CALCULATIONS", "EXHAUST"]

EXHAUST = ("none", "dpf", "gpf", "scr", "catalyst")
"""What may clean an exhaust."""

SAID_BY_THE_VERDICT = (["oil.category_step"], ["oil.category_no_step"])
READ_STATUSES = ("a", "a2", "b")
READ_BY = {"grade": "sae_j300", "grade_gear": "sae_j306", "categories": "api_guide"}


def _category(given: Given) -> Reckoned:
    have, asked = parse_category(given.text("have")), parse_category(given.text("asked"))
    cover = covers(
        str(have),
        str(asked),
        fuel_sulphur_ppm=given.optional("sulphur"),
        after_treatment=given.texts("after-treatment"),
    )
    verdict = say(f"reckon_categories.covered_{cover.covered.replace(' ', '_')}", have=str(have), asked=str(asked))
    # One step alone says the same as the verdict, and a source that was seen says itself how it was read.
    steps = () if [step.key for step in cover.steps] in SAID_BY_THE_VERDICT else cover.steps
    how_seen = () if cover.sources and cover.status in READ_STATUSES else (say(f"reckon_categories.status_{cover.status}"),)
    lines = (verdict, *steps, *how_seen)
    settles = tuple(say("reckon_categories.settles", what=what) for what in cover.settles)
    results = {"have": str(have), "asked": str(asked), "covered": cover.covered, "status": cover.status}
    return Reckoned((*lines, *settles), results, cover.sources, (*cover.cautions, *claim_cautions(have, on=given.on)))


def _label(given: Given) -> Reckoned:
    label = read_label(given.text("text"))
    categories = tuple(str(category) for category in label.categories)
    gear = isinstance(label.grade, GearOilGrade)
    told: list[tuple[str, Any]] = [
        ("fluid", label.fluid),
        ("grade_gear" if gear else "grade", str(label.grade) if label.grade else None),
        ("categories", categories),
        ("approvals", label.approvals),
        ("marks", label.marks),
        ("claims", label.claims),
        ("not_understood", label.not_understood),
    ]
    lines: list[Message] = [say(f"reckon_categories.says_{name}", value=value) for name, value in told if value]
    if not lines:
        lines.append(say("reckon_categories.says_nothing"))
    results: dict[str, Any] = {
        "fluid": label.fluid or None,
        "grade": str(label.grade) if label.grade else None,
        "categories": list(categories),
        "approvals": list(label.approvals),
        "marks": list(label.marks),
        "claims": list(label.claims),
        "not_understood": list(label.not_understood),
    }
    cautions = [caution for category in label.categories for caution in claim_cautions(category, on=given.on)]
    if label.claims:
        cautions.append(say("reckon_categories.claims_are_no_approval"))
    sources = tuple(READ_BY[name] for name, value in told if value and name in READ_BY) or ("house_judgement",)
    return Reckoned(tuple(lines), results, sources, tuple(cautions))


def _clutch_class(given: Given) -> Reckoned:
    classes = clutch_classes_of(
        dynamic_friction_index=given.number("dynamic"),
        static_friction_index=given.number("static"),
        stop_time_index=given.number("stop"),
    )
    line = say("reckon_categories.clutch_earned", classes=classes) if classes else say("reckon_categories.clutch_none")
    return Reckoned((line,), {"classes": list(classes)}, ("jaso_t903",))


CALCULATIONS = (
    Calculation(
        "category",
        _category,
        (
            Asked("have", "text", "API CK-4"),
            Asked("asked", "text", "API CI-4"),
            Asked("sulphur", "trace", "10 ppm", needed=False),
            Asked("after-treatment", "choice", needed=False, many=True, choices=EXHAUST),
        ),
    ),
    Calculation(
        "clutch-class",
        _clutch_class,
        (Asked("dynamic", "number", "1.8"), Asked("static", "number", "1.9"), Asked("stop", "number", "1.85")),
    ),
    Calculation("label", _label, (Asked("text", "text", "5W-30, API SP/CK-4"),)),
)

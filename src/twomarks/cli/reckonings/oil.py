"""Whether an oil meets what the handbook asks for, from its label or its data sheet."""

from __future__ import annotations

import re
from typing import Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.cli.reckonings.categories import EXHAUST
from twomarks.trade.label import read_label
from twomarks.trade.oil import CallBlock, OilCall, OilOnOffer, OilVerdict, oil_verdict
from twomarks.trade.oil_findings import Margin
from twomarks.words import say

__all__ = ["CALCULATIONS"]

NONE, NOT_LOOKED = "none", "not looked"


def _oil(given: Given) -> Reckoned:
    label = read_label(given.text("label"))
    verdict = oil_verdict(
        call=_call(given),
        offer=OilOnOffer(
            given.text("name") or label.text,
            label,
            kv40_mm2_s=given.optional("kv40"),
            kv100_mm2_s=given.optional("kv100"),
            hths_mpa_s=given.optional("hths"),
            density15_kg_m3=given.optional("density"),
            ccs_mpa_s=given.optional("ccs"),
            ccs_temp_c=given.optional("ccs-at"),
            mrv_mpa_s=given.optional("mrv"),
            mrv_temp_c=given.optional("mrv-at"),
            ash_percent=given.optional("ash"),
            tbn_mgkoh_g=given.optional("tbn"),
        ),
        fuel=given.text("fuel"),
        fuel_sulphur_ppm=given.optional("sulphur"),
        after_treatment=given.texts("after-treatment"),
        coldest_start_c=given.optional("coldest"),
        coldest_start_low_c=given.optional("coldest-low"),
        hottest_day_c=given.optional("hottest"),
        in_engine=read_label(given.text("in-engine")) if given.has("in-engine") else None,
        in_engine_kv100_mm2_s=given.optional("in-engine-kv100"),
        stays_l=given.optional("stays"),
        fill_l=given.optional("fill"),
    )
    lines = [verdict.sentence, *(reason for reason in verdict.reasons if reason not in verdict.sentence.figures.values())]
    lines += [say("reckon_oil.settles", what=what) for what in verdict.settles]
    lines += [
        say("reckon_oil.margin" if rank else "reckon_oil.margin_closest", margin=margin.message)
        for rank, margin in enumerate(verdict.margins)
        if margin.message not in verdict.sentence.figures.values()
    ]
    if label.not_understood:
        lines.append(say("reckon_oil.not_understood", words=label.not_understood))
    cautions = (say("reckon_oil.handbook_wins"),)
    return Reckoned(
        tuple(lines), _results(verdict), verdict.sources or ("house_judgement",), cautions, 0 if verdict.state == "meets" else 1
    )


def _call(given: Given) -> OilCall:
    asked = {name: _asked(given.texts(name)) for name in ("grades", "categories", "approvals")}
    coldest, hottest = given.optional("handbook-coldest"), given.optional("handbook-hottest")
    if all(one is None for one in (*asked.values(), coldest, hottest)):
        return OilCall()
    return OilCall((CallBlock(**asked, coldest_c=coldest, hottest_c=hottest),))


def _asked(texts: tuple[str, ...]) -> tuple[str, ...] | None:
    """Return what is asked for: () where somebody looked and it is none, None where nobody looked."""
    words = tuple(word for text in texts for part in re.split(r"[,;]", text) if (word := part.strip()))
    if {word.casefold() for word in words} == {NONE}:
        return ()
    if not words or NOT_LOOKED in {word.casefold() for word in words}:
        return None
    return words


def _results(verdict: OilVerdict) -> dict[str, Any]:
    mixture = verdict.mixture
    return {
        "verdict": verdict.state,
        "reasons": [
            {"reason": reason.message.key.partition(".")[2], "comes_to": reason.state or None, "sources": ", ".join(reason.sources) or None}
            for reason in verdict.told
        ],
        "margins": [_row(margin) for margin in verdict.margins],
        "share_of_old_oil": mixture.share if mixture else None,
        "mixture_kv100_low_mm2_s": mixture.kv100_low_mm2_s if mixture else None,
        "mixture_kv100_high_mm2_s": mixture.kv100_high_mm2_s if mixture else None,
        "mixture_grades": list(mixture.hot_grades) if mixture else None,
    }


def _row(margin: Margin) -> dict[str, Any]:
    return {
        "margin_of": margin.name,
        "found": margin.found,
        "limit": margin.limit,
        "unit": margin.unit,
        "margin": margin.margin,
        "relative": margin.relative,
        "source": margin.source or None,
    }


CALCULATIONS = (
    Calculation(
        "oil",
        _oil,
        (
            Asked("label", "text", "0W-30, ACEA C3-21"),
            Asked("name", "text", "lowmoor", needed=False),
            Asked("grades", "text", "0W-30, 5W-30", default=NOT_LOOKED, many=True),
            Asked("categories", "text", "ACEA C3", default=NOT_LOOKED, many=True),
            Asked("approvals", "text", "EX 229-5", default=NOT_LOOKED, many=True),
            Asked("handbook-coldest", "temperature", "-30 C", needed=False),
            Asked("handbook-hottest", "temperature", "40 C", needed=False),
            Asked("coldest", "temperature", "-20 C", needed=False),
            Asked("coldest-low", "temperature", "-23 C", needed=False),
            Asked("hottest", "temperature", "35 C", needed=False),
            Asked("fuel", "choice", needed=False, choices=("petrol", "diesel", "lpg", "hybrid")),
            Asked("sulphur", "trace", "10 ppm", needed=False),
            Asked("after-treatment", "choice", needed=False, many=True, choices=EXHAUST),
            Asked("kv40", "kinematic viscosity", "63.8 mm2/s", needed=False),
            Asked("kv100", "kinematic viscosity", "12.0 mm2/s", needed=False),
            Asked("density", "density", "843 kg/m3", needed=False),
            Asked("hths", "dynamic viscosity", "3.5 mPa.s", needed=False),
            Asked("ccs", "dynamic viscosity", "5800 mPa.s", needed=False),
            Asked("ccs-at", "temperature", "-35 C", needed=False),
            Asked("mrv", "dynamic viscosity", "28000 mPa.s", needed=False),
            Asked("mrv-at", "temperature", "-40 C", needed=False),
            Asked("ash", "share", "0.78 %", needed=False),
            Asked("tbn", "base number", "8.1 mg KOH/g", needed=False),
            Asked("in-engine", "text", "SAE 5W-30, ACEA C3", needed=False),
            Asked("in-engine-kv100", "kinematic viscosity", "10.8 mm2/s", needed=False),
            Asked("stays", "volume", "0.4 L", needed=False),
            Asked("fill", "volume", "4.3 L", needed=False),
        ),
        example=("label=5W-30, ACEA C3", "grades=5W-30", "categories=ACEA C3", "approvals=none", "coldest=-20 C"),
    ),
)

"""Viscosity grades of engine and gear oil: what measured figures earn, and what a grade asks for."""

from __future__ import annotations

from typing import Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import InputError
from twomarks.reference.tables import gear_grades
from twomarks.trade.gear_grades import gear_limits_before_2005, gear_limits_of, parse_gear_grade
from twomarks.trade.gear_grading import gear_grades_of, gear_limits_in
from twomarks.trade.grade_limits import Limit, LimitMiss, Measure, misses
from twomarks.trade.grades import limits_of, lowest_cranking_c, lowest_pumping_c, parse_grade
from twomarks.trade.grading import grades_of, hot_bands_of, limits_in, misses_of
from twomarks.words import Figure, Message, say

__all__ = ["CALCULATIONS"]

ENGINE, GEAR = "engine", "gear"
ONLY_ENGINE, ONLY_GEAR = ("hths", "ccs", "ccs-at", "mrv", "mrv-at"), ("cold",)


def _grade(given: Given) -> Reckoned:
    """Answer with the grade that measured figures earn, and with every limit of an asked grade that they fail."""
    gear = given.text("of") == GEAR
    for key in ONLY_ENGINE if gear else ONLY_GEAR:
        if given.has(key):
            raise InputError("reckon_grades.other_kind", where=key, found=given.text("of"))
    return _gear_grade(given) if gear else _engine_grade(given)


def _engine_grade(given: Given) -> Reckoned:
    kv100, hths = given.number("kv100"), given.optional("hths")
    ccs, mrv = _by_temperature(given, "ccs"), _by_temperature(given, "mrv")
    found = grades_of(kv100_mm2_s=kv100, hths_mpa_s=hths, ccs_mpa_s=ccs, mrv_mpa_s=mrv)
    asked = given.text("grade")
    failed: tuple[LimitMiss, ...]
    if asked:
        failed = misses_of(asked, kv100_mm2_s=kv100, hths_mpa_s=hths, ccs_mpa_s=ccs, mrv_mpa_s=mrv)
        lines = _verdict(str(parse_grade(asked)), failed)
    else:
        lines, failed = [], _telling(found.missed, found.winter, _near(kv100))
    grade = found.grade
    missing = tuple(say(f"grade.quantity_{name}") for name in found.not_measured)
    shown = not {"hths" if found.hot else "", "mrv" if found.winter else ""} & set(found.not_measured)
    key = "none" if grade is None else "earned" if shown else "earned_as_far"
    lines.append(say(f"reckon_grades.{key}", grade=str(grade), kv=given.figure("kv100")))
    lines += [miss.said for miss in failed]
    cautions = [say("reckon_grades.not_measured", missing=missing)] if missing else []
    if mrv:
        cautions.append(say("reckon_grades.yield_stress"))
    results: dict[str, Any] = {
        "grade": str(grade) if grade else None,
        "winter": found.winter or None,
        "hot": found.hot or None,
        "failed": [_row(miss) for miss in (failed if asked else found.missed)],
        "not_measured": list(found.not_measured),
    }
    if asked:
        results |= {"asked": str(parse_grade(asked)), "kept": not failed}
    sources = ("sae_j300", "sae_j300_2013", "sae_j300_1999", "sae_j300_marking")
    return Reckoned(tuple(lines), results, sources, tuple(cautions))


def _gear_grade(given: Given) -> Reckoned:
    kv100, cold = given.number("kv100"), given.optional("cold")
    found = gear_grades_of(kv100_mm2_s=kv100, bf150_temp_c=cold)
    asked = given.text("grade")
    lines: list[Message] = []
    failed = _telling(found.missed, found.winter, _gear_near(kv100))
    if asked:
        wanted = [limit for row in gear_limits_of(asked) for limit in gear_limits_in(row)]
        measured: dict[tuple[Measure, float | None], float] = {("kv100", None): kv100}
        if cold is not None:
            measured["bf150", None] = cold
        failed = misses(wanted, measured)
        lines = _verdict(str(parse_gear_grade(asked)), failed)
    grade = found.grade
    lines.append(say("reckon_grades.earned_gear" if grade else "reckon_grades.none_gear", grade=str(grade), kv=given.figure("kv100")))
    lines += [miss.said for miss in failed]
    if found.hot_before_2005 and found.hot_before_2005 != found.hot:
        lines.append(say("reckon_grades.once_called", old=found.hot_before_2005, now=found.hot))
    missing = tuple(say(f"grade.quantity_{name}") for name in found.not_measured)
    cautions = [*([say("reckon_grades.not_measured", missing=missing)] if missing else []), say("reckon_grades.edition_2025")]
    results: dict[str, Any] = {
        "grade": str(grade) if grade else None,
        "winter": found.winter or None,
        "hot": found.hot or None,
        "hot_before_2005": found.hot_before_2005 or None,
        "failed": [_row(miss) for miss in (failed if asked else found.missed)],
        "not_measured": list(found.not_measured),
    }
    if asked:
        results |= {"asked": str(parse_gear_grade(asked)), "kept": not failed}
    return Reckoned(tuple(lines), results, ("sae_j306", "sae_j306_2005"), tuple(cautions))


def _verdict(grade: str, failed: tuple[LimitMiss, ...]) -> list[Message]:
    return [say("reckon_grades.not_kept" if failed else "reckon_grades.kept", grade=grade)]


def _telling(missed: tuple[LimitMiss, ...], winter: str, near: tuple[str, ...]) -> tuple[LimitMiss, ...]:
    """Return the misses that tell why no better grade was earned: colder W grades that were tested, hot grades that are near."""
    cold = {miss.grade for miss in missed if miss.quantity in ("ccs", "mrv", "bf150")}
    return tuple(miss for miss in missed if miss.grade in near or (miss.grade in cold and miss.grade != winter))


def _near(kv100: float) -> tuple[str, ...]:
    return hot_bands_of(kv100_mm2_s=kv100) or ("8", "60")


def _gear_near(kv100: float) -> tuple[str, ...]:
    inside = (row.grade for row in gear_grades() if row.bf150_temp_c is None and not misses(gear_limits_in(row), {("kv100", None): kv100}))
    return tuple(inside) or ("65",)


def _by_temperature(given: Given, key: str) -> dict[float, float]:
    """Return the figures under `key` by the temperatures that go with them, in the order given."""
    figures, temperatures = given.numbers(key), given.numbers(f"{key}-at")
    if len(figures) != len(temperatures) or len(set(temperatures)) != len(temperatures):
        raise InputError("reckon_grades.temperatures", where=key, found=len(temperatures), expected=len(figures), example=f"{key}-at")
    return dict(zip((round(temp_c, 6) for temp_c in temperatures), figures, strict=True))


def _row(miss: LimitMiss) -> dict[str, Any]:
    return {
        "grade": miss.grade,
        "quantity": miss.quantity,
        "temp_c": miss.temp_c,
        "found": miss.found,
        "bound": miss.bound,
        "limit": miss.limit,
        "unit": miss.unit,
    }


def _limits(given: Given) -> Reckoned:
    """Answer with the limits of an engine or gear oil grade; the two scales have no name in common."""
    text = given.text("grade")
    try:
        asked = parse_grade(text)
    except InputError as no_engine_grade:
        try:
            return _gear_limits(text)
        except InputError:
            raise no_engine_grade from None
    rows = limits_of(text)
    limits = [limit for row in rows for limit in limits_in(row)]
    lines = [say("reckon_grades.limits", grade=str(asked)), *_said(limits)]
    results: dict[str, Any] = {"grade": str(asked), "scale": ENGINE, "limits": _limit_rows(limits)}
    if asked.winter:
        cranking_c, pumping_c = lowest_cranking_c(asked.winter), lowest_pumping_c(asked.winter)
        lines.append(say("reckon_grades.tested", winter=asked.winter, cranking=Figure(cranking_c, "C"), pumping=Figure(pumping_c, "C")))
        results |= {"cranking_test_c": cranking_c, "pumping_test_c": pumping_c}
    cautions = (say("reckon_grades.handbook"),) if asked.winter else ()
    return Reckoned(tuple(lines), results, tuple(dict.fromkeys(row.seen.source for row in rows)), cautions)


def _gear_limits(text: str) -> Reckoned:
    asked, rows = parse_gear_grade(text), gear_limits_of(text)
    limits = [limit for row in rows for limit in gear_limits_in(row)]
    lines = [say("reckon_grades.limits_gear", grade=str(asked)), *_said(limits)]
    results: dict[str, Any] = {"grade": str(asked), "scale": GEAR, "limits": _limit_rows(limits)}
    sources = [row.seen.source for row in rows]
    old = gear_limits_before_2005(asked.hot) if asked.hot else None
    if old is not None:
        lines.append(
            say(
                "reckon_grades.before_2005",
                grade=old.grade,
                low=Figure(old.kv100_min_mm2_s, "mm2/s"),
                high=None if old.kv100_max_mm2_s is None else Figure(old.kv100_max_mm2_s, "mm2/s"),
            )
        )
        results |= {"before_2005_low_mm2_s": old.kv100_min_mm2_s, "before_2005_high_mm2_s": old.kv100_max_mm2_s}
        sources.append(old.seen.source)
    return Reckoned(tuple(lines), results, tuple(dict.fromkeys(sources)), (say("reckon_grades.edition_2025"),))


def _said(limits: list[Limit]) -> list[Message]:
    return [say("reckon_grades.limit_of", grade=limit.grade, limit=limit.said) for limit in limits]


def _limit_rows(limits: list[Limit]) -> list[dict[str, Any]]:
    return [
        {
            "grade": limit.grade,
            "quantity": limit.quantity,
            "temp_c": limit.temp_c,
            "bound": limit.bound,
            "limit": limit.figure,
            "unit": limit.unit,
        }
        for limit in limits
    ]


CALCULATIONS = (
    Calculation(
        "grade",
        _grade,
        (
            Asked("kv100", "kinematic viscosity", "11.9 mm2/s"),
            Asked("hths", "dynamic viscosity", "3.5 mPa.s", needed=False),
            Asked("ccs", "dynamic viscosity", "6200 mPa.s", needed=False, many=True),
            Asked("ccs-at", "temperature", "-30 C", needed=False, many=True),
            Asked("mrv", "dynamic viscosity", "25000 mPa.s", needed=False, many=True),
            Asked("mrv-at", "temperature", "-35 C", needed=False, many=True),
            Asked("cold", "temperature", "-42 C", needed=False),
            Asked("grade", "text", "5W-30", needed=False),
            Asked("of", "choice", default=ENGINE, needed=False, choices=(ENGINE, GEAR)),
        ),
        example=("kv100=11.9 mm2/s", "hths=3.5 mPa.s", "ccs=6200 mPa.s", "ccs-at=-30 C", "mrv=25000 mPa.s", "mrv-at=-35 C"),
    ),
    Calculation("grade-limits", _limits, (Asked("grade", "text", "5W-30"),)),
)

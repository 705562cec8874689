"""The stick: how much to pour first, what to add for a reading, what a reading stands for, and how much oil is used."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.cli.reckonings.stick_place import fraction_of, parted
from twomarks.errors import InputError
from twomarks.trade.source_spread import KINDS_OF_SOURCE, sigma_of_source
from twomarks.words import Figure, Message, Value, say

if TYPE_CHECKING:
    from twomarks.trade.add_table import AddRow, AddTable, StickFacts
    from twomarks.trade.level import Reading, Stick
    from twomarks.trade.pour import PourPlan

__all__ = ["CALCULATIONS"]

PRACTICE = ("level_practice", "house_judgement")
LEVEL_SOURCES = (*PRACTICE, "api_mpms_11_1")
SOURCE_OF_REFILL = Asked("source", "choice", default="memory", choices=KINDS_OF_SOURCE)
READ_HOW = (
    Asked("settle", "duration", "8 min", needed=False),
    Asked("read", "choice", needed=False, choices=("warm", "cold")),
    Asked("lower-zone", "share", "50 %", needed=False),
    Asked("no-start-from", "share", "125 %", needed=False),
)
PER_CENT = 100.0
ML_PER_L = 1000.0
USUAL_L_PER_1000KM, CAUSE_L_PER_1000KM = 0.5, 1.0
"""Popular pages: 0.1 to 0.5 is normal, above 0.5 to 1.0 look for a cause; common practice, no source."""


def _facts(given: Given) -> StickFacts:
    from twomarks.trade.add_table import StickFacts

    return StickFacts(
        settle_min=given.optional("settle"),
        warm=given.text("read") == "warm" if given.has("read") else None,
        lower_zone=_share(given, "lower-zone"),
        no_start_from=_share(given, "no-start-from"),
    )


def _share(given: Given, key: str) -> float | None:
    return given.number(key) / PER_CENT if given.has(key) else None


def _first_pour(given: Given) -> Reckoned:
    """Answer with the pour plan; without a refill volume by what was measured out, or by the stick."""
    from twomarks.trade.fills import refill_for
    from twomarks.trade.pour import first_pour, pour_without_capacity

    fills = {"with_filter_l": "refill-with-filter", "without_filter_l": "refill-without-filter", "dry_l": "dry-fill"}
    known = {name: given.number(key) for name, key in fills.items() if given.has(key)}
    span_l, stick = given.optional("between-marks"), _facts(given)
    is_new, is_dry = bool(given.flag("new-filter")), bool(given.flag("dry-engine"))
    filter_l = given.optional("filter") if is_new or is_dry else 0.0
    if not known:
        plan = pour_without_capacity(measured_out_l=given.optional("measured-out"), between_marks_l=span_l, filter_l=filter_l, stick=stick)
    else:
        refill_l = refill_for(filter_is_new=is_new, engine_is_dry=is_dry, **known)
        sigma_l = given.number("uncertainty") if given.has("uncertainty") else sigma_of_source(given.text("source"), volume_l=refill_l)
        more = {"residue_sigma_l": 0.0} if is_dry else {}
        plan = first_pour(
            refill_l=refill_l,
            between_marks_l=span_l,
            refill_sigma_l=sigma_l,
            filter_l=filter_l,
            p_over=given.number("chance-over") / PER_CENT,
            p_short=given.number("chance-short") / PER_CENT,
            stick=stick,
            **more,
        )
    return Reckoned(
        (*(pour.what for pour in plan.pours), *plan.reasons, *_table_lines(plan, is_filter_empty=filter_l != 0.0)),
        _plan_results(plan),
        (*PRACTICE, "normal_distribution"),
        (say("reckon_level.handbook"),),
    )


def _table_lines(plan: PourPlan, *, is_filter_empty: bool) -> list[Message]:
    tables = (plan.before_table if plan.needs_reading_before_start else None, plan.after_table)
    return [line for table in tables if table is not None for line in _rows_said(table, is_filter_empty=is_filter_empty)]


def _plan_results(plan: PourPlan) -> dict[str, Any]:
    return {
        "kind": plan.kind,
        "first_l": plan.first_l,
        "least_l": plan.least_l,
        "most_l": plan.most_l,
        "sigma_l": plan.sigma_l,
        "chance_over_percent": _percent(plan.chance_over),
        "chance_short_percent": _percent(plan.chance_short),
        "needs_reading_before_start": plan.needs_reading_before_start,
        "before_start": _rows(plan.before_start),
        "after_run": _rows(plan.after_run),
    }


def _percent(share: float | None) -> float | None:
    return None if share is None else PER_CENT * share


def _rows(rows: Sequence[AddRow]) -> list[dict[str, Any]]:
    return [{"reading_percent": PER_CENT * row.reading_fraction, "add_l": row.add_l, "start": row.start, "then": row.then} for row in rows]


def _rows_said(table: AddTable, *, is_filter_empty: bool = True) -> list[Message]:
    if table.when == "before the start":
        heading = "reckon_level.table_before" if is_filter_empty else "reckon_level.table_before_filter_full"
    else:
        heading = "reckon_level.table_after"
    return [say(heading, span=table.span), *map(_row_said, table)]


def _row_said(row: AddRow) -> Message:
    figures: dict[str, Value] = {"reading": Figure(PER_CENT * row.reading_fraction, "%"), "volume": Figure(abs(row.add_l), "L")}
    what = "out" if row.add_l < 0 else "add" if row.add_l > 0 else "nothing"
    again = say("reckon_level.read_again") if row.then == "read again" else None
    no_start = None if row.start else say("reckon_level.no_start")
    return say(f"reckon_level.row_{what}", again=again, no_start=no_start, **figures)


def _add_table(given: Given) -> Reckoned:
    """Answer with what to add or take out for each reading, or for the one asked for."""
    from twomarks.trade.add_table import add_table, table_before_start

    facts, span_l = _facts(given), given.optional("between-marks")
    if given.text("when") == "after":
        table = add_table(
            between_marks_l=span_l,
            no_start_from=facts.no_start_from,
            lower_zone=facts.lower_zone,
            settle_min=facts.settle_min,
            warm=facts.warm,
        )
    elif span_l is None:
        raise InputError("reckon_level.before_needs_span", where="between-marks", example="between-marks=1.1 L")
    else:
        table = table_before_start(between_marks_l=span_l, filter_l=given.optional("filter"), stick=facts)
    lines = [table.valid_for, *_rows_said(table), *table.notes]
    rows = table.rows
    if given.has("reading"):
        at = fraction_of("reading", given.text("reading"))
        rows = (next((one for one in table if one.reading_fraction >= at - 1e-9), table[-1]),)
        lines = [table.valid_for, _row_said(rows[0]), *table.notes]
        if abs(rows[0].reading_fraction - at) > 1e-9:
            lines.insert(1, _taken_as(at, rows[0]))
        if at < 0.0:
            lines.insert(1, say("reckon_level.below"))
    results = {
        "between_marks_l": float(table.span.value),
        "between_marks_is_default": span_l is None,
        "no_start_from_percent": PER_CENT * table.no_start_from,
        "no_start_is_default": facts.no_start_from is None,
        "rows": _rows(rows),
    }
    return Reckoned(tuple(lines), results, ("level_practice", "common_practice"), (say("reckon_level.handbook"),))


def _taken_as(at: float, row: AddRow) -> Message:
    """Return that a reading between two rows, or beyond the last, is answered by one of them."""
    key = "reckon_level.taken_as" if at < row.reading_fraction else "reckon_level.taken_as_last"
    return say(key, reading=Figure(PER_CENT * at, "%"), row=Figure(PER_CENT * row.reading_fraction, "%"))


def _stick(given: Given) -> Stick:
    from twomarks.trade.level import Stick

    return Stick(
        full_l=given.number("full"),
        between_marks_l=given.number("between-marks"),
        marks_temp_c=given.number("marks-temp"),
        density15_kg_m3=given.number("density"),
        marks_apart_mm=given.optional("marks-apart"),
        off_middle_mm=given.optional("off-middle"),
    )


def _reading(given: Given, fraction: float) -> Reading:
    from twomarks.trade.level import Reading

    return Reading(
        fraction=fraction,
        oil_temp_c=given.number("temp"),
        minutes_min=given.number("since-stop"),
        slope_deg=given.number("slope"),
        upstairs_l=given.number("upstairs"),
        tau_min=given.number("runs-down-in"),
    )


def _level(given: Given) -> Reckoned:
    """Answer with the litres that a reading stands for, or with the reading of so many litres."""
    from twomarks.trade.level import level_volume, reading_of

    stick = _stick(given)
    cautions = (say("reckon_level.model"), say("reckon_level.handbook"))
    if given.has("reading") == given.has("volume"):
        raise InputError("reckon_level.either", where="level", example="reading=3/4")
    if given.has("volume"):
        fraction = reading_of(stick, _reading(given, 0.0), volume_l=given.number("volume"))
        line = say("reckon_level.stands", volume=given.figure("volume"), reading=Figure(PER_CENT * fraction, "%"))
        return Reckoned((line,), {"reading_percent": PER_CENT * fraction}, LEVEL_SOURCES, cautions)
    span_sigma_l, at = sigma_of_source(given.text("source"), volume_l=stick.between_marks_l), fraction_of("reading", given.text("reading"))
    found = level_volume(stick, _reading(given, at), span_sigma_l=span_sigma_l)
    figures: dict[str, Value] = {
        "reading": Figure(PER_CENT * at, "%"),
        "volume": Figure(found.volume_l, "L"),
        "sigma": Figure(found.sigma_l, "L"),
        "missing": Figure(abs(found.missing_l), "L"),
    }
    lines = [say("reckon_level.holds" if found.missing_l >= 0.0 else "reckon_level.holds_too_much", **figures)]
    lines += [
        say(
            f"reckon_level.part_{part.name}",
            correction=_signed_ml(part.correction_l) if _shows(part.correction_l) else None,
            sigma=units.written(ML_PER_L * part.sigma_l, unit="mL"),
        )
        for part in found.parts
        if _shows(part.sigma_l) or _shows(part.correction_l)
    ]
    parts = [{"part": part.name, "correction_l": part.correction_l, "sigma_l": part.sigma_l} for part in found.parts]
    results = {"volume_l": found.volume_l, "sigma_l": found.sigma_l, "missing_l": found.missing_l, "parts": parts}
    return Reckoned(tuple(lines), results, LEVEL_SOURCES, cautions)


def _shows(volume_l: float) -> bool:
    """Return whether a volume is anything in whole millilitres."""
    return abs(ML_PER_L * volume_l) >= 0.5


def _signed_ml(volume_l: float) -> str:
    sign = "+" if volume_l > 0.0 else ""
    return sign + units.written(ML_PER_L * volume_l, unit="mL")


def _oil_use(given: Given) -> Reckoned:
    """Answer with the oil used for each thousand kilometres, and whether the level rose."""
    from twomarks.trade.oil_use import LevelCheck, TopUp, oil_use

    full_l, span_l = given.number("full"), given.number("between-marks")
    sigma_l = given.number("reading-error") if given.has("reading-error") else 0.1 * span_l
    checks = []
    for text in given.texts("check"):
        distance_km, at = _split(given, "check", text)
        checks.append(LevelCheck(distance_km, full_l - (1.0 - fraction_of("check", at)) * span_l, sigma_l))
    top_ups = []
    for text in given.texts("top-up"):
        distance_km, amount = _split(given, "top-up", text)
        added = units.quantity(amount, kind="volume", market=given.market, decimal=".", where="top-up")
        top_ups.append(TopUp(distance_km, added.core))
    found = oil_use(checks, top_ups, drift=given.number("drift"))
    lines = [rise.what for rise in found.rises]
    if found.is_creeping:
        lines.append(say("reckon_level.creeping"))
    figures: dict[str, Value] = {"volume": Figure(found.volume_l, "L"), "volume_sigma": Figure(found.volume_sigma_l, "L")}
    if found.use_l_per_1000km is None or found.use_sigma is None:
        lines.append(say("reckon_level.no_use_yet", **figures))
    else:
        use, use_sigma = Figure(found.use_l_per_1000km, "L/1000km"), Figure(found.use_sigma, "L/1000km")
        lines.append(say("reckon_level.use", use=use, sigma=use_sigma, **figures))
        lines.append(_use_judged(found.use_l_per_1000km, found.use_sigma))
    results = {
        "volume_l": found.volume_l,
        "volume_sigma_l": found.volume_sigma_l,
        "use_l_per_1000km": found.use_l_per_1000km,
        "use_sigma_l_per_1000km": found.use_sigma,
        "rose": bool(found.rises),
        "creeping": found.is_creeping,
        "rises": [{"distance_km": rise.distance_km, "rise_l": rise.rise_l, "sigma_l": rise.sigma_l} for rise in found.rises],
        "steps": [
            {
                "distance_km": step.distance_km,
                "volume_l": step.volume_l,
                "volume_sigma_l": step.volume_sigma_l,
                "use_l_per_1000km": step.use_l_per_1000km,
                "use_sigma_l_per_1000km": step.use_sigma,
            }
            for step in found.steps
        ],
    }
    return Reckoned(tuple(lines), results, (*PRACTICE, "common_practice"), (say("reckon_level.same_condition"),))


def _use_judged(use: float, sigma: float) -> Message:
    """Return how the use stands to what popular pages call normal; the maker's figure comes first."""
    limits: dict[str, Value] = {"usual": Figure(USUAL_L_PER_1000KM, "L/1000km"), "cause": Figure(CAUSE_L_PER_1000KM, "L/1000km")}
    if use - sigma > USUAL_L_PER_1000KM:
        return say("reckon_level.use_high", **limits)
    if use + sigma <= USUAL_L_PER_1000KM:
        return say("reckon_level.use_usual", **limits)
    return say("reckon_level.use_open", **limits)


def _split(given: Given, key: str, text: str) -> tuple[float, str]:
    """Return the distance [km] and what stands behind it in text such as "148000 km: 3/4"."""
    distance, rest = parted(text, where=key, example="148000 km: 3/4" if key == "check" else "148900 km: 0.5 L")
    return units.quantity(distance, kind="distance", market=given.market, decimal=".", where=key).core, rest


CALCULATIONS = (
    Calculation(
        "first-pour",
        _first_pour,
        (
            Asked("new-filter", "yes or no", "yes"),
            Asked("refill-with-filter", "volume", "4.3 L", needed=False),
            Asked("refill-without-filter", "volume", "4.0 L", needed=False),
            Asked("dry-fill", "volume", "4.8 L", needed=False),
            Asked("dry-engine", "yes or no", default="no"),
            Asked("measured-out", "volume", "4.1 L", needed=False),
            Asked("between-marks", "volume", "1.1 L", needed=False),
            Asked("filter", "volume", "0.3 L", needed=False),
            SOURCE_OF_REFILL,
            Asked("uncertainty", "volume", "0.1 L", needed=False),
            Asked("chance-over", "share", "1 %", default="1 %"),
            Asked("chance-short", "share", "1 %", default="1 %"),
            *READ_HOW,
        ),
        example=("new-filter=yes", "refill-with-filter=4.3 L", "between-marks=1.1 L", "filter=0.3 L", "source=handbook"),
    ),
    Calculation(
        "add-table",
        _add_table,
        (
            Asked("between-marks", "volume", "1.1 L", needed=False),
            Asked("reading", "text", "1/2", needed=False),
            Asked("when", "choice", default="after", choices=("before", "after")),
            Asked("filter", "volume", "0.3 L", needed=False),
            *READ_HOW,
        ),
        example=("between-marks=1.1 L",),
    ),
    Calculation(
        "level",
        _level,
        (
            Asked("full", "volume", "4.7 L"),
            Asked("between-marks", "volume", "1.1 L"),
            Asked("reading", "text", "3/4", needed=False),
            Asked("volume", "volume", "4.4 L", needed=False),
            Asked("temp", "temperature", "20 C", default="20 C"),
            Asked("marks-temp", "temperature", "20 C", default="20 C"),
            Asked("since-stop", "duration", "10 min", default="600 min"),
            Asked("upstairs", "volume", "0.5 L", default="0.5 L"),
            Asked("runs-down-in", "duration", "3 min", default="3 min"),
            Asked("slope", "angle", "1 deg", default="0 deg"),
            Asked("marks-apart", "length", "25 mm", needed=False),
            Asked("off-middle", "length", "150 mm", needed=False),
            Asked("source", "choice", default="memory", choices=KINDS_OF_SOURCE),
            Asked("density", "density", "860 kg/m3", default="860 kg/m3"),
        ),
        example=("full=4.7 L", "between-marks=1.1 L", "reading=3/4"),
    ),
    Calculation(
        "oil-use",
        _oil_use,
        (
            Asked("full", "volume", "4.7 L"),
            Asked("between-marks", "volume", "1.1 L"),
            Asked("check", "text", "148000 km: 3/4", many=True),
            Asked("top-up", "text", "148900 km: 0.5 L", needed=False, many=True),
            Asked("reading-error", "volume", "0.1 L", needed=False),
            Asked("drift", "number", "0.05", default="0"),
        ),
    ),
)

"""What an owner measures once: the volume between the marks, and how oil runs down."""

from __future__ import annotations

import math

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.cli.reckonings.stick_place import fraction_of, parted
from twomarks.words import Figure, say

__all__ = ["CALCULATIONS"]

PER_CENT = 100.0
NEARLY_SETTLED = 0.05


def _span(given: Given) -> Reckoned:
    """Answer with the volume between the marks and its deviation."""
    from twomarks.trade.arrays import require_within
    from twomarks.trade.calibration import span_measured
    from twomarks.trade.level import STICK_SIGMA

    readings = given.number("readings")
    require_within(readings, quantity="readings", source="level_practice", low=1.0)
    found = span_measured(
        poured_l=given.number("poured"),
        before_fraction=fraction_of("before", given.text("before")),
        after_fraction=fraction_of("after", given.text("after")),
        stick_sigma=STICK_SIGMA / math.sqrt(readings),
    )
    line = say("reckon_calibration.span", span=Figure(found.between_marks_l, "L"), sigma=Figure(found.sigma_l, "L"))
    results = {"between_marks_l": found.between_marks_l, "sigma_l": found.sigma_l}
    return Reckoned((line,), results, ("level_practice",), (say("reckon_calibration.measured"),))


def _run_down(given: Given) -> Reckoned:
    """Answer with what hangs above the sump, how fast it comes down, and the wait that is enough."""
    from twomarks.trade.calibration import run_down

    times_min, fractions = [], []
    for text in (part.strip() for typed in given.texts("at") for part in typed.split(",") if part.strip()):
        time, reading = parted(text, where="at", example="5 min: 1/2")
        times_min.append(units.quantity(time, kind="duration", decimal=".", where="at").core)
        fractions.append(fraction_of("at", reading))
    span_l = given.number("between-marks")
    found = run_down(minutes_min=times_min, fractions=fractions, between_marks_l=span_l)
    wait_min = max(found.tau_min * math.log(found.upstairs_l / (NEARLY_SETTLED * span_l)), 0.0)
    lines = (
        say(
            "reckon_calibration.run_down",
            upstairs=Figure(found.upstairs_l, "L"),
            tau=units.written(found.tau_min, unit="min", decimals=1),
            settled=Figure(PER_CENT * found.settled_fraction, "%"),
        ),
        say("reckon_calibration.wait", wait=Figure(math.ceil(wait_min), "min")),
    )
    results = {
        "upstairs_l": found.upstairs_l,
        "tau_min": found.tau_min,
        "settled_percent": PER_CENT * found.settled_fraction,
        "misfit_l": found.misfit_l,
        "wait_min": wait_min,
    }
    return Reckoned(lines, results, ("level_practice",), (say("reckon_calibration.one_engine"),))


CALCULATIONS = (
    Calculation(
        "span",
        _span,
        (
            Asked("poured", "volume", "0.5 L"),
            Asked("before", "text", "1/4"),
            Asked("after", "text", "3/4"),
            Asked("readings", "number", "3", default="1"),
        ),
    ),
    Calculation(
        "run-down",
        _run_down,
        (Asked("between-marks", "volume", "1.1 L"), Asked("at", "text", "2 min: 0.21, 5 min: 0.36, 20 min: 0.51", many=True)),
    ),
)

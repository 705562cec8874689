"""Volumes of oil: at another temperature, in the pan, and what a drain brings while one waits."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import InputError
from twomarks.trade.source_spread import KINDS_OF_SOURCE, sigma_of_source
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.trade.draining import DrainRow

__all__ = ["CALCULATIONS"]

DENSITY = Asked("density", "density", "860 kg/m3", default="860 kg/m3")
DENSITY_SOURCES = ("common_practice",)
DRAIN_SOURCES = ("sampson_1891", "short_hole_creeping", "orifice_emptying")
TIMES_MIN = (0.0, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0)
MM_TO_M = 1e-3
M3_PER_L = 1e-3
NEARLY_EMPTY = 0.01
"""The share of the first height at which a sump counts as run out; below it drips."""
ML_PER_L = 1000.0
SMALL_L = 1.0
SECONDS_UP_TO_MIN = 10.0


def _density(given: Given) -> tuple[float, Message | None]:
    """Return the density at 15 C [kg/m3], and where it was not given that it is a usual one."""
    value = given.number("density")
    was_typed = any(one.key == "density" and not one.is_default for one in given.typed)
    return value, None if was_typed else say("reckon_volume.usual_density", density=Figure(value, "kg/m3"))


def _volume_at(given: Given) -> Reckoned:
    """Answer with the volume at another temperature, by the factors of both bases."""
    from twomarks.trade.volume import volume_at, volume_correction_factor

    density, usual = _density(given)
    volume_l, from_c, to_c = given.number("volume"), given.number("from"), given.number("to")
    found_l = volume_at(volume_l=volume_l, temp_c=from_c, to_temp_c=to_c, density15_kg_m3=density)
    change = 100.0 * (found_l / volume_l - 1.0) if volume_l > 0.0 else 0.0
    factors = [volume_correction_factor(density15_kg_m3=density, temp_c=temp_c) for temp_c in (from_c, to_c)]
    line = say(
        "reckon_volume.at",
        volume=given.figure("volume"),
        from_temp=given.figure("from"),
        to_temp=given.figure("to"),
        found=Figure(found_l, "L"),
        more=Figure(change, "%") if change >= 0.05 else None,
        less=Figure(-change, "%") if change <= -0.05 else None,
    )
    results = {"volume_l": found_l, "correction_from": factors[0], "correction_to": factors[1], "density15_kg_m3": density}
    return Reckoned((line,), results, ("api_mpms_11_1", *(DENSITY_SOURCES if usual else ())), (usual,) if usual else ())


def _pan_volume(given: Given) -> Reckoned:
    """Answer with the hot volume to expect in the pan, and the room it should have."""
    from twomarks.trade.volume import pan_volume

    density, usual = _density(given)
    refill_l = given.number("refill")
    level, span_l = given.number("level"), given.number("between-marks") if given.has("between-marks") else 0.0
    if level != 1.0 and not given.has("between-marks"):
        raise InputError("reckon_volume.level_needs_span", where="between-marks", example="between-marks=1.1 L")
    found = pan_volume(
        refill_l=refill_l,
        refill_sigma_l=sigma_of_source(given.text("source"), volume_l=refill_l),
        oil_temp_c=given.number("temp"),
        density15_kg_m3=density,
        level_fraction=level,
        between_marks_l=span_l,
    )
    line = say(
        "reckon_volume.pan",
        hot=Figure(found.hot_l, "L"),
        sigma=Figure(found.sigma_l, "L"),
        temp=given.figure("temp"),
        cold=Figure(found.cold_l, "L"),
    )
    room = say("reckon_volume.room", room=Figure(found.room_l, "L"))
    results = {"hot_l": found.hot_l, "sigma_l": found.sigma_l, "cold_l": found.cold_l, "room_l": found.room_l}
    cautions = (say("reckon_volume.hot_oil"), *((usual,) if usual else ()))
    return Reckoned((line, room), results, ("api_mpms_11_1", "house_judgement", *(DENSITY_SOURCES if usual else ())), cautions)


def _drain(given: Given) -> Reckoned:
    """Answer with the drain curve: litres out by time, and what another wait still brings."""
    from twomarks.trade.drain_hole import Hole, viscous_drain_s
    from twomarks.trade.draining import SumpDrain, drain_curve
    from twomarks.trade.viscosity import walther_line
    from twomarks.trade.volume import density_at

    density, usual = _density(given)
    temp_c = given.number("temp")
    line = walther_line(kv_low_mm2_s=given.number("kv40"), temp_low_c=40.0, kv_high_mm2_s=given.number("kv100"), temp_high_c=100.0)
    kv_mm2_s = line.kinematic_viscosity(temp_c=temp_c)
    hole = Hole(given.number("hole"), given.number("hole-length"))
    volume_l, head_m = given.number("volume"), given.number("depth") * MM_TO_M
    walls_m2 = given.number("walls") if given.has("walls") else 0.0
    sump = SumpDrain(volume_l, head_m, hole, walls_m2, given.number("wall-height") * MM_TO_M)
    times_min = tuple(sorted(set(given.numbers("after")))) or TIMES_MIN
    wait_min = given.number("wait")
    rows = drain_curve(
        sump,
        kv_mm2_s=kv_mm2_s,
        density_kg_m3=density_at(density15_kg_m3=density, temp_c=temp_c),
        times_min=times_min,
        next_min=wait_min,
        stopped_min=given.number("stopped"),
    )
    emptied_s = viscous_drain_s(
        hole, surface_m2=volume_l * M3_PER_L / head_m, head_m=head_m, head_left_m=NEARLY_EMPTY * head_m, kv_mm2_s=kv_mm2_s
    )
    share = Figure(100.0 * (1.0 - NEARLY_EMPTY), "%")
    opening = say(
        "reckon_volume.drain",
        kv=Figure(kv_mm2_s, "mm2/s"),
        temp=given.figure("temp"),
        share=share,
        time=Figure(emptied_s, "s") if emptied_s < 60.0 * SECONDS_UP_TO_MIN else Figure(emptied_s / 60.0, "min"),
    )
    results: dict[str, Any] = {"kv_mm2_s": kv_mm2_s, "emptied_min": emptied_s / 60.0, "wait_min": wait_min}
    results["curve"] = [
        {"time_min": row.time_min, "out_l": row.out_l, "sump_l": row.sump_l, "walls_l": row.walls_l, "next_l": row.next_l} for row in rows
    ]
    cautions = [say("reckon_volume.drain_limits"), say("reckon_volume.hot_oil")]
    cautions += [] if given.has("walls") else [say("reckon_volume.no_walls")]
    cautions += [usual] if usual else []
    sources = (*DRAIN_SOURCES, "jeffreys_1930", "astm_d341", "api_mpms_11_1", *(DENSITY_SOURCES if usual else ()))
    return Reckoned((opening, *(_drained(row, wait_min) for row in rows)), results, sources, tuple(cautions))


def _small(volume_l: float) -> Figure | str:
    """Return a volume, a small one as text in millilitres: in a reader's larger unit it would round to nothing."""
    return Figure(volume_l, "L") if volume_l >= SMALL_L else units.written(ML_PER_L * volume_l, unit="mL")


def _drained(row: DrainRow, wait_min: float) -> Message:
    """Return one line of the curve."""
    return say(
        "reckon_volume.drained",
        time=Figure(row.time_min, "min"),
        out=Figure(row.out_l, "L"),
        left=_small(row.sump_l + row.walls_l),
        wait=Figure(wait_min, "min"),
        brings=_small(row.next_l),
    )


CALCULATIONS = (
    Calculation(
        "volume-at",
        _volume_at,
        (Asked("volume", "volume", "4 L"), Asked("from", "temperature", "20 C"), Asked("to", "temperature", "90 C"), DENSITY),
    ),
    Calculation(
        "pan-volume",
        _pan_volume,
        (
            Asked("refill", "volume", "4.3 L"),
            Asked("temp", "temperature", "80 C"),
            Asked("level", "number", "1/2", default="1"),
            Asked("between-marks", "volume", "1.1 L", needed=False),
            Asked("source", "choice", default="memory", choices=KINDS_OF_SOURCE),
            DENSITY,
        ),
    ),
    Calculation(
        "drain",
        _drain,
        (
            Asked("volume", "volume", "4.3 L"),
            Asked("depth", "length", "100 mm"),
            Asked("hole", "length", "14 mm"),
            Asked("temp", "temperature", "60 C"),
            Asked("kv40", "kinematic viscosity", "68 mm2/s"),
            Asked("kv100", "kinematic viscosity", "11.5 mm2/s"),
            Asked("hole-length", "length", "15 mm", default="15 mm"),
            Asked("walls", "area", "1 m2", needed=False),
            Asked("wall-height", "length", "300 mm", default="300 mm"),
            Asked("stopped", "duration", "5 min", default="5 min"),
            Asked("wait", "duration", "10 min", default="10 min"),
            Asked("after", "duration", "20 min", needed=False, many=True),
            DENSITY,
        ),
    ),
)

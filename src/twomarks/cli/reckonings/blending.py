"""Blends of oils, the share that reaches a target, and fuel in the oil."""

from __future__ import annotations

from typing import Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.errors import InputError
from twomarks.trade.blending import (
    Blend,
    blend_by_mass_astm_d7152,
    blend_by_mass_refutas,
    blend_by_volume_astm_d7152,
    volume_share_for_target,
)
from twomarks.trade.dilution import DIESEL_KV100_MM2_S, blend_with_fuel, fuel_from_viscosity
from twomarks.trade.grading import hot_bands_of
from twomarks.words import Figure, Message, say

__all__ = ["CALCULATIONS"]

SHOWN_PERCENT = (2.0, 5.0, 10.0)
"""The shares of fuel shown where nobody asks for one."""
DIESEL = f"{DIESEL_KV100_MM2_S} mm2/s"


def _blend(given: Given) -> Reckoned:
    """Answer with the viscosity of a blend by volume, or by mass with or without densities."""
    kv, volumes, masses, densities = (given.numbers(key) for key in ("kv", "volume", "mass", "density"))
    if volumes and masses:
        raise InputError("reckon_blending.volume_or_mass", where="blend")
    if densities and not masses:
        raise InputError("reckon_blending.density_needs_mass", where="density")
    blend: Blend
    if not masses and not volumes:
        how, blend = "reckon_blending.in_equal_parts", blend_by_volume_astm_d7152(kv_mm2_s=kv, volume_l=[1.0] * len(kv))
    elif volumes:
        how, blend = "reckon_blending.by_volume", blend_by_volume_astm_d7152(kv_mm2_s=kv, volume_l=volumes)
    elif densities:
        how = "reckon_blending.by_mass_and_density"
        blend = blend_by_mass_astm_d7152(kv_mm2_s=kv, mass_kg=masses, density_kg_m3=densities)
    else:
        how, blend = "reckon_blending.by_mass", blend_by_mass_refutas(kv_mm2_s=kv, mass_kg=masses)
    line = say("reckon_blending.blend", kv=Figure(float(blend.kv_mm2_s), "mm2/s"), count=len(kv), how=say(how))
    sources = ("refutas_maples",) if blend.method == "blending number" else ("astm_d7152", "astm_d341")
    return Reckoned((line,), {"kinematic_viscosity_mm2_s": blend.kv_mm2_s, "method": blend.method}, sources, blend.cautions)


def _share(given: Given) -> Reckoned:
    """Answer with the share of the first oil that reaches the target, and the volumes of a given whole."""
    found = volume_share_for_target(
        kv_first_mm2_s=given.number("first"), kv_second_mm2_s=given.number("second"), kv_target_mm2_s=given.number("target")
    )
    share = float(found.first)
    results: dict[str, Any] = {"first_percent": 100.0 * share, "second_percent": 100.0 * (1.0 - share)}
    lines = [
        say(
            "reckon_blending.share",
            first=given.figure("first"),
            second=given.figure("second"),
            target=given.figure("target"),
            first_share=Figure(100.0 * share, "%"),
            second_share=Figure(100.0 * (1.0 - share), "%"),
        )
    ]
    whole = given.optional("volume")
    if whole is not None:
        if whole <= 0.0:
            raise InputError("reckon_blending.volume_positive", where="volume", found=given.where("volume"))
        results |= {"first_l": share * whole, "second_l": (1.0 - share) * whole}
        lines.append(
            say(
                "reckon_blending.share_volumes",
                whole=given.figure("volume"),
                first=Figure(share * whole, "L"),
                second=Figure((1.0 - share) * whole, "L"),
            )
        )
    return Reckoned(tuple(lines), results, ("astm_d7152", "astm_d341"), found.cautions)


def _dilution(given: Given) -> Reckoned:
    """Answer with the viscosity that fuel leaves, or with the fuel that a fallen viscosity tells of."""
    if given.has("fuel") and given.has("used"):
        raise InputError("reckon_blending.fuel_or_used", where="fuel-dilution")
    return _fuel_told(given) if given.has("used") else _thinned(given)


def _thinned(given: Given) -> Reckoned:
    fresh, kv_fuel = given.number("fresh"), given.number("fuel-kv")
    lines: list[Message] = []
    rows: list[dict[str, Any]] = []
    blend = None
    for percent in (given.number("fuel"),) if given.has("fuel") else SHOWN_PERCENT:
        blend = blend_with_fuel(kv_oil_mm2_s=fresh, fuel_percent=percent, kv_fuel_mm2_s=kv_fuel)
        kv = float(blend.kv_mm2_s)
        rows.append({"fuel_percent": percent, "kinematic_viscosity_mm2_s": kv, "bands": list(hot_bands_of(kv100_mm2_s=kv))})
        lines.append(
            say(
                "reckon_blending.thinned",
                fuel=Figure(percent, "%"),
                fresh=given.figure("fresh"),
                kv=Figure(kv, "mm2/s"),
                bands=_bands(kv, fresh),
            )
        )
    assert blend is not None
    return Reckoned(tuple(lines), {"with_fuel": rows}, ("refutas_maples", "sae_j300"), (*_fuel_taken(given), *blend.cautions))


def _fuel_told(given: Given) -> Reckoned:
    fresh, used = given.number("fresh"), given.number("used")
    found = fuel_from_viscosity(kv_fresh_mm2_s=fresh, kv_used_mm2_s=used, kv_fuel_mm2_s=given.number("fuel-kv"))
    low, best, high = (float(value) for value in (found.low_percent, found.fuel_percent, found.high_percent))
    key = "fuel_told" if low > 0.0 else "fuel_within_spread" if best > 0.0 else "fuel_no_fall"
    line = say(
        f"reckon_blending.{key}",
        fresh=given.figure("fresh"),
        used=given.figure("used"),
        best=Figure(best, "%"),
        low=Figure(low, "%"),
        high=Figure(high, "%"),
    )
    results = {"fuel_percent": best, "fuel_low_percent": low, "fuel_high_percent": high, "shown": low > 0.0}
    return Reckoned((line,), results, ("refutas_maples", "fuel_dilution_chart"), (*_fuel_taken(given), *found.cautions))


def _bands(kv: float, fresh: float) -> Message | None:
    """Return the bands at 100 C of the oil before and after, where it left its own."""
    before, after = hot_bands_of(kv100_mm2_s=fresh), hot_bands_of(kv100_mm2_s=kv)
    if before == after or not before or not after:
        return None
    return say("reckon_blending.bands", before=before, after=after)


def _fuel_taken(given: Given) -> tuple[Message, ...]:
    return (say("reckon_blending.fuel_taken", kv=given.figure("fuel-kv")),) if given.where("fuel-kv") == DIESEL else ()


CALCULATIONS = (
    Calculation(
        "blend",
        _blend,
        (
            Asked("kv", "kinematic viscosity", "10 mm2/s", many=True),
            Asked("volume", "volume", "4 L", needed=False, many=True),
            Asked("mass", "mass", "3.5 kg", needed=False, many=True),
            Asked("density", "density", "860 kg/m3", needed=False, many=True),
        ),
        example=("kv=32 mm2/s", "kv=220 mm2/s", "volume=3 L", "volume=1 L"),
    ),
    Calculation(
        "blend-share",
        _share,
        (
            Asked("first", "kinematic viscosity", "32 mm2/s"),
            Asked("second", "kinematic viscosity", "220 mm2/s"),
            Asked("target", "kinematic viscosity", "100 mm2/s"),
            Asked("volume", "volume", "5 L", needed=False),
        ),
    ),
    Calculation(
        "fuel-dilution",
        _dilution,
        (
            Asked("fresh", "kinematic viscosity", "12 mm2/s"),
            Asked("fuel", "share", "5 %", needed=False),
            Asked("used", "kinematic viscosity", "10.4 mm2/s", needed=False),
            Asked("fuel-kv", "kinematic viscosity", default=DIESEL, needed=False),
        ),
        example=("fresh=12 mm2/s", "used=10.4 mm2/s"),
    ),
)

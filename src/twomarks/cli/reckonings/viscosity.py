"""Viscosity, density and viscosity index of one oil."""

from __future__ import annotations

from typing import Any

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.trade.density import density15_of
from twomarks.trade.viscosity import ViscosityLine, dynamic_viscosity, line_cautions, walther_line
from twomarks.trade.viscosity_index import kv40_of_index, viscosity_index
from twomarks.trade.volume import density_at
from twomarks.words import Figure, Message, say

__all__ = ["CALCULATIONS"]

KV40 = Asked("kv40", "kinematic viscosity", "73.3 mm2/s")
KV100 = Asked("kv100", "kinematic viscosity", "8.86 mm2/s")
DENSITY = Asked("density", "density", "860 kg/m3", needed=False)


def _figure(value: float, unit: str) -> Figure:
    """Return a figure to the four digits that a viscosity is known to at best."""
    return Figure(float(f"{value:.4g}"), unit)


def _index(given: Given) -> Reckoned:
    """Answer with the viscosity index, rounded as the standard reports it."""
    index = viscosity_index(kv40_mm2_s=given.number("kv40"), kv100_mm2_s=given.number("kv100"))
    line = say("reckon_viscosity.index", index=round(index), kv40=given.figure("kv40"), kv100=given.figure("kv100"))
    return Reckoned((line,), {"viscosity_index": index}, ("astm_d2270", "chemicals_library"))


def _from_index(given: Given) -> Reckoned:
    """Answer with the viscosity at 40 C of an oil whose sheet gives index and viscosity at 100 C."""
    index, kv100 = given.number("index"), given.number("kv100")
    kv40 = kv40_of_index(index=index, kv100_mm2_s=kv100)
    line = say("reckon_viscosity.from_index", index=index, kv100=given.figure("kv100"), kv40=_figure(kv40, "mm2/s"))
    return Reckoned((line,), {"kv40_mm2_s": kv40}, ("astm_d2270", "chemicals_library"))


def _line(given: Given) -> ViscosityLine:
    return walther_line(kv_low_mm2_s=given.number("kv40"), temp_low_c=40.0, kv_high_mm2_s=given.number("kv100"), temp_high_c=100.0)


def _at(given: Given) -> Reckoned:
    """Answer with the kinematic viscosity at each temperature, and the dynamic one where the density is given."""
    line, density15 = _line(given), given.optional("density")
    lines: list[Message] = []
    cautions: list[Message] = []
    rows: list[dict[str, Any]] = []
    for temp_c in given.numbers("temp"):
        kv = line.kinematic_viscosity(temp_c=temp_c)
        row: dict[str, Any] = {"temp_c": temp_c, "kinematic_viscosity_mm2_s": kv}
        dynamic = None
        if density15 is not None:
            density = density_at(density15_kg_m3=density15, temp_c=temp_c)
            dynamic = dynamic_viscosity(kv_mm2_s=kv, density_kg_m3=density)
            row |= {"density_kg_m3": density, "dynamic_viscosity_mpa_s": dynamic}
        rows.append(row)
        lines.append(
            say(
                "reckon_viscosity.at",
                temp=Figure(temp_c, "C"),
                kv=_figure(kv, "mm2/s"),
                dynamic=None if dynamic is None else _figure(dynamic, "mPa.s"),
            )
        )
        cautions += line_cautions(temp_c=temp_c, kv_mm2_s=kv)
    results = {"at_temperatures": rows, "line_a": line.a, "line_b": line.b}
    sources = ("astm_d341",) if density15 is None else ("astm_d341", "api_mpms_11_1")
    return Reckoned(tuple(lines), results, sources, tuple(dict.fromkeys(cautions)))


def _temperature(given: Given) -> Reckoned:
    """Answer with the temperature at which the oil has a viscosity."""
    kv = given.number("kv")
    temp_c = _line(given).temperature(kv_mm2_s=kv)
    line = say("reckon_viscosity.temperature", kv=given.figure("kv"), temp=Figure(temp_c, "C"))
    return Reckoned((line,), {"temp_c": temp_c}, ("astm_d341",), line_cautions(temp_c=temp_c, kv_mm2_s=kv))


def _density(given: Given) -> Reckoned:
    """Answer with the density at a temperature, from that at 15 C or at another temperature."""
    temp_c, from_c = given.number("temp"), given.number("from")
    density15 = density15_of(density_kg_m3=given.number("density"), temp_c=from_c)
    density = density_at(density15_kg_m3=density15, temp_c=temp_c)
    line = say(
        "reckon_viscosity.density",
        given=given.figure("density"),
        given_temp=given.figure("from"),
        temp=given.figure("temp"),
        density=Figure(round(density, 1), "kg/m3"),
    )
    return Reckoned((line,), {"density_kg_m3": density, "density15_kg_m3": density15}, ("api_mpms_11_1",))


CALCULATIONS = (
    Calculation("viscosity-index", _index, (KV40, KV100)),
    Calculation("viscosity-from-index", _from_index, (KV100, Asked("index", "number", "140"))),
    Calculation("viscosity-at", _at, (KV40, KV100, Asked("temp", "temperature", "90 C", many=True), DENSITY)),
    Calculation("temperature-at", _temperature, (KV40, KV100, Asked("kv", "kinematic viscosity", "20 mm2/s"))),
    Calculation(
        "density-at",
        _density,
        (
            Asked("density", "density", "860 kg/m3"),
            Asked("temp", "temperature", "90 C"),
            Asked("from", "temperature", default="15 C", needed=False),
        ),
    ),
)

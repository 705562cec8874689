"""An oil that could be poured: its label, and what its data sheet states."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.trade.arrays import require, require_within
from twomarks.trade.label import Label

__all__ = ["OilOnOffer"]


@dataclass(frozen=True, slots=True)
class OilOnOffer:
    """An oil: its name, its label, and figures of its data sheet where there are any.

    The viscosities cranked and pumped at stand with the temperature of their test. Impossible figures are refused by name.
    """

    name: str
    label: Label
    kv40_mm2_s: float | None = None
    kv100_mm2_s: float | None = None
    hths_mpa_s: float | None = None
    density15_kg_m3: float | None = None
    ccs_mpa_s: float | None = None
    ccs_temp_c: float | None = None
    mrv_mpa_s: float | None = None
    mrv_temp_c: float | None = None
    ash_percent: float | None = None
    tbn_mgkoh_g: float | None = None

    def __post_init__(self) -> None:
        for value, quantity, unit, low, high in (
            (self.kv40_mm2_s, "viscosity (40 C)", "mm2/s", 2.0, 5000.0),
            (self.kv100_mm2_s, "viscosity (100 C)", "mm2/s", 1.0, 500.0),
            (self.hths_mpa_s, "high-shear viscosity", "mPa.s", 0.5, 20.0),
            (self.density15_kg_m3, "density (15 C)", "kg/m3", 750.0, 1000.0),
            (self.ccs_mpa_s, "cranking viscosity", "mPa.s", 100.0, 100_000.0),
            (self.ccs_temp_c, "cranking test temperature", "C", -45.0, 0.0),
            (self.mrv_mpa_s, "pumping viscosity", "mPa.s", 100.0, 1_000_000.0),
            (self.mrv_temp_c, "pumping test temperature", "C", -50.0, 0.0),
            (self.ash_percent, "sulphated ash", "%", 0.0, 5.0),
            (self.tbn_mgkoh_g, "base number", "mgKOH/g", 0.0, 100.0),
        ):
            if value is not None:
                require_within(value, quantity=quantity, unit=unit, source="house_judgement", low=low, high=high)
        if self.kv40_mm2_s is not None and self.kv100_mm2_s is not None:
            require(self.kv100_mm2_s < self.kv40_mm2_s, "oil.sheet_crossed", kv40=self.kv40_mm2_s, kv100=self.kv100_mm2_s)

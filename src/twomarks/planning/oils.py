"""The oils of the shelf list judged against what a vehicle asks for, and the one that would be taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from twomarks.errors import OutOfRangeError
from twomarks.model.facts import Fact
from twomarks.model.shelf import DataSheet, Oil, ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.facts import oil_verdict_for
from twomarks.trade.climate import DesignTemperature
from twomarks.trade.label import Label, read_label
from twomarks.trade.oil import OilOnOffer, OilVerdict

__all__ = ["JudgedOil", "chosen_oil", "judged_oils", "offer_of"]

_RANK = {"meets": 0, "not shown": 1, "does not meet": 2}


@dataclass(frozen=True, slots=True)
class JudgedOil:
    """An oil of the shelf list, the verdict on it, and how much of it is in stock [mL]."""

    key: str
    name: str
    label: str
    verdict: OilVerdict
    in_stock_ml: int


def offer_of(oil: Oil) -> OilOnOffer:
    """Return an oil of the shelf list as the engineering wants it."""
    data = oil.data or DataSheet()
    return OilOnOffer(
        name=oil.name,
        label=read_label(oil.label.text),
        kv40_mm2_s=_core(data.kv40),
        kv100_mm2_s=_core(data.kv100),
        hths_mpa_s=_core(data.hths),
        density15_kg_m3=_core(data.density15),
        ccs_mpa_s=_core(data.ccs),
        ccs_temp_c=_core(data.ccs_at),
        mrv_mpa_s=_core(data.mrv),
        mrv_temp_c=_core(data.mrv_at),
        ash_percent=_core(data.ash),
        tbn_mgkoh_g=_core(data.tbn),
    )


def _core(fact: Fact | None) -> float | None:
    return fact.core if fact else None


def judged_oils(
    sheet: VehicleSheet,
    circuit: str,
    *,
    shelf: ShelfList | None,
    stock: Mapping[str, int],
    coldest: DesignTemperature | None,
    hottest: DesignTemperature | None = None,
    in_engine: Label | None = None,
    fluid: str = "engine oil",
) -> tuple[JudgedOil, ...]:
    """Return every oil of its kind on the shelf list with its verdict: those that meet the call first, then what is in stock."""
    found = [
        JudgedOil(
            key,
            oil.name,
            oil.label.text,
            _verdict(sheet, circuit, oil, coldest=coldest, hottest=hottest, in_engine=in_engine),
            stock.get(key, 0),
        )
        for key, oil in (shelf.oils.items() if shelf else ())
        if oil.fluid == fluid
    ]
    return tuple(sorted(found, key=lambda oil: (_RANK[oil.verdict.state], -oil.in_stock_ml, oil.key)))


def _verdict(
    sheet: VehicleSheet,
    circuit: str,
    oil: Oil,
    *,
    coldest: DesignTemperature | None,
    hottest: DesignTemperature | None,
    in_engine: Label | None,
) -> OilVerdict:
    try:
        return oil_verdict_for(
            sheet,
            circuit,
            offer=offer_of(oil),
            coldest_start_c=coldest.value_c if coldest else None,
            coldest_start_low_c=coldest.low_c if coldest else None,
            hottest_day_c=hottest.value_c if hottest else None,
            in_engine=in_engine,
        )
    except OutOfRangeError as refused:
        # A slip in a data sheet names its oil: the shelf list holds many.
        refused.values["where"] = oil.name
        raise


def chosen_oil(oils: tuple[JudgedOil, ...], costs: Mapping[str, float]) -> JudgedOil | None:
    """Return the oil to take: of those that meet the call the one that costs least to complete; None where none meets it.

    `costs` holds what each product still costs to buy; one without a known cost comes after those with one.
    """
    fitting = [oil for oil in oils if oil.verdict.state == "meets"]
    return min(fitting, key=lambda oil: (costs.get(oil.key, float("inf")), -oil.in_stock_ml, oil.key), default=None)

"""Torque: in every unit, in a wrench's own scale, behind an adapter, and what a thread may bear."""

from __future__ import annotations

from typing import Any, cast

from twomarks import units
from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned
from twomarks.words import Message, say

__all__ = ["CALCULATIONS"]

HANDBOOK = "reckon_torque.handbook"


def _torque(given: Given) -> Reckoned:
    """Answer with the torque in every unit, at the nearest mark where a scale is named, and with what comes after it."""
    from twomarks.trade.arrays import require_within
    from twomarks.trade.torque import nearest_mark, tightening

    torque_nm = given.number("torque")
    require_within(torque_nm, quantity="torque", unit="N.m", source="exact_units", above=0.0)
    rows = _in_every_unit(torque_nm)
    typed_in = given.quantity("torque").unit
    others = tuple(units.written(row["value"], unit=row["code"]) for row in rows if row["code"] != typed_in)
    lines: list[Message] = [say("reckon_torque.is", torque=_as_typed(given, "torque", torque_nm), others=others)]
    results: dict[str, Any] = {"torque_nm": torque_nm, "in_units": [{"unit": row["unit"], "value": row["value"]} for row in rows]}
    sources = ["exact_units"]
    if given.has("graduation"):
        mark = nearest_mark(
            torque_nm=torque_nm,
            graduation_nm=given.number("graduation"),
            scale=given.quantity("graduation").unit,
            tolerance_percent=given.optional("tolerance"),
        )
        lines += [mark.reason, say("reckon_torque.range_not_asked")]
        results |= _mark_results(mark, given.quantity("graduation").unit)
        sources.append("iso_6789")
    angles, to_yield = given.numbers("angle"), bool(given.flag("to-yield"))
    if angles or to_yield:
        tightened = tightening(torque_nm=torque_nm, angles_deg=angles, to_yield=to_yield)
        lines += tightened.steps
        results |= {"angles_deg": list(angles), "new_fastener": tightened.new_fastener}
        sources.append("common_practice")
    return Reckoned(tuple(lines), results, tuple(sources), (say(HANDBOOK),))


def _in_every_unit(torque_nm: float) -> list[dict[str, Any]]:
    of_torque = (unit for unit in units.UNITS.values() if unit.kind == "torque")
    return [{"unit": unit.shown, "code": unit.code, "value": units.in_unit(torque_nm, unit="N.m", to=unit.code)} for unit in of_torque]


def _as_typed(given: Given, key: str, value_nm: float) -> str:
    """Return a torque in the unit in which the value under `key` was typed."""
    unit = given.quantity(key).unit
    value = units.in_unit(value_nm, unit="N.m", to=unit)
    return units.written(value, unit=unit, decimals=max(1, units.UNITS[unit].decimals))


def _mark_results(mark: Any, scale: str) -> dict[str, Any]:
    return {
        "state": mark.state,
        "setting": mark.setting,
        "setting_unit": units.UNITS[scale].shown if mark.suits else "",
        "setting_nm": mark.setting_nm,
        "off_percent": mark.off_percent,
    }


def _wrench(given: Given) -> Reckoned:
    """Answer whether the wrench at hand suits, and with the setting in its own scale; out of range ends with 1."""
    from twomarks.trade.torque import wrench_setting, wrench_suits

    torque_nm, low_nm, high_nm = given.number("torque"), given.number("low"), given.number("high")
    fit = wrench_suits(torque_nm=torque_nm, wrench_low_nm=low_nm, wrench_high_nm=high_nm)
    results: dict[str, Any] = {"state": fit.state, "suits": fit.state != "outside", "tolerance_nm": fit.tolerance_nm}
    lines = [fit.reason]
    if given.has("graduation"):
        scale = given.quantity("graduation").unit
        mark = wrench_setting(
            torque_nm=torque_nm,
            wrench_low_nm=low_nm,
            wrench_high_nm=high_nm,
            graduation_nm=given.number("graduation"),
            scale=scale,
            tolerance_percent=given.optional("tolerance"),
        )
        lines = [mark.reason] if mark.state != "inside" else [fit.reason, mark.reason]
        results |= _mark_results(mark, scale) | {"suits": mark.suits}
    return Reckoned(tuple(lines), results, ("iso_6789",), (say("reckon_torque.wrench_care"),), exit_code=0 if results["suits"] else 1)


def _adapter(given: Given) -> Reckoned:
    """Answer with what to set so that the fastening behind the adapter gets its torque."""
    from twomarks.trade.torque import adapter_setting, nearest_mark

    torque_nm, angle = given.number("torque"), given.number("angle")
    setting_nm = adapter_setting(
        torque_nm=torque_nm,
        wrench_length_m=given.number("wrench") / 1000.0,
        adapter_length_m=given.number("adapter") / 1000.0,
        angle_deg=angle,
    )
    figures = {"setting": _as_typed(given, "torque", setting_nm), "torque": _as_typed(given, "torque", torque_nm)}
    lines = [say("reckon_torque.adapter_none" if abs(setting_nm - torque_nm) < 1e-9 * torque_nm else "reckon_torque.adapter", **figures)]
    results: dict[str, Any] = {"setting_nm": setting_nm, "torque_nm": torque_nm}
    sources = ["adapter_pages"]
    if given.has("graduation"):
        scale = given.quantity("graduation").unit
        mark = nearest_mark(torque_nm=setting_nm, graduation_nm=given.number("graduation"), scale=scale)
        lines.append(mark.reason)
        results |= {
            "setting_nm": setting_nm,
            "mark": mark.setting,
            "mark_unit": units.UNITS[scale].shown,
            "mark_off_percent": mark.off_percent,
        }
        sources.append("iso_6789")
    return Reckoned(tuple(lines), results, tuple(sources), (say("reckon_torque.adapter_care"), say(HANDBOOK)))


def _thread(given: Given) -> Reckoned:
    """Answer with what a thread is, the spanners for it, and whether its bolt bears a torque where that can be said."""
    from twomarks.trade.preload import preload_check
    from twomarks.trade.threads import read_drive, read_thread, spanner_sizes, stress_area

    thread = read_thread(text=given.text("thread"))
    drive = read_drive(text=given.text("drive")) if given.has("drive") else None
    results: dict[str, Any] = {
        "thread": thread.name,
        "series": thread.series,
        "diameter_mm": thread.diameter_mm,
        "pitch_mm": thread.pitch_mm,
    }
    sources: list[str] = [thread.seen.source] if thread.seen else []
    if thread.diameter_mm is None or thread.pitch_mm is None:
        lines = [say("reckon_torque.thread_inch", thread=thread.name)]
    else:
        figures = {"thread": thread.name, "diameter": f"{thread.diameter_mm:g}", "pitch": f"{thread.pitch_mm:g}"}
        lines = [say(f"reckon_torque.thread_{thread.series.replace(' ', '_')}", **figures)]
        results["stress_area_mm2"] = stress_area(diameter_mm=thread.diameter_mm, pitch_mm=thread.pitch_mm)
        sources.append("iso_68_thread")
        sizes = spanner_sizes(diameter_mm=thread.diameter_mm)
        if sizes is not None and (drive is None or drive.name == "hex"):
            key = "reckon_torque.spanner" if sizes.iso_mm == sizes.older_mm else "reckon_torque.spanners"
            lines.append(say(key, iso=f"{sizes.iso_mm:g}", older=f"{sizes.older_mm:g}"))
            results |= {"across_flats_iso_mm": sizes.iso_mm, "across_flats_older_mm": sizes.older_mm}
            sources.append("across_flats_charts")
    if thread.left_handed:
        lines.append(say("reckon_torque.left_handed"))
    if drive is not None:
        lines.append(say("reckon_torque.drive", drive=drive.name, size=drive.size or None))
        results |= {"drive": drive.name, "drive_size": drive.size}
        sources.append(drive.row.seen.source)
    if given.has("torque"):
        check = preload_check(
            torque_nm=given.number("torque"),
            thread=thread,
            kind=cast("Any", given.text("kind")),
            material=given.text("material"),
            property_class=given.text("class"),
            part=given.text("part"),
            is_oiled=bool(given.flag("oiled")),
            by_angle=bool(given.flag("by-angle")),
        )
        lines.append(check.reason)
        results["check"] = check.state
        sources += [] if check.state == "not checked" else ["vdi_2230_table", "iso_898_1_properties"]
    return Reckoned(tuple(lines), results, tuple(sources) or ("common_practice",), (say(HANDBOOK),))


TORQUE = Asked("torque", "torque", "38 N m")
GRADUATION = Asked("graduation", "torque", "1 lbf ft", needed=False)
TOLERANCE = Asked("tolerance", "share", "5 %", needed=False)
CALCULATIONS = (
    Calculation(
        "torque",
        _torque,
        (
            TORQUE,
            GRADUATION,
            TOLERANCE,
            Asked("angle", "angle", "90 deg", needed=False, many=True),
            Asked("to-yield", "yes or no", "yes", needed=False),
        ),
    ),
    Calculation("wrench", _wrench, (TORQUE, Asked("low", "torque", "20 N m"), Asked("high", "torque", "110 N m"), GRADUATION, TOLERANCE)),
    Calculation(
        "adapter",
        _adapter,
        (
            Asked("torque", "torque", "80 N m"),
            Asked("wrench", "length", "40 cm"),
            Asked("adapter", "length", "5 cm"),
            Asked("angle", "angle", "90 deg", default="0 deg"),
            GRADUATION,
        ),
    ),
    Calculation(
        "thread",
        _thread,
        (
            Asked("thread", "text", "M16x1.5"),
            Asked("torque", "torque", "38 N m", needed=False),
            Asked("kind", "choice", default="unknown", choices=("sealing", "clamping", "unknown")),
            Asked("part", "text", "drain plug", needed=False),
            Asked("material", "text", "steel", needed=False),
            Asked("class", "text", "8.8", needed=False),
            Asked("oiled", "yes or no", "no", needed=False),
            Asked("by-angle", "yes or no", "no", needed=False),
            Asked("drive", "text", "hex socket 17 mm", needed=False),
        ),
    ),
)

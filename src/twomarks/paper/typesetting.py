"""Values and a sheet's layout become a PDF; the only module that knows the typesetter."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from typing import Any, Literal

from twomarks import packaged
from twomarks.errors import InputError, TwomarksError
from twomarks.paper.face import missing_signs, printable
from twomarks.units import UNITS

__all__ = ["STANDARDS", "SheetError", "pdf", "printed"]

STANDARDS: tuple[Literal["ua-1"], Literal["a-2a"]] = ("ua-1", "a-2a")
SHOWN = 60


class SheetError(TwomarksError):
    """The typesetter refused a sheet or warned about it. Values: ``sheet``, ``found``."""


def pdf(sheet: str, data: Mapping[str, Any], *, day: dt.date) -> bytes:
    """Return the sheet ``paper/sheets/<sheet>.typ`` filled with `data`, as tagged PDF; a warning is an error.

    `day` stands in the file as its date, so that the same data give the same bytes.
    """
    try:
        import typst
    except ImportError:
        raise SheetError("paper.no_typesetter", sheet=sheet) from None

    inputs = {"data": json.dumps(printed(data), ensure_ascii=False, sort_keys=True)}
    stamp = dt.datetime(day.year, day.month, day.day, tzinfo=dt.UTC)
    with packaged.folder("paper/sheets") as sheets, packaged.folder("paper/fonts") as faces:
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[faces])
        try:
            made, warnings = typst.compile_with_warnings(
                sheets / f"{sheet}.typ",
                root=sheets,
                font_paths=fonts,
                format="pdf",
                sys_inputs=inputs,
                pdf_standards=[*STANDARDS],
                timestamp=stamp,
            )
        except typst.TypstError as error:
            raise SheetError("paper.refused", sheet=sheet, found=error.message) from error
    if warnings:
        raise SheetError("paper.warned", sheet=sheet, found=tuple(warning.message for warning in warnings))
    return made


def printed(data: Mapping[str, Any]) -> Any:
    """Return `data` with every text made printable; signs that cannot be printed are refused, all at once."""
    lacking: dict[str, str] = {}
    ready = _printed(data, lacking)
    if lacking:
        named = tuple(f"{sign} (U+{ord(sign):04X})" for sign in lacking)
        raise InputError("paper.sign", found=named, where=next(iter(lacking.values())))
    return ready


def _kept_whole(text: str) -> str:
    """Join the words of a unit ("US qt"), so that no line ends between them."""
    for unit in UNITS.values():
        if " " in unit.shown:
            text = text.replace(unit.shown, unit.shown.replace(" ", "\u00a0"))
    return text


def _printed(value: Any, lacking: dict[str, str]) -> Any:
    if isinstance(value, str):
        text = _kept_whole(printable(value))
        for sign in missing_signs(text):
            lacking.setdefault(sign, text if len(text) <= SHOWN else f"{text[:SHOWN]}…")
        return text
    if isinstance(value, Mapping):
        return {key: _printed(part, lacking) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [_printed(part, lacking) for part in value]
    return value

"""Text with a unit to an exact quantity and back, at the edge only."""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass
from fractions import Fraction

from twomarks.errors import InputError
from twomarks.units.number import split_number
from twomarks.units.table import KINDS, UNITS, Unit, spellings

__all__ = ["Quantity", "from_steps", "in_unit", "quantity", "steps", "unit_of", "written"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount: its kind, its value in the kind's core unit, and the text and unit it was typed with."""

    kind: str
    exact: Fraction
    unit: str
    text: str

    @property
    def core(self) -> float:
        """The value in the core unit of its kind."""
        return float(self.exact)

    @property
    def steps(self) -> int:
        """The value in whole ledger steps of its kind, rounded half to even, once."""
        return round(self.exact / KINDS[self.kind].step)


def unit_of(spelling: str, *, market: str | None = None, kind: str | None = None, where: str = "") -> Unit:
    """Return the unit that `spelling` means; a spelling such as "qt" needs the reader's market.

    Raises
    ------
    InputError
        ``units.kind`` for a unit of another kind than the one expected, ``units.bare`` for a spelling that means different
        things in different markets when `market` is None, ``units.unknown`` otherwise, with the nearest known spelling.
    """
    certain, by_market = spellings()
    folded = re.sub(r"\s+", " ", spelling.strip().replace("⋅", "·").replace("•", "·"))
    forms = [folded, folded.casefold()]
    forms += [re.sub(r"[-·. *]+", " ", forms[1]), re.sub(r"\s", "", forms[1])]
    for form in forms:
        if form in UNITS and form:
            unit = UNITS[form]
        elif form in certain:
            unit = certain[form]
        elif form in by_market:
            meant = by_market[form]
            could_be = [unit for unit in meant.values() if kind in (None, unit.kind)]
            if market not in meant and (could_be or not meant):
                shown = tuple(dict.fromkeys(unit.shown for unit in meant.values()))
                raise InputError("units.bare", where=where, found=spelling, expected=shown or ("kg",))
            unit = meant[market] if market in meant else next(iter(meant.values()))
        else:
            continue
        if kind is not None and unit.kind != kind:
            raise InputError("units.kind", where=where, found=spelling, expected=kind, example=UNITS[KINDS[kind].core].shown)
        return unit
    near = difflib.get_close_matches(forms[1], certain, 1, 0.5)
    raise InputError(
        "units.unknown" if folded else "units.missing",
        where=where,
        found=spelling,
        nearest=certain[near[0]].shown if near else "",
        example=UNITS[KINDS[kind].core].shown if kind else "",
    )


def quantity(
    text: str,
    *,
    kind: str | None = None,
    market: str | None = None,
    decimal: str | None = None,
    default_unit: str | None = None,
    where: str = "",
) -> Quantity:
    """Return the quantity that `text` says, such as "4.3 L" or "5 1/2 US qt".

    Parameters
    ----------
    kind : str, optional
        The kind that is expected; another one is refused.
    market : str, optional
        The reader's market for typed input. Documents pass none: a bare "qt" in a document is always an error.
    decimal : str, optional
        The decimal mark of the reader; documents pass ".".
    default_unit : str, optional
        Code of the unit meant when the text is a bare number (a column or a form field that names its unit).
    """
    shown = UNITS[KINDS[kind].core].shown if kind else ""
    value, rest = split_number(text, decimal=decimal, where=where, example=f"12 {shown}" if kind else "4.3 L")
    if not rest and default_unit is not None:
        unit = UNITS[default_unit]
    elif not rest:
        typed = text.strip()
        raise InputError("units.missing", where=where, found=typed, example=f"{typed} {shown}" if kind else "")
    else:
        unit = unit_of(rest, market=market, kind=kind, where=where)
    return Quantity(unit.kind, value * unit.factor + unit.offset, unit.code, text.strip())


def steps(value: float | Fraction, *, kind: str) -> int:
    """Return `value`, in the core unit of `kind`, as whole ledger steps, rounded half to even."""
    return round(Fraction(value) / KINDS[kind].step)


def from_steps(count: int, *, kind: str) -> float:
    """Return `count` ledger steps of `kind` in its core unit."""
    return float(count * KINDS[kind].step)


def in_unit(value: float, *, unit: str, to: str) -> float:
    """Return `value`, given in `unit`, in the unit `to` of the same kind."""
    if unit == to:
        return value
    have, want = UNITS[unit], UNITS[to]
    if have.kind != want.kind:
        raise InputError("units.kind", found=unit, expected=want.kind, example=want.shown)
    return float((Fraction(value) * have.factor + have.offset - want.offset) / want.factor)


def written(value: float, *, unit: str, decimals: int | None = None) -> str:
    """Return a figure as text with its unit, such as "4.3 L"; thousands are parted by a thin space from 10 000 on."""
    shown = UNITS[unit]
    places = shown.decimals if decimals is None else decimals
    text = f"{value:.{places}f}"
    if decimals is None and "." in text:
        text = text.rstrip("0").rstrip(".")
    text = "0" if text == "-0" else text
    whole, point, part = text.partition(".")
    if len(whole.lstrip("-")) > 4:
        whole = f"{int(whole):,}".replace(",", "\u202f")
    text = (whole + point + part).replace("-", "\u2212")
    if not shown.shown:
        return text
    return f"{text}{'' if shown.shown in ('%', '°') else chr(0xA0)}{_counted(shown, value)}"


def _counted(unit: Unit, value: float) -> str:
    return unit.shown.removesuffix("s") if unit.code in ("day", "week", "month", "year") and value == 1 else unit.shown

"""What a command was asked about: which vehicle, which service item."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import TYPE_CHECKING

from twomarks.errors import InputError

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["WALK_ROUND", "chosen_vehicle", "nearest", "refuse_unknown_item"]

WALK_ROUND = "walk-round"
"""The key under which the walk-round is asked for where a service item is."""


def chosen_vehicle(scope: Scope, name: str | None) -> str:
    """Return the name of the vehicle asked for; left out, the only one."""
    from twomarks.keeping import questions

    if name is not None:
        return questions.vehicle(scope, name).name
    names = tuple(one.name for one in questions.vehicles(scope))
    if not names:
        raise InputError("answer.no_vehicle")
    if len(names) > 1:
        raise InputError("keeping.which_one", where="--vehicle", what="vehicle", expected=names)
    return names[0]


def refuse_unknown_item(sheet: VehicleSheet, item: str | None) -> None:
    """Refuse a service item that the sheet does not have, or that names no procedure."""
    if item is None or item == WALK_ROUND:
        return
    if item not in sheet.items:
        raise InputError("keeping.item_unknown", where=f"--item, {sheet.name}", found=item, nearest=nearest(item, sheet.items))
    if sheet.items[item].procedure is None:
        worked = tuple(key for key, one in sheet.items.items() if one.procedure is not None)
        raise InputError("card_answer.no_procedure", where="--item", found=item, expected=(*worked, WALK_ROUND))


def nearest(found: str, known: Iterable[str]) -> str:
    """Return the known word that is nearest to `found`, or ""."""
    close = difflib.get_close_matches(found, list(known), 1, 0.5)
    return close[0] if close else ""

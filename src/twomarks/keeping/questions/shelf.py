"""What there is: the shelf list, the stock, the waste cans, and what was answered."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from django.db.models import Sum

from twomarks.keeping.questions.values import current
from twomarks.keeping.questions.vehicles import document_of, documents
from twomarks.keeping.records.answers import AnswerRow
from twomarks.keeping.records.shelf import StockMoveRow, WasteMoveRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

if TYPE_CHECKING:
    from twomarks.model.shelf import ShelfList

__all__ = ["answers", "can_with_room", "cans", "shelf", "stock"]


@question
def shelf(scope: Scope) -> ShelfList | None:
    """Return the shelf list as it is now, None where the household has none."""
    found = documents(scope, "shelf")
    return document_of(found[0].text, found[0].name) if found else None


@question
def stock(scope: Scope) -> Mapping[str, int]:
    """Return how much there is of each item that was ever moved, in mL or pieces."""
    rows = current(scope, StockMoveRow).order_by("item").values_list("item").annotate(total=Sum("amount"))
    return {str(item): int(total) for item, total in rows}


@question
def cans(scope: Scope) -> Mapping[str, int]:
    """Return what is in each waste can [mL]."""
    rows = current(scope, WasteMoveRow).order_by("can").values_list("can").annotate(total=Sum("amount_ml"))
    return {str(can): int(total) for can, total in rows}


@question
def answers(scope: Scope) -> Mapping[str, str]:
    """Return the latest answer to each question."""
    return {str(asked): str(word) for asked, word in current(scope, AnswerRow).values_list("question", "word")}


def can_with_room(scope: Scope, amount_ml: int | None, *, stream: str = "engine oil") -> str:
    """Return the first waste can for `stream` that has room for an amount, "" where there is none."""
    listed = shelf(scope)
    if not listed or not amount_ml:
        return ""
    content = cans(scope)
    fitting = (key for key, can in listed.cans.items() if can.stream == stream and can.holds.core * 1000 - content.get(key, 0) >= amount_ml)
    return next(fitting, "")

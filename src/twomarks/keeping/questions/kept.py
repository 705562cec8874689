"""Whole answers kept as text, for commands that are asked again while nothing has changed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from twomarks.keeping.derived import derived
from twomarks.keeping.records.documents import RevisionRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

__all__ = ["kept_answer"]


@question
def kept_answer(scope: Scope, what: str, make: Callable[[], str], *, today: dt.date, about: str = "", further: tuple[str, ...] = ()) -> str:
    """Return the text of an answer: the one that is kept, while no row and no document has changed, else what `make` returns.

    `about` says of what it is, `further` all else that it rests on, such as who reads it.
    """
    documents = tuple(RevisionRow.objects.filter(household=scope.household).order_by("sha256").values_list("sha256", flat=True))
    return derived(scope, what, str, make, about=about, documents=documents, today=today, further=further)

"""Answers that are slow to work out are kept under a key of everything that they rest on."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import json
import os
from collections.abc import Callable, Sequence
from functools import cache
from pathlib import Path
from typing import TypeVar

from django.db import DatabaseError, transaction

from twomarks import __version__
from twomarks.keeping.canonical import canonical, restored, text_of
from twomarks.keeping.records.derived import DerivedRow
from twomarks.keeping.records.household import HouseholdRow
from twomarks.keeping.scope import Scope

__all__ = ["derived"]

T = TypeVar("T")


def derived(
    scope: Scope,
    what: str,
    kind: type[T],
    work_out: Callable[[], T],
    *,
    about: str = "",
    documents: Sequence[str] = (),
    today: dt.date | None = None,
    further: Sequence[str] = (),
    from_ledgers: bool = True,
) -> T:
    """Return the answer kept under its key, or work it out and keep it.

    `documents` are the SHA-256 of the texts that it rests on; `from_ledgers` False says that no ledger row matters to
    it, so that a new row leaves it standing. Whatever the table holds, the answer is the same as without it.
    """
    rests_on = {
        "version": _code_version(),
        "number": _last_number(scope) if from_ledgers else 0,
        "documents": sorted(documents),
        "today": None if today is None else today.isoformat(),
        "further": list(further),
    }
    key = hashlib.sha256(text_of(rests_on).encode()).hexdigest()
    kept = DerivedRow.objects.filter(household=scope.household, what=what, about=about, key=key).first()
    if kept is not None:
        return restored(kind, json.loads(kept.answer))
    answer = work_out()
    # An answer that cannot be kept (a full disk, a database that may only be read) is still an answer.
    with contextlib.suppress(DatabaseError), transaction.atomic():
        DerivedRow.objects.filter(household=scope.household, what=what, about=about).exclude(key=key).delete()
        DerivedRow.objects.get_or_create(
            household_id=scope.household, what=what, about=about, key=key, defaults={"answer": canonical(answer)}
        )
    return answer


def _last_number(scope: Scope) -> int:
    return HouseholdRow.objects.values_list("last_number", flat=True).get(id=scope.household)


@cache
def _code_version() -> str:
    """Return the version; in a checkout, where code changes under one version, the time of the latest change as well."""
    package = Path(__file__).parents[1]
    if not (package.parents[1] / "pyproject.toml").is_file():
        return __version__
    latest = max(
        os.stat(os.path.join(folder, name)).st_mtime_ns for folder, _, names in os.walk(package) for name in names if name[-4:] != ".pyc"
    )
    return f"{__version__}+{latest}"

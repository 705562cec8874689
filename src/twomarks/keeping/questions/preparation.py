"""The main job for one vehicle, from all that is kept."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING

from twomarks.keeping.card_text import sha256_of
from twomarks.keeping.questions.daybook import filled_with
from twomarks.keeping.questions.due import outlook
from twomarks.keeping.questions.people import reader
from twomarks.keeping.questions.places import design_temperatures
from twomarks.keeping.questions.shelf import answers, cans, shelf, stock
from twomarks.keeping.questions.vehicles import document_of, documents, sheet_revision
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import question

if TYPE_CHECKING:
    from twomarks.model.procedure import Procedure
    from twomarks.planning.preparation import Preparation
    from twomarks.trade.climate import DesignTemperature

__all__ = ["prepare", "procedures"]


class _Procedures(Mapping[str, "Procedure"]):
    """The household's own procedures by key, else the library's; each is read when it is asked for."""

    def __init__(self, own: Mapping[str, tuple[str, str]]) -> None:
        from twomarks.procedures.library import library_keys

        self._own = own
        self._keys = tuple(dict.fromkeys([*own, *library_keys()]))

    def __getitem__(self, key: str) -> Procedure:
        from twomarks.procedures.library import library_procedure

        if key in self._own:
            found: Procedure = document_of(*self._own[key])
            return found
        if key not in self._keys:
            raise KeyError(key)
        return library_procedure(key)

    def sha256(self, key: str) -> str:
        """Return the SHA-256 of the text of the procedure called `key`."""
        from twomarks.procedures.library import procedure_text

        return sha256_of(self._own[key][0] if key in self._own else procedure_text(key))

    def __contains__(self, key: object) -> bool:
        return key in self._keys

    def __iter__(self) -> Iterator[str]:
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)


@question
def procedures(scope: Scope) -> Mapping[str, Procedure]:
    """Return the procedures that a sheet may name: the household's own, else the library's."""
    return _procedures(scope)


def _procedures(scope: Scope) -> _Procedures:
    return _Procedures({revision.key: (revision.text, revision.name) for revision in documents(scope, "procedure")})


@question
def prepare(
    scope: Scope, vehicle: str, today: dt.date, *, item: str | None = None, stage: Callable[[str], None] = lambda _name: None
) -> Preparation:
    """Return the main job for a vehicle: what is due, and one item made ready with its card; nothing is kept."""
    from twomarks.planning.card import Revision
    from twomarks.planning.in_engine import items_filling
    from twomarks.planning.preparation import ENGINE_OIL, Given
    from twomarks.planning.preparation import prepare as prepared

    known = _procedures(scope)
    seen = outlook(scope, vehicle, today)
    revision = sheet_revision(scope, vehicle)
    shelved = documents(scope, "shelf")

    def coldest(first: dt.date, last: dt.date) -> DesignTemperature | None:
        found = design_temperatures(scope, first, last)
        return None if found is None else found.coldest

    def hottest(first: dt.date, last: dt.date) -> DesignTemperature | None:
        found = design_temperatures(scope, first, last)
        return None if found is None else found.hottest

    stage("forecast")
    given = Given(
        sheet=seen.sheet,
        today=today,
        history=seen.history,
        forecast=seen.forecast,
        done=seen.done,
        procedures=known,
        shelf=shelf(scope),
        stock=stock(scope),
        cans=cans(scope),
        answers=answers(scope),
        coldest=coldest,
        hottest=hottest,
        counters=seen.counters,
        due=seen.due,
        item=item,
        filled_with=filled_with(scope, vehicle, items_filling(seen.sheet, known, ENGINE_OIL)),
        revisions=(
            Revision(kind="vehicle", key=revision.name, sha256=revision.sha256),
            *(Revision(kind="shelf", key=one.name, sha256=one.sha256) for one in shelved),
        ),
        procedure_sha256=known.sha256,
        currency=reader(scope).currency,
    )
    stage("kept")
    return prepared(given, stage=stage)

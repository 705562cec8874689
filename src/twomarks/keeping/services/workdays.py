"""Starting a workday freezes its job card."""

from __future__ import annotations

import uuid
from uuid import UUID

from twomarks.errors import InputError
from twomarks.keeping import clock
from twomarks.keeping.card_text import sha256_of, text_of_card
from twomarks.keeping.questions.vehicles import vehicle_row
from twomarks.keeping.records.workdays import CardRow, WorkdayRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.storing import service
from twomarks.keeping.values import Workday
from twomarks.planning.card import JobCard

__all__ = ["start_workday"]


@service
def start_workday(scope: Scope, card: JobCard) -> Workday:
    """Freeze a card and start its workday; the very same card again is the workday that was started.

    Raises
    ------
    InputError
        Where the card's id is no UUID, its steps and gates are not told apart by their ids, its vehicle is unknown, or
        another card was frozen under that id.
    """
    from twomarks.keeping.questions.workdays import workday

    public_id = _id_of(card)
    targets = [step.id for step in card.steps] + [gate.id for gate in card.gates]
    if len(set(targets)) != len(targets) or "" in targets:
        raise InputError("keeping.card_targets", found=card.title)
    text = text_of_card(card)
    known = CardRow.objects.filter(household=scope.household, public_id=public_id).first()
    if known is None:
        row = WorkdayRow.objects.create(
            household_id=scope.household, public_id=uuid.uuid4(), day=card.day, person=scope.person, started_at=clock.now()
        )
        CardRow.objects.create(
            household_id=scope.household,
            workday=row,
            vehicle=vehicle_row(scope, card.vehicle),
            public_id=public_id,
            title=card.title[:200],
            text=text,
            sha256=sha256_of(text),
        )
    elif known.sha256 != sha256_of(text):
        raise InputError("keeping.card_frozen", found=str(public_id))
    return workday(scope, public_id)


def _id_of(card: JobCard) -> UUID:
    try:
        return UUID(card.id)
    except ValueError:
        raise InputError("keeping.id_expected", where=card.title, found=card.id) from None

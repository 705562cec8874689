"""Answers to one question at a time; they are the inventory."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from twomarks.errors import InputError
from twomarks.keeping.records.answers import AnswerRow
from twomarks.keeping.scope import Scope
from twomarks.keeping.services.writing import NewRow, append, not_in_the_future
from twomarks.keeping.storing import service
from twomarks.keeping.values import Recorded
from twomarks.model.ledger import Answer

__all__ = ["record_answers"]


@service
def record_answers(scope: Scope, answers: Sequence[Answer], *, today: dt.date | None = None) -> Recorded:
    """Keep answers; the latest one to a question holds."""
    not_in_the_future(answers, today)
    for answer in answers:
        if not answer.question.strip() or not answer.word.strip():
            raise InputError("keeping.answer_empty", where=answer.question)
    append(scope, [NewRow(row=AnswerRow, event=answer) for answer in answers])
    return Recorded(len(answers))

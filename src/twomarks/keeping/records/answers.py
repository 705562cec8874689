"""Answers to one question at a time: have, have not, do not know, or a word."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from twomarks.keeping.records.ledger import LedgerRow
from twomarks.model.ledger import Answer, Event

__all__ = ["AnswerRow"]


class AnswerRow(LedgerRow):
    """An answer; the latest one to a question holds."""

    ledger: ClassVar[str] = "answers"
    holds: ClassVar[type[Event]] = Answer

    question = models.CharField(max_length=200)
    word = models.CharField(max_length=200)

    class Meta(LedgerRow.Meta):
        db_table = "answer"

    @classmethod
    def columns(cls, event: Any) -> dict[str, Any]:
        """Return question and word."""
        return {"question": event.question, "word": event.word}

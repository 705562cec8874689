"""The job card on paper."""

from __future__ import annotations

from twomarks.paper.card_words import card_words
from twomarks.paper.typesetting import pdf
from twomarks.planning.card import JobCard
from twomarks.planning.help_call import HelpCall
from twomarks.words import Reader

__all__ = ["job_card_pdf"]


def job_card_pdf(card: JobCard, reader: Reader, call: HelpCall | None = None) -> bytes:
    """Return the card as PDF (PDF/UA-1 and PDF/A-2a), in the units, terms and paper size of `reader`.

    `call` is whom to call and where one is when somebody is hurt; what it leaves empty is a line to be filled in.
    """
    return pdf("job_card", card_words(card, reader, call or HelpCall()), day=card.day)

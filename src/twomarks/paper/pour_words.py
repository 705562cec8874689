"""The pour plan as the words and heights that its table and its drawn stick are filled with."""

from __future__ import annotations

from typing import Any

from twomarks.paper.figures import printed_figure
from twomarks.planning.card import CardPour, PourRow
from twomarks.words import Figure, Message, Reader, figure_text, render, say

__all__ = ["printed_pour", "reading_text"]

EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")
ORDER = {1: "first", 2: "second"}


def printed_pour(pour: CardPour, reader: Reader) -> dict[str, Any]:
    """Return the pour plan: pours in order, and its tables."""
    return {
        "title": render(say("paper.pour_title", circuit=pour.circuit.replace("_", " ")), reader),
        "pours": [
            {
                "label": render(say(f"paper.pour_{ORDER[number]}" if number in ORDER else "paper.pour_later", number=number), reader),
                "figure": printed_figure(figure, reader),
            }
            for number, figure in enumerate(pour.pours, 1)
        ],
        "span": printed_figure(pour.span, reader) if pour.span is not None else None,
        "before": _rows(pour.before_start, reader),
        "rows": _rows(pour.rows, reader),
        "reasons": [render(reason, reader) for reason in pour.reasons],
    }


def _rows(rows: tuple[PourRow, ...], reader: Reader) -> list[dict[str, Any]]:
    """Return the rows of a table from the highest reading down, as they stand on an upright stick."""
    return [
        {
            "reading": row.reading,
            "words": reading_text(row.reading, reader),
            "add": _amount(row, reader),
            "note": render(row.note, reader) if row.note is not None else "",
        }
        for row in sorted(rows, key=lambda row: -row.reading)
    ]


def reading_text(reading: float, reader: Reader) -> str:
    """Return where on the stick a reading stands, 0 being the lower mark and 1 the upper, in words."""
    if reading in (0.0, 1.0):
        message: Message = say("paper.reading_upper" if reading else "paper.reading_lower")
    elif reading < 0:
        message = say("paper.reading_below", share=_share(-reading))
    elif reading > 1:
        message = say("paper.reading_above", share=_share(reading - 1))
    else:
        message = say("paper.reading_up", share=_share(reading))
    return render(message, reader)


def _share(part: float) -> str:
    """Return a part of the span as an eighth where it is one, else in percent."""
    eighths = part * len(EIGHTHS)
    if eighths in range(1, len(EIGHTHS)):
        return EIGHTHS[int(eighths)]
    return f"{round(part * 100)}\u00a0%"


def _amount(row: PourRow, reader: Reader) -> str:
    value = float(row.add.value)
    if value == 0:
        return render(say("paper.add_nothing"), reader)
    if value < 0:
        out = Figure(-value, row.add.unit, row.add.source, row.add.confirmed)
        return render(say("paper.take_out", figure=out), reader)
    return figure_text(row.add, reader)

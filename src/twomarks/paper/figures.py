"""A figure as it stands on a stub: number, unit and where it comes from, apart, in the reader's units."""

from __future__ import annotations

from typing import TypedDict

from twomarks.words import Figure, Reader, Source, figure_text, number_text, say, source_text
from twomarks.words.render import render

__all__ = ["PrintedFigure", "clock_text", "is_unconfirmed", "printed_figure"]

UNCONFIRMED = ("told", "memory")
MINUTES_A_HOUR = 60


class PrintedFigure(TypedDict):
    """What a sheet needs of a figure; `whole` is number and unit together, `doubt` says that it is not confirmed."""

    number: str
    unit: str
    whole: str
    source: str
    doubt: str


def is_unconfirmed(figure: Figure) -> bool:
    """Return whether a figure was told or remembered and nobody has confirmed it on this vehicle."""
    return figure.source is not None and figure.source.kind in UNCONFIRMED and not figure.confirmed


def printed_figure(figure: Figure, reader: Reader) -> PrintedFigure:
    """Return `figure` for a stub in the units of `reader`."""
    whole = figure_text(figure, reader)
    number = number_text(figure, reader)
    return {
        "number": number,
        "unit": whole.removeprefix(number).strip(),
        "whole": whole,
        "source": _origin(figure.source, figure.confirmed, reader),
        "doubt": render(say("paper.not_confirmed"), reader) if is_unconfirmed(figure) else "",
    }


def _origin(source: Source | None, confirmed: str, reader: Reader) -> str:
    told = source_text(source, reader) if source is not None else ""
    return render(say("paper.confirmed", source=told, confirmed=confirmed), reader) if confirmed else told


def clock_text(minutes: float, reader: Reader) -> str:
    """Return a length of time as hours and minutes, or as seconds where it is less than a minute."""
    if minutes < 1:
        return render(say("paper.seconds", seconds=round(minutes * 60)), reader)
    hours, rest = divmod(round(minutes), MINUTES_A_HOUR)
    return render(say("paper.hours_minutes" if hours else "paper.minutes", hours=hours, minutes=rest), reader)

"""What a thread and a drive are called: metric threads with their pitch, inch threads as text, drives and spanner sizes."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Any, Literal, cast

from twomarks.errors import InputError
from twomarks.reference.tables import Seen
from twomarks.reference.threads import AcrossFlatsRow, DriveRow, across_flats, drives, threads
from twomarks.trade.arrays import Real, Reals, require, require_within

__all__ = ["Drive", "Thread", "read_drive", "read_thread", "spanner_sizes", "stress_area"]

_METRIC = re.compile(r"m\s*(\d+(?:[.,]\d+)?)(?:\s*[x×*]\s*(\d+(?:[.,]\d+)?))?(?:\s*-\s*\d[a-z])?(\s*-?\s*lh)?", re.IGNORECASE)
_INCH = re.compile(r"\b(un[cfs]?|unef|bs[fpw]|bspp|bspt|nptf?|npsm|whitworth)\b|\d\s*/\s*\d|\"|\binch(es)?\b|^[gr]c?\s*\d", re.IGNORECASE)
_NUMBERED = re.compile(r"([te])\s?(\d{1,3})", re.IGNORECASE)
_SIZE = re.compile(r"(?:\b(?:no\.?|number|size)\s*)?(\d+(?:[.,]\d+)?(?:\s*/\s*\d+)?)\s*(mm|in\b|inch\b|\")?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread as it is called.

    `series` is ``coarse`` or ``fine`` where the table lists it, ``not listed`` for another metric pitch, ``inch`` for a thread
    that is kept as text; an inch thread has neither diameter nor pitch here.
    """

    name: str
    series: Literal["coarse", "fine", "not listed", "inch"]
    diameter_mm: float | None = None
    pitch_mm: float | None = None
    left_handed: bool = False
    seen: Seen | None = None


@dataclass(frozen=True, slots=True)
class Drive:
    """How a fastening is turned: the kind of drive, its size as text with the unit (or a bare number), and the row it was read by."""

    name: str
    size: str
    row: DriveRow


def read_thread(*, text: str) -> Thread:
    """Return the thread that a handbook or a label names.

    Parameters
    ----------
    text : str
        Such as ``"M16x1.5"``, ``"M10"`` (its coarse pitch), ``"1/2-20 UNF"``; case, spaces and the sign between do not matter.

    Returns
    -------
    Thread
        Metric with diameter and pitch, or an inch thread kept as text.

    Raises
    ------
    InputError
        If the text names no thread, a metric thread has a pitch that cannot be (0, or a quarter of the diameter and more), or no
        pitch is given for a diameter that the table does not list.

    Notes
    -----
    Range: metric from 1 to 100 mm; the table lists M6 to M24. Departs from the source: a trailing tolerance ("-6g") is ignored.

    References
    ----------
    metric_thread_chart
    """
    wanted = " ".join(text.split())
    match = _METRIC.fullmatch(wanted)
    if match is None:
        if _INCH.search(wanted):
            return Thread(wanted, "inch")
        raise InputError("threads.unreadable", where="thread", found=text, example="M16x1.5")
    diameter = float(match[1].replace(",", "."))
    if not 1.0 <= diameter <= 100.0:
        raise InputError("threads.diameter", where="thread", found=text, example="M16x1.5")
    left = bool(match[3])
    listed = {row.pitch_mm: row for row in threads().values() if row.diameter_mm == diameter}
    if match[2] is None:
        coarse = next((row for row in listed.values() if row.series == "coarse"), None)
        if coarse is None:
            raise InputError("threads.no_pitch", where="thread", found=text, example="M16x1.5")
        return Thread(coarse.name, "coarse", diameter, coarse.pitch_mm, left, coarse.seen)
    pitch = float(match[2].replace(",", "."))
    if not 0.0 < pitch < diameter / 4.0:
        usual = tuple(f"{each:g} mm" for each in sorted(listed))
        raise InputError("threads.pitch", where="thread", found=text, expected=usual or None, example="M16x1.5")
    row = listed.get(pitch)
    if row is None:
        return Thread(f"M{diameter:g}x{pitch:g}", "not listed", diameter, pitch, left)
    return Thread(row.name, row.series, diameter, pitch, left, row.seen)


def stress_area(*, diameter_mm: Real, pitch_mm: Reals) -> Real:
    """Return the area that carries the load in a metric thread.

    Parameters
    ----------
    diameter_mm : float or ndarray, shape (n,)
        Nominal diameter [mm], 1 to 100.
    pitch_mm : float or ndarray, shape (n,)
        Pitch [mm], above 0 and below a quarter of the diameter.

    Returns
    -------
    float or ndarray, shape (n,)
        Stress area [mm2].

    Raises
    ------
    OutOfRangeError
        If a diameter or a pitch is outside its range or not a number.
    InputError
        If a pitch is a quarter of its diameter or more.

    Notes
    -----
    ``pi/4 ((d2 + d3)/2)^2`` with ``d2 = d - 0.649519 P`` and ``d3 = d - 1.226869 P``. Range: diameters of 1 to 100 mm. Departs from
    the source: none; the printed areas differ by up to 0.5 % through rounding.

    References
    ----------
    iso_68_thread
    """
    require_within(diameter_mm, quantity="diameter", unit="mm", source="iso_68_thread", low=1.0, high=100.0)
    require_within(pitch_mm, quantity="pitch", unit="mm", source="iso_68_thread", above=0.0, high=10.0)
    require(pitch_mm < diameter_mm / 4.0, "threads.pitch_too_coarse", found=pitch_mm, expected=diameter_mm)
    middle: Any = diameter_mm - 0.5 * (0.649519 + 1.226869) * pitch_mm
    return cast("Real", math.pi / 4.0 * middle * middle)


def spanner_sizes(*, diameter_mm: float) -> AcrossFlatsRow | None:
    """Return the spanner sizes of a hexagon head on a thread: the ISO size and the older one.

    Parameters
    ----------
    diameter_mm : float
        Nominal diameter of the thread [mm]; M6 to M24 are listed.

    Returns
    -------
    AcrossFlatsRow or None
        None for a diameter that the charts do not list.

    Raises
    ------
    OutOfRangeError
        If the diameter is not above 0.

    Notes
    -----
    M10, M12, M14 and M22 have two sizes in use: try before pulling. Range: M6 to M24. Departs from the source: none.

    References
    ----------
    across_flats_charts
    """
    require_within(diameter_mm, quantity="diameter", unit="mm", source="across_flats_charts", above=0.0)
    return across_flats().get(diameter_mm)


def read_drive(*, text: str) -> Drive:
    """Return how a fastening is turned, from the words of a sheet or a handbook.

    Parameters
    ----------
    text : str
        Such as ``"hex socket 17 mm"``, ``"13 mm hex"``, ``"hexalobular 45"``, ``"T45"``, ``"by hand"``.

    Returns
    -------
    Drive
        Kind and size; the size is "" where none is named.

    Raises
    ------
    InputError
        If no kind of drive is named.

    Notes
    -----
    The longest name wins ("hex socket" before "hex"). ``T`` and ``E`` with a number are the marks of the hexalobular socket and
    head. Range: the kinds of the table. Departs from the source: names without a standard are trade terms.

    References
    ----------
    iso_10664
    hexagon_socket_chart
    across_flats_charts
    """
    wanted = " ".join(text.casefold().replace("-", " ").split())
    by_name = {row.name: row for row in drives()}
    marked = _NUMBERED.fullmatch(wanted)
    if marked:
        row = by_name["hexalobular socket" if marked[1] == "t" else "hexalobular head"]
        return Drive(row.name, marked[2], row)
    named = [(word, row) for row in drives() for word in row.words if re.search(rf"\b{re.escape(word.replace('-', ' '))}\b", wanted)]
    if not named:
        raise InputError("threads.drive", where="drive", found=text, expected=tuple(by_name), example="hex socket 17 mm")
    word, row = max(named, key=lambda pair: len(pair[0]))
    size = _SIZE.search(wanted.replace(word.replace("-", " "), " ", 1))
    if size is None:
        return Drive(row.name, "", row)
    inch = bool(size[2]) and size[2] != "mm"
    number = size[1].replace(",", ".").replace(" ", "")
    return Drive(row.name, f"{number} in" if inch else f"{number} mm" if row.sized_by == "mm" else number, row)

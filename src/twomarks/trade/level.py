"""A reading on the stick as litres of oil, and litres as a reading: warmth, oil not yet run down, and sloping ground counted.

Litres are as poured, at 20 C. A reading is a fraction: 0 at the lower mark, 1 at the upper one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, cast

from twomarks.trade.arrays import Real, Reals, maths_of, require, require_within
from twomarks.trade.volume import POURED_C, volume_at

__all__ = [
    "LevelVolume",
    "Part",
    "Reading",
    "Stick",
    "drain_back_l",
    "level_volume",
    "oil_volume_l",
    "reading_of",
    "slope_rise_mm",
    "upper_mark_reached_l",
]

SOURCE = "level_practice"
UPSTAIRS_L = 0.5
"""What hangs above the sump just after running (0.3 to 1 L); common practice, no source."""
TAU_MIN = 3.0
"""How long all but a third of it takes to run down, hot; 10 minutes cold or thick; common practice, no source."""
STICK_SIGMA = 0.1
"""How well a stick is read, as a share of the span; common practice, no source."""
TEMP_SIGMA_C = 10.0
SLOPE_SIGMA_DEG = 0.5
UPSTAIRS_SIGMA_SHARE = 0.5
USUAL_DENSITY_KG_M3 = 860.0


@dataclass(frozen=True, slots=True)
class Stick:
    """A stick and what it stands for.

    `full_l` is all oil in the engine, as poured [L], when a settled reading stands at the upper mark with the oil at `marks_temp_c`
    [C], which is how warm the maker means it to be read. The marks lie `marks_apart_mm` apart upright, and the stick stands
    `off_middle_mm` from the middle of the oil, along the slope; both are needed only for sloping ground.
    """

    full_l: float
    between_marks_l: float
    marks_temp_c: float = POURED_C
    density15_kg_m3: float = USUAL_DENSITY_KG_M3
    marks_apart_mm: float | None = None
    off_middle_mm: float | None = None

    def check(self) -> None:
        """Refuse a stick that cannot be.

        Raises
        ------
        OutOfRangeError
            If a volume or a distance is not above 0, or the marks lie as far apart as all the oil.

        Notes
        -----
        Departs from the source: none.

        References
        ----------
        level_practice
        """
        require_within(self.full_l, quantity="volume", unit="L", source=SOURCE, above=0.0)
        require_within(self.between_marks_l, quantity="span", unit="L", source=SOURCE, above=0.0, below=self.full_l)
        if self.marks_apart_mm is not None:
            require_within(self.marks_apart_mm, quantity="length", unit="mm", source=SOURCE, above=0.0)


@dataclass(frozen=True, slots=True)
class Reading:
    """How a reading was taken: where the oil stood, how warm [C], how long after the stop [min], on what slope [degrees].

    The slope is above 0 where it raises the oil at the stick. `upstairs_l` is what hangs above the sump just after running [L]
    and `tau_min` how fast it comes down [min].
    """

    fraction: Reals
    oil_temp_c: Reals = POURED_C
    minutes_min: Reals = math.inf
    slope_deg: Reals = 0.0
    upstairs_l: float = UPSTAIRS_L
    tau_min: float = TAU_MIN


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the uncertainty: what it is, how it corrects the litres that the bare reading says, and its deviation [L]."""

    name: str
    correction_l: float
    sigma_l: float


@dataclass(frozen=True, slots=True)
class LevelVolume:
    """Oil in the engine by a reading, as poured [L], with its standard uncertainty; what lacks to the upper mark (negative: too much)."""

    volume_l: float
    sigma_l: float
    missing_l: float
    parts: tuple[Part, ...]


def drain_back_l(*, minutes_min: Real, upstairs_l: Reals = UPSTAIRS_L, tau_min: Reals = TAU_MIN) -> Real:
    """Return the oil that has not yet run down into the sump.

    Parameters
    ----------
    minutes_min : float or ndarray, shape (n,)
        Time since the engine stopped [min], not negative.
    upstairs_l : float or ndarray, shape (n,)
        What hangs above the sump just after running [L], not negative; usually 0.3 to 1.
    tau_min : float or ndarray, shape (n,)
        Time in which all but a third of it runs down [min], above 0; some 3 hot, 10 cold or thick.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume still above [L]; a reading stands low by it.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.

    Notes
    -----
    ``upstairs exp(-t / tau)``. Model and defaults are common practice put into a formula, no source; readings at 2, 5, 10 and
    30 minutes calibrate them. Departs from the source: none.

    References
    ----------
    level_practice
    """
    require_within(minutes_min, quantity="time", unit="min", source=SOURCE, low=0.0)
    require_within(upstairs_l, quantity="volume", unit="L", source=SOURCE, low=0.0)
    require_within(tau_min, quantity="time", unit="min", source=SOURCE, above=0.0)
    return cast("Real", _hanging_l(minutes_min, upstairs_l, tau_min))


def _hanging_l(minutes: Any, upstairs_l: Any, tau: Any) -> Any:
    share = -minutes / tau
    return upstairs_l * maths_of(share).exp(share)


def slope_rise_mm(*, distance_mm: Reals, slope_deg: Real) -> Real:
    """Return how much sloping ground lifts the oil at the stick.

    Parameters
    ----------
    distance_mm : float or ndarray, shape (n,)
        From the middle of the oil to the stick, along the slope [mm], any.
    slope_deg : float or ndarray, shape (n,)
        Slope of the ground [degrees], -20 to 20, above 0 where it raises the oil at the stick.

    Returns
    -------
    float or ndarray, shape (n,)
        Rise [mm]; negative where the oil falls there.

    Raises
    ------
    OutOfRangeError
        If the slope lies outside its range.

    Notes
    -----
    ``distance tan(slope)``. To be rid of it: read, turn the vehicle round on the spot, read again, take the mean. Departs from
    the source: derived here.

    References
    ----------
    level_practice
    """
    require_within(distance_mm, quantity="length", unit="mm", source=SOURCE)
    require_within(slope_deg, quantity="slope", unit="deg", source=SOURCE, low=-20.0, high=20.0)
    m: Any = maths_of(slope_deg)
    angle: Any = m.radians(slope_deg)
    # tan as sine over cosine: what math and NumPy share by name here is the cosine.
    sine: Any = m.cos(math.pi / 2.0 - angle)
    return cast("Real", distance_mm * sine / m.cos(angle))


def upper_mark_reached_l(stick: Stick) -> float:
    """Return the room that the oil takes up, at the warmth the marks are for, when it stands at the upper mark.

    Parameters
    ----------
    stick : Stick
        The stick.

    Returns
    -------
    float
        Volume [L].

    Raises
    ------
    OutOfRangeError
        If the stick cannot be, or its temperature or density lies outside the range of the expansion.

    Notes
    -----
    All oil expands, not only that between the marks: 6 L from 20 to 90 C gain a third of a litre. Departs from the source: none.

    References
    ----------
    api_mpms_11_1, level_practice
    """
    stick.check()
    return volume_at(volume_l=stick.full_l, temp_c=POURED_C, to_temp_c=stick.marks_temp_c, density15_kg_m3=stick.density15_kg_m3)


def _raised(stick: Stick, slope_deg: Any) -> Any:
    """Return by how much of the span sloping ground lifts the reading; nothing on level ground."""
    if stick.marks_apart_mm is None or stick.off_middle_mm is None:
        require(slope_deg == 0.0, "level.slope_needs")
        return 0.0
    return slope_rise_mm(distance_mm=stick.off_middle_mm, slope_deg=slope_deg) / stick.marks_apart_mm


def _hanging(reading: Reading) -> Any:
    if not isinstance(reading.minutes_min, float) or math.isfinite(reading.minutes_min):
        minutes: Any = reading.minutes_min
        return drain_back_l(minutes_min=minutes, upstairs_l=reading.upstairs_l, tau_min=reading.tau_min)
    return 0.0


def oil_volume_l(stick: Stick, reading: Reading) -> Any:
    """Return the oil in the engine that a reading stands for, as poured.

    Parameters
    ----------
    stick : Stick
        The stick and what it stands for.
    reading : Reading
        Where the oil stood, and how the reading was taken; its numbers may be arrays of shape (n,), the fraction from -2 to 4.

    Returns
    -------
    float or ndarray, shape (n,)
        Volume at 20 C [L], with what has not run down yet.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If the reading would mean less than no oil, or the ground slopes and the stick's place is not known.

    Notes
    -----
    ``V(upper mark, hot) - (1 - fraction + slope) span + not run down``, brought to 20 C. The span is a room in the sump and does
    not expand. Departs from the source: derived here.

    References
    ----------
    level_practice, api_mpms_11_1
    """
    upper_l = upper_mark_reached_l(stick)
    require_within(reading.fraction, quantity="level", source=SOURCE, low=-2.0, high=4.0)
    below = 1.0 - reading.fraction + _raised(stick, reading.slope_deg)
    hot_l = upper_l - below * stick.between_marks_l + _hanging(reading)
    require(hot_l > 0.0, "level.less_than_none", found=reading.fraction)
    return volume_at(volume_l=hot_l, temp_c=reading.oil_temp_c, to_temp_c=POURED_C, density15_kg_m3=stick.density15_kg_m3)


def reading_of(stick: Stick, reading: Reading, *, volume_l: Real) -> Real:
    """Return where oil stands on the stick; the other way round of `oil_volume_l`.

    Parameters
    ----------
    stick : Stick
        The stick and what it stands for.
    reading : Reading
        How the reading is taken; its fraction does not matter.
    volume_l : float or ndarray, shape (n,)
        All oil in the engine, as poured [L], not negative.

    Returns
    -------
    float or ndarray, shape (n,)
        The reading [-], 0 at the lower mark and 1 at the upper.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        If the ground slopes and the stick's place is not known.

    Notes
    -----
    As `oil_volume_l`, solved for the fraction. Departs from the source: derived here.

    References
    ----------
    level_practice, api_mpms_11_1
    """
    temp_c: Any = reading.oil_temp_c
    hot_l: Any = volume_at(volume_l=volume_l, temp_c=POURED_C, to_temp_c=temp_c, density15_kg_m3=stick.density15_kg_m3)
    missing_l = upper_mark_reached_l(stick) + _hanging(reading) - hot_l
    return cast("Real", 1.0 - missing_l / stick.between_marks_l + _raised(stick, reading.slope_deg))


def level_volume(
    stick: Stick,
    reading: Reading,
    *,
    span_sigma_l: float = 0.0,
    stick_sigma: float = STICK_SIGMA,
    temp_sigma_c: float = TEMP_SIGMA_C,
    slope_sigma_deg: float = SLOPE_SIGMA_DEG,
) -> LevelVolume:
    """Return the oil in the engine by one reading, with its standard uncertainty and what makes it up.

    Parameters
    ----------
    stick : Stick
        The stick and what it stands for.
    reading : Reading
        The reading and how it was taken.
    span_sigma_l : float
        How far the volume between the marks can be off, as a standard deviation [L], not negative.
    stick_sigma : float
        How well the stick is read, as a share of the span [-], not negative.
    temp_sigma_c : float
        How far the oil's temperature can be off [C], not negative, at most 60.
    slope_sigma_deg : float
        How far the ground can be off level [degrees], not negative, at most 5.

    Returns
    -------
    LevelVolume
        Volume as poured and its deviation [L]; the parts add in squares.

    Raises
    ------
    OutOfRangeError
        If an argument lies outside its range.
    InputError
        As for `oil_volume_l`.

    Notes
    -----
    Half of what has not run down counts as its deviation. Against the litres that the bare fraction says, each part has its
    correction. Departs from the source: the defaults are judgement of this project.

    References
    ----------
    level_practice, house_judgement, api_mpms_11_1
    """
    for quantity, value, high in (("deviation", span_sigma_l, None), ("stick", stick_sigma, 1.0), ("slope", slope_sigma_deg, 5.0)):
        require_within(value, quantity=quantity, source="house_judgement", low=0.0, high=high)
    require_within(temp_sigma_c, quantity="temperature", unit="C", source="house_judgement", low=0.0, high=60.0)
    fraction = cast("float", reading.fraction)
    volume_l: float = oil_volume_l(stick, reading)
    bare_l = stick.full_l - (1.0 - fraction) * stick.between_marks_l
    raised, hanging_l = _raised(stick, reading.slope_deg), _hanging(reading)
    warmer_l = volume_at(
        volume_l=volume_l, temp_c=POURED_C, to_temp_c=POURED_C + temp_sigma_c / 2.0, density15_kg_m3=stick.density15_kg_m3
    ) - volume_at(volume_l=volume_l, temp_c=POURED_C, to_temp_c=POURED_C - temp_sigma_c / 2.0, density15_kg_m3=stick.density15_kg_m3)
    known_place = stick.marks_apart_mm is not None and stick.off_middle_mm is not None
    tilted = abs(_raised(stick, slope_sigma_deg)) if known_place else 0.0
    slope_l = -raised * stick.between_marks_l
    parts = (
        Part("stick", 0.0, stick_sigma * stick.between_marks_l),
        Part("span", 0.0, abs(1.0 - fraction) * span_sigma_l),
        Part("not_run_down", hanging_l, UPSTAIRS_SIGMA_SHARE * hanging_l),
        Part("warmth", volume_l - bare_l - hanging_l - slope_l, warmer_l),
        Part("slope", slope_l, tilted * stick.between_marks_l),
    )
    return LevelVolume(volume_l, math.hypot(*(part.sigma_l for part in parts)), stick.full_l - volume_l, parts)

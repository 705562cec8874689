"""The class of a motorcycle oil by its clutch indices."""

from __future__ import annotations

from twomarks.reference.oil_categories import clutch_bands
from twomarks.trade.arrays import require_within

__all__ = ["clutch_classes_of"]

SOURCE = "jaso_t903"


def clutch_classes_of(*, dynamic_friction_index: float, static_friction_index: float, stop_time_index: float) -> tuple[str, ...]:
    """Return the classes for wet clutches that three measured indices earn.

    Parameters
    ----------
    dynamic_friction_index : float
        Dynamic friction against the reference oils [-], 0 to 5.
    static_friction_index : float
        Static friction against the reference oils [-], 0 to 5.
    stop_time_index : float
        Time to stop against the reference oils [-], 0 to 5.

    Returns
    -------
    tuple of str
        ``MA`` and with it ``MA1`` or ``MA2`` where all three indices lie in its band; empty where one lies outside that of MA.

    Raises
    ------
    OutOfRangeError
        If an index is below 0 or above 5.

    Notes
    -----
    The lower end of a band belongs to it and the upper does not, so that 1.50, 1.60, 1.60 is MA2. Departs from the source: it
    prints the ends of the bands without saying to which they belong.

    References
    ----------
    jaso_t903
    """
    measured = (dynamic_friction_index, static_friction_index, stop_time_index)
    for value in measured:
        require_within(value, quantity="clutch index", source=SOURCE, low=0.0, high=5.0)
    return tuple(
        band.name
        for band in clutch_bands()
        if all(low <= value < high for value, (low, high) in zip(measured, (band.dynamic, band.static, band.stop), strict=True))
    )

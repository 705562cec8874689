"""The normal distribution, without the packages that bring chance along."""

from __future__ import annotations

import math

from twomarks.trade.arrays import require_within

__all__ = ["normal_quantile", "normal_share_below"]


def normal_share_below(*, value: float) -> float:
    """Return the share of a standard normal quantity that lies below a value.

    Parameters
    ----------
    value : float
        In standard deviations from the mean [-], any finite number.

    Returns
    -------
    float
        Share [-], 0 to 1.

    Raises
    ------
    OutOfRangeError
        If `value` is not a finite number.

    Notes
    -----
    ``erfc(-value / sqrt 2) / 2``. Departs from the source: none.

    References
    ----------
    normal_distribution
    """
    require_within(value, quantity="deviations", source="normal_distribution")
    return 0.5 * math.erfc(-value / math.sqrt(2.0))


def normal_quantile(*, share: float) -> float:
    """Return the value below which a share of a standard normal quantity lies.

    Parameters
    ----------
    share : float
        Share [-], above 0 and below 1.

    Returns
    -------
    float
        In standard deviations from the mean [-], to 1e-12.

    Raises
    ------
    OutOfRangeError
        If the share is not between 0 and 1.

    Notes
    -----
    By halving the interval. Departs from the source: none.

    References
    ----------
    normal_distribution
    """
    require_within(share, quantity="share", source="normal_distribution", above=0.0, below=1.0)
    low, high = -40.0, 40.0
    for _ in range(80):
        middle = 0.5 * (low + high)
        if normal_share_below(value=middle) < share:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)

"""One body for a number and for an array of them: `math` serves the number, NumPy the array, and only a given array loads it.

Every formula of the engineering is written once. A call with plain numbers stays on `math` and never imports NumPy; a call
with an array answers with an array of the broadcast shape. Checks name the first offending place and count the rest.
"""

from __future__ import annotations

import math
import sys
from bisect import bisect_right
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Protocol, TypeAlias, TypeVar, cast

from twomarks.errors import InputError, OutOfRangeError

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Maths", "Real", "Reals", "choose", "interpolate", "is_array", "maths_of", "require", "require_within"]

Real = TypeVar("Real", "float", "NDArray[np.float64]")
"""What goes in comes out: a number for a number, an array for an array."""

Reals: TypeAlias = "float | NDArray[np.float64]"
"""A number, or an array that broadcasts with the others of the call."""


class Maths(Protocol):
    """The functions that `math` and NumPy share by name."""

    def exp(self, x: Real, /) -> Real: ...

    def log(self, x: Real, /) -> Real: ...
    def log10(self, x: Real, /) -> Real: ...
    def sqrt(self, x: Real, /) -> Real: ...
    def cos(self, x: Real, /) -> Real: ...
    def radians(self, x: Real, /) -> Real: ...


def is_array(*values: object) -> bool:
    """Return whether any of `values` is an array; false as long as nobody has loaded NumPy."""
    numpy = sys.modules.get("numpy")
    return numpy is not None and any(isinstance(value, numpy.ndarray) for value in values)


def maths_of(*values: object) -> Maths:
    """Return NumPy where any of `values` is an array, else `math`."""
    return cast("Maths", sys.modules["numpy"] if is_array(*values) else math)


def choose(condition: Any, yes: Any, no: Any) -> Any:
    """Return `yes` where `condition` holds, else `no`; both are worked out, so neither may fail where it is not chosen."""
    if is_array(condition, yes, no):
        return sys.modules["numpy"].where(condition, yes, no)
    return yes if condition else no


def interpolate(x: Real, xs: Sequence[float], ys: Sequence[float]) -> Real:
    """Return the value of a table at `x`, straight between its points; `x` is within them and `xs` rises."""
    if is_array(x):
        return sys.modules["numpy"].interp(x, xs, ys)
    number: Any = x
    at = min(max(bisect_right(xs, number), 1), len(xs) - 1)
    x0, x1, y0, y1 = xs[at - 1], xs[at], ys[at - 1], ys[at]
    return y0 + (number - x0) / (x1 - x0) * (y1 - y0)


def require_within(
    values: Reals,
    *,
    quantity: str,
    unit: str = "",
    source: str = "",
    low: float | None = None,
    high: float | None = None,
    above: float | None = None,
    below: float | None = None,
) -> None:
    """Refuse values outside a range; what is not a finite number is refused whatever the range.

    `low` and `high` belong to the range, `above` and `below` do not.

    Raises
    ------
    OutOfRangeError
        With quantity, value, limits, unit and source; of an array the first offending `index` and how many `more`.
    """
    if not is_array(values):
        number = cast("float", values)
        if not _is_within(number, low, high, above, below):
            raise _outside(number, quantity, unit, source, low, high, above, below)
        return
    numpy = sys.modules["numpy"]
    array = cast("NDArray[np.float64]", values)
    # The extremes decide for all: one that is not a number comes out as both.
    if not array.size or (
        _is_within(float(array.min()), low, high, above, below) and _is_within(float(array.max()), low, high, above, below)
    ):
        return
    bad = ~numpy.isfinite(array)
    for limit, is_bad in ((low, numpy.less), (high, numpy.greater), (above, numpy.less_equal), (below, numpy.greater_equal)):
        if limit is not None:
            bad |= is_bad(array, limit)
    places = numpy.flatnonzero(bad)
    first = int(places[0])
    raise _outside(
        float(array.flat[first]), quantity, unit, source, low, high, above, below, index=_index(array, first), more=len(places) - 1 or None
    )


def require(holds: Any, key: str, /, **found: Any) -> None:
    """Refuse what does not hold, under the key of the sentence; arrays among `found` are shown at the first offending place.

    Raises
    ------
    InputError
        With the values of `found`, and for an array the first offending `index` and how many `more`.
    """
    if not is_array(holds):
        if not holds:
            raise InputError(key, **found)
        return
    numpy = sys.modules["numpy"]
    if holds.all():
        return
    places = numpy.flatnonzero(~holds)
    first = int(places[0])
    shown = {name: float(numpy.broadcast_to(value, holds.shape).flat[first]) if is_array(value) else value for name, value in found.items()}
    raise InputError(key, **shown, index=_index(holds, first), more=len(places) - 1 or None)


def _is_within(value: float, low: float | None, high: float | None, above: float | None, below: float | None) -> bool:
    return (
        math.isfinite(value)
        and (low is None or value >= low)
        and (high is None or value <= high)
        and (above is None or value > above)
        and (below is None or value < below)
    )


def _index(array: Any, flat: int) -> int | tuple[int, ...]:
    """Return where the `flat`-th element stands: a number in one dimension, else one per dimension."""
    if array.ndim <= 1:
        return flat
    return tuple(int(place) for place in sys.modules["numpy"].unravel_index(flat, array.shape))


def _outside(
    value: float,
    quantity: str,
    unit: str,
    source: str,
    low: float | None,
    high: float | None,
    above: float | None,
    below: float | None,
    **where: object,
) -> OutOfRangeError:
    return OutOfRangeError(
        quantity=quantity,
        value=value,
        low=low if low is not None else above,
        high=high if high is not None else below,
        unit=unit,
        source=source,
        above=above,
        below=below,
        **where,
    )

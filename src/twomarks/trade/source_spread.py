"""How far a volume can be off, by where it comes from."""

from __future__ import annotations

from twomarks.errors import InputError
from twomarks.trade.arrays import require_within

__all__ = ["KINDS_OF_SOURCE", "sigma_of_source"]

_SIGMA_SHARE = {
    "stamped": 0.02,
    "measured": 0.02,
    "handbook": 0.025,
    "label": 0.03,
    "supplier": 0.06,
    "told": 0.10,
    "practice": 0.10,
    "memory": 0.10,
}
_SIGMA_LEAST_L = 0.05
KINDS_OF_SOURCE = tuple(_SIGMA_SHARE)


def sigma_of_source(kind: str, *, volume_l: float) -> float:
    """Return how far a volume can be off, as a standard deviation, by where it comes from.

    Parameters
    ----------
    kind : str
        ``stamped``, ``measured``, ``handbook``, ``label``, ``supplier``, ``told``, ``practice`` or ``memory``.
    volume_l : float
        The volume itself [L], above 0.

    Returns
    -------
    float
        Standard deviation [L], at least 0.05.

    Raises
    ------
    InputError
        If the kind is not known.
    OutOfRangeError
        If the volume is not above 0.

    Notes
    -----
    Judgement of this project, no source: 2 to 3 % for what is printed or measured, 6 % for a catalogue, 10 % for hearsay. Departs
    from the source: none.

    References
    ----------
    house_judgement
    """
    if kind not in _SIGMA_SHARE:
        raise InputError("level.source_kind", found=kind, expected=KINDS_OF_SOURCE)
    require_within(volume_l, quantity="volume", unit="L", source="house_judgement", above=0.0)
    return max(_SIGMA_LEAST_L, _SIGMA_SHARE[kind] * volume_l)

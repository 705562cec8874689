"""What is found about one oil and one entry of the handbook: reasons with their sources, and margins with their limits."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from twomarks import units
from twomarks.words import Figure, Message, Value, say

__all__ = ["GRADE_SPAN_K", "RANK", "Findings", "Margin", "Reason", "State", "shown"]

State = Literal["meets", "does not meet", "not shown"]
RANK: dict[State, int] = {"meets": 0, "not shown": 1, "does not meet": 2}
GRADE_SPAN_K = 25.0
"""From the coldest to the warmest cranking test of the winter grades (-35 to -10 C): what a margin of temperature is a share of."""


def shown(*, value: float, unit: str) -> Value:
    """Return a figure as a sentence shows it.

    Parameters
    ----------
    value : float
        The figure [`unit`]; any finite number.
    unit : str
        A unit code.

    Returns
    -------
    Value
        A figure in the reader's unit; a share as text with two decimals, for limits of ash are a tenth apart.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    house_judgement
    """
    return units.written(value, unit=unit, decimals=2) if unit == "%" else Figure(value, unit)


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason: what it alone would come to ("" changes nothing), its sentence, and keys of the bibliography.

    A reason without a source rests on the handbook and the label alone.
    """

    state: State | Literal[""]
    message: Message
    sources: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Margin:
    """How far a figure is from its limit: negative where it is beyond; `relative` is a share of the limit.

    A margin of temperature is in kelvin, and relative to the 25 K from the coldest to the warmest winter grade.
    """

    name: str
    found: float
    limit: float
    unit: str
    margin: float
    relative: float
    source: str = ""

    @property
    def message(self) -> Message:
        """The margin in words."""
        return say(f"oil.margin_{self.name}", found=shown(value=self.found, unit=self.unit), limit=shown(value=self.limit, unit=self.unit))


@dataclass(slots=True)
class Findings:
    """What has been found so far about one oil and one entry of the handbook."""

    state: State = "meets"
    bad: int = 0
    grade_missed: bool = False
    reasons: list[Reason] = field(default_factory=list)
    settles: list[Message] = field(default_factory=list)
    margins: list[Margin] = field(default_factory=list)

    def add(self, state: State, reason: Message, *, settles: tuple[Message, ...] = (), sources: tuple[str, ...] = ()) -> None:
        """Add what one part of the entry says, its reason, what would settle it, and where that is from.

        Parameters
        ----------
        state : State
            What this part alone comes to.
        reason : Message
            Why.
        settles : tuple of Message
            The facts that would settle it, where it is open.
        sources : tuple of str
            Keys of the bibliography.

        Notes
        -----
        The worst part decides. Departs from the sources: none.

        References
        ----------
        house_judgement
        """
        self.state = max(self.state, state, key=RANK.__getitem__)
        self.bad += RANK[state]
        self.reasons.append(Reason(state, reason, sources))
        self.settles += settles

    def note(self, reason: Message, *, sources: tuple[str, ...] = ()) -> None:
        """Add a reason that changes nothing.

        Parameters
        ----------
        reason : Message
            What is worth knowing.
        sources : tuple of str
            Keys of the bibliography.

        Notes
        -----
        Departs from the sources: none.

        References
        ----------
        house_judgement
        """
        self.reasons.append(Reason("", reason, sources))

    def measure(
        self, name: str, *, found: float, limit: float, unit: str, source: str = "", at_most: bool = False, span: float | None = None
    ) -> Margin:
        """Add how far a figure is from its limit, and return it.

        Parameters
        ----------
        name : str
            Which margin.
        found, limit : float
            The figure and its limit [`unit`]; any finite numbers.
        unit : str
            Unit of both.
        source : str
            Key of the bibliography that has the limit; "" for the handbook's own.
        at_most : bool
            Whether the limit is an upper one.
        span : float, optional
            What the margin is a share of [`unit`], above 0, any finite number; the limit itself where left out.

        Returns
        -------
        Margin
            Negative beyond the limit.

        Notes
        -----
        Relative margin = margin / span. Departs from the sources: none.

        References
        ----------
        house_judgement
        """
        margin = limit - found if at_most else found - limit
        scale = abs(limit) if span is None else span
        told = Margin(name, found, limit, unit, margin, margin / scale if scale else margin, source)
        self.margins.append(told)
        return told

"""A frozen job card as its page shows it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from twomarks.model.ledger import Tick
from twomarks.planning.card import CardPour, CardStep, Gate, JobCard, PourRow
from twomarks.planning.help_call import HelpCall, call_first, number_to_call
from twomarks.planning.when_wrong import all_branches, belonging_to
from twomarks.web.look.pictures import stick
from twomarks.words import Figure, Message, Reader, say

__all__ = ["Entry", "PourLine", "entries", "known_ticks", "pour_lines", "pour_tables", "reading_text", "shown"]


@dataclass(frozen=True, slots=True)
class Entry:
    """A gate or a step, in the order in which they are worked.

    `after` is where one is when the step is done; empty where it is as after the step before. `wrong` are the keys of the
    branches that belong to the step when it goes wrong.
    """

    gate: Gate | None = None
    step: CardStep | None = None
    after: tuple[Message, ...] = ()
    wrong: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PourLine:
    """One line of the pour table: from a reading, and up to another where several ask for the same.

    `amount` is always positive, `take_out` says which way.
    """

    reading: Message
    up_to: Message | None
    amount: Figure
    take_out: bool
    note: Message | None

    @property
    def nothing(self) -> bool:
        """Whether the level is right as it is."""
        return self.amount.value == 0


def entries(card: JobCard) -> tuple[Entry, ...]:
    """Return steps with each gate before the step that it guards."""
    found: list[Entry] = []
    after: tuple[Message, ...] = ()
    for step in card.steps:
        found += [Entry(gate=gate) for gate in card.gates if gate.before == step.id]
        found.append(Entry(step=step, after=() if step.after == after else step.after, wrong=belonging_to(step)))
        after = step.after
    return (*found, *(Entry(gate=gate) for gate in card.gates if gate.before == ""))


def reading_text(reading: float) -> Message:
    """Return a reading of the stick as it is said: parts of the span, beyond the marks by how much."""
    part = Fraction(reading).limit_denominator(8)
    if part < 0:
        return say("web.stick_below", part=_part(-part))
    if part > 1:
        return say("web.stick_above", part=_part(part - 1))
    if part in (0, 1):
        return say("web.stick_lower") if part == 0 else say("web.stick_upper")
    return say("web.stick_between", part=_part(part))


def _part(part: Fraction) -> str:
    whole, rest = divmod(part.numerator, part.denominator)
    if not rest:
        return str(whole)
    return f"{whole} {rest}/{part.denominator}" if whole else f"{rest}/{part.denominator}"


def pour_tables(pour: CardPour) -> dict[str, Any]:
    """Return what the template of the pour plan needs: its tables and the drawn stick."""
    return {"before_rows": pour_lines(pour.before_start), "pour_rows": pour_lines(pour.rows), "pour_stick": stick(reading=None)}


def pour_lines(rows: Sequence[PourRow]) -> tuple[PourLine, ...]:
    """Return the lines of a pour table; neighbouring readings that ask for the same stand in one line."""
    lines: list[PourLine] = []
    for row in rows:
        value = row.add.value
        assert not isinstance(value, str)
        amount = Figure(-value if value < 0 else value, row.add.unit, row.add.source)
        at = reading_text(row.reading)
        before = lines[-1] if lines else None
        if before and (before.amount, before.take_out, before.note) == (amount, value < 0, row.note):
            lines[-1] = replace(before, up_to=at)
        else:
            lines.append(PourLine(at, None, amount, value < 0, row.note))
    return tuple(lines)


def known_ticks(ticks: Sequence[Tick]) -> str:
    """Return the ticks that are kept, as the card's page reads them."""
    return json.dumps(
        [
            {"id": str(tick.id), "target": tick.target, "what": tick.what, "words": tick.words}
            for tick in sorted(ticks, key=lambda tick: tick.number)
        ]
    )


def shown(card: JobCard, ticks: Sequence[Tick], *, call: HelpCall, reader: Reader) -> dict[str, Any]:
    """Return what the template of the card needs; `call` is what is said on the telephone when somebody is hurt."""
    figures: dict[str, Any] = {"card": card, "entries": entries(card), "ticks": known_ticks(ticks)}
    figures |= {
        "hurt": [one for one in all_branches() if one.hurt],
        "wrong": [one for one in all_branches() if not one.hurt],
        "call_first": call_first(call, reader.market),
        "call_number": number_to_call(call, reader.market),
    }
    if card.pour:
        figures |= pour_tables(card.pour)
    return figures

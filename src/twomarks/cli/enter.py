"""`twomarks enter`: what was done, with all that follows from it."""

from __future__ import annotations

from typing import TYPE_CHECKING
from uuid import UUID

import click

from twomarks import units
from twomarks.cli.options import Asking, asks, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.cli.typed import odometer_steps, volume_ml
from twomarks.errors import InputError
from twomarks.words import Figure, Reader, say

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.ledger import Reading
    from twomarks.planning.due import DueItem

__all__ = ["enter"]


@click.command()
@kept_vehicle_option
@click.option(
    "--item",
    "items",
    metavar="KEY",
    multiple=True,
    help="What was done, by its key in the vehicle sheet; may be given several times. Left out: the one that prepare makes ready.",
)
@click.option("--odometer", metavar="READING", required=True, help='The odometer, with its unit: "148290 km".')
@click.option("--product", metavar="KEY", help="The oil that went in, by its key on the shelf list; where no oil is listed, its name.")
@click.option("--volume", metavar="AMOUNT", help='What went in: "4.2 L".')
@click.option("--volume-out", metavar="AMOUNT", help='What came out: "4.0 L".')
@click.option("--level", metavar="SHARE", help="The last reading on the stick: 0 is the lower mark, 1 the upper one.")
@click.option("--can", metavar="KEY", help="The waste can that took what came out; left out, the first with room for engine oil.")
@click.option("--card", metavar="ID", help="The job card that was worked.")
@click.option("--note", metavar="TEXT", default="", help="Anything worth remembering.")
@click.option("--only-odometer", is_flag=True, help="Keep the odometer reading and nothing else.")
@click.option("--force", is_flag=True, help="Keep a reading below the last one all the same.")
@asks
def enter(
    asking: Asking,
    vehicle: str | None,
    items: tuple[str, ...],
    odometer: str,
    product: str | None,
    volume: str | None,
    volume_out: str | None,
    level: str | None,
    can: str | None,
    card: str | None,
    note: str,
    only_odometer: bool,
    force: bool,
) -> None:
    """Enter what was done: one daybook entry, and all that follows from it, in one piece.

    The odometer reading, the oil taken from stock, the waste, the level and the follow-ups are kept with the entry, or
    nothing is. The answer says when the work is due again.
    """
    scope = asking.scope()
    from twomarks.cli.chosen import chosen_vehicle
    from twomarks.keeping import questions
    from twomarks.keeping.services.worked import Worked, record_work
    from twomarks.model.ledger import Reading

    today = asking.writing_day()
    reader = questions.reader(scope)
    chosen = chosen_vehicle(scope, vehicle)
    if only_odometer:
        metres = odometer_steps(odometer, sheet=questions.sheet(scope, chosen), reader=reader)
        _only_reading(asking, scope, chosen, Reading(day=today, steps=metres, text=odometer, note=note), force=force)
        return
    prepared = questions.prepare(scope, chosen, today, item=items[0] if items else None)
    done_items = items or ((prepared.job.item,) if prepared.job.item else ())
    if not done_items:
        from twomarks.planning.general import general_items

        sheet = questions.sheet(scope, chosen)
        known = tuple(sheet.items) or tuple(item.key for item in general_items(sheet))
        raise InputError("enter.which_item", where="--item", expected=known)
    went_in, came_out = _volume(volume, "--volume", reader), _volume(volume_out, "--volume-out", reader)
    reading = odometer_steps(odometer, sheet=questions.sheet(scope, chosen), reader=reader)
    own = prepared.job.item in done_items
    worked = Worked(
        day=today,
        items=done_items,
        title=prepared.job.card.title if own else "",
        odometer_steps=reading,
        text=odometer,
        product=product or "",
        volume_in_ml=went_in,
        volume_out_ml=came_out,
        can=can or questions.can_with_room(scope, came_out),
        level_permille=_permille(level),
        parts=tuple(str(part.number.value) for part in prepared.job.card.parts if part.number) if own else (),
        card=_card(card),
        follow_ups=prepared.job.card.follow_ups if own else (),
        note=note,
    )
    kept = record_work(scope, chosen, worked, force=force, today=today)
    judged = next((oil for oil in prepared.job.oils if oil.key == product), None)
    after = questions.due(scope, chosen, today)
    asked = questions.follow_ups(scope, chosen, still_open=True)
    changed = tuple(one for one in after if one.item in done_items)
    if asking.as_json:
        from twomarks.exchange.answers.enter import enter_answer

        Terminal.json(enter_answer(today, chosen, kept, asked, changed, reader))
        return
    terminal = Terminal(reader)
    terminal.line(say("enter.kept", vehicle=chosen, number=kept.number, chain=kept.chain[:16]), indent=0)
    if judged is not None and judged.verdict.state != "meets":
        verdict = say(f"prepare.verdict_{judged.verdict.state.replace(' ', '_')}")
        terminal.line(say("enter.oil", oil=judged.name, verdict=verdict), indent=0)
        terminal.lines((*judged.verdict.reasons[:1], *judged.verdict.settles[:1]))
    if asked:
        terminal.heading("enter.follow_ups")
    for follow_up in asked:
        at = None if follow_up.due_odometer_steps is None else Figure(units.from_steps(follow_up.due_odometer_steps, kind="distance"), "km")
        terminal.line(say("enter.follow_up", words=follow_up.words, day=follow_up.due_day, at=at), mark="-")
    terminal.heading("enter.due_again")
    _due_again(terminal, changed)


def _only_reading(asking: Asking, scope: Scope, vehicle: str, reading: Reading, *, force: bool) -> None:
    """Keep one odometer reading, and say where the counter probably stands now."""
    from twomarks.cli.due import say_counter
    from twomarks.keeping import questions
    from twomarks.keeping.services.readings import record_reading

    today, reader = asking.writing_day(), questions.reader(scope)
    kept = record_reading(scope, vehicle, reading, force=force, today=today)
    if asking.as_json:
        from twomarks.exchange.answers.enter import enter_answer

        Terminal.json(enter_answer(today, vehicle, kept, (), (), reader))
        return
    seen = questions.outlook(scope, vehicle, today)
    terminal = Terminal(reader)
    terminal.line(say("enter.reading", vehicle=vehicle, reading=Figure(reading.value, "km"), number=kept.number), indent=0)
    say_counter(terminal, seen.history, seen.forecast)


def _due_again(terminal: Terminal, changed: tuple[DueItem, ...]) -> None:
    from twomarks.cli.due import say_due

    say_due(terminal, changed)


def _volume(text: str | None, where: str, reader: Reader) -> int | None:
    return None if text is None else volume_ml(text, where=where, reader=reader)


def _permille(text: str | None) -> int | None:
    if text is None:
        return None
    share = units.number(text.rstrip("%").strip(), decimal=".", where="--level") / (100 if text.endswith("%") else 1)
    if not -2 <= share <= 3:
        raise InputError("enter.level", where="--level", found=text, example="0.8")
    return round(share * 1000)


def _card(text: str | None) -> UUID | None:
    if text is None:
        return None
    try:
        return UUID(text)
    except ValueError:
        raise InputError("keeping.id_expected", where="--card", found=text) from None

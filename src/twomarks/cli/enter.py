"""`twomarks enter`: what was done, what happened, what was measured or noticed, with all that follows from it."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any
from uuid import UUID

import click

from twomarks import units
from twomarks.cli.entered_said import Work, answer_of, say_entered
from twomarks.cli.entering import Told
from twomarks.cli.options import Asking, asks, day_type, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.cli.typed import odometer_steps, volume_ml
from twomarks.errors import InputError
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.keeping.services.entered import Entered
    from twomarks.keeping.services.worked import Worked

__all__ = ["enter"]

_NOTICED = ("events", "measured", "snags", "quotes", "uses", "own_time")
_WORK = ("items", "product", "volume", "volume_out", "level", "can", "card", "closes", "cost", "minutes")


@click.command()
@kept_vehicle_option
@click.option(
    "--item",
    "items",
    metavar="KEY",
    multiple=True,
    help="What was done, by its key in the vehicle sheet; may be given several times. Left out: the one that prepare makes ready.",
)
@click.option("--odometer", metavar="READING", help='The odometer, with its unit: "148290 km"; work on an item needs it.')
@click.option("--product", metavar="KEY", help="The oil that went in, by its key on the shelf list; where no oil is listed, its name.")
@click.option("--volume", metavar="AMOUNT", help='What went in: "4.2 L".')
@click.option("--volume-out", metavar="AMOUNT", help='What came out: "4.0 L".')
@click.option("--level", metavar="SHARE", help="The last reading on the stick: 0 is the lower mark, 1 the upper one.")
@click.option("--can", metavar="KEY", help="The waste can that took what came out; left out, the first with room for engine oil.")
@click.option("--card", metavar="ID", help="The job card that was worked.")
@click.option("--cost", metavar="AMOUNT", help='What the materials that were used cost: "41.90"; left out, reckoned by the shelf list.')
@click.option("--minutes", type=click.IntRange(1, 100_000), metavar="MINUTES", help="How long you worked on it.")
@click.option("--closes", type=int, multiple=True, metavar="NUMBER", help="A snag that this work closed, by its number.")
@click.option("--measured", multiple=True, metavar="TEXT", help='A measured value: "front left tread 4.2 mm"; taken after the work.')
@click.option("--event", "events", multiple=True, metavar="WORD", help="What happened: waded, overheated, dust, towed_far, stood.")
@click.option("--snag", "snags", multiple=True, metavar="TEXT", help='Something noticed: "knocks over bumps".')
@click.option("--where", metavar="PLACE", default="", help="Where on the vehicle the snag is.")
@click.option(
    "--how-bad",
    type=click.Choice(("do not drive", "next workday", "watch")),
    default="next workday",
    show_default=True,
    help="How bad the snag is.",
)
@click.option("--quote", "quotes", multiple=True, metavar="TEXT", help='What a workshop asks for an item: "brake_fluid 89 EUR".')
@click.option("--shop", metavar="NAME", default="", help="Which workshop.")
@click.option("--use", "uses", multiple=True, metavar="TEXT", help='How it is driven: "towing mostly" (or often, or seldom).')
@click.option("--own-time", metavar="AMOUNT", help="What an hour of your own time counts in costs; nothing until you say so.")
@click.option("--day", type=day_type, metavar="DATE", help="The day it was; left out, today.")
@click.option("--note", metavar="TEXT", default="", help="Anything worth remembering.")
@click.option("--only-odometer", is_flag=True, help="Keep the odometer reading and nothing else.")
@click.option("--force", is_flag=True, help="Keep a reading below the last one all the same.")
@asks
def enter(asking: Asking, vehicle: str | None, force: bool, only_odometer: bool, **said: Any) -> None:
    """Enter what was done: one daybook entry, and all that follows from it, in one piece.

    The odometer reading, the oil taken from stock, the waste, the level and the follow-ups are kept with the entry, or
    nothing is. The answer says when the work is due again.

    What happened, what was measured, a snag, a quote or how the vehicle is driven can be entered alone or with the work.
    """
    scope = asking.scope()
    from twomarks.cli.chosen import chosen_vehicle
    from twomarks.keeping import questions
    from twomarks.keeping.services.entered import record_entered

    today = asking.writing_day()
    reader = questions.reader(scope)
    chosen = questions.vehicle(scope, chosen_vehicle(scope, vehicle))
    sheet = questions.sheet(scope, chosen.name)
    steps = None if said["odometer"] is None else odometer_steps(said["odometer"], sheet=sheet, reader=reader)
    told = Told(vehicle=chosen.name, vehicle_id=str(chosen.id), sheet=sheet, reader=reader, day=said["day"] or today, odometer_steps=steps)
    work = None if only_odometer or not _is_work(said) else _work(scope, told, today, said)
    entered = _entered(told, work.worked if work else None, {} if only_odometer else said)
    kept = record_entered(scope, chosen.name, entered, force=force, today=today)
    answer = answer_of(scope, told, entered, kept, today, work)
    if asking.as_json:
        from twomarks.exchange.answers.enter import enter_answer

        last = kept.work or (kept.rows[-1] if kept.rows else None)
        rows = tuple(row.number for row in kept.rows)
        Terminal.json(enter_answer(today, chosen.name, last, answer.asked, answer.changed, reader, work=bool(kept.work), rows=rows))
        return
    say_entered(Terminal(reader), scope, told, entered, kept, answer, today, work)


def _is_work(said: dict[str, Any]) -> bool:
    """Return whether an entry of work is meant: something of it was said, or nothing else was."""
    given = [name for name, value in said.items() if value not in (None, (), "")]
    return any(name in _WORK for name in given) or not any(name in _NOTICED for name in given)


def _work(scope: Scope, told: Told, today: dt.date, said: dict[str, Any]) -> Work:
    from twomarks.cli.entering import closed_snags, money_told
    from twomarks.keeping import questions
    from twomarks.keeping.services.worked import Worked

    prepared = questions.prepare(scope, told.vehicle, today, item=said["items"][0] if said["items"] else None)
    closes = closed_snags(scope, told, said["closes"])
    done_items = said["items"] or ((prepared.job.item,) if prepared.job.item and not closes else ())
    if not done_items and not closes:
        from twomarks.planning.general import general_items

        known = tuple(told.sheet.items) or tuple(item.key for item in general_items(told.sheet))
        raise InputError("enter.which_item", where="--item", expected=known)
    if done_items and said["odometer"] is None:
        raise InputError("enter.odometer", where="--odometer", example="148290 km")
    own = prepared.job.item in done_items
    cost_minor, currency = money_told(told, said["cost"], where="--cost")
    came_out = _volume(said["volume_out"], "--volume-out", told.reader)
    worked = Worked(
        day=told.day,
        items=done_items,
        title=prepared.job.card.title if own else "",
        odometer_steps=told.odometer_steps,
        text=said["odometer"] or "",
        product=said["product"] or "",
        volume_in_ml=_volume(said["volume"], "--volume", told.reader),
        volume_out_ml=came_out,
        can=said["can"] or questions.can_with_room(scope, came_out),
        level_permille=_permille(said["level"]),
        parts=tuple(str(part.number.value) for part in prepared.job.card.parts if part.number) if own else (),
        card=_card(said["card"]),
        follow_ups=prepared.job.card.follow_ups if own else (),
        note=said["note"],
        cost_minor=cost_minor,
        currency=currency,
        minutes=said["minutes"],
        snags=closes,
    )
    return Work(worked, prepared, said["product"])


def _entered(told: Told, worked: Worked | None, said: dict[str, Any]) -> Entered:
    from twomarks.cli import entering
    from twomarks.keeping.services.entered import Entered
    from twomarks.model.ledger import Reading

    reading = None
    if worked is None and told.odometer_steps is not None:
        reading = Reading(day=told.day, steps=told.odometer_steps, text=said.get("odometer") or "", note=said.get("note", ""))
    if worked is None and reading is None and not said:
        raise InputError("enter.odometer", where="--odometer", example="148290 km")
    if not said:
        return Entered(reading=reading)
    return Entered(
        events=entering.events_told(told, said["events"]),
        reading=reading,
        work=worked,
        measurements=entering.measurements_told(told, said["measured"]),
        snags=entering.snags_told(told, said["snags"], where=said["where"], how_bad=said["how_bad"]),
        quotes=entering.quotes_told(told, said["quotes"], shop=said["shop"]),
        answers=entering.answers_told(told, said["uses"], said["own_time"]),
    )


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

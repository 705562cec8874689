"""`twomarks reckon`: every calculation of the engineering by name, with its sources."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import click

from twomarks import units
from twomarks.cli.options import Asking, asks
from twomarks.cli.reckonings.names import NAMES, asks_key, calculation, line_key
from twomarks.cli.said import Terminal
from twomarks.words import Reader, say

if TYPE_CHECKING:
    from twomarks.cli.reckonings.calculation import Calculation, Given, Reckoned

__all__ = ["quoted", "reckon"]


@click.command()
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--market", type=click.Choice(units.MARKETS), help="Whose units and words; left out, those of the person who asks.")
@asks
def reckon(asking: Asking, name: str | None, given: tuple[str, ...], market: str | None) -> int:
    """Reckon one thing, and say where the figures come from.

    Without NAME: every calculation in one line. With NAME alone: what it asks for. Values carry their units.

    \b
    twomarks reckon viscosity-index kv40="73.3 mm2/s" kv100="8.86 mm2/s"
    twomarks reckon tyre pressure="32 psi" at="70 F" to="20 F"
    """
    own = None if market else _own_reader(asking)
    reader = own or Reader.of(market or "metric")
    terminal = Terminal(reader)
    if name is None:
        _say_names(terminal, asking)
        return 0
    asked = calculation(name)
    if not given:
        _say_asked(terminal, asking, asked)
        return 0
    from twomarks.cli.reckonings.calculation import given_for

    read = given_for(
        asked, given, market=None if own is None and market is None else reader.market, decimal=reader.decimal, on=asking.today()
    )
    answer = asked.reckon(read)
    if own is None and market is None:
        reader = _in_typed_units(reader, read)
        terminal = Terminal(reader)
    if asking.as_json:
        _say_json(asking, asked, read, answer, reader)
    else:
        _say_answer(terminal, read, answer)
    return answer.exit_code


def _own_reader(asking: Asking) -> Reader | None:
    """Return how the asking person reads, None where no home is kept: the calculations need none and make none."""
    from twomarks.keeping.home import home_of

    if asking.household is None and asking.person is None and not home_of(asking.home).database.exists():
        return None
    scope = asking.scope()
    from twomarks.keeping import questions

    return questions.reader(scope)


def _in_typed_units(reader: Reader, read: Given) -> Reader:
    """Return a reader whom nobody knows, with the units that they typed; of one kind the first, which what is asked stands in."""
    quantities = [one.quantity for one in read.typed if one.quantity is not None and not one.is_default]
    typed = {quantity.kind: quantity.unit for quantity in reversed(quantities)}
    return replace(reader, units={**reader.units, **typed})


def _say_names(terminal: Terminal, asking: Asking) -> None:
    if asking.as_json:
        from twomarks.exchange.answers.reckon import CalculationLine, ReckonListAnswer
        from twomarks.exchange.answers.said import said

        rows = tuple(CalculationLine(name=name, what=said(say(line_key(name)), terminal.reader)) for name in NAMES)
        Terminal.json(ReckonListAnswer(on=asking.today(), calculations=rows))
        return
    width = max(map(len, NAMES), default=0)
    for name in NAMES:
        terminal.line(f"{name:<{width}}  {terminal.text(say(line_key(name)))}", hang=width + 2)
    terminal.heading("reckon.how")


def _say_asked(terminal: Terminal, asking: Asking, asked: Calculation) -> None:
    about = {one.key: say(asks_key(asked.name, one.key)) for one in asked.asked}
    if asking.as_json:
        from twomarks.exchange.answers.reckon import AskedSaid, ReckonAsksAnswer
        from twomarks.exchange.answers.said import said

        rows = tuple(
            AskedSaid(
                key=one.key,
                what=said(about[one.key], terminal.reader),
                kind=one.kind,
                needed=one.needed and one.default is None,
                default=one.default,
                many=one.many,
                choices=one.choices,
                example=one.shown,
            )
            for one in asked.asked
        )
        what = said(say(line_key(asked.name)), terminal.reader)
        Terminal.json(ReckonAsksAnswer(on=asking.today(), name=asked.name, what=what, asks=rows))
        return
    terminal.line(say(line_key(asked.name)), indent=0)
    terminal.heading("reckon.asks")
    for one in asked.asked:
        free = not one.needed or one.default is not None
        form = say(
            "reckon.asks_one" if not one.many else "reckon.asks_many",
            key=one.key,
            what=about[one.key],
            choices=one.choices or None,
            default=one.default,
            free=say("reckon.may_be_left_out") if free and one.default is None else None,
        )
        terminal.line(form)
    terminal.heading("reckon.example")
    click.echo(f"  twomarks reckon {asked.name} {' '.join(map(quoted, asked.example_words))}")


def quoted(word: str) -> str:
    """Return a word of a command line as a shell wants it."""
    key, equals, value = word.partition("=")
    return f'{key}{equals}"{value}"' if any(sign in value for sign in " ;()&") else word


def _say_answer(terminal: Terminal, read: Given, answer: Reckoned) -> None:
    for echo in (one for one in read.typed if one.is_converted and not one.is_default):
        terminal.line(f"{echo.key}: {echo.in_both_units}", indent=0)
    for line in answer.lines:
        terminal.line(line, indent=0)
    terminal.lines(answer.cautions, indent=2)
    from twomarks.reference.bibliography import reference

    for key in dict.fromkeys(answer.sources):
        source = reference(key)
        terminal.line(say("reckon.source", title=source.title, seen=say(f"reckon.seen_{source.status}")), indent=2)


def _say_json(asking: Asking, asked: Calculation, read: Given, answer: Reckoned, reader: Reader) -> None:
    from twomarks.exchange.answers.reckon import ReadSaid, ReckonAnswer, SourceSaid
    from twomarks.exchange.answers.said import said
    from twomarks.reference.bibliography import reference

    sources = [reference(key) for key in dict.fromkeys(answer.sources)]
    Terminal.json(
        ReckonAnswer(
            on=asking.today(),
            name=asked.name,
            read=tuple(
                ReadSaid(
                    key=one.key,
                    typed=one.text,
                    value=one.value if asked.by_key[one.key].kind != "file" else None,
                    unit=units.KINDS[one.quantity.kind].core if one.quantity else "",
                    said=one.in_both_units if one.is_converted else "",
                )
                for one in read.typed
            ),
            lines=tuple(said(line, reader) for line in answer.lines),
            cautions=tuple(said(line, reader) for line in answer.cautions),
            results=dict(answer.results),
            sources=tuple(SourceSaid(key=one.key, title=one.title, seen=one.seen, status=one.status) for one in sources),
        )
    )

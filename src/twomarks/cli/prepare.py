"""`twomarks prepare`: the main job in one answer."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from twomarks.cli.options import Asking, asks, is_file, vehicle_option
from twomarks.cli.said import Script, Terminal
from twomarks.errors import InputError
from twomarks.words import Reader, say

if TYPE_CHECKING:
    import datetime as dt

    from twomarks.planning.help_call import HelpCall
    from twomarks.planning.preparation import Preparation

__all__ = ["prepare"]


@click.command()
@vehicle_option
@click.option("--item", metavar="KEY", help="The service item to make ready; left out, the first one due that has a procedure.")
@click.option("--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write the job card to this file as well.")
@click.option(
    "--kind", type=click.Choice(["car", "van", "4x4", "motorcycle", "machine"]), help="A bare vehicle: what it is. Nothing is kept."
)
@click.option("--fuel", type=click.Choice(["petrol", "diesel", "lpg", "hybrid", "electric"]), help="A bare vehicle: what it burns.")
@click.option(
    "--odometer", metavar="READING", help='The odometer today, with its unit: "148210 km". For a bare vehicle or a sheet by path.'
)
@click.option("--oil-label", metavar="TEXT", help="A bare vehicle: what the label of the oil in it says.")
@click.option("--market", type=click.Choice(["metric", "uk", "us", "au"]), help="Units and words of a bare vehicle or a sheet by path.")
@asks
def prepare(
    asking: Asking,
    vehicle: str | None,
    item: str | None,
    pdf: Path | None,
    kind: str | None,
    fuel: str | None,
    odometer: str | None,
    oil_label: str | None,
    market: str | None,
) -> None:
    """Do the main job in one answer.

    What is due and when; the oil that meets the call, with reasons; litres and pour plan; containers at least cost;
    whether everything is at hand; the procedure, rehearsed on a model of the vehicle; and its job card.

    \b
    For a vehicle that is kept:     twomarks prepare --vehicle NAME
    For a sheet in a file:          twomarks prepare --vehicle ./sheet.toml --odometer "148210 km"
    For a bare vehicle, at once:    twomarks prepare --kind car --fuel petrol --odometer "148210 km"
    """
    from twomarks.cli.stages import Stages

    stages = Stages()
    form = _as_json if asking.as_json else _as_text
    call: HelpCall | None = None
    if kind or fuel or is_file(vehicle):
        from twomarks.cli.unkept import bare_sheet, prepared, sheet_in

        reader = Reader.of(market or "metric")
        sheet = sheet_in(Path(vehicle)) if vehicle and is_file(vehicle) else bare_sheet(kind, fuel, oil_label)
        answers = [prepared(sheet, today=asking.today(), odometer=odometer, reader=reader, item=item, stage=stages.end)]
        answer = form(answers, asking.today(), reader)
    else:
        for name, value in (("--odometer", odometer), ("--oil-label", oil_label), ("--market", market)):
            if value is not None:
                raise InputError("prepare.only_bare", where=name, expected="--kind, --fuel")
        scope = asking.scope()
        from twomarks.keeping import questions

        today, reader = asking.today(), questions.reader(scope)
        stages.end("opening")
        names = (questions.vehicle(scope, vehicle).name,) if vehicle else tuple(one.name for one in questions.vehicles(scope))
        if not names:
            raise InputError("answer.no_vehicle")
        if pdf is not None and len(names) > 1:
            raise InputError("prepare.one_vehicle", where="--pdf", expected=names)
        if item is not None:
            from twomarks.cli.chosen import refuse_unknown_item

            for name in names:
                refuse_unknown_item(questions.sheet(scope, name), item)
        answers = []

        def work_out() -> str:
            answers.extend(questions.prepare(scope, name, today, item=item, stage=stages.end) for name in names)
            return form(answers, today, reader)

        if pdf is not None:
            call = questions.help_call(scope)
        if pdf is not None or stages.wanted:
            answer = work_out()
        else:
            what = f"prepare {'json' if asking.as_json else 'text'}"
            answer = questions.kept_answer(
                scope, what, work_out, today=today, about=vehicle or "", further=(repr(reader), item or "", *names)
            )
    stages.end("answer")
    if pdf is not None:
        _write(pdf, answers[0], reader, call)
        stages.end("paper")
    if asking.as_json:
        click.echo(answer)
    else:
        terminal = Terminal(reader)
        terminal.speak(answer)
        if pdf is not None:
            terminal.line(say("prepare.card_written", file=str(pdf)), indent=0)
    stages.tell()


def _as_json(answers: list[Preparation], today: dt.date, reader: Reader) -> str:
    from twomarks.exchange.answers.prepare import PrepareAnswer, prepared_vehicle

    answer = PrepareAnswer(on=today, vehicles=tuple(prepared_vehicle(one, reader) for one in answers))
    return answer.model_dump_json(indent=2, exclude_none=True)


def _as_text(answers: list[Preparation], _today: dt.date, _reader: Reader) -> str:
    from twomarks.cli.preparation_said import say_preparation

    script = Script()
    for one in answers:
        say_preparation(script, one)
    return script.text()


def _write(path: Path, found: Preparation, reader: Reader, call: HelpCall | None) -> None:
    from twomarks.exchange.written import write_whole
    from twomarks.paper.job_card import job_card_pdf

    write_whole(path, job_card_pdf(found.job.card, reader, call))

"""`twomarks ready`: whether everything is at hand, and which questions would settle it."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import click

from twomarks.cli.chosen import nearest, refuse_unknown_item
from twomarks.cli.options import Asking, asks, kept_vehicle_option
from twomarks.cli.said import Terminal
from twomarks.errors import InputError
from twomarks.words import Reader, say

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.planning.preparation import Job
    from twomarks.planning.readiness import Readiness

    Found = list[tuple[str, Job, Readiness]]

__all__ = ["ready"]

NOT_READY = 1
_WORST = ("not ready", "not known", "ready")


@click.command()
@kept_vehicle_option
@click.option("--item", metavar="KEY", help="The service item; left out, the first one due that has a procedure.")
@click.option("--have", metavar="QUESTION", multiple=True, help='Keep the answer "have" to a question, such as tool:drain_pan.')
@click.option("--have-not", metavar="QUESTION", multiple=True, help='Keep the answer "have not" to a question.')
@click.option("--do-not-know", metavar="QUESTION", multiple=True, help='Keep the answer "do not know" to a question.')
@asks
def ready(
    asking: Asking,
    vehicle: str | None,
    item: str | None,
    have: tuple[str, ...],
    have_not: tuple[str, ...],
    do_not_know: tuple[str, ...],
) -> int:
    """Say whether everything is at hand for the next work: tools, torque wrench, parts, fluids, pan and waste room.

    What nobody has said is asked, never assumed. Each line names its question; answer it with --have, --have-not or
    --do-not-know, and the answer is kept for the household. The exit code is 0 when everything is ready, else 1.
    """
    scope = asking.scope()
    from twomarks.keeping import questions

    today = asking.today()
    names = [questions.vehicle(scope, vehicle).name] if vehicle else [one.name for one in questions.vehicles(scope)]
    if not names:
        raise InputError("answer.no_vehicle")
    for name in names:
        refuse_unknown_item(questions.sheet(scope, name), item)
    reader = questions.reader(scope)
    found = _found(scope, names, today, item)
    words = {**dict.fromkeys(have, "have"), **dict.fromkeys(have_not, "have not"), **dict.fromkeys(do_not_know, "do not know")}
    if len(words) < len(have) + len(have_not) + len(do_not_know):
        raise InputError("ready_answer.twice", where="--have, --have-not, --do-not-know")
    if words:
        _keep(scope, words, found, today)
        found = _found(scope, names, today, item)
    state = min((readiness.state for _, _, readiness in found), key=_WORST.index)
    if asking.as_json:
        from twomarks.exchange.answers.prepare import readiness_said
        from twomarks.exchange.answers.ready import ReadyAnswer, ReadyVehicle

        rows = tuple(
            ReadyVehicle(vehicle=name, item=job.item, title=job.card.title, readiness=readiness_said(readiness, reader))
            for name, job, readiness in found
        )
        Terminal.json(ReadyAnswer(on=today, state=state, vehicles=rows, answers_kept=len(words)))
    else:
        _say(found, len(words), today, reader)
    return 0 if state == "ready" else NOT_READY


def _found(scope: Scope, names: list[str], today: dt.date, item: str | None) -> Found:
    from twomarks.keeping import questions

    jobs = [(name, questions.prepare(scope, name, today, item=item).job) for name in names]
    return [(name, job, job.readiness or _of_walk_round(scope, job)) for name, job in jobs]


def _of_walk_round(scope: Scope, job: Job) -> Readiness:
    """Return the readiness of a job that takes no oil: what it needs against shelf and answers."""
    from twomarks.keeping import questions
    from twomarks.planning.readiness import readiness

    return readiness(
        job.needs,
        shelf=questions.shelf(scope),
        stock=questions.stock(scope),
        cans=questions.cans(scope),
        answers=questions.answers(scope),
    )


def _keep(scope: Scope, words: dict[str, str], found: Found, today: dt.date) -> None:
    from twomarks.keeping.services.answers import record_answers
    from twomarks.model.ledger import Answer
    from twomarks.procedures.choices import choices_of

    known = [item.question for _, _, readiness in found for item in readiness.items]
    known += [choice.question for _, job, _ in found for choice in choices_of(job.bound)]
    for question in words:
        if question not in known:
            raise InputError("ready_answer.no_question", found=question, nearest=nearest(question, known), expected=tuple(known))
    record_answers(scope, [Answer(day=today, question=question, word=word) for question, word in words.items()], today=today)


def _say(found: Found, kept: int, today: dt.date, reader: Reader) -> None:
    from twomarks.procedures.choices import choices_of

    terminal = Terminal(reader)
    if kept:
        terminal.line(say("ready_answer.kept", count=kept), indent=0)
    for name, job, readiness in found:
        state = say(f"ready_answer.{readiness.state.replace(' ', '_')}")
        terminal.heading("ready_answer.head", vehicle=name, title=job.card.title, day=today)
        terminal.line(state)
        for item in readiness.items:
            terminal.line(
                say(
                    f"ready_answer.item_{item.state.replace(' ', '_')}",
                    what=item.what,
                    reason=item.reason,
                    question=item.question,
                )
            )
        for choice in choices_of(job.bound):
            if choice.decided is None:
                terminal.line(say("choice.open", what=choice.what, question=choice.question))

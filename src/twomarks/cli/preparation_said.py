"""The main job's answer on the terminal, stage by stage."""

from __future__ import annotations

from typing import TYPE_CHECKING

from twomarks.cli.due import say_counter, say_due
from twomarks.cli.said import Speaker
from twomarks.planning.in_engine import label_said
from twomarks.words import Figure, Message, say

if TYPE_CHECKING:
    from twomarks.planning.buying import Purchase
    from twomarks.planning.preparation import Job, Preparation
    from twomarks.trade.add_table import AddRow
    from twomarks.trade.label import Label

__all__ = ["say_preparation"]

OTHERS = 4


def say_preparation(terminal: Speaker, found: Preparation) -> None:
    """Write everything the answer holds, in the order of the job."""
    terminal.heading("answer.vehicle_on", vehicle=found.vehicle, day=found.today)
    say_counter(terminal, found.history, found.forecast)
    for flag in found.history.flags[:OTHERS]:
        terminal.line(say("prepare.flag", day=flag.reading.day, reason=flag.reason), indent=4, mark="-")
    if found.due:
        terminal.heading("prepare.due")
        say_due(terminal, found.due, reasons=False, settles=not found.general, general=bool(found.general))
    if found.general:
        terminal.heading("prepare.general")
        terminal.lines([say("general.asked", item=one.name, usual=one.usual) for one in found.general], indent=2)
    if found.in_engine is not None and not found.job.item:
        _in_engine(terminal, found.in_engine)
    if found.job.item:
        _oil(terminal, found.job)
        _litres(terminal, found.job)
        _buying(terminal, found.job)
        _readiness(terminal, found.job)
    _procedure(terminal, found.job)
    if found.worth_fetching:
        terminal.heading("prepare.worth")
        for worth in found.worth_fetching:
            terminal.line(say("prepare.worth_one", what=worth.what, where=worth.where, why=worth.why), indent=2, mark="-")


def _in_engine(terminal: Speaker, label: Label) -> None:
    """Write what is in the engine by its label, what may top it up, and what only the handbook can tell."""
    terminal.heading("prepare.in_engine")
    for message in label_said(label):
        terminal.line(message)


def _oil(terminal: Speaker, job: Job) -> None:
    if job.pour is None:
        return
    terminal.heading("prepare.oil")
    if job.coldest is not None:
        key = "prepare.coldest_extreme" if job.coldest.method == "extreme values" else "prepare.coldest_percentile"
        low, high = sorted((job.coldest.low_c, job.coldest.high_c))
        terminal.line(
            say(
                key,
                coldest=Figure(job.coldest.value_c, "C"),
                low=Figure(low, "C"),
                high=Figure(high, "C"),
                winters=job.coldest.winters,
                years=job.coldest.once_in_years,
            )
        )
    else:
        terminal.line(say("prepare.no_climate"))
    if not job.oils:
        terminal.line(say("prepare.no_oils"))
    shown = sorted(job.oils, key=lambda oil: oil is not job.oil)
    for number, oil in enumerate(shown):
        verdict = say(f"prepare.verdict_{oil.verdict.state.replace(' ', '_')}")
        key = "prepare.oil_taken" if oil is job.oil else "prepare.oil_judged"
        terminal.line(say(key, oil=oil.name, label=oil.label, verdict=verdict))
        first = number == 0
        terminal.lines(oil.verdict.reasons if first else oil.verdict.reasons[:1])
        terminal.lines(say("prepare.oil_settles", what=what) for what in oil.verdict.settles[:2])


def _litres(terminal: Speaker, job: Job) -> None:
    if job.pour is None:
        return
    terminal.heading("prepare.litres")
    for number, pour in enumerate(job.pour.pours, start=1):
        terminal.line(pour.what, mark=f"{number}.")
    terminal.lines(job.pour.reasons)
    if job.pour.needs_reading_before_start:
        _table(terminal, "prepare.table_before", job.pour.before_start)
    _table(terminal, "prepare.table", job.pour.after_run)


def _table(terminal: Speaker, heading: str, rows: tuple[AddRow, ...]) -> None:
    if not rows:
        return
    terminal.line(say(heading))
    for row in rows:
        terminal.line(_row(row.reading_fraction, row.add_l, start=row.start), indent=4)


def _row(reading: float, add_l: float, *, start: bool) -> Message:
    share = Figure(round(reading * 100), "%")
    if add_l < 0:
        return say("prepare.row_out" if start else "prepare.row_out_no_start", reading=share, volume=Figure(-add_l, "L"))
    if add_l == 0:
        return say("prepare.row_full", reading=share)
    return say("prepare.row_add" if start else "prepare.row_add_no_start", reading=share, volume=Figure(add_l, "L"))


def _buying(terminal: Speaker, job: Job) -> None:
    terminal.heading("prepare.buying")
    if job.purchase is None:
        if job.no_purchase is not None:
            terminal.line(job.no_purchase)
        return
    for line in job.purchase.lines:
        offer = line.offer
        price = Figure(offer.price, offer.currency) if offer.price is not None else None
        size = Figure(offer.size_ml / 1000, "L")
        terminal.line(
            say(
                "prepare.buy_line",
                count=line.count,
                size=size,
                product=job.oil.name if job.oil else "",
                shop=offer.shop,
                price=price,
                day=offer.day,
            )
        )
    terminal.line(_sum(job.purchase))
    terminal.lines(job.purchase.reasons)


def _sum(bought: Purchase) -> Message:
    cost = Figure(bought.cost, bought.currency) if bought.cost is not None and bought.currency else None
    return say(
        "prepare.buy_sum",
        need=Figure(bought.need_ml / 1000, "L"),
        reserve=Figure(bought.reserve_ml / 1000, "L"),
        stock=Figure(bought.from_stock_ml / 1000, "L"),
        left=Figure(bought.left_over_ml / 1000, "L"),
        cost=cost,
    )


def _readiness(terminal: Speaker, job: Job) -> None:
    if job.readiness is None:
        return
    terminal.heading("prepare.readiness", state=say(f"prepare.ready_{job.readiness.state.replace(' ', '_')}"))
    for item in job.readiness.items:
        terminal.line(
            say("prepare.ready_item", what=item.what, state=say(f"prepare.item_{item.state.replace(' ', '_')}"), reason=item.reason)
        )


def _procedure(terminal: Speaker, job: Job) -> None:
    card = job.card
    terminal.heading("prepare.procedure", title=card.title)
    terminal.line(
        say(
            "prepare.steps",
            steps=len(card.steps),
            gates=len(card.gates),
            active=Figure(card.active_min, "min"),
            elapsed=Figure(card.elapsed_min, "min"),
        )
    )
    findings = job.rehearsal.findings
    terminal.line(say("prepare.findings", count=len(findings), rules=len(job.rehearsal.checked)))
    for finding in findings:
        grade = say(f"prepare.grade_{finding.grade}")
        basis = say(f"prepare.basis_{finding.basis.replace(' ', '_')}")
        number = next((step.number for step in card.steps if step.step == finding.step), None)
        terminal.line(
            say(
                "prepare.finding",
                grade=grade,
                basis=basis,
                step=number,
                expected=finding.expected,
                found=finding.found,
                remedy=finding.remedy,
            ),
            indent=4,
            mark="-",
        )
    boxes = [stub.label for step in card.steps for stub in step.stubs if stub.figure is None and stub.fact]
    if boxes:
        terminal.line(say("prepare.boxes", count=len(boxes)))
    terminal.line(say("prepare.not_seen"))
    terminal.lines(job.rehearsal.not_seen)

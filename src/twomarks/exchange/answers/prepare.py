"""The answer of `prepare`: the main job for each vehicle."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Literal

from pydantic import Field

from twomarks.exchange.answers.due import CounterSaid, DueItemSaid, counter_said, due_item_said
from twomarks.exchange.answers.said import Answer, Part, Said, said
from twomarks.planning.buying import Purchase
from twomarks.planning.oils import JudgedOil
from twomarks.planning.preparation import Job, Preparation
from twomarks.planning.readiness import Readiness
from twomarks.procedures.rehearsal import Finding
from twomarks.trade.climate import DesignTemperature
from twomarks.trade.pour import PourPlan
from twomarks.words import Reader

__all__ = [
    "ColdestSaid",
    "FindingSaid",
    "GeneralSaid",
    "JobSaid",
    "OilSaid",
    "PourSaid",
    "PrepareAnswer",
    "PreparedVehicle",
    "PurchaseSaid",
    "ReadinessSaid",
    "finding_said",
    "pour_said",
    "prepared_vehicle",
    "readiness_said",
]


class ColdestSaid(Part):
    """The coldest start to reckon with until the next change."""

    value_c: float
    low_c: float
    high_c: float
    method: Literal["extreme values", "percentile"]
    winters: int
    once_in_years: float


class OilSaid(Part):
    """An oil of the shelf list and the verdict on it."""

    key: str
    name: str
    label: str
    verdict: Literal["meets", "does not meet", "not shown"]
    in_stock_l: float
    reasons: tuple[Said, ...]
    settles: tuple[Said, ...] = ()


class AddRowSaid(Part):
    """A reading between the marks (0 lower, 1 upper) and the litres to add; negative: to take out."""

    reading: float
    add_l: float
    start: bool = Field(description="whether the engine may be started before it is done")


class PourSaid(Part):
    """The pour plan."""

    kind: Literal["one pour", "two pours", "by the stick"]
    pours_l: tuple[float | None, ...] = Field(description="null where the stick decides")
    least_l: float | None = None
    most_l: float | None = None
    needs_reading_before_start: bool
    before_start: tuple[AddRowSaid, ...] = ()
    after_run: tuple[AddRowSaid, ...] = ()
    what: tuple[Said, ...]
    reasons: tuple[Said, ...]


class BuyLineSaid(Part):
    """So many of one container from one shop."""

    product: str
    shop: str
    size_l: float
    count: int
    price: Decimal | None = None
    currency: str = ""
    price_on: dt.date | None = None


class PurchaseSaid(Part):
    """What to buy."""

    lines: tuple[BuyLineSaid, ...]
    need_l: float
    reserve_l: float
    from_stock_l: float
    left_over_l: float
    cost: Decimal | None = None
    currency: str = ""
    reasons: tuple[Said, ...] = ()


class ReadinessItemSaid(Part):
    """One thing that the work needs; `question` is the key under which an answer is kept."""

    question: str
    kind: str
    what: Said
    state: Literal["have", "have not", "not known"]
    reason: Said


class ReadinessSaid(Part):
    """Whether everything is at hand."""

    state: Literal["ready", "not ready", "not known"]
    items: tuple[ReadinessItemSaid, ...]


class FindingSaid(Part):
    """A finding of the rehearsal, at its step (empty: the whole procedure)."""

    rule: str
    grade: Literal["harm", "damage", "omission", "advice"]
    basis: Literal["violated", "not shown", "default"]
    step: str
    expected: Said
    found: Said
    remedy: Said


class JobSaid(Part):
    """One service item made ready; `item` is empty for the walk-round of a bare vehicle."""

    item: str
    procedure: str
    title: str
    card: str = Field(description="the id that its card would have")
    steps: int
    gates: int
    active_min: float
    elapsed_min: float
    coldest: ColdestSaid | None = None
    oil: str = Field(default="", description="key of the oil that is taken; empty where none is shown to meet the call")
    oils: tuple[OilSaid, ...] = ()
    pour: PourSaid | None = None
    purchase: PurchaseSaid | None = None
    no_purchase: Said | None = None
    readiness: ReadinessSaid | None = None
    findings: tuple[FindingSaid, ...] = ()
    checked: tuple[Said, ...] = ()
    rests_on: tuple[Said, ...] = ()
    not_seen: tuple[Said, ...] = ()
    empty_boxes: tuple[str, ...] = Field(default=(), description="paths of the facts that the card asks for in an empty box")


class WorthSaid(Part):
    """A figure worth fetching next."""

    path: str
    what: Said
    where: Said
    why: Said


class GeneralSaid(Part):
    """An item of general practice to ask about; `question` is the key under which its answer is kept."""

    item: str
    question: str
    name: Said
    usual: Said


class FlagSaid(Part):
    """A reading that was left out, and why."""

    on: dt.date
    text: str
    reason: Said


class PreparedVehicle(Part):
    """The main job for one vehicle."""

    vehicle: str
    bare: bool
    odometer: CounterSaid
    flags: tuple[FlagSaid, ...] = ()
    due: tuple[DueItemSaid, ...]
    job: JobSaid
    general: tuple[GeneralSaid, ...] = ()
    worth_fetching: tuple[WorthSaid, ...] = ()


class PrepareAnswer(Answer):
    """The answer of `prepare`."""

    format: Literal["twomarks/answer/prepare/1"] = "twomarks/answer/prepare/1"
    vehicles: tuple[PreparedVehicle, ...]


def prepared_vehicle(found: Preparation, reader: Reader) -> PreparedVehicle:
    """Return a preparation as part of the answer."""
    return PreparedVehicle(
        vehicle=found.vehicle,
        bare=found.bare,
        odometer=counter_said(found.history, found.forecast, reader),
        flags=tuple(
            FlagSaid(on=flag.reading.day, text=flag.reading.text, reason=said(flag.reason, reader)) for flag in found.history.flags
        ),
        due=tuple(due_item_said(item, reader) for item in found.due),
        job=_job(found.job, reader),
        general=tuple(
            GeneralSaid(item=one.key, question=one.question, name=said(one.name, reader), usual=said(one.usual, reader))
            for one in found.general
        ),
        worth_fetching=tuple(
            WorthSaid(path=one.path, what=said(one.what, reader), where=said(one.where, reader), why=said(one.why, reader))
            for one in found.worth_fetching
        ),
    )


def _job(job: Job, reader: Reader) -> JobSaid:
    card = job.card
    return JobSaid(
        item=job.item,
        procedure=job.bound.procedure.key,
        title=card.title,
        card=card.id,
        steps=len(card.steps),
        gates=len(card.gates),
        active_min=card.active_min,
        elapsed_min=card.elapsed_min,
        coldest=_coldest(job.coldest),
        oil=job.oil.key if job.oil else "",
        oils=tuple(_oil(oil, reader) for oil in job.oils),
        pour=pour_said(job.pour, reader) if job.pour else None,
        purchase=_purchase(job.purchase, reader) if job.purchase else None,
        no_purchase=said(job.no_purchase, reader) if job.no_purchase else None,
        readiness=readiness_said(job.readiness, reader) if job.readiness else None,
        findings=tuple(finding_said(one, reader) for one in job.rehearsal.findings),
        checked=tuple(said(one, reader) for one in job.rehearsal.checked),
        rests_on=tuple(said(one, reader) for one in job.rehearsal.rests_on),
        not_seen=tuple(said(one, reader) for one in job.rehearsal.not_seen),
        empty_boxes=tuple(dict.fromkeys(stub.fact for step in card.steps for stub in step.stubs if stub.figure is None and stub.fact)),
    )


def _coldest(found: DesignTemperature | None) -> ColdestSaid | None:
    if found is None:
        return None
    low, high = sorted((found.low_c, found.high_c))
    return ColdestSaid(
        value_c=round(found.value_c, 2),
        low_c=round(low, 2),
        high_c=round(high, 2),
        method=found.method,
        winters=found.winters,
        once_in_years=found.once_in_years,
    )


def _oil(oil: JudgedOil, reader: Reader) -> OilSaid:
    return OilSaid(
        key=oil.key,
        name=oil.name,
        label=oil.label,
        verdict=oil.verdict.state,
        in_stock_l=oil.in_stock_ml / 1000,
        reasons=tuple(said(one, reader) for one in oil.verdict.reasons),
        settles=tuple(said(one, reader) for one in oil.verdict.settles),
    )


def pour_said(plan: PourPlan, reader: Reader) -> PourSaid:
    """Return a pour plan as part of an answer."""
    return PourSaid(
        kind=plan.kind,
        pours_l=tuple(pour.volume_l for pour in plan.pours),
        least_l=None if plan.least_l is None else round(plan.least_l, 3),
        most_l=None if plan.most_l is None else round(plan.most_l, 3),
        needs_reading_before_start=plan.needs_reading_before_start,
        before_start=tuple(AddRowSaid(reading=row.reading_fraction, add_l=row.add_l, start=row.start) for row in plan.before_start),
        after_run=tuple(AddRowSaid(reading=row.reading_fraction, add_l=row.add_l, start=row.start) for row in plan.after_run),
        what=tuple(said(pour.what, reader) for pour in plan.pours),
        reasons=tuple(said(one, reader) for one in plan.reasons),
    )


def _purchase(found: Purchase, reader: Reader) -> PurchaseSaid:
    return PurchaseSaid(
        lines=tuple(
            BuyLineSaid(
                product=line.offer.product,
                shop=line.offer.shop,
                size_l=line.offer.size_ml / 1000,
                count=line.count,
                price=line.offer.price,
                currency=line.offer.currency,
                price_on=line.offer.day,
            )
            for line in found.lines
        ),
        need_l=found.need_ml / 1000,
        reserve_l=found.reserve_ml / 1000,
        from_stock_l=found.from_stock_ml / 1000,
        left_over_l=found.left_over_ml / 1000,
        cost=found.cost,
        currency=found.currency,
        reasons=tuple(said(one, reader) for one in found.reasons),
    )


def readiness_said(found: Readiness, reader: Reader) -> ReadinessSaid:
    """Return a readiness as part of an answer."""
    return ReadinessSaid(
        state=found.state,
        items=tuple(
            ReadinessItemSaid(
                question=item.question,
                kind=item.kind,
                what=said(item.what, reader),
                state=item.state,
                reason=said(item.reason, reader),
            )
            for item in found.items
        ),
    )


def finding_said(found: Finding, reader: Reader) -> FindingSaid:
    """Return a finding of the rehearsal as part of an answer."""
    return FindingSaid(
        rule=found.rule,
        grade=found.grade,
        basis=found.basis,
        step=found.step,
        expected=said(found.expected, reader),
        found=said(found.found, reader),
        remedy=said(found.remedy, reader),
    )

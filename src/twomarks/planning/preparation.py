"""The main job in one answer: due, oil, litres, buying, readiness, the bound and rehearsed procedure, its card."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal

from twomarks.errors import NoSolutionError
from twomarks.model.ledger import Reading
from twomarks.model.procedure import Procedure
from twomarks.model.shelf import ShelfList
from twomarks.model.vehicle import VehicleSheet
from twomarks.planning.buying import Offer, Purchase, purchase
from twomarks.planning.calendar import after_months
from twomarks.planning.card import JobCard, Revision
from twomarks.planning.card_from import job_card
from twomarks.planning.due import Done, DueItem, due_items
from twomarks.planning.general import GeneralItem, general_items, with_general
from twomarks.planning.oils import JudgedOil, chosen_oil, judged_oils
from twomarks.planning.readiness import Readiness, readiness
from twomarks.planning.usage import History, UsageForecast
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Bound
from twomarks.procedures.choices import choices_from
from twomarks.procedures.facts import WorthFetching, label_in, missing_figures, pour_plan
from twomarks.procedures.kit import Kit, WrenchRange
from twomarks.procedures.needs import Needs, needs_of
from twomarks.procedures.rehearsal import Rehearsal, rehearse
from twomarks.trade.climate import DesignTemperature
from twomarks.trade.label import Label, read_label
from twomarks.trade.pour import PourPlan
from twomarks.words import Figure, Message, Source, say

__all__ = ["Given", "Job", "Preparation", "kit_of", "offers_of", "prepare", "span_until_next"]

WALK_ROUND = "walk-round"
ENGINE_OIL = "engine_oil"
MOST_WORTH = 10
LONGEST_MONTHS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Given:
    """All that the main job is worked out from, gathered beforehand.

    `coldest` and `hottest` are asked for the months from today to the next change, see `span_until_next`.
    `filled_with` is the label of the oil that the daybook says was filled last. `item` names the service item to prepare;
    left out, the first one due that has a procedure is taken. `revisions` are those of the vehicle sheet
    and the shelf list; `procedure_sha256` says which text a procedure, by its key, is.
    """

    sheet: VehicleSheet
    today: dt.date
    history: History
    forecast: UsageForecast
    done: Mapping[str, Done]
    procedures: Mapping[str, Procedure]
    shelf: ShelfList | None = None
    stock: Mapping[str, int] = field(default_factory=dict)
    cans: Mapping[str, int] = field(default_factory=dict)
    answers: Mapping[str, str] = field(default_factory=dict)
    coldest: Callable[[dt.date, dt.date], DesignTemperature | None] | None = None
    hottest: Callable[[dt.date, dt.date], DesignTemperature | None] | None = None
    counters: Mapping[str, UsageForecast] = field(default_factory=dict)
    due: tuple[DueItem, ...] | None = None
    item: str | None = None
    filled_with: str = ""
    revisions: tuple[Revision, ...] = ()
    procedure_sha256: Callable[[str], str] | None = None
    currency: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One service item made ready: its procedure bound and rehearsed, what it needs, what to buy, and its card."""

    item: str
    due: DueItem | None
    bound: Bound
    rehearsal: Rehearsal
    needs: Needs
    card: JobCard
    coldest: DesignTemperature | None = None
    oils: tuple[JudgedOil, ...] = ()
    oil: JudgedOil | None = None
    pour: PourPlan | None = None
    purchase: Purchase | None = None
    no_purchase: Message | None = None
    readiness: Readiness | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Preparation:
    """The answer: the counter, everything due, and one job made ready.

    A vehicle whose sheet says next to nothing gets the walk-round as its job, items of general practice to ask about,
    and the figures worth fetching next. `in_engine` is the label of the oil that is in it, as far as it was understood.
    """

    vehicle: str
    today: dt.date
    history: History
    forecast: UsageForecast
    due: tuple[DueItem, ...]
    job: Job
    bare: bool
    general: tuple[GeneralItem, ...] = ()
    worth_fetching: tuple[WorthFetching, ...] = ()
    in_engine: Label | None = None


Stage = Callable[[str], None]


def prepare(given: Given, *, stage: Stage = lambda _name: None) -> Preparation:
    """Return the main job for one vehicle; `stage` is told each stage as it ends ("due", "oil", ...), for timing."""
    due = _due(given) if given.due is None else given.due
    stage("due")
    item = _item(given, due)
    job = _walk_round(given) if item is None else _job(given, item, due, stage)
    stage("card")
    burns_oil = given.sheet.engine.fuel != "electric"
    first = job.bound.procedure if item else given.procedures.get("engine-oil-spin-on")
    worth = missing_figures(given.sheet, first, item=item)[:MOST_WORTH] if first is not None and burns_oil else ()
    return Preparation(
        vehicle=given.sheet.name,
        today=given.today,
        history=given.history,
        forecast=given.forecast,
        due=due,
        job=job,
        bare=given.sheet.bare,
        general=general_items(given.sheet),
        worth_fetching=worth,
        in_engine=(_filled_with(given) or label_in(given.sheet, ENGINE_OIL)) if burns_oil else None,
    )


def _due(given: Given) -> tuple[DueItem, ...]:
    sheet, done = with_general(given.sheet, done=given.done, answers=given.answers, today=given.today)
    return due_items(sheet, done=done, forecast=given.forecast, today=given.today, counters=given.counters)


def span_until_next(sheet: VehicleSheet, item: str, today: dt.date) -> tuple[dt.date, dt.date]:
    """Return the days for which a fluid filled today must do: until the item's longest time limit, else a year."""
    service = sheet.items.get(item)
    limits = service.every if service else None
    months = limits.time.core if limits and limits.time and limits.time.quantity and limits.time.quantity.kind == "months" else 12.0
    return today, after_months(today, min(LONGEST_MONTHS, max(1, round(months))))


def _item(given: Given, due: tuple[DueItem, ...]) -> str | None:
    def has_procedure(key: str) -> bool:
        service = given.sheet.items.get(key)
        return service is not None and service.procedure in given.procedures

    if given.item is not None:
        return given.item if has_procedure(given.item) else None
    ready = [one.item for one in due if has_procedure(one.item)]
    return ready[0] if ready else None


def _filled_with(given: Given) -> Label | None:
    return read_label(given.filled_with) if given.filled_with else None


def _engine_oil(procedure: Procedure, roles: Mapping[str, str]) -> str | None:
    """Return the circuit of engine oil that the work fills, None where it fills none: there is no stick to pour by then."""
    oils = (name for name, role in procedure.roles.items() if role.kind == "circuit" and role.fluid == "engine oil")
    name = next(oils, None)
    return None if name is None else roles.get(name) or procedure.roles[name].usual or name


def _walk_round(given: Given) -> Job:
    bound = bind(given.procedures[WALK_ROUND], given.sheet)
    rehearsal, needs = rehearse(bound), needs_of(bound)
    rests_on = _revisions(given, WALK_ROUND)
    card_id = _card_id(given, WALK_ROUND, rests_on)
    card = job_card(bound, rehearsal, needs, card_id=card_id, day=given.today, odometer=_odometer(given), revisions=rests_on)
    return Job(item="", due=None, bound=bound, rehearsal=rehearsal, needs=needs, card=card)


def _job(given: Given, item: str, due: tuple[DueItem, ...], stage: Stage) -> Job:
    sheet = given.sheet
    service = sheet.items[item]
    assert service.procedure is not None
    procedure = given.procedures[service.procedure]
    circuit = _engine_oil(procedure, service.roles)
    span = span_until_next(sheet, item, given.today)
    coldest = given.coldest(*span) if given.coldest else None
    hottest = given.hottest(*span) if given.hottest else None
    stage("climate")
    oils: tuple[JudgedOil, ...] = ()
    if circuit is not None:
        oils = judged_oils(
            sheet, circuit, shelf=given.shelf, stock=given.stock, coldest=coldest, hottest=hottest, in_engine=_filled_with(given)
        )
    stage("oil")
    pour = None if circuit is None else pour_plan(sheet, circuit, with_filter=True)
    decided = choices_from(given.answers, sheet)
    first = needs_of(bind(procedure, sheet, item=item, choices=replace(decided, pour=pour)))
    need_l = next((fluid.volume_l for fluid in first.fluids), None)
    reserve_l = next((fluid.reserve_l for fluid in first.fluids), 0.0)
    stage("litres")
    plans = {oil.key: plan for oil in oils if (plan := _purchase(given, oil, need_l, reserve_l)) is not None}
    oil = chosen_oil(oils, {key: float(plan.cost) for key, plan in plans.items() if plan.cost is not None})
    bought = plans.get(oil.key) if oil else None
    stage("buying")
    bound = bind(procedure, sheet, item=item, choices=replace(decided, oil_name=oil.name if oil else "", pour=pour))
    needs = needs_of(bound)
    ready = readiness(needs, shelf=given.shelf, stock=given.stock, cans=given.cans, answers=given.answers, product=oil.key if oil else None)
    stage("readiness")
    rehearsal = rehearse(bound, kit_of(given.shelf, given.cans, oil))
    stage("rehearsal")
    rests_on = _revisions(given, service.procedure)
    card = job_card(
        bound,
        rehearsal,
        needs,
        card_id=_card_id(given, item, rests_on),
        day=given.today,
        pour=pour,
        product=oil.name if oil else "",
        odometer=_odometer(given),
        title=procedure.title,
        revisions=rests_on,
        items=(item,),
    )
    return Job(
        item=item,
        due=next((one for one in due if one.item == item), None),
        bound=bound,
        rehearsal=rehearsal,
        needs=needs,
        card=card,
        coldest=coldest,
        oils=oils,
        oil=oil,
        pour=pour,
        purchase=bought,
        no_purchase=None if bought else _why_none(oil, need_l),
        readiness=ready,
    )


def offers_of(shelf: ShelfList | None, product: str) -> tuple[tuple[Offer, ...], dict[str, Decimal]]:
    """Return the containers of a product on offer, and what each shop, by its name, asks for a delivery."""
    offers = tuple(
        Offer(
            key=f"{shop_key}/{price.item}/{price.size.text}",
            product=price.item,
            shop=shop.name,
            size_ml=price.size.quantity.steps,
            price=price.price,
            currency=shop.currency,
            day=price.day,
        )
        for shop_key, shop in (shelf.shops.items() if shelf else ())
        for price in shop.prices
        if price.item == product and price.size is not None and price.size.quantity is not None
    )
    delivery = {shop.name: shop.delivery for shop in (shelf.shops.values() if shelf else ()) if shop.delivery is not None}
    return offers, delivery


def _purchase(given: Given, oil: JudgedOil, need_l: float | None, reserve_l: float) -> Purchase | None:
    if need_l is None:
        return None
    offers, delivery = offers_of(given.shelf, oil.key)
    currencies = {offer.currency for offer in offers if offer.price is not None}
    if len(currencies) > 1 and given.currency not in currencies:
        # Amounts in two currencies are not compared: what is bought is then told without a price.
        offers = tuple(replace(offer, price=None) for offer in offers)
    try:
        return purchase(
            need_ml=round(need_l * 1000),
            in_stock_ml=max(0, oil.in_stock_ml),
            offers=offers,
            delivery=delivery,
            reserve_ml=round(reserve_l * 1000),
            currency=given.currency if given.currency in currencies else None,
        )
    except NoSolutionError:
        return None


def _why_none(oil: JudgedOil | None, need_l: float | None) -> Message:
    if oil is None:
        return say("prepare.no_oil_to_buy")
    return say("prepare.no_litres_to_buy") if need_l is None else say("prepare.not_on_offer", oil=oil.name)


def kit_of(shelf: ShelfList | None, cans: Mapping[str, int], oil: JudgedOil | None = None) -> Kit:
    """Return what is known of the kit; what the shelf list does not say stays unknown."""
    if shelf is None:
        return Kit(product=oil.verdict.state if oil else None)
    wrenches = tuple(WrenchRange(low_nm=tool.low.core, high_nm=tool.high.core) for tool in shelf.tools.values() if tool.low and tool.high)
    room = [0.95 * can.holds.core - cans.get(key, 0) / 1000 for key, can in shelf.cans.items() if can.stream == "engine oil"]
    return Kit(
        pan_l=max((pan.holds.core for pan in shelf.pans.values()), default=None),
        waste_room_l=sum(max(0.0, one) for one in room) if room else None,
        wrenches=wrenches or None,
        product=oil.verdict.state if oil else None,
    )


def _odometer(given: Given) -> Figure | None:
    last: Reading | None = given.history.clean[-1] if given.history.clean else None
    if last is None:
        return None
    return Figure(last.value, "km", Source("measured", last.day.isoformat()))


def _revisions(given: Given, procedure: str) -> tuple[Revision, ...]:
    """Return the texts that a card is bound from: the vehicle sheet, the shelf list and the procedure."""
    if given.procedure_sha256 is None:
        return given.revisions
    return (*given.revisions, Revision(kind="procedure", key=procedure, sha256=given.procedure_sha256(procedure)))


def _card_id(given: Given, item: str, rests_on: tuple[Revision, ...]) -> uuid.UUID:
    """The same job on the same day from the same documents is the same card."""
    named = "/".join([given.sheet.id or given.sheet.name, item, given.today.isoformat(), *(one.sha256 for one in rests_on)])
    return uuid.uuid5(uuid.NAMESPACE_URL, f"urn:twomarks:card:{named}")

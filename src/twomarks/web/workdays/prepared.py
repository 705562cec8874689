"""The main job as its page shows it: plain figures and words for the template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from twomarks.planning.readiness import HAVE, NOT_KNOWN
from twomarks.words import Figure, Message, Source, Wording

if TYPE_CHECKING:
    from twomarks.planning.card import CardFinding, JobCard
    from twomarks.planning.preparation import Job, Preparation
    from twomarks.planning.readiness import Readiness

__all__ = ["ANSWERS", "BuyLine", "OilLine", "ReadyLine", "shown_job"]

ANSWERS = (("have", "Have"), ("have not", "Have not"), ("do not know", "Do not know"))
_COMPUTED = Source("computed")


@dataclass(frozen=True, slots=True)
class OilLine:
    """One oil of the shelf and the verdict on it."""

    name: str
    label: str
    state: str
    chosen: bool
    in_stock: Figure | None
    reasons: tuple[Message, ...]
    settles: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class BuyLine:
    """A container to buy: how many, of which size, where, at which price."""

    count: int
    size: Figure
    shop: str
    price: Figure | None


@dataclass(frozen=True, slots=True)
class ReadyLine:
    """One thing the work needs."""

    question: str
    what: Message | Wording
    state: str
    reason: Message

    @property
    def asked(self) -> bool:
        """Whether an answer would settle it."""
        return self.state == NOT_KNOWN


def _litres(amount_ml: float) -> Figure:
    return Figure(amount_ml / 1000, "L", _COMPUTED)


def shown_job(preparation: Preparation, *, shops: dict[str, str]) -> dict[str, Any]:
    """Return what the template needs of a prepared job."""
    job = preparation.job
    ready = _ready(job.readiness)
    figures: dict[str, Any] = {
        "job": job,
        "card": job.card,
        "coldest": Figure(job.coldest.value_c, "C", _COMPUTED) if job.coldest else None,
        "coldest_low": Figure(job.coldest.low_c, "C") if job.coldest else None,
        "coldest_high": Figure(job.coldest.high_c, "C") if job.coldest else None,
        "oils": _oils(job),
        "litres": _needed(job),
        "lacking": [line for line in ready if line.state != HAVE],
        "asked": any(line.asked for line in ready),
        "at_hand": [line for line in ready if line.state == HAVE],
        "open_findings": _open(job.card),
        "minutes": Figure(job.needs.elapsed_min, "min"),
        "hands": Figure(job.needs.active_min, "min"),
    }
    if job.purchase:
        bought = job.purchase
        figures |= {
            "need": _litres(bought.need_ml + bought.reserve_ml),
            "from_stock": _litres(bought.from_stock_ml),
            "left_over": _litres(bought.left_over_ml),
            "cost": None if bought.cost is None else Figure(bought.cost, bought.currency),
            "saving": Figure(bought.saving, bought.currency) if bought.saving else None,
            "buy": [
                BuyLine(
                    line.count,
                    Figure(line.offer.size_ml / 1000, "L"),
                    shops.get(line.offer.shop, line.offer.shop),
                    Figure(line.offer.price, line.offer.currency) if line.offer.price is not None else None,
                )
                for line in bought.lines
            ],
        }
    return figures


def _needed(job: Job) -> Figure | None:
    volume_l = next((fluid.volume_l for fluid in job.needs.fluids), None)
    return None if volume_l is None else Figure(volume_l, "L", _COMPUTED)


def _open(card: JobCard) -> list[tuple[int | None, CardFinding]]:
    numbers = {step.id: step.number for step in card.steps}
    found = {(one.rule, one.step): one for one in (*card.findings, *(one for step in card.steps for one in step.findings))}
    return [(numbers.get(one.step), one) for one in found.values() if one.grade != "advice"]


def _oils(job: Job) -> list[OilLine]:
    return [
        OilLine(
            oil.name,
            oil.label,
            oil.verdict.state,
            job.oil is not None and oil.key == job.oil.key,
            _litres(oil.in_stock_ml) if oil.in_stock_ml else None,
            oil.verdict.reasons,
            oil.verdict.settles,
        )
        for oil in job.oils
    ]


def _ready(readiness: Readiness | None) -> list[ReadyLine]:
    if readiness is None:
        return []
    return [ReadyLine(one.question, one.what, one.state, one.reason) for one in readiness.items]

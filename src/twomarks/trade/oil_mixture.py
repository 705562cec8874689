"""What stays in the engine at a change, and what the mixture is worth: a share, a band of viscosity, and what both oils carry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from twomarks.reference.tables import engine_grades
from twomarks.trade.arrays import require_within
from twomarks.trade.blending import blend_by_volume_astm_d7152
from twomarks.trade.categories import covers
from twomarks.trade.category_names import Category
from twomarks.trade.grades import EngineOilGrade, limits_of, lowest_cranking_c
from twomarks.trade.label import Label
from twomarks.trade.oil_offer import OilOnOffer
from twomarks.words import Figure, Message, say

__all__ = ["GRAVE_SHARE", "SMALL_SHARE", "Mixture", "mixture_of"]

SMALL_SHARE, GRAVE_SHARE = 0.10, 0.25
"""Up to the first a remainder of another oil is only told, above the second it leaves the verdict open."""

NEARLY = 1e-9


@dataclass(frozen=True, slots=True)
class Mixture:
    """What is in the engine after a change [shares from 0 to 1, viscosities in mm2/s at 100 C, as new].

    The band is None where one of the two oils shows no grade and no figure.
    """

    share: float
    stays_l: float
    kv100_low_mm2_s: float | None
    kv100_high_mm2_s: float | None
    hot_grades: tuple[str, ...]
    winter: str
    categories: tuple[Category, ...]
    cautions: tuple[Message, ...]

    @property
    def messages(self) -> tuple[Message, ...]:
        """What the mixture is, in words."""
        share = Figure(100.0 * self.share, "%")
        found = [say("oil.mixture_share", stays=Figure(self.stays_l, "L"), share=share)]
        if self.kv100_low_mm2_s is not None and self.kv100_high_mm2_s is not None:
            band = {"low": Figure(self.kv100_low_mm2_s, "mm2/s"), "high": Figure(self.kv100_high_mm2_s, "mm2/s")}
            alike = round(self.kv100_low_mm2_s, 2) == round(self.kv100_high_mm2_s, 2)
            found.append(say("oil.mixture_at" if alike else "oil.mixture_band", grades=self.hot_grades or None, **band))
        if self.winter:
            found.append(say("oil.mixture_winter", winter=self.winter))
        found.append(
            say("oil.mixture_categories", categories=tuple(str(category) for category in self.categories))
            if self.categories
            else say("oil.mixture_no_category")
        )
        return (*found, *self.cautions)


def mixture_of(
    *, offer: OilOnOffer, in_engine: Label, stays_l: float, fill_l: float, in_engine_kv100_mm2_s: float | None = None
) -> Mixture:
    """Return what is in the engine once an oil is poured on what stays of another.

    Parameters
    ----------
    offer : OilOnOffer
        The oil that is poured.
    in_engine : Label
        The label of the oil that stays in part.
    stays_l : float
        How much of it stays [L], 0 to 200.
    fill_l : float
        How much is poured [L], above 0, up to 500.
    in_engine_kv100_mm2_s : float, optional
        Viscosity at 100 C of what stays [mm2/s], 1 to 500; left out, the band of its grade.

    Returns
    -------
    Mixture
        Share by volume, viscosity at 100 C between the ends of both bands, the grades that reach into it, the warmer of both
        winter grades, and the categories that both oils carry.

    Raises
    ------
    OutOfRangeError
        If a volume or the viscosity is outside its range.

    Notes
    -----
    Double-logarithm rule by volume share; as new: used oil is thinner or thicker than its label. A winter grade is measured and
    not blended: of a mixture the warmer one is counted on. Departs from the source: the rule is used for formulated oils, whose
    caution goes with the answer.

    References
    ----------
    astm_d7152, sae_j300
    """
    require_within(stays_l, quantity="volume", unit="L", source="house_judgement", low=0.0, high=200.0)
    require_within(fill_l, quantity="volume", unit="L", source="house_judgement", above=0.0, high=500.0)
    if in_engine_kv100_mm2_s is not None:
        require_within(in_engine_kv100_mm2_s, quantity="viscosity (100 C)", unit="mm2/s", source="house_judgement", low=1.0, high=500.0)
    new, old = _band(offer.label, offer.kv100_mm2_s), _band(in_engine, in_engine_kv100_mm2_s)
    low = high = None
    cautions: tuple[Message, ...] = ()
    grades: tuple[str, ...] = ()
    if new is not None and old is not None:
        ends = zip(new, old, strict=True)
        blends = [blend_by_volume_astm_d7152(kv_mm2_s=end, volume_l=(fill_l, stays_l)) for end in ends]
        low, high = (cast("float", blend.kv_mm2_s) for blend in blends)
        cautions = blends[0].cautions
        grades = _grades_between(low, high)
    return Mixture(
        stays_l / (stays_l + fill_l), stays_l, low, high, grades, _warmer(offer.label, in_engine), _shared(offer.label, in_engine), cautions
    )


def _band(label: Label, kv100_mm2_s: float | None) -> tuple[float, float] | None:
    if kv100_mm2_s is not None:
        return kv100_mm2_s, kv100_mm2_s
    if not isinstance(label.grade, EngineOilGrade) or not label.grade.hot:
        return None
    row = limits_of(str(label.grade))[-1]
    return (row.kv100_min_mm2_s, row.kv100_max_mm2_s) if row.kv100_max_mm2_s is not None else None


def _grades_between(low: float, high: float) -> tuple[str, ...]:
    """Return the hot grades whose band reaches into one of viscosity; of a single viscosity the highest, as it is labelled."""
    rows = [row for row in engine_grades() if row.kv100_max_mm2_s is not None]
    # The upper end of a band is not in it: two oils of one grade mix to that grade, whatever a logarithm does to the last digit.
    if high > low:
        low, high = low * (1.0 + NEARLY), high * (1.0 - NEARLY)
    reached = [row.grade for row in rows if row.kv100_max_mm2_s is not None and row.kv100_min_mm2_s <= high and low < row.kv100_max_mm2_s]
    named = tuple(dict.fromkeys(reached))
    return named if high > low else named[-1:]


def _warmer(one: Label, other: Label) -> str:
    winters = [label.grade.winter for label in (one, other) if isinstance(label.grade, EngineOilGrade)]
    if len(winters) < 2 or not all(winters):
        return ""
    return max(winters, key=lowest_cranking_c)


def _shared(one: Label, other: Label) -> tuple[Category, ...]:
    """Return the categories of either label that the other one carries too, by name or by what sources say of its own."""
    found = [
        wanted
        for mine, theirs in ((one, other), (other, one))
        for wanted in mine.categories
        if any(covers(str(have), wanted.key).covered == "yes" for have in theirs.categories)
    ]
    return tuple(dict.fromkeys(Category(category.body, category.name) for category in found))

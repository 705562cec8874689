"""Service categories: how they are written, and which may be used where another is asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from twomarks.errors import InputError
from twomarks.reference.bibliography import weakest
from twomarks.reference.tables import CategoryRow, CategoryStep, categories, category_steps
from twomarks.words import Figure, Message, say

__all__ = ["Category", "Cover", "Covered", "covers", "parse_category"]

Covered = Literal["yes", "no", "not shown"]

MEMORY = "c"


@dataclass(frozen=True, slots=True)
class Category:
    """A service category, such as API CK-4 or ACEA C3 of the edition of 2021; `year` 0 where the label names none."""

    body: str
    name: str
    year: int = 0

    @property
    def key(self) -> str:
        """The name without the year, as the tables have it."""
        return f"{self.body} {self.name}"

    def __str__(self) -> str:
        return f"{self.key}-{self.year % 100:02}" if self.year else self.key


@dataclass(frozen=True, slots=True)
class Cover:
    """Whether a category may stand in for another: the answer, its steps, how far the weakest source was seen, cautions."""

    covered: Covered
    steps: tuple[Message, ...]
    status: str
    cautions: tuple[Message, ...] = ()


def _squeezed(text: str) -> str:
    return re.sub(r"[^A-Z0-9]", "", text.upper().replace("+", "PLUS"))


@cache
def _spellings() -> dict[str, str]:
    return {_squeezed(key): key for key in categories()}


@cache
def _bare() -> dict[str, str]:
    bare: dict[str, str] = {}
    for key, row in categories().items():
        bare.setdefault(_squeezed(row.name), key)
    return bare


_YEAR = re.compile(r"(.*[A-Z]\d{1,2})\s*[-–(]\s*((?:19|20)?\d{2})\)?")


def parse_category(text: str, *, body: str = "") -> Category:
    """Return the service category written in a text.

    Parameters
    ----------
    text : str
        Such as ``API CK-4``, ``acea c3-21``, ``A3/B4`` or ``SN Plus``.
    body : str
        Who issues it, where the text itself does not say (``API`` in ``API SP/CK-4``).

    Returns
    -------
    Category
        The category in the spelling of the tables.

    Raises
    ------
    InputError
        If no known category is written like this.

    References
    ----------
    api_guide, acea_update_rule
    """
    upper = re.sub(r"\s+", " ", text.strip().upper()).replace("API SERVICE", "API")
    upper = re.sub(r"^(JASO)?[ :-]*T ?903[ :-]*", lambda match: f"{match[1] or ''} ", upper).strip()
    year = 0
    if upper.startswith("ACEA") or body.upper() == "ACEA" or _bare().get(_squeezed(upper)) is None:
        dated = _YEAR.fullmatch(upper)
        if dated and ("ACEA" in (upper.split(" ")[0], body.upper()) or _bare().get(_squeezed(dated[1]), "").startswith("ACEA")):
            upper, year = dated[1], int(dated[2]) if len(dated[2]) == 4 else 2000 + int(dated[2]) - (100 if int(dated[2]) > 90 else 0)
    squeezed = _squeezed(upper)
    key = _spellings().get(squeezed) or (_spellings().get(_squeezed(body) + squeezed) if body else _bare().get(squeezed))
    if key is None:
        raise InputError("oil.category_unknown", found=text, example="API CK-4")
    row = categories()[key]
    return Category(row.body, row.name, year)


def covers(have: str, asked: str) -> Cover:
    """Return whether an oil of one service category may be used where another is asked for.

    Parameters
    ----------
    have : str
        The category on the label.
    asked : str
        The category that the handbook asks for.

    Returns
    -------
    Cover
        ``yes`` only on a source that says so; ``no`` where a source or a limit excludes it; else ``not shown``. Cautions of
        a step come with it. Viscosity grade and approval are matched separately.

    Raises
    ------
    InputError
        If one of the two is not known.

    Notes
    -----
    Petrol categories of API chain; its diesel categories do not ("usually, but not always"): a way over several steps is
    shown and answered ``not shown``. FA-4 and FB-4 stand in for nothing. The same ACEA class of a newer year covers an
    older one; another class never does, and is excluded where its limits of ash or of high-shear viscosity are wider.
    A step known from memory alone is never a ``yes``. Departs from the sources: none.

    References
    ----------
    api_cj4, api_ck4, api_fa4, api_pc12, api_guide, api_guide_2009, ilsac_gf7, acea_update_rule, acea_limits, jaso_t903
    """
    one, other = parse_category(have), parse_category(asked)
    if one.key == other.key:
        return _same_class(one, other)
    step = next((step for step in category_steps() if (step.have, step.asked) == (one.key, other.key)), None)
    if step is not None:
        return _told(step)
    for first, second, answer in ((one.key, other.key, "yes"), (other.key, one.key, "no")):
        path = _path(first, second)
        if path and all(part.chains for part in path):
            return _along(path, "yes") if answer == "yes" else _older(one, other, path)
        if path and answer == "yes":
            chained = say("oil.chain_not_said", have=str(one), asked=str(other))
            return Cover("not shown", _steps(path), weakest(*(part.seen.status for part in path)), (chained,))
    return _by_limits(categories()[one.key], categories()[other.key])


def _same_class(one: Category, other: Category) -> Cover:
    status = categories()[one.key].seen.status
    caution = _cautions(categories()[one.key].caution)
    if not other.year or one.year == other.year:
        return Cover("yes", (say("oil.category_same", have=str(one)),), status, caution)
    if one.year > other.year:
        return Cover("yes", (say("oil.category_newer_issue", have=str(one), asked=str(other)),), "a2", caution)
    return Cover("not shown", (say("oil.category_older_issue", have=str(one), asked=str(other)),), "a2", caution)


def _told(step: CategoryStep) -> Cover:
    cautions = _cautions(step.caution)
    steps = _steps((step,))
    if step.covered and step.seen.status == MEMORY:
        return Cover("not shown", steps, MEMORY, (*cautions, say("oil.from_memory", have=step.have, asked=step.asked)))
    return Cover("yes" if step.covered else "no", steps, step.seen.status, cautions)


def _path(have: str, asked: str) -> tuple[CategoryStep, ...]:
    ways: list[tuple[CategoryStep, ...]] = [(step,) for step in category_steps() if step.have == have and step.covered]
    reached = {have}
    while ways:
        way = ways.pop(0)
        here = way[-1].asked
        if here == asked:
            return way
        if here not in reached:
            reached.add(here)
            ways += [(*way, step) for step in category_steps() if step.have == here and step.covered]
    return ()


def _steps(path: tuple[CategoryStep, ...]) -> tuple[Message, ...]:
    return tuple(say("oil.category_step" if step.covered else "oil.category_no_step", have=step.have, asked=step.asked) for step in path)


def _along(path: tuple[CategoryStep, ...], covered: Covered) -> Cover:
    status = weakest(*(step.seen.status for step in path))
    cautions = tuple(dict.fromkeys(caution for step in path for caution in _cautions(step.caution)))
    return Cover(covered, _steps(path), status, cautions)


def _older(one: Category, other: Category, path: tuple[CategoryStep, ...]) -> Cover:
    older = say("oil.category_older", have=str(one), asked=str(other))
    return Cover("no", (older,), weakest(*(step.seen.status for step in path)), _cautions(categories()[one.key].caution))


def _by_limits(one: CategoryRow, other: CategoryRow) -> Cover:
    have, asked = f"{one.body} {one.name}", f"{other.body} {other.name}"
    cautions = _cautions(one.caution)
    status = weakest(one.seen.status, other.seen.status)
    if one.body == other.body == "ACEA":
        excluded = []
        if one.ash_max_percent is not None and other.ash_max_percent is not None and one.ash_max_percent > other.ash_max_percent:
            excluded.append(
                say(
                    "oil.ash_above",
                    have=have,
                    asked=asked,
                    found=Figure(one.ash_max_percent, "%"),
                    limit=Figure(other.ash_max_percent, "%"),
                )
            )
        if one.hths_min_mpa_s is not None and other.hths_min_mpa_s is not None and one.hths_min_mpa_s < other.hths_min_mpa_s:
            excluded.append(
                say(
                    "oil.film_below",
                    have=have,
                    asked=asked,
                    found=Figure(one.hths_min_mpa_s, "mPa.s"),
                    limit=Figure(other.hths_min_mpa_s, "mPa.s"),
                )
            )
        if excluded:
            return Cover("no", tuple(excluded), status, cautions)
        return Cover("not shown", (say("oil.other_class", have=have, asked=asked),), status, cautions)
    if one.line != other.line:
        return Cover("not shown", (say("oil.other_line", have=have, asked=asked),), status, cautions)
    return Cover("not shown", (say("oil.nobody_says", have=have, asked=asked),), status, cautions)


def _cautions(name: str) -> tuple[Message, ...]:
    return (say(f"oil.caution_{name}"),) if name else ()

"""Which service category may be used where another is asked for: what the sources say, and what they leave open."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from twomarks.reference.bibliography import weakest
from twomarks.reference.oil_categories import CategoryRow, CategoryStep, Limit, category_steps
from twomarks.trade.arrays import require_within
from twomarks.trade.category_names import Category, parse_category
from twomarks.words import Figure, Message, say

__all__ = ["Cover", "Covered", "covers", "has_particle_filter"]

Covered = Literal["yes", "no", "not shown"]

MEMORY = "c"
PARTICLE_FILTERS = ("dpf", "gpf", "opf", "fap", "particulate", "particle")
THIN_DIESEL = "diesel thin"
LOW_SULPHUR_PPM = 15.0
SULPHUR = "sulphur"


@dataclass(frozen=True, slots=True)
class Cover:
    """Whether a category may stand in for another: the answer, its steps, how far the weakest source was seen, cautions.

    `sources` are keys of the bibliography; `settles` says what would settle an answer that is ``not shown``.
    """

    covered: Covered
    steps: tuple[Message, ...]
    status: str
    cautions: tuple[Message, ...] = ()
    sources: tuple[str, ...] = ()
    settles: tuple[Message, ...] = ()


def has_particle_filter(after_treatment: tuple[str, ...]) -> bool:
    """Return whether a particle filter is among what cleans the exhaust.

    Parameters
    ----------
    after_treatment : tuple of str
        Such as ``("dpf", "scr")`` or ``("particulate filter",)``.

    Returns
    -------
    bool
        True where a word for one is among them; a word that is not known counts as none.

    Notes
    -----
    Departs from the sources: none.

    References
    ----------
    common_practice
    """
    return any(word in part.casefold() for part in after_treatment for word in PARTICLE_FILTERS)


def covers(have: str, asked: str, *, fuel_sulphur_ppm: float | None = None, after_treatment: tuple[str, ...] = ()) -> Cover:
    """Return whether an oil of one service category may be used where another is asked for.

    Parameters
    ----------
    have : str
        The category on the label.
    asked : str
        The category that the handbook asks for.
    fuel_sulphur_ppm : float, optional
        Sulphur in the fuel [ppm] by mass, 0 to 50 000; left out, a category that minds carries its caution.
    after_treatment : tuple of str
        What cleans the exhaust, such as ``("dpf", "scr")``; of a particle filter a class of full ash is told.

    Returns
    -------
    Cover
        ``yes`` only on a source that says so; ``no`` where a source or a limit excludes it; else ``not shown``. Cautions of
        a step come with it. Viscosity grade and approval are matched separately.

    Raises
    ------
    InputError
        If one of the two is not known.
    OutOfRangeError
        If the sulphur is below 0 or above 50 000 ppm.

    Notes
    -----
    Petrol categories of API chain, and those of ILSAC up to GF-6A; the diesel categories of API do not ("usually, but not
    always"): a way over several steps is shown and answered ``not shown``. FA-4 and FB-4 stand in for nothing. The same ACEA
    class of a newer year covers an older one; another class never does, and is excluded where its limits of ash or of
    high-shear viscosity are wider. What is known from memory alone is neither a ``yes`` nor a ``no``. Departs from the
    sources: none.

    References
    ----------
    api_cj4, api_ck4, api_fa4, api_pc12, api_pc12_forecast, api_guide, api_guide_2009, api_guide_diesel, ilsac_history,
    ilsac_gf6_pages, ilsac_gf7, ilsac_gf7_pages, acea_update_rule, acea_limits, acea_heavy_succession, jaso_t903, jaso_m355
    """
    if fuel_sulphur_ppm is not None:
        require_within(fuel_sulphur_ppm, quantity="sulphur", unit="ppm", source="house_judgement", low=0.0, high=50_000.0)
    one, other = parse_category(have), parse_category(asked)
    found = _same_class(one, other) if one.key == other.key else _another_class(one, other)
    return _with_surroundings(found, one, fuel_sulphur_ppm, after_treatment)


def _same_class(one: Category, other: Category) -> Cover:
    row = one.row
    cautions = _own_cautions(row)
    if not other.year or one.year == other.year:
        return Cover("yes", (say("oil.category_same", have=str(one)),), row.seen.status, cautions, (row.seen.source,))
    issue = {"have": str(one), "asked": str(other)}
    if one.year > other.year:
        return Cover("yes", (say("oil.category_newer_issue", **issue),), "a2", cautions, ("acea_update_rule",))
    settles = (say("oil.settle_edition", **issue),)
    return Cover("not shown", (say("oil.category_older_issue", **issue),), "a2", cautions, ("acea_update_rule",), settles)


def _another_class(one: Category, other: Category) -> Cover:
    steps = category_steps()
    step = steps.get((one.key, other.key))
    if step is not None:
        return _told(step)
    if one.row.line == THIN_DIESEL:
        alone = say("oil.thin_stands_alone", have=str(one))
        return Cover("no", (alone,), "d", _own_cautions(one.row), (one.row.seen.source,))
    path = _path(one.key, other.key)
    if path and all(part.chains for part in path):
        return _along(path)
    if path:
        chained = say("oil.chain_not_said", have=str(one), asked=str(other))
        sources = tuple(dict.fromkeys(part.seen.source for part in path))
        status = weakest("d", *(part.seen.status for part in path))
        return Cover("not shown", _steps(path), status, (chained, *_of_path(path)), sources, (_ask(other),))
    return _backwards(one, other) or _by_limits(one, other)


def _told(step: CategoryStep) -> Cover:
    sources = (step.seen.source,)
    cautions = _cautions(step.caution)
    names = {"have": step.have, "asked": step.asked}
    ask = (_ask(parse_category(step.asked)),)
    if step.answer == "open":
        return Cover("not shown", (say(f"oil.open_{step.left_open}", **names),), step.seen.status, cautions, sources, ask)
    if step.seen.status == MEMORY:
        return Cover("not shown", (say("oil.from_memory", **names),), MEMORY, cautions, sources, ask)
    return Cover("yes" if step.answer == "yes" else "no", _steps((step,)), step.seen.status, cautions, sources)


def _path(have: str, asked: str) -> tuple[CategoryStep, ...]:
    """Return the shortest way of steps that sources affirm, () where there is none."""
    onward: dict[str, list[CategoryStep]] = {}
    for step in category_steps().values():
        if step.answer == "yes":
            onward.setdefault(step.have, []).append(step)
    ways: list[tuple[CategoryStep, ...]] = [(step,) for step in onward.get(have, ())]
    reached = {have}
    while ways:
        way = ways.pop(0)
        here = way[-1].asked
        if here == asked:
            return way
        if here not in reached:
            reached.add(here)
            ways += [(*way, step) for step in onward.get(here, ())]
    return ()


def _steps(path: tuple[CategoryStep, ...]) -> tuple[Message, ...]:
    return tuple(
        say("oil.category_no_step" if step.answer == "no" else "oil.category_step", have=step.have, asked=step.asked) for step in path
    )


def _of_path(path: tuple[CategoryStep, ...]) -> tuple[Message, ...]:
    return tuple(dict.fromkeys(caution for step in path for caution in _cautions(step.caution)))


def _along(path: tuple[CategoryStep, ...]) -> Cover:
    sources = tuple(dict.fromkeys(step.seen.source for step in path))
    return Cover("yes", _steps(path), weakest(*(step.seen.status for step in path)), _of_path(path), sources)


def _backwards(one: Category, other: Category) -> Cover | None:
    """Return a ``no`` where a source says that what is asked for does more than what is had."""
    path = _path(other.key, one.key)
    if not path or not all(step.exceeds for step in path) or not (len(path) == 1 or all(step.chains for step in path)):
        return None
    sources = tuple(dict.fromkeys(step.seen.source for step in path))
    older = say("oil.category_older", have=str(one), asked=str(other))
    return Cover("no", (older,), weakest("d", *(step.seen.status for step in path)), _own_cautions(one.row), sources)


def _by_limits(one: Category, other: Category) -> Cover:
    have, asked = one.row, other.row
    cautions, ask = _own_cautions(have), (_ask(other),)
    names = {"have": one.key, "asked": other.key}
    sources = tuple(dict.fromkeys((have.seen.source, asked.seen.source)))
    if one.body == other.body == "ACEA":
        wider = _wider(have, asked)
        seen = tuple((reason, status) for reason, status in wider if status != MEMORY)
        if seen:
            return Cover("no", tuple(reason for reason, _ in seen), weakest(*(status for _, status in seen)), cautions, sources)
        if wider:
            remembered = say("oil.limit_from_memory", **names)
            return Cover("not shown", (*(reason for reason, _ in wider), remembered), MEMORY, cautions, sources, ask)
        key = "oil.other_class"
    else:
        key = "oil.other_line" if have.line != asked.line else "oil.nobody_says"
    status = weakest(have.seen.status, asked.seen.status)
    return Cover("not shown", (say(key, **names),), status, cautions, sources, ask)


def _wider(have: CategoryRow, asked: CategoryRow) -> list[tuple[Message, str]]:
    """Return where a class allows what another one forbids, each with how far the weaker of the two figures was seen."""
    found = []
    names = {"have": have.key, "asked": asked.key}
    ash, ash_asked = have.ash_max_percent, asked.ash_max_percent
    if ash and ash_asked and ash.value > ash_asked.value:
        found.append(
            (say("oil.ash_above", **names, found=Figure(ash.value, "%"), limit=Figure(ash_asked.value, "%")), _both(ash, ash_asked))
        )
    film, film_asked = have.hths_min_mpa_s, asked.hths_min_mpa_s
    if film and film_asked and film.value < film_asked.value:
        figures = {"found": Figure(film.value, "mPa.s"), "limit": Figure(film_asked.value, "mPa.s")}
        found.append((say("oil.film_below", **names, **figures), _both(film, film_asked)))
    return found


def _both(one: Limit, other: Limit) -> str:
    return weakest(one.status, other.status)


def _with_surroundings(found: Cover, one: Category, sulphur_ppm: float | None, after_treatment: tuple[str, ...]) -> Cover:
    """Add what the fuel and the exhaust say of the category that is had."""
    row = one.row
    if has_particle_filter(after_treatment) and row.saps == "full":
        found = replace(found, cautions=(*found.cautions, say("oil.caution_full_ash", have=str(one))))
    if sulphur_ppm is None:
        return found
    limit = row.sulphur_max_ppm
    sulphur = Figure(sulphur_ppm, "ppm")
    if limit is not None and limit.status != MEMORY and sulphur_ppm > limit.value:
        above = say("oil.sulphur_above", have=str(one), found=sulphur, limit=Figure(limit.value, "ppm"))
        sources = tuple(dict.fromkeys((*found.sources, row.seen.source)))
        if found.covered == "no":
            return replace(found, steps=(*found.steps, above), sources=sources)
        settles = (*found.settles, say("oil.settle_sulphur", found=sulphur))
        return replace(found, covered="not shown", steps=(above, *found.steps), sources=sources, settles=settles)
    minds = say(f"oil.caution_{SULPHUR}")
    if minds in found.cautions:
        told = (say("oil.sulphur_minded", found=sulphur, limit=Figure(LOW_SULPHUR_PPM, "ppm")),) if sulphur_ppm > LOW_SULPHUR_PPM else ()
        return replace(found, cautions=(*(one for one in found.cautions if one != minds), *told))
    return found


def _own_cautions(row: CategoryRow) -> tuple[Message, ...]:
    """Return what is to be minded with a category whatever it is used for."""
    if row.built_until is not None:
        return (say("oil.caution_obsolete_after", have=row.key, year=row.built_until),)
    return _cautions(row.caution)


def _ask(asked: Category) -> Message:
    return say("oil.settle_cover", asked=str(asked))


def _cautions(name: str) -> tuple[Message, ...]:
    return (say(f"oil.caution_{name}"),) if name else ()

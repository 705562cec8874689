"""When it goes wrong, and when somebody is hurt: the short branches that ship, and what they bring to light where they are played."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.model.procedure import Branch, Played, Procedure, Step, placeholders
from twomarks.model.vehicle import VehicleSheet
from twomarks.procedures.binding import bind
from twomarks.procedures.bound import Choices
from twomarks.procedures.kit import Kit
from twomarks.procedures.practice import PRACTICE
from twomarks.procedures.rehearsal import Finding, rehearse
from twomarks.words import Value, Wording

__all__ = ["branch_keys", "branch_of", "branch_text", "branches", "brought_to_light", "played_with", "worded"]

_FOLDER = "procedures/library/when_it_goes_wrong"


@cache
def branch_keys() -> tuple[str, ...]:
    """Return the keys of the branches that ship."""
    return tuple(name.removesuffix(".toml") for name in packaged.names(_FOLDER, ".toml"))


def branch_text(key: str) -> str:
    """Return the text of the branch called `key`, as it ships."""
    if key not in branch_keys():
        raise InputError("procedure.unknown", where=key, found=key, expected=branch_keys())
    return packaged.text(f"{_FOLDER}/{key}.toml")


@cache
def branches() -> Mapping[str, Procedure]:
    """Return every branch by its key, in their order: when somebody is hurt first."""
    found = [Procedure.model_validate(tomllib.loads(branch_text(key))) for key in branch_keys()]
    found.sort(key=lambda one: (not branch_of(one).hurt, branch_of(one).number))
    return MappingProxyType({one.key: one for one in found})


def branch_of(procedure: Procedure) -> Branch:
    """Return what makes a procedure a branch.

    Raises
    ------
    InputError
        Where it is none.
    """
    if procedure.branch is None:
        raise InputError("procedure.no_branch", found=procedure.key)
    return procedure.branch


def worded(text: str) -> Wording:
    """Return a branch's words, which need no vehicle: terms stay placeholders, figures are those of practice."""
    figures: dict[str, Value] = {f"{name}.{fact}": PRACTICE.get(fact) for name, fact in placeholders(text) if name == "practice"}
    return Wording(text, figures)


def played_with(branch: Procedure, host: Procedure, place: Played) -> Procedure:
    """Return what is worked where it goes wrong at `place`: the host up to there, the branch, and what is left of the host."""
    at = next((number for number, step in enumerate(host.steps) if step.id == place.step), None)
    if at is None:
        raise InputError("procedure.during", where=branch.key, found=place.step, expected=tuple(step.id for step in host.steps))
    before = host.steps[: at + place.done]
    after = host.steps[at + place.done :] if place.goes_on else ()
    return host.model_copy(
        update={
            "roles": {**branch.roles, **host.roles},
            "tools": {**branch.tools, **host.tools},
            "steps": (*before, *_own(branch), *after),
            "follow_ups": (*host.follow_ups, *branch.follow_ups),
        }
    )


def _own(branch: Procedure) -> Iterator[Step]:
    """Yield the branch's steps under ids that no other procedure uses."""
    for step in branch.steps:
        yield step.model_copy(update={"id": f"{branch.key}/{step.id}"})


def brought_to_light(
    branch: Procedure,
    host: Procedure,
    place: Played,
    sheet: VehicleSheet,
    *,
    item: str | None = None,
    choices: Choices | None = None,
    kit: Kit | None = None,
) -> tuple[Finding, ...]:
    """Return what a rehearsal finds where the branch is worked at `place`, and the host alone would not have found.

    A branch that ends the job is not judged by what stands open at its end: that is told on the card.
    """
    alone = {(one.rule, one.step, one.thing) for one in rehearse(bind(host, sheet, item=item, choices=choices), kit).findings}
    played = bind(played_with(branch, host, place), sheet, item=item, choices=choices)
    found = rehearse(played, kit, to_the_end=place.goes_on).findings
    return tuple(one for one in found if (one.rule, one.step, one.thing) not in alone)

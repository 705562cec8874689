"""When it goes wrong, and when somebody is hurt: the branches as phone, paper and text show them, those of a step first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from twomarks.model.procedure import Procedure
from twomarks.planning.card import CardStep, Caution, JobCard
from twomarks.procedures.branches import branch_of, branches, worded
from twomarks.procedures.concerns import belongs
from twomarks.reference.bibliography import Reference, reference
from twomarks.words import Message, Wording, say

__all__ = ["BranchStep", "CardBranch", "all_branches", "belonging_to", "of_card", "of_step"]

PARTS = ("stop", "look", "next")


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchStep:
    """One step of a branch: `part` is stop, look or next."""

    part: str
    words: Wording
    cautions: tuple[Caution, ...] = ()
    accept: Wording | None = None
    reject: Wording | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardBranch:
    """A branch to be read: what one sees, what to stop, look at and do next, where one gives up, what not to do, and its sources."""

    key: str
    title: str
    hurt: bool
    sign: Wording
    steps: tuple[BranchStep, ...]
    give_up: Wording
    never: tuple[Wording, ...]
    sources: tuple[Reference, ...]

    def part(self, name: str) -> tuple[BranchStep, ...]:
        """Return the steps of one part: stop, look or next."""
        return tuple(step for step in self.steps if step.part == name)

    @property
    def parts(self) -> tuple[tuple[Message, tuple[BranchStep, ...]], ...]:
        """The three parts with their names, in order."""
        kind = "hurt" if self.hurt else "work"
        return tuple((say(f"wrong.{kind}_{name}"), self.part(name)) for name in PARTS)

    @property
    def end(self) -> Message:
        """The name of the point where one gives up."""
        return say("wrong.hurt_end" if self.hurt else "wrong.work_end")

    @property
    def rests_on(self) -> Message:
        """Where it comes from, in words."""
        named = tuple(one.title for one in self.sources if one.key != "common_practice")
        return say("wrong.sources", sources=named) if named else say("wrong.no_source")


@cache
def all_branches() -> tuple[CardBranch, ...]:
    """Return every branch in its order: when somebody is hurt first."""
    return tuple(_branch(procedure) for procedure in branches().values())


def _branch(procedure: Procedure) -> CardBranch:
    about = branch_of(procedure)
    steps = tuple(
        BranchStep(
            part=step.part or "",
            words=worded(step.words),
            cautions=tuple(Caution(signal=one.signal, words=worded(one.words)) for one in step.caution),
            accept=worded(step.accept) if step.accept else None,
            reject=worded(step.reject) if step.reject else None,
        )
        for step in procedure.steps
    )
    return CardBranch(
        key=procedure.key,
        title=procedure.title,
        hurt=about.hurt,
        sign=worded(about.sign),
        steps=steps,
        give_up=worded(about.give_up),
        never=tuple(worded(line) for line in about.never),
        sources=tuple(reference(key) for key in about.sources),
    )


def belonging_to(step: CardStep) -> tuple[str, ...]:
    """Return the keys of the branches that belong to a step, in their order."""
    found = ((key, branch_of(procedure)) for key, procedure in branches().items())
    return tuple(key for key, about in found if not about.hurt and belongs(about.belongs, step.concerns, place=step.place))


def of_step(step: CardStep) -> tuple[CardBranch, ...]:
    """Return the branches that belong to a step, in their order."""
    return _named(belonging_to(step))


def of_card(card: JobCard) -> tuple[CardBranch, ...]:
    """Return the branches that belong to any step of a card; all of them where the card does not say what its steps concern."""
    if not any(step.concerns for step in card.steps):
        return tuple(one for one in all_branches() if not one.hurt)
    return _named(key for step in card.steps for key in belonging_to(step))


def _named(keys: Iterable[str]) -> tuple[CardBranch, ...]:
    wanted = set(keys)
    return tuple(one for one in all_branches() if one.key in wanted)

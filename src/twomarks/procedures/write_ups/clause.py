"""A clause: one verb or state, what it acts on, and under which reservation it is said."""

from __future__ import annotations

from dataclasses import dataclass, field

from twomarks.procedures.write_ups.figures import Typed
from twomarks.procedures.write_ups.items import Item
from twomarks.procedures.write_ups.vocabulary import Verb

__all__ = ["Clause", "Named"]


@dataclass(slots=True, kw_only=True)
class Named:
    """A thing that a clause names: its noun, how it stands (after which preposition), new or old, after which words."""

    noun: str
    after: str = ""
    new: bool = False
    old: bool = False
    owner: str = ""


@dataclass(slots=True, kw_only=True)
class Clause:
    """A verb with all that belongs to it; without a verb, a state ("cap off") or things alone."""

    verb: Verb | None = None
    head: str = ""
    form: str = ""
    named: list[Named] = field(default_factory=list)
    particles: list[str] = field(default_factory=list)
    figures: list[Typed] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    pronoun: bool = False
    aimed: bool = False
    stranger: bool = False
    told: bool = False
    negated: bool = False
    conditional: bool = False
    aside: bool = False
    waiting: bool = False
    reversed: bool = False
    regret: bool = False
    by_hand: bool = False
    joined: str = ""
    unknown_verb: str = ""
    cause: Item | None = None

    @property
    def objects(self) -> list[Named]:
        """The things named before any preposition."""
        return [one for one in self.named if not one.after]

    @property
    def empty(self) -> bool:
        """Whether nothing stands in it."""
        return not (
            self.verb or self.head or self.named or self.particles or self.figures or self.reversed or self.by_hand or self.unknown_verb
        )

    def text(self) -> str:
        """Return the words of the clause."""
        return " ".join(self.words)

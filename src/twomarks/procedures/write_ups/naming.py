"""What a word of a write-up means where it stands: the circuit at work, what was named last, what is off."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from twomarks.procedures.write_ups.clause import Clause, Named
from twomarks.procedures.write_ups.vocabulary import Noun, folded, tokens_of, vocabulary

__all__ = ["Context"]

_SHUTS = frozenset(("fit", "close", "connect", "tighten"))
_OPENS = frozenset(("remove", "open", "disconnect", "loosen"))
_LONGEST = 5
_NOT_TELLING = frozenset(("fuel", "laid", "wing", "cap"))


def _anything(_noun: Noun) -> bool:
    return True


@dataclass(slots=True)
class Context:
    """What has been said so far."""

    family: str = ""
    families: tuple[str, ...] = ()
    axle: str = ""
    named: list[str] = field(default_factory=list)
    here: list[str] = field(default_factory=list)
    off: dict[str, str] = field(default_factory=dict)
    loose: set[str] = field(default_factory=set)
    running: bool = False
    regretted: bool = False
    fitted: str = ""
    tried: str = ""
    assumed: set[str] = field(default_factory=set)

    def hear(self, text: str) -> None:
        """Take in which circuit a sentence or a heading is about."""
        tokens = [folded(word) for word in tokens_of(text)]
        known = vocabulary().family_words
        for at in range(len(tokens)):
            for length in range(_LONGEST, 0, -1):
                name = known.get(tuple(tokens[at : at + length]))
                if name:
                    self.family = name
                    break
        if self.family == "axle":
            for word in ("front", "rear", "back"):
                if word in tokens:
                    self.axle = "front" if word == "front" else "rear"

    def mention(self, named: Iterable[Named]) -> None:
        """Take in things that were named."""
        for one in named:
            noun = self.noun_of(one, "")
            if noun is not None:
                self.mention_key(noun.key, told=one.noun in vocabulary().nouns and one.after != "with")

    def mention_key(self, key: str, *, told: bool = True) -> None:
        """Take in one thing that was named; `told` where its own word was said, so that it tells the circuit."""
        noun = vocabulary().nouns[key]
        self.named.append(key)
        self.here.append(key)
        if told and noun.family and noun.kind not in _NOT_TELLING:
            self.family = noun.family

    def done(self, action: str, key: str) -> None:
        """Take in what was done."""
        if action in ("run_engine", "warm", "drive"):
            self.running = True
        if action == "stop_engine":
            self.running = False
        if not key:
            return
        self.tried = ""
        self.fitted = key if action == "fit" else ""
        if action == "loosen":
            self.loose.add(key)
        elif action == "tighten":
            self.loose.discard(key)
        if action == "drain":
            drain = vocabulary().families.get(vocabulary().nouns[key].family, {}).get("drain", "")
            if drain and vocabulary().nouns[drain].kind == "plug":
                self.off[drain] = "remove"
        elif action in ("remove", "open", "disconnect") and vocabulary().nouns[key].kind != "set":
            self.off[key] = action
        elif action in ("fit", "close", "connect"):
            self.off.pop(key, None)

    def kind_of(self, one: Named) -> str:
        """Return the class of a thing that is named."""
        noun = self.noun_of(one, "")
        return noun.kind if noun is not None else ""

    def noun_of(self, one: Named, plain: str) -> Noun | None:
        """Return what a named thing is, where something is done to it."""
        known = vocabulary()
        if one.noun in known.nouns:
            noun = known.nouns[one.noun]
            if one.old and noun.kind == "fluid":
                old = {"coolant": "old_coolant", "brake": "old_brake_fluid"}.get(noun.family, "old_oil")
                return known.nouns.get(old, noun)
            return noun
        return self._meant(known.open_words.get(one.noun, ()), plain, one)

    def _meant(self, could_be: Sequence[str], plain: str, one: Named) -> Noun | None:
        known = vocabulary().nouns
        if one.owner:
            could_be = [key for key in could_be if self._belongs(known[key], one.owner)]
        able = [key for key in could_be if not plain or known[key].action(plain)] or list(could_be)
        if able and one.old and known[able[0]].kind == "fluid":
            return known["old_oil"]
        ranked = sorted(able, key=lambda key: self._nearness(key, plain, able.index(key)), reverse=True)
        if not ranked:
            return None
        best = known[ranked[0]]
        in_family = bool(self.family) and best.family == self.family
        if in_family or self._recency(best.key) >= 0 or len(could_be) == 1 or (not best.family and best.kind != "fastening"):
            return best
        if not self.families and best.family == "engine":
            self.assumed.add("engine")
            return best
        return None

    def _belongs(self, noun: Noun, owner: str) -> bool:
        """Return whether a thing belongs to the one that was named with it ("the bolt of the bracket")."""
        known = vocabulary()
        meant = self.noun_of(Named(noun=owner), "")
        owners = (meant.key,) if meant is not None else ()
        of = noun.role.get("of") if noun.role is not None else None
        families = {known.nouns[one].family for one in owners if one in known.nouns} - {""}
        return bool({noun.key, noun.at, of} & set(owners)) or noun.family in families

    def _nearness(self, key: str, plain: str, order: int) -> tuple[int, int, int, int]:
        noun = vocabulary().nouns[key]
        family = 1 if self.family and noun.family == self.family else 0
        shut = 1 if plain in _SHUTS and (key in self.off or (plain != "tighten" and key in self.loose)) else 0
        return family, shut, self._recency(key), -order

    def _recency(self, key: str) -> int:
        """Return how lately a thing, or what it belongs to, was named; -1 where it was not."""
        known = vocabulary().nouns
        noun = known[key]
        owners = {key, noun.at} if noun.at else {key}
        owner = noun.role.get("of") if noun.role is not None and noun.kind == "seal" else None
        while isinstance(owner, str) and owner in known:
            owners.add(owner)
            role = known[owner].role
            owner = role.get("of") if role is not None and known[owner].kind != "plug" else None
        return max((place for place, one in enumerate(self.named) if one in owners), default=-1)

    def object_of(self, clause: Clause, plain: str, fits: Callable[[Noun], bool] = _anything) -> Noun | None:
        """Return the thing that a clause acts on: the one named, else the one meant by "it"."""
        self.hint(clause)
        for one in clause.objects:
            noun = self.noun_of(one, plain)
            if noun is not None and (noun.action(plain) or plain in ("pour", "drain", "bleed", "take", "change", "")) and fits(noun):
                return noun
        for one in clause.named:
            if one.after and _aims(plain, one.after):
                noun = self.noun_of(one, plain)
                if noun is not None and (noun.action(plain) or plain == "pour") and fits(noun):
                    return noun
        if clause.stranger and not clause.pronoun:
            return None
        if clause.objects:
            first = self.noun_of(clause.objects[0], plain)
            return first if first is not None and fits(first) else None
        return self.it(plain, fits) if clause.pronoun else None

    def hint(self, clause: Clause) -> None:
        """Take in what a thing is said to be on or of ("the cap of the reservoir"), before it is asked which one it is."""
        known = vocabulary().nouns
        if any(one.noun not in known for one in clause.objects):
            for one in clause.named:
                if one.after in ("on", "of", "from", "off", "round", "around", "to", "at") and one.noun in known:
                    self.named.append(one.noun)

    def it(self, plain: str, fits: Callable[[Noun], bool]) -> Noun | None:
        known = vocabulary().nouns
        if plain in ("secure", "drain", "pour", "bleed", "run_engine", "warm", "drive", "wait"):
            return None
        if plain in ("lower", "raise", "support", "shake"):
            return next((known[key] for key in reversed(self.here) if plain in known[key].does and fits(known[key])), None)
        off = [key for key in reversed(self.named) if key in self.off] if plain in ("fit", "connect", "close", "change") else []
        here = [key for key in reversed(self.here) if known[key].kind != "seal" or plain not in ("fit", "change")]
        itself = [key for key in off if plain in known[key].does]
        for key in (*(one for one in here if one in off), *here, *itself, *off, *reversed(self.named)):
            noun = known[key]
            if plain in ("fit", "change") and key == self.fitted:
                continue
            if noun.action(plain) and fits(noun) and noun.kind not in ("fluid", "surface"):
                return noun
        return None

    def circuit(self) -> Noun | None:
        """Return the fluid of the circuit at work."""
        known = vocabulary()
        if not self.family and not self.families:
            self.assumed.add("engine")
        family = self.family or (self.families[0] if self.families else "engine")
        return known.nouns.get(known.families.get(family, {}).get("circuit", ""))

    def circuit_of(self, noun: Noun) -> Noun | None:
        """Return the fluid that goes into, or comes out of, a thing."""
        known = vocabulary()
        if noun.kind not in ("engine", "tank", "plug", "cap", "vehicle", "housing", "pan", "old_fluid"):
            return None
        family = noun.family or ("engine" if noun.kind == "engine" and self.family in ("", "engine") else self.family)
        return known.nouns.get(known.families.get(family, {}).get("circuit", "")) if family else None

    def old_thing(self, clause: Clause) -> Noun | None:
        """Return what a clause brings away: old fluid, or an old part."""
        known = vocabulary().nouns
        for one in clause.named:
            noun = self.noun_of(one, "")
            if noun is None or one.after in ("to", "into", "at", "in", "for"):
                continue
            if noun.kind in ("old_fluid", "old") and noun.action("decant"):
                return noun
            if noun.kind == "fluid" and (one.old or noun.family == self.family) and one.old:
                return noun
            if one.old and noun.action("decant"):
                return noun
        if clause.pronoun and not clause.objects:
            return next((known[key] for key in reversed(self.here) if known[key].kind == "old_fluid"), None)
        return None

    def last_put_down(self) -> Noun | None:
        """Return what was in hand in this sentence, else what was taken off last and is not back."""
        known = vocabulary().nouns
        in_hand = next((known[key] for key in reversed(self.here) if "fit" in known[key].does and known[key].kind != "seal"), None)
        if in_hand is not None:
            return in_hand
        keys = [key for key in self.named if key in self.off]
        key = keys[-1] if keys else next(reversed(self.off), "")
        return vocabulary().nouns.get(key)

    def other_like(self, noun: Noun) -> Noun | None:
        """Return the other thing of the same sort that was named last."""
        known = vocabulary().nouns
        return next((known[key] for key in reversed(self.named) if key != noun.key and noun.like and known[key].like == noun.like), None)


def _aims(plain: str, word: str) -> bool:
    match plain:
        case "inspect" | "measure":
            return word in ("for", "at", "over", "in", "on")
        case "pour":
            return word in ("with", "in", "into", "to")
        case "press" | "prime":
            return word in ("on", "at")
        case "clean":
            return word in ("round", "around", "over", "off", "from")
        case "oil":
            return word in ("on", "round", "around", "over", "to", "onto")
        case _:
            return False

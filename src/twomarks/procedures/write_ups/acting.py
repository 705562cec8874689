"""What a verb does where it stands: the verbs it may be with its particles, and the thing it acts on."""

from __future__ import annotations

from typing import Protocol

from twomarks.procedures.write_ups.clause import Clause
from twomarks.procedures.write_ups.naming import Context
from twomarks.procedures.write_ups.vocabulary import Noun, Verb, vocabulary

__all__ = ["WEAK_STATES", "Before", "head_of_cause", "state_of", "thing_and_action", "verbs_for"]

WEAK_STATES = ("out", "off", "up", "down", "in", "on", "back", "under", "underneath", "behind", "beneath", "together", "away")
"""Particles that say where a thing is, and give way to a word that says how it is ("tight", "open")."""
_TURNED = frozenset(("screw", "thread", "spin", "wind", "twist"))
_JOINED = ("and", "then", ",", "and then", ", and")


class Before(Protocol):
    """The action before in the same sentence."""

    @property
    def thing(self) -> str:
        """What it was done to."""


def verbs_for(clause: Clause, head: str) -> list[Verb]:
    """Return what a verb may be with the particles that stand about it, the longest first."""
    said = [*(clause.verb.rest if clause.verb else ()), *(one.rstrip("+") for one in clause.particles)]
    said += [short for short in ("in", "on") if f"{short}to" in said]
    words = clause.words
    greases = vocabulary().small["greases"] & set(words)
    said += [one for one in words if one in greases]
    fitting = [
        verb
        for verb in vocabulary().verbs.get(head, ())
        if verb is clause.verb or _within(verb.rest, said) or (len(verb.rest) > 1 and _within(verb.rest, words))
    ]
    return sorted(fitting, key=lambda verb: (-len(verb.rest), not verb.only_classes))


def _within(rest: tuple[str, ...], said: list[str]) -> bool:
    place = 0
    for word in rest:
        try:
            place = said.index(word, place) + 1
        except ValueError:
            return False
    return True


def thing_and_action(clause: Clause, verb: Verb, context: Context, before: Before | None) -> tuple[Noun | None, str]:
    """Return the thing that a verb acts on and the exact action, "" where the two do not go together; no thing where none is meant."""
    plain = verb.does
    known = vocabulary().nouns

    def fits(noun: Noun) -> bool:
        if plain == "fit" and clause.head in _TURNED and noun.kind == "seal":
            return False
        if verb.only and noun.key != verb.only and noun.thing != verb.only:
            return False
        return not verb.only_classes or noun.kind in verb.only_classes

    if verb.always:
        over = not verb.over or any(context.kind_of(one) in verb.over for one in clause.objects)
        over = over or (not clause.objects and verb.does == "chock")
        always = known.get(verb.always)
        return (always, verb.does) if always is not None and over else (None, "")
    if verb.caused and clause.cause is None and not any(one.kind == "duration" for one in clause.figures):
        return None, ""
    around = any(one.after in ("round", "around", "on", "over") for one in clause.named)
    if plain == "clean" and around and clause.pronoun and context.here and known[context.here[-1]].kind == "fluid":
        plain = "oil"
    if verb.only == "nothing":
        return None, "wait"
    if plain == "drive" and (clause.verb is None or clause.verb.only == "vehicle" or verb.rest):
        return known["vehicle"], "drive"
    if plain in ("warm", "record", "prime") and verb.alone in known:
        alone = known[verb.alone]
        if plain == "warm" and any(context.kind_of(one) not in ("engine", "fluid", "vehicle") for one in clause.objects):
            return None, ""
        if plain != "record" or clause.named:
            return alone, alone.action(plain)
    target = context.object_of(clause, plain, fits)
    if target is not None and not clause.objects and "both" in clause.words and context.other_like(target) is None:
        target = None
    if target is None and plain == "oil" and clause.aimed:
        target = context.it(plain, fits)
    if target is not None:
        if plain in ("pour", "drain", "bleed") and not target.action(plain):
            instead = context.circuit_of(target)
            if instead is not None and fits(instead):
                return instead, instead.action(plain)
        action = "renew" if target.means.get(plain) == "renew" else target.action(_plain_take(plain, target))
        return target, action if fits(target) else ""
    if clause.objects or (clause.stranger and not clause.pronoun and plain not in ("raise", "lower")):
        return None, ""
    meant, action = _alone(clause, verb, context)
    if meant is None and not verb.alone and not clause.pronoun and (clause.joined in _JOINED or plain == "tighten"):
        again = known.get(before.thing) if before is not None else None
        if again is None or not again.action(plain) or (plain == "fit" and again.key == context.fitted):
            again = context.it(plain, fits)
        if again is not None and again.action(plain) and fits(again) and not verb.quiet:
            return again, again.action(plain)
    return meant, action


def _plain_take(plain: str, thing: Noun) -> str:
    return {"key": "take_away"}.get(thing.kind, "") if plain == "take" else plain


def _alone(clause: Clause, verb: Verb, context: Context) -> tuple[Noun | None, str]:
    known = vocabulary().nouns
    match verb.alone:
        case "":
            return None, ""
        case "fluid":
            circuit = context.circuit()
            return (circuit, circuit.action(verb.does)) if circuit is not None else (None, "")
        case "leaks_after_run":
            beneath = {"under", "underneath", "below", "beneath", "around"} & set(clause.words)
            return (known["leaks"], "inspect") if beneath else (None, "")
        case "engine" if verb.does == "stop_engine" and clause.head in ("stop", "cut", "shut") and not verb.rest and not context.running:
            return None, ""
        case "engine" if (
            verb.does == "run_engine"
            and clause.head in ("start", "run", "turn", "fire")
            and not verb.rest
            and not clause.pronoun
            and (set(clause.particles) - {"up"} or clause.named)
        ):
            return None, ""
        case "spills":
            wiped = clause.pronoun or {"up", "down"} & set(clause.words) or not clause.named
            return (known["spills"], "clean") if wiped else (None, "")
        case _:
            alone = known.get(verb.alone)
            return (alone, alone.action(verb.does)) if alone is not None else (None, "")


def state_of(clause: Clause) -> str:
    """Return the plain action of what is said to be so ("tight", "cap off"), "" where nothing of that kind is said."""
    states = vocabulary().states
    said = [one.rstrip("+") for one in clause.particles]
    strong = [one for one in said if one in states and one not in WEAK_STATES]
    if strong:
        return states[strong[-1]]
    if "back" in said and ({"in", "on"} & set(said) or said[-1] == "back"):
        return "fit"
    weak = [one for one in said if one in states and one not in ("up", "down")] or [one for one in said if one in states]
    return states[weak[0]] if weak else ""


def head_of_cause(clause: Clause) -> str:
    """Return the verb that a word such as "leave" is where nothing is let happen."""
    assert clause.cause is not None
    return next((head for head, _ in vocabulary().forms.get(clause.cause.words[0], ())), "")

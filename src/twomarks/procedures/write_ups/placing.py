"""Clauses placed: which action on which thing each one is, from what was named before it; or why it was not placed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from twomarks.procedures.write_ups.acting import WEAK_STATES, head_of_cause, state_of, thing_and_action, verbs_for
from twomarks.procedures.write_ups.clause import Clause, Named
from twomarks.procedures.write_ups.figures import Typed
from twomarks.procedures.write_ups.naming import Context
from twomarks.procedures.write_ups.vocabulary import Noun, Verb, vocabulary

__all__ = ["Placed", "Placing", "place_clause"]

SHUTTING = frozenset(("fit", "close", "connect"))
OPENING = frozenset(("remove", "open", "disconnect"))
_MAKE_SURE = frozenset(("make", "ensure"))
_ONLY_STATE = frozenset((*WEAK_STATES, "and", "then", "again", "home", ",", "."))
_FORBIDS = frozenset(("never", "don't", "dont", "avoid"))
_BARE = {"worn": "wear", "pan": "place", "chocks": "chock", "stands": "support", "held": "secure"}
_ON_STANDS = frozenset(("on", "onto", "with", "down on", "upon"))
_OFF_STANDS = frozenset(("off", "from"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One action that a sentence says: on which thing, with which figures, in which manner."""

    action: str
    thing: str = ""
    plain: str = ""
    new: bool = False
    figures: tuple[Typed, ...] = ()
    by_hand: bool = False
    waiting: bool = False
    words: str = ""
    asks: str = ""


@dataclass(slots=True)
class Placing:
    """What became of one clause: the actions, and why something of it was not placed ("" where nothing was left)."""

    placed: list[Placed] = field(default_factory=list)
    open: str = ""
    warned: bool = False


def place_clause(clause: Clause, context: Context, before: Placed | None) -> Placing:
    """Return the actions of one clause; `before` is the action before it in the same sentence."""
    found = Placing()
    if clause.aside:
        context.mention(clause.named)
        return found
    if clause.negated:
        context.mention(clause.named)
        found.warned = bool(clause.head) or bool(_FORBIDS & set(clause.words))
        return found
    if "already" in clause.words:
        context.mention(clause.named)
        return found
    actions = list(_actions(clause, context, before, found))
    if clause.conditional:
        if actions:
            found.open = "condition"
        return found
    found.placed = actions
    for one in actions:
        context.done(one.action, one.thing)
    return found


def _actions(clause: Clause, context: Context, before: Placed | None, found: Placing) -> Iterator[Placed]:
    stands = next((one for one in clause.named if vocabulary().nouns.get(one.noun) and vocabulary().nouns[one.noun].kind == "stands"), None)
    if stands is not None and stands.after in _OFF_STANDS:
        context.mention(clause.named)
        yield _as_placed(clause, "lower", "vehicle")
        return
    first = list(_of_clause(clause, context, before, found))
    if stands is not None and stands.after in _ON_STANDS:
        context.mention([stands])
        first = [one for one in first if one.action == "raise"]
        first.append(_as_placed(clause, "support", "stands"))
        found.open = ""
    yield from first
    yield from _seals_with(clause, context)
    yield from _tightened(clause, first)


def _of_clause(clause: Clause, context: Context, before: Placed | None, found: Placing) -> Iterator[Placed]:
    if _goes_away(clause, context):
        thing = context.old_thing(clause)
        if thing is not None:
            action = thing.action("decant")
            yield _as_placed(clause, action, thing.key)
            return
    head = clause.head or (head_of_cause(clause) if clause.cause else "")
    if head:
        yield from _of_verb(clause, head, context, before, found)
    elif clause.unknown_verb:
        context.mention(clause.named)
        if clause.named:
            found.open = "verb"
    else:
        yield from _of_state(clause, context, before)


def _goes_away(clause: Clause, context: Context) -> bool:
    tips = vocabulary().small["tips"]
    named = any(context.kind_of(one) in ("old_fluid", "fluid", "old") or one.old for one in clause.named) or clause.pronoun
    text = clause.text()
    return named and any(
        re.search(rf"\b(?:to|at|into|in|for) (?:the |a |an |your |some )?(?:\w+ ){{0,2}}{re.escape(tip)}s?\b", text) for tip in tips
    )


def _of_verb(clause: Clause, head: str, context: Context, before: Placed | None, found: Placing) -> Iterator[Placed]:
    verbs = verbs_for(clause, head)
    if head in _MAKE_SURE or (head == "check" and clause.named and set(clause.words) & {"is", "are"}):
        state = state_of(clause)
        thing = context.object_of(clause, state) if state else None
        if state and thing is not None and thing.action(state) and not any(one.old for one in clause.named) and "came" not in clause.words:
            context.mention(clause.named)
            yield _as_placed(clause, thing.action(state), thing.key, plain=state)
            return
    blocked: Noun | None = None
    context.tried = verbs[0].does if verbs and not verbs[0].quiet else ""
    for verb in verbs:
        thing, action = thing_and_action(clause, verb, context, before)
        if thing is None and action:
            context.mention(clause.named)
            yield _as_placed(clause, action, "", plain=verb.does)
            return
        if thing is not None and action:
            context.mention(clause.named)
            context.mention_key(thing.key)
            yield from _made(clause, verb, thing, action, context)
            return
        blocked = blocked or thing
    context.mention(clause.named)
    if (verbs and not all(verb.quiet for verb in verbs) and (blocked is not None or clause.named)) or (
        clause.stranger and not clause.pronoun and not all(verb.quiet for verb in verbs)
    ):
        found.open = "thing"
    elif not verbs and clause.named and clause.head:
        found.open = "verb"


def _made(clause: Clause, verb: Verb, thing: Noun, action: str, context: Context) -> Iterator[Placed]:
    if action == "renew":
        yield _as_placed(clause, "drain", thing.key, plain="change", asks="change")
        yield _as_placed(clause, "pour", thing.key, plain="change")
        return
    if action == "support" and thing.kind == "vehicle":
        thing = vocabulary().nouns["stands"]
    new = any(one.new for one in clause.objects)
    asks = ""
    if verb.does == "change" and action == "fit":
        new = thing.kind in ("element", "part", "seal")
        asks = "" if new else "put_back"
    if thing.kind == "tyre" and ("pressure" in clause.words or any(one.kind == "pressure" for one in clause.figures)):
        action = "measure"
    yield _as_placed(clause, action, thing.key, plain=verb.does, new=new, asks=asks)
    if "both" in clause.words and not clause.objects:
        other = context.other_like(thing)
        if other is not None:
            yield _as_placed(clause, action, other.key, plain=verb.does)


def _of_state(clause: Clause, context: Context, before: Placed | None) -> Iterator[Placed]:
    state = "" if clause.told else state_of(clause)
    if clause.regret or context.regretted:
        for one in clause.named:
            noun = context.noun_of(one, "")
            bare = _BARE.get(noun.kind, "") if noun is not None else ""
            if noun is not None and bare:
                context.mention([one])
                yield _as_placed(clause, bare, noun.key, asks="order")
        return
    torque = any(one.kind == "torque" for one in clause.figures)
    led = [one for one in clause.named if not one.after or (one.after == "with" and clause.words[:1] == ["with"])]
    if not led and clause.named:
        context.mention(clause.named)
        return
    if torque and led and not state:
        noun = context.noun_of(led[0], "tighten")
        if noun is not None and noun.action("tighten"):
            context.mention(clause.named)
            yield _as_placed(clause, noun.action("tighten"), noun.key, plain="tighten", new=led[0].new)
            return
    context.hint(clause)
    if led and state:
        noun = context.noun_of(led[0], state)
        context.mention(clause.named)
        if noun is not None and noun.action(state):
            new = led[0].new and state == "fit"
            yield _as_placed(clause, noun.action(state), noun.key, plain=state, new=new)
        return
    if led and led[0].new and not clause.words[0].isdigit():
        noun = context.noun_of(led[0], "fit")
        context.mention(clause.named)
        if noun is not None and noun.action("fit"):
            yield _as_placed(clause, noun.action("fit"), noun.key, plain="fit", new=True)
        return
    if context.tried:
        before = Placed(action=context.tried, plain=context.tried)
    if led and before is not None and clause.joined in ("and", "then", ",", "and then", "or", "plus"):
        yield from _joined(clause, led, context, before)
        return
    if not led and state == "fit" and set(clause.words) <= _ONLY_STATE:
        noun = context.last_put_down()
        if noun is not None:
            yield _as_placed(clause, noun.action("fit"), noun.key, plain="fit")
        return
    context.mention(clause.named)


def _joined(clause: Clause, led: list[Named], context: Context, before: Placed) -> Iterator[Placed]:
    """Yield what the verb before does to one more thing ("connect the positive lead, then the negative")."""
    for one in led:
        noun = context.noun_of(one, before.plain or before.action)
        context.mention([one])
        if noun is None or noun.key == before.thing:
            continue
        action = noun.action(before.plain or before.action)
        earlier = vocabulary().nouns.get(before.thing)
        alike = earlier is not None and (earlier.kind == noun.kind or (earlier.like and earlier.like == noun.like))
        if action and (alike or clause.joined == "and"):
            yield _as_placed(clause, action, noun.key, plain=before.plain, new=one.new)


def _seals_with(clause: Clause, context: Context) -> Iterator[Placed]:
    """Yield the seal that a part is fitted with ("fit the plug with a new washer")."""
    for one in clause.named:
        if one.after == "with" and one.new and context.kind_of(one) == "seal":
            noun = context.noun_of(one, "fit")
            if noun is not None:
                yield _as_placed(clause, "fit", noun.key, plain="fit", new=True)


def _tightened(clause: Clause, first: list[Placed]) -> Iterator[Placed]:
    """Yield the tightening that a torque or a turn says where only "fit" was said."""
    kinds = {one.kind for one in clause.figures}
    last = next((one for one in reversed(first) if one.action == "fit"), None)
    if last is None:
        return
    noun = vocabulary().nouns[last.thing]
    if ("torque" in kinds or "turn" in kinds) and noun.action("tighten") == "tighten":
        yield _as_placed(clause, "tighten", last.thing, plain="tighten")


def _as_placed(clause: Clause, action: str, thing: str, *, plain: str = "", new: bool = False, asks: str = "") -> Placed:
    return Placed(
        action=action,
        thing=thing,
        plain=plain or action,
        new=new,
        figures=tuple(clause.figures),
        by_hand=clause.by_hand,
        waiting=clause.waiting,
        words=clause.text(),
        asks=asks,
    )

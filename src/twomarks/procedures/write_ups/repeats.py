"""Sentences that stand for others: "the same on the other side", "refitting is the reverse of removal"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from twomarks.procedures.write_ups.naming import Context
from twomarks.procedures.write_ups.placing import Placed
from twomarks.procedures.write_ups.vocabulary import vocabulary

__all__ = ["repeats", "reversed_of", "says_again"]

_AGAIN = re.compile(
    r"\brepeat(?:ed|ing)?\b|\bsame again\b|\blikewise\b|\bditto\b|\bsame (?:for|on|with|procedure|thing|job)\b|\bmove on to\b"
    r"|\bdo(?:ing)? (?:the|your|each) (?:other|right|left|opposite|rear|front|back|remaining|next)\b[^.;,]{0,30}"
    r"\b(?:side|one|axle|wheel|end|diff|corner)s?\b"
    r"|\bd(?:o|id|one|oes|oing)\b[^.;,]{0,60}\bsame(?= again| way| for| on| with| to|\s*[.,;]|$)|\bsame\b[^.;,]{0,20}\bother side\b"
)
_OTHER_SIDE = re.compile(
    r"\bother (?:side|end|axle|one|ones|two|three|wheel|wheels|corner|corners)\b|\bopposite side\b"
    r"|\b(?:all|each|remaining) (?:\w+ )?wheels?\b|\b(?:left|right|front|rear|back)\b|\brest\b"
)
_BREAKING = frozenset(("raise", "lower", "support", "chock", "run_engine", "stop_engine", "drive", "shake", "warm", "secure"))
_CLOSES = {"remove": "fit", "open": "close", "disconnect": "connect"}


def says_again(words: str) -> bool:
    """Return whether a clause says that something is to be done again."""
    return _AGAIN.search(words) is not None


def repeats(words: str, done: Sequence[Placed], context: Context) -> tuple[Placed, ...]:
    """Return the actions that a sentence says are done again, or none where it cannot be told which.

    With a thing of the same sort ("the same with the positive cable") the actions on its fellow just before are meant;
    with another side, axle or wheel those at this one, back to where the vehicle was last raised or lowered.
    """
    known = vocabulary().nouns
    fellow = next((known[key] for key in reversed(context.here) if known[key].like and known[key].like != "corner"), None)
    if fellow is not None:
        run: list[Placed] = []
        for one in reversed(done):
            noun = known.get(one.thing)
            if noun is None or noun.like != fellow.like or noun.key == fellow.key:
                if run:
                    break
                continue
            run.append(one)
        return tuple(_again(one, fellow.key) for one in reversed(run))
    if _OTHER_SIDE.search(words) is None:
        return ()
    run = []
    for one in reversed(done):
        if one.action == "lower":
            return ()
        if one.action in _BREAKING:
            break
        run.append(one)
    return tuple(_again(one, one.thing) for one in reversed(run))


def _again(one: Placed, thing: str) -> Placed:
    return Placed(action=one.action, thing=thing, plain=one.plain, new=one.new, by_hand=one.by_hand, words=one.words)


def reversed_of(context: Context) -> tuple[Placed, ...]:
    """Return what is off, put back in the reverse order; no torque, seal or order is claimed by it."""
    return tuple(Placed(action=_CLOSES[action], thing=key, asks="reverse") for key, action in reversed(context.off.items()))

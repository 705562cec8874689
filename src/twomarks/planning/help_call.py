"""What is said on the telephone when somebody is hurt: whom to call, and where one is."""

from __future__ import annotations

from dataclasses import dataclass

from twomarks.words import Message, say

__all__ = ["HelpCall", "call_first", "number_to_call"]

EMERGENCY = {"uk": "999", "us": "911", "au": "000", "metric": "112"}
"""The emergency number of the country that a reader's market stands for; from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpCall:
    """The number to call and the address to say, as the owner entered them; both may be empty."""

    number: str = ""
    address: str = ""


def number_to_call(call: HelpCall, market: str) -> str:
    """Return the number that a telephone dials: the owner's own, else the emergency number of the reader's country."""
    return call.number or EMERGENCY.get(market, EMERGENCY["metric"])


def call_first(call: HelpCall, market: str) -> tuple[Message, ...]:
    """Return what is said before everything else: whom to call, and where one is."""
    number = say("wrong.call_own", number=call.number) if call.number else say(f"wrong.call_{market}")
    where = say("wrong.where", address=call.address) if call.address else say("wrong.where_unknown")
    return number, where

"""How an action is done, from the words of its sentence: to a figure, by hand, to the level, warm or cold, and where."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from twomarks.procedures.write_ups.placing import Placed
from twomarks.procedures.write_ups.vocabulary import Noun, vocabulary

__all__ = ["Said", "manner_of", "spots_of"]

_TO_LEVEL = re.compile(
    r"\buntil\b|\btill\b|\bto the (?:top|upper|max|full|level|mark|brim|line)|\bup to\b|\bto (?:the )?max|\bruns? out"
    r"|\bbetween the marks\b|\bto level\b"
)
_THERMOSTAT = re.compile(r"\bthermostat\b|\bfan (?:cuts?|comes?|kicks?|has)\b|\bfan's\b")
_COLD = re.compile(r"\bcold\b|\bcool")
_SLOW = re.compile(r"\bslow\w* (?:stop|speed|drive)|\bgentle (?:stop|drive)|\blow speed\b|\bgentle stops\b")


@dataclass(slots=True)
class Said:
    """What was said before: which openings are out, which circuits were filled, whether a level was read since."""

    filter_changed: bool = False
    opened: list[str] = field(default_factory=list)
    filled: set[str] = field(default_factory=set)

    def take(self, placed: Placed, noun: Noun | None) -> None:
        """Take in one action."""
        if noun is None:
            return
        if placed.action in ("loosen", "remove", "open", "disconnect"):
            self.opened.append(noun.key)
        if placed.action == "pour":
            self.filled.add(noun.key)

    def opened_drain(self, fluid: Noun) -> str:
        """Return the opening through which a fluid runs out, "" where none was said to be opened."""
        drains = {"drain"}
        known = vocabulary().nouns
        for key in reversed(self.opened):
            noun = known[key]
            role = noun.role
            if role is not None and noun.family == fluid.family and role.get("serves") in drains and role["kind"] in ("fastening", "tap"):
                return key
        return ""


def manner_of(placed: Placed, noun: Noun | None, sentence: str, said: Said) -> dict[str, str]:
    """Return the manner of an action, and the reference that stands for its amount."""
    words = sentence.casefold()
    kinds = {figure.kind for figure in placed.figures}
    match placed.action:
        case "tighten":
            return _tight(placed, noun, kinds)
        case "fit" if placed.by_hand:
            return {"manner": "by hand"}
        case "pour" if noun is not None:
            if noun.key in said.filled:
                return {"manner": "by table"}
            if "volume" in kinds:
                fact = "refill_with_filter" if noun.key == "oil" and said.filter_changed else "refill"
                return {"manner": "first pour", "amount": f"{{{noun.key}.{fact}}}"}
            return {"manner": "to level"} if _TO_LEVEL.search(words) else {}
        case "warm":
            return {"manner": "warm"}
        case "wait":
            return {"manner": "cold"} if _COLD.search(words) else {}
        case "run_engine":
            return {"manner": "to thermostat"} if _THERMOSTAT.search(words) else {}
        case "press" if noun is not None and noun.key == "pedal":
            return {
                "manner": "held" if placed.plain == "press" and re.search(r"\bhold|\bheld\b", words) and "pump" not in words else "pumped"
            }
        case "drive":
            return {"manner": "slow stop"} if _SLOW.search(words) else {}
        case _:
            return {}


def _tight(placed: Placed, noun: Noun | None, kinds: set[str]) -> dict[str, str]:
    key = "filter_joint" if noun is not None and noun.key == "filter" else noun.key if noun is not None else ""
    role = vocabulary().nouns[key].role if key else None
    if role is not None and role["kind"] == "fastening":
        for kind in ("torque", "turn"):
            if kind in kinds:
                return {"manner": "to figure", "amount": f"{{{key}.{kind}}}"}
    return {"manner": "by hand"} if placed.by_hand else {}


def spots_of(placed: Placed, sentence: str) -> list[str]:
    """Return where something is put, as far as the sentence says it."""
    words = sentence.casefold()
    small = vocabulary().small
    if placed.action == "place" and placed.thing == "vehicle":
        found = (("level", small["by_level"]), ("hard", small["by_hard"]), ("outdoors", small["by_outdoors"]))
        return [spot for spot, signs in found if any(re.search(rf"\b{re.escape(sign)}\b", words) for sign in signs)]
    if placed.action == "place" and placed.thing == "pan":
        if re.search(r"\bplug\b|\bsump\b|\boil pan\b|\bdrain\b(?! pan| tray)", words):
            return ["drain plug"]
        return ["filter"] if "filter" in words else []
    if placed.action == "raise" and re.search(r"\b(?:jacking|lifting|jack) points?\b", words):
        return ["lifting points"]
    return []

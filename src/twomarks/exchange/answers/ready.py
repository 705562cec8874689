"""The answer of `ready`: for each vehicle, whether the next work can begin."""

from __future__ import annotations

from typing import Literal

from twomarks.exchange.answers.prepare import ReadinessSaid
from twomarks.exchange.answers.said import Answer, Part

__all__ = ["ReadyAnswer", "ReadyVehicle"]


class ReadyVehicle(Part):
    """Whether everything is at hand for one vehicle's next work; `item` is empty for the walk-round."""

    vehicle: str
    item: str
    title: str
    readiness: ReadinessSaid


class ReadyAnswer(Answer):
    """The answer of `ready`; `state` is the worst of its vehicles."""

    format: Literal["twomarks/answer/ready/1"] = "twomarks/answer/ready/1"
    state: Literal["ready", "not ready", "not known"]
    vehicles: tuple[ReadyVehicle, ...]
    answers_kept: int = 0

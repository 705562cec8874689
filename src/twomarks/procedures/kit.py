"""What is known about the place and the kit on the day; everything may be unknown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

__all__ = ["Kit", "WrenchRange"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WrenchRange:
    """The range of one torque wrench [N.m]."""

    low_nm: float
    high_nm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """Plain values of what is there: None, or a key that is not in a mapping, is "not known".

    `wrenches` None means that nobody has said which torque wrenches there are; an empty tuple that there is none.
    """

    ground: Literal["hard and level", "soft", "slope"] | None = None
    air: Literal["outdoors", "garage"] | None = None
    pan_l: float | None = None
    waste_room_l: float | None = None
    wrenches: tuple[WrenchRange, ...] | None = None
    helper: bool | None = None
    product: Literal["meets", "does not meet", "not shown"] | None = None
    tools: Mapping[str, bool] = field(default_factory=dict)
    parts: Mapping[str, bool] = field(default_factory=dict)

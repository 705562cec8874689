"""Who asks: every service and every question takes a scope first, and nothing is found outside it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal
from uuid import UUID

__all__ = ["Role", "Scope"]

Role = Literal["owner", "member", "reader"]


@dataclass(frozen=True, slots=True)
class Scope:
    """One person of one household; a "reader" may ask but not write."""

    household: UUID
    person: UUID
    role: Role = "owner"

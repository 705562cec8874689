"""Operators written when the rules of the first jobs stood, scored apart: how much is found that no rule had been shown."""

from __future__ import annotations

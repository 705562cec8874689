"""Operators written after the rules, scored apart: how much of what the rules find was only what they had been shown."""

from __future__ import annotations

"""Daybook: what was done, and what to enter."""

"""Procedures: the library, read-only."""

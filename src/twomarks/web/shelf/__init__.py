"""Shelf: what exists and how much of it there is."""

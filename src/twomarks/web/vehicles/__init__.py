"""Vehicles: the sheets, each fact with its source."""

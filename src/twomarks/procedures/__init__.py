"""Binding a procedure to a vehicle, rehearsing it, and what it needs."""

"""Twomarks: what is due, with which oil, how much of it, and a job card to work from."""

__version__ = "0.1.0"

"""The invented household: its files and the one function that builds it."""

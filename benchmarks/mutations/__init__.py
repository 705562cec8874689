"""The measure of the rehearsal: realistic single mistakes made in correct procedures, and whether each is found where it was made."""

from __future__ import annotations


def main() -> None:
    """Make every mistake in every procedure that ships, print how many were found, and write the evidence."""
    from benchmarks.mutations.bench import run

    run()

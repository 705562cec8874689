"""The command group: commands are found by name and loaded only when called, so that a cold start stays short."""

from __future__ import annotations

import importlib
from collections.abc import Mapping

import click

__all__ = ["COMMANDS", "LazyGroup", "lazy_group"]

COMMANDS: dict[str, tuple[str, str]] = {
    "prepare": ("twomarks.cli.prepare:prepare", "The main job in one answer: due, oil, litres, buying, readiness, card."),
    "due": ("twomarks.cli.due:due", "What is due, with the most likely date and the window around it."),
    "workdays": ("twomarks.cli.workdays:workdays", "Which days to work on, what goes together on each, and why."),
    "day": ("twomarks.cli.day:day", "In what order to work on a day, with waits used and set-ups shared."),
    "ready": ("twomarks.cli.ready:ready", "Is everything at hand? Ready, not ready, or not known and what to answer."),
    "buy": ("twomarks.cli.buy:buy", "What to buy, when and where, for all vehicles together, at least cost."),
    "card": ("twomarks.cli.card:card", "Lay out the job card of the next work: as a PDF, or to start its workday."),
    "rehearse": ("twomarks.cli.rehearse:rehearse", "Play a written procedure on a model of the vehicle and list what it finds."),
    "text": ("twomarks.cli.text:text", "Write a procedure out as text for other owners, with one vehicle's figures."),
    "tools": ("twomarks.cli.tools:tools", "List the tools, parts, fluids and waste of a procedure on one vehicle."),
    "read-writeup": ("twomarks.cli.read_writeup:read_writeup", "Read a plain write-up and draft a procedure from it."),
    "procedures": ("twomarks.cli.procedures:procedures", "List the procedures, or show one."),
    "enter": ("twomarks.cli.enter:enter", "Enter what was done: the daybook entry, follow-ups and the new due window."),
    "level": ("twomarks.cli.level:level", "Keep a dipstick reading, and say what to add for it."),
    "cost": ("twomarks.cli.cost:cost", "What servicing costs: by workday, by distance, against the workshop."),
    "reckon": ("twomarks.cli.reckon:reckon", "Reckon one thing (viscosity, torque, coolant ...), with its sources."),
    "import": ("twomarks.cli.imports:imports", "Bring in readings or documents from files."),
    "selfcheck": ("twomarks.cli.selfcheck:selfcheck", "Check the database, its ledgers, the disk and the backups."),
}
"""Command name -> where it lives and its line in the overview (so that the overview loads no command)."""


class LazyGroup(click.Group):
    """A group whose commands are named by ``module:attribute`` and imported when called."""

    def __init__(self, *args: object, lazy: Mapping[str, tuple[str, str]] | None = None, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.lazy = dict(lazy or {})

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands in the order in which the job is done, then those added later."""
        return [*self.lazy, *(name for name in super().list_commands(ctx) if name not in self.lazy)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return the command, loading its module now."""
        if cmd_name in self.lazy:
            module, _, attribute = self.lazy[cmd_name][0].partition(":")
            command = getattr(importlib.import_module(module), attribute)
            assert isinstance(command, click.Command)
            return command
        return super().get_command(ctx, cmd_name)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the overview from the lines kept beside the names."""
        rows = [
            (name, self.lazy[name][1] if name in self.lazy else self.commands[name].get_short_help_str(80))
            for name in self.list_commands(ctx)
        ]
        with formatter.section("Commands"):
            formatter.write_dl(rows)


def lazy_group(extra: Mapping[str, tuple[str, str]]) -> LazyGroup:
    """Return the whole command line; `extra` are the commands that only the topmost room may know (serve, demo)."""

    @click.group(
        cls=LazyGroup,
        name="twomarks",
        lazy={**extra, **COMMANDS},
        context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 110},
        epilog="The maker's handbook and local rules come first. Each command explains itself: twomarks COMMAND --help",
    )
    @click.version_option(package_name=None, version=_version(), prog_name="twomarks")
    def twomarks() -> None:
        """Service your own vehicles: what is due, with which oil, how much of it, and a job card to work from."""

    assert isinstance(twomarks, LazyGroup)
    return twomarks


def _version() -> str:
    from twomarks import __version__

    return __version__

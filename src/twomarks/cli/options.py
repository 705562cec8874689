"""What every command asks for: the home folder, whose household, which day, how to answer."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from twomarks.errors import InputError
from twomarks.words import Reader

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope

    DayParam = click.ParamType[dt.date]
else:
    DayParam = click.ParamType  # generic at run time only in newer versions

__all__ = ["Asking", "Opener", "asks", "day_type", "is_file", "kept_vehicle_option", "units_option", "vehicle_option"]

Opener = Callable[[Path | None], None]
Command = TypeVar("Command", bound=Callable[..., Any])


class DayType(DayParam):
    """A day written as YYYY-MM-DD."""

    name = "date"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> dt.date:  # noqa: ARG002 - the signature is the library's
        """Return the day, or refuse with what was found and expected."""
        if isinstance(value, dt.date):
            return value
        try:
            return dt.date.fromisoformat(str(value))
        except ValueError:
            raise InputError("cli.date", where=_option(param), found=str(value), example="2026-11-25") from None


def _option(param: click.Parameter | None) -> str:
    return param.opts[0] if param and param.opts else "--on"


day_type = DayType()


@dataclass(frozen=True, slots=True)
class Asking:
    """One question on the command line: where the household lives, who asks, on which day, and in which form."""

    opener: Opener
    home: Path | None
    household: str | None
    person: str | None
    on: dt.date | None
    as_json: bool

    def scope(self, *, found: bool = False) -> Scope:
        """Open the household's home and return the scope of the one who asks; `found` makes a first household."""
        self.opener(self.home)
        from twomarks.keeping.services.households import find_scope, found_where_none

        return (found_where_none if found else find_scope)(household=self.household, person=self.person)

    def today(self) -> dt.date:
        """Return the day that counts as today."""
        if self.on is not None:
            return self.on
        from twomarks.keeping import clock

        return clock.today()

    def writing_day(self) -> dt.date:
        """Return the day under which something is kept; what has not come yet is refused, whatever counts as today."""
        from twomarks.keeping import clock

        day = self.today()
        if day > clock.today():
            raise InputError("cli.future", where="--on", found=day, expected=clock.today())
        return day

    def reader(self) -> Reader:
        """Return who reads, before the household is open."""
        return Reader()


def asks(command: Command) -> Command:
    """Give a command the options of every question; it receives them as its first argument, an `Asking`."""

    @click.option("--home", type=click.Path(path_type=Path), metavar="FOLDER", help="The home folder; left out, the platform's own place.")
    @click.option("--household", metavar="NAME", help="Which household; left out while there is one.")
    @click.option("--person", metavar="NAME", help="Who asks; left out while there is one.")
    @click.option("--on", type=day_type, metavar="DATE", help="Take this day for today (YYYY-MM-DD).")
    @click.option("--json", "as_json", is_flag=True, help="Answer as JSON; its schema ships with the package.")
    @functools.wraps(command)
    def asked(home: Path | None, household: str | None, person: str | None, on: dt.date | None, as_json: bool, **rest: Any) -> Any:
        opener = click.get_current_context().obj
        return command(Asking(opener, home, household, person, on, as_json), **rest)

    return asked  # type: ignore[return-value]


def kept_vehicle_option(command: Command) -> Command:
    """Give a command the option --vehicle where only a vehicle that is kept will do."""
    return click.option(
        "--vehicle", metavar="NAME", help="The vehicle by name; left out, the only one, or all where the answer is a list."
    )(command)


def vehicle_option(command: Command) -> Command:
    """Give a command the option --vehicle."""
    return click.option("--vehicle", metavar="NAME|FILE", help="The vehicle by name; a sheet by path (with a / or ending in .toml).")(
        command
    )


def units_option(command: Command) -> Command:
    """Give a command the option --units."""
    return click.option("--units", type=click.Choice(["metric", "uk", "us", "au"]), help="In whose units and words; left out, your own.")(
        command
    )


def is_file(vehicle: str | None) -> bool:
    """Return whether a --vehicle is a path."""
    return vehicle is not None and ("/" in vehicle or vehicle.endswith(".toml"))


def read_file(path: Path, *, limit_mb: int = 64) -> bytes:
    """Return the bytes of a file that the user named.

    Raises
    ------
    InputError
        Where there is no such file, it cannot be read, or it is larger than `limit_mb`.
    """
    try:
        if path.is_dir():
            raise InputError("import.file_is_folder", where=str(path))
        if path.stat().st_size > limit_mb * 1_000_000:
            raise InputError("import.file_too_large", where=str(path), expected=limit_mb)
        return path.read_bytes()
    except FileNotFoundError:
        raise InputError("import.file_missing", where=str(path)) from None
    except OSError as error:
        raise InputError("import.file_unreadable", where=str(path), found=error.strerror or type(error).__name__) from None

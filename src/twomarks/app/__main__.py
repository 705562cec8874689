"""The command `twomarks`: every room behind one name, one clear line for a user's mistake, never a traceback."""

from __future__ import annotations

import contextlib
import gc
import os
import sys
from collections.abc import Sequence

from twomarks.errors import TwomarksError

__all__ = ["APP_COMMANDS", "main", "run"]

APP_COMMANDS: dict[str, tuple[str, str]] = {
    "demo": ("twomarks.app.demo:demo", "Build the invented demo household, do the main job once, and serve the pages."),
    "serve": ("twomarks.app.serve:serve", "Serve the pages on this computer."),
}
INTERRUPTED = 130
GARBAGE_AFTER = 100_000


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command line and return its exit code."""
    import click

    from twomarks.app.opening import open_home
    from twomarks.cli.errors import BAD_INPUT, report
    from twomarks.cli.group import lazy_group
    from twomarks.words import Reader

    try:
        result = lazy_group(APP_COMMANDS).main(
            args=list(arguments) if arguments is not None else None, prog_name="twomarks", standalone_mode=False, obj=open_home
        )
    except click.exceptions.Exit as leaving:
        return leaving.exit_code
    except (click.Abort, KeyboardInterrupt):
        return INTERRUPTED
    except click.exceptions.NoArgsIsHelpError as overview:
        click.echo(overview.format_message())
        return 0
    except click.ClickException as error:
        # One line, like every other refusal; the usage stands in the command's --help.
        where = f"{error.ctx.command_path}: " if isinstance(error, click.UsageError) and error.ctx else ""
        click.echo(f"{where}{error.format_message()}", err=True)
        return BAD_INPUT
    except TwomarksError as error:
        return report(error, Reader())
    except BrokenPipeError:
        with contextlib.suppress(OSError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return result if isinstance(result, int) else 0


def main() -> None:
    """Run the command line of this process and leave with its exit code."""
    # A command loads much and lives briefly: looking for garbage all the while costs a tenth of its time.
    gc.set_threshold(GARBAGE_AFTER)
    sys.exit(run())


if __name__ == "__main__":
    main()

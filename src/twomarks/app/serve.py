"""`twomarks serve`: the pages, on this computer only."""

from __future__ import annotations

import contextlib
import os
import socket
import subprocess
import sys
from pathlib import Path

import click

from twomarks.errors import InputError

__all__ = ["DEFAULT_PORT", "free_port", "serve", "serve_pages"]

HOST = "127.0.0.1"
DEFAULT_PORT = 8642
THREADS = 4
ON_VARIABLE = "TWOMARKS_ON"


@click.command()
@click.option("--home", type=click.Path(path_type=Path), metavar="FOLDER", help="The home folder; left out, the platform's own place.")
@click.option("--port", type=click.IntRange(1, 65535), default=DEFAULT_PORT, show_default=True, help="The port on this computer.")
@click.option("--on", metavar="DATE", help="Take this day for today (YYYY-MM-DD).")
def serve(home: Path | None, port: int, on: str | None) -> None:
    """Serve the pages on this computer; nobody else can reach them. Ctrl-C ends it."""
    from granian.constants import Interfaces
    from granian.server import Server

    from twomarks.app.opening import FULL_SETTINGS, open_home
    from twomarks.cli.options import day_type
    from twomarks.cli.said import Terminal
    from twomarks.words import Reader, say

    os.environ[ON_VARIABLE] = day_type.convert(on, None, None).isoformat() if on else ""
    free_port(port)
    open_home(home, settings=FULL_SETTINGS)
    from twomarks.keeping.services.households import found_where_none

    found_where_none()
    Terminal(Reader()).line(say("serve.at", address=f"http://{HOST}:{port}/"), indent=0)
    Server(
        "twomarks.app.wsgi:application",
        address=HOST,
        port=port,
        interface=Interfaces.WSGI,
        workers=1,
        blocking_threads=THREADS,
        log_enabled=False,
        websockets=False,
    ).serve()


def free_port(port: int) -> None:
    """Refuse a port that something else listens on already."""
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as trying:
        trying.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trying.bind((HOST, port))
        except OSError as error:
            raise InputError("serve.port", where="--port", found=port, why=error.strerror or "", example=port + 1) from None


def serve_pages(folder: Path, *, port: int, on: str) -> None:
    """Serve the pages of the home in `folder` in a process of its own, which takes the place of this one where it can."""
    command = [sys.executable, "-m", "twomarks.app", "serve", "--home", str(folder), "--port", str(port), *(["--on", on] if on else [])]
    sys.stdout.flush()
    if os.name != "nt":
        os.execv(sys.executable, command)
    # On Windows exec returns to the prompt before the program ends.
    with contextlib.suppress(KeyboardInterrupt):
        subprocess.call(command)

"""Files that are written whole or not at all."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path

from twomarks.errors import StorageError

__all__ = ["write_whole"]


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` to `path` through a neighbour file that takes its place only when it is safely on the disk.

    Raises
    ------
    StorageError
        Where the folder is missing or may not be written, or the disk is full; `path` is then as it was.
    """
    part = ""
    try:
        handle, part = tempfile.mkstemp(prefix=".part-", dir=path.parent)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
        part = ""
    except OSError as error:
        raise StorageError("storage.not_written", where=str(path), found=error.strerror or type(error).__name__) from None
    finally:
        if part:
            with contextlib.suppress(OSError):
                os.unlink(part)

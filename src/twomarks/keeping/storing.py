"""What the database and the disk refuse becomes one of our own errors, in one place; who may write is asked here too."""

from __future__ import annotations

import errno
import functools
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Concatenate, ParamSpec, TypeVar

from django.db import DatabaseError, transaction

from twomarks.errors import InputError, StorageError
from twomarks.keeping.scope import Scope

__all__ = ["question", "service", "storage_errors"]

P = ParamSpec("P")
R = TypeVar("R")

_FULL = (errno.ENOSPC, errno.EFBIG, errno.EDQUOT)
_BY_CODE = {
    sqlite3.SQLITE_FULL: "storage.full",
    sqlite3.SQLITE_IOERR: "storage.full",
    sqlite3.SQLITE_BUSY: "storage.busy",
    sqlite3.SQLITE_LOCKED: "storage.busy",
    sqlite3.SQLITE_READONLY: "storage.read_only",
    sqlite3.SQLITE_CANTOPEN: "storage.no_database",
    sqlite3.SQLITE_NOTADB: "storage.no_database",
    sqlite3.SQLITE_CORRUPT: "storage.damaged",
}


def _database() -> str:
    from django.conf import settings

    return str(settings.DATABASES["default"]["NAME"])


def _key_of(error: BaseException) -> str:
    cause = error.__cause__
    if isinstance(cause, sqlite3.Error):
        return _BY_CODE.get(getattr(cause, "sqlite_errorcode", 0) & 0xFF, "storage.refused")
    return "storage.refused"


@contextmanager
def storage_errors() -> Iterator[None]:
    """Turn what the database or the disk refuses into a `StorageError`; nothing of the work in it is then kept."""
    try:
        yield
    except DatabaseError as error:
        raise StorageError(_key_of(error), where=_database(), found=str(error)) from error
    except OSError as error:
        key = "storage.full" if error.errno in _FULL else "storage.not_written"
        raise StorageError(key, where=str(error.filename or _database()), found=error.strerror or type(error).__name__) from error


def service(function: Callable[Concatenate[Scope, P], R]) -> Callable[Concatenate[Scope, P], R]:
    """Make a function that writes: all or nothing in one transaction, and only for one who may write."""

    @functools.wraps(function)
    def writing(scope: Scope, /, *args: P.args, **kwargs: P.kwargs) -> R:
        if scope.role == "reader":
            raise InputError("keeping.may_not_write")
        with storage_errors(), transaction.atomic():
            return function(scope, *args, **kwargs)

    return writing


def question(function: Callable[Concatenate[Scope, P], R]) -> Callable[Concatenate[Scope, P], R]:
    """Make a function that reads."""

    @functools.wraps(function)
    def asking(scope: Scope, /, *args: P.args, **kwargs: P.kwargs) -> R:
        with storage_errors():
            return function(scope, *args, **kwargs)

    return asking

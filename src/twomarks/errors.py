"""Every exception of Twomarks: a key and plain values, never a sentence.

The sentence for a reader is made by `twomarks.words.message_of`; `str(error)` is the key and its values, for logs.
"""

from __future__ import annotations

from collections.abc import Sequence

__all__ = [
    "DocumentError",
    "InputError",
    "MissingFactError",
    "NoSolutionError",
    "OutOfRangeError",
    "StorageError",
    "TwomarksError",
]


class TwomarksError(Exception):
    """Base of every error that Twomarks raises on purpose.

    Parameters
    ----------
    key : str
        Key of the sentence in `twomarks.words`, such as ``"units.bare"``.
    **values
        Plain values (str, int, float, date, tuple of these) that the sentence is filled with.
    """

    def __init__(self, key: str, /, **values: object) -> None:
        self.key = key
        self.values: dict[str, object] = values
        super().__init__(key, values)

    def __str__(self) -> str:
        return ": ".join([self.key, ", ".join(f"{name}={value!r}" for name, value in self.values.items())])

    def __reduce__(self) -> tuple[object, ...]:
        return (_rebuild, (type(self), self.key, self.values))


def _rebuild(kind: type[TwomarksError], key: str, values: dict[str, object]) -> TwomarksError:
    error = kind.__new__(kind)
    TwomarksError.__init__(error, key, **values)
    return error


class InputError(TwomarksError):
    """Something the user gave cannot be used.

    Keyword values that every sentence may count on: ``where`` (file, option or field), ``found`` (what was given),
    ``expected`` (what would be accepted), ``example`` (one accepted value). Those that do not apply are left out.
    """


class OutOfRangeError(InputError):
    """A figure lies outside the range in which an answer is valid.

    Values: ``quantity``, ``value``, ``low``, ``high``, ``unit``, ``source`` (a key of the bibliography or ""); ``above`` or ``below``
    too where the limit itself is outside.
    """

    def __init__(
        self,
        key: str = "range.outside",
        /,
        *,
        quantity: str,
        value: float,
        low: float | None = None,
        high: float | None = None,
        unit: str = "",
        source: str = "",
        **values: object,
    ) -> None:
        super().__init__(key, quantity=quantity, value=value, low=low, high=high, unit=unit, source=source, **values)


class DocumentError(InputError):
    """All faults of one document at once; nothing of it was loaded.

    Attributes
    ----------
    faults : tuple of InputError
        In the order of the text, each with ``line``, ``column``, ``path``, ``found``, ``expected`` and, where one is
        near, ``nearest``.
    """

    def __init__(self, key: str = "document.faults", /, *, where: str, faults: Sequence[InputError]) -> None:
        self.faults = tuple(faults)
        super().__init__(key, where=where, count=len(self.faults))

    def __reduce__(self) -> tuple[object, ...]:
        return (_rebuild_document, (self.key, self.values["where"], self.faults))


def _rebuild_document(key: str, where: str, faults: Sequence[InputError]) -> DocumentError:
    return DocumentError(key, where=where, faults=faults)


class MissingFactError(TwomarksError):
    """A figure is needed that nobody has given. Values: ``what`` and ``where_to_find`` (keys or names)."""


class NoSolutionError(TwomarksError):
    """No answer satisfies what was asked. Values: ``why`` and, where there is one, ``nearest``."""


class StorageError(TwomarksError):
    """The disk or the database refused. Values: ``where``, ``found``, ``expected``."""

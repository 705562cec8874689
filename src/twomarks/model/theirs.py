"""A vehicle sheet that comes from another owner: a new document, every fact told, none confirmed."""

from __future__ import annotations

from collections.abc import MutableMapping
from typing import Any
from uuid import UUID

from twomarks.model.loading import raw_tables
from twomarks.model.writing import with_id

__all__ = ["ANOTHER_OWNER", "as_told"]

TOLD = "told: "
ANOTHER_OWNER = "told: another owner"


def as_told(text: str, identity: UUID, *, where: str) -> str:
    """Return a vehicle sheet's text as that of another owner; comments, order and all figures stay as they are.

    The id is `identity`; each source becomes ``told`` with what it was in its words; confirmations are taken out; facts
    without a source of their own are told as well. How the other owner drives is left out.
    """
    import tomlkit

    if "id" not in raw_tables(text, where=where):
        text = with_id(text, identity)
    document = tomlkit.parse(text)
    _tell(document)
    _forget_use(document)
    document["id"] = str(identity)
    told = tomlkit.dumps(document)
    if "source" in document:
        return told
    return _with_source(told)


def _with_source(text: str) -> str:
    """Return the text of a sheet with the other owner as the source of all that names none, below its id."""
    line = next(line for line in text.splitlines(keepends=True) if line.lstrip().startswith("id"))
    return text.replace(line, f'{line}source = "{ANOTHER_OWNER}"\n', 1)


def _forget_use(document: MutableMapping[str, Any]) -> None:
    """Take out how the vehicle is used: this one is driven by somebody else."""
    document.pop("use", None)
    items = document.get("items")
    for item in items.values() if isinstance(items, MutableMapping) else ():
        if isinstance(item, MutableMapping):
            item.pop("use", None)


def _tell(table: MutableMapping[str, Any]) -> None:
    for key in list(table):
        value = table[key]
        if key == "confirmed" and isinstance(value, str):
            del table[key]
        elif key == "source" and isinstance(value, str):
            if not value.startswith(TOLD):
                table[key] = TOLD + value.replace(":", ",", 1)
        elif isinstance(value, MutableMapping):
            _tell(value)
        elif isinstance(value, list):
            for part in value:
                if isinstance(part, MutableMapping):
                    _tell(part)

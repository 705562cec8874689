"""A document's text to its value, or every fault of it at once."""

from __future__ import annotations

import difflib
import importlib
import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar, cast

from pydantic import BaseModel, ValidationError

from twomarks.errors import DocumentError, InputError
from twomarks.model.facts import shown
from twomarks.model.handing_down import handed_down
from twomarks.model.positions import Path, at, path_text, positions
from twomarks.model.validation import fault_of

if TYPE_CHECKING:
    from twomarks.model.climate import ClimateRecord
    from twomarks.model.procedure import Procedure
    from twomarks.model.shelf import ShelfList
    from twomarks.model.vehicle import VehicleSheet

__all__ = ["DOCUMENTS", "Document", "kind_of", "load", "load_as", "load_bytes", "raw_tables"]

Document: TypeAlias = "VehicleSheet | Procedure | ShelfList | ClimateRecord"
D = TypeVar("D", bound=BaseModel)
RawFaults = Callable[[Mapping[str, Any]], Iterable[tuple[Path, InputError]]]

DOCUMENTS: dict[str, tuple[str, str, str, str]] = {
    "twomarks/vehicle/1": ("vehicle", "twomarks.model.vehicle", "VehicleSheet", "twomarks.model.vehicle:vehicle_faults"),
    "twomarks/procedure/1": ("procedure", "twomarks.model.procedure", "Procedure", "twomarks.model.procedure_faults:procedure_faults"),
    "twomarks/shelf/1": ("shelf", "twomarks.model.shelf", "ShelfList", "twomarks.model.shelf:shelf_faults"),
    "twomarks/climate/1": ("climate", "twomarks.model.climate", "ClimateRecord", "twomarks.model.climate:climate_faults"),
}
"""Format -> the word for its kind, and where its type and its cross-checks live (loaded when needed)."""

MINOR = 0
"""The minor number of every format that this version writes and knows."""
LARGEST = 10_000_000
DEEPEST = 40
_FORMAT = re.compile(r"(twomarks/[a-z]+/[1-9]\d*)(?:\.(\d+))?")
_DIGITS = re.compile(r"\d{4000,}")
_EXAMPLE = 'name = "Alder"'
_SYNTAX = re.compile(r"\(at (?:line (\d+), column (\d+)|end of document)\)")


def load_bytes(data: bytes, *, where: str) -> Document:
    """Return the document in a file's bytes; see `load`."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError("document.not_utf8", where=where, line=line, found=f"0x{data[error.start]:02x}") from None
    return load(text, where=where)


def load(text: str, *, where: str) -> Document:
    """Return the document that `text` holds; its format says which kind.

    Raises
    ------
    DocumentError
        With all faults of the text; nothing of it was loaded.
    """
    tables = raw_tables(text, where=where)
    form = tables.get("format")
    entry = DOCUMENTS.get(_known_format(form, text, where))
    assert entry is not None
    return _validated(getattr(importlib.import_module(entry[1]), entry[2]), entry, tables, text, where)


def load_as(kind: type[D], text: str, *, where: str) -> D:
    """Return the document that `text` holds, which must be a `kind`; see `load`."""
    document = load(text, where=where)
    if not isinstance(document, kind):
        wanted = next(form for form, entry in DOCUMENTS.items() if entry[2] == kind.__name__)
        fault = InputError("document.other_kind", line=1, column=1, path="format", found=document.format, expected=wanted)
        raise DocumentError(where=where, faults=[fault])
    return document


def kind_of(document: Document) -> str:
    """Return the word for a document's kind: vehicle, procedure, shelf, climate."""
    return next(entry[0] for entry in DOCUMENTS.values() if entry[2] == type(document).__name__)


def raw_tables(text: str, *, where: str) -> dict[str, Any]:
    """Return the tables of a TOML text as written, or what keeps it from being one."""
    if len(text) > LARGEST:
        raise InputError("document.too_large", where=where, found=len(text), expected=LARGEST)
    try:
        tables = tomllib.loads(text)
    except ValueError as error:
        raise DocumentError(where=where, faults=[_syntax_fault(error, text)]) from None
    except RecursionError:
        raise InputError("document.too_deep", where=where, expected=DEEPEST) from None
    if _depth(tables) > DEEPEST:
        raise InputError("document.too_deep", where=where, expected=DEEPEST)
    return tables


def _depth(value: Any) -> int:
    level, here = 0, [value]
    while here and level <= DEEPEST:
        level += 1
        parts = [part.values() if isinstance(part, dict) else part for part in here if isinstance(part, dict | list)]
        here = [inner for group in parts for inner in group]
    return level


def _syntax_fault(error: ValueError, text: str) -> InputError:
    """Return the fault of a text that is no TOML; a number of thousands of digits is refused without a place."""
    lines = text.splitlines() or [""]
    place, digits = _SYNTAX.search(str(error)), _DIGITS.search(text)
    if place is None and digits is not None:
        line, column = text.count("\n", 0, digits.start()) + 1, digits.start() - text.rfind("\n", 0, digits.start())
    else:
        line, column = (int(place[1]), int(place[2])) if place and place[1] else (len(lines), len(lines[-1]) + 1)
    found = shown(lines[min(line, len(lines)) - 1].strip())
    twice = str(error).startswith("Cannot ")
    return InputError("document.twice" if twice else "document.syntax", line=line, column=column, path="", found=found, example=_EXAMPLE)


def _known_format(form: object, text: str, where: str) -> str:
    match = _FORMAT.fullmatch(form) if isinstance(form, str) else None
    base = match[1] if match else ""
    if match is not None and base in DOCUMENTS and int(match[2] or 0) <= MINOR:
        return base
    line, column = positions(text).get(("format",), (1, 1))
    place = {"line": line, "column": column, "path": "format"}
    kin = base if base in DOCUMENTS else next((known for known in DOCUMENTS if base.startswith(known.rpartition("/")[0] + "/")), None)
    if match is not None and kin is not None:
        raise DocumentError(where=where, faults=[InputError("document.newer", found=shown(form), expected=kin, **place)])
    near = difflib.get_close_matches(str(form), DOCUMENTS, 1, 0.6)
    fault = InputError("document.format", found=shown(form), expected=tuple(DOCUMENTS), nearest="".join(near), **place)
    raise DocumentError(where=where, faults=[fault])


def _validated(kind: type[BaseModel], entry: tuple[str, str, str, str], tables: dict[str, Any], text: str, where: str) -> Document:
    faults: list[tuple[Path, InputError]] = []
    document: BaseModel | None = None
    try:
        document = kind.model_validate(handed_down(kind, tables))
    except ValidationError as error:
        faults += [fault_of(found, kind, tables) for found in error.errors(include_url=False)]
    module, _, name = entry[3].partition(":")
    check = cast("RawFaults", getattr(importlib.import_module(module), name))
    told = {path for path, fault in faults if fault.key != "document.unknown_key"}
    crossed = [(path, fault) for path, fault in check(tables) if path not in told]
    explained = {path for path, _ in crossed}
    faults = [(path, fault) for path, fault in faults if path not in explained] + crossed
    if faults or document is None:
        raise DocumentError(where=where, faults=_placed(faults, tables, text))
    return cast("Document", document)


def _placed(faults: Iterable[tuple[Path, InputError]], tables: Mapping[str, Any], text: str) -> list[InputError]:
    known = positions(text)
    placed = []
    for path, fault in faults:
        place = path
        while place and place not in known:
            place = place[:-1]
        line, column = known.get(place, (1, 1))
        values = {**fault.values}
        values.setdefault("found", shown(at(tables, path)))
        placed.append(type(fault)(fault.key, **{**values, "line": line, "column": column, "path": path_text(path)}))
    return sorted(placed, key=lambda fault: (cast("int", fault.values["line"]), cast("int", fault.values["column"])))

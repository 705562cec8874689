"""Which procedure and which vehicle sheet a command was given, kept or in a file; a home is opened only where it is needed."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from twomarks.cli.chosen import nearest
from twomarks.cli.options import Asking, is_file, read_file
from twomarks.errors import InputError

if TYPE_CHECKING:
    from twomarks.keeping.scope import Scope
    from twomarks.model.procedure import Procedure

__all__ = ["known_procedures", "procedure_in", "procedure_named", "scope_if_any"]


def scope_if_any(asking: Asking) -> Scope | None:
    """Return the scope of the one who asks, or None where nothing is kept yet; nothing is made."""
    from twomarks.keeping.home import home_of

    if not os.environ.get("TWOMARKS_POSTGRES") and not home_of(asking.home).database.exists():
        return None
    try:
        return asking.scope()
    except InputError as error:
        if error.key == "keeping.none_yet" and asking.household is None and asking.person is None:
            return None
        raise


def known_procedures(scope: Scope | None) -> Mapping[str, Procedure]:
    """Return the household's own procedures, else the library's."""
    if scope is not None:
        from twomarks.keeping import questions

        return questions.procedures(scope)
    from twomarks.procedures.library import library

    return library()


def procedure_named(name: str, known: Mapping[str, Procedure]) -> Procedure:
    """Return the procedure in the file, or of the key, `name`."""
    if is_file(name):
        return procedure_in(Path(name))
    if name not in known:
        raise InputError("rehearse_answer.no_procedure", found=name, nearest=nearest(name, known), expected=tuple(known))
    return known[name]


def procedure_in(path: Path) -> Procedure:
    """Return the procedure in a file."""
    from twomarks.model.loading import load_bytes
    from twomarks.model.procedure import Procedure

    document = load_bytes(read_file(path), where=str(path))
    if not isinstance(document, Procedure):
        raise InputError("rehearse_answer.other_kind", where=str(path), found=document.format, expected="twomarks/procedure/1")
    return document

"""The JSON Schemas (2020-12) of the documents, as they ship beside this module."""

from __future__ import annotations

import importlib
import json
from typing import Any

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.model.loading import DOCUMENTS

__all__ = ["made_schema", "schema_name", "schema_of"]

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_name(form: str) -> str:
    """Return the file name of the schema of a format."""
    return form.replace("/", "-") + ".json"


def schema_of(form: str) -> dict[str, Any]:
    """Return the shipped JSON Schema of a format, such as ``"twomarks/vehicle/1"``."""
    if form not in DOCUMENTS:
        raise InputError("document.format", found=form, expected=tuple(DOCUMENTS))
    found: dict[str, Any] = json.loads(packaged.text(f"model/schemas/{schema_name(form)}"))
    return found


def made_schema(form: str) -> str:
    """Return the text of a format's schema as the types say it now; a test holds the shipped file to it."""
    _, module, name, _ = DOCUMENTS[form]
    kind = getattr(importlib.import_module(module), name)
    schema = {"$schema": DIALECT, "$id": f"urn:{form.replace('/', ':')}", **kind.model_json_schema(by_alias=True)}
    return json.dumps(schema, indent=1, ensure_ascii=False, sort_keys=True) + "\n"

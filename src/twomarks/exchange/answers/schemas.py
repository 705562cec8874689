"""The JSON Schemas (2020-12) of the answers, as they ship beside this module."""

from __future__ import annotations

import json
from typing import Any

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.exchange.answers.catalogue import ANSWERS, answer_type, format_of
from twomarks.model.schemas import DIALECT

__all__ = ["made_schema", "schema_name", "schema_of"]

FOLDER = "exchange/answers/schemas"


def schema_name(name: str) -> str:
    """Return the file name of the schema of the answer `name`."""
    return f"{format_of(name).removeprefix('twomarks/').replace('/', '-')}.json"


def schema_of(name: str) -> dict[str, Any]:
    """Return the shipped JSON Schema of the answer `name`, such as "due"."""
    if name not in ANSWERS:
        raise InputError("answer_schema.unknown", found=name, expected=tuple(ANSWERS))
    found: dict[str, Any] = json.loads(packaged.text(f"{FOLDER}/{schema_name(name)}"))
    return found


def made_schema(name: str) -> str:
    """Return the text of an answer's schema as its type says it now; a test holds the shipped file to it."""
    form = format_of(name)
    made = answer_type(name).model_json_schema(mode="serialization")
    made["required"] = sorted({*made.get("required", ()), "format", "on"})
    schema = {"$schema": DIALECT, "$id": f"urn:{form.replace('/', ':')}", **made}
    return json.dumps(schema, indent=1, ensure_ascii=False, sort_keys=True) + "\n"

"""The JSON Schemas that ship say what the types say, and the shipped documents keep to them."""

from __future__ import annotations

import datetime as dt
import json
import tomllib
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from tests.model.texts import BARE, SEVEN_FAULTS
from twomarks import packaged
from twomarks.errors import InputError
from twomarks.model.loading import DOCUMENTS
from twomarks.model.schemas import DIALECT, made_schema, schema_name, schema_of

SHIPPED = {
    "twomarks/vehicle/1": [f"demo/files/{name}.toml" for name in ("alder", "hazel", "rowan")],
    "twomarks/shelf/1": ["demo/files/shelf.toml"],
    "twomarks/climate/1": ["demo/files/place.toml"],
    "twomarks/procedure/1": [f"procedures/library/{name}" for name in packaged.names("procedures/library", ".toml")],
}


def as_json(value: Any) -> Any:
    """Return raw tables as JSON has them: dates as text."""
    if isinstance(value, dict):
        return {key: as_json(part) for key, part in value.items()}
    if isinstance(value, list):
        return [as_json(part) for part in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def broken(form: str, text: str) -> list[str]:
    return sorted(error.json_path for error in Draft202012Validator(schema_of(form)).iter_errors(as_json(tomllib.loads(text))))


@pytest.mark.parametrize("form", DOCUMENTS)
def test_the_shipped_schema_is_the_one_that_the_types_make(form: str) -> None:
    assert packaged.text(f"model/schemas/{schema_name(form)}") == made_schema(form)


@pytest.mark.parametrize("form", DOCUMENTS)
def test_the_schema_is_one_of_its_dialect(form: str) -> None:
    schema = schema_of(form)
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == DIALECT
    json.dumps(schema)


@pytest.mark.parametrize(("form", "path"), [(form, path) for form, paths in SHIPPED.items() for path in paths])
def test_every_shipped_document_keeps_to_its_schema(form: str, path: str) -> None:
    assert broken(form, packaged.text(path)) == []


def test_every_format_has_a_shipped_document() -> None:
    assert set(SHIPPED) == set(DOCUMENTS)
    assert all(SHIPPED.values())


def test_the_schema_refuses_what_the_loader_refuses() -> None:
    assert broken("twomarks/vehicle/1", BARE) == []
    assert broken("twomarks/vehicle/1", SEVEN_FAULTS) == [
        "$.circuits.engine_oil",
        "$.circuits.engine_oil.settle",
        "$.engine.keyless",
        "$.kind",
    ]


def test_a_format_that_is_not_known_has_no_schema() -> None:
    with pytest.raises(InputError, match=r"document\.format"):
        schema_of("twomarks/fleet/1")

"""Changing a value keeps all else; an id is given once; a new document reads back."""

from __future__ import annotations

import tomllib
from typing import Any
from uuid import UUID

import pytest

from tests.model.texts import BARE, vehicle
from twomarks import packaged
from twomarks.errors import DocumentError, InputError
from twomarks.model.loading import load, load_as
from twomarks.model.vehicle import VehicleSheet
from twomarks.model.writing import change_value, new_text, with_id

ID = UUID("0c6c0b9e-4a5e-4c63-9f0a-3c1f8e1d7a52")
HAZEL = packaged.text("demo/files/hazel.toml")
NOTED = """format = "twomarks/vehicle/1"   # one of four
name = "Sedge"
kind = "car"

# what it burns
[engine]
fuel = "petrol" # unleaded

[circuits.engine_oil]   # the oil
refill = "4.3 L"   # from the book
dry_fill = { value = "5 L", source = "told: B." } # by a neighbour
# a last word
[[circuits.engine_oil.accepts]]
grades = ["5W-30"]
"""


def changed_lines(before: str, after: str) -> list[str]:
    """Return the lines that are in one of the texts only, those taken away marked."""
    old, new = before.splitlines(), after.splitlines()
    return [f"-{line}" for line in old if line not in new] + [line for line in new if line not in old]


@pytest.mark.parametrize(
    ("path", "value", "lines"),
    [
        (("circuits", "engine_oil", "refill"), "4.5 L", ['-refill = "4.3 L"   # from the book', 'refill = "4.5 L"   # from the book']),
        (
            ("circuits", "engine_oil", "refill"),
            {"value": "4.5 L", "source": "handbook: p. 2"},
            ['-refill = "4.3 L"   # from the book', 'refill = { value = "4.5 L", source = "handbook: p. 2" }   # from the book'],
        ),
        (
            ("circuits", "engine_oil", "dry_fill", "value"),
            "6 L",
            [
                '-dry_fill = { value = "5 L", source = "told: B." } # by a neighbour',
                'dry_fill = { value = "6 L", source = "told: B." } # by a neighbour',
            ],
        ),
        (("circuits", "engine_oil", "accepts", 0, "grades"), ("0W-30",), ['-grades = ["5W-30"]', 'grades = ["0W-30"]']),
        (("circuits", "engine_oil", "settle"), "8 min", ['settle = "8 min"']),
        (("circuits", "coolant", "refill"), "5 L", ["[circuits.coolant]", 'refill = "5 L"']),
        (("engine", "turbo"), True, ["turbo = true"]),
    ],
)
def test_one_value_is_changed_and_nothing_else(path: tuple[str | int, ...], value: object, lines: list[str]) -> None:
    after = change_value(NOTED, path, value)
    assert changed_lines(NOTED, after) == lines
    assert [line for line in after.splitlines() if "#" in line and line.startswith("#")] == ["# what it burns", "# a last word"]
    load(after, where="")


def test_a_figure_taken_down_at_the_vehicle_becomes_a_fact() -> None:
    after = change_value(HAZEL, ("fastenings", "engine_oil_drain", "torque"), {"value": "30 N·m", "source": "stamped: beside the plug"})
    torque = load_as(VehicleSheet, after, where="").fastenings["engine_oil_drain"].torque
    assert torque is not None
    assert (torque.core, torque.source.kind) == (30.0, "stamped")
    assert changed_lines(HAZEL, after) == ['torque = { value = "30 N·m", source = "stamped: beside the plug" }']


@pytest.mark.parametrize(
    "path", [("name", "value"), ("circuits", "engine_oil", "accepts", 4, "grades"), ("circuits", "engine_oil", "refill", "value")]
)
def test_a_place_that_there_is_not_is_refused(path: tuple[str | int, ...]) -> None:
    with pytest.raises(InputError, match=r"document\.no_such_place"):
        change_value(NOTED, path, "1 L")


def test_what_is_no_toml_is_not_changed() -> None:
    with pytest.raises(DocumentError):
        change_value("x =", ("x",), 1)


def test_an_id_is_put_below_the_format_and_stays() -> None:
    once = with_id(NOTED, ID)
    assert once.splitlines()[:2] == ['format = "twomarks/vehicle/1"   # one of four', f'id = "{ID}"']
    assert changed_lines(NOTED, once) == [f'id = "{ID}"']
    assert with_id(once, UUID(int=7)) == once


@pytest.mark.parametrize(
    "text",
    [
        'name = """\nformat = "x"\n"""\nformat = "twomarks/vehicle/1"\n',
        '"format" = "twomarks/vehicle/1"\n[engine]\nfuel = "petrol"\n',
        'format = "twomarks/vehicle/1"\nwas = [\n  "a",\n]\n',
        "# id = 1\nformat = 'twomarks/vehicle/1'",
    ],
    ids=["in a text", "quoted key", "array", "comment"],
)
def test_an_id_is_given_whatever_the_text_looks_like(text: str) -> None:
    assert tomllib.loads(with_id(text, ID)) == {**tomllib.loads(text), "id": str(ID)}


def test_an_id_in_another_table_is_no_id_of_the_document() -> None:
    assert f'id = "{ID}"' in with_id(vehicle('[x]\nid = "other"'), ID)


def test_a_new_document_is_written_with_headers_and_facts_on_one_line() -> None:
    document: dict[str, Any] = {
        "format": "twomarks/vehicle/1",
        "name": "Sedge",
        "kind": "car",
        "engine": {"fuel": "petrol"},
        "circuits": {"engine_oil": {"refill": {"value": "4.3 L", "source": "told: B."}, "accepts": [{"grades": ["5W-30"]}]}},
        "slots": {"oil_filter": {"numbers": [{"value": "N-1", "source": "label: box"}]}},
    }
    text = new_text(document)
    assert text.splitlines() == [
        'format = "twomarks/vehicle/1"',
        'name = "Sedge"',
        'kind = "car"',
        "",
        "[engine]",
        'fuel = "petrol"',
        "",
        "[circuits.engine_oil]",
        'refill = { value = "4.3 L", source = "told: B." }',
        "",
        "[[circuits.engine_oil.accepts]]",
        'grades = ["5W-30"]',
        "",
        "[slots.oil_filter]",
        'numbers = [{ value = "N-1", source = "label: box" }]',
    ]
    load(text, where="")


def test_the_demo_vehicles_are_written_anew_without_loss() -> None:
    tables = tomllib.loads(HAZEL)
    assert tomllib.loads(new_text(tables)) == tables
    assert load(new_text(tables), where="") == load(HAZEL, where="")


def test_a_bare_vehicle_is_what_two_answers_make() -> None:
    assert new_text(tomllib.loads(BARE)) == BARE.replace("[engine]", "\n[engine]")

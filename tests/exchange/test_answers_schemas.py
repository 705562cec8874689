"""The schemas of the answers: shipped as the types say them, every answer among them, keys that say their unit."""

from __future__ import annotations

import importlib
import typing
from collections.abc import Iterator
from decimal import Decimal

import pytest

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.exchange.answers.catalogue import ANSWERS, answer_type, format_of
from twomarks.exchange.answers.said import Answer, Part
from twomarks.exchange.answers.schemas import FOLDER, made_schema, schema_name, schema_of

UNITS = ("_km", "_l", "_c", "_min", "_days", "_years", "_ml", "_nm", "_percent")
WITH_ITS_UNIT_BESIDE = {"value", "price", "cost"}
WITHOUT_UNIT = {"chance_past", "chance_past_by", "times_a_year", "reading"}


def modules() -> Iterator[str]:
    return (name.removesuffix(".py") for name in packaged.names("exchange/answers", ".py") if not name.startswith("__"))


def kinds(base: type[Part]) -> Iterator[type[Part]]:
    for module in modules():
        importlib.import_module(f"twomarks.exchange.answers.{module}")
    waiting = list(base.__subclasses__())
    while waiting:
        kind = waiting.pop()
        waiting += kind.__subclasses__()
        yield kind


def inside(annotation: object) -> set[object]:
    parts = typing.get_args(annotation)
    return {annotation} if not parts else set().union(*(inside(part) for part in parts))


@pytest.mark.parametrize("name", sorted(ANSWERS))
def test_a_shipped_schema_is_as_its_type_says(name: str) -> None:
    assert packaged.data(f"{FOLDER}/{schema_name(name)}").decode("utf-8") == made_schema(name), "run: python tests/exchange/make_schemas.py"


def test_no_schema_ships_for_an_answer_that_is_gone() -> None:
    assert set(packaged.names(FOLDER, ".json")) == {schema_name(name) for name in ANSWERS}


def test_every_answer_is_in_the_catalogue() -> None:
    assert {kind.__name__ for kind in kinds(Answer)} == {kind for _, kind in ANSWERS.values()}


@pytest.mark.parametrize("name", sorted(ANSWERS))
def test_an_answer_names_its_format_and_its_day(name: str) -> None:
    assert answer_type(name).model_fields["format"].default == format_of(name)
    assert {"format", "on"} <= set(schema_of(name)["required"])
    assert schema_of(name)["properties"]["format"]["const"] == format_of(name)


def test_keys_of_measured_numbers_end_in_their_unit() -> None:
    unsaid = {
        f"{kind.__name__}.{name}"
        for kind in kinds(Part)
        for name, field in kind.model_fields.items()
        if inside(field.annotation) & {float, Decimal} and not name.endswith(UNITS) and name not in WITH_ITS_UNIT_BESIDE | WITHOUT_UNIT
    }
    assert not unsaid


def test_parts_are_frozen_and_closed() -> None:
    for kind in kinds(Part):
        assert kind.model_config.get("frozen") is True
        assert kind.model_config.get("extra") == "forbid"


def test_an_unknown_answer_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(InputError) as refused:
        schema_of("weather")
    assert refused.value.key == "answer_schema.unknown"
    assert refused.value.values["expected"] == tuple(ANSWERS)

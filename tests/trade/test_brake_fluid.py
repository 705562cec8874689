"""What a boiling point says, what a bottle names, what may be mixed."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.brake_fluid import brake_fluid_class, brake_fluid_mixture, brake_fluid_state
from twomarks.words import Reader, render


@pytest.mark.parametrize(
    ("boiling", "state"),
    [
        (231.0, "as new"),
        (229.9, "aged"),
        (170.0, "aged"),
        (169.9, "renew soon"),
        (155.1, "renew soon"),
        (155.0, "renew now"),
        (120.0, "renew now"),
    ],
)
def test_dot_4_by_its_boiling_point(boiling: float, state: str):
    found = brake_fluid_state(fluid="DOT 4", boiling_c=boiling)
    assert found.state == state
    text = render(found.reason, Reader.of("metric"))
    assert "{" not in text
    assert "safe" not in text
    assert [caution.key for caution in found.cautions] == ["brake_fluid.licensed"]


def test_fluid_that_can_boil_is_not_driven_on():
    assert "before the next drive" in render(brake_fluid_state(fluid="dot 3", boiling_c=135.0).reason, Reader.of("us"))


def test_silicone_hides_its_water():
    assert brake_fluid_state(fluid="DOT 5", boiling_c=250.0).cautions[-1].key == "brake_fluid.silicone_water"


@pytest.mark.parametrize(
    ("text", "name"), [("dot4", "DOT 4"), ("DOT 5.1", "DOT 5.1"), ("dot-5.1", "DOT 5.1"), ("DOT 5 silicone", "DOT 5"), ("3", "DOT 3")]
)
def test_a_class_is_read(text: str, name: str):
    assert brake_fluid_class(text=text).name == name


@pytest.mark.parametrize("text", ["DOT 6", "DOT", "", "DOT 5.1 silicone", "DOT 4 silicone", "LHM", "DOT 45"])
def test_what_is_no_class_is_refused(text: str):
    with pytest.raises(InputError) as refused:
        brake_fluid_class(text=text)
    assert refused.value.key == "brake_fluid.unknown"


@pytest.mark.parametrize("boiling", [20.0, 400.0, float("nan")])
def test_what_cannot_be_a_boiling_point_is_refused(boiling: float):
    with pytest.raises(OutOfRangeError):
        brake_fluid_state(fluid="DOT 4", boiling_c=boiling)


@pytest.mark.parametrize(
    ("there", "added", "state"),
    [
        ("DOT 4", "DOT 4", "same class"),
        ("DOT 3", "DOT 4", "same base"),
        ("DOT 5.1", "DOT 4", "same base"),
        ("DOT 5.1", "DOT 5", "never"),
        ("DOT 5", "DOT 5", "same class"),
    ],
)
def test_mixtures(there: str, added: str, state: str):
    assert brake_fluid_mixture(in_system=there, to_add=added).state == state


def test_a_mixture_is_worth_its_weaker_part_and_a_higher_number_is_no_permission():
    text = render(brake_fluid_mixture(in_system="DOT 3", to_add="DOT 5.1").reason, Reader.of("metric"))
    assert "no more than DOT 3" in text
    assert "no permission" in text

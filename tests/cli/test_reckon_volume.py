"""`twomarks reckon` for volumes: at another temperature, in the pan, and by the time of draining."""

from __future__ import annotations

import math

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import InputError, OutOfRangeError

DRAIN = ("volume=4.3 L", "depth=100 mm", "hole=14 mm", "temp=60 C", "kv40=68 mm2/s", "kv100=11.5 mm2/s", "walls=1 m2")


def test_four_litres_poured_cool_take_up_more_when_hot():
    found = answered("volume-at", "volume=4 L", "from=20 C", "to=90 C", "density=860 kg/m3")
    assert found.results["volume_l"] == pytest.approx(4.220, abs=0.0005)
    assert "4 L at 20 °C take up 4.22 L at 90 °C" in told(found)


def test_other_units_come_to_the_same():
    metric = answered("volume-at", "volume=6.62447 L", "from=20 C", "to=100 C", "density=875 kg/m3")
    other = answered("volume-at", "volume=7 qt", "from=68 F", "to=212 F", "density=0.875 g/cm3", market="us")
    assert other.results["volume_l"] == pytest.approx(metric.results["volume_l"], abs=1e-4)


def test_a_density_that_was_not_given_is_said_to_be_a_usual_one():
    usual = answered("volume-at", "volume=4 L", "from=20 C", "to=90 C")
    given = answered("volume-at", "volume=4 L", "from=20 C", "to=90 C", "density=870 kg/m3")
    assert ("common_practice" in usual.sources, "common_practice" in given.sources) == (True, False)
    assert [line.key for line in usual.cautions] == ["reckon_volume.usual_density"]


def test_the_pan_is_asked_to_hold_the_hot_oil_and_some_more():
    full = answered("pan-volume", "refill=4.3 L", "temp=80 C", "source=handbook")
    half = answered("pan-volume", "refill=4.3 L", "temp=80 C", "level=1/2", "between-marks=1.1 L", "source=handbook")
    assert half.results["cold_l"] == pytest.approx(4.3 - 0.55)
    assert half.results["hot_l"] < full.results["hot_l"] < full.results["room_l"]
    assert "scalds" in told(full)


def test_a_curve_says_what_another_wait_brings():
    found = answered("drain", *DRAIN, "after=5 min", "after=10 min", "wait=5 min")
    first, second = found.results["curve"]
    assert second["out_l"] == pytest.approx(first["out_l"] + first["next_l"])
    assert "another 5 min" in told(found)


def test_cold_oil_takes_longer_and_leaves_more_on_the_walls():
    warm, cold = (answered("drain", *DRAIN[:3], f"temp={temp}", *DRAIN[4:]).results for temp in ("80 C", "0 C"))
    assert cold["emptied_min"] > 3.0 * warm["emptied_min"]
    assert cold["curve"][-1]["walls_l"] > warm["curve"][-1]["walls_l"]


def test_without_walls_only_the_sump_is_counted_and_says_so():
    found = answered("drain", *DRAIN[:-1])
    assert all(row["walls_l"] == 0.0 for row in found.results["curve"])
    assert "reckon_volume.no_walls" in [line.key for line in found.cautions]


@pytest.mark.parametrize(
    ("name", "words", "error"),
    [
        ("volume-at", ("volume=-1 L", "from=20 C", "to=90 C"), OutOfRangeError),
        ("volume-at", ("volume=4 L", "from=20 C", "to=190 C"), OutOfRangeError),
        ("volume-at", ("volume=4 L", "from=20 C", "to=90 C", "density=700 kg/m3"), OutOfRangeError),
        ("pan-volume", ("refill=4.3 L", "temp=80 C", "level=1/2"), InputError),
        ("pan-volume", ("refill=1 L", "temp=80 C", "level=-1", "between-marks=0.9 L"), OutOfRangeError),
        ("drain", (*DRAIN[:2], "hole=0 mm", *DRAIN[3:]), OutOfRangeError),
        ("drain", (*DRAIN, "after=-5 min"), OutOfRangeError),
    ],
)
def test_what_cannot_be_is_refused(name: str, words: tuple[str, ...], error: type[Exception]):
    with pytest.raises(error):
        answered(name, *words)


def test_the_machine_gets_figures_that_are_numbers():
    found = answered_json("drain", *DRAIN)["results"]
    assert all(math.isfinite(value) for row in found["curve"] for value in row.values())


def test_a_change_of_volume_says_which_way_it_goes():
    assert "5.5% more" in told(answered("volume-at", "volume=4 L", "from=20 C", "to=90 C"))
    assert "5.2% less" in told(answered("volume-at", "volume=4 L", "from=90 C", "to=20 C"))


def test_a_density_that_was_typed_is_not_called_a_usual_one():
    asked = ("volume=4 L", "from=20 C", "to=90 C")
    assert "a usual one" in told(answered("volume-at", *asked))
    assert "a usual one" not in told(answered("volume-at", *asked, "density=860 kg/m3"))


def test_litres_of_a_drain_are_said_in_litres():
    text = told(answered("drain", "volume=4.3 L", "depth=100 mm", "hole=14 mm", "temp=60 C", "kv40=68 mm2/s", "kv100=11.5 mm2/s"))
    assert "0 L out, 4.3 L still to come" in text
    assert " 4300 mL" not in text

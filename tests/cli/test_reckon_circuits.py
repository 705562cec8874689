"""`twomarks reckon` coolant, brake-fluid, gear-oil, tyre, battery."""

from __future__ import annotations

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks.errors import DocumentError, InputError, NoSolutionError, OutOfRangeError


def test_a_coolant_against_the_cold():
    found = answered("coolant", "glycol=ethylene", "share=50 %", "coldest=-12 F")
    assert found.results == {"freeze_c": -37.11, "state": "enough"}
    assert "slush" in told(found)
    weak = answered("coolant", "glycol=propylene", "share=30 %", "coldest=-25 C")
    assert weak.results["state"] == "not enough"
    assert "at least" in told(weak)


def test_what_to_drain_and_how_often():
    found = answered("coolant-refill", "glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "drained=2 L")
    assert found.results["drain_l"] == pytest.approx(2.2857, abs=1e-4)
    assert found.results["refills"] == 2
    assert found.results["freeze_c"] == -37.11
    assert "Never open a hot circuit" in told(found)


def test_what_partial_refills_leave():
    found = answered("coolant-after", "glycol=ethylene", "volume=10 L", "share=0 %", "drained=6 L", "times=3", "new=50 %")
    assert found.results["after_percent"] == pytest.approx(46.8)
    assert found.results["replaced_percent"] == pytest.approx(93.6)
    strong = answered("coolant-after", "glycol=ethylene", "volume=8 L", "share=30 %", "drained=4.8 L", "times=2")
    assert "freeze_c" not in strong.results
    assert "no protection is told there" in told(strong)


def test_brake_fluid_by_its_boiling_point_in_either_unit():
    found = answered("brake-fluid", "fluid=dot4", "boiling=311 F")
    assert (found.results["class"], found.results["state"]) == ("DOT 4", "renew now")
    assert "licensed practice" in told(found)
    assert answered("brake-fluid", "fluid=DOT 4", "boiling=200 C").results["state"] == "aged"


def test_silicone_is_never_added():
    found = answered("brake-fluid", "fluid=DOT 5.1", "add=DOT 5")
    assert found.results["mixture"] == "never"
    assert "DOT 5.1 is not DOT 5" in told(found)


def test_gl_5_where_gl_4_is_asked_for():
    found = answered("gear-oil", "asked=GL-4", "label=SAE 75W-90 API GL-5", "unit=gearbox")
    assert (found.results["state"], found.exit_code) == ("does not meet", 0)
    assert "yellow metal" in told(found)
    assert "gear_oil_yellow_metal" in found.sources


def test_a_limited_slip_axle_wants_to_be_named():
    words = ("asked=GL-5", "unit=axle", "limited-slip=yes")
    assert answered("gear-oil", *words, "label=80W-90 GL-5").results["state"] == "not shown"
    assert answered("gear-oil", *words, "label=80W-90 GL-5 LS").results["state"] == "meets"


def test_a_tyre_in_the_cold_and_on_a_pass():
    found = answered("tyre", "pressure=32 psi", "at=70 F", "to=20 F")
    assert found.results["pressure_bar"] == pytest.approx(1.902, abs=1e-3)
    assert found.sources == ("tyre_gas_law",)
    high = answered("tyre", "pressure=2.2 bar", "at=20 C", "to=20 C", "to-height=2000 m")
    assert high.results["pressure_bar"] == pytest.approx(2.418, abs=1e-3)
    assert "2000 m above the sea" in told(high)


def test_a_battery_before_a_frost():
    found = answered("battery", "voltage=12.45 V", "rest=10 h", "coldest=0 F")
    assert found.results["charge_percent"] == pytest.approx(75.0)
    assert found.results["cranking_margin_percent"] == pytest.approx(100 * 40 / 210)
    assert "stays liquid" in told(found)
    flat = answered("battery", "voltage=11.8 V", "rest=10 h", "coldest=-30 C")
    assert "cranking_margin_percent" not in flat.results
    assert "can freeze" in told(flat)
    assert "say nothing of cranking" in told(flat)


@pytest.mark.parametrize(
    ("name", "words", "error"),
    [
        ("coolant", ("glycol=ethylene", "share=70 %"), OutOfRangeError),
        ("coolant", ("glycol=glycerol", "share=50 %"), InputError),
        ("coolant", ("share=50 %",), InputError),
        ("coolant-refill", ("glycol=ethylene", "volume=8 L", "share=30 %", "target=70 %"), OutOfRangeError),
        ("coolant-refill", ("glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "new=40 %"), InputError),
        ("coolant-refill", ("glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "new=50 %", "drained=4 L"), NoSolutionError),
        ("coolant-refill", ("glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "drained=9 L"), OutOfRangeError),
        ("coolant-after", ("glycol=ethylene", "volume=8 L", "share=30 %", "drained=4 L", "times=1.5"), InputError),
        ("brake-fluid", ("fluid=DOT 6",), InputError),
        ("brake-fluid", ("fluid=DOT 4", "boiling=20 C"), OutOfRangeError),
        ("gear-oil", ("asked=75W-90", "label=GL-4", "unit=gearbox"), InputError),
        ("gear-oil", ("asked=GL-4", "label=GL-4", "unit=engine"), InputError),
        ("tyre", ("pressure=-1 bar", "at=20 C", "to=0 C"), OutOfRangeError),
        ("tyre", ("pressure=2 bar",), DocumentError),
        ("battery", ("voltage=24.6 V",), OutOfRangeError),
        ("battery", ("voltage=12.5 V", "rest=-1 h"), OutOfRangeError),
    ],
)
def test_what_cannot_be_is_refused(name: str, words: tuple[str, ...], error: type[InputError]):
    with pytest.raises(error):
        answered(name, *words)


@pytest.mark.parametrize("market", ["uk", "us", "au", "metric"])
@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("coolant", ("glycol=ethylene", "share=50 %", "coldest=-36 C")),
        ("brake-fluid", ("fluid=DOT 5", "boiling=200 C")),
        ("tyre", ("pressure=32 psi", "at=70 F", "to=20 F")),
        ("battery", ("voltage=12.9 V",)),
    ],
)
def test_every_reader_is_told_in_their_own_units(name: str, words: tuple[str, ...], market: str):
    text = told(answered(name, *words, market=market), market=market)
    assert ("°F" in text) or market != "us" or name == "tyre" or "27 °C (80 °F)" in text


def test_the_answer_as_data():
    found = answered_json("coolant", "glycol=ethylene", "share=50 %")
    assert found["results"]["freeze_c"] == -37.11
    assert found["sources"][0]["key"] == "coolprop_glycol"


def test_partial_refills_that_overshoot_say_where_they_end():
    found = answered("coolant-refill", "glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "drained=2 L")
    assert found.results["reached_percent"] == pytest.approx(100.0 - 70.0 * 0.75**2)
    assert "no protection is told there" in told(found)
    gentle = answered("coolant-refill", "glycol=ethylene", "volume=8 L", "share=30 %", "target=50 %", "drained=2 L", "new=60 %")
    assert "no protection" not in told(gentle)


def test_a_battery_says_one_thing_of_its_charge():
    text = told(answered("battery", "voltage=12.45 V", "rest=10 h"))
    assert "12.45 V at rest: about 75% charged." in text
    assert "It is charged" not in text
    assert "That is full." in told(answered("battery", "voltage=12.65 V", "rest=10 h"))
    assert "at −17.8 °C counts as 12.26 V" in told(answered("battery", "voltage=12.45 V", "rest=10 h", "temp=0 F"))

"""What threads and drives are called."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError, OutOfRangeError
from twomarks.trade.threads import read_drive, read_thread, spanner_sizes, stress_area


@pytest.mark.parametrize(
    ("text", "name", "series", "diameter", "pitch"),
    [
        ("M16x1.5", "M16x1.5", "fine", 16.0, 1.5),
        ("m 16 × 1,5", "M16x1.5", "fine", 16.0, 1.5),
        ("M10", "M10", "coarse", 10.0, 1.5),
        ("M10x1.5", "M10", "coarse", 10.0, 1.5),
        ("M12*1.25-6g", "M12x1.25", "fine", 12.0, 1.25),
        ("M14x1.25", "M14x1.25", "not listed", 14.0, 1.25),
        ("M27x2", "M27x2", "not listed", 27.0, 2.0),
        ("1/2-20 UNF", "1/2-20 UNF", "inch", None, None),
        ("G 1/4", "G 1/4", "inch", None, None),
        ("1/8 NPT", "1/8 NPT", "inch", None, None),
    ],
)
def test_a_thread_is_read(text: str, name: str, series: str, diameter: float | None, pitch: float | None):
    thread = read_thread(text=text)
    assert (thread.name, thread.series, thread.diameter_mm, thread.pitch_mm) == (name, series, diameter, pitch)


def test_a_left_handed_thread_says_so():
    assert read_thread(text="M20x1.5 LH").left_handed
    assert not read_thread(text="M20x1.5").left_handed


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("washer", "threads.unreadable"),
        ("", "threads.unreadable"),
        ("M10x15", "threads.pitch"),
        ("M10x0", "threads.pitch"),
        ("M30", "threads.no_pitch"),
        ("M0", "threads.diameter"),
        ("M500x6", "threads.diameter"),
    ],
)
def test_what_is_no_thread_is_refused(text: str, key: str):
    with pytest.raises(InputError) as refused:
        read_thread(text=text)
    assert refused.value.key == key
    assert refused.value.values["example"] == "M16x1.5"


def test_the_refusal_of_a_pitch_names_the_usual_ones():
    with pytest.raises(InputError) as refused:
        read_thread(text="M10x15")
    assert refused.value.values["expected"] == ("1 mm", "1.25 mm", "1.5 mm")


@pytest.mark.parametrize(
    ("text", "name", "size"),
    [
        ("hex socket 17 mm", "hex socket", "17 mm"),
        ("hexagon 13", "hex", "13 mm"),
        ("13 mm hex", "hex", "13 mm"),
        ("1/2 in hex", "hex", "1/2 in"),
        ("T45", "hexalobular socket", "45"),
        ("E 12", "hexalobular head", "12"),
        ("Hexalobular No. 30", "hexalobular socket", "30"),
        ("12-point 10 mm", "bi-hexagon", "10 mm"),
        ("slotted", "slot", ""),
        ("by hand", "by hand", ""),
    ],
)
def test_a_drive_is_read(text: str, name: str, size: str):
    drive = read_drive(text=text)
    assert (drive.name, drive.size) == (name, size)


def test_an_unknown_drive_is_refused_with_the_known_ones():
    with pytest.raises(InputError) as refused:
        read_drive(text="17 mm something")
    assert "hex socket" in refused.value.values["expected"]


def test_a_size_that_no_chart_lists_is_told_by_nothing():
    assert spanner_sizes(diameter_mm=7.0) is None
    with pytest.raises(OutOfRangeError):
        spanner_sizes(diameter_mm=float("nan"))


@pytest.mark.parametrize(("diameter", "pitch"), [(0.5, 0.1), (10.0, 0.0), (float("inf"), 1.0), (10.0, float("nan"))])
def test_an_impossible_thread_has_no_area(diameter: float, pitch: float):
    with pytest.raises(OutOfRangeError):
        stress_area(diameter_mm=diameter, pitch_mm=pitch)


def test_a_pitch_of_a_quarter_of_the_diameter_is_refused_by_name():
    with pytest.raises(InputError) as refused:
        stress_area(diameter_mm=10.0, pitch_mm=2.5)
    assert refused.value.key == "threads.pitch_too_coarse"

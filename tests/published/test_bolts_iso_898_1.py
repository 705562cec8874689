"""Stress areas and proof loads of bolts, and across-flats sizes.

Sources: ISO 898-1 as two independent distributors' tables print it (areas, proof loads and breaking loads of M6 to M16, status a2);
fine threads computed from the basic profile of ISO 68-1 (status b); ISO and DIN across-flats charts (status a2).
"""

from __future__ import annotations

import pytest

from tests.published.printed import agrees, half_a_unit
from twomarks.reference.threads import property_classes, threads
from twomarks.trade.preload import proof_load
from twomarks.trade.threads import read_thread, spanner_sizes, stress_area

AREAS = {"M6": "20.1", "M8": "36.6", "M10": "58.0", "M12": "84.3", "M14": "115", "M16": "157"}
PROOF_N = {
    "M6": ("11600", "16700", "19500"),
    "M8": ("21200", "30400", "35500"),
    "M10": ("33700", "48100", "56300"),
    "M12": ("48900", "70000", "81800"),
    "M14": ("66700", "95500", "112000"),
    "M16": ("91000", "130000", "152000"),
}
BREAKING_N = {
    "M6": ("16100", "20900", "24500"),
    "M8": ("29200", "38100", "44600"),
    "M10": ("46400", "60300", "70800"),
    "M12": ("67400", "87700", "103000"),
    "M14": ("92000", "120000", "140000"),
    "M16": ("125000", "163000", "192000"),
}
CLASSES = ("8.8", "10.9", "12.9")


def area(name: str) -> float:
    thread = read_thread(text=name)
    assert thread.diameter_mm is not None
    assert thread.pitch_mm is not None
    return stress_area(diameter_mm=thread.diameter_mm, pitch_mm=thread.pitch_mm)


def is_printed(load_n: float, printed: str) -> bool:
    """Return whether a load is the printed one: three figures, from an area that was itself rounded by up to 0.5 %."""
    return abs(load_n - float(printed)) <= 0.005 * float(printed) + half_a_unit(printed[:3]) * 10 ** (len(printed) - 3)


@pytest.mark.parametrize(("name", "printed"), AREAS.items())
def test_printed_stress_area(name: str, printed: str):
    # the printed areas are rounded on their way: 0.5 % between computed and printed
    assert area(name) == pytest.approx(float(printed), rel=0.005)
    assert threads()[name].stress_area_mm2 == float(printed)


@pytest.mark.parametrize(
    ("name", "computed"),
    [
        ("M6", "20.12"),
        ("M8", "36.61"),
        ("M10", "57.99"),
        ("M12", "84.27"),
        ("M14", "115.44"),
        ("M16", "156.67"),
        ("M12x1.5", "88.13"),
        ("M14x1.5", "124.55"),
        ("M16x1.5", "167.25"),
        ("M18x1.5", "216.23"),
        ("M20x1.5", "271.50"),
        ("M22x1.5", "333.06"),
    ],
)
def test_stress_area_from_the_basic_profile(name: str, computed: str):
    assert agrees(area(name), computed)


@pytest.mark.parametrize("name", PROOF_N)
@pytest.mark.parametrize("at", range(3))
def test_printed_proof_load(name: str, at: int):
    computed = proof_load(thread=read_thread(text=name), property_class=CLASSES[at])
    assert computed is not None
    assert is_printed(computed, PROOF_N[name][at])


@pytest.mark.parametrize("name", BREAKING_N)
@pytest.mark.parametrize("at", range(3))
def test_printed_breaking_load(name: str, at: int):
    strength = next(row for row in property_classes() if row.name == CLASSES[at])
    assert is_printed(area(name) * strength.tensile_mpa, BREAKING_N[name][at])


def test_proof_stresses_that_the_loads_imply():
    # status d: 580 up to 16 mm, 600 above, 830, 970
    assert [(row.name, row.proof_mpa) for row in property_classes() if row.name != "9.8"] == [
        ("8.8", 580.0),
        ("8.8", 600.0),
        ("10.9", 830.0),
        ("12.9", 970.0),
    ]


@pytest.mark.parametrize(
    ("diameter", "iso", "older"),
    [
        (6, 10, 10),
        (8, 13, 13),
        (10, 16, 17),
        (12, 18, 19),
        (14, 21, 22),
        (16, 24, 24),
        (18, 27, 27),
        (20, 30, 30),
        (22, 34, 32),
        (24, 36, 36),
    ],
)
def test_printed_sizes_across_flats(diameter: int, iso: int, older: int):
    sizes = spanner_sizes(diameter_mm=diameter)
    assert sizes is not None
    assert (sizes.iso_mm, sizes.older_mm) == (iso, older)

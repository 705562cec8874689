"""Tiny write-ups as people pass them on: what each leaves out, and what it does not."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.procedures import sheets
from tests.procedures.mistakes import bound
from twomarks import packaged
from twomarks.model.loading import load_as
from twomarks.model.procedure import Procedure
from twomarks.procedures.kit import Kit
from twomarks.procedures.rehearsal import Rehearsal, rehearse

FOLDER = Path(__file__).parent / "tiny"

# write-up, then what is found: the rule, the step it stands at, its grade
EXPECTED: dict[str, tuple[tuple[str, str, str], ...]] = {
    "01-change-the-oil": (
        ("fresh_air", "warm-up", "harm"),
        ("level_before_warm", "warm-up", "damage"),
        ("pan_there", "plug-out", "omission"),
        ("waste_room", "plug-out", "omission"),
        ("gloves", "plug-out", "harm"),
        ("old_seal", "filter-new", "damage"),
        ("seat_clean", "filter-new", "damage"),
        ("ring_oiled", "filter-new", "damage"),
        ("filter_compared", "filter-new", "damage"),
        ("to_figure", "filter-new", "damage"),
        ("filler_open", "pour", "omission"),
        ("right_fluid", "pour", "damage"),
        ("lamp", "start", "damage"),
        ("all_tight", "start", "damage"),
        ("level_after", "start", "damage"),
        ("leaks", "filter-new", "damage"),
        ("follow_up", "start", "omission"),
    ),
    "02-slide-under": (
        ("ground", "jack-up", "harm"),
        ("brake", "jack-up", "harm"),
        ("gear", "jack-up", "harm"),
        ("chocks", "jack-up", "harm"),
        ("lifting_points", "jack-up", "harm"),
        ("stands", "slide-under", "harm"),
        ("shaken", "slide-under", "harm"),
        ("key_away", "slide-under", "harm"),
        ("on_wheels", "jack-up", "harm"),
    ),
    "03-drain-first": (
        ("fill_plug_first", "drain", "damage"),
        ("which_unit", "drain", "damage"),
        ("gear_oil_class", "fill", "damage"),
        ("gear_full", "fill", "damage"),
        ("gloves", "drain", "harm"),
    ),
    "04-add-cleaner": (
        ("not_too_much", "add", "damage"),
        ("fresh_air", "run", "harm"),
        ("not_hot", "drain", "harm"),
        ("pan_size", "drain", "omission"),
    ),
    "05-bleed-and-drive": (
        ("bleed_order", "bleed-1", "omission"),
        ("tank_topped_up", "bleed-1", "harm"),
        ("pedal_firm", "drive", "harm"),
        ("slow_stop", "drive", "harm"),
    ),
    "06-fit-tighten-lower": (
        ("wheel_faces", "fit", "harm"),
        ("nut_seats", "fit", "harm"),
        ("to_figure", "tighten", "damage"),
        ("nuts_crosswise", "tighten", "harm"),
        ("nuts_torqued", "tighten", "harm"),
        ("retorque", "tighten", "harm"),
        ("nuts_snug", "lower", "harm"),
        ("still_under", "lower", "harm"),
    ),
    "07-positive-then-negative": (
        ("negative_first", "plus", "harm"),
        ("lead_aside", "plus", "harm"),
        ("jewellery_off", "plus", "harm"),
        ("no_spark", "plus", "harm"),
        ("glasses", "plus", "harm"),
        ("key_away", "plus", "harm"),
        ("all_tight", "minus", "damage"),
    ),
    "08-read-at-once": (
        ("reading_counts", "read", "omission"),
        ("add_by_reading", "top-up", "damage"),
        ("filler_open", "top-up", "omission"),
    ),
    "09-open-it-warm": (("cap_cold", "open-cap", "harm"), ("coolant_cap_on", "open-cap", "harm")),
    "10-reverse-of-removal": (
        ("old_seal", "reverse", "damage"),
        ("seat_clean", "reverse", "damage"),
        ("new_part", "reverse", "damage"),
        ("plug_before_pour", "fill", "damage"),
        ("all_tight", "start", "damage"),
        ("level_after", "start", "damage"),
        ("leaks", "reverse", "damage"),
    ),
}

# what must not be found, because the write-up says it
NOT_FOUND: dict[str, tuple[str, ...]] = {
    "01-change-the-oil": ("by_hand_first", "one_new_seal", "drain_time", "tray_back", "new_part", "plug_before_pour"),
    "02-slide-under": ("level_after", "leaks", "recorded"),
    "03-drain-first": ("cap_on", "old_seal", "lamp"),
    "04-add-cleaner": ("drain_time", "loosened"),
    "05-bleed-and-drive": ("stands", "drain_time"),
    "06-fit-tighten-lower": ("nuts_by_hand", "wheels_on", "pressures_set", "swap_pattern"),
    "07-positive-then-negative": ("negative_last", "polarity_read", "level_after", "charge_measured"),
    "08-read-at-once": ("fresh_air", "ground", "level_after"),
    "09-open-it-warm": ("fill_plug_first", "level_after"),
    "10-reverse-of-removal": ("taken_out", "by_hand_first"),
}


# what the vehicle and the kit of a write-up have beside the others: a gear unit, a bottle, a pan that holds no more than the refill
ROWAN = packaged.text("demo/files/rowan.toml")
SHEETS = {"03-drain-first": ROWAN, "05-bleed-and-drive": ROWAN, "04-add-cleaner": f'{sheets.CAR}\n[slots.flush]\nholds = "0.4 L"\n'}
KITS = {"04-add-cleaner": Kit(pan_l=4.3)}


def rehearsed(name: str) -> Rehearsal:
    """Return what comes to light in a tiny write-up on the car it is for."""
    procedure = load_as(Procedure, (FOLDER / f"{name}.toml").read_text("utf-8"), where=name)
    return rehearse(bound(procedure, SHEETS.get(name, "")), KITS.get(name))


@pytest.mark.parametrize(
    ("name", "rule", "step", "grade"), [(name, *one) for name, ones in EXPECTED.items() for one in ones], ids=lambda value: value
)
def test_a_tiny_write_up_is_told_what_it_never_says(name: str, rule: str, step: str, grade: str) -> None:
    assert (rule, step, grade) in {(one.rule, one.step, one.grade) for one in rehearsed(name).findings}


@pytest.mark.parametrize(("name", "rule"), [(name, rule) for name, rules in NOT_FOUND.items() for rule in rules])
def test_a_tiny_write_up_is_not_told_what_it_says(name: str, rule: str) -> None:
    assert rule not in {one.rule for one in rehearsed(name).findings}


def test_every_tiny_write_up_has_its_findings() -> None:
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(EXPECTED) == set(NOT_FOUND)


def test_a_reading_with_the_nose_raised_and_one_straight_after_the_stop_are_told_apart() -> None:
    name = "08-read-at-once"
    text = (FOLDER / f"{name}.toml").read_text("utf-8")
    level = text.replace('action = "raise"\nthing = "vehicle"', 'action = "say"\nthing = "helper"')
    assert level != text
    why = [_why_not_read(load_as(Procedure, body, where=name)) for body in (text, level)]
    assert why == ["rehearsal.read_tilted", "rehearsal.read_early"]


def _why_not_read(procedure: Procedure) -> str:
    found = rehearse(bound(procedure)).findings
    return next(str(getattr(one.found.figures["reading"], "key", "")) for one in found if one.rule == "reading_counts")

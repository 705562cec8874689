"""Limits of service items: what is measured, what calls for them, fixed dates, and how the vehicle is used."""

from __future__ import annotations

import datetime as dt
from uuid import UUID

import pytest

from twomarks.errors import DocumentError
from twomarks.model.loading import load_as
from twomarks.model.theirs import as_told
from twomarks.model.vehicle import VehicleSheet
from twomarks.words import Reader, message_of, render

HEAD = """format = "twomarks/vehicle/1"
name = "Invented"
kind = "car"
[engine]
fuel = "petrol"
"""


def sheet(text: str) -> VehicleSheet:
    return load_as(VehicleSheet, HEAD + text, where="test")


def fault_of(text: str) -> tuple[str, str]:
    with pytest.raises(DocumentError) as refused:
        sheet(text)
    (fault,) = refused.value.faults
    return fault.key, render(message_of(fault), Reader())


def test_a_measured_item_has_places_one_limit_and_what_is_new() -> None:
    table = '[items.tyres.measured]\nplaces = ["front left"]\nleast = "1.6 mm"\nnew = "8 mm"\nsource = "handbook: p. 9"'
    item = sheet(table).items["tyres"]
    assert item.measured is not None
    assert item.measured.least is not None
    assert item.measured.least.core == 1.6
    assert item.measured.places == ("front left",)
    assert str(item.measured.least.source) == "handbook: p. 9"


@pytest.mark.parametrize("what", ['most = "3 %"', 'least = "12.2 V"', 'least = "155 C"', 'least = "1.6 mm"', 'least = "9 bar"'])
def test_what_workshops_measure_can_be_a_limit(what: str) -> None:
    assert sheet(f"[items.one.measured]\n{what}\n").items["one"].measured is not None


@pytest.mark.parametrize(
    ("measured", "key", "told"),
    [
        ('least = "1 mm"\nmost = "2 mm"', "model.one_limit", "either"),
        ('new = "2 mm"', "model.one_limit", "least"),
        ('least = "2 mm"\nnew = "2 mm"', "model.new_beyond", "at or beyond"),
        ('most = "3 %"\nnew = "4 %"', "model.new_beyond", "4 %"),
        ('least = "2 mm"\nnew = "12 V"', "units.kind", "length"),
    ],
)
def test_limits_that_cannot_be_are_refused(measured: str, key: str, told: str) -> None:
    found, sentence = fault_of(f"[items.one.measured]\n{measured}\n")
    assert found == key
    assert told in sentence


def test_one_event_or_several_call_for_an_item() -> None:
    assert sheet('[items.one]\nevent = "waded"\n').items["one"].event == ("waded",)
    several = sheet('[items.one]\nevent = ["waded", "dust"]\nwithin = "7 days"\n').items["one"]
    assert several.event == ("waded", "dust")
    assert several.within is not None


def test_a_fixed_date_is_a_day_and_comes_back() -> None:
    item = sheet('[items.test]\nby = { value = "2027-03-31", source = "told: certificate" }\nagain = "12 months"\n').items["test"]
    assert item.by is not None
    assert item.by.day == dt.date(2027, 3, 31)
    assert str(item.by.source) == "told: certificate"


@pytest.mark.parametrize(
    ("item", "key"),
    [
        ('by = "31 March"', "fact.day"),
        ('by = "2027-02-30"', "fact.day"),
        ('again = "12 months"', "model.needs"),
        ('within = "7 days"', "model.needs"),
        ('hard_when = ["dust"]', "model.needs"),
    ],
)
def test_a_date_or_word_that_leads_nowhere_is_refused(item: str, key: str) -> None:
    found, sentence = fault_of(f"[items.one]\n{item}\n")
    assert found == key
    assert "items.one" in sentence


def test_the_use_is_stated_by_condition() -> None:
    assert dict(sheet('[use]\ntowing = "often"\ndust = "mostly"\n').use.stated) == {"dust": "mostly", "towing": "often"}
    assert sheet("").use.stated == {}


def test_how_another_owner_drives_does_not_come_with_their_sheet() -> None:
    theirs = HEAD + '[use]\ntowing = "mostly"\n[items.oil]\nname = "oil"\nuse = "hard"\nevery = { time = "12 months" }\n'
    told = load_as(VehicleSheet, as_told(theirs, UUID(int=1), where="test"), where="test")
    assert told.use.stated == {}
    assert told.items["oil"].use is None
    assert told.items["oil"].every is not None

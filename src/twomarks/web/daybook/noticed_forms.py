"""The forms for what was seen, what was measured, and how a vehicle is driven."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from django import forms

from twomarks.model.ledger import HOW_BAD
from twomarks.model.service_items import CONDITIONS
from twomarks.planning.due.use import HOW_OFTEN
from twomarks.units import KINDS, Quantity
from twomarks.web.look.typed import DayField, QuantityField, TypedForm
from twomarks.words import render, say

if TYPE_CHECKING:
    from django.forms.boundfield import BoundField

    from twomarks.model.vehicle import VehicleSheet

__all__ = ["MeasuredForm", "SnagForm", "UseForm"]


class SnagForm(TypedForm):
    """Something that was noticed."""

    prefix = "snag"

    day = DayField()
    what = forms.CharField(required=False, max_length=400)
    where = forms.CharField(required=False, max_length=120)
    how_bad = forms.ChoiceField(choices=[(word, word.capitalize()) for word in HOW_BAD], widget=forms.RadioSelect)

    def clean_what(self) -> str:
        """Return what was noticed; a snag without words helps nobody."""
        what = str(self.cleaned_data["what"]).strip()
        if not what:
            raise forms.ValidationError(render(say("web.needed", expected=say("web.a_snag")), self.reader))
        return what


class MeasuredForm(TypedForm):
    """What the sheet measures, one field for each place; those left empty were not measured."""

    prefix = "measured"

    day = DayField()

    def __init__(self, *args: Any, sheet: VehicleSheet, **kwargs: Any) -> None:
        self.measures = tuple(_measures(sheet))
        super().__init__(*args, **kwargs)
        for number, (_, place, name, kind, limit) in enumerate(self.measures):
            field = QuantityField(kind=kind, example=limit.split()[0], default_unit=KINDS[kind].core, required=False, max_length=40)
            field.label = f"{name}, {place}" if place else name
            field.help_text = limit
            field.reader, field.today = self.reader, self.today
            self.fields[f"value_{number}"] = field

    @property
    def places(self) -> list[BoundField]:
        """The fields of what is measured."""
        return [self[f"value_{number}"] for number in range(len(self.measures))]

    @property
    def values(self) -> Iterator[tuple[str, str, Quantity]]:
        """Yield item, place and value of each field that was filled in."""
        for number, (item, place, *_) in enumerate(self.measures):
            value = self.cleaned_data.get(f"value_{number}")
            if value is not None:
                yield item, place, value

    def clean(self) -> dict[str, Any]:
        said = super().clean() or {}
        if not self.errors and not any(said.get(f"value_{number}") for number in range(len(self.measures))):
            self.add_error("day", render(say("web.needed", expected=say("web.a_measured_value")), self.reader))
        return said


class UseForm(TypedForm):
    """How the vehicle is driven: for each thing that handbooks call hard use, how often."""

    prefix = "use"

    def __init__(self, *args: Any, stated: Mapping[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name in CONDITIONS:
            choices = [(word, word.capitalize()) for word in HOW_OFTEN]
            field = forms.ChoiceField(required=False, choices=choices, widget=forms.RadioSelect, initial=stated.get(name))
            field.label = render(say(f"use.{name}"), self.reader).capitalize()
            self.fields[name] = field


def _measures(sheet: VehicleSheet) -> Iterator[tuple[str, str, str, str, str]]:
    """Yield key, place, name, kind and limit of everything that the sheet measures."""
    for key, item in sheet.items.items():
        measured = item.measured
        limit = None if measured is None else measured.least or measured.most
        if measured is None or limit is None or limit.quantity is None or item.retired:
            continue
        name = (measured.what or item.name or key.replace("_", " ")).capitalize()
        for place in measured.places or ("",):
            yield key, place, name, limit.quantity.kind, limit.text

"""The two questions of the first page, and the third that may stay empty."""

from __future__ import annotations

from django import forms

from twomarks.web.look.typed import QuantityField, TypedForm
from twomarks.words import render, say

__all__ = ["FUELS", "KINDS", "StartForm"]

KINDS = (("car", "Car"), ("van", "Van"), ("4x4", "4x4"), ("motorcycle", "Motorcycle"), ("machine", "Machine"), ("trailer", "Trailer"))
FUELS = ("petrol", "diesel", "lpg", "hybrid", "electric")


class StartForm(TypedForm):
    """What it is, and what the odometer says."""

    kind = forms.ChoiceField(choices=KINDS, widget=forms.RadioSelect)
    fuel = forms.ChoiceField(choices=[(fuel, "LPG" if fuel == "lpg" else fuel.capitalize()) for fuel in FUELS], widget=forms.RadioSelect)
    odometer = QuantityField(kind="distance", example="61240", max_length=40)
    label = forms.CharField(required=False, max_length=400)
    name = forms.CharField(required=False, max_length=60)

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        for name in ("kind", "fuel"):
            self.fields[name].error_messages["required"] = render(say("web.needed", expected=say("web.a_choice")), self.reader)

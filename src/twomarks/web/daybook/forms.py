"""The forms of the daybook: what was done, a reading of the stick, a reading of the odometer."""

from __future__ import annotations

from typing import Any

from django import forms

from twomarks.web.look.typed import DayField, LevelField, MoneyField, QuantityField, TypedForm
from twomarks.words import render, say

__all__ = ["EntryForm", "LevelForm", "OdometerForm"]


class EntryForm(TypedForm):
    """What was done, in one go; `may_be_kept` where a refused odometer may be kept on the owner's word."""

    may_be_kept = False

    day = DayField()
    odometer = QuantityField(kind="distance", example="61240", max_length=40)
    items = forms.MultipleChoiceField(required=False, widget=forms.CheckboxSelectMultiple)
    snags = forms.MultipleChoiceField(required=False, widget=forms.CheckboxSelectMultiple)
    title = forms.CharField(required=False, max_length=200)
    minutes = QuantityField(kind="duration", example="50", required=False, max_length=40)
    cost = MoneyField(required=False, max_length=40)
    product = forms.ChoiceField(required=False)
    volume_in = QuantityField(kind="volume", example="4.1", required=False, max_length=40)
    volume_out = QuantityField(kind="volume", example="4.0", required=False, max_length=40)
    can = forms.ChoiceField(required=False)
    level = LevelField(required=False)
    note = forms.CharField(required=False, max_length=1000, widget=forms.Textarea(attrs={"rows": 3}))
    anyway = forms.BooleanField(required=False)

    def __init__(
        self,
        *args: Any,
        items: dict[str, str],
        products: dict[str, str],
        cans: dict[str, str],
        snags: dict[str, str],
        odometer_unit: str,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.fields["items"].choices = list(items.items())  # type: ignore[attr-defined]
        self.fields["snags"].choices = list(snags.items())  # type: ignore[attr-defined]
        self.fields["product"].choices = [("", "none of these"), *products.items()]  # type: ignore[attr-defined]
        self.fields["can"].choices = [("", "no can"), *cans.items()]  # type: ignore[attr-defined]
        self.fields["odometer"].default_unit = odometer_unit  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        said = super().clean() or {}
        if not said.get("items") and not said.get("title") and not said.get("snags") and not self.errors.get("items"):
            self.add_error("items", render(say("web.needed", expected=say("web.something_done")), self.reader))
        return said


class LevelForm(TypedForm):
    """A reading of the stick."""

    day = DayField()
    level = LevelField(empty="choose")
    minutes = QuantityField(kind="duration", example="10", required=False, max_length=40)
    odometer = QuantityField(kind="distance", example="61240", required=False, max_length=40)
    note = forms.CharField(required=False, max_length=500)

    def __init__(self, *args: Any, odometer_unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["odometer"].default_unit = odometer_unit  # type: ignore[attr-defined]
        self.fields["level"].error_messages["required"] = render(say("web.needed", expected=say("web.level_field")), self.reader)


class OdometerForm(TypedForm):
    """A reading of the odometer; `may_be_kept` where a refused one may be kept on the owner's word."""

    may_be_kept = False

    day = DayField()
    odometer = QuantityField(kind="distance", example="61240", max_length=40)
    anyway = forms.BooleanField(required=False)

    def __init__(self, *args: Any, odometer_unit: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["odometer"].default_unit = odometer_unit  # type: ignore[attr-defined]

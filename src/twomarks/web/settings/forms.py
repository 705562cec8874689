"""The one form of the settings: how the person reads, and what this browser shows."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from django import forms

from twomarks.planning.help_call import HelpCall
from twomarks.units import UNITS
from twomarks.web.preferences import TONES, Preferences
from twomarks.words import CHOICES, PRESETS, Reader, render, say

__all__ = ["SettingsForm"]

MARKET_WORDS = {"metric": "Metric", "uk": "United Kingdom", "us": "United States", "au": "Australia"}
TONE_WORDS = {"auto": "As this device", "light": "Light", "dark": "Dark"}


class SettingsForm(forms.Form):
    """Market, a unit per quantity and the currency; light and keys; whom to call and where one is."""

    market = forms.ChoiceField(choices=[(name, MARKET_WORDS[name]) for name in PRESETS], widget=forms.RadioSelect)
    tone = forms.ChoiceField(choices=[(name, TONE_WORDS[name]) for name in TONES], widget=forms.RadioSelect)
    sun = forms.ChoiceField(choices=[("off", "As chosen above"), ("on", "Full sun")], widget=forms.RadioSelect)
    keys = forms.ChoiceField(choices=[("on", "On"), ("off", "Off")], widget=forms.RadioSelect)
    help_number = forms.CharField(max_length=24, required=False, widget=forms.TextInput(attrs={"autocomplete": "off", "inputmode": "tel"}))
    help_address = forms.CharField(
        max_length=240, required=False, widget=forms.Textarea(attrs={"rows": 2, "autocomplete": "street-address"})
    )
    currency = forms.CharField(max_length=12, widget=forms.TextInput(attrs={"autocomplete": "off"}))

    def __init__(self, *args: Any, reader: Reader, preferences: Preferences, call: HelpCall, **kwargs: Any) -> None:
        units = {kind: reader.units.get(kind, codes[0]) for kind, codes in CHOICES.items()}
        shown = {
            "market": reader.market,
            "currency": reader.currency,
            "tone": preferences.tone,
            "sun": "on" if preferences.sun else "off",
            "keys": "on" if preferences.keys else "off",
            "help_number": call.number,
            "help_address": call.address,
        }
        super().__init__(*args, **{**kwargs, "initial": {**shown, **units}})
        self.reader = reader
        for kind, codes in CHOICES.items():
            self.fields[kind] = forms.ChoiceField(choices=[(code, UNITS[code].shown) for code in codes], widget=forms.RadioSelect)

    def clean_currency(self) -> str:
        """Return the currency's code of three letters."""
        found = str(self.cleaned_data["currency"]).strip()
        if not re.fullmatch(r"[A-Za-z]{3}", found):
            raise forms.ValidationError(render(say("web.found", found=found, expected=say("web.a_currency")), self.reader))
        return found.upper()

    @property
    def units(self) -> list[Any]:
        """The fields of the units, in order."""
        return [self[kind] for kind in CHOICES]

    def chosen_reader(self) -> Reader:
        """Return how the person wants to read; a changed market brings its own units, except those chosen in the same go."""
        said, before = self.cleaned_data, self.reader
        market = said["market"]
        units = {kind: said[kind] for kind in CHOICES if market == before.market or said[kind] != before.units.get(kind)}
        return replace(before, market=market, units={**PRESETS[market], **units}, currency=said["currency"])

    def chosen_preferences(self) -> Preferences:
        """Return what this browser is to show."""
        said = self.cleaned_data
        return Preferences(tone=said["tone"], sun=said["sun"] == "on", keys=said["keys"] == "on")

"""The one form of the settings."""

from __future__ import annotations

from typing import Any

from django import forms

from twomarks.units import UNITS
from twomarks.web.preferences import TONES, Preferences
from twomarks.words import CHOICES, PRESETS, Reader

__all__ = ["SettingsForm"]

MARKET_WORDS = {"metric": "Metric", "uk": "United Kingdom", "us": "United States", "au": "Australia"}
TONE_WORDS = {"auto": "As this device", "light": "Light", "dark": "Dark"}


class SettingsForm(forms.Form):
    """Market, a unit per quantity, light and keys."""

    market = forms.ChoiceField(choices=[(name, MARKET_WORDS[name]) for name in PRESETS], widget=forms.RadioSelect)
    tone = forms.ChoiceField(choices=[(name, TONE_WORDS[name]) for name in TONES], widget=forms.RadioSelect)
    sun = forms.ChoiceField(choices=[("off", "As chosen above"), ("on", "Full sun")], widget=forms.RadioSelect)
    keys = forms.ChoiceField(choices=[("on", "On"), ("off", "Off")], widget=forms.RadioSelect)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for kind, codes in CHOICES.items():
            self.fields[kind] = forms.ChoiceField(choices=[(code, UNITS[code].shown) for code in codes], widget=forms.RadioSelect)

    @classmethod
    def shown(cls, preferences: Preferences, reader: Reader) -> SettingsForm:
        """Return the form as it stands for this reader."""
        units = {kind: reader.units.get(kind, codes[0]) for kind, codes in CHOICES.items()}
        return cls(
            initial={
                "market": reader.market,
                "tone": preferences.tone,
                "sun": "on" if preferences.sun else "off",
                "keys": "on" if preferences.keys else "off",
                **units,
            }
        )

    @property
    def units(self) -> list[Any]:
        """The fields of the units, in order."""
        return [self[kind] for kind in CHOICES]

    def chosen(self, before: Reader) -> Preferences:
        """Return what was chosen; a changed market brings its own units, except those chosen in the same go."""
        said = self.cleaned_data
        market = said["market"]
        preset = PRESETS[market]
        units = {}
        for kind in CHOICES:
            touched = said[kind] != before.units.get(kind)
            if (market == before.market or touched) and said[kind] != preset.get(kind):
                units[kind] = said[kind]
        return Preferences(market=market, units=units, tone=said["tone"], sun=said["sun"] == "on", keys=said["keys"] == "on")

"""Fields that take what people type, with its unit, and say what was found and what is expected when they refuse it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from django import forms

from twomarks import units
from twomarks.errors import InputError
from twomarks.words import Message, Reader, date_text, message_of, render, say

__all__ = ["DayField", "LevelField", "MoneyField", "QuantityField", "TypedForm", "level_choices"]


class TypedForm(forms.Form):
    """A form that knows its reader and the day; each of its fields says its own faults."""

    def __init__(self, *args: Any, reader: Reader, today: dt.date, **kwargs: Any) -> None:
        self.reader = reader
        self.today = today
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.widget.attrs.setdefault("autocomplete", "off")
            if isinstance(field, _Typed):
                field.reader, field.today = reader, today

    def refuse(self, name: str, error: InputError | Message) -> None:
        """Put a fault under a field."""
        message = error if isinstance(error, Message) else message_of(error)
        self.add_error(name, render(message, self.reader))


class _Typed(forms.CharField):
    reader: Reader
    today: dt.date

    def read(self, text: str) -> Any:
        raise NotImplementedError

    def clean(self, value: Any) -> Any:
        text = str(value or "").strip()
        if not text:
            if self.required:
                raise forms.ValidationError(render(say("web.needed", expected=self.expected()), self.reader))
            return None
        try:
            return self.read(text)
        except InputError as error:
            raise forms.ValidationError(render(message_of(error), self.reader)) from None

    def expected(self) -> Message | str:
        raise NotImplementedError


class QuantityField(_Typed):
    """A quantity of one kind; a bare number is in `default_unit`, or in the reader's unit of the kind."""

    def __init__(self, *, kind: str, example: str, default_unit: str = "", **kwargs: Any) -> None:
        self.kind, self.example, self.default_unit = kind, example, default_unit
        super().__init__(**kwargs)
        self.widget.attrs["inputmode"] = "text"

    def unit(self) -> str:
        """Return the code of the unit that a bare number means."""
        return self.default_unit or self.reader.unit_for(units.KINDS[self.kind].core)

    def read(self, text: str) -> units.Quantity:
        return units.quantity(text, kind=self.kind, market=self.reader.market, decimal=self.reader.decimal, default_unit=self.unit())

    def expected(self) -> Message | str:
        return f"{self.example} {units.UNITS[self.unit()].shown}"


class MoneyField(_Typed):
    """An amount of money in whole minor units with its currency; a bare number is in the reader's own."""

    def read(self, text: str) -> tuple[int, str]:
        return units.minor_of(text, currency=self.reader.currency, decimal=self.reader.decimal)

    def expected(self) -> Message | str:
        return f"31.50 {self.reader.currency}"


class DayField(_Typed):
    """A day that has come already."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.widget = forms.DateInput(attrs={"type": "date"})

    def read(self, text: str) -> dt.date:
        try:
            day = dt.date.fromisoformat(text)
        except ValueError:
            day = dt.date.max
        if day > self.today:
            raise InputError("web.found", found=text, expected=render(self.expected(), self.reader))
        return day

    def expected(self) -> Message:
        return say("web.a_day", example=date_text(self.today, self.reader))


LEVELS: tuple[tuple[int, str], ...] = (
    (-250, "a quarter below"), (0, "lower mark"), (125, "1/8"), (250, "1/4"), (375, "3/8"), (500, "1/2"), (625, "5/8"), (750, "3/4"),
    (875, "7/8"), (1000, "upper mark"), (1250, "a quarter above"),
)  # fmt: skip


def level_choices(*, empty: str) -> list[tuple[str, str]]:
    """Return the readings of a stick to choose from, in thousandths of the span."""
    return [("", empty), *((str(permille), words) for permille, words in LEVELS)]


class LevelField(forms.TypedChoiceField):
    """A reading between the marks of the stick."""

    def __init__(self, *, empty: str = "not read", **kwargs: Any) -> None:
        as_number: Callable[[str], int] = int
        super().__init__(choices=level_choices(empty=empty), coerce=as_number, empty_value=None, **kwargs)

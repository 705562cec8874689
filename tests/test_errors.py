"""Errors carry a key and values, and survive a trip between processes."""

from __future__ import annotations

import pickle

from twomarks.errors import DocumentError, InputError, OutOfRangeError


def test_an_error_says_its_key_and_values_and_no_sentence():
    assert str(InputError("units.bare", found="qt")) == "units.bare: found='qt'"


def test_errors_come_back_whole_from_another_process():
    fault = OutOfRangeError(quantity="kv40", value=1.0, low=2.0, unit="mm2/s")
    error = pickle.loads(pickle.dumps(DocumentError(where="a.toml", faults=[fault])))  # noqa: S301 - our own bytes
    assert isinstance(error, DocumentError)
    assert error.faults[0].values == fault.values

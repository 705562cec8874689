"""Texts that are no document at all are refused in words, whatever is in them."""

from __future__ import annotations

import pytest

from tests.model.texts import BARE, only_fault, vehicle
from twomarks.errors import DocumentError, InputError
from twomarks.model.climate import ClimateRecord
from twomarks.model.loading import DOCUMENTS, LARGEST, load, load_as, load_bytes
from twomarks.words import Reader, message_of, render


def refused(given: str | bytes) -> InputError:
    with pytest.raises(InputError) as caught:
        load_bytes(given, where="f.toml") if isinstance(given, bytes) else load(given, where="f.toml")
    assert render(message_of(caught.value), Reader()).startswith("f.toml")
    return caught.value


@pytest.mark.parametrize(
    "nested",
    [
        "x = " + "[" * 5000 + "]" * 5000,
        "x = " + "{ a = " * 5000 + "1" + " }" * 5000,
        "[" + ".".join(["a"] * 3000) + "]",
        "x = " + "[" * 60 + "]" * 60,
    ],
    ids=["arrays", "inline tables", "dotted", "sixty"],
)
def test_nesting_without_end_is_refused(nested: str) -> None:
    assert refused(vehicle(nested)).key in {"document.too_deep", "document.faults"}


@pytest.mark.parametrize(("data", "line"), [(BARE.encode() + b"\xff\xfe", 6), (BARE.encode("utf-16"), 1), (b"\x80", 1)])
def test_bytes_that_are_no_text_are_named_with_their_line(data: bytes, line: int) -> None:
    error = refused(data)
    assert (error.key, error.values["line"]) == ("document.not_utf8", line)


def test_a_mark_of_byte_order_and_other_line_ends_do_no_harm() -> None:
    wanted = load(BARE, where="")
    assert load_bytes(b"\xef\xbb\xbf" + BARE.encode(), where="") == wanted
    assert load_bytes(BARE.replace("\n", "\r\n").encode(), where="") == wanted


def test_a_huge_text_is_refused_before_it_is_read() -> None:
    assert refused("#" * (LARGEST + 1)).key == "document.too_large"


@pytest.mark.parametrize(
    ("more", "line", "column"),
    [("x =", 6, 4), ("x = 1 2", 6, 7), ('y = "abc', 6, 9), ("\0", 6, 1), ("x = 2026-13-45", 6, 9), ("x = " + "9" * 5000, 6, 5)],
    ids=["no value", "two values", "unended", "nul", "no day", "thousands of digits"],
)
def test_what_is_no_toml_is_named_with_line_and_column(more: str, line: int, column: int) -> None:
    fault = only_fault(BARE + more)
    assert fault.key == "document.syntax"
    assert fault.values["line"] == line
    assert abs(int(str(fault.values["column"])) - column) <= 1


@pytest.mark.parametrize("more", ['fuel = "diesel"', "[engine]\n"])
def test_what_stands_there_twice_is_said_to_stand_there_twice(more: str) -> None:
    assert only_fault(vehicle(more)).key == "document.twice"


@pytest.mark.parametrize(
    "text", ["", "\n", "# nothing\n", 'name = "Sedge"\n', "format = 1\n", "format = { a = 1 }\n", 'format = "twomarks/vehicle/01"\n']
)
def test_a_text_without_a_known_format_names_the_known_ones(text: str) -> None:
    fault = only_fault(text)
    assert (fault.key, fault.values["expected"]) == ("document.format", tuple(DOCUMENTS))


def test_a_misspelt_format_names_the_nearest() -> None:
    assert only_fault(BARE.replace("vehicle", "vehicel")).values["nearest"] == "twomarks/vehicle/1"


@pytest.mark.parametrize("form", ["twomarks/vehicle/1.1", "twomarks/vehicle/1.20", "twomarks/vehicle/2", "twomarks/shelf/3.1"])
def test_a_higher_number_was_written_by_a_newer_twomarks(form: str) -> None:
    fault = only_fault(BARE.replace("twomarks/vehicle/1", form))
    assert (fault.key, fault.values["found"], fault.values["expected"]) == ("document.newer", form, form.rpartition("/")[0] + "/1")


def test_the_first_minor_number_is_known() -> None:
    assert load(BARE.replace("vehicle/1", "vehicle/1.0"), where="") is not None


def test_a_document_of_another_kind_is_told_apart() -> None:
    with pytest.raises(DocumentError) as caught:
        load_as(ClimateRecord, BARE, where="f.toml")
    (fault,) = caught.value.faults
    assert (fault.key, fault.values["expected"]) == ("document.other_kind", "twomarks/climate/1")


def test_a_bare_vehicle_is_a_document() -> None:
    assert getattr(load(BARE, where=""), "bare") is True  # noqa: B009

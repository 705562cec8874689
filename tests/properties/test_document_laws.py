"""Laws of the documents: what is written reads back, what is changed is all that changes, nothing typed crashes."""

from __future__ import annotations

import tomllib
from typing import Any
from uuid import UUID

from hypothesis import given
from hypothesis import strategies as st

from twomarks import packaged
from twomarks.errors import InputError
from twomarks.model.loading import load, load_bytes
from twomarks.model.writing import change_value, new_text, with_id
from twomarks.words import Reader, message_of, render

KEYS = st.from_regex(r"[a-z][a-z0-9]{0,6}(_[a-z0-9]{1,4})?", fullmatch=True)
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=30).filter(lambda text: bool(text.strip()))
SOURCES = st.sampled_from(["handbook: p. 3", "told: B.", "practice", "memory: long ago", "measured: A., 2026-03-02"])
LITRES = st.integers(1, 5000).map(lambda tenths: f"{tenths / 10} L")
SPANS = st.sampled_from(["0.04 L", "9 mL"])
"""Less than every refill of `LITRES`, as a sheet has to have it."""
ALDER = packaged.text("demo/files/alder.toml")
ALDER_TABLES = tomllib.loads(ALDER)


def fact(text: st.SearchStrategy[str]) -> st.SearchStrategy[Any]:
    return text | st.fixed_dictionaries({"value": text}, optional={"source": SOURCES, "confirmed": TEXTS})


def table(**optional: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({}, optional={**optional, "source": SOURCES})


ACCEPTS = table(grades=st.lists(fact(TEXTS), max_size=3), approvals=st.lists(TEXTS, max_size=2), coldest=fact(st.just("-30 C")))
CIRCUITS = table(name=TEXTS, refill=fact(LITRES), between_marks=fact(SPANS), holds=fact(TEXTS), accepts=st.lists(ACCEPTS, max_size=2))
SLOTS = table(numbers=st.lists(fact(TEXTS), max_size=3), sizes=fact(TEXTS), holds=fact(LITRES), retired=st.booleans())
VEHICLES = st.fixed_dictionaries(
    {
        "format": st.just("twomarks/vehicle/1"),
        "name": TEXTS,
        "kind": st.sampled_from(["car", "van", "4x4"]),
        "engine": st.fixed_dictionaries({"fuel": st.sampled_from(["petrol", "diesel"])}, optional={"turbo": st.booleans()}),
    },
    optional={"circuits": st.dictionaries(KEYS, CIRCUITS, max_size=3), "slots": st.dictionaries(KEYS, SLOTS, max_size=3)},
)
LEAVES = st.booleans() | st.integers(-(2**62), 2**62) | st.floats(allow_nan=False) | st.text(max_size=20) | st.dates()
TREES = st.dictionaries(
    st.text(min_size=1, max_size=8),
    st.recursive(
        LEAVES, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3), max_leaves=12
    ),
    max_size=4,
)


@given(VEHICLES)
def test_a_written_vehicle_reads_back_as_it_was(document: dict[str, Any]) -> None:
    text = new_text(document)
    assert tomllib.loads(text) == document
    assert load(text, where="") == load(new_text(tomllib.loads(text)), where="")


@given(TREES)
def test_whatever_is_written_is_toml_that_says_the_same(document: dict[str, Any]) -> None:
    assert tomllib.loads(new_text(document)) == document


@given(st.sampled_from(sorted(ALDER_TABLES["circuits"])), st.sampled_from(["refill", "dry_fill", "between_marks"]), fact(LITRES))
def test_a_change_changes_that_value_and_no_comment(key: str, name: str, value: Any) -> None:
    after = change_value(ALDER, ("circuits", key, name), value)
    wanted = tomllib.loads(ALDER)
    wanted["circuits"][key][name] = value
    assert tomllib.loads(after) == wanted
    assert [line for line in after.splitlines() if line.startswith("#")] == [line for line in ALDER.splitlines() if line.startswith("#")]


@given(VEHICLES, st.uuids(), st.uuids())
def test_an_id_is_given_once(document: dict[str, Any], first: UUID, second: UUID) -> None:
    once = with_id(new_text(document), first)
    assert tomllib.loads(once) == {**document, "id": str(first)}
    assert with_id(once, second) == once


def told(given_text: str | bytes) -> list[str]:
    """Return the sentences in which a text or bytes are refused; none where they are a document."""
    try:
        load_bytes(given_text, where="f.toml") if isinstance(given_text, bytes) else load(given_text, where="f.toml")
    except InputError as error:
        return [render(message_of(one), Reader()) for one in (error, *getattr(error, "faults", ()))]
    return []


@given(
    st.text(max_size=200) | st.text(max_size=80).map(lambda text: ALDER + text) | st.integers(0, len(ALDER)).map(lambda end: ALDER[:end])
)
def test_no_text_ends_in_anything_but_a_document_or_words(text: str) -> None:
    assert all(told(text))


@given(st.binary(max_size=200))
def test_no_bytes_end_in_anything_but_a_document_or_words(data: bytes) -> None:
    assert all(told(data))


@given(VEHICLES, TREES)
def test_whatever_stands_in_the_wrong_place_is_told_in_words(document: dict[str, Any], wrong: dict[str, Any]) -> None:
    assert all(told(new_text({**document, "chassis": wrong})))

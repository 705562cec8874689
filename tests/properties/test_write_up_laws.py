"""Laws of write-ups: whatever is typed is drafted or refused in words, a draft loads, and a procedure reads back as it was."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from twomarks.errors import InputError
from twomarks.model.loading import load_as
from twomarks.model.procedure import Procedure, bare_figures
from twomarks.model.writing import document_text
from twomarks.procedures.library import library, library_keys
from twomarks.procedures.write_ups import DraftedWriteUp, drafted
from twomarks.words import Reader, message_of, render

WORDS = st.sampled_from([
    "drain", "the", "oil", "plug", "sump", "new", "washer", "torque", "to", "25 Nm", "put", "back", "on", "off", "it", "and", "then", ",",
    ".", ";", "repeat", "other", "side", "filter", "pour", "4 litres", "5 quarts", "wait", "ten minutes", "if", "when", "until", "don't",
    "never", "let", "I", "you", "jack", "up", "lower", "wheels", "bleed", "screw", "reverse of removal", "{", "}", "[", "]",
    "{oil.refill}", "hot",
])  # fmt: skip
SPOKEN = st.lists(WORDS, max_size=60).map(" ".join)
LINES = st.lists(SPOKEN | st.text(max_size=40), max_size=6).map("\n".join)
KEYS = st.from_regex(r"[a-z][a-z0-9]{0,6}", fullmatch=True)
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="{}[]"), min_size=1, max_size=40).filter(
    lambda text: bool(text.strip()) and not bare_figures(text)
)


@st.composite
def procedures(draw: st.DrawFn) -> Procedure:
    whole = library()[draw(st.sampled_from(library_keys()))]
    steps = draw(st.lists(st.sampled_from(whole.steps), min_size=1, max_size=12, unique_by=lambda step: step.id))
    words = draw(TEXTS)
    changed = tuple(step.model_copy(update={"words": words, "said": draw(TEXTS), "during": None}) for step in steps)
    return whole.model_copy(update={"title": draw(TEXTS), "key": draw(KEYS), "steps": changed})


def drafted_or_refused(text: str) -> DraftedWriteUp | str:
    try:
        return drafted(text.encode("utf-8"), where="typed")
    except InputError as error:
        return render(message_of(error), Reader())


@given(LINES)
def test_whatever_is_typed_is_drafted_or_refused_in_words(text: str) -> None:
    draft = drafted_or_refused(text)
    if isinstance(draft, str):
        assert draft
        return
    assert load_as(Procedure, draft.text, where="draft") == draft.procedure
    assert all(step.amount is None or step.amount.startswith("{") for one in draft.procedure.steps for step in one.moves)
    assert [one.id for one in draft.procedure.steps] == [one.id for one in draft.steps]


@given(LINES)
def test_a_draft_is_the_same_each_time(text: str) -> None:
    assert drafted_or_refused(text) == drafted_or_refused(text)


@given(procedures())
def test_a_procedure_that_is_written_reads_back_as_it_was(procedure: Procedure) -> None:
    assert load_as(Procedure, document_text(procedure), where="written") == procedure


@given(st.sampled_from(library_keys()))
def test_a_procedure_of_the_library_reads_back_as_it_was(key: str) -> None:
    text = document_text(library()[key])
    assert load_as(Procedure, text, where=key) == library()[key]
    assert document_text(load_as(Procedure, text, where=key)) == text

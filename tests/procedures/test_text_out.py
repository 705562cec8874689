"""A bound procedure as text: what readers check first, figures with their sources, open findings at their step, what was not verified."""

from __future__ import annotations

import pytest

from tests.procedures.mistakes import bound
from twomarks.procedures.bound import Bound
from twomarks.procedures.library import library_procedure
from twomarks.procedures.rehearsal import rehearse
from twomarks.procedures.text_out import FORMS, as_text, contents, used_figures
from twomarks.words import Reader

UK, US = Reader.of("uk"), Reader.of("us")


@pytest.fixture(scope="module")
def oil() -> Bound:
    return bound(library_procedure("engine-oil-spin-on"))


@pytest.fixture(scope="module")
def without_stands() -> Bound:
    whole = library_procedure("engine-oil-spin-on")
    return bound(whole.model_copy(update={"steps": tuple(step for step in whole.steps if step.action != "support")}))


def text(procedure: Bound, reader: Reader = UK, form: str = "plain") -> str:
    return as_text(contents(procedure, rehearse(procedure)), reader, form=form)


def test_it_opens_with_what_to_check_and_closes_with_what_was_not_verified(oil: Bound) -> None:
    headings = [str(block.words.key) for block in contents(oil, rehearse(oil)) if block.kind == "heading"]  # type: ignore[union-attr]
    assert (headings[0], headings[-1]) == ("text_out.check_first", "text_out.unverified")


def test_every_step_stands_once_with_its_number(oil: Bound) -> None:
    steps = [block for block in contents(oil, rehearse(oil)) if block.kind == "step"]
    assert [one.number for one in steps] == list(range(1, len(oil.steps) + 1))


def test_every_figure_says_where_it_is_from_and_whether_it_was_confirmed(oil: Bound) -> None:
    used = used_figures(oil)
    assert {"torque", "refill_with_filter"} <= {getattr(one.fact, "key", "").rpartition("fact_")[2] for one in used}
    written = " ".join(text(oil).split())
    assert written.count("NOT confirmed on this vehicle.") == sum(not one.is_confirmed for one in used)
    assert written.count("; confirmed on this vehicle (") == sum(one.is_confirmed for one in used)


def test_units_and_words_are_the_readers(oil: Bound) -> None:
    british, american = text(oil, UK), text(oil, US)
    assert ("N\u00b7m" in british, "lbf\u00b7ft" in american, "lbf\u00b7ft" in british) == (True, True, False)
    assert ("bonnet" in british, "hood" in american, "bonnet" in american) == (True, True, False)


@pytest.mark.parametrize("form", sorted(FORMS))
def test_an_open_finding_of_harm_stands_before_the_step_it_was_found_at(without_stands: Bound, form: str) -> None:
    found = rehearse(without_stands)
    blocks = contents(without_stands, found)
    serious = [one for one in found.findings if one.grade in ("harm", "damage")]
    assert serious
    assert [block.kind for block in blocks].count("finding") == len(serious)
    for one in serious:
        number = next(at for at, step in enumerate(without_stands.steps, start=1) if step.id == one.step)
        place = next(at for at, block in enumerate(blocks) if block.kind == "step" and block.number == number)
        before = blocks[:place][::-1]
        upto = next(at for at, block in enumerate(before) if block.kind in ("step", "heading"))
        assert "finding" in {block.kind for block in before[:upto]}
    assert text(without_stands, form=form).count("OPEN: ") == len(serious)


def test_markdown_of_another_owners_words_makes_nothing_active(oil: Bound) -> None:
    whole = oil.procedure
    step = whole.steps[0].model_copy(update={"words": "<script>*now*</script> # `rm` [[a]](b) | c"})
    written = text(bound(whole.model_copy(update={"steps": (step, *whole.steps[1:])})), form="markdown")
    assert "\\<script\\>\\*now\\*\\</script\\> \\# \\`rm\\` \\[a\\](b) \\| c" in written


def test_it_never_says_safe(oil: Bound) -> None:
    assert "safe" not in text(oil).casefold().replace("unsafe", "")

"""Plain write-ups read into drafts: the texts that the reader was built with, and each trap of such texts alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmarks.read_write_ups import FOLDER, KEPT_ASIDE, score, summed, write_ups
from tests.procedures.mistakes import bound
from twomarks.errors import InputError
from twomarks.procedures.rehearsal import rehearse
from twomarks.procedures.write_ups import DraftedWriteUp, drafted
from twomarks.procedures.write_ups.draft import MOST_STEPS
from twomarks.procedures.write_ups.text import LARGEST, MOST_SENTENCES
from twomarks.words import Reader, message_of, render

TEXTS = write_ups(FOLDER)


def draft(text: str, market: str | None = None) -> DraftedWriteUp:
    return drafted(text.encode("utf-8"), where="typed", market=market)


def actions(text: str) -> list[tuple[str, str]]:
    return [(move.action, move.thing) for move in draft(text).read.moves]


def asked(text: str, market: str | None = None) -> list[str]:
    return [one.what.key.removeprefix("write_up.ask_") for one in draft(text, market).read.questions]


def opened(text: str) -> list[str]:
    return [one.reason.key.removeprefix("write_up.open_") for one in draft(text).read.unplaced]


def fits(text: str) -> list[tuple[str, bool]]:
    return [(move.thing, move.placed.new) for move in draft(text).read.moves if move.action in ("fit", "close")]


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.stem)
def test_the_write_ups_it_was_built_with_are_read(path: Path) -> None:
    found = score(path)
    assert found.wrong == ()
    assert len(found.missed) <= 1
    assert found.figures_found == found.figures


def test_most_of_the_write_ups_kept_aside_is_read() -> None:
    whole = summed(score(path) for path in write_ups(KEPT_ASIDE))
    assert whole["write_ups"] >= 10
    assert whole["share_found"] >= 0.80


def test_there_are_twelve_of_them_in_every_style() -> None:
    assert len(TEXTS) >= 12
    assert len({score(path).style for path in TEXTS}) == len(TEXTS)


def test_a_consumable_that_is_replaced_is_new_and_a_fitting_is_put_back() -> None:
    text = "Undo the sump plug and drain the oil. Replace the oil filter. Replace the sump plug. Replace the filler cap."
    assert fits(text) == [("filter", True), ("drain_plug", False), ("filler", False)]
    assert asked("Replace the sump plug.") == ["put_back"]


def test_tightened_without_a_figure_is_not_tightened_to_one() -> None:
    step = draft("Fit the sump plug. Tighten it good and tight.").procedure.steps[1]
    assert (step.action, step.manner, step.amount) == ("tighten", "", None)
    assert asked("Tighten the sump plug good and tight.") == ["tight"]


def test_a_torque_becomes_a_reference_and_a_figure_to_be_kept() -> None:
    made = draft("Tighten the sump plug to 25 Nm.")
    step = made.procedure.steps[0]
    assert (step.manner, step.amount, step.said) == ("to figure", "{drain_plug.torque}", "Tighten the sump plug to 25 Nm.")
    assert step.words == "Tighten the sump plug to {drain_plug.torque}."
    assert [(one.typed.text, one.path) for one in made.figures] == [("25 Nm", "fastenings.engine_oil_drain.torque")]


def test_changing_the_oil_drains_and_pours_and_asks_about_the_filter() -> None:
    assert actions("Change the engine oil.") == [("drain", "oil"), ("pour", "oil")]
    assert asked("Change the engine oil.") == ["change"]


def test_the_reverse_of_removal_claims_only_what_was_off() -> None:
    made = draft("Take off the undertray. Remove the oil filter. Refitting is the reverse of removal.")
    claimed = [(move.action, move.thing, move.placed.new) for move in made.read.moves if move.claimed]
    assert claimed == [("fit", "filter", False), ("fit", "undertray", False)]
    assert [one.what.key for one in made.read.questions] == ["write_up.ask_reverse"]


def test_a_quart_is_read_by_market_or_told_to_be_ambiguous() -> None:
    text = "Pour in 5 quarts of engine oil."
    assert asked(text) == ["market"]
    assert asked(text, "us") == ["market_taken"]
    assert draft(text).figures[0].typed.value is None
    assert (draft(text, "us").figures[0].typed.value, draft(text, "uk").figures[0].typed.unit) == (5.0, "imp qt")


def test_what_is_done_while_it_drains_stands_in_that_wait() -> None:
    steps = draft("Undo the sump plug and let the oil drain. While it drains, remove the oil filter.").procedure.steps
    assert (steps[0].hands_free, steps[1].during) == (False, "step-1")


def test_the_same_on_the_other_side_is_cloned_back_to_the_raising() -> None:
    made = draft(
        "Jack up the car and put it on axle stands. Take the wheel off. Take the old pads out. New pads in. Same on the other side."
    )
    assert [(move.action, move.thing) for move in made.read.moves if move.repeats] == [
        ("remove", "wheels"),
        ("remove", "pads"),
        ("fit", "pads"),
    ]
    assert [one.what.key for one in made.read.questions] == ["write_up.ask_again"]


def test_a_side_of_the_driver_and_a_hot_oil_are_asked_about() -> None:
    assert asked("Jack up the driver's side.") == ["side"]
    assert asked("Drain the engine oil while it is hot.") == ["hot"]


def test_what_must_not_be_done_is_kept_as_a_caution_and_is_no_action() -> None:
    made = draft("Never go under a car held by a jack. Remove the sump plug.")
    assert [(move.action, move.thing) for move in made.read.moves] == [("remove", "drain_plug")]
    assert [(one.signal, one.words) for one in made.procedure.steps[0].caution] == [("caution", "Never go under a car held by a jack.")]


def test_what_is_not_understood_stays_open_and_is_never_guessed() -> None:
    made = draft("Remove the sump plug. Waggle the oil filter. Tighten the oil.")
    assert [(one.action, one.said) for one in made.procedure.steps[1:]] == [
        ("undecided", "Waggle the oil filter."), ("undecided", "Tighten the oil."),
    ]  # fmt: skip
    assert opened("Waggle the oil filter. Tighten the oil.") == ["verb", "thing"]


def test_a_condition_that_a_draft_cannot_carry_stays_open() -> None:
    assert actions("Check the dipstick. If it is low, add oil.") == [("measure", "dipstick")]
    assert opened("Check the dipstick. If it is low, add oil.") == ["condition"]


def test_asides_are_kept_apart_and_nothing_of_them_is_done() -> None:
    made = draft("Remove the sump plug. My neighbour drained his once. The oil runs out fast.")
    assert [one.text for one in made.read.asides] == ["My neighbour drained his once.", "The oil runs out fast."]


def test_a_thing_named_after_the_fact_is_drafted_and_its_place_asked_about() -> None:
    text = "Remove the sump plug. Oh, and gloves, I should have said gloves."
    assert actions(text)[-1] == ("wear", "gloves")
    assert asked(text) == ["order"]


def test_market_words_mean_the_same_things() -> None:
    for words in (
        "Open the bonnet, undo the wheel nuts, put it on axle stands.",
        "Open the hood, undo the lug nuts, put it on jack stands.",
    ):
        assert actions(words) == [("open", "bonnet"), ("loosen", "wheel_nuts"), ("support", "stands")]


def test_the_rehearsal_of_a_draft_says_what_the_write_up_never_says() -> None:
    text = (FOLDER / "oil-terse-uk.txt").read_bytes()
    found = {one.rule for one in rehearse(bound(drafted(text, where="terse").procedure)).findings}
    assert {"chocks", "brake", "gear", "shaken", "fresh_air", "ring_oiled", "gloves", "waste_room"} <= found


def test_a_draft_with_an_open_sentence_tells_it_in_the_rehearsal() -> None:
    made = draft("Remove the sump plug. Waggle the oil filter.")
    assert ("undecided", "step-2") in {(one.rule, one.step) for one in rehearse(bound(made.procedure)).findings}


@pytest.mark.parametrize(
    ("data", "key", "line"),
    [
        (b"x" * (LARGEST + 1), "write_up.too_large", None),
        (b"Drain the oil.\nThen \xff.", "write_up.not_utf8", 2),
        (b"Drain the oil.\nThen\x07 wait.", "write_up.control", 2),
        ("Drain the \u202eoil.".encode(), "write_up.control", 1),
        (b" \n\n", "write_up.empty", None),
        (b"The sky was blue.", "write_up.nothing", None),
        (b"Wait.\n" * (MOST_SENTENCES + 1), "write_up.too_many", MOST_SENTENCES + 1),
        (b"Wait.\n" * (MOST_STEPS + 1), "write_up.too_long", MOST_STEPS + 1),
    ],
    ids=["large", "bytes", "control", "turning", "empty", "nothing", "sentences", "steps"],
)
def test_a_text_that_cannot_be_read_is_refused_with_its_line(data: bytes, key: str, line: int | None) -> None:
    with pytest.raises(InputError) as caught:
        drafted(data, where="typed")
    assert (caught.value.key, caught.value.values.get("line")) == (key, line)
    assert render(message_of(caught.value), Reader())

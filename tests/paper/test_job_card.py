"""The job card on paper: nothing of the card is lost, and the file is what readers and archives ask for."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace

import pytest
from pypdf import PdfReader

from tests.paper.reading import squeezed, text_of, texts_of_figures
from tests.sample_card import said, sample_card
from twomarks.errors import InputError
from twomarks.paper import typesetting
from twomarks.paper.figures import clock_text
from twomarks.paper.job_card import job_card_pdf
from twomarks.paper.typesetting import SheetError
from twomarks.planning.card import CardPart, CardWaste, JobCard, Stub
from twomarks.words import Figure, Reader, Source, Wording, figure_text, message_of, render, say, source_text

MARKETS = ("metric", "us", "uk", "au")
MM = 72 / 25.4


@pytest.fixture(scope="module")
def printed() -> Callable[[str], bytes]:
    made = {market: job_card_pdf(sample_card(), Reader.of(market)) for market in MARKETS}
    return made.__getitem__


@pytest.mark.parametrize("market", MARKETS)
def test_every_figure_of_the_card_is_printed_in_the_readers_units(printed: Callable[[str], bytes], market: str) -> None:
    reader = Reader.of(market)
    text = text_of(printed(market))
    wanted = texts_of_figures(sample_card(), reader)
    assert len(wanted) > 15
    assert sorted(figure for figure in wanted if figure not in text) == []


@pytest.mark.parametrize(
    ("market", "amounts"),
    [
        ("metric", ("1.1 L", "0.85 L", "0.6 L", "0.35 L", "nothing", "take out 0.3 L")),
        ("us", ("1.16 US qt", "0.9 US qt", "0.63 US qt", "0.37 US qt", "nothing", "take out 0.32 US qt")),
    ],
)
def test_the_pour_table_says_what_to_add_and_what_to_take_out(
    printed: Callable[[str], bytes], market: str, amounts: tuple[str, ...]
) -> None:
    text = text_of(printed(market))
    table = text[text.index("The stick reads") :]
    places = [table.index(amount) for amount in reversed(amounts)]
    assert places == sorted(places)


def test_the_words_of_every_step_stand_in_order(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    reader = Reader.of("metric")
    places = [text.index(squeezed(render(step.words, reader))) for step in sample_card().steps]
    assert places == sorted(places)


def test_the_pour_plan_stands_before_its_pour_and_the_table_after_the_run_behind_it() -> None:
    card = sample_card()
    assert card.pour is not None
    reader = Reader.of("metric")
    two = replace(card, pour=replace(card.pour, before_start=card.pour.rows))
    text = text_of(job_card_pdf(two, reader))
    pour = squeezed(render(next(step.words for step in card.steps if step.action == "pour"), reader))
    before, after = (squeezed(render(say(f"paper.table_{name}"), reader)) for name in ("before", "after"))
    assert text.index(before) < text.index(pour) < text.index(after)


@pytest.mark.parametrize("market", MARKETS)
def test_every_stub_stands_at_its_step_with_its_source(printed: Callable[[str], bytes], market: str) -> None:
    text, reader = text_of(printed(market)), Reader.of(market)
    starts = [text.index(squeezed(render(step.words, reader))) for step in sample_card().steps]
    missing = []
    for step, start, end in zip(sample_card().steps, starts, [*starts[1:], len(text)], strict=True):
        part = text[start:end]
        for stub in step.stubs:
            wanted = [render(stub.label, reader)]
            if stub.figure is not None:
                wanted += [figure_text(stub.figure, reader), source_text(stub.figure.source, reader) if stub.figure.source else ""]
            missing += [(step.number, words) for words in wanted if squeezed(words).replace(" ", "") not in part.replace(" ", "")]
    assert missing == []


def test_a_caution_stands_before_the_words_of_its_step(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    assert text.index("DANGER Exhaust gas") < text.index("Stand the vehicle outdoors")
    for word in ("DANGER", "WARNING", "CAUTION", "NOTICE"):
        assert word in text


def test_a_gate_stands_before_its_step_and_after_the_one_before(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    assert text.index("Open the bonnet") < text.index("Stop. Before the first undo") < text.index("Wipe around the plug")
    assert text.index("Write down the odometer") < text.index("Stop. At the end")


def test_a_finding_stands_at_its_step_and_one_set_aside_carries_its_reason(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    ground = text.index("Open: can hurt somebody, not shown")
    assert text.index("then drive the front wheels") < ground < text.index("Set the empty pan")
    assert "Reason: My brother is in the house all afternoon." in text
    assert text.index("Open: costs doing it again, not shown") < text.index("What you need")


def test_a_finding_that_only_the_card_holds_stands_at_the_step_it_names() -> None:
    card = sample_card()
    moved = replace(
        card,
        steps=tuple(replace(step, findings=()) for step in card.steps),
        findings=tuple(finding for step in card.steps for finding in step.findings),
    )
    text = text_of(job_card_pdf(moved, Reader.of("metric")))
    assert text.index("then drive the front wheels") < text.index("Open: can hurt somebody") < text.index("Set the empty pan")


def test_terms_and_paper_are_those_of_the_market(printed: Callable[[str], bytes]) -> None:
    assert "drain plug" in text_of(printed("us"))
    assert "sump plug" in text_of(printed("uk"))
    sizes = {
        market: tuple(round(float(side)) for side in PdfReader(io.BytesIO(printed(market))).pages[0].mediabox.upper_right)
        for market in MARKETS
    }
    assert sizes == {"us": (612, 792)} | dict.fromkeys(("metric", "uk", "au"), (round(210 * MM), round(297 * MM)))


def test_a_figure_that_was_told_is_marked_and_listed_before_the_first_undo(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    assert text.index("Step 8, washer: 16 × 22") < text.index("Stop. Before the first undo")
    assert text.count("not confirmed for your vehicle") == 2


def test_a_confirmed_figure_is_not_in_doubt() -> None:
    card = sample_card()
    sure = Figure("16 × 22", "", Source("told", "another owner"), "A., 2026-11-01")
    steps = tuple(
        replace(step, stubs=tuple(replace(stub, figure=sure) if stub.fact == "slots.drain_washer.sizes" else stub for stub in step.stubs))
        for step in card.steps
    )
    text = text_of(job_card_pdf(replace(card, steps=steps), Reader.of("metric")))
    assert "confirmed: A., 2026-11-01" in text
    assert "not confirmed for your vehicle" not in text


def test_a_missing_figure_stays_an_empty_box_and_is_counted(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    assert "torque of the screws" in text
    assert "1 told, 1 empty" in text


def test_every_page_has_its_title_block(printed: Callable[[str], bytes]) -> None:
    pages = PdfReader(io.BytesIO(printed("metric"))).pages
    for number, page in enumerate(pages, 1):
        text = squeezed(page.extract_text())
        for part in ("Alder, 148 210 km", "28 November 2026", "7f3b9c52", "Alder 3b0c9f6e", f"{number} of {len(pages)}"):
            assert part in text


def test_follow_ups_say_the_day_and_the_distance(printed: Callable[[str], bytes]) -> None:
    metric, us = text_of(printed("metric")), text_of(printed("us"))
    assert "on 30 November 2026" in metric
    assert "at 148 710 km" in metric
    assert "at 92 404 mi" in us


def test_the_tag_is_printed_only_where_it_is_wanted() -> None:
    reader = Reader.of("metric")
    with_tag, without = text_of(job_card_pdf(sample_card(), reader)), text_of(job_card_pdf(sample_card(hang_tag=False), reader))
    assert "No oil: do not start" in with_tag
    fuel = replace(sample_card(), waste=(CardWaste(stream="fuel", name=say("procedure.waste_fuel")),))
    assert "Fuel open: do not start" in text_of(job_card_pdf(fuel, reader))
    assert "Do not start, do not move" in text_of(job_card_pdf(replace(sample_card(), waste=()), reader))
    assert "No oil: do not start" not in without


def test_the_file_is_tagged_and_says_its_standards_language_and_title(printed: Callable[[str], bytes]) -> None:
    pdf = printed("uk")
    file = PdfReader(io.BytesIO(pdf))
    root = file.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en-GB"
    assert file.metadata is not None
    assert file.metadata.title == "Engine oil and filter: Alder, car, at 92\u202f093\u00a0mi"
    about = root["/Metadata"].get_data().decode()
    assert "pdfuaid:part>1<" in about
    assert "pdfaid:part>2<" in about
    assert "pdfaid:conformance>A<" in about


def test_the_same_card_gives_the_same_bytes(printed: Callable[[str], bytes]) -> None:
    assert job_card_pdf(sample_card(), Reader.of("us")) == printed("us")


def test_one_card_does_not_leak_into_the_next(printed: Callable[[str], bytes]) -> None:
    other = replace(sample_card(), vehicle="Hazel", title="Another job")
    text = text_of(job_card_pdf(other, Reader.of("metric")))
    assert "Alder, 148" not in text
    assert "Engine oil and filter" not in text


def test_only_the_shipped_faces_are_used(printed: Callable[[str], bytes]) -> None:
    names = {
        str(font.get_object()["/BaseFont"]).partition("+")[2]
        for page in PdfReader(io.BytesIO(printed("metric"))).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert names
    assert all(name.startswith("AtkinsonHyperlegibleNext") for name in names)


def _with_words(card: JobCard, words: str) -> JobCard:
    return replace(card, steps=(replace(card.steps[0], words=Wording(words)), *card.steps[1:]))


@pytest.mark.parametrize("words", ["#pagebreak() [[+ #x]] $a$ *b* _c_ `d` @e <f> \\g // h", "= Not a heading", "- no list + 1. 38 N·m"])
def test_words_are_printed_as_they_stand_whatever_signs_they_hold(words: str) -> None:
    shown = words.replace("[[", "[").replace("]]", "]")
    assert shown in text_of(job_card_pdf(_with_words(sample_card(), words), Reader.of("metric")))


def test_a_sign_that_cannot_be_printed_is_refused_in_words() -> None:
    with pytest.raises(InputError) as refused:
        job_card_pdf(_with_words(sample_card(), "Turn the \u0436 valve by \u4e2d."), Reader.of("metric"))
    assert refused.value.key == "paper.sign"
    told = render(message_of(refused.value), Reader.of("metric"))
    assert "\u0436 (U+0436), \u4e2d (U+4E2D)" in told
    assert "Turn the \u0436 valve" in told


@pytest.mark.parametrize(
    ("typed", "shown"), [("\u2103", "°C"), ("e\u0301", "é"), ("M16\u20113", "M16-3"), ("⅔ turn →", "⅔ turn →"), ("1\u2033", '1"')]
)
def test_a_sign_with_an_equal_in_the_face_is_printed_as_that(typed: str, shown: str) -> None:
    assert f"so {shown} it" in text_of(job_card_pdf(_with_words(sample_card(), f"so {typed} it"), Reader.of("metric")))


def test_a_bare_card_is_printed_too() -> None:
    card = sample_card()
    bare = JobCard(id=card.id, title="Walk-round", vehicle="Alder", vehicle_kind="tractor", day=card.day, steps=(card.steps[1],))
    text = text_of(job_card_pdf(bare, Reader.of("metric")))
    assert "Walk-round" in text
    assert "tractor" in text
    assert "poured in all" not in text


def test_a_long_card_and_a_long_step_lose_nothing() -> None:
    card = sample_card()
    long = "Unmoved " * 900
    steps = tuple(replace(card.steps[2], id=f"x{n}", number=n, step=f"x{n}", words=Wording(f"Turn number {n}.")) for n in range(1, 70))
    steps += (replace(card.steps[9], id="y", number=70, words=Wording(long)),)
    text = text_of(job_card_pdf(replace(card, steps=steps, gates=()), Reader.of("metric")))
    assert all(f"Turn number {n}." in text for n in range(1, 70))
    assert text.count("Unmoved") == 900


def test_a_long_figure_and_a_long_part_number_are_printed_whole() -> None:
    card = sample_card()
    number = Figure("EX-F 4471/0098-A-REV-12345678901234567890", "", Source("supplier", "parts counter"))
    stub = Stub(
        label=said("the drive, as stamped on it"),
        figure=Figure("twelve-point 1/2 in square, long reach", "", Source("stamped", "on the head")),
    )
    changed = replace(
        card,
        parts=(CardPart(slot="oil_filter", name=Wording("oil filter"), number=number),),
        steps=(replace(card.steps[0], stubs=(stub,)),),
    )
    text = text_of(job_card_pdf(changed, Reader.of("metric")))
    assert str(number.value).replace(" ", "") in text.replace(" ", "")
    assert "twelve-point 1/2 in square, long reach" in text


def test_a_warning_of_the_typesetter_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    import typst

    class Warned:
        message = "unknown font family"

    monkeypatch.setattr(typst, "compile_with_warnings", lambda *_, **__: (b"", [Warned()]))
    with pytest.raises(SheetError) as refused:
        typesetting.pdf("job_card", {}, day=sample_card().day)
    assert refused.value.key == "paper.warned"
    assert "unknown font family" in render(message_of(refused.value), Reader.of("metric"))


def test_a_sheet_that_cannot_be_set_is_refused_by_key() -> None:
    with pytest.raises(SheetError) as refused:
        typesetting.pdf("job_card", {"title": "nothing else"}, day=sample_card().day)
    assert refused.value.key == "paper.refused"


@pytest.mark.parametrize(("minutes", "shown"), [(0.5, "30 s"), (1.0, "1 min"), (59.6, "1 h 0 min"), (76.0, "1 h 16 min")])
def test_a_length_of_time_is_printed_in_its_own_size(minutes: float, shown: str) -> None:
    assert clock_text(minutes, Reader.of("metric")) == shown


def test_the_pour_plan_floats_and_loses_nothing_beside_its_gate(printed: Callable[[str], bytes]) -> None:
    text = text_of(printed("metric"))
    assert "Stop. Before the first pour" in text
    assert (text.count("The stick reads"), text.count("Draw the level you read")) == (1, 1)

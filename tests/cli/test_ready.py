"""`ready`: what is lacking stops the work, what nobody said is asked, and an answer settles it."""

from __future__ import annotations

from typing import Any

from tests.cli.shell import Done, Shell, kept_in


def questions(done: Done) -> dict[str, str]:
    items: list[dict[str, Any]] = done.answer["vehicles"][0]["readiness"]["items"]
    return {item["question"]: item["state"] for item in items}


def test_not_ready_and_not_known_leave_with_one(shell: Shell) -> None:
    done = shell.run("ready", "--vehicle", "Alder", "--json")
    assert (done.code, done.answer["state"]) == (1, "not ready")
    assert questions(done)["part:oil_filter"] == "have not"
    assert questions(done)["tool:funnel"] == "not known"


def test_the_walk_round_of_a_bare_vehicle_is_judged_too(shell: Shell) -> None:
    done = shell.run("ready", "--vehicle", "Bare", "--json")
    assert (done.code, done.answer["state"]) == (1, "not known")
    assert set(questions(done).values()) == {"not known"}


def test_answers_settle_it_and_everything_at_hand_leaves_with_nought(writing: Shell) -> None:
    asked = questions(writing.run("ready", "--vehicle", "Bare", "--json"))
    words = [word for question in asked for word in ("--have", question)]
    done = writing.run("ready", "--vehicle", "Bare", *words, "--json")
    assert (done.code, done.answer["state"], done.answer["answers_kept"]) == (0, "ready", len(asked))
    again = writing.run("ready", "--vehicle", "Bare", "--have-not", next(iter(asked)))
    assert (again.code, "Not ready" in again.said) == (1, True)


def test_an_unknown_question_is_refused_with_the_nearest_and_nothing_is_kept(shell: Shell) -> None:
    before = kept_in(shell.home)
    done = shell.run("ready", "--vehicle", "Alder", "--have", "tool:funnel", "--have", "tool:funel")
    assert (done.code, done.out) == (2, "")
    assert 'did you mean "tool:funnel"?' in done.err
    assert kept_in(shell.home) == before


def test_one_question_answered_in_two_ways_is_refused(shell: Shell) -> None:
    before = kept_in(shell.home)
    done = shell.run("ready", "--vehicle", "Alder", "--have", "tool:funnel", "--have-not", "tool:funnel")
    assert done.code == 2
    assert "two ways" in done.err
    assert kept_in(shell.home) == before


def test_left_out_all_vehicles_are_judged(shell: Shell) -> None:
    assert [row["vehicle"] for row in shell.run("ready", "--json").answer["vehicles"]] == ["Alder", "Bare"]


def test_whether_it_is_raised_is_answered_like_any_other_question_and_shortens_the_work(writing: Shell) -> None:
    raised = writing.run("ready", "--vehicle", "Alder", "--have", "choice:raised:Alder", "--json")
    assert "tool:axle_stands" in questions(raised)
    low = writing.run("ready", "--vehicle", "Alder", "--have-not", "choice:raised:Alder", "--json")
    assert not {"tool:axle_stands", "tool:jack"} & set(questions(low))


def test_a_choice_is_asked_until_somebody_has_made_it(writing: Shell) -> None:
    question = "choice:undertray:Alder"
    assert question in writing.run("ready", "--vehicle", "Alder").said
    assert question not in writing.run("ready", "--vehicle", "Alder", "--have-not", question).said

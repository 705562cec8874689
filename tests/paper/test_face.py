"""The faces on paper hold every sign that the sentences, the units and the work need."""

from __future__ import annotations

import pytest

from twomarks import packaged
from twomarks.paper.face import FACES, missing_signs, printable, signs
from twomarks.units import UNITS
from twomarks.words import keys, sentence

WANTED = "·×÷−±≤≥≈°²³½¼¾⅓⅔⅛⅜⅝⅞→←↑↓✓µμΔΩ–—‘’“”…€£$¥\u00a0\u202f"


def test_every_sign_of_the_work_is_in_both_faces() -> None:
    assert missing_signs(WANTED) == ()


LETTERS = {
    "western": "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝßŒŸĀ" + "àáâãäåæçèéêëìíîïñòóôõöøùúûüýÿœ¡¿«»",
    "nordic": "ÅÄÖÆØÐÞåäöæøðþ",
    "central": "ĄĆĘŁŃÓŚŹŻąćęłńóśźżČĎĚŇŘŠŤŮŽčďěňřšťůžĹĽŔĺľŕŐŰőűĐđ",
    "baltic, romanian, turkish": "ĀĒĢĪĶĻŅŪāēģīķļņūĖĮŲėįųĂĂȘȚășțĞİŞğış",
    "welsh": "ŴŶŵŷẀẂẄẁẃẅ",
}


@pytest.mark.parametrize("letters", LETTERS.values(), ids=LETTERS)
def test_the_letters_of_european_languages_are_in_both_faces(letters: str) -> None:
    assert missing_signs(letters) == ()


def test_every_sentence_and_unit_can_be_printed() -> None:
    said = {key: sentence(key) for key in keys()} | {f"unit {code}": unit.shown for code, unit in UNITS.items()}
    assert {key: missing_signs(printable(text)) for key, text in said.items() if missing_signs(printable(text))} == {}


def test_a_foreign_script_is_named_as_missing() -> None:
    assert missing_signs("a\u0436b\u4e2d\u0436") == ("\u0436", "\u4e2d")
    assert "\u0436" not in signs()


@pytest.mark.parametrize("path", FACES)
def test_a_face_is_small_and_its_licence_lies_beside_it(path: str) -> None:
    assert len(packaged.data(path)) < 60_000
    assert "SIL OPEN FONT LICENSE Version 1.1" in packaged.text("paper/fonts/OFL.txt")

"""What was typed becomes arguments: units, markets and faults are told in full before anything is reckoned."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from twomarks.cli.reckonings.calculation import Asked, Calculation, Given, Reckoned, given_for
from twomarks.errors import DocumentError, InputError

ON = dt.date(2026, 11, 25)


def _sum(given: Given) -> Reckoned:
    return Reckoned((), {"sum_l": sum(given.numbers("volume"))}, ())


POURED = Calculation(
    "poured",
    _sum,
    (
        Asked("volume", "volume", "4.3 L", many=True),
        Asked("times", "number", needed=False),
        Asked("glycol", "choice", default="ethylene", choices=("ethylene", "propylene")),
        Asked("warm", "yes or no", needed=False),
        Asked("day", "day", needed=False),
        Asked("record", "file", needed=False),
    ),
)


def given(*words: str, market: str | None = "metric") -> Given:
    return given_for(POURED, words, market=market, decimal=".", on=ON)


def test_every_value_reaches_the_calculation_in_its_core_unit(tmp_path: Path) -> None:
    (tmp_path / "record").write_text("day,tmin\n", "utf-8")
    read = given("volume=1 L", "volume=500 mL", "times=1/2", "glycol=Propylene", "warm=no", "day=2026-01-31", f"record={tmp_path}/record")
    assert read.numbers("volume") == (1.0, 0.5)
    assert read.number("times") == 0.5
    assert read.text("glycol") == "propylene"
    assert read.flag("warm") is False
    assert read.day("day") == dt.date(2026, 1, 31)
    assert read.text("record") == "day,tmin\n"
    assert POURED.reckon(read).results == {"sum_l": 1.5}


def test_what_is_left_out_has_its_default_or_is_absent() -> None:
    read = given("volume=1 L")
    assert read.text("glycol") == "ethylene"
    assert read.optional("times") is read.flag("warm") is read.day("day") is None


def test_a_bare_quart_is_read_by_market_and_refused_without_one() -> None:
    assert given("volume=7 qt", market="us").number("volume") == pytest.approx(6.62447, abs=1e-5)
    assert given("volume=7 qt", market="uk").number("volume") == pytest.approx(7.95566, abs=1e-5)
    with pytest.raises(InputError, match=r"reckon\.bare") as refused:
        given("volume=7 qt")
    assert refused.value.values["expected"] == ("7\u00a0imp qt = 7.96\u00a0L", "7\u00a0US qt = 6.62\u00a0L")


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("volume", "reckon.no_equals"),
        ("volum=1 L", "reckon.key"),
        ("glycol=glycerol", "reckon.choice"),
        ("warm=perhaps", "reckon.choice"),
        ("day=31.1.2026", "cli.date"),
        ("times=3 L", "reckon.no_unit"),
        ("times=", "reckon.empty"),
        ("volume=3 km", "units.kind"),
        ("volume=nan L", "number.none"),
        ("record=/no/such/file", "import.file_missing"),
    ],
)
def test_a_word_that_cannot_be_used_is_refused_by_its_key(word: str, key: str) -> None:
    with pytest.raises(InputError) as refused:
        given("volume=1 L", word)
    assert refused.value.key == key


def test_all_faults_come_at_once() -> None:
    with pytest.raises(DocumentError) as refused:
        given("times=1", "times=2", "glicol=ethylene", "day=soon")
    assert [fault.key for fault in refused.value.faults] == ["reckon.twice", "reckon.key", "cli.date", "reckon.missing"]
    assert refused.value.faults[1].values["nearest"] == "glycol"


def test_a_spelling_that_one_market_alone_reads_is_not_said_to_differ() -> None:
    torque = Calculation("torque", _sum, (Asked("torque", "torque", "18 lbf ft"),))
    with pytest.raises(InputError, match=r"reckon\.bare_one") as refused:
        given_for(torque, ("torque=18 ft lb",), market="metric", decimal=".", on=ON)
    assert refused.value.values["example"] == "18\u00a0lbf·ft = 24.4\u00a0N·m"


def test_a_bare_ton_is_refused_with_what_each_ton_weighs() -> None:
    load = Calculation("load", _sum, (Asked("load", "mass", "2 kg"),))
    with pytest.raises(InputError, match=r"reckon\.bare") as refused:
        given_for(load, ("load=2 tons",), market="us", decimal=".", on=ON)
    assert "1814.4\u00a0kg (US ton)" in refused.value.values["expected"]


def test_an_echo_tells_small_amounts_apart() -> None:
    said = [given(f"volume=1 {market} fl oz").typed[0].in_both_units.replace("\u00a0", " ") for market in ("US", "imp")]
    assert said == ["1 US fl oz = 0.0296 L", "1 imp fl oz = 0.0284 L"]

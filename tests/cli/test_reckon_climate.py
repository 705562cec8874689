"""`twomarks reckon climate`: documents and plain tables, hemispheres, faults of a record by name."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path

import pytest

from tests.cli.asked import answered, answered_json, told
from twomarks import packaged
from twomarks.errors import DocumentError, InputError, OutOfRangeError


def table(folder: Path, *, years: int = 17, southern: bool = False, changed: dict[int, str] | None = None, header: str = "") -> str:
    """Write an invented record and return the word that names it."""
    rows = [header or "day,tmin,tmax"]
    for at in range(365 * years):
        day = dt.date(2000, 1, 1) + dt.timedelta(days=at)
        wave = math.cos(2 * math.pi * (day.timetuple().tm_yday - (197 if southern else 15)) / 365.25)
        low = 5.0 - 15.0 * wave - 2.0 * math.sin(day.year * 1.7)
        rows.append((changed or {}).get(at, f"{day},{low:.1f},{low + 9.0:.1f}"))
    path = folder / "record.csv"
    path.write_text("\n".join(rows) + "\n", "utf-8")
    return f"record={path}"


def test_the_packaged_record_answers_with_its_interval_and_says_how(tmp_path: Path):
    (tmp_path / "place.toml").write_text(packaged.text("demo/files/place.toml"), "utf-8")
    found = answered("climate", f"record={tmp_path / 'place.toml'}")
    assert found.results["coldest_start_c"] == pytest.approx(-32.3, abs=0.05)
    assert found.results["coldest_start_low_c"] < found.results["coldest_start_c"] < found.results["coldest_start_high_c"]
    assert (found.results["coldest_start_method"], found.results["coldest_start_seasons"]) == ("extreme values", 36)
    assert "once in 10 years: −32.3 °C" in told(found)


def test_only_the_days_until_the_next_change_count(tmp_path: Path):
    word = table(tmp_path)
    year, summer = answered("climate", word), answered("climate", word, "from=2026-05-01", "to=2026-09-30")
    assert summer.results["coldest_start_c"] > year.results["coldest_start_c"] + 10.0


def test_the_hemisphere_is_given_or_read_off_the_record(tmp_path: Path):
    word = table(tmp_path, southern=True)
    found = answered("climate", word)
    assert found.results["southern"] is True
    assert found.results == answered("climate", word, "hemisphere=south").results
    assert "south of the equator" in told(found)


def test_a_short_record_says_that_it_answers_by_percentile(tmp_path: Path):
    found = answered("climate", table(tmp_path, years=4))
    assert found.results["coldest_start_method"] == "percentile"
    assert found.results["coldest_start_once_in_years"] is None
    assert "no confidence interval" in told(found)


def test_the_books_on_extremes_are_named_only_where_they_were_used(tmp_path: Path):
    assert "coles_2001" in answered("climate", table(tmp_path)).sources
    assert answered("climate", table(tmp_path, years=4)).sources == ("house_judgement",)


def test_blank_absurd_and_repeated_days_are_named(tmp_path: Path):
    word = table(tmp_path, changed={10: "2000-01-11,,4.0", 20: "2000-01-21,-99.9,2.0", 30: "2000-01-30,-20.0,-1.0"})
    found = answered("climate", word)
    assert [(one["what"], one["count"], one["first_day"]) for one in found.results["faults"]] == [
        ("blank", 1, "2000-01-11"),
        ("absurd", 1, "2000-01-21"),
        ("twice", 1, "2000-01-30"),
        ("missing", 4, "2000-01-11"),
    ]
    assert "colder than −70 °C" in told(found)


def test_a_minimum_above_its_maximum_is_refused_by_day(tmp_path: Path):
    with pytest.raises(InputError, match=r"climate\.crossed") as refused:
        answered("climate", table(tmp_path, changed={10: "2000-01-11,5.0,-4.0"}))
    assert refused.value.values["found"] == dt.date(2000, 1, 11)


def test_rows_that_say_no_day_or_temperature_are_told_with_their_lines(tmp_path: Path):
    with pytest.raises(DocumentError) as refused:
        answered("climate", table(tmp_path, changed={0: "2000-13-01,1,2", 4: "2000-01-05,cold,2"}))
    assert [fault.values["line"] for fault in refused.value.faults] == [2, 6]


@pytest.mark.parametrize("text", ["one\n", "day,tmin\n2000-01-01,3\n", "2000-01-01,3\n2000-01-02,4\n", "day,tmin,tmax\n", "\n"])
def test_a_file_without_the_three_columns_or_without_days_is_refused(text: str, tmp_path: Path):
    (tmp_path / "odd.csv").write_text(text, "utf-8")
    with pytest.raises(InputError):
        answered("climate", f"record={tmp_path / 'odd.csv'}")


def test_fahrenheit_in_the_header_is_read(tmp_path: Path):
    celsius, fahrenheit = table(tmp_path), tmp_path / "f.csv"
    lines = Path(celsius.partition("=")[2]).read_text("utf-8").splitlines()[1:]
    rows = [line.split(",") for line in lines]
    turned = [f"{day},{float(low) * 1.8 + 32:.2f},{float(high) * 1.8 + 32:.2f}" for day, low, high in rows]
    fahrenheit.write_text("\n".join(["day,tmin_f,tmax_f", *turned]), "utf-8")
    found = answered("climate", f"record={fahrenheit}")
    assert found.results["coldest_start_c"] == pytest.approx(answered("climate", celsius).results["coldest_start_c"], abs=0.01)


@pytest.mark.parametrize(
    ("word", "error"),
    [("years=1", OutOfRangeError), ("to=2026-01-01", InputError), ("hemisphere=east", InputError), ("record=", InputError)],
)
def test_what_cannot_be_is_refused(word: str, error: type[Exception], tmp_path: Path):
    words = [word] if word.startswith("record") else [table(tmp_path, years=2), word]
    with pytest.raises(error):
        answered("climate", *words)


def test_the_machine_gets_the_same_figures(tmp_path: Path):
    word = table(tmp_path)
    found = answered_json("climate", word)
    assert found["results"] == answered("climate", word).results
    assert {source["key"] for source in found["sources"]} >= {"coles_2001"}

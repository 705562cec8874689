"""Threads, bolts and drives: every row is read, and the rows agree with one another."""

from __future__ import annotations

from twomarks.reference.threads import across_flats, bolt_heads, drives, property_classes, threads


def test_every_diameter_has_one_coarse_thread_and_finer_ones_after_it():
    by_diameter: dict[float, list[tuple[str, float]]] = {}
    for row in threads().values():
        by_diameter.setdefault(row.diameter_mm, []).append((row.series, row.pitch_mm))
    assert sorted(by_diameter) == [6, 8, 10, 12, 14, 16, 18, 20, 22, 24]
    for rows in by_diameter.values():
        assert [series for series, _ in rows] == ["coarse"] + ["fine"] * (len(rows) - 1)
        assert len(rows) > 1
        assert all(pitch < rows[0][1] for _, pitch in rows[1:])


def test_a_thread_is_named_by_its_diameter_and_a_fine_one_by_its_pitch_too():
    for name, row in threads().items():
        assert name == (f"M{row.diameter_mm:g}" if row.series == "coarse" else f"M{row.diameter_mm:g}x{row.pitch_mm:g}")


def test_the_classes_meet_at_their_diameters_and_rise_in_strength():
    of_88 = [row for row in property_classes() if row.name == "8.8"]
    assert of_88[0].diameter_to_mm == of_88[1].diameter_from_mm == 16
    assert all(row.proof_mpa < row.yield_mpa < row.tensile_mpa for row in property_classes())


def test_the_head_is_wider_than_its_hole_and_fits_its_spanner():
    for diameter, head in bolt_heads().items():
        assert diameter < head.hole_mm < head.washer_face_mm < across_flats()[diameter].older_mm + 1e-9


def test_a_word_names_one_drive_only():
    words = [word for drive in drives() for word in drive.words]
    assert len(words) == len(set(words))


def test_what_is_from_memory_cites_nothing():
    assert all((drive.seen.status == "c") == (drive.seen.source == "house_judgement") for drive in drives())

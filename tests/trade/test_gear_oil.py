"""Gear oil classes and limited slip."""

from __future__ import annotations

import pytest

from twomarks.errors import InputError
from twomarks.trade.gear_oil import gear_oil_fit, gear_oil_label
from twomarks.words import Reader, render


@pytest.mark.parametrize(
    ("text", "classes", "slip"),
    [
        ("SAE 75W-90 API GL-4", ("GL-4",), None),
        ("gl5 80W-90 LS", ("GL-5",), True),
        ("API GL-4/GL-5", ("GL-4", "GL-5"), None),
        ("GL-4/5", ("GL-4", "GL-5"), None),
        ("GL-5, 80W-90", ("GL-5",), None),
        ("GL-4+ 75W", ("GL-4",), None),
        ("GL-4, 5 L", ("GL-4",), None),
        ("MT-1 and GL 5", ("MT-1", "GL-5"), None),
        ("GL-5 limited-slip", ("GL-5",), True),
        ("GL-5, not for limited slip differentials", ("GL-5",), False),
        ("75W-90", (), None),
    ],
)
def test_a_label_is_read(text: str, classes: tuple[str, ...], slip: bool | None):
    label = gear_oil_label(text=text)
    assert (label.classes, label.limited_slip) == (classes, slip)


@pytest.mark.parametrize(
    ("asked", "label", "unit", "slip", "state", "key"),
    [
        ("GL-4", "GL-4", "gearbox", None, "meets", "class_named"),
        ("GL-4", "GL-5", "gearbox", None, "does not meet", "gl5_for_gl4"),
        ("GL-4", "GL-4/GL-5", "gearbox", None, "not shown", "both_named"),
        ("GL-4", "75W-90", "gearbox", None, "not shown", "label_silent"),
        ("GL-4", "GL-4 LS", "gearbox", None, "not shown", "slip_in_gearbox"),
        ("GL-5", "GL-4", "axle", False, "does not meet", "gl4_for_gl5"),
        ("GL-5", "GL-5", "axle", False, "meets", "class_named"),
        ("GL-5", "GL-5", "axle", None, "not shown", "slip_not_known"),
        ("GL-5", "GL-5", "axle", True, "not shown", "slip_not_named"),
        ("GL-5", "GL-5 LS", "axle", True, "meets", "slip_named"),
        ("GL-5", "GL-5 not for limited slip", "axle", True, "does not meet", "slip_excluded"),
        ("GL-5", "GL-5 LS", "axle", False, "meets", "slip_unneeded"),
        ("GL-5 limited slip", "GL-5", "axle", None, "not shown", "slip_not_named"),
        ("GL-4", "GL-4/GL-5", "axle", False, "meets", "class_named"),
        ("GL-4 or GL-5", "GL-5", "gearbox", None, "meets", "class_named"),
        ("GL-4", "GL-1", "gearbox", None, "does not meet", "other_class"),
        ("GL-3", "GL-4", "transfer case", None, "does not meet", "other_class"),
    ],
)
def test_verdicts(asked: str, label: str, unit: str, slip: bool | None, state: str, key: str):
    found = gear_oil_fit(asked=asked, label=label, unit=unit, has_limited_slip=slip)  # type: ignore[arg-type]
    assert found.state == state
    assert f"gear_oil.{key}" in [reason.key for reason in found.reasons]
    assert all("{" not in render(reason, Reader.of("us")) for reason in found.reasons)


@pytest.mark.parametrize(("asked", "label"), [("75W-90", "GL-4"), ("GL-7", "GL-4"), ("GL-4", "GL-9")])
def test_what_names_no_class_or_none_that_exists_is_refused(asked: str, label: str):
    with pytest.raises(InputError):
        gear_oil_fit(asked=asked, label=label, unit="gearbox")

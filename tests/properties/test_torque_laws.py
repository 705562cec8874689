"""Laws of wrenches and bolts."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from twomarks.reference.threads import bolt_heads, property_classes, threads
from twomarks.trade.preload import assembly_preload, assembly_torque, preload_check, proof_load
from twomarks.trade.threads import read_thread
from twomarks.trade.torque import adapter_setting, adapter_torque, wrench_setting

torques = st.floats(1.0, 400.0)
frictions = st.floats(0.05, 0.35)
bolts = st.sampled_from([name for name, row in threads().items() if row.diameter_mm in bolt_heads()])
classes = st.sampled_from(["8.8", "9.8", "10.9", "12.9"])


@given(torques, st.floats(0.1, 1.5), st.floats(0.0, 0.09), st.floats(-180.0, 180.0))
def test_an_adapter_and_back_is_the_torque(torque: float, length: float, adapter: float, angle: float):
    setting = adapter_setting(torque_nm=torque, wrench_length_m=length, adapter_length_m=adapter, angle_deg=angle)
    back = adapter_torque(setting_nm=setting, wrench_length_m=length, adapter_length_m=adapter, angle_deg=angle)
    assert back == pytest.approx(torque)


@given(torques, st.floats(0.2, 1.5), st.floats(0.001, 0.1), st.floats(0.0, 89.0))
def test_an_adapter_that_lengthens_the_wrench_lowers_the_setting(torque: float, length: float, adapter: float, angle: float):
    assert adapter_setting(torque_nm=torque, wrench_length_m=length, adapter_length_m=adapter, angle_deg=angle) < torque


@given(torques, st.floats(0.1, 20.0), st.floats(0.5, 10.0))
def test_a_setting_is_a_mark_and_never_further_than_allowed(torque: float, graduation: float, tolerance: float):
    setting = wrench_setting(
        torque_nm=torque, wrench_low_nm=20.0, wrench_high_nm=220.0, graduation_nm=graduation, tolerance_percent=tolerance
    )
    if setting.setting_nm is None:
        return
    steps = (setting.setting_nm - 20.0) / graduation
    assert abs(steps - round(steps)) < 1e-6
    assert 20.0 - 1e-9 <= setting.setting_nm <= 220.0 + 1e-6
    assert abs(setting.setting_nm - torque) <= 1.000001 * tolerance / 100.0 * torque


@given(bolts, frictions, frictions)
def test_more_friction_takes_more_torque_for_less_preload(name: str, first: float, second: float):
    low, high = sorted((first, second))
    row = threads()[name]
    size = {"diameter_mm": row.diameter_mm, "pitch_mm": row.pitch_mm, "yield_mpa": 640.0}
    assert assembly_preload(**size, friction=low) >= assembly_preload(**size, friction=high)
    assert (assembly_torque(**size, friction=low) or 0) <= (assembly_torque(**size, friction=high) or 0)


@given(bolts, classes, st.floats(0.10, 0.35))
def test_the_limit_of_a_bolt_stays_below_its_proof_load(name: str, property_class: str, friction: float):
    row = threads()[name]
    strength = next(each for each in property_classes() if each.name == property_class)
    force = assembly_preload(diameter_mm=row.diameter_mm, pitch_mm=row.pitch_mm, yield_mpa=strength.yield_mpa, friction=friction)
    proof = proof_load(thread=read_thread(text=name), property_class=property_class)
    assert proof is not None
    assert force < proof


@given(bolts, classes, torques, torques, st.booleans())
def test_a_higher_torque_is_never_judged_milder(name: str, property_class: str, first: float, second: float, oiled: bool):
    order = ("unusual", "within", "above the limit")
    low, high = (
        order.index(
            preload_check(
                torque_nm=torque,
                thread=read_thread(text=name),
                kind="clamping",
                material="steel",
                property_class=property_class,
                is_oiled=oiled,
            ).state
        )
        for torque in sorted((first, second))
    )
    assert low <= high

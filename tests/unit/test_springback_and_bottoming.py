"""Springback taken apart, the modulus that falls with strain, and where bottoming starts."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve
from scipy.integrate import quad

from strapwright.bending import BendSetup, FlowCurve, solve_curve, state_for_free_angle
from strapwright.bending.bottoming import (
    EARLY,
    channel_onset,
    face_depth,
    floor_onset,
    sinking,
    vee_onset,
)
from strapwright.bending.kernel_hoop_stress import Law
from strapwright.bending.kernel_section import unloading_compliance
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import build
from strapwright.bending.springback_causes import springback_parts, springback_sentence

FLOW = FlowCurve(modulus=2e5, poisson=0.3, strength=734.4056, offset=0.00960086, exponent=0.2)
# The bar of the vee of BENDING, section 8.
BAR = BendSetup(
    section="slice",
    thickness=6.35,
    width=1.0,
    opening=50.8,
    nose_radius=9.525,
    shoulder_radius=6.35,
    friction=0.1,
    flow=FLOW,
    width_state=1.0,
)


@pytest.mark.parametrize("ratio", [1.0, 1.5, 4.0, 60.0])
def test_section_modulus_on_letting_go_is_the_mean_over_its_depth(ratio: float) -> None:
    """Own sum of E_u(p(y)) y^2 over the depth, p growing linearly from the elastic core."""
    law = Law(2e5, 1.0, 300.0, 1.0, 0.0, 0.0, 0.85, 50.0)
    first = 300.0 / 2e5

    def local(y: float) -> float:
        p = max(first * (ratio * y - 1.0), 0.0)
        return (1.0 - 0.15 * (1.0 - math.exp(-50.0 * p))) * 3.0 * y * y

    mean, _ = quad(local, 0.0, 1.0, points=[1.0 / ratio])
    assert 1.0 / unloading_compliance(law, ratio) == pytest.approx(mean, rel=1e-9)


def test_a_fast_fall_is_a_constant_ratio_on_yielded_metal() -> None:
    law = Law(2e5, 1.0, 300.0, 1.0, 0.0, 0.0, 0.85, 1e5)
    assert unloading_compliance(law, 100.0) == pytest.approx(1.0 / 0.85, rel=1e-4)


def test_springback_grows_by_the_loss_of_modulus_and_no_more() -> None:
    fresh = state_for_free_angle(BAR, math.radians(90.0))
    at = [
        springback_parts(setup, state_for_free_angle(setup, math.radians(90.0)))
        for setup in (evolve(BAR, unloading_ratio=0.85), evolve(BAR, unloading_ratio=0.95))
    ]
    total = fresh.loaded_angle - fresh.free_angle
    for parts, ratio in zip(at, (0.85, 0.95), strict=True):
        # Strained metal loses all of it, metal near yield nothing.
        assert 0.6 * (1.0 / ratio - 1.0) * total < parts.softer < (1.0 / ratio - 1.0) * total


def test_parts_add_up_and_the_sentence_says_them() -> None:
    setup = evolve(BAR, unloading_ratio=0.9)
    state = state_for_free_angle(setup, math.radians(90.0))
    parts = springback_parts(setup, state)
    assert parts.arc + parts.legs + parts.softer == pytest.approx(parts.total, rel=1e-9)
    # Finite elements: 92.46 loaded, 90.06 free, without the loss of modulus.
    assert math.degrees(parts.total - parts.softer) == pytest.approx(2.40, abs=0.05)
    sentence = springback_sentence(parts)
    assert f"gives {math.degrees(parts.classical):.1f}° of springback" in sentence
    assert f"ours {math.degrees(parts.total):.1f}°" in sentence
    assert "curved legs" in sentence
    assert "softer unloading" in sentence
    stiff = springback_parts(BAR, state_for_free_angle(BAR, math.radians(90.0)))
    assert "falls with strain" not in springback_sentence(stiff)


# Faces of the 90 deg vee that run into the shoulders: distance of the line from the round's middle.
FLUSH = 0.5 * BAR.opening + BAR.shoulder_radius * (1.0 - math.sqrt(2.0))


def test_onset_in_a_vee_against_finite_elements() -> None:
    """They leave the elastica 0.39 mm before the geometric bottom of the 90 deg vee."""
    model = build(BAR)
    onset = vee_onset(model, curve_of(model, 200), math.radians(90.0), FLUSH)
    assert onset is not None
    # Bottom: the nose lies on the bar and the bar on faces tangent to the shoulders.
    slope = math.radians(45.0)
    reach = BAR.nose_radius + BAR.shoulder_radius + BAR.thickness
    bottom = 0.5 * BAR.opening * math.tan(slope) + reach * (1.0 - 1.0 / math.cos(slope))
    assert onset == pytest.approx(bottom - 0.39 - EARLY, abs=0.1)


@pytest.mark.parametrize("deeper", [-3.0, -1.0, 0.5, 2.0])
def test_a_vee_is_met_where_the_bar_first_touches_its_faces(deeper: float) -> None:
    model = build(BAR)
    curve = curve_of(model, 200)
    flush, onset = (
        vee_onset(model, curve, math.radians(90.0), depth) for depth in (FLUSH, FLUSH + deeper)
    )
    assert flush is not None
    assert onset is not None
    assert (onset - flush) * deeper > 0.0
    # Legs that lie flat on faces meet them all at once, 0.39 mm before the nose has come down; on
    # lower ones the bar comes down with the nose.
    assert deeper < 0.0 or onset - flush < deeper + 0.39
    inner = 0.5 * BAR.opening - BAR.shoulder_radius
    gaps = [
        max(FLUSH + deeper - out, BAR.shoulder_radius) - face_depth(model, curve, touch, out)
        for touch in [onset + EARLY]
        for out in (*np.linspace(0.0, inner, 300), FLUSH + deeper - BAR.shoulder_radius)
    ]
    assert min(gaps) == pytest.approx(0.0, abs=0.01)


def test_a_vee_far_below_is_never_met() -> None:
    model = build(BAR)
    assert vee_onset(model, curve_of(model, 200), math.radians(90.0), 60.0) is None


def test_the_floor_stops_the_outer_face() -> None:
    curve = solve_curve(BAR, 200)
    depth = 12.0
    onset = floor_onset(curve, depth, BAR.thickness)
    assert onset is not None
    sunk = float(np.interp(onset + EARLY, curve.travel, sinking(curve, BAR.thickness)))
    assert sunk == pytest.approx(depth, abs=1e-6)
    # The gap under the tip makes it earlier than the nose alone would say, by under 0.06 t.
    assert 0.0 < depth - EARLY - onset < 0.06 * BAR.thickness
    assert floor_onset(curve, 100.0, BAR.thickness) is None


def test_the_outer_face_lies_on_the_shoulder() -> None:
    """The contact of a leg of slope a lies r (1 - cos a) deep, r sin a inside the round's middle.

    Solver and shape are laid out apart; they differ by what a contact gives (a gap under the nose,
    the shear of the leg), less than 0.05 mm once the bar has yielded.
    """
    model = build(BAR)
    curve = curve_of(model, 200)
    for travel in (8.0, 12.0, 16.0, 20.0):
        slope = 0.5 * float(np.interp(travel, curve.travel, curve.loaded_angle))
        out = 0.5 * BAR.opening - BAR.shoulder_radius * math.sin(slope)
        deep = BAR.shoulder_radius * (1.0 - math.cos(slope))
        assert face_depth(model, curve, travel, out) == pytest.approx(deep, abs=0.05)
        # Past the contact the leg is straight, and under the nose the face is where it sank to.
        assert face_depth(model, curve, travel, out + 1.0) - deep == pytest.approx(
            -math.tan(slope), abs=0.05
        )
        sunk = float(np.interp(travel, curve.travel, sinking(curve, BAR.thickness)))
        assert face_depth(model, curve, travel, 0.0) == pytest.approx(sunk, abs=1e-9)


def test_a_channel_stops_the_bar_at_its_floor_or_at_the_tops_of_its_walls() -> None:
    model = build(BAR)
    curve = curve_of(model, 200)
    floor = floor_onset(curve, 15.0, BAR.thickness)
    assert floor is not None
    # The shoulders as walls add nothing, nor do walls that the face passes over.
    assert channel_onset(model, curve, 15.0) == floor
    assert channel_onset(model, curve, 15.0, walls_at=16.0, walls_top=9.0) == floor
    onset = channel_onset(model, curve, 15.0, walls_at=16.0, walls_top=4.0)
    assert onset is not None
    assert onset < floor
    # The corner lies on the face a tenth of a mm further.
    touch = onset + EARLY
    assert face_depth(model, curve, touch, 16.0) == pytest.approx(4.0, abs=0.005)
    slope = 0.5 * float(np.interp(touch, curve.travel, curve.loaded_angle))
    contact = 0.5 * BAR.opening - BAR.shoulder_radius * math.sin(slope)
    tangent = BAR.shoulder_radius * (1.0 - math.cos(slope)) + (contact - 16.0) * math.tan(slope)
    # The leg is curved upwards, so it lies above its tangent at the shoulder.
    assert tangent - 0.05 * BAR.thickness < 4.0 < tangent + 0.05
    assert channel_onset(model, curve, 100.0, walls_at=16.0, walls_top=90.0) is None

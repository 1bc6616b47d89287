"""Properties of the stroke solver that hold for any bar on any tooling."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest
from attrs import evolve
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from strapwright.bending import (
    BendSetup,
    FlowCurve,
    solve_curve,
    state_at_travel,
    state_for_free_angle,
)
from strapwright.bending.bar_lot import swift_through
from strapwright.bending.bend_values import SectionState
from strapwright.errors import InputError

POINTS = 30
SECTIONS: tuple[SectionState, ...] = ("flat", "square", "round", "slice")
few = settings(max_examples=25, deadline=None)


@st.composite
def setups(draw: st.DrawFn) -> BendSetup:
    """Any bar between thin strip and thick bar, on tooling that a shop could have."""
    t = draw(st.floats(2.0, 20.0))
    section = draw(st.sampled_from(SECTIONS))
    width = {"flat": draw(st.floats(1.2, 12.0)) * t, "slice": 1.0}.get(section, t)
    yields = draw(st.floats(150.0, 700.0))
    return BendSetup(
        section=section,
        thickness=t,
        width=width,
        opening=draw(st.floats(6.0, 14.0)) * t,
        nose_radius=draw(st.floats(0.5, 2.5)) * t,
        shoulder_radius=draw(st.floats(0.3, 2.0)) * t,
        friction=draw(st.floats(0.0, 0.13)),
        flow=swift_through(
            draw(st.sampled_from([70e3, 200e3])),
            0.3,
            yields,
            yields * draw(st.floats(1.15, 1.8)),
            draw(st.floats(0.05, 0.35)),
        ),
        unloading_ratio=draw(st.floats(0.75, 1.0)),
    )


@st.composite
def bends(draw: st.DrawFn) -> tuple[BendSetup, float]:
    """A setup, and a free angle that its stroke reaches [rad]."""
    setup = draw(setups())
    curve = solve_curve(setup, POINTS)
    last = float(curve.free_angle[-1])
    assume(last > math.radians(10.0))
    return setup, last * draw(st.floats(0.1, 0.95))


@few
@given(setups())
def test_travel_rises_and_force_pushes(setup: BendSetup) -> None:
    curve = solve_curve(setup, POINTS)
    assert (np.diff(curve.travel) > 0.0).all()
    assert (curve.force[1:] > 0.0).all()
    assert (np.diff(curve.loaded_angle) > 0.0).all()
    # Letting go opens the bend, and what was elastic goes all the way back.
    assert (curve.free_angle[1:] < curve.loaded_angle[1:]).all()
    assert (curve.free_angle >= 0.0).all()
    assert (np.diff(curve.free_angle) > -1e-12).all()
    assert curve.loaded_angle[-1] < curve.jam_angle


@few
@given(bends(), st.floats(0.1, 20.0))
def test_scale_of_lengths(bend: tuple[BendSetup, float], scale: float) -> None:
    """At equal stresses every length scales, force as length squared, no angle changes."""
    setup, angle = bend
    larger = evolve(
        setup,
        thickness=scale * setup.thickness,
        width=scale * setup.width,
        opening=scale * setup.opening,
        nose_radius=scale * setup.nose_radius,
        shoulder_radius=scale * setup.shoulder_radius,
    )
    first, second = state_for_free_angle(setup, angle), state_for_free_angle(larger, angle)
    assert second.force == pytest.approx(scale**2 * first.force, rel=1e-5)
    assert second.travel == pytest.approx(scale * first.travel, rel=1e-5)
    assert second.loaded_angle == pytest.approx(first.loaded_angle, abs=1e-5)


@few
@given(bends(), st.floats(0.1, 10.0))
def test_scale_of_stresses(bend: tuple[BendSetup, float], scale: float) -> None:
    setup, angle = bend
    flow = evolve(
        setup.flow, modulus=scale * setup.flow.modulus, strength=scale * setup.flow.strength
    )
    first = state_for_free_angle(setup, angle)
    second = state_for_free_angle(evolve(setup, flow=flow), angle)
    assert second.force == pytest.approx(scale * first.force, rel=1e-5)
    assert second.travel == pytest.approx(first.travel, rel=1e-5)
    assert second.loaded_angle == pytest.approx(first.loaded_angle, abs=1e-5)


@few
@given(bends(), st.integers(2, 6))
def test_bars_side_by_side_add_their_forces(bend: tuple[BendSetup, float], bars: int) -> None:
    setup, angle = bend
    one, many = (
        state_for_free_angle(setup, angle),
        state_for_free_angle(evolve(setup, bars=bars), angle),
    )
    assert many.force == pytest.approx(bars * one.force, rel=1e-12)
    assert many.travel == pytest.approx(one.travel, rel=1e-12)


@few
@given(bends(), st.floats(1e-8, 1e-4), st.integers(1, 3))
def test_give_adds_its_share_of_the_force(
    bend: tuple[BendSetup, float], give: float, bars: int
) -> None:
    setup, angle = bend
    setup = evolve(setup, bars=bars)
    rigid = state_for_free_angle(setup, angle)
    soft = state_for_free_angle(evolve(setup, give=give), angle)
    assert soft.force == pytest.approx(rigid.force, rel=1e-12)
    assert soft.travel == pytest.approx(rigid.travel + give * rigid.force, rel=1e-12)


@few
@given(bends())
def test_travel_and_free_angle_name_the_same_state(bend: tuple[BendSetup, float]) -> None:
    setup, angle = bend
    there = state_for_free_angle(setup, angle)
    assert there.free_angle == pytest.approx(angle, abs=1e-7)
    back = state_at_travel(setup, there.travel)
    assert back.free_angle == pytest.approx(angle, abs=1e-5)
    assert back.force == pytest.approx(there.force, rel=1e-4)
    assert back.loaded_angle == pytest.approx(there.loaded_angle, abs=1e-5)


@few
@given(setups(), st.integers(8, POINTS))
def test_a_state_lies_on_the_curve(setup: BendSetup, place: int) -> None:
    """Travel is met to 1e-7 of the opening, so the first touch and the very end are left out."""
    curve = solve_curve(setup, POINTS)
    assume(place < curve.travel.size - 1)
    state = state_at_travel(setup, float(curve.travel[place]))
    assert state.force == pytest.approx(float(curve.force[place]), rel=1e-4)
    assert state.loaded_angle == pytest.approx(float(curve.loaded_angle[place]), abs=1e-5)
    assert state.nose_curvature == pytest.approx(float(curve.nose_curvature[place]), rel=1e-4)


@few
@given(bends(), st.floats(1.05, 1.5))
def test_a_stronger_bar_pushes_back_harder_and_springs_further(
    bend: tuple[BendSetup, float], stronger: float
) -> None:
    setup, angle = bend
    flow = evolve(setup.flow, strength=stronger * setup.flow.strength)
    curve = solve_curve(evolve(setup, flow=flow), POINTS)
    assume(angle < 0.98 * curve.free_angle[-1])
    soft = state_for_free_angle(setup, angle)
    hard = state_for_free_angle(evolve(setup, flow=flow), angle)
    assert hard.loaded_angle > soft.loaded_angle
    # At equal travel, for past its crest the force of a stroke falls with the angle.
    at_equal = state_at_travel(evolve(setup, flow=flow), soft.travel)
    assert at_equal.force > soft.force
    assert at_equal.free_angle < soft.free_angle


@few
@given(bends(), st.floats(0.7, 0.95))
def test_a_softer_return_springs_further(bend: tuple[BendSetup, float], ratio: float) -> None:
    setup, angle = bend
    stiff = state_for_free_angle(setup, angle)
    softer = evolve(setup, unloading_ratio=ratio * setup.unloading_ratio)
    soft = state_at_travel(softer, stiff.travel)
    assert soft.loaded_angle == pytest.approx(stiff.loaded_angle, abs=1e-5)
    assert soft.free_angle < stiff.free_angle - 1e-6


@few
@given(setups(), st.floats(1.01, 1.5))
def test_past_the_jam_the_answer_names_it(setup: BendSetup, beyond: float) -> None:
    curve = solve_curve(setup, 60)
    assume(curve.jammed)
    # Where nose and shoulders pass each other the last position stands for the jam.
    grips = math.degrees(curve.jam_angle) < 179.0
    jam = f"{math.degrees(curve.jam_angle if grips else curve.loaded_angle[-1]):.0f}°"
    past = float(curve.free_angle[-1]) * beyond + 0.02
    assume(past < curve.jam_angle)
    with pytest.raises(InputError, match=re.escape(f"{jam} under load")):
        state_for_free_angle(setup, past)
    with pytest.raises(InputError, match="cannot be reached"):
        state_at_travel(setup, 1.5 * float(curve.travel[-1]))


@few
@given(setups(), st.floats(0.15, 0.6), st.floats(0.5, 0.999))
def test_friction_too_steep_to_solve_ends_as_a_jam(
    setup: BendSetup, friction: float, share: float
) -> None:
    """With much friction the contact itself yields, or the nose grips, well before the geometry."""
    rough = evolve(setup, friction=friction)
    curve = solve_curve(rough, POINTS)
    assert (np.diff(curve.travel) > 0.0).all()
    assert (curve.force[1:] > 0.0).all()
    assert curve.jammed
    # Short of the last solved position there is an answer, past the geometric jam there is none.
    state = state_at_travel(rough, share * float(curve.travel[-1]))
    assert 0.0 <= state.free_angle < state.loaded_angle <= curve.loaded_angle[-1] + 1e-6
    with pytest.raises(InputError, match="cannot be reached"):
        state_for_free_angle(rough, curve.jam_angle)


GOOD = BendSetup(
    section="flat",
    thickness=6.0,
    width=40.0,
    opening=55.0,
    nose_radius=12.0,
    shoulder_radius=10.0,
    friction=0.1,
    flow=FlowCurve(modulus=2.1e5, poisson=0.3, strength=700.0, offset=0.01, exponent=0.2),
)


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("thickness", "bar thickness"),
        ("width", "bar width"),
        ("opening", "shoulder opening"),
        ("nose_radius", "nose radius"),
        ("shoulder_radius", "shoulder radius"),
        ("unloading_ratio", "unloading ratio"),
        ("friction", "friction"),
    ],
)
@pytest.mark.parametrize("value", [-1.0, math.nan, math.inf])
def test_a_dimension_that_means_nothing_is_refused(name: str, key: str, value: float) -> None:
    with pytest.raises(InputError) as caught:
        solve_curve(evolve(GOOD, **{name: value}))
    assert caught.value.where == key


def test_shoulders_that_overlap_and_metal_without_strength_are_refused() -> None:
    with pytest.raises(InputError, match="overlap"):
        solve_curve(evolve(GOOD, opening=19.0))
    for change, key in (({"modulus": 0.0}, "modulus"), ({"strength": 0.0}, "flow curve strength")):
        with pytest.raises(InputError) as caught:
            solve_curve(evolve(GOOD, flow=evolve(GOOD.flow, **change)))
        assert caught.value.where == key


@pytest.mark.parametrize("value", [0.0, -2.0, math.nan])
def test_a_target_that_means_nothing_is_refused(value: float) -> None:
    with pytest.raises(InputError, match="more than 0"):
        state_at_travel(GOOD, value)
    with pytest.raises(InputError, match="more than 0"):
        state_for_free_angle(GOOD, value)


def test_friction_costs_force_once_the_legs_stand_steep() -> None:
    slick, rough = (solve_curve(evolve(GOOD, friction=mu), POINTS) for mu in (0.0, 0.1))
    steep = slick.loaded_angle > math.radians(60.0)
    assert steep.any()
    assert (rough.force[steep] > slick.force[steep]).all()
    # A straight leg would take 1 + mu tan(a) of the force, 10 % more, less what the friction's own
    # moment at the contact, mu t/2 over a leg of about three thicknesses, carries.
    square = int(np.argmin(np.abs(slick.loaded_angle - math.radians(90.0))))
    assert 1.04 < rough.force[square] / slick.force[square] < 1.12


def test_nothing_of_the_angle_is_kept_before_yield() -> None:
    first = solve_curve(GOOD, 400)
    elastic = first.nose_curvature < 1.9 * GOOD.flow.yield_stress / (2.1e5 * 6.0)
    assert elastic[1:].any()
    assert first.free_angle[elastic] == pytest.approx(0.0, abs=1e-9)

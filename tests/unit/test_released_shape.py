"""The bar's own shape under load and let go, against the solver and against plain geometry."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending import BendSetup, FlowCurve, StrokeState, state_for_free_angle
from strapwright.bending.bar_shape import half_shape, released_bend
from strapwright.bending.solver_model import FITTED, THIN, Effects, build
from strapwright.errors import SolverError

T = 6.0
SETUP = BendSetup(
    section="flat",
    thickness=T,
    width=40.0,
    opening=55.0,
    nose_radius=9.0,
    shoulder_radius=6.0,
    friction=0.1,
    flow=FlowCurve(modulus=2.1e5, poisson=0.3, strength=700.0, offset=0.01, exponent=0.2),
    unloading_ratio=0.9,
)
SETUPS = {
    "flat": SETUP,
    "rod": evolve(SETUP, section="round", width=T),
    "big nose": evolve(SETUP, nose_radius=15.0),
    "no friction": evolve(SETUP, friction=0.0),
}
cases = pytest.mark.parametrize("name", SETUPS)
angles = pytest.mark.parametrize("degrees", [10.0, 45.0, 90.0, 110.0])


def solved(setup: BendSetup, degrees: float, effects: Effects = FITTED) -> StrokeState:
    return state_for_free_angle(setup, math.radians(degrees), effects)


@cases
@angles
def test_slopes_add_up_to_the_angles_of_the_solver(name: str, degrees: float) -> None:
    model = build(SETUPS[name])
    shape = half_shape(model, free=math.radians(degrees))
    state = solved(SETUPS[name], degrees)
    _, _, loaded = shape.points(released=False)
    _, _, free = shape.points(released=True)
    assert math.degrees(2.0 * loaded[-1]) == pytest.approx(
        math.degrees(state.loaded_angle), abs=1e-6
    )
    assert math.degrees(2.0 * free[-1]) == pytest.approx(degrees, abs=1e-5)
    # Early in the stroke friction pulls inwards on the lower face and bends the last piece before
    # the shoulder back, by microradians.
    assert (np.diff(loaded) >= -1e-5).all()


@cases
@angles
def test_the_bar_touches_the_shoulder_where_the_solver_says(name: str, degrees: float) -> None:
    """Contact at (W/2 - (r_s + t/2) sin a, -r_s + (r_s + t/2) cos a), plain geometry."""
    setup = SETUPS[name]
    shape = half_shape(build(setup), free=math.radians(degrees))
    x, _, _ = shape.points(released=False)
    arm = setup.shoulder_radius + 0.5 * T
    assert x[-1] == pytest.approx(0.5 * setup.opening - arm * math.sin(shape.slope), abs=5e-3)


@angles
def test_the_height_of_the_shape_is_the_travel(degrees: float) -> None:
    """With the thin bar travel is how far the middle has sunk below its rest at t/2."""
    model = build(SETUP, THIN)
    state = solved(SETUP, degrees, THIN)
    shape = half_shape(model, free=math.radians(degrees))
    _, y, _ = shape.points(released=False)
    arm = SETUP.shoulder_radius + 0.5 * T
    middle = -SETUP.shoulder_radius + arm * math.cos(shape.slope) - float(y[-1])
    sag = model.frame.sag * min(state.loaded_angle, math.radians(50.0))
    assert 0.5 * T - middle - sag == pytest.approx(state.travel, abs=5e-3)


@cases
def test_the_wrapped_zone_follows_the_nose(name: str) -> None:
    setup = SETUPS[name]
    state = solved(setup, 100.0)
    shape = half_shape(build(setup), free=math.radians(100.0))
    assert state.wrapped
    wrapped = shape.arc[1:] <= state.wrap_length + 1e-9
    assert shape.loaded[wrapped] == pytest.approx(state.nose_curvature)
    # 1/kappa is the nose's radius, half a thickness and the contact offset of lambda t^2 kappa, to
    # the last of the rounded change-over.
    offset = FITTED.offset * T**2 * state.nose_curvature
    assert 1.0 / state.nose_curvature == pytest.approx(
        setup.nose_radius + 0.5 * T + offset, rel=5e-3
    )
    # No piece under the nose is so long that its chord leaves the arc by a hundredth of a mm.
    lengths = np.diff(shape.arc)
    assert (lengths[wrapped] ** 2 * shape.loaded[wrapped] / 8.0).max() < 0.01


@cases
@angles
def test_length_is_kept_but_for_what_the_bend_thins(name: str, degrees: float) -> None:
    model = build(SETUPS[name])
    shape = half_shape(model, free=math.radians(degrees))
    bend = released_bend(model, math.radians(degrees))
    arc = 2.0 * float(shape.arc[-1])
    # At most 5.5 % of (kappa t)^2 over the length that carries the tightest curvature.
    tightest = 0.055 * (float(shape.loaded.max()) * T) ** 2
    assert arc * (1.0 - tightest) < bend.flat_length < arc
    x, y, _ = shape.points(released=True)
    chords = float(np.hypot(np.diff(x), np.diff(y)).sum())
    assert 2.0 * chords == pytest.approx(arc, rel=1e-3)


@cases
@pytest.mark.parametrize("degrees", [30.0, 90.0, 130.0])
def test_apex_and_reach_against_a_finely_drawn_bend(name: str, degrees: float) -> None:
    """The released mid-line is walked anew in pieces of 2 um, and its faces measured."""
    model = build(SETUPS[name])
    bend = released_bend(model, math.radians(degrees))
    shape = half_shape(model, free=math.radians(degrees))
    fine = np.linspace(0.0, shape.arc[-1], 20_001)
    middle = 0.5 * (fine[1:] + fine[:-1])
    place = np.searchsorted(shape.arc, middle) - 1
    theta = np.concatenate([[0.0], np.cumsum(shape.free[place] * np.diff(fine))])
    mean = 0.5 * (theta[1:] + theta[:-1])
    x = np.concatenate([[0.0], np.cumsum(np.cos(mean) * np.diff(fine))])
    y = np.concatenate([[0.0], np.cumsum(np.sin(mean) * np.diff(fine))])
    a = float(theta[-1])
    # The two straight legs meet on the middle line: back along the leg by x/cos a.
    assert bend.apex_distance == pytest.approx(x[-1] / math.cos(a), abs=2e-3)
    if degrees >= 90.0:
        outer = np.column_stack([x + 0.5 * T * np.sin(theta), y - 0.5 * T * np.cos(theta)])
        mirrored = outer * np.array([-1.0, 1.0])
        leg = np.array([math.cos(a), math.sin(a)])
        reach = max(float(np.max(-(side - [x[-1], y[-1]]) @ leg)) for side in (outer, mirrored))
        assert bend.outside_reach == pytest.approx(reach, abs=5e-3)


def test_an_elastic_piece_goes_back_to_straight() -> None:
    shape = half_shape(build(SETUP), travel=0.02)
    assert shape.loaded.max() < 2.0 * SETUP.flow.yield_stress / (2.1e5 * T)
    assert shape.free == pytest.approx(0.0, abs=1e-9)


def test_past_the_jam_there_is_no_shape() -> None:
    with pytest.raises(SolverError):
        half_shape(build(evolve(SETUP, shoulder_radius=14.0)), free=math.radians(150.0))

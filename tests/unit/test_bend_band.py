"""The sample behind the bands: each spread alone against what the solver itself answers."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending import BendSetup, FlowCurve, StrokeState, solve_curve, state_for_free_angle
from strapwright.bending import state_at_travel as state_at
from strapwright.bending.bend_band import (
    NINETY,
    BendSample,
    Spreads,
    band_of,
    sample_bend,
    standard_normals,
)
from strapwright.bending.kernel_sample import DRAW_COLUMNS, FORCE_OUT, FREE_OUT, push_draws
from strapwright.bending.model_error import ModelError, model_error
from strapwright.bending.solver_model import FITTED, kernel_inputs, rule_for

SETUP = BendSetup(
    section="flat",
    thickness=6.35,
    width=50.8,
    opening=63.5,
    nose_radius=12.7,
    shoulder_radius=9.525,
    friction=0.1,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2),
    unloading_ratio=0.9,
)
WANTED = math.radians(90.0)
NOTHING = Spreads(
    strength=0.0,
    exponent=0.0,
    thickness=0.0,
    friction=0.0,
    unloading=0.0,
    opening=0.0,
    touch=0.0,
    give=0.0,
    reading=0.0,
    protractor=0.0,
)
EXACT = ModelError(force=0.0, angle=0.0, springback=0.0, reasons=())
STATE = state_for_free_angle(SETUP, WANTED)


def sample(
    spreads: Spreads = NOTHING, error: ModelError = EXACT, setup: BendSetup = SETUP
) -> BendSample:
    state = state_for_free_angle(setup, WANTED)
    curve = solve_curve(setup, 400)
    return sample_bend(
        setup,
        spreads,
        error,
        travel=state.travel,
        wanted=WANTED,
        loaded=state.loaded_angle,
        shares=np.array([0.5, 0.85, 1.0]),
        curve_travel=curve.travel,
        curve_free=curve.free_angle,
    )


def test_nothing_uncertain_is_one_state() -> None:
    drawn = sample()
    assert drawn.travel == pytest.approx(STATE.travel, abs=1e-4)
    assert drawn.free == pytest.approx(WANTED, abs=1e-5)
    assert drawn.loaded == pytest.approx(STATE.loaded_angle, abs=1e-5)
    assert drawn.staged == pytest.approx(WANTED, abs=1e-3)
    at_shares = [state_at(SETUP, share * STATE.travel).force for share in (0.5, 0.85, 1.0)]
    for k, force in enumerate(at_shares):
        assert drawn.force[:, k] == pytest.approx(force, rel=1e-4)


def test_normals_are_normal_and_fixed() -> None:
    z = standard_normals()
    assert z.mean(axis=0) == pytest.approx(0.0, abs=0.02)
    assert z.std(axis=0) == pytest.approx(1.0, abs=0.03)
    # No two kinds of uncertainty move together.
    related = np.corrcoef(z.T) - np.eye(z.shape[1])
    assert np.abs(related).max() < 0.1
    assert np.array_equal(z, standard_normals.__wrapped__())


def half_width(values: np.ndarray) -> float:
    band = band_of(values)
    return 0.5 * (band.high - band.low)


def test_touch_alone_moves_angle_by_the_slope_and_cancels_in_the_step_card() -> None:
    drawn = sample(evolve(NOTHING, touch=0.1))
    reach = 0.1 * NINETY
    up, down = (state_at(SETUP, STATE.travel + s * reach) for s in (1.0, -1.0))
    assert half_width(drawn.free) == pytest.approx(
        0.5 * (up.free_angle - down.free_angle), rel=0.05
    )
    assert half_width(drawn.travel) == pytest.approx(reach, rel=0.05)
    assert half_width(drawn.staged) < 0.1 * half_width(drawn.free)


def shifted(setup: BendSetup) -> StrokeState:
    return state_at(setup, STATE.travel)


@pytest.mark.parametrize("name", ["strength", "thickness", "friction", "unloading", "opening"])
def test_one_spread_alone_is_the_solver_at_both_ends(name: str) -> None:
    size = {"friction": 0.02, "opening": 0.2}.get(name, 0.02)
    drawn = sample(evolve(NOTHING, **{name: size}))

    def at(sign: float) -> BendSetup:
        move, factor = sign * NINETY * size, math.exp(sign * NINETY * size)
        if name == "strength":
            return evolve(SETUP, flow=evolve(SETUP.flow, strength=SETUP.flow.strength * factor))
        changed = {
            "thickness": ("thickness", SETUP.thickness * factor),
            "friction": ("friction", SETUP.friction + move),
            "unloading": ("unloading_ratio", SETUP.unloading_ratio * factor),
            "opening": ("opening", SETUP.opening + move),
        }[name]
        return evolve(SETUP, **{changed[0]: changed[1]})

    low, high = shifted(at(-1.0)), shifted(at(1.0))
    force = abs(high.force - low.force) / 2.0
    free = abs(high.free_angle - low.free_angle) / 2.0
    assert half_width(drawn.force[:, -1]) == pytest.approx(force, rel=0.06, abs=1e-4 * STATE.force)
    assert half_width(drawn.free) == pytest.approx(free, rel=0.06, abs=2e-5)


def test_a_harder_exponent_turns_the_curve_about_the_yield_point() -> None:
    drawn = sample(evolve(NOTHING, exponent=0.01))
    ends = []
    for sign in (-1.0, 1.0):
        n = 0.2 + sign * NINETY * 0.01
        strength = SETUP.flow.yield_stress / SETUP.flow.offset**n
        ends.append(shifted(evolve(SETUP, flow=evolve(SETUP.flow, exponent=n, strength=strength))))
    force = abs(ends[1].force - ends[0].force) / 2.0
    assert half_width(drawn.force[:, -1]) == pytest.approx(force, rel=0.06)


def test_the_stated_model_error_comes_out_as_the_band() -> None:
    error = ModelError(force=0.05, angle=0.02, springback=0.0, reasons=())
    drawn = sample(error=error)
    assert half_width(drawn.force[:, -1]) == pytest.approx(0.05 * STATE.force, rel=0.06)
    assert half_width(drawn.loaded) == pytest.approx(0.02, rel=0.06)
    assert half_width(drawn.free) == pytest.approx(0.02, rel=0.06)
    # In travel: by the slope of the curve at the angle wanted.
    more = state_for_free_angle(SETUP, WANTED + 0.02).travel - STATE.travel
    assert half_width(drawn.travel) == pytest.approx(more, rel=0.08)


def test_give_alone() -> None:
    soft = evolve(SETUP, give=2e-5)
    drawn = sample(evolve(NOTHING, give=4e-6), setup=soft)
    force = state_for_free_angle(soft, WANTED).force
    assert half_width(drawn.travel) == pytest.approx(NINETY * 4e-6 * force, rel=0.06)


def test_reading_and_protractor_stay_with_the_gauge_and_the_card() -> None:
    drawn = sample(evolve(NOTHING, reading=0.03, protractor=0.004))
    assert half_width(drawn.reading) == pytest.approx(0.03 * NINETY, rel=0.05)
    assert drawn.free == pytest.approx(WANTED, abs=1e-5)
    assert half_width(drawn.staged) == pytest.approx(0.004 * NINETY, rel=0.1)


def test_draws_that_jam_are_told_apart() -> None:
    tight = evolve(SETUP, opening=46.0)
    curve = solve_curve(tight, 100)
    near = 0.999 * float(curve.free_angle[-1])
    draws = np.zeros((3, DRAW_COLUMNS))
    draws[:, [0, 2, 4]] = 1.0
    draws[:, 5] = (-1.5, 0.0, 1.5)  # opening [mm]
    inputs, rule = kernel_inputs(tight), rule_for(tight.flow, FITTED)
    travels = np.full((3, 1), float(np.interp(near, curve.free_angle, curve.travel)))
    pushed, bent = push_draws(inputs, FITTED.switches, rule, draws, travels, near, 0.5)
    assert np.isnan(bent[:, FREE_OUT]).tolist() == [True, False, False]
    assert bent[1:, FREE_OUT] == pytest.approx(near, abs=1e-6)
    # A wider opening needs less force for the same angle, and further travel.
    assert bent[2, FORCE_OUT] < bent[1, FORCE_OUT]
    assert bent[2, 0] > bent[1, 0]
    # Nothing is pushed before touch.
    early, _ = push_draws(
        inputs, FITTED.switches, rule, draws[1:2], np.array([[0.0, 1.0]]), 0.0, 0.5
    )
    assert early[0, 0] == pytest.approx(0.0)
    assert early[0, 1, FORCE_OUT] > 0.0
    assert pushed.shape == (3, 1, 5)


@pytest.mark.parametrize(
    ("change", "degrees", "spot"),
    [
        ({"flow": evolve(SETUP.flow, exponent=0.08, strength=500.0)}, 60.0, "low hardening"),
        ({"flow": evolve(SETUP.flow, exponent=0.01, strength=300.0)}, 60.0, "no hardening"),
        ({"flow": evolve(SETUP.flow, exponent=0.14)}, 60.0, "low hardening"),
        ({"flow": evolve(SETUP.flow, peak=30.0)}, 60.0, "upper yield"),
        ({"friction": 0.2}, 60.0, "much friction"),
        ({"opening": 36.0, "nose_radius": 6.0, "shoulder_radius": 6.0}, 60.0, "short opening"),
        ({"shoulder_radius": 17.0}, 90.0, "short leg"),
        ({"nose_radius": 4.0}, 60.0, "sharp nose"),
        ({"section": "round", "width": 6.35}, 60.0, "round rod"),
        ({"section": "square", "width": 6.35}, 60.0, "narrow bar"),
        ({}, 126.0, "wide angle"),
    ],
)
def test_a_weak_spot_widens_the_band_and_says_why(
    change: dict[str, object], degrees: float, spot: str
) -> None:
    sound = model_error(SETUP, math.radians(60.0))
    weak = model_error(evolve(SETUP, **change), math.radians(degrees))
    assert sound.reasons == ()
    assert spot in weak.reasons
    # Of rods alone the force was found as near as of an ordinary bar.
    assert weak.force >= sound.force
    assert (weak.force > sound.force) is (spot != "round rod")
    assert weak.angle > sound.angle
    assert weak.springback > sound.springback

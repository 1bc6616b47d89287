"""The width rule: one solve with the width state in the section law, against mixing two solves.

The rule was measured as a mix of two solutions at equal loaded angle, force
``w F_strain + (1 - w) F_stress`` and likewise travel and springback.  The solver puts w into the
section law and solves once; the two must agree within what the rule itself is known to, by far.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve

from strapwright.bending import BendSetup, FlowCurve, StrokeCurve
from strapwright.bending.kernel_width_rule import flow_exponent, narrowness, sag_rate, width_state
from strapwright.bending.solver import curve_of, solve_curve
from strapwright.bending.solver_model import FITTED, Effects, build

T = 6.35
FLAT = BendSetup(
    section="flat",
    thickness=T,
    width=4.0 * T,
    opening=8.0 * T,
    nose_radius=8.0,
    shoulder_radius=6.0,
    friction=0.1,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2),
)
LITTLE = FlowCurve(modulus=2e5, poisson=0.3, strength=600.0, offset=0.004, exponent=0.06)


# What a narrow bar loses and gains of its own is no part of the rule that was measured.
RULE = evolve(FITTED, narrow_loss=0.0, narrow_turn=0.0, squeeze_narrow=0.0)


def curve(setup: BendSetup, effects: Effects = FITTED) -> StrokeCurve:
    model = build(setup, effects)
    return curve_of(model, 40, min(model.top, math.radians(50.0)))


@pytest.mark.parametrize("flow", [FLAT.flow, LITTLE], ids=["hardening", "little"])
@pytest.mark.parametrize("spans", [6.0, 8.0, 16.0])
@pytest.mark.parametrize("widths", [1.0, 2.0, 4.0, 8.0])
def test_one_solve_agrees_with_mixing_two(widths: float, spans: float, flow: FlowCurve) -> None:
    bar = evolve(FLAT, width=widths * T, opening=spans * T, flow=flow)
    model = build(bar, RULE)
    once = curve(bar, RULE)
    slice_ = evolve(bar, section="slice", width=1.0)
    stress, strain = (curve(evolve(slice_, width_state=state), RULE) for state in (0.0, 1.0))
    # At equal loaded angle: the three curves stand at the same slopes.
    assert np.array_equal(stress.loaded_angle, once.loaded_angle)
    assert np.array_equal(strain.loaded_angle, once.loaded_angle)
    w = model.state
    # The saddle grows to 50 deg and is partly taken back to 75 deg.
    past = np.clip(once.loaded_angle - math.radians(50.0), 0.0, math.radians(25.0))
    sag = np.minimum(once.loaded_angle, math.radians(50.0)) - model.frame.sag_back * past
    sag *= model.frame.sag
    force = bar.width * (w * strain.force + (1.0 - w) * stress.force)
    travel = w * strain.travel + (1.0 - w) * stress.travel - sag
    free = w * strain.free_angle + (1.0 - w) * stress.free_angle
    assert once.force[1:] == pytest.approx(force[1:], rel=8e-4)
    # 1 um and 0.004 deg up to eight thicknesses of opening; at sixteen all moves are larger.
    share = 5.0 if spans > 10.0 else 1.0
    assert once.travel == pytest.approx(travel, abs=share * 1e-3)
    assert np.degrees(once.free_angle) == pytest.approx(np.degrees(free), abs=share * 4e-3)


def test_the_rule_by_hand() -> None:
    # n = 0.2: c_w = 1.6; at b = 4 t and W = 8 t u = 0.4, so w = 1 - 0.4/(1 + 0.4^3.5)^(1/3.5).
    assert narrowness(4.0, 1.0, 8.0, 0.2) == pytest.approx(0.4)
    assert width_state(0.4) == pytest.approx(1.0 - 0.4 / 1.040477 ** (1 / 3.5), rel=1e-6)
    # Limits: an endless width is plane strain without a saddle, a thin rib plane stress.
    assert width_state(1e-9) == pytest.approx(1.0)
    assert width_state(100.0) == pytest.approx(0.0, abs=1e-6)
    assert sag_rate(1e-9, T, 8.0 * T) == pytest.approx(0.0, abs=1e-9)


def test_the_saddle_by_hand() -> None:
    # u = 0.4 at W = 8 t: 0.098 t 0.4/(1 + 0.544^6.5)^(3/6.5); at equal u it grows as W^1.3.
    at_eight = sag_rate(0.4, 1.0, 8.0)
    assert at_eight == pytest.approx(0.098 * 0.4 / 1.0191 ** (3.0 / 6.5), rel=1e-4)
    assert sag_rate(0.4, 1.0, 16.0) / at_eight == pytest.approx(2.0**1.3)


@pytest.mark.parametrize("spans", [12.0, 5.0])
def test_the_force_of_a_rod_grows_with_its_turn(spans: float) -> None:
    """By narrow_turn (d/W)^2 sin(2 alpha), 2 alpha at most 90 deg; nothing at the start."""
    rod = evolve(FLAT, section="round", width=T, opening=spans * T)
    effects = evolve(FITTED, squeeze=0.0, dent=0.0)
    plain, turned = (
        solve_curve(rod, 60, evolve(effects, narrow_turn=share)) for share in (0.0, 1.5)
    )
    assert np.array_equal(plain.loaded_angle, turned.loaded_angle)
    angle = np.minimum(plain.loaded_angle, 0.5 * math.pi)[1:]
    gained = turned.force[1:] / plain.force[1:] - 1.0
    assert gained == pytest.approx(1.5 / spans**2 * np.sin(angle), abs=1e-9)
    # A rod in the elastic limit is the beam of the text books (see the closed forms).
    assert gained[0] < 0.1 * gained[-1]


def test_a_linear_law_takes_its_local_exponent_at_five_per_cent() -> None:
    # dln(sigma)/dln(strain) of 300 + 1000 p at p = 0.05: 50/350.
    assert flow_exponent(300.0, 1.0, 0.0, 1000.0) == pytest.approx(1.0 / 7.0)
    assert flow_exponent(700.0, 0.01, 0.2, 0.0) == 0.2


def test_wider_bar_pushes_harder_per_width() -> None:
    per_width = [
        float(curve(evolve(FLAT, width=widths * T)).force[20]) / widths for widths in (1, 2, 4, 8)
    ]
    assert per_width == sorted(per_width)

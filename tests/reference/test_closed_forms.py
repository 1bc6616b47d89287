"""The stroke solver in limits that have a closed form, and how its sums converge.

The effects beyond a thin bar are off (``THIN``) wherever a closed form is met, and tables are read
at their own nodes.  Sources stand beside each test; "own integral" is worked out in the comment.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from attrs import evolve
from scipy.integrate import quad

import plastic_forms as forms
from strapwright.bending import BendSetup, FlowCurve, closed_forms
from strapwright.bending.bend_values import SectionState
from strapwright.bending.cross_checks import springback_radius_ratio
from strapwright.bending.kernel_frame import OK, Point, nose_curvature
from strapwright.bending.kernel_hoop_stress import Law
from strapwright.bending.kernel_section import (
    Table,
    moment_energy,
    rectangle_table,
    round_table,
)
from strapwright.bending.kernel_stroke import solve_slope, try_leg
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import FITTED, THIN, Effects, build, gauss

E = 2.0e5  # MPa
T = 6.0  # mm
YIELD = 300.0  # MPa
PERFECT = Law(E, 1.0, YIELD, 1.0, 0.0, 0.0)
YIELD_CURVATURE = 2.0 * YIELD / (E * T)
# The solver keeps a share of hardening of 0.002, so that energy can be inverted; a perfectly
# plastic rectangle falls under it at 18 times the curvature of first yield.
BEFORE_CLAMP = 16.0


def perfectly_plastic(stress: float) -> FlowCurve:
    return FlowCurve(modulus=E, poisson=0.3, strength=stress, offset=1.0, exponent=0.0)


HARDENING = FlowCurve(modulus=E, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2)
LITTLE_HARDENING = FlowCurve(modulus=E, poisson=0.3, strength=600.0, offset=0.004, exponent=0.06)
# Yields at a slope of 3e-5: everything below is small deflections.
SOFT_BEAM = BendSetup(
    section="slice",
    thickness=2.0,
    width=1.0,
    opening=60.0,
    nose_radius=1.0,
    shoulder_radius=1e-9,
    friction=0.0,
    flow=perfectly_plastic(2.0),
    width_state=0.0,
)
BRACKET = BendSetup(
    section="slice",
    thickness=6.35,
    width=1.0,
    opening=63.5,
    nose_radius=12.7,
    shoulder_radius=9.525,
    friction=0.1,
    flow=HARDENING,
    width_state=1.0,
)


def at_slope(setup: BendSetup, effects: Effects, slope: float) -> Point:
    model = build(setup, effects)
    point = solve_slope(model.frame, model.table, model.rule, slope, 0.0, 0.05)
    assert point.status == OK
    return point


def curvatures(table: Table) -> np.ndarray:
    return np.exp(table.start + table.step * np.arange(table.moment.shape[0]))


# The section law.


def test_perfectly_plastic_rectangle_is_exact_at_the_nodes() -> None:
    """Timoshenko, Strength of Materials, Part II: M/M_y = (3 - (kappa_y/kappa)^2)/2."""
    table = rectangle_table(PERFECT, T, BEFORE_CLAMP * YIELD_CURVATURE, 41, 0.0)
    yield_moment = YIELD * forms.rectangle_elastic_modulus(1.0, T)
    ratios = curvatures(table) / YIELD_CURVATURE
    expected = [forms.rectangle_moment_ratio(ratio) for ratio in ratios]
    assert table.moment / yield_moment == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("ratio", [0.5, 2.0, 11.0])
def test_three_curvatures_of_a_perfectly_plastic_rectangle(ratio: float) -> None:
    # By hand: half of the yield moment; (3 - 1/4)/2; (3 - 1/121)/2.
    by_hand = {0.5: 0.5, 2.0: 1.375, 11.0: 181.0 / 121.0}[ratio]
    table = rectangle_table(PERFECT, T, BEFORE_CLAMP * YIELD_CURVATURE, 97, 0.0)
    moment, _ = moment_energy(table, ratio * YIELD_CURVATURE)
    assert moment == pytest.approx(by_hand * YIELD * T**2 / 6.0, rel=1e-6)


def test_plastic_moment_of_a_rectangle_and_of_a_round() -> None:
    """Shape factors 1.5 and 16/(3 pi), any text on plastic design."""
    flat = rectangle_table(PERFECT, T, BEFORE_CLAMP * YIELD_CURVATURE, 97, 0.0)
    # What the elastic core still lacks at this curvature is known: 1/(3 ratio^2) of the whole.
    whole = flat.moment[-1] / flat.moment[0] / (1.0 - 1.0 / (3.0 * BEFORE_CLAMP**2))
    assert whole == pytest.approx(1.5, rel=1e-12)
    rod = round_table(PERFECT, T, 1e4 * YIELD_CURVATURE, 97)
    assert rod.moment[-1] / rod.moment[0] == pytest.approx(16.0 / (3.0 * math.pi), rel=1e-8)
    assert rod.moment[-1] == pytest.approx(YIELD * T**3 / 6.0, rel=1e-8)


def test_round_section_elastic_and_elastic_plastic() -> None:
    """EI = E pi d^4/64 below yield; past it the own integral of the stress over the circle."""
    table = round_table(PERFECT, T, 30.0 * YIELD_CURVATURE, 97)
    moment, energy = moment_energy(table, 0.4 * YIELD_CURVATURE)
    assert moment == pytest.approx(E * math.pi * T**4 / 64.0 * 0.4 * YIELD_CURVATURE, rel=1e-12)
    assert energy == pytest.approx(0.5 * moment * 0.4 * YIELD_CURVATURE, rel=1e-12)
    yield_moment = YIELD * forms.round_elastic_modulus(T)
    ratios = curvatures(table) / YIELD_CURVATURE
    expected = [forms.round_moment_ratio(ratio) for ratio in ratios]
    assert table.moment / yield_moment == pytest.approx(expected, rel=1e-7)


def test_rigid_power_law_section() -> None:
    """M = K t^2/(2 (n + 2)) (kappa t/2)^n for sigma = K strain^n (Hosford and Caddell)."""
    strength, n = 700.0, 0.25
    rigid = Law(1e12, 1.0, strength, 1e-12, n, 0.0)
    table = rectangle_table(rigid, T, 0.2, 97, 0.0)
    moment, _ = moment_energy(table, 0.1)
    expected = strength * T**2 / (2.0 * (n + 2.0)) * (0.1 * T / 2.0) ** n
    assert moment == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize("section", ["slice", "round"])
def test_hardening_section_against_its_fibres(section: SectionState) -> None:
    """Own integral: the stress of every fibre, summed by adaptive quadrature."""
    law = Law(E, 1.0, HARDENING.strength, HARDENING.offset, HARDENING.exponent, 0.0)
    kappa = 0.05

    def stress(strain: float) -> float:
        low, high = 0.0, strain
        for _ in range(60):
            p = 0.5 * (low + high)
            sigma = law.strength * (law.offset + p) ** law.exponent
            low, high = (p, high) if p + sigma / E < strain else (low, p)
        return min(law.strength * (law.offset + low) ** law.exponent, E * strain)

    def width(y: float) -> float:
        return 1.0 if section == "slice" else 2.0 * math.sqrt(max(T**2 / 4.0 - y**2, 0.0))

    core = HARDENING.yield_stress / (E * kappa)
    summed, _ = quad(lambda y: 2.0 * stress(kappa * y) * y * width(y), 0.0, T / 2.0, points=[core])
    if section == "slice":
        table = rectangle_table(law, T, kappa, 385, 0.0)
    else:
        table = round_table(law, T, kappa, 97)
    assert table.moment[-1] == pytest.approx(summed, rel=1e-5)


def test_plane_strain_is_stronger_and_stiffer() -> None:
    """2/sqrt 3 on the plastic moment and 1/(1 - nu^2) on the stiffness, by von Mises and Hooke."""
    narrow = build(evolve(SOFT_BEAM, width_state=0.0), THIN).table
    wide = build(evolve(SOFT_BEAM, width_state=1.0), THIN).table
    assert wide.stiffness / narrow.stiffness == pytest.approx(1.0 / 0.91, rel=1e-12)
    assert wide.moment[0] / narrow.moment[0] == pytest.approx(2.0 / math.sqrt(3.0), rel=1e-12)


@pytest.mark.parametrize("flow", [HARDENING, LITTLE_HARDENING], ids=["hardening", "little"])
@pytest.mark.parametrize("section", ["slice", "round"])
def test_energy_is_the_integral_of_curvature_over_moment(
    flow: FlowCurve, section: SectionState
) -> None:
    """U(M) = Int kappa dM = kappa M - Int M dkappa, by parts."""
    table = build(evolve(BRACKET, flow=flow, section=section)).table
    first = math.exp(table.start)
    for kappa in (1.5 * first, 5.0 * first, 0.99 * float(curvatures(table)[-1])):
        moment, energy = moment_energy(table, kappa)
        # In ln kappa, cell by cell, so that the adaptive sum meets no corner.
        cells = [*np.arange(table.start, math.log(kappa), table.step), math.log(kappa)]
        under = table.stiffness * first**2 / 2.0
        for low, high in pairwise(cells):
            part, _ = quad(lambda x: moment_energy(table, math.exp(x))[0] * math.exp(x), low, high)
            under += part
        assert energy == pytest.approx(kappa * moment - under, rel=1e-6)


@pytest.mark.parametrize("share", [0.03, 0.1, 0.25, 0.45])
def test_section_springback_of_a_perfectly_plastic_bar(share: float) -> None:
    """R_i/R_f = 4 X^3 - 3 X + 1 with X = R Y/(E t) (Kalpakjian and Schmid), mid-line radius."""
    kappa = YIELD_CURVATURE / (2.0 * share)
    table = rectangle_table(PERFECT, T, kappa, 25, 0.0)
    left = forms.residual_curvature(kappa, float(table.moment[-1]), table.stiffness)
    assert left / kappa == pytest.approx(4.0 * share**3 - 3.0 * share + 1.0, abs=1e-12)
    radius = share * E * T / YIELD
    assert left / kappa == pytest.approx(springback_radius_ratio(radius, YIELD, E, T), abs=1e-12)


# The beam between nose and shoulders.


@pytest.mark.parametrize(("thickness", "shoulder"), [(6.0, 1e-9), (6.0, 12.0), (2.0, 5.0)])
def test_elastic_stiffness_as_the_slope_goes_to_nought(thickness: float, shoulder: float) -> None:
    """48 E I/L^3, any strength-of-materials text, and how it is left.

    To first order in the slope a the span shortens by 2 A a, with A = r_s + t/2, which stiffens
    by 6 A a/W; and the mid-line of the legs rises by A a^2/2 as it rolls round the shoulder, which
    is 3 A a/(2 W) of the travel a W/3.  Together 4.5 A a/W (own expansion).
    """
    stiff = evolve(
        SOFT_BEAM, thickness=thickness, shoulder_radius=shoulder, flow=perfectly_plastic(1e4)
    )
    closed = forms.three_point_stiffness(E * thickness**3 / 12.0, stiff.opening)
    arm = shoulder + 0.5 * thickness
    for slope in (1e-4, 1e-3):
        point = at_slope(stiff, THIN, slope)
        excess = point.force / point.travel / closed - 1.0
        # The second order is of the size of the slope squared, times a few.
        first = 4.5 * arm * slope / stiff.opening
        assert excess == pytest.approx(first, abs=10.0 * slope**2 + 1e-6)
        assert point.free == pytest.approx(0.0, abs=1e-15)


def test_plane_strain_slice_and_rod_in_the_elastic_limit() -> None:
    stiff = evolve(SOFT_BEAM, flow=perfectly_plastic(1e4))
    wide = at_slope(evolve(stiff, width_state=1.0), THIN, 1e-4)
    flat = forms.three_point_stiffness(E * 2.0**3 / 12.0 / 0.91, 60.0)
    assert wide.force / wide.travel == pytest.approx(flat, rel=2e-5)
    rod = at_slope(evolve(stiff, section="round", width_state=None), THIN, 1e-4)
    closed = forms.three_point_stiffness(E * math.pi * 2.0**4 / 64.0, 60.0)
    assert rod.force / rod.travel == pytest.approx(closed, rel=2e-5)


def test_elastic_shear_adds_its_compliance() -> None:
    """Timoshenko beam: 1.2 F L/(4 G A) on the deflection, with G = E/(2 (1 + nu))."""
    stiff = evolve(SOFT_BEAM, flow=perfectly_plastic(1e4))
    bare = at_slope(stiff, THIN, 1e-4)
    sheared = at_slope(stiff, evolve(THIN, shear=True), 1e-4)
    modulus = E / (2.0 * 1.3)
    added = 1.2 * bare.force * 60.0 / (4.0 * modulus * 2.0)
    assert sheared.travel - bare.travel == pytest.approx(added, rel=1e-9)


@pytest.mark.parametrize("load", [1.05, 1.2, 1.35, 1.45])
def test_elastic_plastic_beam(load: float) -> None:
    """Deflection (P_y/P)^2 [5 - (3 + P/P_y) sqrt(3 - 2 P/P_y)] of that at first yield.

    The end slope is the own integral of kappa = kappa_y/sqrt(3 - 2 m) along the beam,
    (kappa_y L/2)(1.5 - sqrt(3 - 2 p))/p, and what springs back is the elastic slope
    p kappa_y L/4, with p = P/P_y.
    """
    beam = SOFT_BEAM
    yield_load = forms.three_point_yield_load(
        forms.rectangle_elastic_modulus(1.0, 2.0), 2.0, beam.opening
    )
    stiffness = forms.three_point_stiffness(E * 2.0**3 / 12.0, beam.opening)
    first = yield_load / stiffness
    turn = 2.0 * 2.0 / (E * 2.0) * beam.opening / 2.0  # kappa_y L/2
    slope = turn * (1.5 - math.sqrt(3.0 - 2.0 * load)) / load
    point = at_slope(beam, evolve(THIN, nodes=385, plastic_nodes=96), slope)
    assert point.force / yield_load == pytest.approx(load, rel=3e-4)
    expected = forms.three_point_deflection_ratio(load)
    assert point.travel / first == pytest.approx(expected, rel=1e-3)
    assert point.free == pytest.approx(slope - load * turn / 2.0, rel=2e-3)


@pytest.mark.parametrize("shoulder", [1e-9, 9.0])
def test_collapse_load_on_the_reduced_arm(shoulder: float) -> None:
    """4 M_p over the span that is left, any text on plastic design, just past full plasticity.

    Round the shoulders the push is square to the leg, so the moment in the middle is
    P (X cos a + Y sin a) with X, Y the extent of the leg: nearly straight from the contact.
    """
    beam = evolve(SOFT_BEAM, thickness=6.0, shoulder_radius=shoulder, flow=perfectly_plastic(YIELD))
    model = build(beam, THIN)
    curve = curve_of(model, 400, most=0.1)
    past = int(np.argmax(curve.nose_curvature > 17.0 * YIELD_CURVATURE))
    slope = 0.5 * float(curve.loaded_angle[past])
    reduced = beam.opening - 2.0 * (shoulder + 3.0) * math.sin(slope)
    collapse = closed_forms.three_point_collapse_load(
        closed_forms.rectangle_plastic_modulus(1.0, 6.0), YIELD, reduced
    )
    assert 0.0 < slope < 0.06
    # The elastic core left at 17 yield curvatures lacks 0.12 %, and the legs' slope 2 sin(a)^2.
    lacking = 1.0 - 1.0 / (3.0 * 17.0**2)
    assert curve.force[past] == pytest.approx(collapse * lacking * math.cos(slope) ** 2, rel=1e-3)


@pytest.mark.parametrize("friction", [0.0, 0.1, 0.2])
def test_the_moment_falls_inside_the_wrapped_zone(friction: float) -> None:
    """Statics of the piece of bar between the flanks on which a big nose rides (own integral).

    The nose presses with N and drags with mu N at the slope b where the bar leaves it; the push P
    of the shoulder gives N from the balance upwards and the axial force H in the middle from the
    balance sideways.  Inside, the moment is less by mu N t/2 and by H times the height that is
    left to the flank.  That this sets in over half a thickness of wrapping is a fit, and so is the
    share of it that comes about.  Without friction H is a pull and the balance would raise the
    moment; the solver then keeps it even.
    """
    setup = evolve(BRACKET, nose_radius=19.05, shoulder_radius=4.0, friction=friction)
    slope = 0.75
    for share in (0.0, 0.5, 1.0):
        effects = evolve(THIN, drop=share)
        model = build(setup, effects)
        t, bending = setup.thickness, model.table.stiffness
        point = at_slope(setup, effects, slope)
        leg = try_leg(
            model.frame, model.table, model.rule, slope, point.root, nose_curvature(model.frame)
        )
        assert point.wrap > 0.5 * t
        kappa, b, delta = point.curvature, leg.beta, slope - math.atan(friction)
        normal = leg.push * math.cos(delta) / (math.cos(b) - friction * math.sin(b))
        axial = normal * (math.sin(b) + friction * math.cos(b)) - leg.push * math.sin(delta)

        def fall(
            theta: float, k: float = kappa, b: float = b, n: float = normal, h: float = axial
        ) -> float:
            return friction * n * setup.thickness / 2.0 + h * (math.cos(theta) - math.cos(b)) / k

        fallen, _ = quad(lambda theta: fall(theta) / kappa, 0.0, b)  # noqa: B023  called here
        assert (fallen > 0.0) == (friction > 0.0)
        fallen = share * max(fallen, 0.0) * (1.0 - math.exp(-point.wrap / (0.5 * t)))
        back = leg.elastic_sum + leg.plastic_sum + leg.moment_nose * point.wrap - fallen
        assert point.free == pytest.approx(slope - back / bending, rel=1e-9)


# How the sums converge.


@pytest.mark.parametrize("flow", [HARDENING, LITTLE_HARDENING], ids=["hardening", "little"])
def test_gauss_sums_along_the_leg_converge_fast(flow: FlowCurve) -> None:
    setup = evolve(BRACKET, flow=flow)
    fine = evolve(THIN, zone=FITTED.zone, nodes=385, elastic_nodes=40)
    best = at_slope(setup, evolve(fine, plastic_nodes=96), 0.4)
    errors = [
        abs(at_slope(setup, evolve(fine, plastic_nodes=nodes), 0.4).force / best.force - 1.0)
        for nodes in (3, 6, 12, 24)
    ]
    # Smooth integrand: doubling the nodes does far better than a power of them, down to the floor
    # of the root, which is closed to 1e-7 of the opening.
    assert errors[0] > 1e-3
    assert errors[1] < 0.01 * errors[0]
    assert max(errors[2:]) < 1e-5


@pytest.mark.parametrize("flow", [HARDENING, LITTLE_HARDENING], ids=["hardening", "little"])
def test_section_table_converges_to_second_order(flow: FlowCurve) -> None:
    law = Law(E, 1.0, flow.strength, flow.offset, flow.exponent, 0.0)
    best = rectangle_table(law, T, 0.1, 6145, 0.0)
    for part in ("moment", "energy"):
        whole = getattr(best, part)[-1]
        errors = [
            abs(getattr(rectangle_table(law, T, 0.1, nodes, 0.0), part)[-1] / whole - 1.0)
            for nodes in (25, 49, 97, 193)
        ]
        # The trapezoid in the elastic share of the strain decides the order.
        for coarse, finer in pairwise(errors):
            assert coarse / finer == pytest.approx(4.0, rel=0.1)
        assert errors[-1] < 3e-6


@pytest.mark.parametrize("flow", [HARDENING, LITTLE_HARDENING], ids=["hardening", "little"])
@pytest.mark.parametrize("nose", [4.0, 12.7, 20.0])
@pytest.mark.parametrize("section", ["slice", "round"])
def test_the_set_in_use_is_converged(section: SectionState, nose: float, flow: FlowCurve) -> None:
    """Promised: 3e-4 in force, 0.0005 deg in the free angle."""
    setup = evolve(BRACKET, section=section, nose_radius=nose, flow=flow)
    best = evolve(FITTED, nodes=1537, plastic_nodes=150, elastic_nodes=40)
    for slope in (0.1, 0.4, 0.6):
        used, converged = at_slope(setup, FITTED, slope), at_slope(setup, best, slope)
        assert used.force == pytest.approx(converged.force, rel=3e-4)
        assert math.degrees(2.0 * used.free) == pytest.approx(
            math.degrees(2.0 * converged.free), abs=5e-4
        )


def test_the_gauss_rules_are_exact_for_polynomials() -> None:
    rule = gauss(5, 12)
    (elastic_x, elastic_w), (plastic_x, plastic_w) = (
        rule.nodes[:, : rule.elastic],
        rule.nodes[:, rule.elastic :],
    )
    assert elastic_w @ elastic_x**9 == pytest.approx(0.1, rel=1e-13)
    assert plastic_w @ plastic_x**23 == pytest.approx(1.0 / 24.0, rel=1e-13)


def test_a_thinned_section_joins_the_elastic_bar_at_first_yield() -> None:
    """Without a step, and as steep as its own cubic says; thinning counts from there on."""
    law = Law(E, 1.0, 1550.0, 0.0021, 0.14, 0.0)
    thinned, plain = (rectangle_table(law, T, 0.03, 97, share) for share in (0.357, 0.0))
    elastic = thinned.stiffness * math.exp(thinned.start)
    assert thinned.moment[0] == pytest.approx(elastic, rel=1e-12)
    rises = np.gradient(thinned.moment, thinned.step)[2:-2]
    assert thinned.rise[2:-2] == pytest.approx(rises, rel=2e-3)
    assert thinned.moment[-1] < 0.999 * plain.moment[-1]


def test_a_stroke_goes_through_first_yield_where_friction_is_great() -> None:
    """A step there once left this bar, one of the sweep, without an answer from 2 deg on."""
    setup = BendSetup(
        section="flat",
        thickness=8.414664942644285,
        width=53.86153012283697,
        opening=94.04445902063559,
        nose_radius=26.676462671899866,
        shoulder_radius=6.151653103398129,
        friction=0.19090154249946212,
        flow=FlowCurve(
            modulus=205000.0,
            poisson=0.3,
            strength=1550.660867748961,
            offset=0.0021213062759756676,
            exponent=0.14,
        ),
        unloading_ratio=0.8510191172948351,
    )
    model = build(setup)
    assert len(curve_of(model, 100, math.radians(60.0)).travel) == 101
    # As fine as it is asked, past first yield too.
    curve = curve_of(model, 1000, math.radians(5.0))
    assert len(curve.travel) == 1001
    assert float(np.diff(curve.travel).min()) > 0.0
    assert float(np.diff(curve.force).min()) > 0.0

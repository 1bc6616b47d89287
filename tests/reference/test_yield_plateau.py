"""The yield plateau in the section law and in the flow curve of a lot, against sums by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from attrs import evolve
from scipy.integrate import quad

from strapwright.bending import BendSetup, FlowCurve, solve_curve
from strapwright.bending.bar_lot import known_metal, swift_through
from strapwright.bending.kernel_hoop_stress import Law, hoop_stress
from strapwright.bending.kernel_levelled import level
from strapwright.bending.kernel_sample import (
    DRAW_COLUMNS,
    FORCE_OUT,
    PLATEAU,
    STRENGTH,
    THICKNESS,
    UNLOADING,
    push_draws,
)
from strapwright.bending.kernel_section import rectangle_table, round_table
from strapwright.bending.solver_model import FITTED, kernel_inputs, rule_for
from strapwright.catalog import find_material
from strapwright.errors import InputError
from strapwright.shop.bar import Lot

E, YIELD, T = 2e5, 290.0, 5.0
END = 0.015
# Linear hardening past the plateau, so that the moment has a closed form.
WITH_PLATEAU = Law(E, 1.0, YIELD, 1.0, 0.0, 1500.0, plateau=END)
HOT_ROLLED = FlowCurve(
    modulus=E, poisson=0.3, strength=746.0, offset=0.008875, exponent=0.2, plateau=END
)


def moment_by_hand(kappa: float) -> float:
    """Core, plateau and hardening rim of a rectangle, each integrated by hand [N mm/mm].

    The rim starts where the total strain is END + Y/E; past it the stress rises by the tangent
    H/(1 + H/E) of the total strain.
    """
    half, core = 0.5 * T, YIELD / (E * kappa)
    rim = (END + YIELD / E) / kappa
    flat = YIELD * (half**2 - core**2 / 3.0)
    if rim >= half:
        return flat
    tangent = 1500.0 / (1.0 + 1500.0 / E)
    rising = (half**3 - rim**3) / 3.0 - rim * (half**2 - rim**2) / 2.0
    return flat + 2.0 * tangent * kappa * rising


def test_the_moment_of_a_bar_with_a_plateau() -> None:
    table = rectangle_table(WITH_PLATEAU, T, 0.1, 385, 0.0)
    kappa = np.exp(table.start + table.step * np.arange(len(table.moment)))
    by_hand = [moment_by_hand(float(k)) for k in kappa]
    assert table.moment == pytest.approx(by_hand, rel=2e-4)
    # Where the outer fibre leaves the plateau: e = END + Y/E at t/2.
    at = table.start + table.step * table.kink
    assert math.exp(at) == pytest.approx((END + YIELD / E) / (0.5 * T), rel=1e-9)


def test_a_rod_with_a_plateau_by_summing_its_fibres() -> None:
    table = round_table(WITH_PLATEAU, T, 0.1, 97)
    kappa = math.exp(table.start + table.step * 96)

    def fibre(y: float) -> float:
        strain = kappa * y
        if strain <= YIELD / E:
            stress = E * strain
        elif strain <= END + YIELD / E:
            stress = YIELD
        else:
            stress = YIELD + 1500.0 / (1.0 + 1500.0 / E) * (strain - END - YIELD / E)
        return 4.0 * stress * y * math.sqrt(0.25 * T * T - y * y)

    bends = [YIELD / E / kappa, (END + YIELD / E) / kappa]
    summed = quad(fibre, 0.0, 0.5 * T, points=bends)[0]
    assert table.moment[-1] == pytest.approx(summed, rel=2e-3)


def test_the_upper_yield_falls_to_the_plateau() -> None:
    law = WITH_PLATEAU._replace(peak=60.0, peak_gone=0.005)
    assert hoop_stress(law, 0.0) == pytest.approx(350.0)
    assert hoop_stress(law, 0.0025) == pytest.approx(320.0)
    assert hoop_stress(law, 0.01) == pytest.approx(YIELD)


def test_a_moment_that_falls_is_levelled_at_the_same_work() -> None:
    """A hump and a hollow of equal area: the level lies midway, and the work stays."""
    x = np.linspace(0.0, 2.0, 801)
    kappa = np.exp(x)
    moment = 10.0 + 0.5 * (kappa - kappa[0]) + np.sin(kappa)
    rise = np.gradient(moment, x)
    levelled, slope = moment.copy(), rise.copy()
    level(levelled, slope, 0.0, x[1] - x[0], 1e-9)
    assert (np.diff(levelled) >= 0.0).all()
    flat = slope < 1e-6 * levelled
    assert flat.sum() > 50
    first, last = np.flatnonzero(flat)[[0, -1]]
    width = np.diff(kappa[first : last + 1])
    mean = 0.5 * (moment[first:last] + moment[first + 1 : last + 1])
    assert (mean * width).sum() == pytest.approx(levelled[first] * width.sum(), rel=2e-3)
    # One that rises throughout is left alone.
    rising = 1.0 + x
    level(rising, np.ones_like(x), 0.0, x[1] - x[0], 1e-9)
    assert np.array_equal(rising, 1.0 + x)


def test_the_flow_curve_of_a_lot_with_a_plateau_necks_at_its_tensile_strength() -> None:
    """Greatest load per first area over the strain, found on a fine grid (Considere)."""
    flow = swift_through(E, 0.3, 300.0, 450.0, 0.2, plateau=0.018)
    assert flow.yield_stress == pytest.approx(300.0, rel=1e-9)
    p = np.linspace(0.0, 0.6, 600001)
    q = np.maximum(p - flow.plateau, 0.0)
    stress = flow.strength * (flow.offset + q) ** flow.exponent
    load = stress * np.exp(-(p + stress / E))
    assert load.max() == pytest.approx(450.0, rel=1e-6)
    # The same strengths without a plateau harden from the start.
    plain = swift_through(E, 0.3, 300.0, 450.0, 0.2)
    assert plain.strength * (plain.offset + 0.015) ** 0.2 > 1.1 * 300.0


def test_force_with_a_plateau_is_lower_in_the_middle_of_the_stroke() -> None:
    setup = BendSetup(
        section="slice",
        thickness=T,
        width=1.0,
        width_state=1.0,
        opening=40.0,
        nose_radius=7.5,
        shoulder_radius=5.0,
        friction=0.1,
        flow=HOT_ROLLED,
    )
    coarse, fine = (
        solve_curve(setup, 30, evolve(FITTED, plastic_nodes=nodes)) for nodes in (12, 96)
    )
    assert coarse.force[1:] == pytest.approx(fine.force[1:], rel=3e-4)
    assert np.degrees(coarse.free_angle) == pytest.approx(np.degrees(fine.free_angle), abs=2e-3)


def test_what_a_lot_says_of_its_plateau_goes_before_the_catalog() -> None:
    material = find_material("A36 hot rolled", "material")
    usual = known_metal(material, Lot())
    assert usual.flow.plateau == material.plateau > 0.0
    assert usual.plateau_spread == material.plateau_spread
    none = known_metal(material, Lot(plateau=0.0))
    assert (none.flow.plateau, none.plateau_spread) == (0.0, 0.0)
    assert known_metal(find_material("1018 cold drawn", "material"), Lot()).flow.plateau == 0.0
    upper = known_metal(material, Lot(yield_strength=300.0, upper_yield=345.0)).flow
    assert upper.peak == pytest.approx(45.0)
    with pytest.raises(
        InputError, match=r"lot.upper_yield: 290 MPa \(42.06 ksi\) must be more than"
    ):
        known_metal(material, Lot(yield_strength=300.0, upper_yield=290.0))
    known_metal(material, Lot(yield_strength=300.0, upper_yield=599.0))
    with pytest.raises(
        InputError, match=r"lot.upper_yield: 601 MPa .* is more than 2 times the yield strength"
    ):
        known_metal(material, Lot(yield_strength=300.0, upper_yield=601.0))
    with pytest.raises(InputError, match=r"lot.plateau .*far past any yield plateau"):
        known_metal(material, Lot(plateau=0.5))


def test_a_plateau_that_is_not_known_well_widens_the_band_of_the_force() -> None:
    setup = BendSetup(
        section="flat",
        thickness=T,
        width=40.0,
        opening=80.0,
        nose_radius=20.0,
        shoulder_radius=8.0,
        friction=0.1,
        flow=HOT_ROLLED,
    )
    draws = np.zeros((3, DRAW_COLUMNS + 1))
    draws[:, (STRENGTH, THICKNESS, UNLOADING)] = 1.0
    draws[:, PLATEAU] = (-0.02, 0.0, 0.01)  # none at all, as it is, longer
    at, _ = push_draws(
        kernel_inputs(setup),
        FITTED.switches,
        rule_for(setup.flow, FITTED),
        draws=draws,
        travels=np.full((3, 1), 12.0),
        angle=0.0,
        guess=0.3,
    )
    force = at[:, 0, FORCE_OUT]
    assert force[0] > 1.03 * force[1] > 1.03 * force[2]
    plain = solve_curve(evolve(setup, flow=evolve(HOT_ROLLED, plateau=0.0)), 100)
    assert force[0] == pytest.approx(np.interp(12.0, plain.travel, plain.force), rel=1e-3)


def test_an_upper_yield_is_integrated_as_finely_as_its_corners_ask() -> None:
    """A rule of eight nodes was 5 % of force too low late in the stroke."""
    setup = BendSetup(
        section="slice",
        thickness=T,
        width=1.0,
        width_state=1.0,
        opening=40.0,
        nose_radius=7.5,
        shoulder_radius=5.0,
        friction=0.1,
        flow=evolve(HOT_ROLLED, peak=60.0, peak_gone=0.005),
    )
    used = solve_curve(setup, 30)
    fine = solve_curve(setup, 30, evolve(FITTED, plastic_nodes=400, nodes=385))
    assert used.force[3:] == pytest.approx(fine.force[3:], rel=3e-3)
    # Late in the stroke nothing is left of it.
    plain = solve_curve(evolve(setup, flow=HOT_ROLLED), 30)
    late = np.interp(12.0, plain.travel, plain.force)
    assert np.interp(12.0, used.travel, used.force) == pytest.approx(late, rel=5e-3)

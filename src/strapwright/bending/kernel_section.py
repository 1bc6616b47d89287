"""Section law: moment against curvature of one bar section, as a table for the stroke solver.

Plane sections give, for a rectangle, ``M = (2/kappa^2) Int_0^{kappa t/2} sigma e de`` per mm of
width, so one cumulative integral over the plastic strain builds the whole table without a Newton
step in the moment.  The round section integrates its fibres.  The table is uniform in
``x = ln kappa`` from first yield to the curvature of the nose; between nodes the moment is the
cubic with the exact slopes, and the complementary energy is the integral of that same cubic, so
force and shape are consistent to rounding.

Compiled; plain floats and arrays only.  Forces per mm of width (rectangle) or whole (round).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from strapwright.bending.kernel_hoop_stress import (
    Law,
    hoop_stress,
    plastic_strain,
    stress_and_rise,
)
from strapwright.bending.kernel_levelled import level
from strapwright.compiled import jit

Floats = NDArray[np.float64]

# Three-point Gauss rule on 0..1, exact.
_G3 = (0.5 - math.sqrt(0.15), 0.5, 0.5 + math.sqrt(0.15))
_W3 = (5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0)
# The smallest share of hardening kept: below it the energy could not be inverted at all, and a
# larger one costs force on a metal without hardening; numerical.
LEAST_SLOPE = 0.002


class Table(NamedTuple):
    """Section law at nodes uniform in ln(curvature), from first yield.

    ``start`` = ln kappa_y, ``step`` [-]; ``moment``, ``rise`` = dM/d ln kappa, ``energy`` =
    Int kappa dM, ``energy_rise`` = dU/d ln kappa, ``compliance`` on letting go over that of fresh
    metal, shape (nodes,); ``stiffness`` EI; ``kink`` where the outer fibre leaves the plateau, in
    nodes from the first [-]; ``cells`` the same between nodes as powers, columns as named below,
    shape (nodes - 1, 10).
    """

    start: float
    step: float
    moment: Floats
    rise: Floats
    energy: Floats
    energy_rise: Floats
    compliance: Floats
    stiffness: float
    kink: float
    cells: Floats


class Section(NamedTuple):
    """What a leg takes of a table; every array that is handed on costs as much as some nodes."""

    start: float
    step: float
    stiffness: float
    kink: float
    cells: Floats


# Columns of a cell: powers of the share s of its interval, of moment, energy and compliance.
MOMENT, ENERGY, SOFTER = 0, 4, 8
_COLUMNS = 10


@jit
def section_of(table: Table) -> Section:
    """Take what a leg needs."""
    return Section(
        start=table.start,
        step=table.step,
        stiffness=table.stiffness,
        kink=table.kink,
        cells=table.cells,
    )


@jit
def cubic_value(values: Floats, slopes: Floats, i: int, s: float, step: float) -> float:
    """Cubic through nodes i and i+1 with their slopes per unit x, at share s of the interval."""
    r = 1.0 - s
    left = (1.0 + 2.0 * s) * float(values[i]) + s * step * float(slopes[i])
    right = (3.0 - 2.0 * s) * float(values[i + 1]) - r * step * float(slopes[i + 1])
    return r * r * left + s * s * right


@jit
def cubic_slope(values: Floats, slopes: Floats, i: int, s: float, step: float) -> float:
    """Slope d/dx of the cubic of :func:`cubic_value`."""
    chord = (float(values[i + 1]) - float(values[i])) / step
    ends = (1.0 - s) * (1.0 - 3.0 * s) * float(slopes[i]) + s * (3.0 * s - 2.0) * float(
        slopes[i + 1]
    )
    return 6.0 * s * (1.0 - s) * chord + ends


@jit
def unloading_compliance(law: Law, ratio: float) -> float:
    """How much softer a bent section lets go than fresh metal, at ``ratio`` kappa/kappa_y [-].

    Mean of the local modulus over the depth, weighed with y^2, in closed form: the plastic strain
    grows linearly from the edge of the elastic core.  For a round section this weighs the rim a
    little too much.
    """
    a = law.unloading_rate * hoop_stress(law, 0.0) / law.modulus * ratio
    b = a / ratio
    if a < 1e-3:
        return 1.0
    kept = b * b + 2.0 * b + 2.0 - math.exp(b - a) * (a * a + 2.0 * a + 2.0)
    kept = 1.0 / ratio**3 + 3.0 * kept / a**3
    return 1.0 / (1.0 - (1.0 - law.unloading) * (1.0 - kept))


@jit
def _kink(law: Law, step: float) -> float:
    """Where the outer fibre leaves the plateau, in nodes from first yield; 0 without one [-]."""
    if law.plateau <= 0.0:
        return 0.0
    p = law.plateau / law.gamma
    e = p + hoop_stress(law, p) / law.modulus
    return math.log(e * law.modulus / hoop_stress(law, 0.0)) / step


@jit
def _cubic_cell(
    cell: Floats, at: int, first: float, last: float, leaves: float, comes: float
) -> None:
    """Write the cubic between two nodes as powers of the share of the interval.

    ``leaves`` and ``comes`` are its slopes there, per interval.
    """
    chord = last - first
    cell[at] = first
    cell[at + 1] = leaves
    cell[at + 2] = 3.0 * chord - 2.0 * leaves - comes
    cell[at + 3] = leaves + comes - 2.0 * chord


@jit
def cell_value(cells: Floats, i: int, at: int, s: float) -> float:
    """Value of the cubic that begins in a column of a cell, at share s of its interval."""
    value: float = cells[i, at] + s * (
        cells[i, at + 1] + s * (cells[i, at + 2] + s * cells[i, at + 3])
    )
    return value


@jit
def _with_energy(
    moment: Floats, rise: Floats, start: float, step: float, ei: float, law: Law
) -> Table:
    """Integrate kappa dM over the cubic through the nodes; elastic part in closed form."""
    n = moment.shape[0]
    energy = np.empty(n)
    energy_rise = np.empty(n)
    energy[0] = moment[0] ** 2 / (2.0 * ei)
    energy_rise[0] = math.exp(start) * rise[0]
    grown = (math.exp(_G3[0] * step), math.exp(_G3[1] * step), math.exp(_G3[2] * step))
    for i in range(n - 1):
        kappa = math.exp(start + i * step)
        total = 0.0
        for k in range(3):
            slope = cubic_slope(moment, rise, i, _G3[k], step)
            total += _W3[k] * grown[k] * slope
        energy[i + 1] = energy[i] + total * kappa * step
        energy_rise[i + 1] = math.exp(start + (i + 1) * step) * rise[i + 1]
    compliance = np.ones(n)
    if law.unloading < 1.0:
        for i in range(n):
            compliance[i] = unloading_compliance(law, math.exp(i * step))
    cells = np.empty((n - 1, _COLUMNS))
    for i in range(n - 1):
        _cubic_cell(cells[i], MOMENT, moment[i], moment[i + 1], step * rise[i], step * rise[i + 1])
        _cubic_cell(
            cells[i],
            ENERGY,
            energy[i],
            energy[i + 1],
            step * energy_rise[i],
            step * energy_rise[i + 1],
        )
        cells[i, SOFTER] = compliance[i]
        cells[i, SOFTER + 1] = compliance[i + 1] - compliance[i]
    return Table(
        start=start,
        step=step,
        moment=moment,
        rise=rise,
        energy=energy,
        energy_rise=energy_rise,
        compliance=compliance,
        stiffness=ei,
        kink=_kink(law, step),
        cells=cells,
    )


@jit
def rectangle_table(
    law: Law, thickness: float, top_curvature: float, nodes: int, thinning: float
) -> Table:
    """Section law of a rectangle per mm of width.

    Parameters
    ----------
    law
        Hoop law of the width state.
    thickness
        [mm]
    top_curvature
        Curvature the table must reach [1/mm].
    nodes
        Number of nodes.
    thinning
        Empirical factor for the bend's thinning, M *= 1 - thinning n_loc (kappa t)^1.5 with what it
        comes to at first yield taken off [-].
    """
    sigma0 = hoop_stress(law, 0.0)
    e_y = sigma0 / law.modulus
    ei = law.modulus * thickness**3 / 12.0
    start = math.log(2.0 * e_y / thickness)
    # A bar that stays elastic around the whole nose still needs an interval to stand on.
    step = max(math.log(top_curvature) - start, 0.1) / (nodes - 1)
    moment = np.empty(nodes)
    rise = np.empty(nodes)
    total = sigma0 * e_y * e_y / 3.0
    p = 0.0
    sigma = sigma0
    e = e_y
    _, hard = stress_and_rise(law, 0.0)
    thinned_yield = thinning * 2.0 * e_y * math.sqrt(2.0 * e_y)
    m_before = 0.0
    local_before = 1.0
    for i in range(nodes):
        if i > 0:
            e_next = e_y * math.exp(i * step)
            # Started where the tangent leads, Newton needs two rounds.
            p_next = plastic_strain(law, e_next, p + (e_next - e) / (1.0 + hard / law.modulus))
            sigma_next, hard = stress_and_rise(law, p_next)
            part = 0.0
            for k in range(3):
                q = p + _G3[k] * (p_next - p)
                s = hoop_stress(law, q)
                part += _W3[k] * s * (q + s / law.modulus)
            total += part * (p_next - p)
            total += 0.5 * (sigma * e + sigma_next * e_next) * (sigma_next - sigma) / law.modulus
            p = p_next
            sigma = sigma_next
            e = e_next
        kappa = 2.0 * e / thickness
        m = 2.0 * total / (kappa * kappa)
        # dM/dkappa = sigma t^2/(2 kappa) - 2 M/kappa follows from the same integral.
        local = sigma * thickness**2 / (2.0 * m) - 2.0
        if law.peak <= 0.0:
            local = max(local, LEAST_SLOPE)
        thinned = thinning * kappa * thickness * math.sqrt(kappa * thickness)
        # Nothing is thinned before first yield: the elastic branch joins there without a step.
        bend = thinned - thinned_yield
        factor = 1.0 - bend * local
        m *= factor
        # d local/d ln kappa = (local + 2) (d ln sigma/d ln kappa - local), by the same formula.
        share = hard / (1.0 + hard / law.modulus) * e / sigma if i > 0 else 1.0
        bent = (local + 2.0) * (share - local) if local > LEAST_SLOPE else 0.0
        local -= (1.5 * thinned * local + bend * bent) / factor
        if law.peak <= 0.0:
            local = max(local, LEAST_SLOPE)
        if i > 0 and local == LEAST_SLOPE:
            # The clamp must show in the moment too, or the energy and the moment part ways.
            m = max(m, m_before * math.exp(0.5 * step * (local + local_before)))
        moment[i] = m
        rise[i] = m * local
        m_before = m
        local_before = local
    if law.peak > 0.0:
        level(moment, rise, start, step, LEAST_SLOPE)
    return _with_energy(moment, rise, start, step, ei, law)


@jit
def round_table(law: Law, diameter: float, top_curvature: float, nodes: int) -> Table:
    """Section law of a solid round, whole section, fibres in the width state of ``law``.

    The elastic core is in closed form over the angle; the yielded part takes a Gauss rule in the
    angle ``y = r sin a``, which is smooth up to the rim.
    """
    radius = 0.5 * diameter
    sigma0 = hoop_stress(law, 0.0)
    e_y = sigma0 / law.modulus
    ei = law.modulus * math.pi * diameter**4 / 64.0
    start = math.log(e_y / radius)
    step = max(math.log(top_curvature) - start, 0.1) / (nodes - 1)
    moment = np.empty(nodes)
    rise = np.empty(nodes)
    cells = 8
    _, first_hard = stress_and_rise(law, 0.0)
    for i in range(nodes):
        kappa = math.exp(start + i * step)
        a0 = math.asin(min(e_y / (kappa * radius), 1.0))
        # Core: E' kappa Int y^2 b dy with b = 2 r cos a; Int sin^2 cos^2 = a/8 - sin(4a)/32.
        core = 4.0 * radius**4 * law.modulus * kappa * (a0 / 8.0 - math.sin(4.0 * a0) / 32.0)
        m = core
        r_m = core
        width = (0.5 * math.pi - a0) / cells
        p = 0.0
        e = e_y
        hard = first_hard
        for c in range(cells):
            for k in range(3):
                a = a0 + (c + _G3[k]) * width
                y = radius * math.sin(a)
                # Started where the tangent of the fibre before leads.
                e_next = max(kappa * y, e_y)
                p = plastic_strain(law, e_next, p + (e_next - e) / (1.0 + hard / law.modulus))
                e = e_next
                s, hard = stress_and_rise(law, p)
                tangent = hard / (1.0 + hard / law.modulus)
                weight = _W3[k] * width * 4.0 * radius**2 * math.cos(a) ** 2
                m += weight * s * y
                r_m += weight * tangent * kappa * y * y
        moment[i] = m
        rise[i] = r_m if law.peak > 0.0 else max(r_m, LEAST_SLOPE * m)
    if law.peak > 0.0:
        level(moment, rise, start, step, LEAST_SLOPE)
    return _with_energy(moment, rise, start, step, ei, law)


@jit
def moment_energy(table: Table, kappa: float) -> tuple[float, float]:
    """Moment and complementary energy at a curvature; elastic below the table, held at its top."""
    if kappa <= 0.0:
        return 0.0, 0.0
    return moment_energy_at(section_of(table), kappa, math.log(kappa))


@jit
def moment_energy_at(table: Section, kappa: float, log_kappa: float) -> tuple[float, float]:
    """The same where the logarithm of the curvature is known; it is more than 0."""
    x = (log_kappa - table.start) / table.step
    if x <= 0.0:
        m = table.stiffness * kappa
        return m, 0.5 * m * kappa
    i = min(int(x), table.cells.shape[0] - 1)
    s = min(x - i, 1.0)
    return cell_value(table.cells, i, MOMENT, s), cell_value(table.cells, i, ENERGY, s)


@jit
def softness(table: Table, kappa: float) -> float:
    """Compliance on letting go over that of fresh metal at a curvature [-]."""
    return softness_at(section_of(table), kappa)


@jit
def softness_at(section: Section, kappa: float) -> float:
    """Do the same with what a leg takes of a table."""
    if kappa <= 0.0:
        return 1.0
    x = (math.log(kappa) - section.start) / section.step
    if x <= 0.0:
        return 1.0
    i = min(int(x), section.cells.shape[0] - 1)
    s: float = min(x - i, 1.0)
    return float(section.cells[i, SOFTER] + s * section.cells[i, SOFTER + 1])

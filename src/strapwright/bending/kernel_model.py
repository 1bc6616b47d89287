"""One bend as the kernels take it: frame, section table and limits from plain dimensions.

Shared by single solutions and by the sample behind the band, so that both see the same bar.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from strapwright.bending.kernel_section import Law, Table, rectangle_table, round_table
from strapwright.bending.kernel_stroke import Frame, jam_slope, nose_curvature
from strapwright.bending.section_rule import (
    SAG_CAP,
    flow_exponent,
    narrowness,
    sag_rate,
    width_state,
)
from strapwright.compiled import jit

SLICE = 0
FLAT = 1
ROUND = 2
# A stroke ends a little before the tooling grips the bar: sin(alpha) at this share of the jam.
JAM_SHARE = 0.95


class Inputs(NamedTuple):
    """Dimensions and metal of a bend; units as in ``BendSetup``.

    ``kind`` is ``SLICE``, ``FLAT`` (square included) or ``ROUND``; ``state`` is the width state, or
    negative for the width rule; ``give`` is per newton on the nose.
    """

    kind: int
    thickness: float
    width: float
    state: float
    opening: float
    nose: float
    shoulder: float
    friction: float
    modulus: float
    poisson: float
    strength: float
    offset: float
    exponent: float
    slope: float
    unloading: float
    give: float
    bars: float


class Switches(NamedTuple):
    """Effects beyond the thin bar, as in ``Effects``."""

    offset: float
    zone: float
    thinning: float
    shear: float
    nodes: int


@jit
def assemble(inputs: Inputs, switches: Switches) -> tuple[Frame, Table, float, float]:
    """Return frame, section table, force scale and width state.

    The scale turns kernel force into the force of all bars.
    """
    t = inputs.thickness
    n = flow_exponent(inputs.strength, inputs.offset, inputs.exponent, inputs.slope)
    state = inputs.state
    sag = 0.0
    if inputs.kind == FLAT:
        u = narrowness(inputs.width, t, inputs.opening, n)
        sag = sag_rate(u, t, inputs.opening)
        if state < 0.0:
            state = width_state(u)
    elif inputs.kind == ROUND:
        state = 0.0
    state = max(state, 0.0)
    e = inputs.modulus
    modulus = e * (1.0 - state) + state * e / (1.0 - inputs.poisson**2)
    gamma = 1.0 + state * (2.0 / math.sqrt(3.0) - 1.0)
    law = Law(modulus, gamma, inputs.strength, inputs.offset, inputs.exponent, inputs.slope)
    scale = inputs.bars
    force = 1.0
    springback = 1.0
    dent = 0.0
    shear = 1.2 * inputs.opening * 2.0 * (1.0 + inputs.poisson) / (4.0 * e * t)
    if inputs.kind == ROUND:
        # Finite elements of whole rods: force x 1.02 at W/d 8 to x 1.05 at W/d 5.3, springback
        # x 1.10, dents at the contacts 0.014 d.
        share = min(max((8.0 - inputs.opening / t) / (8.0 - 5.3), 0.0), 1.0)
        force = 1.02 + 0.03 * share
        springback = 1.10
        dent = 0.014 * t
        shear *= (10.0 / 9.0) / 1.2 * 4.0 / (math.pi * t)
    else:
        scale *= inputs.width
    frame = Frame(
        t,
        inputs.opening,
        inputs.nose,
        inputs.shoulder,
        inputs.friction,
        switches.offset,
        switches.zone,
        shear * switches.shear,
        inputs.give * scale,
        sag,
        SAG_CAP,
        dent,
        inputs.unloading,
        springback,
        force,
    )
    top = nose_curvature(frame) * (1.0 + 1e-9)
    if inputs.kind == ROUND:
        table = round_table(law, t, top, switches.nodes)
    else:
        table = rectangle_table(law, t, top, switches.nodes, switches.thinning)
    return frame, table, scale, state


@jit
def top_slope(frame: Frame) -> float:
    """Largest leg slope asked for: short of the jam, and never past 85 deg a side [rad]."""
    return min(math.asin(JAM_SHARE * math.sin(jam_slope(frame))), math.radians(85.0))

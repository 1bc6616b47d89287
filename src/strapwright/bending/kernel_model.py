"""One bend as the kernels take it: frame, section table and limits from plain dimensions.

Shared by single solutions and by the sample behind the band, so that both see the same bar.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from strapwright.bending.kernel_frame import Frame, jam_slope, nose_curvature
from strapwright.bending.kernel_section import Law, Table, rectangle_table, round_table
from strapwright.bending.kernel_width_rule import (
    SAG_CAP,
    SAG_END,
    flow_exponent,
    narrowness,
    sag_rate,
    width_state,
)
from strapwright.compiled import jit

SLICE = 0
FLAT = 1
ROUND = 2
# A stroke ends a little before the tooling grips the bar: sin(alpha) at this share of the jam
# (common practice, no source).
JAM_SHARE = 0.95
# A bar clings to the nose tip in full up to the first hardening exponent and not at all from the
# second: finite elements show it with n = 0.01 and none of it with n = 0.08.
CLINGS, CLINGS_NOT = 0.02, 0.06
# By how much it may then exceed the nose's curvature; the slope at which it lets go limits it.
# Fitted on one case.
CLINGING_CURVATURE = 1.5
# At the latest it lets go at this share of the slope at which the tooling jams; likewise.
LETTING_GO_BY = 0.75


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
    unloading_rate: float
    give: float
    bars: float


class Switches(NamedTuple):
    """Effects beyond the thin bar, as in ``Effects``."""

    offset: float
    zone: float
    rounding: float
    thinning: float
    squeeze: float
    squeeze_narrow: float
    squeeze_slope: float
    narrow_loss: float
    turning: float
    grip: float
    flank_gap: float
    spread: float
    sag_back: float
    hinge: float
    hinge_offset: float
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
    law = Law(
        modulus=modulus,
        gamma=gamma,
        strength=inputs.strength,
        offset=inputs.offset,
        exponent=inputs.exponent,
        slope=inputs.slope,
        unloading=inputs.unloading,
        unloading_rate=inputs.unloading_rate,
    )
    scale = inputs.bars
    springback = 1.0
    stubby = 2.0 * t / inputs.opening
    force = 1.0 - switches.narrow_loss * (1.0 - state) * stubby * stubby
    shear = 1.2 * inputs.opening * 2.0 * (1.0 + inputs.poisson) / (4.0 * e * t)
    if inputs.kind == ROUND:
        # Finite elements of whole rods: in all force x 1.02 at W/d 8 to x 1.05 at W/d 5.3; their
        # springback x 1.10 was found before the push on the flanks was spread; x 1.02 is left.
        share = min(max((8.0 - inputs.opening / t) / (8.0 - 5.3), 0.0), 1.0)
        force = 1.02 + 0.03 * share
        springback = 1.02
        shear *= (10.0 / 9.0) / 1.2 * 4.0 / (math.pi * t)
    else:
        scale *= inputs.width
    clinging = 0.0
    if switches.hinge > 0.0:
        clinging = min(max((CLINGS_NOT - n) / (CLINGS_NOT - CLINGS), 0.0), 1.0)
    # The hinge turns by its length over the radius it takes; near a jam the flanks come first.
    reach = inputs.nose + inputs.shoulder + t
    letting_go = min(
        switches.hinge * t / (inputs.nose + 0.5 * t),
        LETTING_GO_BY * math.asin(min(0.5 * inputs.opening / reach, 1.0)),
    )
    # Turned by alpha, the lower face moves outwards by alpha t/2; the bend shortens the span by
    # half the integral of the slope squared, and the slope of a leg whose moment falls evenly to
    # nothing is alpha (1 - y^m) with m = 1 + 1/n.  Where the second outruns the first:
    m = 1.0 + 1.0 / max(n, 0.01)
    turning = t / ((1.0 - 2.0 / (m + 1.0) + 1.0 / (2.0 * m + 1.0)) * inputs.opening)
    frame = Frame(
        thickness=t,
        opening=inputs.opening,
        nose=inputs.nose,
        shoulder=inputs.shoulder,
        friction=inputs.friction,
        turning=turning * switches.turning,
        offset=switches.offset,
        zone=switches.zone,
        rounding=switches.rounding,
        clinging=clinging,
        letting_go=letting_go,
        clinging_offset=switches.hinge_offset,
        shear=shear * switches.shear,
        give=inputs.give * scale,
        squeeze=t * (switches.squeeze + switches.squeeze_narrow * (1.0 - state)),
        squeeze_slope=switches.squeeze_slope,
        sag=sag,
        sag_cap=SAG_CAP,
        sag_back=switches.sag_back,
        sag_end=SAG_END,
        grip=switches.grip,
        flank_gap=switches.flank_gap,
        spread=switches.spread,
        springback=springback,
        force=force,
    )
    # A bar that clings to the tip bends tighter than the nose until it lets go.
    top = nose_curvature(frame) * (1.0 + 1e-9 + CLINGING_CURVATURE * clinging)
    if inputs.kind == ROUND:
        table = round_table(law, t, top, switches.nodes)
    else:
        table = rectangle_table(law, t, top, switches.nodes, switches.thinning)
    return frame, table, scale, state


@jit
def top_slope(frame: Frame) -> float:
    """Largest leg slope asked for: short of the jam, and never past 85 deg a side [rad]."""
    return min(math.asin(JAM_SHARE * math.sin(jam_slope(frame))), math.radians(85.0))

"""One bend as the kernels take it: frame, section table and limits from plain dimensions.

Shared by single solutions and by the sample behind the band, so that both see the same bar.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from strapwright.bending.kernel_frame import Frame, jam_slope, nose_curvature
from strapwright.bending.kernel_hoop_stress import Law
from strapwright.bending.kernel_section import Table, rectangle_table, round_table
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
# By how much a bar that clings to the tip may exceed the nose's curvature, for the table's range;
# the slope at which it lets go limits it (the two bars of the finite elements with hardly any
# hardening show up to 1.3).
CLINGING_CURVATURE = 1.5


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
    plateau: float
    peak: float
    peak_gone: float
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
    narrow_slope: float
    narrow_loss: float
    narrow_turn: float
    letting_by: float
    turning: float
    grip: float
    flank_gap: float
    spread: float
    saddle: float
    sag_back: float
    hinge: float
    hinge_rise: float
    hinge_offset: float
    cling_fade: float
    cling_power: float
    letting: float
    drop: float
    short_leg: float
    dent: float
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
        sag = sag_rate(narrowness(t, t, inputs.opening, n), t, inputs.opening)
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
        plateau=inputs.plateau,
        peak=inputs.peak,
        peak_gone=inputs.peak_gone,
    )
    scale = inputs.bars
    squeeze = switches.squeeze
    squeeze_narrow = switches.squeeze_narrow * (1.0 - state)
    turned = switches.narrow_turn * (1.0 - state) * (t / inputs.opening) ** 2
    stubby = 2.0 * t / inputs.opening
    force = 1.0 - switches.narrow_loss * (1.0 - state) * stubby * stubby
    shear = 1.2 * inputs.opening * 2.0 * (1.0 + inputs.poisson) / (4.0 * e * t)
    if inputs.kind == ROUND:
        force = 1.0
        squeeze += switches.dent
        squeeze_narrow = 0.0
        shear *= (10.0 / 9.0) / 1.2 * 4.0 / (math.pi * t)
    else:
        scale *= inputs.width
    clinging = 0.0
    if switches.hinge > 0.0:
        clinging = math.exp(-math.pow(n / switches.cling_fade, switches.cling_power))
    # The hinge turns by its length over the radius it takes.  Hardening spreads it: in a leg whose
    # moment falls evenly curvature fills n/(1 + n) of it.  Near a jam the flanks come first.
    reach = inputs.nose + inputs.shoulder + t
    hinge = switches.hinge * t + switches.hinge_rise * n / (1.0 + n) * 0.5 * inputs.opening
    letting_go = min(
        hinge / (inputs.nose + 0.5 * t),
        switches.letting_by * math.asin(min(0.5 * inputs.opening / reach, 1.0)),
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
        letting=switches.letting,
        clinging_offset=switches.hinge_offset,
        shear=shear * switches.shear,
        give=inputs.give * scale,
        squeeze=t * squeeze,
        squeeze_narrow=t * squeeze_narrow,
        narrow_slope=switches.narrow_slope,
        squeeze_slope=switches.squeeze_slope,
        sag=sag * switches.saddle,
        sag_cap=SAG_CAP,
        sag_back=switches.sag_back,
        sag_end=SAG_END,
        grip=switches.grip,
        flank_gap=switches.flank_gap,
        spread=switches.spread,
        drop=switches.drop,
        short_leg=switches.short_leg * t * state,
        turned=turned,
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

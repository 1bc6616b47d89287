"""From a bend's dimensions to the numbers the compiled kernels take."""

from __future__ import annotations

import math
from functools import cached_property, lru_cache

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import BendSetup, FlowCurve
from strapwright.bending.kernel_curve import Floats
from strapwright.bending.kernel_frame import Frame, jam_slope
from strapwright.bending.kernel_model import (
    FLAT,
    ROUND,
    SLICE,
    Inputs,
    Switches,
    assemble,
    top_slope,
)
from strapwright.bending.kernel_section import Table
from strapwright.bending.kernel_stroke import Rule
from strapwright.bending.kernel_width_rule import flow_exponent
from strapwright.errors import InputError
from strapwright.quantities import either_length

# Below this exponent the curvature crowds into the middle and the Gauss rule needs more nodes;
# numerical.
LOW_EXPONENT = 0.1
# Nodes of the rule where an upper yield leaves the moment with corners; numerical: 48 are good to
# 0.5 % of force, these to 0.2 %.
LEVELLED_NODES = 96


@frozen(kw_only=True)
class Effects:
    """Strength of each effect beyond the thin bar; the defaults are the fitted set.

    All zero is the thin elastica of the text books, which the closed forms are checked against.

    Attributes
    ----------
    offset
        lambda: how far the contact stands off the nose, in t^2 kappa [-].
    zone
        l_c: length over which the curvature is even under the nose, in t [-].
    rounding
        Exponent of the change-over to wrapping; 0 for a sharp one [-].
    thinning
        Factor on the moment for the bend's thinning [-].
    squeeze, squeeze_slope
        Plastic shear and squeeze through the thickness of every bar, in t times t over the arm of
        the push [-]; slope that would last at which half of it has come [rad].
    squeeze_narrow, narrow_slope
        The same further for a bar in plane stress.
    narrow_loss
        Share of force that a bar in plane stress loses to shear, in (2 t/W)^2 [-].
    narrow_turn
        Share that it gains by a right angle, in (t/W)^2; a round rod likewise [-].
    dent
        What a round rod dents at the points of contact, beside ``squeeze`` and like it [-].
    turning
        Where the friction on the shoulders turns round, over the slope at which the slip does [-];
        0: it always holds the bar outwards.
    grip
        Share of the friction under the nose that counts once the bar is wrapped; not fitted: half
        of it, as for ``drop`` [-].
    flank_gap
        Gap that it leaves under the tip, in mu t [-].
    spread
        Length by which the push on the flanks, spread in the bar, adds to the springback of a
        wrapped bar, in t times t over the arm of the push [-].
    saddle
        Share of the saddle that the width rule gives [-].
    sag_back
        Share of the saddle's growth that is taken back past its cap [-].
    drop
        Share of the moment drop by the statics of two flanks that comes about; not fitted: a push
        that is spread evenly over the wrapped arc loses half of what one at its ends does [-].
    short_leg
        Travel that is missing where a straight leg falls short of 1.5 t, in t times the square of
        what it falls short by, in t; of a wide bar [-].
    cling_fade, cling_power
        Hardening exponent at which the bar's clinging to the tip of the nose has faded to 1/e, and
        the power of that fading [-].
    hinge, hinge_rise
        Half length of the hinge that keeps to the tip: without hardening, in t, and what hardening
        adds, in n/(1 + n) of half the opening, which is all of it where the moment falls evenly and
        so not fitted [-].
    hinge_offset
        Its further ``offset`` [-].
    letting
        Share of the slope over which it lets go of the tip [-].
    letting_by
        At the latest it has let go at this share of the slope at which the tooling jams [-].
    shear
        Whether elastic shear adds travel.
    nodes
        Of the section table.
    elastic_nodes, plastic_nodes
        Of the Gauss rules along the leg; ``None`` takes 12, 24 for a low exponent, 8
        on either side of the end of a plateau, 96 with an upper yield.
    """

    offset: float = 0.056
    zone: float = 0.382
    rounding: float = 9.187
    thinning: float = 0.357
    squeeze: float = 0.028
    squeeze_narrow: float = 0.07
    squeeze_slope: float = 0.031
    narrow_slope: float = 0.142
    narrow_loss: float = 0.405
    narrow_turn: float = 1.893
    turning: float = 1.0
    grip: float = 0.5
    flank_gap: float = 0.042
    spread: float = 0.275
    saddle: float = 1.0
    sag_back: float = 0.443
    hinge: float = 0.872
    hinge_rise: float = 1.0
    hinge_offset: float = 0.704
    cling_fade: float = 0.101
    cling_power: float = 2.485
    letting: float = 0.052
    letting_by: float = 0.477
    drop: float = 0.5
    short_leg: float = 0.112
    dent: float = 0.083
    shear: bool = True
    nodes: int = 97
    elastic_nodes: int = 5
    plastic_nodes: int | None = None

    @cached_property
    def switches(self) -> Switches:
        """The same as the kernels take them."""
        return Switches(
            **{name: float(getattr(self, name)) for name in Switches._fields if name != "nodes"},
            nodes=self.nodes,
        )


FITTED = Effects()
THIN = Effects(
    offset=0.0,
    zone=0.0,
    rounding=0.0,
    thinning=0.0,
    squeeze=0.0,
    squeeze_narrow=0.0,
    narrow_loss=0.0,
    narrow_turn=0.0,
    grip=0.0,
    flank_gap=0.0,
    spread=0.0,
    saddle=0.0,
    sag_back=0.0,
    hinge=0.0,
    drop=0.0,
    short_leg=0.0,
    dent=0.0,
    shear=False,
)


@frozen(kw_only=True)
class Model:
    """A bend ready to be solved.

    Attributes
    ----------
    scale
        Force on the nose per unit of kernel force [-].
    state
        Width state w [-].
    top
        Largest leg slope asked for [rad].
    jam
        Leg slope at which the tooling would grip the bar [rad].
    """

    inputs: Inputs
    frame: Frame
    table: Table
    rule: Rule
    scale: float
    state: float
    top: float
    jam: float


@lru_cache(maxsize=8)
def gauss(elastic: int, plastic: int) -> Rule:
    """Gauss-Legendre rules on 0..1."""

    def unit(n: int) -> tuple[Floats, Floats]:
        x, w = np.polynomial.legendre.leggauss(n)
        return 0.5 * (x + 1.0), 0.5 * w

    (ex, ew), (px, pw) = unit(elastic), unit(plastic)
    nodes = np.array([[*ex, *px], [*ew, *pw]])
    return Rule(nodes=nodes, elastic=elastic)


def hardening(flow: FlowCurve) -> float:
    """Hardening exponent of a flow curve; for a law without one, its local value at 5 % [-]."""
    return float(flow_exponent(flow.strength, flow.offset, flow.exponent, flow.slope))


def rule_for(flow: FlowCurve, effects: Effects) -> Rule:
    """Gauss rules for the leg of a bar of this metal."""
    # With a plateau each of the two parts of the leg has a rule of its own.
    usual = 8 if flow.plateau > 0.0 else 12
    if flow.peak > 0.0:
        usual = LEVELLED_NODES
    low = max(usual, 24) if hardening(flow) < LOW_EXPONENT else usual
    plastic = effects.plastic_nodes or low
    return gauss(effects.elastic_nodes, plastic)


def kernel_inputs(setup: BendSetup) -> Inputs:
    """Return the setup as the kernels take it."""
    flow = setup.flow
    kind = {"slice": SLICE, "flat": FLAT, "square": FLAT, "round": ROUND}[setup.section]
    state = -1.0 if setup.width_state is None else setup.width_state
    if setup.section == "slice" and setup.width_state is None:
        state = 1.0
    return Inputs(
        kind=kind,
        thickness=float(setup.thickness),
        width=float(setup.width),
        state=float(state),
        opening=float(setup.opening),
        nose=float(setup.nose_radius),
        shoulder=float(setup.shoulder_radius),
        friction=float(setup.friction),
        modulus=float(flow.modulus),
        poisson=float(flow.poisson),
        strength=float(flow.strength),
        offset=float(flow.offset),
        exponent=float(flow.exponent),
        slope=float(flow.slope),
        plateau=float(flow.plateau),
        peak=float(flow.peak),
        peak_gone=float(flow.peak_gone),
        unloading=float(setup.unloading_ratio),
        unloading_rate=float(setup.unloading_rate),
        give=float(setup.give),
        bars=float(setup.bars),
    )


def build(setup: BendSetup, effects: Effects = FITTED) -> Model:
    """Prepare a bend for the solver.

    Raises
    ------
    InputError
        Where a dimension is not positive or the nose does not pass between the shoulders.
    """
    check(setup)
    inputs = kernel_inputs(setup)
    frame, table, scale, state = assemble(inputs, effects.switches)
    return Model(
        inputs=inputs,
        frame=frame,
        table=table,
        rule=rule_for(setup.flow, effects),
        scale=scale,
        state=state,
        top=top_slope(frame),
        jam=jam_slope(frame),
    )


def check(setup: BendSetup) -> None:
    """Refuse dimensions that mean nothing, naming the one that is wrong."""
    positive = (
        ("bar thickness", setup.thickness),
        ("bar width", setup.width),
        ("shoulder opening", setup.opening),
        ("nose radius", setup.nose_radius),
        ("shoulder radius", setup.shoulder_radius),
        ("modulus", setup.flow.modulus),
        ("flow curve strength", setup.flow.strength),
        ("flow curve offset", setup.flow.offset),
        ("unloading ratio", setup.unloading_ratio),
        ("unloading rate", setup.unloading_rate),
    )
    for name, value in positive:
        if not (math.isfinite(value) and value > 0.0):
            raise InputError(name, "must be more than 0", f"give the {name}", value=f"{value:g}")
    if not (0.0 <= setup.flow.exponent < 1.0 and setup.flow.slope >= 0.0):
        raise InputError(
            "flow curve",
            f"exponent {setup.flow.exponent:g} must lie from 0 to 1 and slope "
            f"{setup.flow.slope:g} must not be negative",
            "a metal that softens as it is strained cannot be planned",
        )
    if not 0.0 <= setup.friction <= 0.6:
        raise InputError(
            "friction",
            "must lie between 0 and 0.6",
            "0.1 suits oiled steel",
            value=f"{setup.friction:g}",
        )
    gap = setup.opening - 2.0 * setup.shoulder_radius
    if gap <= 0.0:
        raise InputError(
            "shoulder opening",
            f"at an opening of {either_length(setup.opening, 2)} the two shoulders of radius "
            f"{either_length(setup.shoulder_radius, 2)} overlap",
            f"open them to more than {either_length(2.0 * setup.shoulder_radius, 2)} centre to "
            "centre",
        )

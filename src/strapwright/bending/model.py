"""From a bend's dimensions to the numbers the compiled kernels take."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from attrs import frozen

from strapwright.bending.kernel_curve import Floats
from strapwright.bending.kernel_section import Law, Table, rectangle_table, round_table
from strapwright.bending.kernel_stroke import Frame, Rule, jam_slope, nose_curvature
from strapwright.bending.section_rule import (
    SAG_CAP,
    flow_exponent,
    narrowness,
    sag_rate,
    width_state,
)
from strapwright.bending.values import BendSetup
from strapwright.errors import InputError

# A stroke ends a little before the tooling grips the bar: sin(alpha) at this share of the jam.
JAM_SHARE = 0.95


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
    thinning
        Factor on the moment for the bend's thinning [-].
    shear
        Whether elastic shear adds travel.
    nodes
        Of the section table.
    elastic_nodes, plastic_nodes
        Of the Gauss rules along the leg; ``None`` takes 12, or 24 for a low exponent.
    """

    offset: float = 0.03
    zone: float = 0.35
    thinning: float = 0.1
    shear: bool = True
    nodes: int = 97
    elastic_nodes: int = 5
    plastic_nodes: int | None = None


FITTED = Effects()
THIN = Effects(offset=0.0, zone=0.0, thinning=0.0, shear=False)


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
        Largest leg slope [rad]; ``jam`` the slope at which it would jam.
    """

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
    return Rule(ex, ew, px, pw)


def build(setup: BendSetup, effects: Effects = FITTED) -> Model:
    """Prepare a bend for the solver.

    Raises
    ------
    InputError
        Where a dimension is not positive or the nose does not pass between the shoulders.
    """
    check(setup)
    t = setup.thickness
    flow = setup.flow
    exponent = flow_exponent(flow)
    state, sag = 0.0, 0.0
    if setup.section == "slice":
        state = 1.0 if setup.width_state is None else setup.width_state
    elif setup.section in ("flat", "square"):
        u = narrowness(setup.width, t, setup.opening, exponent)
        state, sag = width_state(u), sag_rate(u, t, setup.opening)
        if setup.width_state is not None:
            state = setup.width_state
    modulus = flow.modulus * (1.0 - state) + state * flow.modulus / (1.0 - flow.poisson**2)
    gamma = 1.0 + state * (2.0 / math.sqrt(3.0) - 1.0)
    law = Law(modulus, gamma, flow.strength, flow.offset, flow.exponent, flow.slope)
    is_round = setup.section == "round"
    scale = float(setup.bars) if is_round else setup.width * setup.bars
    force = springback = 1.0
    dent = 0.0
    area = t
    shear_factor = 1.2
    if is_round:
        # Rows of finite elements of whole rods: force x 1.02 at W/d 8 to x 1.05 at W/d 5.3,
        # springback x 1.10, dents at the contacts 0.014 d.
        share = min(max((8.0 - setup.opening / t) / (8.0 - 5.3), 0.0), 1.0)
        force, springback, dent = 1.02 + 0.03 * share, 1.10, 0.014 * t
        area, shear_factor = math.pi * t * t / 4.0, 10.0 / 9.0
    shear = 0.0
    if effects.shear:
        shear = (
            shear_factor * setup.opening * 2.0 * (1.0 + flow.poisson) / (4.0 * flow.modulus * area)
        )
    frame = Frame(
        thickness=t,
        opening=setup.opening,
        nose=setup.nose_radius,
        shoulder=setup.shoulder_radius,
        friction=setup.friction,
        offset=effects.offset,
        zone=effects.zone,
        shear=shear,
        give=setup.give * scale,
        sag=sag,
        sag_cap=SAG_CAP,
        dent=dent,
        unloading=1.0,
        springback=springback,
        force=force,
    )
    top_curvature = nose_curvature(frame) * (1.0 + 1e-9)
    if is_round:
        table = round_table(law, t, top_curvature, effects.nodes)
    else:
        table = rectangle_table(law, t, top_curvature, effects.nodes, effects.thinning)
    frame = frame._replace(unloading=table.stiffness * setup.unloading_ratio)
    plastic = effects.plastic_nodes or (24 if exponent < 0.1 else 12)
    jam = jam_slope(frame)
    top = math.asin(JAM_SHARE * math.sin(jam))
    rule = gauss(effects.elastic_nodes, plastic)
    return Model(frame=frame, table=table, rule=rule, scale=scale, state=state, top=top, jam=jam)


def check(setup: BendSetup) -> None:
    """Refuse dimensions that mean nothing, naming the one that is wrong."""
    positive = (
        ("bar thickness", setup.thickness),
        ("bar width", setup.width),
        ("shoulder opening", setup.opening),
        ("nose radius", setup.nose_radius),
        ("shoulder radius", setup.shoulder_radius),
        ("modulus", setup.flow.modulus),
        ("yield", setup.flow.yield_stress),
        ("unloading ratio", setup.unloading_ratio),
    )
    for name, value in positive:
        if not (math.isfinite(value) and value > 0.0):
            raise InputError(name, "must be more than 0", f"give the {name}", value=f"{value:g}")
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
            f"the two shoulders of radius {setup.shoulder_radius:.4g} mm overlap",
            f"open them to more than {2 * setup.shoulder_radius:.4g} mm centre to centre",
            value=f"{setup.opening:.4g} mm",
        )

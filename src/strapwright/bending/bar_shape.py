"""Where the bar lies: its mid-line under the ram and after it is let go.

The same leg as the stroke solver integrates, laid out point by point, so that drawings and the
blank see the shape that the force and the angle belong to.
"""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats, ReleasedBend
from strapwright.bending.kernel_curve import FREE, TRAVEL, solve_for
from strapwright.bending.kernel_frame import OK, friction_angle
from strapwright.bending.kernel_frame import nose_curvature as wrap_curvature
from strapwright.bending.kernel_section import cubic_value, softness
from strapwright.bending.kernel_stroke import try_leg
from strapwright.bending.solver_model import Model
from strapwright.errors import SolverError

# How much the bar thins in the middle of the bend, in (kappa t)^2, from the finite elements of the
# reference cases.  Volume is kept, so a thinned piece was shorter in the flat.
THINNING = 0.055
_CELLS = 160
# The zone under the nose is one even arc; it is cut so that chords and farthest points follow it.
_WRAP_CELLS = 32


@frozen(kw_only=True)
class HalfShape:
    """Right half of the mid-line, from the middle to where the leg is straight.

    Attributes
    ----------
    arc
        Length along the mid-line, shape (k,) [mm].
    loaded, free
        Curvature under the ram and after letting go, shape (k - 1,), one a piece [1/mm].
    slope
        Half the loaded angle [rad].
    """

    arc: Floats
    loaded: Floats
    free: Floats
    slope: float

    def points(self, *, released: bool) -> tuple[Floats, Floats, Floats]:
        """Return x, y and slope along the mid-line, the middle at the origin, shape (k,) each."""
        lengths = np.diff(self.arc)
        curvature = self.free if released else self.loaded
        theta = np.concatenate([[0.0], np.cumsum(curvature * lengths)])
        middle = 0.5 * (theta[1:] + theta[:-1])
        # A piece is an arc: its chord is shorter than its length.
        half = 0.5 * curvature * lengths
        chord = lengths * np.sinc(half / math.pi)
        x = np.concatenate([[0.0], np.cumsum(chord * np.cos(middle))])
        y = np.concatenate([[0.0], np.cumsum(chord * np.sin(middle))])
        return x, y, theta


def half_shape(
    model: Model, *, travel: float | None = None, free: float | None = None
) -> HalfShape:
    """Lay out the bar at a travel [mm] or at a total free angle [rad].

    Raises
    ------
    SolverError
        Where that position cannot be reached; callers ask only for solved ones.
    """
    which, target = (TRAVEL, travel) if travel is not None else (FREE, 0.5 * (free or 0.0))
    frame, table = model.frame, model.table
    alpha, point, _ = solve_for(
        frame, table, model.rule, which=which, target=target, top=model.top, guess=0.0, root=0.0
    )
    if point.status != OK:
        raise SolverError("the shape was asked for past the jam")
    leg = try_leg(frame, table, model.rule, alpha, point.root, wrap_curvature(frame))
    phi = friction_angle(frame, alpha)
    kappa, moment = _pieces(model, leg.push, leg.curvature, phi)
    m_c = leg.push * 0.5 * frame.thickness * math.sin(phi)
    # From the nose outwards the moment falls from M_0 to M_c.
    energy = _energy(model, kappa, moment)
    q = (energy - m_c * m_c / (2.0 * table.stiffness)) / leg.push - math.sin(phi)
    reach = alpha - phi - np.arcsin(np.clip(q, -1.0, 1.0))
    mean_kappa = 0.5 * (kappa[1:] + kappa[:-1])
    lengths = np.abs(np.diff(moment)) / (leg.push * np.sqrt(1.0 - (0.5 * (q[1:] + q[:-1])) ** 2))
    turned = np.diff(reach)
    # Exact turn over the piece, so that the slopes add up to the leg's.
    loaded = np.where(lengths > 0.0, turned / np.maximum(lengths, 1e-300), mean_kappa)
    softer = np.array([softness(table, float(k)) for k in mean_kappa])
    stiffness = table.stiffness / softer
    mean_moment = 0.5 * (moment[1:] + moment[:-1])
    released = loaded - mean_moment / stiffness
    arc, kept, freed = [0.0], [], []
    if leg.wrap > 0.0:
        # What the wrapped zone springs back follows from the solver's free angle as a whole.
        rest = float(np.sum(released * lengths))
        arc += list(np.linspace(0.0, leg.wrap, _WRAP_CELLS + 1)[1:])
        kept += [leg.curvature] * _WRAP_CELLS
        freed += [(point.free - rest) / leg.wrap] * _WRAP_CELLS
    arc_all = np.concatenate([arc, arc[-1] + np.cumsum(lengths)])
    return HalfShape(
        arc=arc_all,
        loaded=np.concatenate([kept, loaded]),
        free=np.concatenate([freed, released]),
        slope=alpha,
    )


def _pieces(model: Model, push: float, curvature: float, phi: float) -> tuple[Floats, Floats]:
    """Curvature and moment from the nose outwards: plastic part in ln kappa, elastic in M."""
    table, frame = model.table, model.frame
    m_c = push * 0.5 * frame.thickness * math.sin(phi)
    m_y, k_y = float(table.moment[0]), math.exp(table.start)
    if curvature <= k_y:
        m = np.linspace(table.stiffness * curvature, m_c, _CELLS)
        return m / table.stiffness, m
    x = np.linspace(math.log(curvature), table.start, _CELLS)
    plastic = np.array([_moment(model, at) for at in x])
    elastic = np.linspace(m_y, min(m_c, m_y), _CELLS // 2)[1:]
    kappa = np.concatenate([np.exp(x), elastic / table.stiffness])
    return kappa, np.concatenate([plastic, elastic])


def _moment(model: Model, x: float) -> float:
    i, s = _cell(model, x)
    return float(cubic_value(model.table.moment, model.table.rise, i, s, model.table.step))


def _cell(model: Model, x: float) -> tuple[int, float]:
    at = max((x - model.table.start) / model.table.step, 0.0)
    i = min(int(at), model.table.moment.shape[0] - 2)
    return i, min(at - i, 1.0)


def _energy(model: Model, kappa: Floats, moment: Floats) -> Floats:
    table = model.table
    out = moment**2 / (2.0 * table.stiffness)
    for j, k in enumerate(kappa):
        if k > math.exp(table.start):
            i, s = _cell(model, math.log(k))
            out[j] = cubic_value(table.energy, table.energy_rise, i, s, table.step)
    return out


def released_bend(model: Model, free: float) -> ReleasedBend:
    """Return the bend as the blank needs it, once it is let go at a total free angle [rad].

    Flat length by volume: a piece of mid-line that thinned by ``THINNING (kappa t)^2`` was shorter
    in the flat by the same share.
    """
    shape = half_shape(model, free=free)
    t = model.frame.thickness
    x, y, theta = shape.points(released=True)
    lengths = np.diff(shape.arc)
    flat = float(np.sum(lengths * (1.0 - THINNING * (shape.loaded * t) ** 2)))
    a = float(theta[-1])
    outward = np.array([math.cos(a), math.sin(a)])
    outer_x, outer_y = x + 0.5 * t * np.sin(theta), y - 0.5 * t * np.cos(theta)
    end = np.array([x[-1], y[-1]])
    reach = 0.0
    for side in (1.0, -1.0):
        along = (end[0] - side * outer_x) * outward[0] + (end[1] - outer_y) * outward[1]
        reach = max(reach, float(np.max(along)))
    return ReleasedBend(
        angle=2.0 * a,
        thickness=t,
        wrap_radius=float(1.0 / np.max(shape.free) - 0.5 * t),
        apex_distance=float(x[-1] / math.cos(a)),
        outside_reach=reach,
        flat_length=2.0 * flat,
    )

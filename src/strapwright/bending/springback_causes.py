"""Springback taken apart by its causes, by how much the classical ratio misses it, and why.

The springback itself is solved in :mod:`strapwright.bending.kernel_springback`; here it is only
explained.

The classical ratio R_i/R_f = 4 x^3 - 3 x + 1 (Kalpakjian and Schmid, Manufacturing Processes for
Engineering Materials) lets an arc of the nose's radius go that never hardened.  A real bend is
wider: its arc has hardened, its legs are curved far beyond the nose, and strained metal lets go
along a softer line, E_u = E - (E - E_a)(1 - exp(-xi p)) (form from memory, after Yoshida and
Uemori; the loss is 10 to 20 % for steels, from memory too).
"""

from __future__ import annotations

import math

from attrs import evolve, frozen

from strapwright.bending.bend_values import BendSetup, StrokeState
from strapwright.bending.cross_checks import springback_angle, springback_radius_ratio
from strapwright.bending.kernel_section import moment_energy
from strapwright.bending.solver import state_at_travel
from strapwright.bending.solver_model import build

# Less than any protractor shows (common practice, no source).
_SMALLEST_SHOWN = math.radians(0.05)


@frozen(kw_only=True)
class SpringbackParts:
    """Springback by its causes, total angles [rad].

    Attributes
    ----------
    total
        As solved.
    arc
        Of the zone under the nose, along the modulus of fresh metal.
    legs
        Of the curved legs and what the push on them adds, along the same modulus.
    softer
        What the modulus that falls with strain adds.
    classical
        What the classical ratio says at the same loaded angle.
    classical_arc
        The angle of arc that the ratio takes to be wrapped: all of the loaded angle.
    wrapped_arc
        The angle that really lies under the nose.
    """

    total: float
    arc: float
    legs: float
    softer: float
    classical: float
    classical_arc: float
    wrapped_arc: float


def springback_parts(setup: BendSetup, state: StrokeState) -> SpringbackParts:
    """Take the springback of a state apart.

    Parameters
    ----------
    setup
        The bend.
    state
        A solved position of it.

    Raises
    ------
    InputError
        Where the nose is so large that the classical ratio does not hold: the bar stays elastic.
    """
    model = build(setup)
    fresh = evolve(setup, unloading_ratio=1.0)
    unsoftened = state_at_travel(fresh, state.travel)
    total = state.loaded_angle - state.free_angle
    without = unsoftened.loaded_angle - unsoftened.free_angle
    moment, _ = moment_energy(model.table, state.nose_curvature)
    arc = 2.0 * moment * state.wrap_length / model.table.stiffness
    ratio = springback_radius_ratio(
        setup.nose_radius, setup.flow.yield_stress, setup.flow.modulus, setup.thickness
    )
    return SpringbackParts(
        total=total,
        arc=min(arc, without),
        legs=max(without - arc, 0.0),
        softer=total - without,
        classical=springback_angle(state.loaded_angle, setup.nose_radius, setup.thickness, ratio),
        classical_arc=state.loaded_angle,
        wrapped_arc=2.0 * state.nose_curvature * state.wrap_length,
    )


def springback_sentence(parts: SpringbackParts) -> str:
    """Say by how much and why the textbook formula differs from ours."""

    def degrees(angle: float) -> str:
        return f"{math.degrees(angle):.1f}°"

    off = parts.total - parts.classical
    if abs(off) < _SMALLEST_SHOWN:
        return (
            f"The textbook formula gives {degrees(parts.classical)} of springback, as we do. What "
            "it leaves out and the arc it takes too long cancel here."
        )
    softer = ""
    if parts.softer >= _SMALLEST_SHOWN:
        softer = f" and the softer unloading ({degrees(parts.softer)})"
    return (
        f"The textbook formula gives {degrees(parts.classical)} of springback, ours "
        f"{degrees(parts.total)}. It counts {degrees(parts.classical_arc)} of bar on the nose, "
        f"without hardening. We count {degrees(parts.wrapped_arc)} with hardening "
        f"({degrees(parts.arc)}), plus the curved legs ({degrees(parts.legs)}){softer}."
    )

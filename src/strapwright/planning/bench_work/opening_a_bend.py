"""A bend that was pushed too far is opened: how, how far, and where not to.

The bend goes back at the reversed moment.  A metal that was bent one way yields earlier the other
way (Bauschinger effect), so it may begin at half the moment that it ends at (the half is from
memory); the solver knows nothing of it.  So every figure of the way back has two ends, and none of
it is tested.

On the press the part lies turned over on the shoulders like a tent, the nose on the outside of the
bend.  With alpha half the bend angle, a the half opening and r the shoulder radius and half the
thickness together, the mid-line of a leg passes r above the round: statics and geometry of a leg
that leans on a round, our own.
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.bend_radii import TIGHT_SHARE_LOW
from strapwright.bending.hydraulics import pressure_for
from strapwright.errors import BendAt, InputError
from strapwright.planning.bench_work.closing_force import (
    HAND,
    goes_past,
    outer_stress,
    plastic_moment,
    stiffness,
)
from strapwright.planning.bend_setups import known_bar
from strapwright.planning.plan_values import Plan, Step

# Common practice, no source: what is opened further is straightened rather than corrected.
MOST_OPENED = math.radians(15.0)
MOST_SHARE = 0.25  # of the bend angle
STEEPEST = math.radians(60.0)  # half the bend angle; steeper, a tent slides rather than opens
SOFTER = 0.5  # share of the moment at which the way back may begin; from memory
STRETCH = 2.0  # times the elongation; likewise common practice, no source
_ONE_IN_TWENTY = 1.645  # standard deviations
_MARGIN = 3.0  # mm of leg past the contact, as everywhere


@frozen(kw_only=True)
class OnPress:
    """Opening under the nose, the part turned over.

    Attributes
    ----------
    travel
        From first contact to the wanted angle, if it springs back by the least [mm].
    force
        On the nose, at most [N].
    gauge
        At that force; ``None`` without a bore [MPa].
    """

    travel: float
    force: float
    gauge: float | None


@frozen(kw_only=True)
class Opening:
    """How a bend is opened.

    Attributes
    ----------
    bend
        1-based.
    stands, wanted
        Bend angle now, and wanted [rad].
    least, most
        How far it springs back towards where it was [rad].
    clamped, pulled
        1-based legs in the vise.
    leg, arm
        Straight length of the leg pulled, and from the bend to the hand [mm].
    force
        At most, at the hand [N].
    stretch, elongation
        What the outside was worked in all, and the elongation of the metal [-].
    press
        ``None`` where the part cannot lie on the shoulders turned over.
    """

    bend: int
    stands: float
    wanted: float
    least: float
    most: float
    clamped: int
    pulled: int
    leg: float
    arm: float
    force: float
    stretch: float
    elongation: float
    press: OnPress | None

    @property
    def first(self) -> float:
        """Angle under load to stop at first: past the wanted one by the least [rad]."""
        return max(self.wanted - self.least, 0.0)


def open_bend(made: Plan, step: Step, stands: float, wanted: float) -> Opening:
    """Return how a bend is opened.

    Parameters
    ----------
    made, step
        The plan and the bend.
    stands, wanted
        Bend angle measured, and wanted, which is less [rad].

    Raises
    ------
    InputError
        Where it must not be opened, with why and what to do instead.
    """
    job, blank = made.job, made.blank
    if blank is None or job.tooling is None:
        raise ValueError("a bend that was pushed has tooling and a blank")
    known = known_bar(job)
    thickness, section = known.thickness, job.part.bar.section
    width = job.part.bar.width if section == "flat" else thickness
    half = 0.5 * thickness
    strain = math.log(1.0 + half / (step.radii.tightest + half))
    stretch = math.expm1(strain * (1.0 + (stands - wanted) / stands))
    elongation = known.material.elongation / 100.0
    _refuse(made, step, stands, wanted, far=stretch > STRETCH * elongation)
    on = made.on_tooling_of(step.bend).job.tooling or job.tooling
    flow = known.metal.flow
    stress = outer_stress(flow, thickness, TIGHT_SHARE_LOW * on.nose.radius)
    moment = plastic_moment(section, thickness, width, stress)
    moment *= math.exp(_ONE_IN_TWENTY * known.metal.strength_spread)
    zone = blank.zone(step.bend)
    back = goes_past(moment, zone[1] - zone[0], stiffness(section, thickness, width, flow.modulus))
    begins = [0.0, *(blank.zone(k)[1] for k in range(1, len(job.part.bends) + 1))]
    ends = [*(blank.zone(k)[0] for k in range(1, len(job.part.bends) + 1)), blank.length]
    before, after = (ends[k] - begins[k] for k in (step.bend - 1, step.bend))
    pulled, leg = (step.bend, before) if before >= after else (step.bend + 1, after)
    arm = max(leg, moment / HAND)
    press = None
    if len(job.part.bends) == 1:
        a, r = 0.5 * on.shoulders.opening, on.shoulders.radius + half
        press = _on_press(
            made, moment, (stands, wanted - SOFTER * back), (a, r), min(before, after)
        )
    return Opening(
        bend=step.bend,
        stands=stands,
        wanted=wanted,
        least=SOFTER * back,
        most=back,
        clamped=2 * step.bend + 1 - pulled,
        pulled=pulled,
        leg=leg,
        arm=arm,
        force=moment / arm,
        stretch=stretch,
        elongation=elongation,
        press=press,
    )


def _refuse(made: Plan, step: Step, stands: float, wanted: float, *, far: bool) -> None:
    """Refuse to open what would crack or snap."""
    over, codes = stands - wanted, {one.code for one in made.findings}
    of_bend = {one.code for one in made.findings if BendAt(step.bend) in one.about}
    where = f"bend {step.bend}"
    if "brittle-bar" in codes:
        raise InputError(
            where,
            "this metal is hard or brittle and may snap when it is bent back",
            "make a new piece",
        )
    if "outside-cracks" in of_bend or far:
        raise InputError(
            where,
            "the outside of this bend is stretched so far that it is expected to crack when it is "
            "bent back",
            "make a new piece",
        )
    most = min(MOST_OPENED, MOST_SHARE * stands)
    if over > most:
        raise InputError(
            where,
            f"it would have to be opened by {math.degrees(over):.3g}°, and more than "
            f"{math.degrees(most):.3g}° is not advised (common practice, no source)",
            "make a new piece, or anneal it first where the metal allows",
        )


def tent_force(moment: float, alpha: float, half_opening: float, above: float) -> float:
    """Force on the nose that opens a bend lying on the shoulders like a tent.

    Parameters
    ----------
    moment
        That opens it [N mm].
    alpha
        Half the bend angle, which is the slope of each leg [rad].
    half_opening
        From the middle to the centre of a shoulder [mm].
    above
        Shoulder radius and half the thickness together [mm].

    Returns
    -------
    float
        Each shoulder pushes square to its leg with N = F/(2 cos alpha) at the distance
        (a + r sin alpha)/cos alpha from the bend (statics) [N].
    """
    arm = (half_opening + above * math.sin(alpha)) / math.cos(alpha)
    return 2.0 * moment * math.cos(alpha) / arm


def tent_travel(begins: float, ends: float, half_opening: float, above: float) -> float:
    """How far the bend comes down while it opens on the shoulders.

    Parameters
    ----------
    begins, ends
        Bend angle before and after [rad].
    half_opening, above
        As for :func:`tent_force` [mm].

    Returns
    -------
    float
        Difference of the corner's height a tan(alpha) + r/cos(alpha) (geometry) [mm].
    """

    def height(angle: float) -> float:
        alpha = 0.5 * angle
        return half_opening * math.tan(alpha) + above / math.cos(alpha)

    return height(begins) - height(ends)


def _on_press(
    made: Plan,
    moment: float,
    angles: tuple[float, float],
    rounds: tuple[float, float],
    leg: float,
) -> OnPress | None:
    """Opening under the nose, or ``None`` where a leg does not reach over its shoulder."""
    begins, ends = angles
    alpha = 0.5 * begins
    if alpha > STEEPEST or ends <= 0.0:
        return None
    a, r = rounds
    if leg < (a + r * math.sin(alpha)) / math.cos(alpha) + _MARGIN:
        return None
    # The flatter the legs, the more it takes: at the end of the way.
    force = tent_force(moment, 0.5 * ends, a, r)
    press = made.job.press
    bore = None if press is None else press.bore
    return OnPress(
        travel=tent_travel(begins, ends, a, r),
        force=force,
        gauge=None
        if press is None or bore is None
        else pressure_for(force, bore, press.efficiency, press.no_load),
    )

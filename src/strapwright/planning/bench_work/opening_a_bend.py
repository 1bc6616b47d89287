"""A bend that was pushed too far is opened: how, how far, and where not to.

The bend goes back at the reversed moment.  A metal that was bent one way yields earlier the other
way (Bauschinger effect), so it may begin at half the moment that it ends at (the half is from
memory); the solver knows nothing of it.  So every figure of the way back has two ends, and none of
it is tested.

On the press the part lies turned over on the shoulders like a tent, the nose on the outside of the
bend.  With alpha half the bend angle, a the half opening and r the shoulder radius and half the
thickness together, the mid-line of a leg passes r above the round: statics and geometry of a leg
that leans on a round, our own.  The legs slide out over the shoulders, so friction holds the part
up and the nose has to push harder.
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.bending.bend_radii import TIGHT_SHARE_LOW
from strapwright.bending.hydraulics import pressure_for
from strapwright.errors import BendAt, InputError
from strapwright.findings import Force
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.bench_work.closing_force import (
    HAND,
    goes_past,
    outer_stress,
    plastic_moment,
    stiffness,
)
from strapwright.planning.bench_work.tent_on_members import bears_tent
from strapwright.planning.bend_setups import known_bar
from strapwright.planning.plan_values import Plan, Step
from strapwright.shop.tooling import Tooling
from strapwright.strength.load_cases import high_friction

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
        ``None`` where the part cannot lie on the shoulders turned over, or where that takes more
        than the tooling may carry or the relief valve stands at.
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
    middle, spread = plastic_moment(section, thickness, width, stress), known.metal.strength_spread
    moment = middle * math.exp(_ONE_IN_TWENTY * spread)
    zone = blank.zone(step.bend)
    least, most = springs_back(
        middle, spread, zone[1] - zone[0], stiffness(section, thickness, width, flow.modulus)
    )
    begins = [0.0, *(blank.zone(k)[1] for k in range(1, len(job.part.bends) + 1))]
    ends = [*(blank.zone(k)[0] for k in range(1, len(job.part.bends) + 1)), blank.length]
    before, after = (ends[k] - begins[k] for k in (step.bend - 1, step.bend))
    pulled, leg = (step.bend, before) if before >= after else (step.bend + 1, after)
    arm = max(leg, moment / HAND)
    press = None
    if len(job.part.bends) == 1:
        press = _on_press(
            made,
            step,
            on,
            Tent(
                moment=moment,
                half_opening=0.5 * on.shoulders.opening,
                shoulder=on.shoulders.radius,
                half_thickness=half,
                friction=high_friction(on.friction),
            ),
            (stands, wanted - least, wanted - most),
            min(before, after),
        )
    return Opening(
        bend=step.bend,
        stands=stands,
        wanted=wanted,
        least=least,
        most=most,
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


def springs_back(middle: float, spread: float, length: float, stiff: float) -> tuple[float, float]:
    """How far a bend springs back while it is opened.

    Parameters
    ----------
    middle
        Moment of the middle of what the bar may be [N mm].
    spread
        Of its strength, as a standard deviation of the logarithm [-].
    length
        Of the bent zone [mm].
    stiff
        E I [N mm2].

    Returns
    -------
    tuple of float
        The least: half of what a soft bar does, one in twenty being softer; and the most: what a
        hard one does [rad].
    """
    soft, hard = (
        goes_past(middle * math.exp(way * _ONE_IN_TWENTY * spread), length, stiff)
        for way in (-1.0, 1.0)
    )
    return SOFTER * soft, hard


@frozen(kw_only=True)
class Tent:
    """A bend that lies on the shoulders like a tent.

    Attributes
    ----------
    moment
        That opens it [N mm].
    half_opening
        From the middle to the centre of a shoulder [mm].
    shoulder, half_thickness
        Shoulder radius, and half the thickness of the bar [mm].
    friction
        Between bar and shoulders [-].
    """

    moment: float
    half_opening: float
    shoulder: float
    half_thickness: float
    friction: float

    @property
    def above(self) -> float:
        """How far the mid-line of a leg passes above the centre of its shoulder [mm]."""
        return self.shoulder + self.half_thickness

    def arm(self, alpha: float) -> float:
        """From the bend to where a leg of slope ``alpha`` [rad] touches its shoulder [mm]."""
        return (self.half_opening + self.above * math.sin(alpha)) / math.cos(alpha)


def tent_force(tent: Tent, alpha: float) -> float:
    """Force on the nose that opens a bend lying on the shoulders like a tent.

    Parameters
    ----------
    tent
        The part as it lies.
    alpha
        Half the bend angle, which is the slope of each leg [rad].

    Returns
    -------
    float
        Each shoulder pushes square to its leg with N, at the distance
        s = (a + r sin alpha)/cos alpha from the bend, and holds it back along its lower face with
        mu N.  About the bend M = N (s - mu t/2), upright F/2 = N (cos alpha + mu sin alpha)
        (statics) [N].
    """
    mu = tent.friction
    square = tent.moment / (tent.arm(alpha) - mu * tent.half_thickness)
    return 2.0 * square * (math.cos(alpha) + mu * math.sin(alpha))


def tent_travel(begins: float, ends: float, half_opening: float, above: float) -> float:
    """How far the bend comes down while it opens on the shoulders.

    Parameters
    ----------
    begins, ends
        Bend angle before and after [rad].
    half_opening
        From the middle to the centre of a shoulder [mm].
    above
        Shoulder radius and half the thickness together [mm].

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
    step: Step,
    on: Tooling,
    tent: Tent,
    angles: tuple[float, float, float],
    leg: float,
) -> OnPress | None:
    """Opening under the nose, or ``None`` where that cannot be done so or must not.

    The angles are those at which it begins, is stopped first and may have to be pushed to.
    """
    # Only under a nose above it does the part lie on the shoulders by itself.
    if nose_of(made.job) != "above":
        return None
    begins, ends, flattest = angles
    alpha = 0.5 * begins
    if alpha > STEEPEST or flattest <= 0.0:
        return None
    if leg < tent.arm(alpha) + _MARGIN:
        return None
    # The flatter the legs, the more it takes, but for friction: so both ends of the way.
    force = max(tent_force(tent, 0.5 * angle) for angle in (begins, flattest))
    press = made.job.press
    bore = None if press is None else press.bore
    gauge = (
        None
        if press is None or bore is None
        else pressure_for(force, bore, press.efficiency, press.no_load)
    )
    if force > _carried(made, step, on) or not bears_tent(made, step.bend, force, alpha):
        return None
    # What the valve may stand at for this bend: never above its setting or the weakest member.
    if gauge is not None and step.relief is not None and gauge > step.relief.pressure:
        return None
    return OnPress(
        travel=tent_travel(begins, ends, tent.half_opening, tent.above), force=force, gauge=gauge
    )


def _carried(made: Plan, step: Step, on: Tooling) -> float:
    """Most force that the tooling may carry, stated or by its members; infinite if unknown [N]."""
    known = [] if on.rating is None else [on.rating]
    if made.job.part.tool_of(step.bend) == 0:
        known += [
            good.value
            for one in made.findings
            if one.code == "die-rating" and isinstance(good := one.facts.get("good_to"), Force)
        ]
    return min(known, default=math.inf)

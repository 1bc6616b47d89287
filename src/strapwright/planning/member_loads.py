"""Where a plan's forces meet the tooling's members."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import BendSetup, Floats
from strapwright.bending.off_middle.two_legs import UnevenBend
from strapwright.findings import Finding, Yes
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.kept.sharing import plate_as_drawn
from strapwright.planning.bend_setups import bend_setup, known_bar
from strapwright.planning.made_bend import uneven_stroke
from strapwright.planning.plan_values import Plan, Step
from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.shop.part import Part
from strapwright.shop.press import Press
from strapwright.shop.rack import Rack
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Assessment, Bench
from strapwright.strength.fixing.fixes import Again, fixes_of
from strapwright.strength.load_cases import (
    EVEN,
    ONE_SHOULDER,
    UnevenShare,
    low_friction,
    outward_force,
    push_loads,
    retract_load,
)
from strapwright.strength.member_checks import check_shared, member_findings
from strapwright.strength.rating import rating_of, relief_to_set

_STILL = 1e-9  # mm, numerical


@frozen(kw_only=True)
class Pushed:
    """How one bend pushes.

    Attributes
    ----------
    high, angle
        Upper end of the force's band, and loaded angle, along the stroke [N, rad].
    peak, loaded, steepest
        Highest force expected, loaded angle at the setting, and the upper end of its band
        [N, rad, rad].
    rate
        How much more it bends a travel at the setting [rad/mm].
    uneven
        What the nose may stand off the middle does to it.
    """

    high: Floats
    angle: Floats
    peak: float
    loaded: float
    steepest: float
    rate: float = 0.0
    uneven: UnevenShare = EVEN


def rate_of(travel: Floats, angle: Floats, at: float) -> float:
    """How much more a bend gets a travel at an angle [rad/mm].

    Parameters
    ----------
    travel, angle
        Along the stroke [mm, rad].
    at
        Angle [rad].
    """
    if len(travel) < 2:
        return 0.0
    slopes = np.diff(angle) / np.maximum(np.diff(travel), _STILL)
    return float(slopes[min(int(np.searchsorted(angle[1:], at)), len(slopes) - 1)])


def bench_of(plans: Sequence[Plan], tooling: Tooling, press: Press | None) -> Bench:
    """Return what is to be checked: the tooling under the worst of some plans.

    Bends made on other tooling are held to the members that it shares, see
    :func:`shared_benches`.

    Parameters
    ----------
    plans
        Of one or more parts made on it; none leaves relief and pulling back.
    tooling, press
        As stated.
    """
    pushes = [_pushed(*one) for plan in plans for one in _steps_on(plan, 0)]
    own = bench_under(pushes, [plan.job.part for plan in plans], tooling, press)
    shared = (one for plan in plans for one in shared_benches(plan, tooling, press))
    return evolve(own, shared=tuple(shared))


def shared_benches(plan: Plan, tooling: Tooling, press: Press | None) -> tuple[Bench, ...]:
    """Return what other tooling of a plan asks of the job's own members, one bench each.

    Parameters
    ----------
    plan
        Whose bends are made on it.
    tooling, press
        The job's own.
    """
    return tuple(
        evolve(
            bench_under(
                [_pushed(*pushed) for pushed in _steps_on(plan, tool)],
                [plan.job.part], one.sharing(tooling), press,
            ),
            other=one,
        )
        for tool, one in enumerate(plan.job.part.others, start=1)
        if any(_steps_on(plan, tool))
    )  # fmt: skip


def _steps_on(plan: Plan, tool: int) -> Iterator[tuple[Plan, Step, float]]:
    """Steps of the bends made or pushed on, on one tooling; 0 is the job's own.

    Each with the travel that bends a straight bar as far: a bar that is bent already lies as deep
    between the shoulders, however little it is pushed on [mm].
    """
    for step in plan.steps:
        if plan.job.part.tool_of(step.bend) == tool:
            yield plan, step, step.setting.travel
    for stroke in plan.second_strokes:
        if stroke.tool == tool:
            yield stroke.made, stroke.step, stroke.in_one_push


def _pushed(plan: Plan, step: Step, travel: float) -> Pushed:
    return Pushed(
        high=step.curve_high,
        angle=step.curve.loaded_angle,
        peak=step.peak_force,
        loaded=step.loaded_angle,
        steepest=step.bands.loaded_angle.high,
        rate=rate_of(step.curve.travel, step.curve.loaded_angle, step.loaded_angle),
        uneven=_uneven_of(plan.job.on_tooling_of(step.bend), step, travel),
    )


def bench_under(
    bends: Sequence[Pushed], bars: Sequence[Part], tooling: Tooling, press: Press | None
) -> Bench:
    """Return what is to be checked: the tooling under the worst of some bends.

    Parameters
    ----------
    bends
        Of all parts made on it.
    bars
        The parts.
    tooling, press
        As stated.
    """
    friction, members = tooling.friction, tooling.members
    # Of bars side by side one can be missing: the push then lies half a bar's width farther off.
    gone = max((part.bar.width / 2 for part in bars if part.at_once > 1), default=0.0)
    peak = outward = steepest = None
    if bends:
        # The upper end of the band on the way: what a hard, thick bar asks for.
        peak = max(max(float(np.max(one.high)), one.peak) for one in bends)
        steepest = max(max(one.steepest, one.loaded, 0.0) / 2 for one in bends)
        outward = max(_outward(one.high, one.angle, low_friction(friction)) for one in bends)
    return Bench(
        tooling=tooling,
        press=press,
        thickness=max((part.bar.thickness for part in bars), default=0.0),
        # The narrowest bar loads the middle most, the force being the worst of all.
        width=min((part.bar.width * part.at_once for part in bars), default=0.0),
        widest=max((part.bar.width * part.at_once for part in bars), default=0.0),
        pushes=push_loads(
            peak=peak,
            outward=outward,
            steepest=steepest,
            press=press,
            friction=friction,
            off_centre=gone + (0.0 if members is None else members.off_centre),
            uneven=_worst(bends, tooling),
        ),
        retract=retract_load(press),
        missing=min((part.bar.width * part.at_once for part in bars), default=0.0)
        - min((part.bar.width * max(part.at_once - 1, 1) for part in bars), default=0.0),
        steepness=max((one.rate for one in bends), default=None),
    )


def uneven_share(
    uneven: Sequence[UnevenBend], offset: float, setup: BendSetup, loaded: float
) -> UnevenShare:
    """Return what a nose off the middle does to the loads of one bend.

    Parameters
    ----------
    uneven
        The bar on its way there, the setting last; empty where it cannot be followed.
    offset
        How far the nose may stand off the middle [mm].
    setup, loaded
        The bend under a nose in the middle, and its loaded angle at the same setting [rad].
    """
    if offset <= 0.0:
        return EVEN
    if not uneven:
        return ONE_SHOULDER
    last = uneven[-1]
    wedge = outward_force(last.force, 0.5 * loaded, setup.friction)
    return UnevenShare(
        near=max(0.5 + offset / setup.opening, *(one.near_share for one in uneven)),
        lean=max(1.0, last.near_outward / wedge) if wedge > 0.0 else 1.0,
        across=max(abs(one.across_nose) / one.force for one in uneven),
        outward=max(one.near_outward / one.force for one in uneven),
    )


def _uneven_of(job: Job, step: Step, travel: float) -> UnevenShare:
    tooling = job.tooling
    if tooling is None or tooling.nose.offset <= 0.0:
        return EVEN
    setup = bend_setup(job, known_bar(job), tooling)
    uneven = uneven_stroke(setup, tooling.nose.offset, travel)
    return uneven_share(uneven, tooling.nose.offset, setup, step.loaded_angle)


def _worst(bends: Sequence[Pushed], tooling: Tooling) -> UnevenShare:
    """The worst of all bends; of none, a flat bar's: the nearer support of a beam takes more."""
    if not bends:
        return UnevenShare(near=0.5 + tooling.nose.offset / tooling.shoulders.opening)
    return UnevenShare(
        near=max(one.uneven.near for one in bends),
        lean=max(one.uneven.lean for one in bends),
        across=max(one.uneven.across for one in bends),
        outward=max(one.uneven.outward for one in bends),
    )


def _outward(force: np.ndarray, angle: np.ndarray, friction: float) -> float:
    """Largest (F/2) tan delta on the way, delta = alpha - atan mu [N]."""
    slope = np.maximum(0.5 * angle - np.arctan(friction), 0.0)
    return float(np.max(0.5 * force * np.tan(slope)))


def assess(
    bench: Bench,
    units: Units,
    rack: Rack | None = None,
    again: Again | None = None,
) -> Assessment:
    """Check every member, say what fixes the weak ones and what the tooling may be loaded to.

    Parameters
    ----------
    bench
        From :func:`bench_of`.
    units
        Unit system of sizes proposed.
    rack
        Where the next size comes from.
    again
        Plans anew on a tooling with another nose, which then asks other forces.
    """
    checks, unchecked = check_shared(bench)
    fixes, fixed = fixes_of(bench, units, rack, again)
    return Assessment(
        checks=checks,
        unchecked=unchecked,
        findings=tuple(member_findings(bench, checks, unchecked)),
        fixes=fixes,
        fixed=fixed,
        rating=rating_of(bench, checks, unchecked),
        relief_to_set=relief_to_set(bench, checks),
    )


# Members that a drawing has no part in: the press's own, and how it stands on its bed.
_UNDRAWN = frozenset(
    {
        "every member", "coupling", "coupling pin", "piston rod", "frame", "hose", "fitting",
        "valve", "cylinder", "rod side", "gauge", "circuit", "guide rods", "bolts of the base",
        "weld of the base", "bolts of the push plate", "weld of the push plate",
    }
)  # fmt: skip


def drawn_findings(pieces: Pieces, plans: Sequence[Plan], job: Job) -> tuple[Finding, ...]:
    """Return what is found of the members as they are drawn.

    Parameters
    ----------
    pieces
        Everything laid out.
    plans
        Of the parts made on it; without one only relief and pulling back load it.
    job
        Whose press it is, and whose bar where there is no plan.

    Returns
    -------
    tuple of Finding
        Members that do not hold as drawn, the holes that it adds to a push plate that stays with
        them, and what stays not proven of what is drawn.
    """
    tooling = pieces.tooling
    if tooling is None:
        return ()
    press = job.press
    if press is not None:
        press = evolve(press, push_plate=plate_as_drawn(press.push_plate, pieces.plates))
    bench = bench_of(plans, tooling, press)
    if not plans:
        bench = bench_under((), [job.part], tooling, press)
    checks, unchecked = check_shared(bench)
    blind = tuple(one for one in unchecked if one.member not in _UNDRAWN)
    drawn = Yes(value=True)
    return tuple(
        evolve(one, facts={**one.facts, "drawn": drawn})
        for one in member_findings(bench, checks, blind)
        if one.code in {"member-too-weak", "member-unchecked"}
    )

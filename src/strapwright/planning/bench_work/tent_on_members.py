"""Whether the members of a tooling bear a bend that is opened on its shoulders like a tent.

The legs lean out over the shoulders and slide outwards.  With alpha half the bend angle a leg
presses a shoulder down with F/2 and inwards with (F/2) tan(alpha - atan mu), the wedge of a bend
turned about (statics); the low end of friction is taken.  A round that lies half in the seat of its
cheek finds nothing there that holds it, and rolls out.
"""

from __future__ import annotations

from attrs import evolve

from strapwright.planning.member_loads import bench_under
from strapwright.planning.plan_values import Plan
from strapwright.shop.member_names import MemberName
from strapwright.shop.tooling import Tooling
from strapwright.strength.bodies.standing_blocks import stands_alone
from strapwright.strength.check_values import Load
from strapwright.strength.load_cases import low_friction, outward_force
from strapwright.strength.member_checks import check_members

# What the legs push inwards, and what keeps it where it is.
_PUSHED_INWARDS: frozenset[MemberName] = frozenset(
    {"shoulders", "die body", "weld of the shoulders", "bolts of the shoulders"}
)


def bears_tent(made: Plan, bend: int, force: float, slope: float) -> bool:
    """Whether it is proven that the members bear a bend opened on the shoulders.

    Nothing is where no shoulders are stated as a member, or where what they are pushed inwards on
    could not be checked.

    Parameters
    ----------
    made
        With its job.  Of other tooling those members count that are the job's own as well.
    bend
        1-based.
    force
        On the nose at most [N].
    slope
        alpha, at most [rad].
    """
    tooling = _carrying(made, bend)
    if tooling is None or tooling.members is None:
        return False
    members, part = tooling.members, made.job.part
    if members.shoulders is None or not stands_alone(tooling):
        return False
    load = Load(
        case="plan",
        force=force,
        outward=outward_force(force, slope, low_friction(tooling.friction)),
        near=0.5 + tooling.nose.offset / tooling.shoulders.opening,
        inward=True,
    )
    off = (evolve(load, offset=members.off_centre),) if members.off_centre > 0.0 else ()
    bench = evolve(
        bench_under((), [part], tooling, made.job.press), pushes=(load, *off), retract=None
    )
    checks, unchecked = check_members(bench)
    if any(one.carries and one.member in _PUSHED_INWARDS for one in unchecked):
        return False
    return all(one.holds for one in checks if one.breaks and one.grows > 0.0)


def _carrying(made: Plan, bend: int) -> Tooling | None:
    own, part = made.job.tooling, made.job.part
    tool = part.tool_of(bend)
    if own is None or tool == 0:
        return own
    return part.others[tool - 1].sharing(own)

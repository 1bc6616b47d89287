"""What a nose that may stand off the middle of the opening does to one bend, with figures."""

from __future__ import annotations

import math
from collections.abc import Sequence

from strapwright.bending.hydraulics import pressure_for
from strapwright.bending.kernel_curve import TRAVEL
from strapwright.bending.off_middle.two_legs import UnevenBend, uneven_for_free_angle
from strapwright.bending.solver import state_of
from strapwright.errors import SolverError
from strapwright.findings import (
    Angle,
    BendAt,
    Choice,
    Fact,
    Finding,
    Length,
    Name,
    Pressure,
    Severity,
    Share,
)
from strapwright.ordering.order_values import SearchSettings
from strapwright.planning.hits_and_stacks.ordered_bends import Placed
from strapwright.planning.made_bend import MadeBend
from strapwright.shop.press import Press

# From so much more angle on the part is spoilt by it: the usual tolerance of an angle, halved
# (common practice, no source).
_FELT = math.radians(0.5)


def lands_off(made: MadeBend) -> float:
    """How far off its mark a bend may come, set by the shoulders, the nose as far off as it may be.

    The nose meets the bar as far off the mark as it stands off the middle.  A bar that does not
    slide on the nose then rolls on it towards the nearer shoulder by the tilt of the middle of the
    bend, half its thickness off the nose [mm].
    """
    if not made.uneven:
        return made.offset
    setup = made.setup
    return made.offset + (setup.nose_radius + 0.5 * setup.thickness) * abs(made.uneven[-1].tilt)


def off_middle_findings(made: MadeBend, press: Press | None, bend: int) -> list[Finding]:
    """Say what a nose off the middle does to one 1-based bend at the travel that is set."""
    if made.offset <= 0.0:
        return []
    about = (BendAt(bend),)
    offset = Length(made.offset)
    if not made.uneven:
        return [
            Finding(
                code="nose-off-middle",
                severity=Severity.REFUSAL,
                about=about,
                facts={"offset": offset, "how": Choice("jams")},
            )
        ]
    last = made.uneven[-1]
    even = state_of(made.model, TRAVEL, last.travel)
    if even is None:
        raise SolverError("the bend was asked for past the jam")
    facts: dict[str, Fact | tuple[Fact, ...]] = {
        "offset": offset,
        "how": Choice("followed"),
        "force": Share(last.force / even.force - 1.0),
        "free": Angle(last.free_angle - even.free_angle),
        "near": Share(last.near_share),
        "across": Share(last.across_nose / last.force),
        "lands": Length(lands_off(made)),
    }
    if press is not None and press.bore is not None:
        more = max(last.force - even.force, 0.0)
        facts["gauge"] = Pressure(pressure_for(more, press.bore, press.efficiency))
    less = _less_travel(made, last)
    if less is not None:
        facts["less"] = Length(less)
    felt = last.free_angle - even.free_angle > _FELT
    return [
        Finding(
            code="nose-off-middle",
            severity=Severity.WARNING if felt else Severity.NOTE,
            about=about,
            facts=facts,
        )
    ]


def clearance_findings(made: MadeBend, placed: Placed, legs: Sequence[float]) -> list[Finding]:
    """Say where a nose off the middle may use up the clearance that the order was searched with.

    Of stacks and rows of hits the search takes the nose in the middle.  Off it, shoulders and what
    stands with them come nearer by as much, and the bar is turned about the nose by the tilt of its
    middle, which moves what of it is far out the most.  No point lies further out than the bar is
    long on that side.

    Parameters
    ----------
    made, placed
        The bend as solved and as laid in.
    legs
        Of the part as stated; what is on one side of the bend is no longer than their sum [mm].
    """
    if not made.uneven or placed.clearance is None or placed.nearest is None:
        return []
    if placed.off_middle:
        return []
    longer = max(sum(legs[: placed.bend + 1]), sum(legs[placed.bend + 1 :]))
    closer = made.offset + longer * max(abs(one.tilt) for one in made.uneven)
    if placed.clearance - closer >= SearchSettings().clearance:
        return []
    return [
        Finding(
            code="clearance-off-middle",
            severity=Severity.WARNING,
            about=(BendAt(placed.bend + 1),),
            facts={
                "offset": Length(made.offset),
                "closer": Length(closer),
                "clearance": Length(placed.clearance),
                "nearest": Name(placed.nearest.name),
            },
        )
    ]


def _less_travel(made: MadeBend, last: UnevenBend) -> float | None:
    """How much earlier the angle is reached than under a nose in the middle [mm]."""
    at_angle = uneven_for_free_angle(made.setup, made.offset, made.released.angle)
    return None if at_angle is None else last.travel - at_angle.travel

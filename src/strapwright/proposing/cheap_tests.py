"""Tests that cost little and refuse only what the plan would refuse: radius, jam, legs, force."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.bending.solver import state_for_free_angle
from strapwright.catalog import smallest_radius
from strapwright.errors import InputError
from strapwright.making.shop_lengths import sixteenth
from strapwright.planning.bend_setups import Known, bend_setup, known_bar
from strapwright.planning.hits_and_stacks.hit_rows import rows_of
from strapwright.proposing.candidate_sizes import (
    ROOM_ABOVE,
    ROOM_BELOW,
    THICKEST_FLOOR,
    Need,
    widest_bars,
)
from strapwright.proposing.miss_values import (
    BendJams,
    Miss,
    NoseOffRadius,
    NoseTooSharp,
    PressTooWeak,
)
from strapwright.proposing.proposal_values import Shoulder
from strapwright.shop.job import Job
from strapwright.shop.rack import Stock
from strapwright.shop.tooling import Nose, Shoulders, Tooling

# A nose may be this much off the inside radius asked for (common practice, no source).
RADIUS_LOW, RADIUS_HIGH = 0.75, 1.05
WIDEST = 16.0  # thicknesses
CLOSING = math.radians(200.0)  # turned one way in all, past which a part reaches round the nose
SPRUNG = 1.08  # a hard bar is pushed deeper than the typical one; the plan has the last word


@frozen(kw_only=True)
class Passed:
    """What the solver says of a nose, shoulders and opening that may do.

    Attributes
    ----------
    need
        Sizes that follow.
    force
        Highest at the end of a stroke [N].
    slope
        Steepest leg under load [rad].
    """

    need: Need
    force: float
    slope: float


def nose_miss(nose: Stock, jobs: Sequence[Job], known: Sequence[Known]) -> Miss | None:
    """Return why a shaft is no nose for these parts, or ``None``."""
    radius = nose.thickness / 2
    for job, bar in zip(jobs, known, strict=True):
        least, source = smallest_radius(
            bar.material, bar.thickness, along_grain=job.part.grain != "across"
        )
        if radius < least - 1e-9 and all(bend.radius is None for bend in job.part.bends):
            return Miss(
                lack=NoseTooSharp(
                    nose=nose.name,
                    part=job.part.name,
                    radius=radius,
                    least=least,
                    source=source,
                ),
                over=least / radius,
            )
        wanted = job.part.inside_radius
        if wanted is not None and not RADIUS_LOW * wanted <= radius <= RADIUS_HIGH * wanted:
            return Miss(
                lack=NoseOffRadius(
                    nose=nose.name, part=job.part.name, radius=radius, wanted=wanted
                ),
                over=max(radius / (RADIUS_HIGH * wanted), RADIUS_LOW * wanted / radius),
            )
    return None


def opening_limits(nose: Stock, shoulders: Shoulder, jobs: Sequence[Job]) -> tuple[float, float]:
    """Openings below and above which no part can be made, from geometry alone [mm].

    Below it a nose does not pass or a bend jams before its angle with nothing sprung back; above it
    a bar does not reach from the middle of its bend to the shoulder.
    """
    radius, shoulder = nose.thickness / 2, shoulders.radius
    least, most = 2 * (radius + shoulder), math.inf
    for job in jobs:
        thickness = job.part.bar.thickness
        stack = radius + shoulder + thickness
        for bend, first, last in zip(
            job.part.bends, job.part.legs, job.part.legs[1:], strict=False
        ):
            if bend.radius is None:
                least = max(least, 2 * stack * math.sin(bend.angle / 2))
            # No leg has more bare bar than its own length and what its corner takes up.
            corner = 2 * (radius + 2 * thickness)
            most = min(most, 2 * (min(first, last) + corner))
    # Wider than this nothing is gained but longer legs (common practice, no source).
    thick = max(job.part.bar.thickness for job in jobs)
    return least, min(most, max(WIDEST * thick, 1.5 * least))


def solve_all(
    nose: Stock,
    shoulders: Shoulder,
    opening: float,
    jobs: Sequence[Job],
    relief_force: float,
) -> Passed | Miss:
    """Solve the last position of every bend, without its band.

    Parameters
    ----------
    nose, shoulders, opening
        What is tried [mm].
    jobs
        The parts.
    relief_force
        Most the ram gives to the nose [N].
    """
    radius, shoulder = nose.thickness / 2, shoulders.radius
    tooling = Tooling(
        nose=Nose(radius=radius), shoulders=Shoulders(radius=shoulder, opening=opening)
    )
    force = travel = slope = rise = 0.0
    for job in jobs:
        bar = known_bar(job)
        try:
            setup = bend_setup(job, bar, tooling)
            rows = rows_of(job, bar)
            for bend, row, legs in zip(
                job.part.bends, rows, zip(job.part.legs, job.part.legs[1:], strict=False),
                strict=True,
            ):  # fmt: skip
                state = state_for_free_angle(setup, bend.angle if row is None else row.angle)
                force = max(force, state.force)
                travel = max(travel, state.travel)
                slope = max(slope, state.loaded_angle / 2)
                rise = max(rise, max(legs) * math.sin(state.loaded_angle / 2))
        except InputError as error:
            return Miss(
                lack=BendJams(nose=nose.name, shoulders=shoulders, part=job.part.name, error=error)
            )
    if force > relief_force:
        return Miss(
            lack=PressTooWeak(
                nose=nose.name,
                shoulders=shoulders,
                opening=opening,
                force=force,
                most=relief_force,
            ),
            over=force / relief_force,
        )
    return Passed(need=_need(nose, jobs, travel, slope, rise), force=force, slope=slope)


def _ring_height(job: Job) -> float:
    """How high a part that closes round the nose stands above the tip [mm]; 0 for other parts.

    Every bend in turn at the nose with the rest made, from corner to corner, in which arcs are
    taken as if they were sharp, on the safe side.
    """
    part = job.part
    if any(part.rolls):
        return 0.0
    highest = 0.0
    for number, bend in enumerate(part.bends):
        last = list(zip(part.bends[number + 1 :], part.legs[number + 1 :], strict=False))
        first = list(zip(part.bends[:number][::-1], part.legs[1 : number + 1][::-1], strict=False))
        for wing, end in ((last, part.legs[-1]), (first, part.legs[0])):
            height, slope = 0.0, bend.angle / 2
            for other, leg in wing:
                height += leg * math.sin(slope)
                highest = max(highest, height)
                slope += other.angle * (1.0 if other.side == bend.side else -1.0)
            highest = max(highest, height + end * math.sin(slope))
    turned = {
        side: sum(bend.angle for bend in part.bends if bend.side == side)
        for side in {bend.side for bend in part.bends}
    }
    return highest if max(turned.values()) > CLOSING else 0.0


def _hanging(jobs: Sequence[Job]) -> float:
    """How far made bends can hang below the shoulders, where bends turn both ways [mm]."""
    both = [job.part for job in jobs if len({bend.side for bend in job.part.bends}) > 1]
    return max((max(part.legs) + ROOM_ABOVE for part in both), default=0.0)


def _need(nose: Stock, jobs: Sequence[Job], travel: float, slope: float, rise: float) -> Need:
    """Sizes that let the bar through: below the shoulders, and under the push plate beside it."""
    _, thickness = widest_bars(jobs)
    travel *= SPRUNG
    press = jobs[0].press
    rod = 0.0 if press is None or press.rod is None else press.rod
    units = jobs[0].units
    wide = sixteenth(max(2 * nose.thickness, rod), units)
    # A leg passes the plate's edge, or ends below the plate.
    there = None if press is None else press.push_plate
    over = wide if there is None else there.width
    beside = 0.5 * over * math.tan(min(slope, 1.4))
    reach = nose.thickness + thickness + min(beside, rise) + ROOM_ABOVE
    # The plate that carries the nose stays clear of the shoulders at full stroke.
    reach = max(reach, travel + 2 * thickness + ROOM_ABOVE)
    # A part that closes round the nose closes below the plate, or it is locked on.
    rings = [_ring_height(job) for job in jobs]
    if max(rings) > 0.0:
        reach = max(reach, max(rings) + thickness + ROOM_ABOVE)
    return Need(
        depth=sixteenth(travel + thickness + ROOM_BELOW, units),
        reach=sixteenth(reach, units),
        plate_width=wide,
        height=sixteenth(
            max(travel + thickness + ROOM_BELOW + THICKEST_FLOOR, _hanging(jobs)), units
        ),
    )

"""Large radii by rows of hits: the rows of a job, what to say of them, each hit drawn."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from strapwright.bending.bar_shape import HalfShape
from strapwright.bending.bend_values import Band, BendSetup
from strapwright.blank.hit_spacing import Row, row_of_hits
from strapwright.errors import InputError, key_of
from strapwright.findings import (
    Angle,
    BendAt,
    Count,
    Finding,
    Length,
    Severity,
)
from strapwright.midline.bar_poses import arc_zone, half_bent
from strapwright.midline.bar_seating import seated
from strapwright.midline.pose_values import DrawnPose, End, Zone
from strapwright.planning.bend_setups import Known
from strapwright.quantities import either_length
from strapwright.shop.job import Job

_CELLS = 8


def rows_of(job: Job, known: Known) -> tuple[Row | None, ...]:
    """Return the row of each bend, ``None`` for a bend made by one hit, shape (bends,).

    Raises
    ------
    InputError
        Where the nose already makes the radius, or a row takes too many hits.
    """
    rows: list[Row | None] = []
    for number, bend in enumerate(job.part.bends, start=1):
        if bend.radius is None:
            rows.append(None)
            continue
        if job.part.stacked > 1:
            raise InputError(
                BendAt(number),
                "a series of hits is made with one bar at a time, and bars are stacked here",
                f"leave {key_of('part.stacked')} out, or the radius",
            )
        if job.tooling is not None and bend.radius <= job.tooling.nose.radius:
            nose = job.tooling.nose.radius
            raise InputError(
                BendAt(number),
                f"its radius of {either_length(bend.radius)} is not larger than the nose's "
                f"{either_length(nose)}, so no series of hits makes it",
                "leave the radius out and take what the nose makes, or use a smaller nose",
            )
        rows.append(row_of_hits(bend.angle, bend.radius, known.thickness, job.hits.tolerance))
    return tuple(rows)


def row_zone(begin: float, end: float, row: Row, made: int, side: int, turned: float) -> Zone:
    """Return the first ``made`` hits of a row as one arc; ``begin`` and ``end`` are the row's."""
    share = (end - begin) / row.hits
    return arc_zone(
        begin,
        begin + made * share,
        angle=made * row.angle,
        radius=row.radius + 0.5 * row.thickness,
        side=side,
        turned=turned,
    )


def hit_pose(
    length: float,
    others: Sequence[Zone],
    zone: tuple[float, float],
    row: Row,
    setup: BendSetup,
    *,
    hit: int,
    side: int,
    turned: float,
    end_left: End,
    loaded: float | None,
) -> DrawnPose:
    """Draw the bar at one hit of its row, the hits before it made.

    Parameters
    ----------
    length, others
        Of the blank, and the zones of other bends made before [mm].
    zone
        Of the whole row in the flat [mm].
    hit
        0-based, from the end that carries the first mark.
    loaded
        Angle of this hit as drawn, ``None`` before it [rad].
    """
    share = (zone[1] - zone[0]) / row.hits
    before = [row_zone(*zone, row, hit, side, turned)] if hit else []
    shape = None if loaded is None else _even(share, loaded)
    x, y, _, _ = half_bent(
        length,
        sorted([*others, *before], key=lambda one: one.begin),
        middle=zone[0] + (hit + 0.5) * share,
        half_flat=0.5 * share,
        side=side,
        turned=turned,
        end_left=end_left,
        shape=shape,
        released=False,
    )
    return seated(
        x,
        y,
        thickness=setup.thickness,
        nose_radius=setup.nose_radius,
        shoulder_radius=setup.shoulder_radius,
        opening=setup.opening,
    )


def _even(share: float, angle: float) -> HalfShape:
    """A hit drawn as an even arc over its share of the row."""
    curvature = np.full(_CELLS, angle / share)
    return HalfShape(
        arc=np.linspace(0.0, 0.5 * share, _CELLS + 1),
        loaded=curvature,
        free=curvature,
        slope=0.5 * angle,
    )


def row_findings(
    row: Row, zone: tuple[float, float], drop: float, free: Band, bend: int
) -> list[Finding]:
    """Say how a row is made, and what of it is not proven.

    Parameters
    ----------
    zone
        Of the row in the flat [mm].
    drop
        How much lower the nose touches at the middle hit than on straight bar [mm].
    free
        Band of the free angle of one hit at the setting [rad].
    bend
        1-based number.
    """
    share = (zone[1] - zone[0]) / row.hits
    low, high = (row.hits * max(end, 0.0) for end in (free.low, free.high))
    return [
        Finding(
            code="row-of-hits",
            severity=Severity.NOTE,
            about=(BendAt(bend),),
            facts={
                "total": Angle(row.hits * row.angle),
                "hits": Count(row.hits),
                "each": Angle(row.angle),
                "apart": Length(share),
                "stand_off": Length(row.stand_off),
                "radius": Length(row.radius),
            },
        ),
        Finding(
            code="hits-add-up",
            severity=Severity.WARNING,
            about=(BendAt(bend),),
            facts={
                "hits": Count(row.hits),
                "low": Angle(low),
                "high": Angle(high),
                "drop": Length(drop),
            },
        ),
    ]

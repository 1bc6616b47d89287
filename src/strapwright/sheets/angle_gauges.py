"""Paper gauges for the angles of a plan, or for any list of angles, laid on pages."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from strapwright.planning.bench_work.work_values import Closing
from strapwright.planning.plan_values import Plan, SecondStroke
from strapwright.quantities import Units
from strapwright.sheets.gauge_shape import CLEAR, Gauge, draw_gauge, outline
from strapwright.sheets.setup_sheet import Paper
from strapwright.sheets.true_scale import Room, Shape, Sheet

_BARS = 20.0  # mm kept at the left for the upright check bars
_GAP = 5.0  # mm between gauges
_WHOLE = "finished"  # the angle of a whole bend, where no one step has it
UNKNOWN = 12.7  # mm inside radius that a gauge clears where no bend is stated
_FLATTEST, _SHARPEST = 0.05, 175.0  # deg; past these a vee on paper shows nothing


def gauges_of(plan: Plan) -> tuple[Gauge, ...]:
    """Name the angles of a plan that a person reads.

    Parameters
    ----------
    plan
        As planned.

    Returns
    -------
    tuple of Gauge
        In the order of making, for each bend the angle under load and the angle let go; without
        tooling the angles of the part.  Angles that print alike share a gauge.
    """
    read: list[tuple[str, float, int]] = []
    for step in plan.steps:
        each = ", each hit" if step.hits > 1 else ""
        if step.bottoms_first:  # neither angle is promised
            continue
        read.append((f"under load{each}", step.loaded_angle, step.bend))
        read.append((f"released{each}", step.free_angle, step.bend))
        if step.total is not None:
            read.append((_WHOLE, step.total, step.bend))
    read += [
        (_WHOLE, work.ends, work.bend)
        for work in plan.bench_work
        if isinstance(work, Closing | SecondStroke)
    ]
    read += [
        ("under load again", stroke.step.loaded_angle, stroke.bend)
        for stroke in plan.second_strokes
    ]
    if not plan.steps:
        read = [(_WHOLE, bend.angle, i) for i, bend in enumerate(plan.job.part.bends, 1)]
    shared: dict[tuple[str, float], set[int]] = {}
    for state, angle, bend in read:
        degrees = round(math.degrees(angle), 1)
        if _FLATTEST < degrees <= _SHARPEST:
            shared.setdefault((state, degrees), set()).add(bend)
    return tuple(
        Gauge(
            degrees=degrees,
            what=f"{numbered(bends)} {state}",
            reach=max(_reach(plan, bend, degrees, whole=state == _WHOLE) for bend in bends) + CLEAR,
            units=plan.job.units,
            finished=frozenset(bends) if state in ("released", _WHOLE) else frozenset(),
        )
        for (state, degrees), bends in shared.items()
    )


def plain_gauges(degrees: Sequence[float], units: Units) -> tuple[Gauge, ...]:
    """Make gauges for angles alone.

    Parameters
    ----------
    degrees
        Bend angles above 0 and below 180 [deg].
    units
        Unit system of what is written on them.

    Returns
    -------
    tuple of Gauge
        In the order given; they clear an inside radius of 1/2 in.
    """
    return tuple(
        Gauge(
            degrees=one,
            what="",
            reach=UNKNOWN * math.tan(math.radians(one) / 2) + CLEAR,
            units=units,
        )
        for one in degrees
    )


def gauge_sheets(gauges: Sequence[Gauge], paper: Paper) -> tuple[Sheet, ...]:
    """Lay gauges on pages, row by row.

    Parameters
    ----------
    gauges
        See :func:`gauges_of`.
    paper
        ``letter`` or ``a4``.
    """
    room = Room(paper=paper, landscape=False)
    left, widest = room.left + _BARS, room.width - _BARS
    sheets: list[Sheet] = []
    shapes: list[Shape] = []
    x, y, tallest = left, room.top, 0.0
    for gauge in gauges:
        size = outline(gauge, widest)
        if x > left and x + size.width > left + widest:
            x, y, tallest = left, y + tallest + _GAP, 0.0
        if shapes and y + size.height > room.bottom:
            sheets.append(Sheet(room=room, kind="gauge", shapes=tuple(shapes)))
            shapes = []
            x, y, tallest = left, room.top, 0.0
        shapes += draw_gauge(gauge, size, x, y)
        x += size.width + _GAP
        tallest = max(tallest, size.height)
    if shapes:
        sheets.append(Sheet(room=room, kind="gauge", shapes=tuple(shapes)))
    return tuple(sheets)


def numbered(bends: Collection[int]) -> str:
    """Name bends in a few words, e.g. ``bends 1, 3 to 6``."""
    runs: list[list[int]] = []
    for bend in sorted(bends):
        if runs and bend == runs[-1][-1] + 1:
            runs[-1].append(bend)
        else:
            runs.append([bend])
    said: list[str] = []
    for run in runs:
        said += [f"{run[0]} to {run[-1]}"] if len(run) > 2 else map(str, run)
    listed = " and ".join(filter(None, (", ".join(said[:-1]), said[-1])))
    return f"{'bend' if len(bends) == 1 else 'bends'} {listed}"


def _reach(plan: Plan, bend: int, degrees: float, *, whole: bool) -> float:
    """Distance from the corner of the legs to where a leg is straight [mm].

    The zone's length on the flat, taken as one circular arc: l tan(a/2) / a.  The middle of the
    bar lies outside the inside face, so the distance errs on the long side there.  A hit has its
    share of the row's zone, unless the ``whole`` row is meant.
    """
    angle = math.radians(degrees)
    if plan.blank is None:
        part = plan.job.part
        radius = part.assumed_radius or part.inside_radius or UNKNOWN
        return (radius + plan.job.part.bar.thickness) * math.tan(angle / 2)
    low, high = plan.blank.zone(bend)
    share = 1 if whole else len(plan.blank.marks_of(bend))
    return (high - low) / share * math.tan(angle / 2) / angle

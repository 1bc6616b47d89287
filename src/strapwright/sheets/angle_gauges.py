"""Paper gauges for the angles of a plan, or for any list of angles, laid on pages."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence

from attrs import evolve

from strapwright.planning.bench_work.work_values import Closing
from strapwright.planning.plan_values import Plan, SecondStroke
from strapwright.quantities import Units
from strapwright.sheets.gauge_shape import CLEAR, LEG, Gauge, draw_gauge, outline
from strapwright.sheets.setup_sheet import Paper
from strapwright.sheets.true_scale import UPRIGHT, Room, Shape, Sheet, lowest

_BARS = 20.0  # mm kept at the left for the upright check bars
_GAP = 5.0  # mm between gauges
_SQUARE = 90.0  # deg; every shop has a square
_UNDER, _EXPLAINED = 4.0, 17.0  # mm under a strip, and for what is said of the gauges there
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
    return tuple(
        Sheet(room=room, kind="gauge", shapes=shapes)
        for shapes in _laid(gauges, room, room.top, LEG)
    )


def gauges_under(strip: Sheet, gauges: Sequence[Gauge]) -> Sheet | None:
    """Lay all gauges under a strip on its page; ``None`` where they find no room there.

    Parameters
    ----------
    strip
        A page with strips.
    gauges
        See :func:`gauges_of`.  Their edges may be shorter than on a page of their own, but go past
        the bend zone as far as every gauge must.  Where that is not enough a square stands in for
        the gauge of a right angle, and the page says so.
    """
    room, low = strip.room, max(lowest(shape) for shape in strip.shapes)
    if room.landscape or not gauges or low > room.bottom - UPRIGHT:
        return None
    top = low + _UNDER
    squared = [one for one in gauges if one.degrees != _SQUARE]
    for among, least in ((gauges, LEG), (gauges, 0.0), (squared, LEG), (squared, 0.0)):
        pages = _laid(among, room, top + _EXPLAINED, least)
        if len(pages) == 1 and max(map(lowest, pages[0])) <= room.bottom:
            return evolve(
                strip,
                shapes=(*strip.shapes, *pages[0]),
                gauges_at=(_BARS, top),
                by_square=len(among) < len(gauges),
            )
    return None


def _laid(gauges: Sequence[Gauge], room: Room, top: float, least: float) -> list[tuple[Shape, ...]]:
    """Lay gauges row by row from the top of the first page, and on as many as they take."""
    left, widest = room.left + _BARS, room.width - _BARS
    pages: list[tuple[Shape, ...]] = []
    shapes: list[Shape] = []
    x, y, tallest = left, top, 0.0
    for gauge in gauges:
        size = outline(gauge, widest, least)
        if x > left and x + size.width > left + widest:
            x, y, tallest = left, y + tallest + _GAP, 0.0
        if shapes and y + size.height > room.bottom:
            pages.append(tuple(shapes))
            shapes = []
            x, y, tallest = left, room.top, 0.0
        shapes += draw_gauge(gauge, size, x, y)
        x += size.width + _GAP
        tallest = max(tallest, size.height)
    return [*pages, tuple(shapes)] if shapes else pages


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

"""What stands about the bar of a job, as polygons built from the job's own sizes.

Nothing here is taken from the ordering: pieces come from what the job states and, for what it
leaves out, from the round figures that the documents name.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import shapely
from attrs import frozen
from shapely.affinity import scale
from shapely.geometry import Point, box
from shapely.geometry.base import BaseGeometry

from strapwright.shop.job import Job
from strapwright.shop.press import Press
from strapwright.shop.tooling import Shoulders, Tooling

FAR = 1e9
ENDLESS = (-FAR, FAR)


@frozen(kw_only=True, eq=False)
class Thing:
    """One piece: its name, which half it moves with, outline and reach along the nose."""

    name: str
    side: str
    outline: BaseGeometry
    along: tuple[float, float]
    touches: bool = False
    drawn: bool = False


def things_of(job: Job, deepest: float) -> list[Thing]:
    """What stands about the bar; heights of the nose side count from the nose's centre.

    ``deepest`` is the longest stroke of any bend: shoulders of no stated height stand as high as
    that needs [mm].
    """
    tooling, press = job.tooling, job.press
    if tooling is None or press is None:
        raise ValueError("the sweep states press and tooling")
    wide = job.part.at_once * job.part.bar.width
    height = _height(tooling.shoulders, deepest)
    return [
        *_nose(tooling, wide),
        *_plate(tooling, press, wide),
        *_shoulders(tooling.shoulders, height),
        *_under(tooling.shoulders, press, height),
        *_frame(press),
        *_rods(tooling),
        *(
            Thing(
                name=one.name,
                side=one.side,
                outline=box(*one.box),
                along=one.along or ENDLESS,
            )
            for one in tooling.obstacles
        ),
    ]


def _span(tooling: Tooling, wide: float) -> tuple[float, float]:
    span = tooling.nose.span or wide + 24.0
    return -0.5 * span, 0.5 * span


def _top(tooling: Tooling) -> float | None:
    """Face of the push plate over the nose's centre [mm]."""
    nose = tooling.nose
    return None if nose.reach is None else nose.reach - nose.radius


def _nose(tooling: Tooling, wide: float) -> list[Thing]:
    nose = tooling.nose
    low, high = _span(tooling, wide)
    ends = {
        "web": (low, high),
        "both ends": (low - 20.0, high + 20.0),
        "one end": (low, high + 20.0),
    }[nose.held]
    found = [
        Thing(
            name="nose",
            side="nose",
            outline=Point(0, 0).buffer(nose.radius, quad_segs=48),
            along=ends,
            touches=True,
            drawn=nose.drawable and nose.web_thickness is None,
        )
    ]
    if nose.web_thickness is not None:
        half = 0.5 * nose.web_thickness
        top = _top(tooling) or nose.radius + (nose.web_height or 0.0)
        web = box(-half, math.sqrt(max(nose.radius**2 - half**2, 0.0)), half, top)
        found.append(Thing(name="web of the nose", side="nose", outline=web, along=(low, high)))
    return found


def _plate(tooling: Tooling, press: Press, wide: float) -> list[Thing]:
    """Push plate, what it hangs on and what carries the nose."""
    plate, nose = _top(tooling), tooling.nose
    low, high = _span(tooling, wide)
    places = {"web": [], "one end": [(high, high + 20.0)]}.get(
        nose.held, [(high, high + 20.0), (low - 20.0, low)]
    )
    r = 1.6 * nose.radius
    carrier = box(-r, -nose.radius, r, nose.radius + 600.0 if plate is None else plate)
    found = [
        Thing(name="carrier of the nose", side="nose", outline=carrier, along=place)
        for place in places
    ]
    if plate is None:
        return found
    half = 0.5 * (tooling.plate_width or max(2.0 * tooling.shoulders.opening, 100.0))
    top = plate + (tooling.plate_thickness or 20.0)
    ram = 0.5 * (press.rod or 25.0)
    length = tooling.plate_length
    found.append(
        Thing(
            name="push plate",
            side="nose",
            outline=box(-half, plate, half, top),
            along=_evenly(length),
        )
    )
    found.append(
        Thing(
            name="ram" if tooling.ram_side == "nose" else "mount of the push plate",
            side="nose",
            outline=box(-ram, top, ram, top + 600.0),
            along=ENDLESS if length is None or press.rod is None else (-ram, ram),
        )
    )
    return found


def _evenly(length: float | None) -> tuple[float, float]:
    return ENDLESS if length is None else (-0.5 * length, 0.5 * length)


def _height(dies: Shoulders, deepest: float) -> float:
    """From the bed to the shoulder tops [mm]."""
    if dies.height is not None:
        return dies.height
    least = dies.opening
    if dies.depth is not None:
        least = dies.depth + (0.0 if dies.floor == "open" else 10.0)
    return max(least, deepest + 10.0)


def _shoulders(dies: Shoulders, height: float) -> list[Thing]:
    r, half = dies.radius, 0.5 * dies.opening
    foot = -max(height, r + 1.0)
    block = [Point(half, -r).buffer(r, quad_segs=48)]
    block.append(box(half - r, foot, max(half + r, dies.outer_edge or 0.0), -r))
    apart = []
    if dies.outer_edge is None:
        apart.append((" block", box(half, foot, half + r + 25.0, -2.0)))
    else:
        block.append(box(half, -r, dies.outer_edge, 0.0))
    right = [("", shapely.union_all(block)), *apart]
    return [
        Thing(
            name=f"{hand} shoulder{more}",
            side="shoulders",
            outline=_mirrored(outline) if hand == "left" else outline,
            along=_evenly(dies.length),
            touches=True,
        )
        for hand in ("left", "right")
        for more, outline in right
    ]


def _under(dies: Shoulders, press: Press, height: float) -> list[Thing]:
    """Floor between the shoulders, and the bed."""
    found = []
    half = 0.5 * dies.opening - dies.radius
    foot = max(height, dies.radius + 1.0)
    if dies.floor != "open" and dies.depth is not None and dies.depth < foot - 0.1:
        floor = box(-half, -min(dies.depth + 10.0, foot), half, -dies.depth)
        found.append(Thing(name="floor", side="shoulders", outline=floor, along=ENDLESS))
    half = 0.5 * (press.bed_width or 3000.0)
    bed = box(-half, -height - 40.0, half, -height)
    found.append(Thing(name="bed", side="shoulders", outline=bed, along=ENDLESS))
    return found


def _frame(press: Press) -> list[Thing]:
    if press.columns_apart is None:
        return []
    near = 0.5 * press.columns_apart
    column = box(near, -2000.0, near + (press.column_width or 60.0), 2000.0)
    return [
        Thing(name=name, side="shoulders", outline=outline, along=(-100.0, 100.0))
        for name, outline in (("left column", _mirrored(column)), ("right column", column))
    ]


def _rods(tooling: Tooling) -> list[Thing]:
    found = []
    for rod in tooling.rods:
        r = 0.5 * rod.diameter
        right = box(rod.out - r, -2000.0, rod.out + r, 2000.0)
        found += [
            Thing(
                name=name,
                side="shoulders",
                outline=outline,
                along=(rod.along - r, rod.along + r),
            )
            for name, outline in (("left guide rod", _mirrored(right)), ("right guide rod", right))
        ]
    return found


def _mirrored(outline: BaseGeometry) -> BaseGeometry:
    return scale(outline, -1.0, 1.0, origin=(0, 0))


def beside(job: Job, things: Sequence[Thing], shift: float = 0.0) -> list[Thing]:
    """Things that stand where the bar lies along the nose, shifted by so much [mm]."""
    half = 0.5 * job.part.at_once * job.part.bar.width
    return [t for t in things if t.along[0] < half + shift and shift - half < t.along[1]]

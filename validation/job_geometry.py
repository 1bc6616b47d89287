"""Tooling, bar and motion of a job as dense polygons, built from the job's own sizes.

Nothing here is taken from the ordering: pieces come from what the job states (and, for what it
leaves out, from the round figures that the documents name), the bar from its legs, the motion from
the triangle of arc centre, shoulder and contact.  Distances are shapely's, motions are sampled.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from attrs import frozen
from shapely.affinity import rotate, scale, translate
from shapely.geometry import LineString, Point, box
from shapely.geometry.base import BaseGeometry

from strapwright.shop.job import Job

STEPS = 24  # of a stroke
ARC = math.radians(2.0)  # of a drawn arc
FAR = 1e9


@frozen(kw_only=True, eq=False)
class Thing:
    """One piece: its name, which half it moves with, outline and reach along the nose."""

    name: str
    side: str
    outline: BaseGeometry
    along: tuple[float, float]
    touches: bool = False
    drawn: bool = False


def things_of(job: Job) -> list[Thing]:
    """What stands about the bar; heights of the nose side count from the nose's centre."""
    tooling, press = job.tooling, job.press
    if tooling is None or press is None:
        raise ValueError("the sweep states press and tooling")
    nose, dies = tooling.nose, tooling.shoulders
    wide = job.part.at_once * job.part.bar.width
    span = nose.span or wide + 24.0
    low, high = -0.5 * span, 0.5 * span
    endless = (-FAR, FAR)
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
    plate = None if nose.reach is None else nose.reach - nose.radius
    if nose.web_thickness is not None:
        half = 0.5 * nose.web_thickness
        top = plate if plate is not None else nose.radius + (nose.web_height or 0.0)
        web = box(-half, math.sqrt(max(nose.radius**2 - half**2, 0.0)), half, top)
        found.append(Thing(name="web of the nose", side="nose", outline=web, along=(low, high)))
    if plate is not None and nose.reach is not None:
        half = 0.5 * (tooling.plate_width or max(2.0 * dies.opening, 100.0))
        top = plate + (tooling.plate_thickness or 20.0)
        ram = 0.5 * (press.rod or 25.0)
        found += [
            Thing(
                name="push plate", side="nose", outline=box(-half, plate, half, top), along=endless
            ),
            Thing(name="ram", side="nose", outline=box(-ram, top, ram, top + 600.0), along=endless),
        ]
        if nose.held != "web":
            r = 1.6 * nose.radius
            places = [(high, high + 20.0)]
            if nose.held == "both ends":
                places.append((low - 20.0, low))
            carrier = box(-r, -nose.radius, r, plate)
            found += [
                Thing(name="carrier of the nose", side="nose", outline=carrier, along=place)
                for place in places
            ]
    r, half = dies.radius, 0.5 * dies.opening
    foot = -(dies.height or (dies.depth or dies.opening) + 10.0)
    outer = max(half + r, dies.outer_edge or 0.0)
    block = [Point(half, -r).buffer(r, quad_segs=48), box(half - r, foot, outer, -r)]
    if dies.outer_edge is not None:
        block.append(box(half, -r, dies.outer_edge, 0.0))
    right = shapely.union_all(block)
    for name, outline in (
        ("left shoulder", scale(right, -1.0, 1.0, origin=(0, 0))),
        ("right shoulder", right),
    ):
        found.append(
            Thing(name=name, side="shoulders", outline=outline, along=endless, touches=True)
        )
    if dies.floor == "flat" and dies.depth is not None:
        floor = box(r - half, -dies.depth - 10.0, half - r, -dies.depth)
        found.append(Thing(name="floor", side="shoulders", outline=floor, along=endless))
    if dies.height is not None:
        half = 0.5 * (press.bed_width or 400.0)
        bed = box(-half, -dies.height - 40.0, half, -dies.height)
        found.append(Thing(name="bed", side="shoulders", outline=bed, along=endless))
    if press.columns_apart is not None:
        near = 0.5 * press.columns_apart
        column = box(near, -1000.0, near + (press.column_width or 60.0), 1000.0)
        for name, flip in (("left column", -1.0), ("right column", 1.0)):
            found.append(
                Thing(
                    name=name,
                    side="shoulders",
                    outline=scale(column, flip, 1.0, origin=(0, 0)),
                    along=endless,
                )
            )
    for rod in tooling.rods:
        r = 0.5 * rod.diameter
        for name, flip in (("left guide rod", -1.0), ("right guide rod", 1.0)):
            x = flip * rod.out
            found.append(
                Thing(
                    name=name,
                    side="shoulders",
                    outline=box(x - r, -400.0, x + r, 400.0),
                    along=(rod.along - r, rod.along + r),
                )
            )
    found += [
        Thing(name=one.name, side=one.side, outline=box(*one.box), along=one.along or endless)
        for one in tooling.obstacles
    ]
    return found


def beside(job: Job, things: Sequence[Thing], shift: float = 0.0) -> list[Thing]:
    """Things that stand where the bar lies along the nose, shifted by so much [mm]."""
    half = 0.5 * job.part.at_once * job.part.bar.width
    return [t for t in things if t.along[0] < half + shift and shift - half < t.along[1]]


@frozen(kw_only=True)
class Chain:
    """One bar: straights and arcs, from end 1.

    Attributes
    ----------
    legs, turns, radii
        Straight between the bends [mm], signed bend angles [rad], radii of the inside faces [mm].
    overbend
        Of each bend under the ram [rad].
    """

    legs: tuple[float, ...]
    turns: tuple[float, ...]
    radii: tuple[float, ...]
    thick: float
    overbend: tuple[float, ...]

    @property
    def length(self) -> float:
        """Of the unbent bar [mm]."""
        return sum(self.legs) + sum(self.flat(bend) for bend in range(len(self.turns)))

    def flat(self, bend: int) -> float:
        """Length of a bend on the mid-line [mm]."""
        return (self.radii[bend] + 0.5 * self.thick) * abs(self.turns[bend])


def chain_of(job: Job, radii: Sequence[float], overbend: Sequence[float]) -> Chain:
    """Lay the part out by its legs as measured, for the inside radii that the plan gives."""
    part = job.part
    thick = part.bar.thickness
    add = {"outside": thick, "inside": 0.0, "centre": 0.5 * thick}[part.measured]
    taken = [0.0]
    for bend, radius in zip(part.bends, radii, strict=True):
        to_line = radius + add
        half = math.tan(0.5 * bend.angle)
        taken.append(to_line * (half if bend.angle <= 0.5 * math.pi + 1e-9 else 1.0))
    taken.append(0.0)
    legs = tuple(leg - taken[k] - taken[k + 1] for k, leg in enumerate(part.legs))
    return Chain(
        legs=legs,
        turns=tuple(bend.side * bend.angle for bend in part.bends),
        radii=tuple(radii),
        thick=thick,
        overbend=tuple(overbend),
    )


def wing(
    chain: Chain, made: frozenset[int], bend: int, towards: int, phi: float
) -> tuple[np.ndarray, int]:
    """Mid-line of one wing from the middle of the bend, drawn to the right, from the arc centre.

    ``towards`` is 1 for the wing to end 2 and -1 for that to end 1; ``phi`` the half angle.  With
    it the number of the point where its first straight ends.
    """
    first = 0
    own = math.copysign(1.0, chain.turns[bend])
    rho = chain.radii[bend] + 0.5 * chain.thick
    points = [(rho * math.sin(a), -rho * math.cos(a)) for a in _fine(0.0, phi)]
    x, y = points[-1]
    heading = phi
    run = 0.5 * chain.flat(bend) - rho * phi
    at = bend
    while True:
        run += chain.legs[at + 1] if towards > 0 else chain.legs[at]
        at += towards
        last = not 0 <= at < len(chain.turns)
        if not last and at not in made:
            run += chain.flat(at)
            continue
        x, y = x + run * math.cos(heading), y + run * math.sin(heading)
        points.append((x, y))
        first = first or len(points) - 1
        if last:
            return np.array(points), first
        turn = own * chain.turns[at]
        r = math.copysign(chain.radii[at] + 0.5 * chain.thick, turn)
        cx, cy = x - r * math.sin(heading), y + r * math.cos(heading)
        points += [
            (cx + r * math.sin(h), cy - r * math.cos(h)) for h in _fine(heading, heading + turn)[1:]
        ]
        x, y = points[-1]
        heading += turn
        run = 0.0


def _fine(start: float, stop: float) -> np.ndarray:
    return np.linspace(start, stop, max(int(abs(stop - start) / ARC), 1) + 1)


@frozen(kw_only=True, eq=False)
class Laid:
    """A bar at one angle of one bend: its wings as they lie, and where the nose's centre stands."""

    left: BaseGeometry
    right: BaseGeometry
    line: np.ndarray
    nose: float
    beyond: BaseGeometry | None

    @property
    def whole(self) -> BaseGeometry:
        """Both wings."""
        return shapely.union(self.left, self.right)


def band(line: np.ndarray, thick: float) -> BaseGeometry:
    """Return a mid-line as a bar."""
    return LineString(line).buffer(0.5 * thick, cap_style="flat", join_style="mitre")


def laid(
    chain: Chain,
    made: frozenset[int],
    bend: int,
    end_left: int,
    phi: float,
    job: Job,
    *,
    above: float = 0.0,
    beneath: float = 0.0,
) -> Laid:
    """Lay a bar on the shoulders at a half angle; other bars above and beneath it [mm]."""
    if job.tooling is None:
        raise ValueError("no tooling")
    dies, nose = job.tooling.shoulders, job.tooling.nose
    ri = chain.radii[bend]
    # Centre of the arc over the shoulders: the leg's outer face touches the shoulder's circle.
    across = ri + chain.thick + beneath + dies.radius
    centre = -dies.radius + (across - 0.5 * dies.opening * math.sin(phi)) / math.cos(phi)
    to_end_2 = wing(chain, made, bend, 1, phi)
    to_end_1 = wing(chain, made, bend, -1, phi)
    (right, on), (left, off) = (to_end_2, to_end_1) if end_left == 1 else (to_end_1, to_end_2)
    lift = np.array([0.0, centre])
    mirror = np.array([-1.0, 1.0])
    tails = [right[on:] + lift, left[off:] * mirror + lift]
    far = [band(tail, chain.thick) for tail in tails if len(tail) > 1]
    return Laid(
        left=band(left * mirror + lift, chain.thick),
        right=band(right + lift, chain.thick),
        line=np.concatenate([(left * mirror)[:0:-1], right]) + lift,
        nose=centre - (ri - above - nose.radius),
        beyond=shapely.union_all(far) if far else None,
    )


def half_angles(chain: Chain, bend: int, steps: int = STEPS) -> np.ndarray:
    """Half angles of a stroke, overbend included [rad]."""
    return np.linspace(0.0, 0.5 * (abs(chain.turns[bend]) + chain.overbend[bend]), steps + 1)


def _swept(outline: BaseGeometry, daylight: float) -> BaseGeometry:
    return shapely.union(outline, translate(outline, 0.0, daylight)).convex_hull


def distances(
    pose: Laid, things: Sequence[Thing], *, resting: bool, daylight: float
) -> list[tuple[Thing, float]]:
    """Distance of the bar to every thing [mm], of what it lies on only beyond its first straights.

    At rest also while the nose side comes down.
    """
    whole = pose.whole
    found = []
    for thing in things:
        bar = pose.beyond if thing.touches else whole
        if bar is None:
            continue
        up = pose.nose if thing.side == "nose" else 0.0
        found.append((thing, bar.distance(translate(thing.outline, 0.0, up))))
        if resting and thing.side == "nose" and not thing.drawn:
            swept = translate(_swept(thing.outline, daylight), 0.0, up)
            found.append((thing, bar.distance(swept)))
    return found


def overlap(bar: BaseGeometry, thing: BaseGeometry, within: float) -> bool:
    """Whether a bar runs more than ``within`` [mm] into a thing."""
    return bool(bar.intersects(thing.buffer(-within)))


def own_gap(line: np.ndarray, thick: float, reach: float) -> float:
    """Gap of a bar to itself, places nearer than ``reach`` along it left out [mm]."""
    steps = np.hypot(*np.diff(line, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(steps)])
    at = np.arange(0.0, along[-1], 2.0)
    x, y = (np.interp(at, along, line[:, k]) for k in (0, 1))
    far = at[:, None] - at[None, :] > reach
    apart = np.hypot(x[:, None] - x[None, :], y[:, None] - y[None, :])
    return float(np.min(apart[far], initial=FAR)) - thick


def straight_off(bar: BaseGeometry, things: Sequence[Thing], reach: float = 2500.0) -> bool:
    """Whether a bar comes off the nose side straight, in one of many directions in its plane.

    ``things`` of the nose side that stand where the bar lies; the bar at the nose's centre.
    """
    walls = [thing.outline.buffer(-0.05) for thing in things if thing.side == "nose"]
    if not walls:
        return True
    wall = shapely.union_all(walls)
    shapely.prepare(wall)
    for angle in np.linspace(0.0, 2.0 * math.pi, 73)[:-1]:
        ways = np.concatenate([np.arange(0.5, 40.0, 1.5), np.linspace(40.0, reach, 120)])
        dx, dy = math.cos(angle), math.sin(angle)
        moved = [translate(bar, float(s * dx), float(s * dy)) for s in ways]
        if not any(shapely.intersects(wall, moved)):
            return True
    return False


def moved_bar(
    bar: BaseGeometry, x: float, y: float, theta: float, about: tuple[float, float]
) -> BaseGeometry:
    """Turn a bar about a point [rad], then shift it."""
    return translate(rotate(bar, theta, origin=about, use_radians=True), x, y)


def slides_off(bar: BaseGeometry, job: Job, things: Sequence[Thing]) -> bool:
    """Whether a bar on the nose slides off along it as it lies."""
    half = 0.5 * job.part.at_once * job.part.bar.width
    for sign in (1.0, -1.0):
        reach = [max(sign * t.along[0], sign * t.along[1]) for t in things]
        near = [min(sign * t.along[0], sign * t.along[1]) for t in things]
        ahead = [
            t
            for t, far, close in zip(things, reach, near, strict=True)
            # What stands all the way beside it goes on beside it.
            if t.side == "nose" and far > half and close > -half
        ]
        if not any(bar.intersects(t.outline) for t in ahead):
            return True
    return False

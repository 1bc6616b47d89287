"""The bar of a job at a bend or a hit as dense polygons, laid on the shoulders anew.

Nothing here is taken from the ordering: the bar comes from its legs, the motion from the triangle
of arc centre, shoulder and contact or, for a bar that is no longer straight, from letting it sink
on both shoulders.  Distances are shapely's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from attrs import frozen
from shapely.affinity import translate
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from job_things import FAR, Thing
from strapwright.shop.job import Job

STEPS = 24  # of a stroke
ARC = math.radians(2.0)  # of a drawn arc


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
    first = int(np.searchsorted(at, reach, side="right"))  # places further on than the reach
    if first >= len(at):
        return FAR - thick
    # Squares: a root of every pair would take longer than all else here.
    squares = (x[first:, None] - x[None, :-first]) ** 2 + (y[first:, None] - y[None, :-first]) ** 2
    apart = math.sqrt(float(np.min(squares[np.tri(len(squares), dtype=bool)])))
    return min(apart, FAR) - thick


@frozen(kw_only=True)
class HitRow:
    """A row of hits in a bar: its 0-based bend, how many hits, and what each turns [rad]."""

    bend: int
    hits: int
    each: float


def hit_line(
    chain: Chain, made: frozenset[int], row: HitRow, hit: int, angle: float, end_left: int
) -> np.ndarray:
    """Mid-line at one 0-based hit of a row, the point under the nose at the origin and level there.

    The hits before it are an arc of the row's radius; those behind it are straight.
    """
    bend = row.bend
    own = math.copysign(1.0, chain.turns[bend])
    share = chain.flat(bend) / row.hits
    wings = []
    for towards in (1, -1):
        # Half of the hit being made is a small arc over half its share of the row.
        pieces = [(0.5 * share, 0.5 * angle)]
        if towards > 0:
            pieces.append((share * (row.hits - 1 - hit), 0.0))
        elif hit:
            pieces.append((share * hit, row.each * hit))
        at = bend
        while True:
            pieces.append((chain.legs[at + 1] if towards > 0 else chain.legs[at], 0.0))
            at += towards
            if not 0 <= at < len(chain.turns):
                break
            turn = own * chain.turns[at] if at in made else 0.0
            pieces.append((chain.flat(at), turn))
        wings.append(_walked(pieces))
    right, left = wings if end_left == 1 else wings[::-1]
    return np.concatenate([(left * np.array([-1.0, 1.0]))[:0:-1], right])


def _walked(pieces: Sequence[tuple[float, float]]) -> np.ndarray:
    """Follow lengths and turns from the origin, level to the right."""
    points, heading = [(0.0, 0.0)], 0.0
    for length, turn in pieces:
        count = max(int(abs(turn) / ARC), 1)
        for _ in range(count):
            heading += 0.5 * turn / count
            chord = length / count
            if turn:
                chord *= math.sin(0.5 * turn / count) / (0.5 * turn / count)
            x, y = points[-1]
            points.append((x + chord * math.cos(heading), y + chord * math.sin(heading)))
            heading += 0.5 * turn / count
    return np.array(points)


def hit_laid(line: np.ndarray, thick: float, job: Job) -> Laid:
    """Let a bar sink, tilting, until it lies on both shoulders; the nose comes down on it."""
    if job.tooling is None:
        raise ValueError("no tooling")
    dies, nose = job.tooling.shoulders, job.tooling.nose
    middle = int(np.argmin(np.hypot(*line.T)))
    # Only what lies about the nose is carried: up to where it stands nearly upright.
    headings = np.degrees(np.unwrap(np.arctan2(*np.diff(line, axis=0).T[::-1])))
    headings -= headings[min(middle, len(headings) - 1)]
    low = high = middle
    while low > 0 and abs(headings[low - 1]) < 80.0:
        low -= 1
    while high < len(headings) and abs(headings[high]) < 80.0:
        high += 1
    steps = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line[low : high + 1], axis=0).T))])
    at = np.linspace(0.0, steps[-1], max(int(steps[-1] / 0.25), 2))
    run = np.column_stack([np.interp(at, steps, line[low : high + 1, k]) for k in (0, 1)])

    def turned(points: np.ndarray, tilt: float) -> np.ndarray:
        c, s = math.cos(tilt), math.sin(tilt)
        return np.column_stack(
            [c * points[:, 0] - s * points[:, 1], s * points[:, 0] + c * points[:, 1]]
        )

    def height(points: np.ndarray, x: float, y: float, reach: float, up: float) -> float:
        """How far the points must rise to keep ``reach`` over, or under, a centre."""
        off = points[:, 0] - x
        near = np.abs(off) < reach
        rise = np.sqrt(reach**2 - off[near] ** 2) - up * (points[near, 1] - y)
        return float(np.max(rise, initial=-FAR))

    reach = dies.radius + 0.5 * thick
    half = 0.5 * dies.opening
    best = (FAR, 0.0)
    tilts = np.linspace(-0.8, 0.8, 81)
    for _ in range(6):
        rises = [
            abs(
                height(turned(run, tilt), -half, -dies.radius, reach, 1.0)
                - height(turned(run, tilt), half, -dies.radius, reach, 1.0)
            )
            for tilt in tilts
        ]
        k = int(np.argmin(rises))
        best = (rises[k], float(tilts[k]))
        width = tilts[1] - tilts[0]
        tilts = np.linspace(best[1] - width, best[1] + width, 21)
    tilt = best[1]
    there = turned(run, tilt)
    lift = max(height(there, x, -dies.radius, reach, 1.0) for x in (-half, half))
    whole = turned(line, tilt) + np.array([0.0, lift])
    there = there + np.array([0.0, lift])
    centre = height(there * np.array([1.0, -1.0]), 0.0, 0.0, nose.radius + 0.5 * thick, 1.0)
    return Laid(
        left=band(whole[: middle + 1], thick),
        right=band(whole[middle:], thick),
        line=whole,
        nose=centre,
        beyond=None,
    )

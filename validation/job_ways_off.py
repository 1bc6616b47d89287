"""Ways off with both halves open: the way a plan gives, walked finely, and plain ones.

Coordinates are those of the nose: it stands still, the die falls back to full opening, and the
part goes along or stays on the shoulders.  Nothing here is taken from the ordering.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from attrs import frozen
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from job_things import Thing, beside
from strapwright.shop.job import Job

Motion = Sequence[tuple[float, float, float, float]]
STEP = 1.0  # of a part on its way off [mm]
SKIN = 0.05  # what touches is in nobody's way [mm]
# A level way off is followed so far, finely at first [mm].
SIDEWAYS = np.concatenate([np.arange(0.0, 40.0, 1.5), np.linspace(40.0, 2500.0, 240)])
# A leg that hangs beside a narrow bed stays no lower than it is, by so much at most [mm].
HANG = 1.2
STARTED = 0.55  # a shorter way down at first is not the halves opening [mm]


@frozen(kw_only=True)
class At:
    """One moment: the part's shift and turn, and how far the die's tops are under the nose."""

    x: float
    y: float
    z: float
    turn: float
    die: float


class Halves:
    """Both halves of a job, and how far they open.

    Parameters
    ----------
    thickness
        Of all that lies between the halves, a stack as a whole [mm].
    """

    def __init__(
        self, job: Job, things: Sequence[Thing], thickness: float, daylight: float
    ) -> None:
        if job.tooling is None:
            raise ValueError("no tooling")
        self.job = job
        self.things = things
        self.opened = thickness + job.tooling.nose.radius + daylight
        self.bed = max((t.outline.bounds[3] for t in things if t.name == "bed"), default=-math.inf)
        nose = (t.outline.bounds[3] for t in things if t.side == "nose")
        self.top = max(nose, default=math.inf)
        self._eroded: dict[tuple[int, float], BaseGeometry] = {}

    def met(self, bar: BaseGeometry, at: At, within: float) -> list[str]:
        """Names of what a bar runs into by more than ``within`` at one moment [mm]."""
        moved = moved_bar(bar, at)
        return [
            thing.name
            for thing in beside(self.job, self.things, at.z)
            if moved.intersects(self._wall(thing, at.die, within))
        ]

    def _wall(self, thing: Thing, die: float, within: float) -> BaseGeometry:
        key = (id(thing), within)
        if key not in self._eroded:
            self._eroded[key] = thing.outline.buffer(-within)
        wall = self._eroded[key]
        return wall if thing.side == "nose" else translate(wall, 0.0, -die)

    def against(self, bar: BaseGeometry, closed: float, motion: Motion, within: float) -> list[str]:
        """What speaks against a way off that a plan gives, from where the nose lets go.

        Parameters
        ----------
        bar
            As bent, at the nose's centre.
        closed
            How far the tops are under the nose's centre as it lets go [mm].
        """
        found: dict[str, None] = {}
        at = At(x=0.0, y=0.0, z=0.0, turn=0.0, die=closed)
        ground = min(self.bed - self.opened, float(bar.bounds[1]) + _opening(motion))
        for at in walked(motion, closed, self.opened):
            for name in self.met(bar, at, within):
                found[f"leads through {name}"] = None
            if at.die < self.opened:
                continue
            if moved_bar(bar, at).bounds[1] < ground - HANG - within:
                found["leads below the bed"] = None
        if not self.is_off(bar, at):
            found["ends with the part still between things"] = None
        return list(found)

    def is_off(self, bar: BaseGeometry, at: At) -> bool:
        """Whether a part has left all that stands beside it there, to one side, up or down."""
        left, low, right, high = moved_bar(bar, at).bounds
        walls = [self._wall(t, at.die, SKIN).bounds for t in beside(self.job, self.things, at.z)]
        walls = [w for w in walls if not math.isnan(w[0])]
        # What reaches out like a floor under the part, or stands like a post far off, holds
        # nothing: so it is enough to have left those whose heights it shares.
        walls = [w for w in walls if w[1] < high and w[3] > low]
        if not walls:
            return True
        return right < min(w[0] for w in walls) or left > max(w[2] for w in walls)

    def leave_plainly(self, bar: BaseGeometry, closed: float) -> bool:
        """Whether the halves open and the part then comes off straight, or slides off."""
        rise = self.opened - closed
        # Either the part stays on the shoulders, or it rides on the nose.
        for y in (-rise, 0.0):
            opening = [
                At(x=0.0, y=y * share, z=0.0, turn=0.0, die=closed + rise * share)
                for share in np.linspace(0.0, 1.0, max(int(rise / STEP), 2))
            ]
            if any(self.met(bar, at, SKIN) for at in opening):
                continue
            if self.plainly_off(translate(bar, 0.0, y)):
                return True
        return False

    def plainly_off(self, bar: BaseGeometry) -> bool:
        """Whether a part comes off level once lifted or lowered, or slides off first.

        The bar as it lies with the halves open.
        """
        if self._off_level(bar, beside(self.job, self.things)):
            return True
        half = 0.5 * self.job.part.at_once * self.job.part.bar.width
        endless = [thing for thing in self.things if math.isinf(thing.along[1])]
        for sign in (1.0, -1.0):
            ahead = [
                thing
                for thing in self.things
                if math.isfinite(thing.along[1])
                and max(sign * thing.along[0], sign * thing.along[1]) > -half
            ]
            met = any(bar.intersects(self._wall(one, self.opened, SKIN)) for one in ahead)
            if not met and self._off_level(bar, endless):
                return True
        return False

    def _off_level(self, bar: BaseGeometry, near: Sequence[Thing]) -> bool:
        """Up or down by some way, no further than bed and head, then off level to one side."""
        wall = shapely.union_all([self._wall(thing, self.opened, SKIN) for thing in near])
        shapely.prepare(wall)
        low, high = bar.bounds[1], bar.bounds[3]
        for sign, most in (
            (1.0, max(self.top - high, 0.0)),
            (-1.0, max(low - self.bed + self.opened, 0.0)),
        ):
            for way in np.arange(0.0, most + STEP, STEP):
                lifted = translate(bar, 0.0, sign * min(float(way), most))
                if wall.intersects(lifted):
                    break
                if way < most and int(way) % 10:
                    continue
                for side in (1.0, -1.0):
                    moved = [translate(lifted, side * float(s), 0.0) for s in SIDEWAYS]
                    if not any(shapely.intersects(wall, moved)):
                        return True
        return False


def _opening(motion: Motion) -> float:
    """How far the part is moved against the nose while the halves open, 0 or below [mm]."""
    if len(motion) < 2 or motion[1][0] or motion[1][2] or motion[1][3] or motion[1][1] > -STARTED:
        return 0.0
    return float(motion[1][1])


def walked(motion: Motion, closed: float, opened: float) -> Iterator[At]:
    """Moments of a way off, close to each other: first the halves open, then the part leaves."""
    down = _opening(motion)
    for share in np.linspace(0.0, 1.0, max(int((opened - closed) / STEP), 2) + 1):
        rise = float(share) * (opened - closed)
        # The part stays on the shoulders until the nose takes it along.
        yield At(x=0.0, y=max(-rise, down), z=0.0, turn=0.0, die=closed + rise)
    # Where the halves part by as much as the part stays behind, that is the pose after it.
    first = 1 if down else 0
    for before, after in pairwise(motion[first:]):
        yield from _between(before, after, opened)


def _between(
    before: tuple[float, float, float, float],
    after: tuple[float, float, float, float],
    opened: float,
) -> Iterator[At]:
    (ax, ay, az, a), (bx, by, bz, b) = before, after
    # A turn is about one place of the part that stays where it is: turned(p) + shift is the same
    # before and after.
    about, far = None, max(abs(bx - ax), abs(by - ay), abs(bz - az))
    if abs(b - a) > 1e-9:
        there = np.array([[math.cos(t), -math.sin(t)] for t in (a, b)])
        turns = [np.array([[c, s], [-s, c]]) for c, s in there]
        about = np.linalg.solve(turns[0] - turns[1], np.array([bx - ax, by - ay]))
        stays = turns[0] @ about + np.array([ax, ay])
        far = max(far, abs(b - a) * 300.0)
    for share in np.linspace(0.0, 1.0, max(int(far / STEP), 1) + 1):
        z, turn = az + share * (bz - az), a + share * (b - a)
        if about is None:
            x, y = ax + share * (bx - ax), ay + share * (by - ay)
        else:
            c, s = math.cos(turn), math.sin(turn)
            x, y = stays - np.array([[c, -s], [s, c]]) @ about
        yield At(x=float(x), y=float(y), z=float(z), turn=float(turn), die=opened)


def moved_bar(bar: BaseGeometry, at: At) -> BaseGeometry:
    """Turn a bar about the nose's centre, then shift it."""
    if at.turn:
        bar = rotate(bar, at.turn, origin=(0.0, 0.0), use_radians=True)
    return translate(bar, at.x, at.y)

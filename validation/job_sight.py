"""One planned job as the sweep sees it: what stands about, and which steps keep well clear."""

from __future__ import annotations

import math
from functools import cached_property
from itertools import pairwise

import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from job_bars import (
    Chain,
    HitRow,
    Laid,
    chain_of,
    distances,
    half_angles,
    hit_laid,
    hit_line,
    laid,
    own_gap,
)
from job_things import FAR, Thing, beside, things_of
from job_ways_off import Halves
from strapwright.planning.plan_values import Plan

# What the plan promises to keep (docs/limits.md) [mm].
CLEARANCE, OWN, LEG, DEPTH = 1.5, 0.75, 3.0, 1.25
JAM = 0.95
# Two drawings of one bar differ by so much: chords, solved legs against even arcs [mm].
DRAWN = 0.75
# A bar that was hit before tilts: its legs' tips are drawn so much apart [mm].
ROW_DRAWN = 1.0
# An order that was missed must keep more than it has to by so much [mm].
SPARE = 0.5


class Sight:
    """One planned job, laid out anew."""

    def __init__(self, made: Plan) -> None:
        self.plan = made
        self.job = made.job
        deepest = max(one.setting.travel for one in made.steps)
        self.things = things_of(made.job, deepest)
        self.near = beside(made.job, self.things)
        steps = sorted(made.steps, key=lambda one: one.bend)
        tooling = made.job.tooling
        if tooling is None or made.job.press is None:
            raise ValueError("the sweep states press and tooling")
        self.tooling = tooling
        self.daylight = made.job.press.daylight or 150.0
        bends = made.job.part.bends
        self.wraps = [max(one.radii.wrap, tooling.nose.radius) for one in steps]
        radii = [bend.radius or wrap for bend, wrap in zip(bends, self.wraps, strict=True)]
        self.loaded = [one.loaded_angle for one in steps]
        # Corners of a row stand off the arc that it stands in for, which widens what must be kept.
        self.stand_off = 0.0
        self.rows = {
            one.bend - 1: HitRow(bend=one.bend - 1, hits=one.hits, each=one.wanted)
            for one in steps
            if one.hits > 1
        }
        over = [one.loaded_angle - one.free_angle for one in steps]
        self.one = chain_of(made.job, radii, over)
        for bend, row in self.rows.items():
            outside = radii[bend] + self.one.thick
            self.stand_off = max(self.stand_off, outside * (1.0 / math.cos(0.5 * row.each) - 1.0))
        self.bars = made.job.part.stacked
        self.halves = self._halves(self.things)
        # A shaft that is put in endways is not there yet; one that is drawn leaves what carries it.
        self.laying_in = self._halves([thing for thing in self.things if not thing.drawn])
        self.nose_drawn = self._halves([thing for thing in self.things if thing.name != "nose"])

    def _halves(self, things: list[Thing]) -> Halves:
        return Halves(self.job, things, self.bars * self.one.thick, self.daylight)

    @cached_property
    def searched(self) -> bool:
        """Whether the plan says nothing of a search left out."""
        return not any(f.code == "order-not-searched" for f in self.plan.findings)

    def hit(self, made: frozenset[int], row: HitRow, hit: int, end: int, angle: float) -> Laid:
        """The bar at an angle of one 0-based hit [rad]."""
        line = hit_line(self.one, made, row, hit, angle, end)
        return hit_laid(line, self.one.thick, self.job)

    def hit_distances(self, pose: Laid, *, resting: bool) -> dict[str, float]:
        """Least distance to what bears each name and is not what the bar lies on [mm]."""
        found: dict[str, float] = {}
        things = [thing for thing in self.near if not thing.touches]
        for thing, d in distances(pose, things, resting=resting, daylight=self.daylight):
            found[thing.name] = min(found.get(thing.name, FAR), d)
        return found

    def bar(self, number: int, bend: int) -> tuple[Chain, float, float]:
        """Bar of a stack for one bend, and what lies above and beneath it; 0 is at the nose."""
        t, up = self.one.thick, self.one.turns[bend] > 0.0
        places = [
            number if (turn > 0.0) == up else self.bars - 1 - number for turn in self.one.turns
        ]
        radii = tuple(r + t * p for r, p in zip(self.one.radii, places, strict=True))
        chain = Chain(
            legs=self.one.legs,
            turns=self.one.turns,
            radii=radii,
            thick=t,
            overbend=self.one.overbend,
        )
        return chain, number * t, (self.bars - 1 - number) * t

    def pose(self, made: frozenset[int], bend: int, end: int, phi: float, number: int = 0) -> Laid:
        """One bar at a half angle."""
        chain, above, beneath = self.bar(number, bend)
        return laid(chain, made, bend, end, phi, self.job, above=above, beneath=beneath)

    def reach(self) -> float:
        """Places of a bar nearer to each other than this along it are not told apart [mm]."""
        return 0.55 * math.pi * (self.one.thick + OWN)

    def keeps_well(self, made: frozenset[int], bend: int, end: int) -> bool:
        """Whether a step keeps more of everything than it has to, by a margin."""
        if bend in self.rows:
            return self._row_keeps_well(made, self.rows[bend], end)
        if not self._bare(made, bend, SPARE):
            return False
        if not all(self._stroke_keeps_well(made, bend, end, b) for b in range(self.bars)):
            return False
        return self._handled_plainly(made, bend, end)

    def _stroke_keeps_well(self, made: frozenset[int], bend: int, end: int, number: int) -> bool:
        """Closing and stroke of one bar, halved where it comes near something."""
        angles = [float(phi) for phi in half_angles(self.one, bend, 6)]
        # No place of the bar is farther from the arc than its own length.
        longest = 0.5 * self.one.length + 4.0 * max(self.one.radii)
        spare: dict[float, float] = {}

        def keeps(phi: float) -> float:
            """By how much the bar keeps more than it must [mm]."""
            if phi not in spare:
                pose = self.pose(made, bend, end, phi, number)
                held = distances(pose, self.near, resting=phi == 0.0, daylight=self.daylight)
                gap = own_gap(pose.line, self.one.thick, self.reach())
                spare[phi] = min(
                    min((d for _, d in held), default=FAR) - CLEARANCE, 0.5 * (gap - OWN)
                )
            return spare[phi]

        def between(low: float, high: float) -> bool:
            worst = min(keeps(low), keeps(high))
            moves = 0.5 * (high - low) * longest
            if worst < SPARE:
                return False
            if worst - moves >= 0.5 * SPARE or moves < 0.5 * SPARE:
                return True
            middle = 0.5 * (low + high)
            return between(low, middle) and between(middle, high)

        return all(between(a, b) for a, b in pairwise(angles))

    def _row_keeps_well(self, made: frozenset[int], row: HitRow, end: int) -> bool:
        """The same, hit by hit; a tilted bar is drawn less surely, so it must keep more."""
        bend, dies = row.bend, self.tooling.shoulders
        share = self.one.flat(bend) / row.hits
        off = 0.5 * (self.one.flat(bend) - share)
        before, after = self.runs(self.one, made, bend)
        if min(before, after) - off < 0.5 * dies.opening + LEG + SPARE + 2.0:
            return False
        for hit in range(row.hits):
            angles = [self.loaded[bend] * k / 12.0 for k in range(13)]
            for k, angle in enumerate(angles):
                pose = self.hit(made, row, hit, end, angle)
                held = self.hit_distances(pose, resting=k == 0)
                moves = 0.5 * angles[1] * self.one.length
                if min(held.values(), default=FAR) < CLEARANCE + ROW_DRAWN + moves:
                    return False
                tips = own_gap(pose.line, self.one.thick, self.reach())
                if tips < OWN + ROW_DRAWN + 2.0 * moves:
                    return False
                if (
                    dies.depth is not None
                    and pose.line[:, 1].min() - self.one.thick < DEPTH - dies.depth
                ):
                    return False
        return self._handled_plainly(made, bend, end)

    def comes_off_plainly(self, made: frozenset[int], bend: int, end: int) -> bool:
        """Whether all bars together come off level or slide off once the halves are open."""
        bar, closed = self.let_go(made, bend, end)
        return self.halves.leave_plainly(bar, closed)

    def let_go(self, made: frozenset[int], bend: int, end: int) -> tuple[BaseGeometry, float]:
        """All bars as bent, at the nose's centre, and how high that is as it lets go [mm]."""
        if bend in self.rows:
            row = self.rows[bend]
            poses = [self.hit(made, row, row.hits - 1, end, row.each)]
        else:
            phi = 0.5 * abs(self.one.turns[bend])
            poses = [self.pose(made, bend, end, phi, number) for number in range(self.bars)]
        bars = [translate(pose.whole, 0.0, -pose.nose) for pose in poses]
        return shapely.union_all(bars), poses[0].nose

    def goes_in_plainly(self, made: frozenset[int], bend: int, end: int) -> bool:
        """Whether all bars together go on the shoulders the way that they would come off.

        For a row before every hit.
        """
        if bend in self.rows:
            row = self.rows[bend]
            laid = [[self.hit(made, row, hit, end, 0.0)] for hit in range(row.hits)]
        else:
            laid = [[self.pose(made, bend, end, 0.0, number) for number in range(self.bars)]]
        return all(
            self.laying_in.plainly_off(
                translate(
                    shapely.union_all([pose.whole for pose in poses]), 0.0, -self.halves.opened
                )
            )
            for poses in laid
        )

    def _handled_plainly(self, made: frozenset[int], bend: int, end: int) -> bool:
        """Whether a bar goes in for a bend and comes off after it, plainly."""
        if not self.goes_in_plainly(made, bend, end):
            return False
        if self.comes_off_plainly(made, bend, end):
            return True
        bar, closed = self.let_go(made, bend, end)
        return self.tooling.nose.drawable and self.nose_drawn.leave_plainly(bar, closed)

    def _bare(self, made: frozenset[int], bend: int, spare: float) -> bool:
        """Opening, depth and straight bar for one bend, of every bar."""
        return not any(self.lacks(made, bend, spare))

    def lacks(self, made: frozenset[int], bend: int, spare: float) -> tuple[bool, bool, bool]:
        """Whether it jams, goes too deep, or lacks straight bar, by a margin."""
        dies = self.tooling.shoulders
        half = 0.5 * dies.opening
        jams = deep = short = False
        for number in range(self.bars):
            chain, _, beneath = self.bar(number, bend)
            ri, t = chain.radii[bend], chain.thick
            across = ri + t + beneath + dies.radius
            phi = 0.5 * (abs(chain.turns[bend]) + chain.overbend[bend])
            jams |= math.sin(phi) * across > JAM * half * (1.0 - 0.02 * (spare > 0.0))
            centre = -dies.radius + (across - half * math.sin(phi)) / math.cos(phi)
            sunk = centre - ri - t - beneath
            deep |= dies.depth is not None and sunk < DEPTH - dies.depth + spare
            rho = ri + 0.5 * t
            need = max(half, half / math.cos(phi) - across * math.tan(phi) + rho * phi) + LEG
            short |= min(self.runs(chain, made, bend)) < need + spare
        return jams, deep, short

    def runs(self, chain: Chain, made: frozenset[int], bend: int) -> tuple[float, float]:
        """Straight bar from the middle of a bend to the next made bend or the end, both ways."""
        found = []
        for towards in (-1, 1):
            run, at = 0.5 * chain.flat(bend), bend
            while True:
                run += chain.legs[at + 1] if towards > 0 else chain.legs[at]
                at += towards
                if not 0 <= at < len(chain.turns) or at in made:
                    break
                run += chain.flat(at)
            found.append(run)
        return found[0], found[1]

"""Plan random jobs and hold every answer against geometry that shares nothing with the search.

``validation/job_sweep.py [--count N] [--first SEED] [--json FILE] [--part I/N]``, or ``python3
start.py validate --table jobs``.  Of every plan that is accepted each bend is laid out anew as
polygons, closed and bent in small steps and taken off by the way the plan gives; of every refusal
the reasons are looked at where they are said to happen; and for a refused part of up to five bends
all orders are gone through for one that keeps well clear.  With ``--json`` a run that was broken
off goes on where it stood.  Exit code 0 only where nothing disagrees.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections import Counter
from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise
from pathlib import Path
from typing import Any

import shapely
from shapely.affinity import translate

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from job_geometry import (
    FAR,
    Chain,
    Laid,
    band,
    beside,
    chain_of,
    distances,
    half_angles,
    laid,
    moved_bar,
    overlap,
    own_gap,
    slides_off,
    straight_off,
    things_of,
)
from random_jobs import job_text
from strapwright.errors import StrapwrightError
from strapwright.findings import Severity
from strapwright.ordering.refusal_values import (
    Hits,
    InStack,
    Jams,
    MeetsItself,
    NoWayThere,
    Reason,
    Refusal,
    ShortLeg,
    SmallRadius,
    StaysOn,
    TooNear,
    TooShallow,
)
from strapwright.planning import Plan, plan
from strapwright.planning.plan_values import Step
from strapwright.shop_files.reading_job import read_job

COUNT = 1000
# What the plan promises to keep (docs/limits.md) [mm].
CLEARANCE, OWN, LEG, DEPTH = 1.5, 0.75, 3.0, 1.25
JAM = 0.95
# Two drawings of one bar differ by so much: chords, solved legs against even arcs [mm].
DRAWN = 0.75
# An order that was missed must keep more than it has to by so much [mm].
SPARE = 0.5
REFUSED = ("no-order", "order-cannot-be-made")


class Sight:
    """One planned job, laid out anew."""

    def __init__(self, made: Plan) -> None:
        self.plan = made
        self.job = made.job
        self.things = things_of(made.job)
        self.near = beside(made.job, self.things)
        steps = sorted(made.steps, key=lambda one: one.bend)
        tooling = made.job.tooling
        if tooling is None or made.job.press is None:
            raise ValueError("the sweep states press and tooling")
        self.tooling = tooling
        self.daylight = made.job.press.daylight or 150.0
        radii = [max(one.radii.wrap, tooling.nose.radius) for one in steps]
        over = [one.loaded_angle - one.free_angle for one in steps]
        self.one = chain_of(made.job, radii, over)
        self.bars = made.job.part.stacked
        self._kept: dict[tuple[int, int, int], str] = {}

    @cached_property
    def searched(self) -> bool:
        """Whether the plan says nothing of a search left out."""
        return not any(f.code == "order-not-searched" for f in self.plan.findings)

    @cached_property
    def rows(self) -> bool:
        """Whether a bend is made by a row of hits."""
        return any(bend.radius is not None for bend in self.job.part.bends)

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
        if not self._bare(made, bend, SPARE):
            return False
        if not all(self._stroke_keeps_well(made, bend, end, b) for b in range(self.bars)):
            return False
        return self.tooling.nose.drawable or self.comes_off_plainly(made, bend, end)

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

    def comes_off_plainly(self, made: frozenset[int], bend: int, end: int) -> bool:
        """Whether all bars together come off straight or slide off as they lie."""
        phi = 0.5 * abs(self.one.turns[bend])
        bars = []
        for number in range(self.bars):
            pose = self.pose(made, bend, end, phi, number)
            bars.append(translate(pose.whole, 0.0, -pose.nose))
        whole = shapely.union_all(bars)
        return straight_off(whole, self.near) or slides_off(whole, self.job, self.things)

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


def check_accepted(sight: Sight) -> list[str]:
    """What speaks against a plan that was accepted."""
    wrong = []
    made: frozenset[int] = frozenset()
    for step in sight.plan.steps:
        bend = step.bend - 1
        if not sight.rows:
            wrong += _stroke(sight, step, made)
            wrong += _off(sight, step, made)
        wrong += _drawn(sight, step)
        made |= {bend}
    return wrong


def _stroke(sight: Sight, step: Step, made: frozenset[int]) -> list[str]:
    bend, end = step.bend - 1, step.hold.end_left
    least = FAR
    wrong = []
    for number in range(sight.bars):
        for k, phi in enumerate(half_angles(sight.one, bend, 60)):
            pose = sight.pose(made, bend, end, float(phi), number)
            for thing in sight.near:
                up = pose.nose if thing.side == "nose" else 0.0
                if overlap(pose.whole, translate(thing.outline, 0.0, up), 0.3):
                    wrong.append(f"accepted: bend {bend + 1} runs into {thing.name}")
            held = distances(pose, sight.near, resting=k == 0, daylight=sight.daylight)
            least = min([least, *(d for _, d in held)])
            if own_gap(pose.line, sight.one.thick, sight.reach()) < 0.0:
                wrong.append(f"accepted: bend {bend + 1} runs into itself")
    if least < CLEARANCE - 0.25 - 0.1:
        wrong.append(f"accepted: bend {bend + 1} keeps only {least:.2f} mm")
    if any(sight.lacks(made, bend, -0.5)):
        wrong.append(f"accepted: bend {bend + 1} jams, sinks too deep or lacks straight bar")
    # What is said to be kept: of a stack it is that of the stack as one bar.
    said = step.clearance
    if sight.bars == 1 and said is not None and least < 900.0 and said > least + 0.3:
        wrong.append(f"accepted: bend {bend + 1} says {said:.2f} mm clear, it is {least:.2f}")
    return list(dict.fromkeys(wrong))


def _drawn(sight: Sight, step: Step) -> list[str]:
    """The plan's own pictures: the bar as solved, against what stands about it."""
    wrong = []
    for name in ("rest", "stroke"):
        pose = step.poses[name]
        line = shapely.get_coordinates(shapely.linestrings(pose.x, pose.y))
        bar = band(line, sight.one.thick)
        for thing in sight.near:
            up = pose.nose_y if thing.side == "nose" else 0.0
            if overlap(bar, translate(thing.outline, 0.0, up), DRAWN):
                wrong.append(f"accepted: drawn {name} of bend {step.bend} lies in {thing.name}")
    return wrong


def _off(sight: Sight, step: Step, made: frozenset[int]) -> list[str]:
    """The way off that the plan gives, pose by pose, against the nose side."""
    off, bend = step.coming_off, step.bend - 1
    if off is None:
        return [f"accepted: nothing is said of coming off after bend {step.bend}"]
    if off.verdict == "locked on":
        plainly = sight.comes_off_plainly(made, bend, step.hold.end_left)
        return [f"accepted: bend {step.bend} is said to lock on and does not"] if plainly else []
    wrong = []
    phi = 0.5 * abs(sight.one.turns[bend])
    for number in range(sight.bars):
        pose = sight.pose(made, bend, step.hold.end_left, phi, number)
        bar = translate(pose.whole, 0.0, -pose.nose)
        for x, y, z, theta in off.motion:
            moved = moved_bar(bar, x, y, theta, (0.0, 0.0))
            for thing in beside(sight.job, sight.things, z):
                if thing.side == "nose" and overlap(moved, thing.outline, 0.4):
                    wrong.append(
                        f"accepted: the way off bend {step.bend} leads through {thing.name}"
                    )
    return list(dict.fromkeys(wrong))


def check_refused(sight: Sight, refusals: Sequence[Refusal]) -> list[str]:
    """Reasons that are not so, and orders that were missed."""
    wrong = []
    flat = [one for refusal in refusals for one in _plain(refusal)]
    for refusal in flat:
        made = frozenset(bend - 1 for bend in refusal.stage.made)
        ends = (1, 2) if refusal.end_left is None else (refusal.end_left,)
        if not any(_so(sight, made, refusal.stage.bend - 1, end, refusal.reason) for end in ends):
            kind = type(refusal.reason).__name__
            wrong.append(
                f"refused: bend {refusal.stage.bend} after {sorted(made)}: {kind} is not so"
            )
    order = missed_order(sight)
    if order is not None:
        wrong.append(f"refused: the order {order} keeps well clear")
    return wrong


def _plain(refusal: Refusal) -> list[Refusal]:
    if isinstance(refusal.reason, NoWayThere):
        return [one for blocked in refusal.reason.blocked for one in _plain(blocked)]
    return [refusal]


def _so(
    sight: Sight, made: frozenset[int], bend: int, end: int, reason: Reason, number: int = 0
) -> bool:
    """Whether a reason holds by what is drawn here."""
    chain = sight.bar(number, bend)[0]
    match reason:
        case InStack():
            return _so(sight, made, bend, end, reason.reason, reason.bar - 1)
        case Hits():
            phi = 0.5 * reason.angle
            held = _near(sight, made, bend, end, phi, reason.phase == "closing")
            return held.get(reason.piece.name, FAR) < CLEARANCE + 0.3
        case TooNear():
            name = "" if reason.piece is None else reason.piece.name
            least = min(
                _near(sight, made, bend, end, float(phi), k == 0).get(name, FAR)
                for k, phi in enumerate(half_angles(sight.one, bend, 80))
            )
            return least < CLEARANCE + 0.3
        case MeetsItself():
            pose = sight.pose(made, bend, end, 0.5 * reason.angle, number)
            gap = own_gap(pose.line, sight.one.thick, sight.reach())
            # Of a stack one bar may meet another: that is left to the reach of the stack as a bar.
            return gap < OWN + DRAWN + (sight.bars - 1) * sight.one.thick
        case Jams():
            return sight.lacks(made, bend, SPARE)[0]
        case TooShallow():
            return sight.lacks(made, bend, SPARE)[1]
        case ShortLeg():
            run = sight.runs(chain, made, bend)[reason.towards - 1]
            # A stack as one bar is as long as the middle of it.
            like = 0.5 if sight.bars == 1 else FAR
            return run < reason.needed + 0.3 and abs(run - reason.had) < like
        case SmallRadius():
            return chain.radii[bend] < sight.tooling.nose.radius
        case StaysOn():
            return not sight.comes_off_plainly(made, bend, end)
        case _:
            return True


def _near(
    sight: Sight, made: frozenset[int], bend: int, end: int, phi: float, resting: bool
) -> dict[str, float]:
    """Least distance to what bears each name, of all bars of a stack [mm]."""
    found: dict[str, float] = {}
    for number in range(sight.bars):
        pose = sight.pose(made, bend, end, phi, number)
        for thing, d in distances(pose, sight.near, resting=resting, daylight=sight.daylight):
            found[thing.name] = min(found.get(thing.name, FAR), d)
    return found


def missed_order(sight: Sight) -> list[int] | None:
    """Return an order whose every step keeps well clear, 1-based, or None where there is none."""
    n = len(sight.one.turns)
    full = frozenset(range(n))
    finished = sight.pose(full - {0}, 0, 1, 0.5 * abs(sight.one.turns[0]))
    if own_gap(finished.line, sight.one.thick, sight.reach()) < OWN + SPARE:
        return None
    dead: set[frozenset[int]] = set()

    def extend(made: frozenset[int], order: list[int]) -> list[int] | None:
        if len(order) == n:
            return order
        if made in dead:
            return None
        for bend in sorted(full - made):
            if any(sight.keeps_well(made, bend, end) for end in (1, 2)):
                found = extend(made | {bend}, [*order, bend + 1])
                if found is not None:
                    return found
        dead.add(made)
        return None

    return extend(frozenset(), [])


def run_job(seed: int) -> dict[str, Any]:
    """Plan one job and hold its answer against what is drawn here."""
    row: dict[str, Any] = {"seed": seed, "wrong": []}
    try:
        made = plan(read_job(job_text(seed)))
    except StrapwrightError as error:
        return row | {"answer": "no job", "why": str(error)}
    sight = Sight(made)
    codes = sorted({f.code for f in made.findings if f.severity is Severity.REFUSAL})
    row |= {
        "codes": codes,
        "bends": len(made.steps),
        "stacked": sight.bars,
        "row": sight.rows,
        "axis": made.job.press.axis if made.job.press else "",
        "ram_side": sight.tooling.ram_side,
    }
    if not sight.searched:
        return row | {"answer": "not checked"}
    refused = [f for f in made.findings if f.code in REFUSED]
    if refused:
        row["answer"] = "refused"
        if not sight.rows:
            row["wrong"] = check_refused(sight, refused[0].several(Refusal, "refusals"))
    elif codes:
        row["answer"] = "refused for other reasons"
    else:
        row["answer"] = "accepted"
        row["wrong"] = check_accepted(sight)
    return row


def _known(path: Path | None) -> dict[int, dict[str, Any]]:
    if path is None or not path.exists():
        return {}
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line]
    return {row["seed"]: row for row in rows}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--first", type=int, default=0, help="seed of the first job")
    parser.add_argument("--part", default="1/1", metavar="I/N", help="every N-th job from the I-th")
    parser.add_argument(
        "--json", type=Path, metavar="FILE", help="a line a job; what stands there is not run again"
    )
    options = parser.parse_args(arguments)
    which, parts = (int(word) for word in options.part.split("/"))
    rows = _known(options.json)
    for seed in range(options.first + which - 1, options.first + options.count, parts):
        if seed in rows:
            continue
        rows[seed] = run_job(seed)
        if options.json is not None:
            with options.json.open("a", encoding="utf-8") as file:
                file.write(json.dumps(rows[seed]) + "\n")
    counts = Counter(row["answer"] for row in rows.values())
    print(f"{len(rows)} jobs: " + ", ".join(f"{n} {word}" for word, n in sorted(counts.items())))
    wrong = [row for row in rows.values() if row["wrong"]]
    for row in sorted(wrong, key=lambda one: one["seed"]):
        print(f"seed {row['seed']}: " + "; ".join(row["wrong"]))
    print(f"{len(wrong)} disagree")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())

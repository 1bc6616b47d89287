"""Push 10,000 random bars through their strokes and count what does not hold.

``validation/sweep.py [--count N] [--json FILE]``.  W/t 4 to 20, nose radius 0.5 to 6 t, shoulder
radius 0.3 to 2 t, friction 0 to 0.3, loaded angles to 120 deg, every catalog metal, every kind of
section.  Checks that travel rises and force is positive at every point, that nothing raises and,
on a share of the cases, that a state asked for by its travel or free angle is the curve's own.
Exit code 0 only where nothing is broken.  Unsolved points are counted, not broken, each stroke by
what ends it: the solver's two limits by friction, or no leg that closes.  A stroke that ends
without either far from its jam is broken.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from attrs import define, field

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from strapwright.bending import BendSetup, state_at_travel, state_for_free_angle
from strapwright.bending.bar_lot import swift_through
from strapwright.bending.bend_values import FlowCurve
from strapwright.bending.kernel_frame import JAM, OK, nose_curvature
from strapwright.bending.kernel_stroke import solve_slope, try_leg
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import Model, build
from strapwright.catalog.metal_table import materials
from strapwright.errors import StrapwrightError

SEED = 20_240_611
POINTS = 100
MOST_SLOPE = math.radians(60.0)
ROUND_TRIPS = 20  # every so many cases
YIELDS = "friction on the shoulder makes the bar yield there"
LOCKS = "friction locks the bar on the flanks of the nose"
NO_LEG = "no leg closes"
ALONE = "solved when asked alone"
# Nearer to the jam than this the leg is so short that friction lets none close.
NEAR_JAM = 0.85
SECTIONS = ("slice", "flat", "flat", "square", "round")


@define(kw_only=True)
class Counts:
    """What the sweep saw."""

    cases: int = 0
    points: int = 0
    unsolved: int = 0
    ended: dict[str, list[float]] = field(factory=dict)
    short_cases: int = 0
    least_unsolved_friction: float = math.inf
    falling_travel: int = 0
    force_not_positive: int = 0
    free_above_loaded: int = 0
    round_trips: int = 0
    broken_round_trips: int = 0
    raised: list[str] = field(factory=list)
    steps: int = 0


def random_setup(rng: np.random.Generator, flows: Sequence[FlowCurve]) -> BendSetup:
    """Return one bar on one tooling."""
    t = float(rng.uniform(2.0, 16.0))
    section = SECTIONS[int(rng.integers(len(SECTIONS)))]
    width = t if section in ("square", "round") else t * float(rng.uniform(1.0, 12.0))
    nose = t * float(rng.uniform(0.5, 6.0))
    shoulder = t * float(rng.uniform(0.3, 2.0))
    return BendSetup(
        section=section,  # type: ignore[arg-type]  # one of four by the tuple above
        thickness=t,
        width=1.0 if section == "slice" else width,
        width_state=float(rng.uniform(0.0, 1.0)) if section == "slice" else None,
        # The shoulders must not overlap.
        opening=max(t * float(rng.uniform(4.0, 20.0)), 2.02 * shoulder),
        nose_radius=nose,
        shoulder_radius=shoulder,
        friction=float(rng.uniform(0.0, 0.3)),
        flow=flows[int(rng.integers(len(flows)))],
        unloading_ratio=float(rng.uniform(0.8, 1.0)),
    )


def run(count: int) -> Counts:
    """Sweep."""
    rng = np.random.default_rng(SEED)
    flows = [
        swift_through(m.modulus, m.poisson, m.yield_typical, m.tensile_typical, m.exponent)
        for m in materials()
    ]
    # And two metals without hardening, the weakest spot of all.
    flows += [
        FlowCurve(modulus=2e5, poisson=0.3, strength=300.0, offset=1.0, exponent=0.0, slope=h)
        for h in (0.0, 60.0)
    ]
    seen = Counts()
    for i in range(count):
        setup = random_setup(rng, flows)
        seen.cases += 1
        try:
            one(setup, seen, round_trip=i % ROUND_TRIPS == 0)
        except (StrapwrightError, ArithmeticError, ValueError) as error:
            seen.raised.append(f"{error}: {setup}")
    return seen


def what_ends(model: Model, solved: int) -> tuple[str, float]:
    """Say what ends a stroke after so many points, and at what share of the slope of its jam."""
    slope = min(model.top, MOST_SLOPE) * float(((solved + 1) / POINTS) ** 1.5)
    frame, table, rule = model.frame, model.table, model.rule
    point = solve_slope(frame, table, rule, slope, 0.0, 0.05)
    share = slope / model.jam
    if point.status == OK:
        return ALONE, share
    if point.status != JAM:
        return NO_LEG, share
    leg = try_leg(frame, table, rule, slope, point.root, nose_curvature(frame))
    return (YIELDS if leg.overdriven else LOCKS), share


def one(setup: BendSetup, seen: Counts, *, round_trip: bool) -> None:
    """Check one stroke."""
    model = build(setup)
    curve = curve_of(model, POINTS, MOST_SLOPE)
    solved = len(curve.travel) - 1
    seen.points += POINTS
    seen.steps += curve.solved.iterations
    if solved < POINTS:
        seen.unsolved += POINTS - solved
        seen.short_cases += 1
        seen.least_unsolved_friction = min(seen.least_unsolved_friction, setup.friction)
        why, share = what_ends(model, solved)
        seen.ended.setdefault(why, []).append(share)
    seen.falling_travel += int((np.diff(curve.travel) <= 0.0).sum())
    seen.force_not_positive += int((curve.force[1:] <= 0.0).sum())
    seen.free_above_loaded += int((curve.free_angle > curve.loaded_angle).sum())
    if not round_trip:
        return
    at = int(0.6 * solved)
    seen.round_trips += 1
    again = state_at_travel(setup, float(curve.travel[at]))
    off = abs(again.loaded_angle - curve.loaded_angle[at])
    if curve.free_angle[at] > math.radians(3.0):
        wanted = float(curve.free_angle[at])
        off += abs(state_for_free_angle(setup, wanted).free_angle - wanted)
    if off > 1e-4:
        seen.broken_round_trips += 1


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10_000, metavar="N")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the counts there too")
    options = parser.parse_args(arguments)
    seen = run(options.count)
    each = seen.steps / max(seen.points, 1)
    print(f"{seen.cases} cases, {seen.points} points, {each:.1f} evaluations a point")
    print(
        f"unsolved points: {seen.unsolved} in {seen.short_cases} cases, "
        f"none at a friction under {seen.least_unsolved_friction:.3f}"
    )
    for why, shares in sorted(seen.ended.items()):
        print(f"  {why}: {len(shares)} strokes, from {min(shares):.0%} of the slope of the jam on")
    print(f"travel that does not rise: {seen.falling_travel} points")
    print(f"force that is not positive: {seen.force_not_positive} points")
    print(f"free angle above the loaded one: {seen.free_above_loaded} points")
    print(f"states that are not the curve's own: {seen.broken_round_trips} of {seen.round_trips}")
    print(f"raised: {len(seen.raised)}")
    for text in seen.raised[:10]:
        print(f"  {text}")
    if options.json is not None:
        table = {name: getattr(seen, name) for name in seen.__slots__ if name[0] != "_"}
        options.json.write_text(json.dumps(table, indent=1) + "\n", encoding="utf-8")
    broken = (
        seen.falling_travel
        + seen.force_not_positive
        + seen.free_above_loaded
        + seen.broken_round_trips
        + len(seen.raised)
        + sum(share < NEAR_JAM for why in (NO_LEG, ALONE) for share in seen.ended.get(why, ()))
    )
    return 0 if not broken else 1


if __name__ == "__main__":
    sys.exit(main())

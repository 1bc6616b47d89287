"""Push 10,000 random bars through their strokes and count what does not hold.

``validation/sweep.py [--count N] [--json FILE]``.  W/t 4 to 20, nose radius 0.5 to 6 t, shoulder
radius 0.3 to 2 t, friction 0 to 0.3, loaded angles to 120 deg, every catalog metal, every kind of
section.  Checks that travel rises and force is positive at every point, that nothing raises and,
on a share of the cases, that a state asked for by its travel or free angle is the curve's own.
Exit code 0 only where nothing is broken; unsolved points are counted, not broken.
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
from strapwright.bending.solver import curve_of
from strapwright.bending.solver_model import build
from strapwright.catalog.metal_table import materials
from strapwright.errors import StrapwrightError

SEED = 20_240_611
POINTS = 100
MOST_SLOPE = math.radians(60.0)
ROUND_TRIPS = 20  # every so many cases
SECTIONS = ("slice", "flat", "flat", "square", "round")


@define(kw_only=True)
class Counts:
    """What the sweep saw."""

    cases: int = 0
    points: int = 0
    unsolved: int = 0
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
    )
    return 0 if not broken else 1


if __name__ == "__main__":
    sys.exit(main())

"""How the time of the stroke solver grows with points, draws and bends, as ratios and as a picture.

``python benchmarks/stroke_growth.py [--rounds 200] [--svg DIR] [--json FILE]``, or ``start.py bench
stroke_growth``.  Each time is the shortest of many rounds in seconds of the processor, over that of
the smallest of its kind in the same run: a straight line of slope one is growth in proportion.
Prints too what share of a stroke of 100 points the section's table takes.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
import time
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import attrs
import numpy as np

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()  # before anything that is compiled is imported

from strapwright.bending import BendSetup, FlowCurve, solve_curve, state_for_free_angle
from strapwright.bending.kernel_model import assemble
from strapwright.bending.kernel_sample import DRAW_COLUMNS, push_draws
from strapwright.bending.solver_model import FITTED, kernel_inputs, rule_for
from strapwright.drawing import to_svg
from strapwright.scene.primitives import Circle, Line, Scene, Shape, Text

SETUP = BendSetup(
    section="flat",
    thickness=6.35,
    width=50.8,
    opening=63.5,
    nose_radius=12.7,
    shoulder_radius=9.525,
    friction=0.1,
    flow=FlowCurve(modulus=2e5, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2),
)
SQUARE = math.radians(90.0)
SIZES = {
    "points": (25, 50, 100, 200, 400),
    "draws": (32, 64, 128, 256, 512),
    "bends": (1, 2, 4, 8, 16),
}
ROLES = {"points": "curve", "draws": "beyond", "bends": "stop"}


@attrs.frozen(kw_only=True)
class Grown:
    """Time of one size [s], and over that of the smallest of its kind [-]."""

    kind: str
    size: int
    seconds: float
    ratio: float


def shortest(work: Callable[[], object], rounds: int) -> float:
    work()  # compiles, fills caches
    least = math.inf
    for _ in range(rounds):
        begun = time.process_time()
        work()
        least = min(least, time.process_time() - begun)
    return least


def works(kind: str, size: int) -> Callable[[], object]:
    """A stroke of so many points; so many draws to an angle; so many bends of unlike openings."""
    if kind == "points":
        return lambda: solve_curve(SETUP, size)
    if kind == "bends":
        bends = [attrs.evolve(SETUP, opening=63.5 + 0.5 * k) for k in range(size)]
        return lambda: [solve_curve(one) for one in bends]
    draws = np.zeros((size, DRAW_COLUMNS))
    random = np.random.default_rng(1)
    draws[:, [0, 2, 4]] = np.exp(0.05 * random.standard_normal((size, 3)))
    none = np.zeros((size, 0))
    inputs, rule = kernel_inputs(SETUP), rule_for(SETUP.flow, FITTED)
    guess = 0.5 * state_for_free_angle(SETUP, SQUARE).loaded_angle
    return lambda: push_draws(
        inputs, FITTED.switches, rule, draws=draws, travels=none, angle=SQUARE, guess=guess
    )


def measured(rounds: int) -> list[Grown]:
    found = []
    for kind, sizes in SIZES.items():
        times = [shortest(works(kind, size), rounds) for size in sizes]
        found += [
            Grown(kind=kind, size=size, seconds=one, ratio=one / times[0])
            for size, one in zip(sizes, times, strict=True)
        ]
    return found


def picture(rows: list[Grown]) -> Scene:
    """Time over size, each over its smallest, both by their logarithm."""
    wide, high, left, low = 480.0, 320.0, 60.0, 60.0

    def at(size: float, ratio: float) -> tuple[float, float]:
        return left + wide * math.log(size) / math.log(16.0), low + high * math.log(
            max(ratio, 1.0)
        ) / math.log(16.0)

    shapes: list[Shape] = []
    for times in (1, 2, 4, 8, 16):
        across, up = at(times, 1.0), at(1.0, times)
        shapes += [
            Line(start=up, end=at(16.0, times), role="grid"),
            Text(at=(left - 8, up[1] - 5), text=f"{times}", size=15, role="label", anchor="end"),
            Text(at=(across[0], low - 22), text=f"{times}", size=15, role="label", anchor="middle"),
        ]
    shapes += [
        Text(
            at=(left + wide / 2, 10), text="times as many", size=15, role="label", anchor="middle"
        ),
        Text(at=(left, low + high + 16), text="times as long", size=15, role="label"),
    ]
    ends = []
    for kind in SIZES:
        some = [one for one in rows if one.kind == kind]
        points = [at(one.size / some[0].size, one.ratio) for one in some]
        role = ROLES[kind]
        shapes += [
            Line(start=a, end=b, role=role)  # type: ignore[arg-type]
            for a, b in pairwise(points)
        ]
        shapes += [Circle(centre=one, radius=2.5, role="caution-mark") for one in points]
        ends.append((points[-1][1], points[-1][0], kind))
    height = -math.inf
    for y, x, kind in sorted(ends):
        height = max(y - 5, height + 17)  # names do not lie on each other
        shapes.append(Text(at=(x + 8, height), text=kind, size=15, role="value"))
    return Scene(
        title="Growth of the stroke solver's time",
        description="Time over size, each over the smallest, for points, draws and bends.",
        bounds=(0.0, 0.0, left + wide + 70, low + high + 36),
        scale=1.0,
        shapes=tuple(shapes),
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=200)
    parser.add_argument("--svg", type=Path)
    parser.add_argument("--json", type=Path)
    options = parser.parse_args()
    rows = measured(options.rounds)
    print("kind    size   shortest, ms   times the smallest")
    for one in rows:
        print(f"{one.kind:<7} {one.size:>4} {1e3 * one.seconds:14.3f} {one.ratio:20.2f}")
    inputs, switches = kernel_inputs(SETUP), FITTED.switches
    table = shortest(lambda: assemble(inputs, switches), 5 * options.rounds)
    curve = shortest(works("points", 100), 5 * options.rounds)
    print(f"the section's table takes {table / curve:.0%} of a stroke of 100 points")
    if options.svg is not None:
        for look in ("light", "dark"):
            drawn = to_svg(picture(rows), "light" if look == "light" else "dark")
            (options.svg / f"stroke-growth.{look}.svg").write_text(drawn, encoding="utf-8")
    if options.json is not None:
        text = json.dumps([attrs.asdict(one) for one in rows], indent=1)
        options.json.write_text(text + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())

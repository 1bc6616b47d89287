"""Accepted strokes against densely sampled polygons, and refused steps worked around.

``python benchmarks/order_dense.py --strokes 1000 --parts 60``; exit code 1 where one differs.
Strokes: the search's yes is held against whole-part poses in shapely, which may come no nearer
than the clearance less its tolerance.  Parts: random steps are refused from outside, and the cost
found is held against a walk through all orders and ends.
"""

from __future__ import annotations

import argparse
import math
import sys
from pathlib import Path

import numpy as np

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "reference"))

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()  # before anything that is compiled is imported

from order_referee import SETTINGS, Referee, Step, cheapest, random_part, tooling

from strapwright.ordering.nearest_piece import nearest_piece
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import PartGeometry, Piece
from strapwright.ordering.possible_bends import Steps
from strapwright.ordering.refusal_values import StaysOn

RAIL = Piece(
    name="rail",
    side="shoulders",
    polygon=((-160.0, -60.0), (-120.0, -60.0), (-120.0, -8.0), (-160.0, -8.0)),
)
SECTIONS = (tooling(), tooling(extra=(RAIL,)))
# A distance that was sampled may be this much less than the stated one [mm].
ROUNDING = 0.02


def strokes(wanted: int, seed: int) -> int:
    """Draw accepted strokes until there are enough; return how many come too near."""
    rng = np.random.default_rng(seed)
    done = wrong = 0
    closest = worst = math.inf
    while done < wanted:
        section = SECTIONS[done % 2]
        bends = int(rng.integers(2, 7))
        part = random_part(rng, bends)
        steps = Steps(section, part, SETTINGS)
        referee = Referee(section, part, SETTINGS)
        for _ in range(4):
            bend, end = int(rng.integers(bends)), int(rng.integers(2))
            made = int(rng.integers(1 << bends)) & ~(1 << bend)
            if not steps.clear(made, bend, end) or done == wanted:
                continue
            done += 1
            sampled = referee.distance((made, bend, end), poses=60)
            stated, _ = nearest_piece(steps, made, bend, end)
            closest, worst = min(closest, sampled), min(worst, sampled - stated)
            if sampled < SETTINGS.clearance - SETTINGS.tolerance or sampled < stated - ROUNDING:
                wrong += 1
                print(f"bend {bend} made {made:b} end {end} of {part}: {sampled} against {stated}")
    print(
        f"{done} accepted strokes, {wrong} too near; the nearest comes to {closest:.3f} mm, the "
        f"least of sampled less stated distance is {worst:.3f} mm"
    )
    return wrong


def refusals(parts: int, seed: int) -> int:
    """Refuse random steps; return how many answers differ from the walk through all orders."""
    wrong = feasible = 0
    for k in range(parts):
        rng = np.random.default_rng(seed + k)
        bends = 4 + k % 3
        part = PartGeometry(
            straights=(60.0,) * (bends + 1),
            angles=tuple(math.radians(v) for v in rng.choice([-45.0, -30.0, 30.0, 45.0], bends)),
            radii=(9.5,) * bends,
            thickness=5.0,
        )
        share = rng.uniform(0.1, 0.6)
        steps = [(m, b, e) for m in range(1 << bends) for b in range(bends) for e in (0, 1)]
        forbidden = {step for step in steps if rng.random() < share}
        oracle = Steps(SECTIONS[k % 2], part, SETTINGS)

        def refuse(
            bend: int, end_left: int, made: tuple[int, ...], forbidden: set[Step] = forbidden
        ) -> StaysOn | None:
            state = (sum(1 << (b - 1) for b in made), bend - 1, end_left - 1)
            return StaysOn() if state in forbidden else None

        def allowed(s: Step, oracle: Steps = oracle, forbidden: set[Step] = forbidden) -> bool:
            return s not in forbidden and oracle.clear(*s) and not oracle.meets_itself(s[0], s[1])

        found = find_order(SECTIONS[k % 2], part, SETTINGS, refuse=refuse)
        least = cheapest(part, SETTINGS, allowed, lambda s, oracle=oracle: oracle.reach(*s))
        feasible += least is not None
        if found.cost != least or not found.proven:
            wrong += 1
            print(f"seed {seed + k}: found {found.cost}, least {least}")
    print(f"{parts} parts with steps refused, {feasible} feasible, {wrong} wrong")
    return wrong


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--strokes", type=int, default=100)
    parser.add_argument("--parts", type=int, default=20)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    wrong = refusals(options.parts, options.seed) + strokes(options.strokes, options.seed)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())

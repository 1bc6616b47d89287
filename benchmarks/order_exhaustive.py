"""The search against a walk through all orders and ends, for as many random parts as wanted.

``python benchmarks/order_exhaustive.py --parts 200 --bends 6``; exit code 1 where one differs.
"""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

import numpy as np

sys.path.append(str(Path(__file__).resolve().parent.parent / "tests" / "reference"))

from strapwright.service.compiler_cache import prepare_cache

prepare_cache()  # before anything that is compiled is imported

from order_referee import SETTINGS, cheapest, random_part, tooling

from strapwright.ordering.order_search import find_order
from strapwright.ordering.possible_bends import Steps


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--parts", type=int, default=100)
    parser.add_argument("--bends", type=int, default=6)
    parser.add_argument("--seed", type=int, default=0)
    options = parser.parse_args()
    wrong = feasible = 0
    longest = 0.0
    section = tooling()
    for k in range(options.parts):
        part = random_part(np.random.default_rng(options.seed + k), options.bends)
        started = time.perf_counter()
        result = find_order(section, part, SETTINGS)
        longest = max(longest, time.perf_counter() - started) if k else 0.0
        steps = Steps(section, part, SETTINGS)
        expected = cheapest(
            part,
            SETTINGS,
            lambda s, steps=steps: steps.clear(*s) and not steps.meets_itself(s[0], s[1]),
            lambda s, steps=steps: steps.reach(*s),
        )
        feasible += expected is not None
        if result.cost != expected or not result.proven:
            wrong += 1
            print(f"seed {options.seed + k}: found {result.cost}, least {expected}")
    print(
        f"{options.parts} parts of {options.bends} bends, {feasible} feasible, {wrong} wrong, "
        f"longest search {longest:.3f} s"
    )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())

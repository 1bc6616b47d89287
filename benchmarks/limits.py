"""How well a plan keeps to the time it is given, in seconds of the processor.

``python benchmarks/limits.py [--jobs FILE ...]``.  Each job and each order of many bends is given
0.3, 1 and 2 s; printed is what it took and the ratio to what it was given, where it ran out at all.
Prints; judges nothing, since times belong to a machine.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parent))

from strapwright.service.compiler_cache import load_loops, prepare_cache

prepare_cache()  # before anything that is compiled is imported

from order import RADIUS, SPRINGBACK, folded, tooling
from strapwright.ordering.order_search import find_order
from strapwright.ordering.order_values import SearchSettings
from strapwright.planning.plan import plan
from strapwright.service.load_job import load_job

EXAMPLES = Path(__file__).resolve().parent.parent / "docs" / "examples"
LIMITS = (0.3, 1.0, 2.0)  # s
Work = Callable[[Callable[[], bool]], object]


def works(jobs: list[Path]) -> list[tuple[str, Work]]:
    found: list[tuple[str, Work]] = []
    for path in jobs:
        job = load_job(path)
        found.append((path.stem, lambda going, job=job: plan(job, keep_going=going)))
    for bends in (16, 18):
        part, section = folded(bends, symmetric=False), tooling(even=False)
        settings = SearchSettings(springback=(SPRINGBACK,))
        found.append(
            (
                f"order, {bends} bends, nose {RADIUS} mm",
                lambda going, part=part, section=section, settings=settings: find_order(
                    section, part, settings, keep_going=going
                ),
            )
        )
    return found


def main() -> int:
    parser = argparse.ArgumentParser(description="Measure how well a plan keeps to its time.")
    parser.add_argument("--jobs", nargs="+", type=Path, help="job files; two examples if left out")
    options = parser.parse_args()
    jobs = options.jobs or [EXAMPLES / f"{n}.toml" for n in ("winch-drum-ring", "pipe-saddle")]
    load_loops()
    print(f"{'':<36}{'given':>8}{'took':>8}{'ratio':>8}")
    for name, work in works(jobs):
        work(lambda: False)  # loads what else there is to load
        for limit in LIMITS:
            begun = time.process_time()
            ran_out = [False]

            def going(end: float = begun + limit, ran_out: list[bool] = ran_out) -> bool:
                ran_out[0] = ran_out[0] or time.process_time() >= end
                return not ran_out[0]

            work(going)
            took = time.process_time() - begun
            ratio = f"{took / limit:.3f}" if ran_out[0] else "in time"
            print(f"{name:<36}{limit:>8.1f}{took:>8.2f}{ratio:>8}")
    return 0


if __name__ == "__main__":
    sys.exit(main())

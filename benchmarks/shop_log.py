"""How long the shop log takes: learning from ten readings, keeping one, the screen after it.

    python benchmarks/shop_log.py [--rounds N]

Prints one JSON object: medians in seconds of this machine's clock and of processor time.
``run.py`` has the same as ratios to its reference operation.  Nothing is answered from memory that
a person at the press would wait for: every reading differs a little from any before.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import count
from pathlib import Path

from attrs import evolve

from strapwright.learning.learn import learn
from strapwright.pages import log_page
from strapwright.pages.workshop import Workshop
from strapwright.planning.from_the_log.learned_job import readings_of
from strapwright.service.compiler_cache import prepare_cache
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.shop_log.learned_jobs import gather, things_in
from strapwright.store import open_store

AT = datetime(2031, 5, 4, tzinfo=UTC)
TEXT = (JOBS / f"{NAMES[0]}.toml").read_text("utf-8")
READINGS = 10
# Seconds aimed at: an update with ten readings, and what a page answers in.
UPDATE, ANSWER = 0.3, 0.5

Work = tuple[str, Callable[[], object], float]


@contextmanager
def works() -> Iterator[list[Work]]:
    """Name each operation with what it is aimed at [s], on a store with ten logged bends."""
    with tempfile.TemporaryDirectory() as place, open_store(Path(place)) as store:
        item = store.create("job", "hanger", TEXT, AT)
        shop = Workshop(store)
        opened, made = shop.open(item.id), shop.order_plan(TEXT)
        angles = {step.bend: step.free_angle for step in made.steps}
        times = count()

        def log(part: int, bend: int, gauge: float) -> int:
            typed = {"angle": f"{math.degrees(angles[bend]):.3f}", "gauge": f"{gauge:.2f}"}
            kept = log_page.keep(shop, opened, {**typed, "sure": "yes"}, part, bend)
            if isinstance(kept, log_page.Asked) or kept.entry is None:
                raise SystemExit(f"not kept: {kept}")
            return kept.entry.line

        def screen() -> None:
            now = log_page.turn(shop, opened, made, 0, 0)
            if now is not None:
                log_page.screen(shop, opened, made, now)

        order = [step.bend for step in made.steps]
        for place_of in range(READINGS):
            part, bend = divmod(place_of, len(order))
            log(part + 1, order[bend], 655.0 + place_of)
        readings = readings_of(gather(store, made.job, things_in(store, TEXT, made.job)).lines)

        def update() -> None:
            last = readings[-1]
            gauge = (last.gauge or 0.0) * (1.0 + 1e-6 * next(times))
            learn([*readings[:-1], evolve(last, gauge=gauge)])

        def keep_and_show() -> None:
            part, bend = divmod(READINGS, len(order))
            line = log(part + 1, order[bend], 660.0 + 0.01 * next(times))
            screen()
            store.log.change(line, "measured", AT, counted=False)  # ten count again

        yield [
            (f"learning from {len(readings)} readings", update, UPDATE),
            ("keeping a reading, and the screen after it", keep_and_show, ANSWER),
            ("the screen of a bend again", screen, ANSWER),
        ]


def main() -> int:
    """Time each."""
    parser = argparse.ArgumentParser(description="Time the shop log.")
    parser.add_argument("--rounds", type=int, default=9, metavar="N", help="times each (9)")
    options = parser.parse_args()
    prepare_cache()
    figures = {}
    with works() as named:
        for name, work, goal in named:
            work()  # compiles, fills caches
            wall, cpu = [], []
            for _ in range(options.rounds):
                begun, used = time.perf_counter(), time.process_time()
                work()
                wall.append(time.perf_counter() - begun)
                cpu.append(time.process_time() - used)
            figures[name] = {
                "clock": round(statistics.median(wall), 4),
                "processor": round(statistics.median(cpu), 4),
                "aimed at": goal,
            }
    print(json.dumps(figures, indent=1))
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""How long a reading takes: the update of ten readings, keeping one, and the screen after it.

    python benchmarks/shop_log.py

Prints one JSON object, seconds of this machine's clock, medians of nine; the first run compiles.
"""

from __future__ import annotations

import json
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from strapwright.learning.learn import learn
from strapwright.pages import log_page
from strapwright.pages.workshop import Workshop
from strapwright.planning.from_the_log.learned_job import readings_of
from strapwright.service.compiler_cache import prepare_cache
from strapwright.service.demo import JOBS, NAMES
from strapwright.service.shop_log.learned_jobs import gather, things_in
from strapwright.service.shop_log.logged_push import JobText, log_push
from strapwright.store import open_store

AT = datetime(2031, 5, 4, tzinfo=UTC)
TEXT = (JOBS / f"{NAMES[0]}.toml").read_text("utf-8")


def seconds(what: Callable[[], object]) -> float:
    """Return how long one call takes."""
    begin = time.perf_counter()
    what()
    return time.perf_counter() - begin


def main() -> int:
    """Log ten pushes, then time."""
    prepare_cache()
    keep, show = [], []
    with tempfile.TemporaryDirectory() as place, open_store(Path(place)) as store:
        item = store.create("job", "hanger", TEXT, AT)
        job = JobText(item=item.id, version=1, text=TEXT)
        shop = Workshop(store)
        opened, made = shop.open(item.id), shop.order_plan(TEXT)

        def log(part: int) -> None:
            log_push(
                store, job, {"angle": "45", "gauge": f"{655 + part}"}, bend=2, at=AT, part=part
            )

        def screen() -> None:
            now = log_page.turn(shop, opened, made, 0, 0)
            if now is not None:
                log_page.screen(shop, opened, made, now)

        for part in range(1, 11):
            keep.append(seconds(lambda part=part: log(part)))
            show.append(seconds(screen))
        readings = readings_of(gather(store, made.job, things_in(store, TEXT, made.job)).lines)
        update = [seconds(lambda: learn(readings)) for _ in range(9)]
    figures = {"readings": len(readings), "update": update, "keep": keep[1:], "screen": show[1:]}
    print(
        json.dumps(
            {
                name: round(statistics.median(value), 3) if isinstance(value, list) else value
                for name, value in figures.items()
            },
            indent=1,
        )
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""Is an unknown bar named?  Bars of every grade of the catalog, bent, tested and guessed.

``validation/unknown_bars.py [--count N] [--json FILE]``, or ``python3 start.py validate --table
unknown``.  Each bar is drawn within the spreads of its grade and bent by the solver, twice to about
a right angle and once to half of it, with an error of the solver's own stated size on top.  It is
read with noise, and shown to magnet, spark and scratch, which are read as wrongly as is assumed.
"""

from __future__ import annotations

import argparse
import json
import math
import statistics
import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from attrs import evolve

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from strapwright.bending import state_at_travel
from strapwright.bending.bend_band import NINETY
from strapwright.bending.model_error import model_error
from strapwright.bending.shop_spreads import USUAL_SPREADS
from strapwright.catalog.bench_tests import TESTS, bench_tests
from strapwright.errors import InputError
from strapwright.learning.grade_odds import RIGHT
from strapwright.learning.log_readings import Places
from strapwright.learning.log_spreads import USUAL_LOG
from strapwright.planning.bend_setups import bend_setup, known_bar, spreads_of
from strapwright.planning.from_the_log.learned_job import LogLine
from strapwright.planning.from_the_log.pushed_bend import with_tooling
from strapwright.planning.from_the_log.unknown_grade import grades_that_fit
from strapwright.shop_files.reading_job import read_job

SEED = 20_250_302
JOB = """format = 1
units = "metric"
[part]
name = "trial"
bar = "flat 6 x 40"
material = "{}"
shape = ["150", "up 90", "150"]
[press]
bore = "80 mm"
[tooling]
nose = {{ radius = "12 mm" }}
shoulders = {{ radius = "10 mm", opening = "64 mm", floor = "open" }}
"""
WAYS = ("bends", "tests", "both")
TRAVELS = (16.0, 16.0, 9.0)  # mm


def pushes(grade: str, rng: np.random.Generator) -> list[LogLine]:
    """Bend one bar of a grade three times and read it."""
    job = read_job(JOB.format(grade))
    known, tooling = known_bar(job), with_tooling(job)
    setup = bend_setup(job, known, tooling)
    s = spreads_of(job, known, tooling, USUAL_SPREADS)
    flow = setup.flow
    n = max(flow.exponent + s.exponent * rng.standard_normal(), 0.005)
    factor = math.exp(s.strength * rng.standard_normal())
    bar = evolve(
        setup,
        thickness=setup.thickness * math.exp(s.thickness * rng.standard_normal()),
        friction=max(setup.friction + s.friction * rng.standard_normal(), 0.0),
        unloading_ratio=setup.unloading_ratio * math.exp(s.unloading * rng.standard_normal()),
        opening=setup.opening + s.opening * rng.standard_normal(),
        flow=evolve(
            flow, exponent=n, strength=flow.strength * factor * flow.offset ** (flow.exponent - n)
        ),
    )
    touch = s.touch * rng.standard_normal()
    scale, zero = (
        1.0 + s.reading * rng.standard_normal(),
        USUAL_LOG.gauge_zero * rng.standard_normal(),
    )
    off = rng.standard_normal(3)
    lines = []
    for part, travel in enumerate(TRAVELS):
        at = travel + touch + USUAL_LOG.stop * rng.standard_normal()
        state = state_at_travel(bar, at)
        error = model_error(setup, state.loaded_angle)
        free = state.free_angle + (off[0] * error.angle - off[1] * error.springback) / NINETY
        force = state.force * (1.0 + off[2] * error.force / NINETY)
        gauge = force / (0.95 * math.pi * 80.0**2 / 4.0) * scale + zero
        lines.append(
            LogLine(
                entry=str(part),
                job=read_job(JOB.format("unknown scrap")),
                places=Places(
                    lot="lot", press="press", tooling="tooling", mounting="1", part=str(part)
                ),
                travel=travel,
                free=free + USUAL_LOG.protractor * rng.standard_normal(),
                loaded=None,
                gauge=gauge * (1.0 + USUAL_LOG.gauge * rng.standard_normal()),
            )
        )
    return lines


def shown(grade: str, rng: np.random.Generator) -> dict[str, str]:
    """Show a bar to magnet, spark and scratch."""
    seen = {}
    for test, results in TESTS.items():
        true = bench_tests()[grade].shows[test]
        others = [one for one in results if one != true]
        right = rng.random() < RIGHT[test]
        seen[test] = true if right else others[int(rng.integers(len(others)))]
    return seen


def study(
    count: int, rng: np.random.Generator, ways: Sequence[str] = WAYS
) -> dict[str, list[tuple[bool, int]]]:
    """Name so many bars by bends alone, by tests alone and by both: in the set, and its size."""
    grades = sorted(bench_tests())
    rows: dict[str, list[tuple[bool, int]]] = {way: [] for way in ways}
    for i in range(count):
        grade = grades[i % len(grades)]
        try:
            lines = pushes(grade, rng)
        except InputError:
            continue  # this bar jams before the travel: it was not bent so far
        seen = shown(grade, rng)
        for way in ways:
            bent = [] if way == "tests" else lines
            tested = {} if way == "bends" else seen
            stated = grades_that_fit(bent, tested, 6.0).odds.stated
            rows[way].append((grade in stated, len(stated)))
    return rows


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=200, metavar="N")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the table there too")
    options = parser.parse_args(arguments)
    rows = study(options.count, np.random.default_rng(SEED))
    table = {
        name: {
            "bars": len(found),
            "in the stated set": sum(held for held, _ in found) / len(found),
            "median size of the set": statistics.median(size for _, size in found),
        }
        for name, found in rows.items()
    }
    print(f"Unknown bars of {len(bench_tests())} grades")
    for name, row in table.items():
        print(
            f"{name:<6} {row['bars']:>4} bars  in the stated set {row['in the stated set']:6.1%}"
            f"  median size of the set {row['median size of the set']:g}"
        )
    if options.json is not None:
        options.json.write_text(json.dumps(table, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())

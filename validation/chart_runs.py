"""How soon the control chart finds a set-up that moves, and how often it cries wolf.

``validation/chart_runs.py [--runs N] [--json FILE]``, or ``python3 start.py validate --table
chart``.  Batches are drawn whose angles scatter as protractor and stop leave them, steady or moved
from a part on: at once, or a little more with every part.  After each part the chart is asked as
the page asks it, with the deviation that it takes then; what counts is when it first says that the
set-up has moved, and when it first marks a part.
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
from attrs import asdict, frozen

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from strapwright.learning.control_chart import chart, shift, steady_deviation
from strapwright.learning.log_spreads import USUAL_LOG

SEED = 20_250_303
PARTS = 40
FROM = 10  # parts that come out alike before anything moves
SLOPE = math.radians(6.0)  # rad/mm: of the bends of the demonstration about the setting
# Of single parts: protractor and stop, as the page takes them at least.
LEAST = math.hypot(USUAL_LOG.protractor, SLOPE * USUAL_LOG.stop)
# Name -> step at once, and more with every part, in degrees, and how much more the parts scatter.
WAYS = {
    "steady": (0.0, 0.0, 1.0),
    "steady, half as much scatter again": (0.0, 0.0, 1.5),
    "moved by 0.25 deg": (0.25, 0.0, 1.0),
    "moved by 0.5 deg": (0.5, 0.0, 1.0),
    "moved by 1 deg": (1.0, 0.0, 1.0),
    "drifts by 0.03 deg a part": (0.0, 0.03, 1.0),
    "drifts by 0.1 deg a part": (0.0, 0.1, 1.0),
}


@frozen(kw_only=True)
class Row:
    """What came of one way.

    Attributes
    ----------
    early
        Share of batches in which the set-up was said to have moved before anything had, or in which
        nothing ever did [-].
    marked
        Share of batches in which a part was marked in those parts [-].
    found
        Share of the others in which the move was found by the end of the batch [-].
    after
        Middle of the number of parts it took; ``None`` where fewer than half were found.
    """

    way: str
    runs: int
    early: float
    marked: float
    found: float
    after: float | None


def asked_after_each(angles: Sequence[float]) -> tuple[int | None, int | None]:
    """Return after which part a move is said, and a part marked, first; from 1."""
    said = marked = None
    for count in range(2, len(angles) + 1):
        found = chart(angles[:count])
        moved = shift(angles[:count], 0.0, steady_deviation(found, LEAST))
        if said is None and moved is not None:
            said = count
        if marked is None and found is not None and found.marked:
            marked = count
        if said is not None and marked is not None:
            break
    return said, marked


def study(way: str, runs: int, rng: np.random.Generator) -> Row:
    """Draw batches of one way."""
    step, drift, scatter = WAYS[way]
    since = np.maximum(np.arange(PARTS) - FROM + 1, 0)
    moved = np.radians(step * (since > 0) + drift * since)
    still = PARTS if step == drift == 0.0 else FROM
    early = marked = 0
    delays: list[int] = []
    for _ in range(runs):
        angles = scatter * LEAST * rng.standard_normal(PARTS) + moved
        said, first_marked = asked_after_each(list(angles))
        early += said is not None and said <= still
        marked += first_marked is not None and first_marked <= still
        if said is None or said > still:
            delays.append(PARTS + 1 if said is None else said - FROM)
    reached = [one for one in delays if one <= PARTS - FROM]
    middle = statistics.median(delays) if delays else math.inf
    return Row(
        way=way,
        runs=runs,
        early=early / runs,
        marked=marked / runs,
        found=0.0 if still == PARTS else len(reached) / max(len(delays), 1),
        after=None if still == PARTS or middle > PARTS - FROM else float(middle),
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=400, metavar="N")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the table there too")
    options = parser.parse_args(arguments)
    table = [
        study(way, options.runs, np.random.default_rng([SEED, place]))
        for place, way in enumerate(WAYS)
    ]
    print(
        f"Batches of {PARTS} parts, which scatter by {math.degrees(LEAST):.2f} deg, "
        f"moved from part {FROM + 1} on"
    )
    print(f"{'':<36}{'false alarm':>12}{'part marked':>12}{'found':>8}{'after parts':>13}")
    for row in table:
        moved = row.way.startswith("steady")
        found = "" if moved else f"{row.found:.0%}"
        after = "" if row.after is None else f"{row.after:g}"
        print(f"{row.way:<36}{row.early:>12.1%}{row.marked:>12.1%}{found:>8}{after:>13}")
    if options.json is not None:
        kept = [asdict(row) for row in table]
        options.json.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())

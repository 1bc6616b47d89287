"""Plan random jobs and hold every answer against geometry that shares nothing with the search.

``validation/job_sweep.py [--count N] [--first SEED] [--json FILE] [--part I/N]``, or ``python3
start.py validate --table jobs``.  Of every plan that is accepted each bend is laid out anew as
polygons, closed and bent in small steps and taken off by the way the plan gives; of every refusal
the reasons are looked at where they are said to happen; and for a refused part of up to five bends
all orders are gone through for one that keeps well clear.  With ``--json`` a run that was broken
off goes on where it stood.  Exit code 0 only where nothing disagrees.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import case_files  # noqa: F401  first: it sees to it that the compiled loops are fresh
from accepted_jobs import check_accepted
from job_sight import Sight
from random_jobs import job_text
from refused_jobs import check_refused
from strapwright.errors import StrapwrightError
from strapwright.findings import Severity
from strapwright.ordering.refusal_values import Refusal
from strapwright.planning.plan import plan
from strapwright.shop_files.reading_job import read_job

COUNT = 1000
REFUSED = ("no-order", "order-cannot-be-made")


def run_job(seed: int) -> dict[str, Any]:
    """Plan one job and hold its answer against what is drawn here."""
    row: dict[str, Any] = {"seed": seed, "wrong": []}
    try:
        made = plan(read_job(job_text(seed)))
    except StrapwrightError as error:
        return row | {"answer": "no job", "why": str(error)}
    sight = Sight(made)
    codes = sorted({f.code for f in made.findings if f.severity is Severity.REFUSAL})
    row |= {
        "codes": codes,
        "bends": len(made.steps),
        "stacked": sight.bars,
        "row": bool(sight.rows),
        "axis": made.job.press.axis if made.job.press else "",
        "ram_side": sight.tooling.ram_side,
    }
    if not sight.searched:
        return row | {"answer": "not checked"}
    refused = [f for f in made.findings if f.code in REFUSED]
    if refused:
        row["answer"] = "refused"
        row["wrong"] = check_refused(sight, refused[0].several(Refusal, "refusals"))
    elif codes:
        row["answer"] = "refused for other reasons"
    else:
        row["answer"] = "accepted"
        row["wrong"] = check_accepted(sight)
    return row


def _known(path: Path | None) -> dict[int, dict[str, Any]]:
    if path is None or not path.exists():
        return {}
    rows = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line]
    return {row["seed"]: row for row in rows}


def _kinds(rows: Sequence[dict[str, Any]]) -> list[tuple[str, list[dict[str, Any]]]]:
    """Jobs that were planned, by what is special about them."""
    planned = [row for row in rows if "bends" in row]
    kinds: list[tuple[str, list[dict[str, Any]]]] = [
        ("with a row of hits", [row for row in planned if row["row"]]),
        ("stacked", [row for row in planned if row["stacked"] > 1]),
    ]
    for key in ("axis", "ram_side"):
        for word in sorted({row[key] for row in planned}):
            words = f"axis {word}" if key == "axis" else f"ram at the {word}"
            kinds.append((words, [row for row in planned if row[key] == word]))
    return kinds


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--first", type=int, default=0, help="seed of the first job")
    parser.add_argument("--part", default="1/1", metavar="I/N", help="every N-th job from the I-th")
    parser.add_argument(
        "--json", type=Path, metavar="FILE", help="a line a job; what stands there is not run again"
    )
    options = parser.parse_args(arguments)
    which, parts = (int(word) for word in options.part.split("/"))
    rows = _known(options.json)
    for seed in range(options.first + which - 1, options.first + options.count, parts):
        if seed in rows:
            continue
        rows[seed] = run_job(seed)
        if options.json is not None:
            with options.json.open("a", encoding="utf-8") as file:
                file.write(json.dumps(rows[seed]) + "\n")
    counts = Counter(row["answer"] for row in rows.values())
    print(f"{len(rows)} jobs: " + ", ".join(f"{n} {word}" for word, n in sorted(counts.items())))
    for words, those in _kinds(list(rows.values())):
        accepted = sum(row["answer"] == "accepted" for row in those)
        print(f"  {words}: {len(those)}, {accepted} accepted")
    wrong = [row for row in rows.values() if row["wrong"]]
    for row in sorted(wrong, key=lambda one: one["seed"]):
        print(f"seed {row['seed']}: " + "; ".join(row["wrong"]))
    print(f"{len(wrong)} disagree")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())

"""How long a cut plan takes as it grows, and how many bars it saves; the growth as a picture.

``python benchmarks/cut_growth.py [--seeds 4] [--svg DIR] [--json FILE]`` solves lists of 10 to 250
pieces of three kinds on one core: *any* (lengths of 20 to 100 on bars of 150), *shop* (sixteenths
of an inch up to 90 in, several of each, kerf 1/8 in, bars of 240 in) and *full* (bars cut in three
without any waste, the hardest to find).  Goals: up to 120 pieces in 5 s each, median under 0.5 s;
none over 10 s at 250.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections import Counter
from itertools import pairwise
from pathlib import Path
from statistics import median

import numpy as np

from strapwright.cutting.bar_values import BarKind, CutTask
from strapwright.cutting.find_cut_plan import find_cut_plan
from strapwright.drawing import to_svg
from strapwright.scene.primitives import Circle, Line, Scene, Shape, Text

SIZES = (10, 20, 30, 60, 90, 120, 180, 250)
KINDS = ("any", "shop", "full")
TICKS = ((0.001, "1 ms"), (0.01, "10 ms"), (0.1, "0.1 s"), (1.0, "1 s"), (10.0, "10 s"))
GOALS = {120: 5.0, 250: 10.0}  # s


def pieces_of(kind: str, count: int, seed: int) -> tuple[list[int], int, int]:
    """Lengths, length of a bar and kerf, in whole steps."""
    dice = np.random.default_rng([seed, count])
    if kind == "any":
        return [int(one) for one in dice.integers(20, 101, count)], 150, 0
    if kind == "shop":
        lengths = dice.integers(5 * 16, 90 * 16, max(count // 4, 2))
        return [int(dice.choice(lengths)) for _ in range(count)], 240 * 16, 2
    found: list[int] = []
    for _ in range(count // 3):
        first = int(dice.integers(380, 491))
        second = int(dice.integers(250, (1000 - first) // 2 + 1))
        found += [first, second, 1000 - first - second]
    return found, 1000, 0


def measure(kind: str, count: int, seed: int) -> dict[str, object]:
    """Solve one list."""
    pieces, bar, kerf = pieces_of(kind, count, seed)
    counts = Counter(pieces)
    lengths = tuple(sorted(counts, reverse=True))
    task = CutTask(
        lengths=lengths,
        quantities=tuple(counts[one] for one in lengths),
        kinds=(BarKind(length=bar),),
        kerf=kerf,
    )
    plan = find_cut_plan(task, clock=time.perf_counter)
    if plan is None:
        raise SystemExit(f"{kind} {count} {seed}: no plan")
    return {
        "kind": kind, "pieces": len(pieces), "size": count, "seed": seed, "bars": plan.new,
        "first_fit": plan.first_fit, "proven": plan.proven, "seconds": round(plan.seconds, 4),
    }  # fmt: skip


def picture(rows: list[dict[str, object]]) -> Scene:
    """Seconds against pieces, both by their logarithm: a mark a list, a line through medians."""
    wide, high, left, low = 640.0, 340.0, 60.0, 50.0

    def at(pieces: float, seconds: float) -> tuple[float, float]:
        x = left + wide * np.log(pieces / 10) / np.log(25)
        y = low + high * (np.log10(max(seconds, 1e-3)) + 3) / 4.2
        return float(x), float(y)

    shapes: list[Shape] = []
    for seconds, word in TICKS:
        shapes.append(Line(start=at(10, seconds), end=at(250, seconds), role="grid"))
        y = at(10, seconds)[1]
        shapes.append(Text(at=(left - 8, y - 5), text=word, size=15, role="label", anchor="end"))
    for pieces in SIZES:
        x = at(pieces, 0.001)[0]
        shapes.append(Text(at=(x, 25), text=str(pieces), size=15, role="label", anchor="middle"))
    shapes.append(Text(at=(left + wide, 5), text="pieces", size=15, role="label", anchor="end"))
    roles = {"any": "curve", "shop": "beyond", "full": "stop"}
    for kind in KINDS:
        points = []
        for size in SIZES:
            some = [r for r in rows if (r["kind"], r["size"]) == (kind, size)]
            times = [float(str(r["seconds"])) for r in some]
            points.append(at(size, median(times)))
            shapes += [
                Circle(centre=at(size, one), radius=2.5, role="caution-mark") for one in times
            ]
        shapes += [
            Line(start=a, end=b, role=roles[kind])  # type: ignore[arg-type]
            for a, b in pairwise(points)
        ]
        x, y = points[-1]
        shapes.append(Text(at=(x + 8, y - 5), text=kind, size=15, role="value"))
    return Scene(
        title="Time of a cut plan",
        description="Seconds against the number of pieces, for three kinds of lists.",
        bounds=(0.0, 0.0, left + wide + 60, low + high + 20),
        scale=1.0,
        shapes=tuple(shapes),
    )


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=4)
    parser.add_argument("--svg", type=Path)
    parser.add_argument("--json", type=Path)
    options = parser.parse_args()
    rows = []
    print("kind  pieces  median s  longest s  proven  bars  longest first")
    for kind in KINDS:
        for size in SIZES:
            some = [measure(kind, size, seed) for seed in range(options.seeds)]
            rows += some
            times = [float(str(one["seconds"])) for one in some]
            bars = sum(int(str(one["bars"])) for one in some)
            first = sum(int(str(one["first_fit"])) for one in some)
            proven = sum(bool(one["proven"]) for one in some)
            print(f"{kind:<5} {size:>6} {median(times):>9.3f} {max(times):>10.3f} "
                  f"{proven:>4}/{len(some)} {bars:>5} {first:>14}", flush=True)  # fmt: skip
    small = [float(str(one["seconds"])) for one in rows if int(str(one["size"])) <= 120]
    every = [float(str(one["seconds"])) for one in rows]
    print(f"up to 120: median {median(small):.3f} s, longest {max(small):.2f} s; "
          f"in all: longest {max(every):.2f} s")  # fmt: skip
    if options.svg is not None:
        for look in ("light", "dark"):
            drawn = to_svg(picture(rows), "light" if look == "light" else "dark")
            (options.svg / f"cut-growth.{look}.svg").write_text(drawn, encoding="utf-8")
    if options.json is not None:
        options.json.write_text(json.dumps(rows, indent=1) + "\n", encoding="utf-8")
    over = max(small) > GOALS[120] or median(small) > 0.5 or max(every) > GOALS[250] + 1
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())

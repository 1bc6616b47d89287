"""Measure how long things take, each also as a ratio to one reference operation of the same run.

Run by ``python3 start.py bench [--rounds N]``; ``bench pages``, ``bench newcomer`` and the other
names of files beside this one run those instead, with their own flags.  Prints medians; judges
nothing, since times belong to a machine.  The reference operation runs on one core, as the solver
does, so that the ratios of two machines, and of two days on a busy one, can be compared.
"""

from __future__ import annotations

import argparse
import json
import math
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import attrs
import numpy as np

from strapwright.service.compiler_cache import prepare_cache

ROOT = Path(__file__).resolve().parent.parent
DRAWS = 10_000
# Of a page in a browser, of a person there, of phones that share a store, of orders, of a store
# that is killed.
OTHERS = (
    "limits",
    "pages",
    "side_by_side",
    "newcomer",
    "phones",
    "log_batch",
    "shop_log",
    "many_jobs",
    "order_dense",
    "order_exhaustive",
    "store_kills",
    "stroke_growth",
)


@attrs.frozen(kw_only=True)
class Measured:
    """Median and shortest time of one operation [s], and what was aimed at, if anything."""

    name: str
    median: float
    least: float
    goal: float | None = None


def measure(
    name: str,
    work: Callable[[], object],
    *,
    rounds: int,
    inner: int = 1,
    goal: float | None = None,
) -> Measured:
    work()  # compiles, fills caches
    taken = []
    for _ in range(rounds):
        begun = time.perf_counter()
        for _ in range(inner):
            work()
        taken.append((time.perf_counter() - begun) / inner)
    return Measured(name=name, median=statistics.median(taken), least=min(taken), goal=goal)


def reference(rounds: int) -> Measured:
    numbers = np.random.default_rng(1).random(1_000_000)

    def work() -> None:
        for _ in range(10):
            np.exp(numbers)

    return measure("reference: exp of a million numbers, 10 times", work, rounds=3 * rounds)


def solver(rounds: int) -> list[Measured]:
    """Single answers of the stroke solver, and the sample behind the bands."""
    from strapwright.bending import (  # noqa: PLC0415 - the compiler reads its folder on import
        BendSetup,
        FlowCurve,
        solve_curve,
        state_at_travel,
        state_for_free_angle,
    )
    from strapwright.bending.kernel_curve import TRAVEL  # noqa: PLC0415
    from strapwright.bending.kernel_sample import DRAW_COLUMNS, push_draws  # noqa: PLC0415
    from strapwright.bending.solver import state_of  # noqa: PLC0415
    from strapwright.bending.solver_model import FITTED, build, kernel_inputs, rule_for  # noqa: PLC0415

    setup = BendSetup(
        section="flat",
        thickness=6.35,
        width=50.8,
        opening=63.5,
        nose_radius=12.7,
        shoulder_radius=9.525,
        friction=0.1,
        flow=FlowCurve(modulus=2e5, poisson=0.3, strength=734.4, offset=0.0096, exponent=0.2),
    )
    square = math.radians(90.0)
    at_end = state_for_free_angle(setup, square)
    random = np.random.default_rng(1)
    draws = np.zeros((DRAWS, DRAW_COLUMNS))
    draws[:, [0, 2, 4]] = np.exp(0.05 * random.standard_normal((DRAWS, 3)))
    travels = np.full((DRAWS, 1), at_end.travel)
    prepared = build(setup)
    inputs, rule = kernel_inputs(setup), rule_for(setup.flow, FITTED)

    def sample() -> None:
        push_draws(inputs, FITTED.switches, rule, draws, travels, square, 0.5 * at_end.loaded_angle)

    return [
        measure(
            "stroke of 100 points with springback",
            lambda: solve_curve(setup),
            rounds=5 * rounds,
            inner=20,
            goal=0.25e-3,
        ),
        measure(
            "state at one travel",
            lambda: state_at_travel(setup, at_end.travel),
            rounds=5 * rounds,
            inner=50,
        ),
        measure(
            "the same, bend prepared",
            lambda: state_of(prepared, TRAVEL, at_end.travel),
            rounds=5 * rounds,
            inner=50,
            goal=25e-6,
        ),
        measure(
            "state for one free angle",
            lambda: state_for_free_angle(setup, square),
            rounds=5 * rounds,
            inner=50,
        ),
        measure(f"{DRAWS:,} bars to one travel and one angle", sample, rounds=rounds, goal=0.4),
    ]


def referee(rounds: int) -> tuple[Measured, Measured]:
    """One stroke by the chain of rigid links that the tests hold the solver to, and by the solver.

    The chain walks to its end in 80 steps and keeps 12 of them.
    """
    sys.path.insert(0, str(ROOT / "tests" / "reference"))
    from test_solver_against_chain import WIDE, by_chain  # noqa: PLC0415

    from strapwright.bending import solve_curve  # noqa: PLC0415

    travels = 16.2 * np.linspace(0.08, 1.0, 12)
    return (
        measure("one stroke by the chain of links", lambda: by_chain(WIDE, travels), rounds=rounds),
        measure(
            "the same stroke by the solver", lambda: solve_curve(WIDE), rounds=5 * rounds, inner=20
        ),
    )


def plans(rounds: int) -> list[Measured]:
    """Whole plans of the demonstration, bands and all."""
    from strapwright.planning.plan import plan  # noqa: PLC0415
    from strapwright.service.demo import JOBS, NAMES  # noqa: PLC0415
    from strapwright.service.load_job import load_job  # noqa: PLC0415

    measured = []
    for name in NAMES:
        job = load_job(JOBS / f"{name}.toml")
        measured.append(
            measure(f"plan of {name}", lambda job=job: plan(job), rounds=rounds, goal=0.5)
        )
    return measured


def orders(rounds: int) -> list[Measured]:
    """Orders until they are proven, and coming off."""
    from order import works  # noqa: PLC0415 - after the compiler knows its folder

    return [
        measure(name, work, rounds=max(rounds // 2, 1), goal=goal) for name, work, goal in works()
    ]


def shop_log(rounds: int) -> list[Measured]:
    """An update of what the log teaches, and a reading kept with the screen after it."""
    from shop_log import works  # noqa: PLC0415 - after the compiler knows its folder

    with works() as named:
        return [measure(name, work, rounds=rounds, goal=goal) for name, work, goal in named]


def help_process(rounds: int) -> Measured:
    command = [sys.executable, "-m", "strapwright", "--help"]
    return measure(
        "--help as a process",
        lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL),
        rounds=rounds,
        goal=0.3,
    )


def text_of(seconds: float) -> str:
    for unit, size in (("s", 1.0), ("ms", 1e-3), ("us", 1e-6)):
        if seconds >= size:
            return f"{seconds / size:.3g} {unit}"
    return f"{seconds * 1e9:.3g} ns"


def print_table(every: list[Measured], unit: float) -> None:
    print(f"{'':<52}{'median':>10}{'least':>10}{'aimed at':>10}{'ratio':>12}")
    for one in every:
        goal = "" if one.goal is None else text_of(one.goal)
        print(
            f"{one.name:<52}{text_of(one.median):>10}{text_of(one.least):>10}{goal:>10}"
            f"{one.median / unit:>12.3g}"
        )


def main() -> int:
    if sys.argv[1:] and sys.argv[1] in OTHERS:
        script = Path(__file__).with_name(f"{sys.argv[1]}.py")
        return subprocess.run([sys.executable, script, *sys.argv[2:]], check=False).returncode
    parser = argparse.ArgumentParser(
        description="Measure how long things take.",
        epilog=f"Named first, one of these runs instead: {', '.join(OTHERS)}.",
    )
    parser.add_argument("--rounds", type=int, default=7, help="times each is measured (7)")
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    options = parser.parse_args()
    if options.rounds < 1:
        parser.error("--rounds must be 1 or more")
    prepare_cache()
    first = reference(options.rounds)
    every = [first, *solver(options.rounds), *plans(options.rounds)]
    every += orders(options.rounds)
    every += shop_log(options.rounds)
    chain, same = referee(max(options.rounds // 3, 1))
    every += [chain, same, help_process(options.rounds)]
    last = reference(options.rounds)
    if options.json:
        print(json.dumps([attrs.asdict(one) for one in every], indent=2))
        return 0
    print(f"Python {platform.python_version()}, {platform.machine()}, numpy {np.__version__}")
    print_table(every, first.median)
    print(f"The chain takes {chain.median / same.median:,.0f} times as long as the solver.")
    # A machine that others use too drifts while this runs; the ratios are no better than this.
    print(f"The reference itself drifted by {abs(last.median / first.median - 1.0):.0%}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())

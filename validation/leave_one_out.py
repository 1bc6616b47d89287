"""Tune the solver's constants on the stroke cases, with and without each case in turn.

``validation/leave_one_out.py [--cases DIR] [--json FILE] [--keep FILE] [--only NAMES] [--without
NAMES]``.
Prints three tables: the constants as shipped, re-tuned on all cases (in-sample), and each case
judged by constants that were re-tuned without it.  All constants are re-tuned,
those that few cases carry too; shares that follow from statics are left as they are.
"""

from __future__ import annotations

import argparse
import json
import math
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from attrs import evolve, frozen
from scipy.optimize import least_squares

from carried_constants import carriers, show_constants
from case_files import Floats, Reader, read_case
from strapwright.bending import BendSetup, solve_curve
from strapwright.bending.model_error import model_error
from strapwright.bending.solver_model import FITTED, Effects
from strapwright.errors import InputError, StrapwrightError
from stroke_cases import Tolerance, Truth, read_setup, read_tolerance, read_truth

ORDINARY, HARD = "ordinary", "any weak spot"
OWN_CASES = Path(__file__).parent / "cases"
# Constant: step of the search, least, most.
TUNED: dict[str, tuple[float, float, float]] = {
    "offset": (0.03, 0.0, 0.2),
    "zone": (0.35, 0.05, 1.0),
    "rounding": (5.0, 3.0, 60.0),
    "thinning": (0.1, 0.0, 0.8),
    "squeeze": (0.05, 0.0, 0.5),
    "squeeze_slope": (0.05, 0.003, 0.3),
    "squeeze_narrow": (0.05, 0.0, 0.5),
    "narrow_slope": (0.05, 0.003, 0.6),
    "narrow_loss": (0.1, 0.0, 0.8),
    "narrow_turn": (0.5, -2.0, 4.0),
    "dent": (0.05, 0.0, 0.5),
    "flank_gap": (0.1, 0.0, 0.5),
    "spread": (0.05, 0.0, 0.8),
    "sag_back": (1.0, 0.0, 3.0),
    "short_leg": (0.1, 0.0, 0.4),
    "cling_fade": (0.05, 0.01, 0.4),
    "cling_power": (1.0, 0.5, 6.0),
    "hinge": (0.5, 0.3, 2.0),
    "hinge_offset": (1.0, 0.0, 3.0),
    "letting": (0.03, 0.01, 0.3),
    "letting_by": (0.3, 0.3, 1.0),
}
# Shares that follow from statics and are not fitted; ``--without`` shows what they are worth.
BY_STATICS = ("grip", "drop", "hinge_rise")
# What the finite elements are themselves trusted to, as their files say; the measure of a miss.
TRUST_FORCE, TRUST_ANGLE, TRUST_SPRINGBACK = 0.01, 0.15, 0.05
BLOCKS = 12  # a case's rows are averaged in so many blocks, so that no case weighs more than others
POINTS = 140
OUT_OF_REACH = 10.0


@frozen(kw_only=True)
class Case:
    """A stroke case and what its file asks for."""

    name: str
    setup: BendSetup
    truth: Truth
    tolerance: Tolerance


@frozen(kw_only=True)
class Row:
    """Figures of one case; relative force [-], angles [deg].

    ``ripple`` is the mean of what is left of the force error about a polynomial of the fifth degree
    in travel: ours is smooth, so it is the reference's own unevenness, which nobody can meet.
    ``classes`` are the weak spots that the solver names, or ``ordinary``.
    """

    name: str
    classes: tuple[str, ...]
    ripple: float
    force_mean: float
    force_peak: float
    angle_rms: float
    angle_end: float
    springback: float
    force_ninety: float
    angle_ninety: float


def read_cases(folder: Path) -> list[Case]:
    """Return every stroke case under a folder, sorted by path."""
    cases = []
    for path in sorted(folder.rglob("*.json")):
        reader = Reader(read_case(path))
        if not reader.has("kind") or reader.text("kind") != "stroke":
            continue
        setup = read_setup(reader)
        cases.append(
            Case(
                name=reader.text("name"),
                setup=setup,
                truth=read_truth(reader, setup),
                tolerance=read_tolerance(reader.part("tolerance")),
            )
        )
    return cases


def errors(case: Case, effects: Effects) -> tuple[Floats, Floats, float]:
    """Relative force error, angle error [deg] at each row, and springback error [deg]."""
    truth = case.truth
    curve = solve_curve(case.setup, POINTS, effects)
    if curve.travel[-1] < truth.last_travel:
        raise InputError(case.name, "the reference goes past our jam", "leave it out")
    force = np.interp(truth.force_travel, curve.travel, curve.force) / truth.force - 1.0
    angle = np.degrees(np.interp(truth.angle_travel, curve.travel, curve.loaded_angle))
    back = np.interp(truth.last_travel, curve.travel, curve.loaded_angle - curve.free_angle)
    return force, angle - truth.angle, float(np.degrees(back)) - truth.springback


def misfit(cases: Sequence[Case], effects: Effects) -> Floats:
    """Errors of all cases in what the references are trusted to, one vector."""
    parts = []
    for case in cases:
        try:
            force, angle, back = errors(case, effects)
        except StrapwrightError:
            parts.append(np.full(2 * BLOCKS + 1, OUT_OF_REACH))
            continue
        for values, trust in ((force, TRUST_FORCE), (angle, TRUST_ANGLE)):
            blocks = np.array([block.mean() for block in np.array_split(values, BLOCKS)])
            parts.append(blocks / trust / np.sqrt(BLOCKS))
        parts.append(np.array([back / TRUST_SPRINGBACK / np.sqrt(2.0)]))
    return np.concatenate(parts)


def over_trust(case: Case, effects: Effects) -> Floats:
    """Errors of a case in what the references are trusted to, blocks of rows not divided down."""
    weights = np.array([np.sqrt(BLOCKS)] * (2 * BLOCKS) + [np.sqrt(2.0)])
    found: Floats = misfit([case], effects) * weights
    return found


def tune(cases: Sequence[Case], start: Mapping[str, float], rounds: int = 20) -> dict[str, float]:
    """Return the constants that fit these cases best, all as one set."""
    names = list(start)
    step = np.array([TUNED[name][0] for name in names])

    def at(scaled: Floats) -> Floats:
        values = dict(zip(names, (scaled * step).tolist(), strict=True))
        return misfit(cases, evolve(FITTED, **values))

    found = least_squares(
        at,
        np.array([start[name] for name in names]) / step,
        bounds=(
            np.array([TUNED[name][1] for name in names]) / step,
            np.array([TUNED[name][2] for name in names]) / step,
        ),
        diff_step=1e-2,
        loss="soft_l1",
        max_nfev=rounds,
    )
    return dict(zip(names, (found.x * step).tolist(), strict=True))


def classes_of(case: Case) -> tuple[str, ...]:
    """Return the weak spots that the solver names for a case, or that it is ordinary."""
    setup, most = case.setup, math.radians(float(case.truth.angle.max()))
    return model_error(setup, most).reasons or (ORDINARY,)


def classed(rows: Sequence[Row]) -> dict[str, list[Row]]:
    """Sort rows into all, ordinary, hard, and each weak spot; one row can stand in several."""
    found: dict[str, list[Row]] = {"all": list(rows), ORDINARY: [], HARD: []}
    for one in rows:
        for name in (*one.classes, *(() if ORDINARY in one.classes else (HARD,))):
            found.setdefault(name, []).append(one)
    return found


def row(case: Case, effects: Effects) -> Row:
    """Figures of one case."""
    force, angle, back = errors(case, effects)
    along = np.linspace(-1.0, 1.0, len(force))
    smooth = np.polynomial.Polynomial.fit(along, force, 5)(along)
    return Row(
        name=case.name,
        classes=classes_of(case),
        ripple=float(np.abs(force - smooth).mean()),
        force_mean=float(np.abs(force).mean()),
        force_peak=float(np.abs(force).max()),
        angle_rms=float(np.sqrt((angle**2).mean())),
        angle_end=float(angle[-1]),
        springback=back,
        force_ninety=float(np.quantile(np.abs(force), 0.9)),
        angle_ninety=float(np.quantile(np.abs(angle), 0.9)),
    )


def show(title: str, rows: Sequence[Row]) -> None:
    """Print one table and its means."""
    print(f"\n{title}")
    print("case       force mean  ripple   90 %   peak   angle rms   90 %    end   springback")
    for r in rows:
        print(
            f"{r.name:<10} {r.force_mean:9.2%} {r.ripple:7.2%} {r.force_ninety:7.2%}"
            f" {r.force_peak:6.1%} {r.angle_rms:10.2f} {r.angle_ninety:7.2f}"
            f" {r.angle_end:+6.2f} {r.springback:+11.3f}"
        )
    for name, some in classed(rows).items():
        if some:
            force = np.mean([r.force_mean for r in some])
            ripple = np.mean([r.ripple for r in some])
            angle = np.mean([r.angle_rms for r in some])
            back = np.mean([abs(r.springback) for r in some])
            print(
                f"{name:<18} {len(some):>2} {force:8.2%} {ripple:7.2%} {angle:16.3f} {back:25.3f}"
            )


def main(arguments: Sequence[str] | None = None) -> int:
    """Run from the command line and return the exit code."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--cases", type=Path, default=OWN_CASES, metavar="DIR")
    parser.add_argument("--json", type=Path, metavar="FILE", help="write the tables there too")
    parser.add_argument(
        "--keep",
        type=Path,
        metavar="FILE",
        help="keep the constants tuned without each case there, for class_widths.py",
    )
    parser.add_argument(
        "--only", metavar="NAMES", help="tune these constants alone, comma between them"
    )
    parser.add_argument(
        "--without",
        metavar="NAMES",
        help="set these constants to 0 first, to see what an effect is worth",
    )
    options = parser.parse_args(arguments)
    off = [name for name in (options.without or "").split(",") if name]
    kept = (options.only or ",".join(TUNED)).split(",")
    unknown = [name for name in off if name not in (*TUNED, *BY_STATICS)]
    unknown += [name for name in kept if name not in TUNED]
    if unknown:
        known = ", ".join((*TUNED, *BY_STATICS))
        print(f"{', '.join(unknown)}: no such constant, or none that is fitted; there are {known}.")
        return 1
    base = evolve(FITTED, **dict.fromkeys(off, 0.0))
    start = {name: float(getattr(base, name)) for name in kept if name not in off}
    cases = read_cases(options.cases)
    if not cases:
        print(f"--cases {str(options.cases)!r}: no stroke case is in it; name another folder.")
        return 1

    def tuned(on: Sequence[Case], at: Mapping[str, float]) -> dict[str, float]:
        zeros = dict.fromkeys(off, 0.0)
        return tune(on, {**at}, rounds=20 if on is cases else 6) | zeros

    shipped = [row(case, FITTED) for case in cases]
    show("As shipped", shipped)
    best = tuned(cases, start)
    inside = [row(case, evolve(FITTED, **best)) for case in cases]
    show("Re-tuned on all cases (in-sample)", inside)
    print("constants: " + ", ".join(f"{name} {value:.3f}" for name, value in best.items()))
    outside, left_out = [], []
    for case in cases:
        rest = [other for other in cases if other is not case]
        without = tuned(rest, {name: best[name] for name in start})
        left_out.append(without)
        outside.append(row(case, evolve(FITTED, **without)))
    show("Each case by constants tuned without it (leave-one-out)", outside)
    carried = carriers(
        list(best), [case.name for case in cases], lambda i, effects: over_trust(cases[i], effects)
    )
    show_constants(carried, best, left_out)
    if options.keep is not None:
        kept_sets = {
            "shipped": {name: float(getattr(FITTED, name)) for name in TUNED},
            "left out": {
                case.name: {name: round(value, 6) for name, value in found.items()}
                for case, found in zip(cases, left_out, strict=True)
            },
        }
        options.keep.write_text(json.dumps(kept_sets, indent=1) + "\n", encoding="utf-8")
    if options.json is not None:
        table: dict[str, Any] = {"constants": best}
        for title, rows in (("shipped", shipped), ("inside", inside), ("outside", outside)):
            table[title] = [{a: getattr(r, a) for a in r.__slots__ if a[0] != "_"} for r in rows]
        options.json.write_text(json.dumps(table, indent=1) + "\n", encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())

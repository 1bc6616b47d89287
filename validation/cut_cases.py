"""Runs case files of kind ``cut``: how few bars, proven or not, and does the plan hold."""

from __future__ import annotations

import math
import time
from fractions import Fraction
from typing import Any

from case_files import Reader
from strapwright.cutting.bar_values import BarKind, CutTask
from strapwright.cutting.cut_checker import Stick, check_bars
from strapwright.cutting.find_cut_plan import find_cut_plan
from strapwright.cutting.laid_bars import lay_bars
from strapwright.errors import InputError


def task_of(case: dict[str, Any]) -> tuple[CutTask, float]:
    """Return the problem in whole grains, exactly as its decimals say, and how long a grain is."""
    reader = Reader(case)
    length = Fraction(repr(reader.number("stock_length", above=0.0)))
    kerf = Fraction(repr(reader.number("kerf", above=-1e-300)))
    wanted: dict[Fraction, int] = {}
    for number, row in enumerate(case["pieces"], start=1):
        size, quantity = row
        where = f"pieces[{number}]"
        if isinstance(quantity, bool) or not isinstance(quantity, int) or quantity < 1:
            raise InputError(where, "the quantity is no whole number above 0", "mend it")
        piece = Fraction(repr(Reader._number(size, where)))  # noqa: SLF001
        if not 0 < piece <= length:
            raise InputError(where, "the piece is longer than the bar, or not above 0", "mend it")
        wanted[piece] = wanted.get(piece, 0) + quantity
    grains = math.lcm(*(one.denominator for one in (length, kerf, *wanted)))
    sizes = sorted(wanted, reverse=True)
    task = CutTask(
        lengths=tuple(int(one * grains) for one in sizes),
        quantities=tuple(wanted[one] for one in sizes),
        kinds=(BarKind(length=int(length * grains)),),
        kerf=int(kerf * grains),
    )
    return task, 1.0 / grains


def run(case: dict[str, Any]) -> dict[str, Any]:
    """Run one case; return name, kind, figures, verdict and text."""
    expected = case["expect"]["bars"]
    task, grain = task_of(case)
    plan = find_cut_plan(task, clock=time.perf_counter)
    if plan is None:
        raise InputError("pieces", "a piece is longer than the bar", "mend the case")
    bars = lay_bars(task, plan.bars, grain)
    faults = check_bars(
        bars,
        wanted=[(one * grain, q) for one, q in zip(task.lengths, task.quantities, strict=True)],
        sticks=[Stick(length=kind.length * grain, count=kind.count) for kind in task.kinds],
        kerf=task.kerf * grain,
        squaring=0.0,
    )
    counted = len(bars) == plan.new
    right = plan.proven and plan.new == expected and not faults and counted
    proof = f"proven by {plan.how}" if plan.proven else f"not proven, {plan.least} at least"
    why = []
    if plan.new != expected:
        why.append(f"expected {expected} bars.")
    if not plan.proven:
        why.append(f"the gap of {plan.new - plan.least} was not closed in the time.")
    why += [f"the checker finds: {fault.kind}." for fault in faults]
    if not counted:
        why.append(f"{plan.new} bars are told, {len(bars)} are laid out.")
    return {
        "name": case["name"],
        "kind": "cut",
        "figures": {
            "pieces": task.pieces,
            "bars": plan.new,
            "at_least": plan.least,
            "proven": plan.proven,
            "proven_by": plan.how,
            "first_fit_bars": plan.first_fit,
            "seconds": round(plan.seconds, 3),
            "faults": [fault.kind for fault in faults],
            "expected_bars": expected,
        },
        "verdict": "within" if right else "fail",
        "text": f"{task.pieces} pieces, {plan.new} bars, {proof}, longest first "
        f"{plan.first_fit}, {plan.seconds:.2f} s, checker {'finds faults' if faults else 'agrees'}",
        "why": why,
    }

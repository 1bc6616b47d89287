"""How wide the band of each class of bends is, from its cases when they are left out.

One rule for every class: of force and angle, what ``KEPT`` of the rows of its left-out cases keep
to, a case weighing as much as any other, and no less than for an ordinary bend; of springback,
where a case gives one figure, what a normal variable of unknown spread keeps to nine times in ten,
ordinary bends by themselves and all weak spots together.  A class of fewer than three cases takes
no less of force and angle than all weak spots together.  A bend of several classes takes the
widest.

``validation/class_widths.py`` prints the table by the constants in ``left_out.json``, which
``leave_one_out.py --keep`` writes; ``validate --table bands`` tunes them again first.

Whether the rule is honest shows where a case is judged by widths that were set without it: the
errors are by constants tuned without it too.
"""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

import numpy as np
from attrs import evolve, frozen
from scipy.stats import t as student

import leave_one_out
from case_files import Floats
from strapwright.bending.model_error import HALF_WIDTHS, model_error
from strapwright.bending.solver_model import FITTED

KEPT = 0.92
FEW = 3  # cases; fewer say too little of their class alone
OWN = Path(__file__).parent / "left_out.json"
# What nothing of its own is known of takes the widths of an ordinary bend.
UNMEASURED = ("far round the nose",)
Widths = Mapping[str, tuple[float, float, float]]


@frozen(kw_only=True)
class LeftOut:
    """Sizes of the errors of one case by constants that were tuned without it [-], [deg], [deg].

    ``stated`` are the half widths that the solver states of it, as a plan would use them.
    """

    name: str
    classes: tuple[str, ...]
    sizes: tuple[Floats, Floats, Floats]
    stated: tuple[float, float, float]


def left_out(case: leave_one_out.Case, constants: Mapping[str, float]) -> LeftOut:
    """Judge one case by constants that were tuned without it."""
    force, angle, back = leave_one_out.errors(case, evolve(FITTED, **constants))
    band = model_error(case.setup, math.radians(float(case.truth.angle.max())))
    return LeftOut(
        name=case.name,
        classes=leave_one_out.classes_of(case),
        sizes=(np.abs(force), np.abs(angle), np.abs(np.array([back]))),
        stated=(band.force, math.degrees(band.angle), math.degrees(band.springback)),
    )


def kept_to(cases: Sequence[LeftOut], figure: int, share: float = KEPT) -> float:
    """What a share of the rows keeps to, each case weighing as much as any other."""
    values = np.concatenate([one.sizes[figure] for one in cases])
    weights = np.concatenate(
        [np.full(len(one.sizes[figure]), 1.0 / len(one.sizes[figure])) for one in cases]
    )
    order = np.argsort(values)
    up_to = np.cumsum(weights[order])
    return float(np.interp(share * up_to[-1], up_to, values[order]))


def of_one_figure(cases: Sequence[LeftOut], figure: int) -> float:
    """Nine in ten of a normal variable whose spread is known from so many figures (textbook)."""
    square = float(np.mean([float(one.sizes[figure][0]) ** 2 for one in cases]))
    return float(student.ppf(0.95, len(cases))) * math.sqrt(square)


def widths(cases: Sequence[LeftOut]) -> dict[str, tuple[float, float, float]]:
    """Half widths of every class that some of these cases carry [-], [deg], [deg]."""
    plain = [one for one in cases if one.classes == (leave_one_out.ORDINARY,)]
    weak = [one for one in cases if one.classes != (leave_one_out.ORDINARY,)]
    least = kept_to(plain, 0), kept_to(plain, 1), of_one_figure(plain, 2)
    found = {leave_one_out.ORDINARY: least}
    back = max(of_one_figure(weak, 2), least[2])
    pooled = tuple(max(kept_to(weak, figure), least[figure]) for figure in (0, 1)) if weak else ()
    for name in dict.fromkeys(kind for one in weak for kind in one.classes):
        own = [one for one in weak if name in one.classes]
        if name not in UNMEASURED:
            floor = pooled if len(own) < FEW else least[:2]
            found[name] = (max(kept_to(own, 0), floor[0]), max(kept_to(own, 1), floor[1]), back)
    return found


def inside(one: LeftOut, band: tuple[float, float, float]) -> tuple[float, float, float]:
    """Shares of the rows of a case that keep to half widths [-]."""
    force, angle, back = (
        float(np.mean(sizes <= most)) for sizes, most in zip(one.sizes, band, strict=True)
    )
    return force, angle, back


def widest(one: LeftOut, known: Widths) -> tuple[float, float, float]:
    """Band of a case by the widths of classes; a class that is not known adds nothing."""
    found = [known[name] for name in (leave_one_out.ORDINARY, *one.classes) if name in known]
    force, angle, back = (max(band) for band in zip(*found, strict=True))
    return force, angle, back


@frozen(kw_only=True)
class Held:
    """Shares that the band of a class holds of force, angle and springback, cases weighing alike.

    ``own`` by the width of the class alone, ``stated`` by the band of each bend, ``blind`` by
    widths that were set without the case [-].
    """

    name: str
    cases: int
    rule: tuple[float, float, float] | None
    own: tuple[float, float, float] | None
    stated: tuple[float, float, float]
    blind: tuple[float, float, float]


def shipped() -> dict[str, tuple[float, float, float]]:
    """Half widths as the solver has them [-], [deg], [deg]."""
    return {
        str(name): (one.force, one.angle_deg, one.springback_deg)
        for name, one in HALF_WIDTHS.items()
    }


def held(cases: Sequence[LeftOut]) -> list[Held]:
    """What the bands hold, by class, and of all."""
    known, ours = widths(cases), shipped()
    blind = {
        one.name: inside(one, widest(one, widths([other for other in cases if other is not one])))
        for one in cases
    }
    names = dict.fromkeys(kind for one in cases for kind in one.classes)
    rows = []
    for name in (*names, leave_one_out.HARD, "all"):
        if name in names:
            some = [one for one in cases if name in one.classes]
        else:
            some = [
                one for one in cases if name == "all" or one.classes != (leave_one_out.ORDINARY,)
            ]
        own = [inside(one, ours[name]) for one in some] if name in ours and name in names else None
        rows.append(
            Held(
                name=name,
                cases=len(some),
                rule=known.get(name),
                own=None if own is None else _mean(own),
                stated=_mean([inside(one, one.stated) for one in some]),
                blind=_mean([blind[one.name] for one in some]),
            )
        )
    return rows


def _mean(shares: Sequence[tuple[float, float, float]]) -> tuple[float, float, float]:
    force, angle, back = (float(value) for value in np.mean(np.array(shares), axis=0))
    return force, angle, back


def show(rows: Sequence[Held]) -> None:
    """Print the table."""
    print("\nClasses, left out: half width by the rule and as stated, and shares held in percent")
    print("                          rule              stated        its own      the bands  ")
    print("class            cases  force angle back  force angle back  F   A   S    F   A   S "
          "  without the case")  # fmt: skip
    ours = shipped()
    for one in rows:
        text = f"{one.name:<18} {one.cases:>3}  "
        for band in (one.rule, ours.get(one.name) if one.rule else None):
            text += " " * 18 if band is None else f"{band[0]:5.1%} {band[1]:5.2f} {band[2]:5.3f} "
        for shares in (one.own, one.stated, one.blind):
            text += (
                " " * 13
                if shares is None
                else "".join(f"{100 * share:4.0f}" for share in shares) + " "
            )
        print(text.rstrip())


def kept_constants(path: Path = OWN) -> tuple[dict[str, float], dict[str, dict[str, float]]]:
    """Shipped constants and those tuned without each case, as they were kept."""
    table = json.loads(path.read_text(encoding="utf-8"))
    return table["shipped"], table["left out"]


def main() -> int:
    """Print the table by the constants that were kept, which takes no tuning."""
    _, without = kept_constants()
    cases = leave_one_out.read_cases(leave_one_out.OWN_CASES)
    show(held([left_out(case, without[case.name]) for case in cases]))
    return 0


if __name__ == "__main__":
    sys.exit(main())

"""The stated model error against the finite elements of the reference cases.

The truths do not come from the solver.  Nine in ten should lie inside; at most two in ten may not.
"""

from __future__ import annotations

import json
import math
import re
import sys
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve, frozen
from chain_cases import ROUGH

from strapwright.bending import solve_curve
from strapwright.bending.model_error import HALF_WIDTHS, ModelError, model_error
from strapwright.bending.solver_model import FITTED

VALIDATION = Path(__file__).parents[2] / "validation"
sys.path.append(str(VALIDATION))

import class_widths  # noqa: E402  # scripts, not a package
import leave_one_out  # noqa: E402
import stroke_cases  # noqa: E402
from case_files import Reader  # noqa: E402


@frozen(kw_only=True)
class Compared:
    """Errors of one case [-], [rad], and the band stated for it."""

    force: np.ndarray
    angle: np.ndarray
    springback: float
    band: ModelError


@pytest.fixture(scope="module")
def compared() -> list[Compared]:
    rows = []
    for path in sorted((VALIDATION / "cases" / "stroke").glob("*.json")):
        reader = Reader(json.loads(path.read_text(encoding="utf-8")))
        setup = stroke_cases.read_setup(reader)
        truth = stroke_cases.read_truth(reader, setup)
        curve = solve_curve(setup, 140)
        back = np.interp(truth.last_travel, curve.travel, curve.loaded_angle - curve.free_angle)
        rows.append(
            Compared(
                force=np.interp(truth.force_travel, curve.travel, curve.force) / truth.force - 1.0,
                angle=np.interp(truth.angle_travel, curve.travel, curve.loaded_angle)
                - np.radians(truth.angle),
                springback=float(back) - math.radians(truth.springback),
                band=model_error(setup, math.radians(float(truth.angle.max()))),
            )
        )
    assert len(rows) >= 10
    return rows


def test_at_most_two_figures_in_ten_lie_outside(compared: list[Compared]) -> None:
    outside = [
        [float(np.abs(c.force).mean()) > c.band.force for c in compared],
        [float(np.sqrt((c.angle**2).mean())) > c.band.angle for c in compared],
        [abs(c.springback) > c.band.springback for c in compared],
    ]
    assert max(np.mean(kind) for kind in outside) <= 0.2


def test_every_class_of_bend_keeps_to_its_band_as_shipped(compared: list[Compared]) -> None:
    classes: dict[str, list[Compared]] = {}
    for one in compared:
        for name in one.band.reasons or ("ordinary",):
            classes.setdefault(name, []).append(one)
    assert set(classes) >= {
        "ordinary",
        "low hardening",
        "no hardening",
        "short leg",
        "round rod",
        "much friction",
    }
    for name, some in classes.items():
        force = np.mean([(np.abs(c.force) <= c.band.force).mean() for c in some])
        angle = np.mean([(np.abs(c.angle) <= c.band.angle).mean() for c in some])
        assert min(force, angle) >= 0.85, name
    # The references of an explicit code have a ripple of up to 1.6 % that no smooth curve meets.
    assert max((np.abs(c.force) > c.band.force).mean() for c in compared) <= 0.3
    assert max((np.abs(c.angle) > c.band.angle).mean() for c in compared) <= 0.3


@pytest.fixture(scope="module")
def held() -> dict[str, class_widths.Held]:
    kept, without = class_widths.kept_constants()
    # Constants that changed ask for new ones without each case: leave_one_out.py --keep.
    assert kept == {name: getattr(FITTED, name) for name in leave_one_out.TUNED}
    cases = leave_one_out.read_cases(leave_one_out.OWN_CASES)
    assert set(without) == {one.name for one in cases}
    found = class_widths.held([class_widths.left_out(one, without[one.name]) for one in cases])
    return {one.name: one for one in found}


def test_each_class_holds_85_to_95_rows_in_a_hundred_left_out(
    held: dict[str, class_widths.Held],
) -> None:
    measured = [name for name, one in HALF_WIDTHS.items() if one.cases]
    assert len(measured) == 9
    for name in measured:
        one = held[name]
        assert one.cases == HALF_WIDTHS[name].cases
        assert one.own is not None
        assert one.rule is not None
        assert min(one.own[:2]) >= 0.85, name
        # One case or two say too little of their class: no narrower than all weak spots together.
        assert one.cases < class_widths.FEW or max(one.own[:2]) <= 0.95, name
        # Of an uncertain figure no more than two digits are stated, rounded up.
        stated = class_widths.shipped()[name]
        for ours, rule, digit in zip(stated, one.rule, (0.001, 0.01, 0.01), strict=True):
            assert rule <= ours < rule + 1.01 * digit, name
    hard = held[leave_one_out.HARD]
    assert min(*hard.stated[:2], held["ordinary"].stated[2]) >= 0.85
    assert 0.85 <= hard.stated[2] <= 0.95


def test_widths_set_without_a_case_hold_nine_rows_in_ten_of_it(
    held: dict[str, class_widths.Held],
) -> None:
    for name in ("all", "ordinary", leave_one_out.HARD):
        for share in held[name].blind:
            assert 0.85 <= share <= 0.95, name


def test_a_jump_is_told_wider_where_it_is_and_not_past_it() -> None:
    reader = Reader(json.loads((VALIDATION / "cases/stroke/G2.json").read_text(encoding="utf-8")))
    setup = stroke_cases.read_setup(reader)  # lets go at 52 deg by the finite elements
    at, past = (model_error(setup, math.radians(angle)) for angle in (52.0, 85.0))
    assert at.reasons == past.reasons == ("no hardening",)
    assert at.force == pytest.approx(0.085)
    assert past.force == HALF_WIDTHS["no hardening"].force < 0.5 * at.force


def test_the_table_of_the_handbook_is_the_solvers() -> None:
    text = (VALIDATION.parent / "docs" / "theory.md").read_text(encoding="utf-8")
    rows = re.findall(
        r"^\| [^|]+ \| (\d+|none) \| ([\d.]+) % \| ([\d.]+)° \| ([\d.]+)° \|$", text, re.MULTILINE
    )
    told = [tuple(float(v) if v != "none" else 0.0 for v in row) for row in rows]
    ours = [
        (one.cases, round(100 * one.force, 6), one.angle_deg, one.springback_deg)
        for one in HALF_WIDTHS.values()
    ]
    assert sorted(told) == sorted(ours)


def test_bands_are_not_idly_wide(compared: list[Compared]) -> None:
    """An ordinary bar's nine rows in ten need at least two thirds of what is stated."""
    plain = [c for c in compared if not c.band.reasons]
    force = np.quantile(np.abs(np.concatenate([c.force / c.band.force for c in plain])), 0.9)
    angle = np.quantile(np.abs(np.concatenate([c.angle / c.band.angle for c in plain])), 0.9)
    assert force >= 0.67
    assert angle >= 0.67


def test_springback_that_only_statics_takes_off_widens_the_band() -> None:
    """Far round a big nose, within the friction and the angle that were compared."""
    reader = Reader(json.loads((VALIDATION / "cases/stroke/O3.json").read_text(encoding="utf-8")))
    shown = stroke_cases.read_setup(reader)  # finite elements show 0.1 deg of it
    assert model_error(shown, math.radians(89.6)).reasons == ()
    big = evolve(ROUGH, friction=0.15)
    far = model_error(big, math.radians(110.0))
    assert far.reasons == ("far round the nose",)
    assert 0.1 < math.degrees(far.springback) < 0.5
    assert model_error(evolve(big, friction=0.0), math.radians(110.0)).reasons == ()

"""The stated model error against the finite elements of the reference cases.

The truths do not come from the solver.  Nine in ten should lie inside; at most two in ten may not.
"""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve, frozen
from chain_cases import ROUGH

from strapwright.bending import solve_curve
from strapwright.bending.model_error import ModelError, model_error

VALIDATION = Path(__file__).parents[2] / "validation"
sys.path.append(str(VALIDATION))

import stroke_cases  # noqa: E402  # scripts, not a package
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


def test_every_class_of_bend_keeps_nine_rows_in_ten(compared: list[Compared]) -> None:
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
        assert min(force, angle) >= 0.9, name
    # The references of an explicit code have a ripple of up to 1.6 % that no smooth curve meets.
    assert max((np.abs(c.force) > c.band.force).mean() for c in compared) <= 0.3
    assert max((np.abs(c.angle) > c.band.angle).mean() for c in compared) <= 0.3


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

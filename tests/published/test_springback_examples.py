"""Classical springback of an elastic-perfectly-plastic bend against a textbook example.

Source: Kalpakjian and Schmid, Manufacturing Processes for Engineering Materials, example in the
chapter on sheet forming (inputs and printed figures from memory; ``data/05``).  Each figure is
held to half a unit of the last digit printed.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

import plastic_forms as forms
from strapwright.bending import cross_checks
from strapwright.errors import InputError

TABLE = Path(__file__).parent / "data" / "05_springback_radius_examples.csv"
RADIUS, STRESS, MODULUS, THICKNESS = 0.5, 40e3, 29e6, 0.0359  # in, psi, psi, in


def printed() -> dict[str, float]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    table = csv.DictReader(line for line in lines if not line.startswith("#"))
    return {row["quantity"]: float(row["value"]) for row in table}


def test_textbook_example() -> None:
    figures = printed()
    x = RADIUS * STRESS / (MODULUS * THICKNESS)
    assert x == pytest.approx(figures["Ri Y/(E t)"], abs=5e-5)
    ratio = cross_checks.springback_radius_ratio(RADIUS, STRESS, MODULUS, THICKNESS)
    assert ratio == pytest.approx(figures["Ri/Rf"], abs=5e-4)
    assert RADIUS / ratio == pytest.approx(figures["Rf"], abs=6e-4)
    final = math.radians(90.0)
    # What the rule leaves of an angle is a share of it.
    under_load = final / (1.0 - cross_checks.springback_angle(1.0, RADIUS, THICKNESS, ratio))
    assert math.degrees(under_load) == pytest.approx(
        figures["bend angle needed under load"], abs=0.5
    )
    opened = cross_checks.springback_angle(under_load, RADIUS, THICKNESS, ratio)
    assert under_load - opened == pytest.approx(final)


def test_rule_follows_from_the_section() -> None:
    # The rule puts the inside radius where the mid-line's belongs; with that radius it is exact.
    thickness, modulus, stress, radius = 6.0, 2e5, 300.0, 60.0
    inertia = forms.rectangle_second_moment(1.0, thickness)
    yield_curvature = 2 * stress / (modulus * thickness)
    yield_moment = forms.rectangle_elastic_modulus(1.0, thickness) * stress
    moment = yield_moment * forms.rectangle_moment_ratio(1 / radius / yield_curvature)
    left = forms.residual_curvature(1 / radius, moment, modulus * inertia)
    ratio = cross_checks.springback_radius_ratio(radius, stress, modulus, thickness)
    assert ratio == pytest.approx(left * radius, rel=1e-12)


def test_a_bar_that_stays_elastic_is_refused() -> None:
    with pytest.raises(InputError, match="stays elastic and takes no bend; give a smaller radius"):
        cross_checks.springback_radius_ratio(2000.0, 300.0, 2e5, 3.0)
    nothing_left = cross_checks.springback_radius_ratio(1000.0, 300.0, 2e5, 3.0)
    with pytest.raises(InputError, match="outside 0 to 1; give a smaller radius"):
        cross_checks.springback_angle(1.5, 1000.0, 3.0, nothing_left)

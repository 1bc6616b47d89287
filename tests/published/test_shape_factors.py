"""Plastic over elastic section modulus.

Source: ``data/16_shape_factors.csv``: rectangle 1.5, round 1.697 and diamond 2 printed,
closed forms standard.  Held to the digits in the table.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from scipy.integrate import quad

import plastic_forms as forms
from strapwright.bending import closed_forms
from strapwright.errors import InputError

TABLE = Path(__file__).parent / "data" / "16_shape_factors.csv"


def factor(section: str) -> float:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    table = csv.DictReader(line for line in lines if not line.startswith("#"))
    return next(float(r["shape_factor"]) for r in table if r["section"].startswith(section))


def test_shape_factors() -> None:
    rectangle = closed_forms.rectangle_plastic_modulus(50, 6) / forms.rectangle_elastic_modulus(
        50, 6
    )
    rod = forms.round_plastic_modulus(9.5) / forms.round_elastic_modulus(9.5)
    diamond = forms.diamond_plastic_modulus(9.5) / forms.diamond_elastic_modulus(9.5)
    assert rectangle == pytest.approx(factor("rectangle"))
    assert rod == pytest.approx(factor("solid round"), abs=5e-7)
    assert diamond == pytest.approx(factor("square bar on its corner"))
    assert [rectangle, rod, diamond] == pytest.approx(
        [
            forms.RECTANGLE_SHAPE_FACTOR,
            forms.ROUND_SHAPE_FACTOR,
            forms.DIAMOND_SHAPE_FACTOR,
        ]
    )


def test_plastic_moments_are_the_limits_of_the_curves() -> None:
    assert forms.rectangle_moment_ratio(1e4) == pytest.approx(factor("rectangle"), abs=1e-7)
    assert forms.round_moment_ratio(1e5) == pytest.approx(factor("solid round"), abs=5e-7)


@pytest.mark.parametrize("curvature", [1.001, 1.3, 2.0, 5.0, 50.0, 999.0, 1001.0])
def test_round_section_is_the_integral_over_its_fibres(curvature: float) -> None:
    # Unit radius and unit yield stress: stress is min(kappa z, 1), width 2 sqrt(1 - z^2).
    def fibre(z: float) -> float:
        return 4.0 * min(curvature * z, 1.0) * z * math.sqrt(1.0 - z * z)

    core = quad(fibre, 0.0, 1.0 / curvature, epsabs=1e-13)[0]
    rest = quad(fibre, 1.0 / curvature, 1.0, epsabs=1e-13)[0]
    ratio = (core + rest) / (math.pi / 4.0)
    assert forms.round_moment_ratio(curvature) == pytest.approx(ratio, rel=1e-8)
    assert forms.round_moment_ratio(-curvature) == -forms.round_moment_ratio(curvature)


def test_round_curvature_is_the_inverse_and_ends_at_the_plastic_moment() -> None:
    for ratio in (-0.4, 0.9, 1.0, 1.2, 1.6, 1.69):
        curvature = forms.round_curvature_ratio(ratio)
        assert forms.round_moment_ratio(curvature) == pytest.approx(ratio, rel=1e-10)
    with pytest.raises(InputError, match="more than the section can carry; give a ratio below"):
        forms.round_curvature_ratio(1.7)


def test_second_moment_of_a_round() -> None:
    assert forms.round_second_moment(10.0) == pytest.approx(
        forms.round_elastic_modulus(10.0) * 10.0 / 2.0
    )

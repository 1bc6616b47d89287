"""Neutral-axis factors.

Source: ``data/08_neutral_axis_factor_tables.csv``: a q table for tool design, DIN 6935's stepped
k (from memory) and its formula, generic K-factors for air bending, and Kalpakjian and Schmid,
Manufacturing Engineering and Technology (SI 6e), eq. 16.2.  q and k are twice K.
"""

from __future__ import annotations

import csv
import re
from math import pi, sqrt
from pathlib import Path

import pytest

from strapwright.blank.allowance_methods import (
    book_allowance,
    din_factor,
    factor_allowance,
    textbook_factor,
)
from strapwright.shop.job import BlankMethod

DATA = Path(__file__).parent / "data" / "08_neutral_axis_factor_tables.csv"
LINES = [line for line in DATA.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
ROWS = list(csv.DictReader(LINES))


def table(name: str) -> list[tuple[str, float]]:
    return [(row["condition"], float(row["factor"])) for row in ROWS if row["table"] == name]


def numbers(condition: str) -> list[float]:
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", condition)]


@pytest.mark.parametrize(("condition", "factor"), table("DIN 6935 formula k"))
def test_the_standard_formula(condition: str, factor: float) -> None:
    (ratio,) = numbers(condition)
    assert din_factor(ratio * 5.0, 5.0) == pytest.approx(factor, abs=5.1e-5)  # four places


@pytest.mark.parametrize(("condition", "factor"), table("tool-design q table"))
def test_the_formula_rounds_to_the_tool_design_table(condition: str, factor: float) -> None:
    (ratio,) = numbers(condition)
    assert din_factor(ratio, 1.0) == pytest.approx(factor, abs=0.05)  # one place


@pytest.mark.parametrize(("condition", "factor"), table("DIN 6935 stepped k"))
def test_the_formula_rounds_to_the_step_in_the_middle_of_its_range(
    condition: str, factor: float
) -> None:
    # The last range is open; the formula reaches its cap at r/s = 5 in it.
    limits = numbers(condition)
    low, high = limits if len(limits) == 2 else (limits[0], 25 / limits[0])
    assert din_factor(sqrt(low * high), 1.0) == pytest.approx(factor, abs=0.05)  # one place


def test_below_the_last_printed_row_the_factor_is_held() -> None:
    printed = [numbers(condition)[0] for condition, _ in table("tool-design q table")]
    last = din_factor(min(printed), 1.0)
    assert din_factor(min(printed) * 0.999, 1.0) == last
    assert din_factor(0.0, 1.0) == last
    assert din_factor(min(printed) * 1.001, 1.0) > last


@pytest.mark.parametrize(
    ("method", "material"),
    [("book soft", "soft"), ("book medium", "medium"), ("book hard", "hard")],
)
def test_the_handbook_lines_lie_among_the_generic_factors(
    method: BlankMethod, material: str
) -> None:
    # The lines hold for the small radii of a sheet brake: the rows up to R = 3 T, two places.
    generic = [
        factor
        for condition, factor in table("generic K-factor, air bending")
        if condition.endswith(f", {material} material") and "over" not in condition
    ]
    assert len(generic) == 2
    equivalent = book_allowance(method, pi / 2, 1.0, 0.0) / (pi / 2)
    assert min(generic) - 0.005 <= equivalent <= max(generic) + 0.005


@pytest.mark.parametrize(("condition", "factor"), table("textbook K"))
def test_the_textbook_factor(condition: str, factor: float) -> None:
    (limit,) = numbers(condition)
    radius = limit * 4.0 * (0.99 if "<" in condition else 1.01)
    assert textbook_factor(radius, 4.0) == factor
    assert factor_allowance(factor, 1.0, 4.0, radius) == pytest.approx(radius + factor * 4.0)

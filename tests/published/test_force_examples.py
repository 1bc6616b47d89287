"""Handbook force against a textbook example.

Sources (``data/06``): Groover, Fundamentals of Modern Manufacturing, sheet-bending example
(figures from memory, recomputed); Kalpakjian and Schmid, Manufacturing Processes for Engineering
Materials (2003), factor 1.2 to 1.33 for a vee.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from strapwright.bending import BendSetup, FlowCurve, cross_checks
from strapwright.errors import InputError

TABLE = Path(__file__).parent / "data" / "06_bend_force_examples.csv"


def rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_groover_example() -> None:
    printed = next(float(row["value"]) for row in rows() if row["case"] == "GROOVER-EX")
    # 1.33 x 450 MPa x 44.5 mm x (3.2 mm)^2/25 mm; printed to the newton.
    assert cross_checks.handbook_force(450, 44.5, 3.2, 25) == pytest.approx(printed, abs=0.5)


def test_factor_is_the_upper_of_the_two_printed() -> None:
    low, high = next(row["value"] for row in rows() if row["value"].startswith("1.2")).split(" to ")
    assert float(low) < cross_checks.V_DIE_FACTOR == float(high)


def test_hinge_force_is_that_of_the_laboratory_bar() -> None:
    # 371.7 N: university laboratory report on plastic bending of flat steel bar (data/02).
    assert cross_checks.moment_force(250, 24.86, 5.94, 590) == pytest.approx(371.7, abs=0.06)


def test_shop_rules_at_ninety_degrees() -> None:
    # Common practice, no source: eight thicknesses; half the opening along the leg and the bar.
    assert cross_checks.customary_opening(6.0) == 48.0
    leg = cross_checks.smallest_leg(48.0, math.pi / 2, 6.0)
    assert leg == pytest.approx(24.0 * math.sqrt(2.0) + 6.0)


def bend(section: str, bars: int = 1) -> BendSetup:
    flow = FlowCurve(modulus=2e5, poisson=0.3, strength=700.0, offset=0.01, exponent=0.2)
    return BendSetup(
        section=section,  # type: ignore[arg-type]
        thickness=6.0,
        width=20.0,
        opening=48.0,
        nose_radius=9.0,
        shoulder_radius=6.0,
        friction=0.1,
        flow=flow,
        bars=bars,
    )


def test_a_bend_gets_the_rules_that_are_stated_for_its_section() -> None:
    one = {c.name: c for c in cross_checks.cross_checks(bend("flat"), 450.0, 1.62, 1.57)}
    two = {c.name: c for c in cross_checks.cross_checks(bend("flat", 2), 450.0, 1.62, 1.57)}
    rod = {c.name: c for c in cross_checks.cross_checks(bend("round"), 450.0, 1.62, 1.57)}
    assert two["handbook force"].value == 2 * one["handbook force"].value
    assert one["handbook force"].value > one["force of a plastic hinge"].value > 0
    assert set(one) - set(rod) == {"handbook force", "force of a plastic hinge"}
    assert all(check.source and check.leaves_out for check in one.values())
    assert 0 < one["classical springback"].value < 0.1


@pytest.mark.parametrize("rule", [cross_checks.handbook_force, cross_checks.moment_force])
def test_no_opening_is_refused(rule: object) -> None:
    with pytest.raises(InputError, match="opening is 0 mm; give an opening above 0"):
        rule(450.0, 20.0, 6.0, 0.0)  # type: ignore[operator]


def test_an_angle_past_a_hairpin_is_refused() -> None:
    with pytest.raises(InputError, match="outside 0 to 180°; give the angle through which"):
        cross_checks.smallest_leg(48.0, math.pi, 6.0)

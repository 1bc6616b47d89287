"""A strength check holds its figures in the unit it names, and shows oil as a gauge does."""

from __future__ import annotations

import math

import pytest

from strapwright.quantities.inside_units import INCH_MM, PSI_MPA, InsideUnit
from strapwright.report.tooling_text import check_data
from strapwright.shop.members import Circuit, Members
from strapwright.shop.press import Press
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Bench, Check
from strapwright.strength.frame_and_circuit import circuit_checks
from strapwright.strength.hand_figures import shown


def blocked() -> Check:
    """Rod side of a 3-1/2 in bore with a 1-3/4 in rod at 2000 psi, rated 3000 psi."""
    circuit = Circuit(rod_side=3000 * PSI_MPA)
    bench = Bench(
        tooling=Tooling(
            nose=Nose(radius=10.0),
            shoulders=Shoulders(radius=6.0, opening=60.0),
            members=Members(circuit=circuit),
        ),
        press=Press(bore=3.5 * INCH_MM, rod=1.75 * INCH_MM, relief=2000 * PSI_MPA),
        thickness=6.0,
        width=40.0,
        widest=40.0,
        pushes=(),
        retract=None,
    )
    (check,) = (
        one for one in circuit_checks(bench) if isinstance(one, Check) and one.member == "rod side"
    )
    return check


def test_a_pressure_of_oil_is_held_in_MPa_and_said_to_be() -> None:  # noqa: N802
    check = blocked()
    assert check.unit == "MPa"
    # Half the bore takes a quarter of the area: 2000 psi/(1 - 1/4) = 2667 psi = 18.39 MPa.
    assert check.demand == pytest.approx(18.39, abs=0.005)
    data = check_data(check, "inch")
    assert data["unit"] == "MPa"
    assert data["demand"] == check.demand
    assert data["inputs"]["p"] == pytest.approx(13.79, abs=0.005)


def test_a_pressure_of_oil_is_shown_in_psi_or_bar() -> None:
    inch, metric = blocked().line("inch"), blocked().line("metric")
    assert "= 2667 psi against rating = 3000 psi: 89 %" in inch
    assert "p = 2000 psi, D = 3.50 in" in inch
    assert "= 184 bar against rating = 207 bar: 89 %" in metric
    assert "p = 138 bar" in metric


def test_a_stress_in_MPa_is_shown_in_ksi() -> None:  # noqa: N802
    # 36 ksi, the yield of a common steel, is 248 MPa.
    assert shown(248.21, "MPa", "inch") == "36.0 ksi"
    assert shown(248.21, "MPa", "metric") == "248 MPa"
    assert shown(math.pi / 6, "rad", "metric") == "30.0°"


@pytest.mark.parametrize(
    ("value", "unit", "inch", "metric"),
    [
        # NIST SP 811: 1 in 25.4 mm, 1 lbf 4.4482216 N, 1 ksi 6.894757 MPa.
        (50.8, "mm", "2.00 in", "50.8 mm"),
        (1290.32, "mm2", "2.00 in²", "1290 mm²"),
        (32774.128, "mm3", "2.00 in³", "32774 mm³"),
        (832462.85, "mm4", "2.00 in⁴", "832463 mm⁴"),
        (8896.443, "N", "2000 lbf", "8.90 kN"),
        (17.512684, "N/mm", "100 lbf/in", "17.5 N/mm"),
        (112984.83, "N mm", "1000 lbf in", "113 N m"),
        (68.94757, "MPa", "10.0 ksi", "68.9 MPa"),
        (math.radians(0.5), "rad", "0.500°", "0.500°"),
        (math.radians(2.0), "rad/mm", "50.8°/in", "2.00°/mm"),
        (0.25, "", "0.250", "0.250"),
        (math.inf, "MPa", "without limit ksi", "without limit MPa"),
        (0.0, "N", "0 lbf", "0 kN"),
    ],
)
def test_each_figure_is_shown_in_the_units_of_the_shop(
    value: float, unit: InsideUnit, inch: str, metric: str
) -> None:
    assert shown(value, unit, "inch") == inch
    assert shown(value, unit, "metric") == metric

"""Beams, pins and contact lines against printed and computed cases, and against a frame package.

Sources, also at the head of each table ``data/shop_...``:

* ``08_beams``: beam case of two equal loads of the AISC manual of 2005, the others computed;
  figures of a general-purpose frame package beside them;
* ``08_pins``: knuckle pin exercise of a design textbook (problem printed, stresses computed);
* ``08_hertz_line``: wheel on rail exercises (printed), and a contact benchmark with its published
  half width and pressure (from memory).

Tolerances are half a unit of the last digit printed.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path
from typing import Any

import pytest

from strapwright.strength import beams, pins
from strapwright.strength.line_contact import line_contact

DATA = Path(__file__).parent / "data"
PSI = 29e6  # modulus of the tables


def rows(name: str) -> list[dict[str, str]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def last_digit(text: str) -> float:
    """Half a unit of the last digit printed."""
    digits = text.partition(".")[2]
    return 0.5 * 10.0 ** -len(digits) * 1.0000001


def printed(text: str) -> Any:
    return pytest.approx(float(text), abs=last_digit(text))


BEAMS = rows("shop_08_beams.csv")


def beam(row: dict[str, str]) -> tuple[float, float]:
    """Moment and sag by the closed forms of the project."""
    span, load = float(row["span_in"]), float(row["P_lbf_or_w_lbf_per_in"])
    section = beams.flat_section(float(row["width_in"]), float(row["depth_in"]))
    stiffness = PSI * section.inertia
    if row["case"] == "two equal loads":  # no member is loaded so; it holds the frame package
        a = float(row["a_in"])
        return load * a, load * a * (3 * span**2 - 4 * a**2) / (24 * stiffness)
    spread = {"centre load": 0.0, "uniform": span}.get(row["case"])
    if spread is None:
        spread = float(row["a_in"])
    force = load if row["case"] == "centre load" else load * spread
    return (
        beams.central_moment(force, span, spread),
        beams.central_sag(force, span, spread, stiffness),
    )


@pytest.mark.parametrize("row", BEAMS, ids=lambda row: f"{row['case']} {row['span_in']}")
def test_beams_by_closed_form(row: dict[str, str]) -> None:
    moment, sag = beam(row)
    assert moment == printed(row["Mmax_formula_lbf_in"])
    assert sag == printed(row["defl_formula_in"])
    section = beams.flat_section(float(row["width_in"]), float(row["depth_in"]))
    assert moment / section.modulus == pytest.approx(float(row["bending_stress_psi"]), abs=0.5)


@pytest.mark.parametrize("row", BEAMS, ids=lambda row: f"{row['case']} {row['span_in']}")
def test_beams_by_a_frame_package(row: dict[str, str]) -> None:
    moment, sag = beam(row)
    framed_moment, framed_sag = framed(row)
    assert framed_moment == pytest.approx(moment, rel=1e-3)
    assert framed_sag == pytest.approx(sag, rel=1e-3)
    # The package's own figures of the table, so that it is run as it was then.
    assert framed_moment == pytest.approx(float(row["Mmax_PyNite"]), rel=1e-3)
    assert framed_sag == pytest.approx(float(row["defl_PyNite"]), rel=1e-3)


def framed(row: dict[str, str]) -> tuple[float, float]:
    """Moment and sag of the same beam by the frame package."""
    from Pynite import FEModel3D  # noqa: PLC0415  slow to load

    span, load = float(row["span_in"]), float(row["P_lbf_or_w_lbf_per_in"])
    section = beams.flat_section(float(row["width_in"]), float(row["depth_in"]))
    model = FEModel3D()
    model.add_node("left", 0, 0, 0)
    model.add_node("right", span, 0, 0)
    model.add_material("steel", PSI, 11e6, 0.3, 0.28)
    model.add_section("bar", section.area, section.inertia, section.inertia, section.inertia)
    model.add_member("beam", "left", "right", "steel", "bar")
    model.def_support("left", True, True, True, True, False, False)  # noqa: FBT003
    model.def_support("right", False, True, True, False, False, False)  # noqa: FBT003
    if row["case"] == "two equal loads":
        for place in (float(row["a_in"]), span - float(row["a_in"])):
            model.add_member_pt_load("beam", "Fy", -load, place)
    elif row["case"] == "centre load":
        model.add_member_pt_load("beam", "Fy", -load, span / 2)
    else:
        spread = span if row["case"] == "uniform" else float(row["a_in"])
        model.add_member_dist_load(
            "beam", "Fy", -load, -load, (span - spread) / 2, (span + spread) / 2
        )
    model.analyze_linear()
    member = model.members["beam"]
    moment = max(abs(member.max_moment("Mz")), abs(member.min_moment("Mz")))
    return float(moment), float(-member.min_deflection("dy"))


@pytest.mark.parametrize("row", rows("shop_08_pins.csv"), ids=lambda row: row["case"])
def test_pins(row: dict[str, str]) -> None:
    a, b = float(row["a_side_plate"]), float(row["b_centre_plate"])
    d, force = float(row["d"]), float(row["F"])
    # Shigley's spread load; the project takes point loads, which give more.
    spread, point = force / 2 * (a / 2 + b / 4), pins.point_moment(force, a, b)
    assert spread == printed(row["M_distributed"])
    assert pins.bending_stress(spread, d) == printed(row["bend_stress_distributed"])
    assert point == printed(row["M_point_loads"])
    assert pins.bending_stress(point, d) == printed(row["bend_stress_point"])
    assert pins.mean_shear(force, d) == printed(row["avg_shear"])
    assert pins.peak_shear(force, d) == printed(row["max_shear_VQ"])
    assert pins.bearing(force, d, b) == printed(row["bearing_centre"])
    assert pins.bearing(force, d, 2 * a) == printed(row["bearing_side"])


@pytest.mark.parametrize("row", rows("shop_08_hertz_line.csv"), ids=lambda row: row["case"])
def test_lines_of_contact(row: dict[str, str]) -> None:
    half, pressure = line_contact(
        float(row["F"]),
        float(row["length"]),
        float(row["d1"]),
        None if row["d2"] == "flat" else float(row["d2"]),
        moduli=(float(row["E1"]), float(row["E2"])),
        poissons=(float(row["nu1"]), float(row["nu2"])),
    )
    # Six figures are printed.
    assert half == pytest.approx(float(row["half_width_b"]), rel=5e-6)
    assert pressure == pytest.approx(float(row["p_max"]), rel=5e-6)
    # Force balance: the ellipse of pressure carries the load.
    carried = math.pi / 2 * pressure * half * float(row["length"])
    assert carried == pytest.approx(float(row["F"]), rel=1e-12)


def test_the_contact_benchmark_as_published() -> None:
    (row,) = (one for one in rows("shop_08_hertz_line.csv") if "benchmark" in one["case"])
    assert row["published"] == "half-width 6.21 mm, pmax 3585 MPa"
    half, pressure = line_contact(35000, 1, 100, None, moduli=(210e3, 70e3), poissons=(0.3, 0.3))
    assert half == pytest.approx(6.21, abs=0.005)
    assert pressure == pytest.approx(3585, abs=0.5)

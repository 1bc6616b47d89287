"""Metals of the small shop against the tables they are ordered by.

Least strengths and elongations: ASTM A615, A706, A666, A193, A276, B209, B221, B16, EN 10083-2 and
ISO 6935-2.  Means of annealed and normalized steels: the table of 25 mm rounds that metals
handbooks print.  Pins of reinforcing bar: ACI 318 and EN 1992-1-1, table 8.1N.  All from memory,
and so graded in the catalog.
"""

from __future__ import annotations

import pytest

from strapwright.catalog import find_material, smallest_radius

KSI = 6.894757  # MPa
INCH = 25.4

# Name, least yield and tensile strength, elongation in per cent.
MINIMUMS = [
    ("rebar grade 40", 40 * KSI, 60 * KSI, 11),
    ("reinforcing bar", 60 * KSI, 90 * KSI, 7),
    ("rebar grade 80", 80 * KSI, 100 * KSI, 6),
    ("rebar A706 grade 60", 60 * KSI, 80 * KSI, 10),
    ("rebar B500B", 500, 1.08 * 500, 14),
    ("rebar B500C", 500, 1.15 * 500, 16),
    ("304 quarter hard", 75 * KSI, 125 * KSI, 10),
    ("316 annealed", 30 * KSI, 75 * KSI, 30),
    ("304L annealed", 25 * KSI, 70 * KSI, 40),
    ("316L annealed", 25 * KSI, 70 * KSI, 40),
    ("5052-O", 9.5 * KSI, 25 * KSI, 16),
    ("5052-H34", 26 * KSI, 34 * KSI, 6),
    ("6061-T4", 16 * KSI, 26 * KSI, 16),
    ("6063-T4", 10 * KSI, 19 * KSI, 14),
    ("6063-T5", 16 * KSI, 22 * KSI, 8),
    ("6063-T6", 25 * KSI, 30 * KSI, 8),
    ("1045 quenched and tempered", 490, 700, 14),
    ("brass 360 free-machining", 25 * KSI, 55 * KSI, 15),
]
# Means of the table of annealed and normalized steels: yield, tensile, elongation.
MEANS = [
    ("5160 annealed", 275.8, 722.6, 17.2),
    ("1095 annealed", 379.2, 656.7, 13.0),
    ("4140 annealed", 417.1, 655.0, 25.7),
    ("4140 normalized", 655.0, 1020.4, 17.7),
    # Between 1040 (353.4, 518.8) and 1050 (365.4, 636.0).
    ("1045 annealed", (353.4 + 365.4) / 2, (518.8 + 636.0) / 2, 26.9),
]


@pytest.mark.parametrize(("name", "least", "tensile", "elongation"), MINIMUMS)
def test_least_strengths(name: str, least: float, tensile: float, elongation: float) -> None:
    metal = find_material(name, "w")
    # The metric figures of the standards are rounded.
    assert metal.yield_minimum == pytest.approx(least, rel=0.025)
    assert metal.tensile_minimum == pytest.approx(tensile, rel=0.025)
    assert metal.elongation == elongation
    assert metal.yield_typical > metal.yield_minimum
    assert metal.tensile_typical > metal.tensile_minimum
    for key in ("yield_minimum", "tensile_minimum", "elongation"):
        assert metal.sources[key].grade in ("from memory", "standard")


@pytest.mark.parametrize(("name", "mean", "tensile", "elongation"), MEANS)
def test_means(name: str, mean: float, tensile: float, elongation: float) -> None:
    metal = find_material(name, "w")
    assert metal.yield_typical == pytest.approx(mean, rel=3e-3)
    assert metal.tensile_typical == pytest.approx(tensile, rel=3e-3)
    assert metal.elongation <= elongation
    assert metal.yield_minimum is None


@pytest.mark.parametrize(
    ("name", "bar", "pins"),
    [
        # Diameters of the pin over those of the bar: No. 3, 8, 9, 11 and 14.
        ("reinforcing bar", 3 / 8 * INCH, 6),
        ("reinforcing bar", 1.000 * INCH, 6),
        ("rebar grade 40", 1.128 * INCH, 8),
        ("rebar A706 grade 60", 1.410 * INCH, 8),
        ("rebar grade 80", 1.693 * INCH, 10),
        ("rebar B500B", 12, 4),
        ("rebar B500B", 16, 4),
        ("rebar B500C", 20, 7),
        ("rebar B500C", 32, 7),
    ],
)
def test_pins_of_reinforcing_bar(name: str, bar: float, pins: float) -> None:
    radius, source = smallest_radius(find_material(name, "w"), bar)
    assert 2 * radius / bar == pytest.approx(pins)
    assert "from memory" in source


def test_hard_and_soft_ends_of_an_alloy() -> None:
    # Quarter-inch bar: 6061-T6 asks 3-1/2 thicknesses and 6061-O one (Aluminum Association).
    assert smallest_radius(find_material("6061-T6", "w"), 6.35)[0] == pytest.approx(3.5 * 6.35)
    assert smallest_radius(find_material("6061-O", "w"), 6.35)[0] == pytest.approx(6.35)
    # 6063 is taken as 6061 of the same or the next harder temper: never smaller.
    for temper, like in (("O", "O"), ("T4", "T4"), ("T5", "T6"), ("T6", "T6")):
        ours = smallest_radius(find_material(f"6063-{temper}", "w"), 6.35)[0]
        assert ours == smallest_radius(find_material(f"6061-{like}", "w"), 6.35)[0]
    # Hard austenitic stainless: six thicknesses (Kalpakjian and Schmid, table 16.3).
    assert smallest_radius(find_material("304 quarter hard", "w"), 5.0)[0] == pytest.approx(30.0)


# Pounds in a cubic inch as data sheets print them; wrought iron 480 lb in a cubic foot, as old
# handbooks do (Kent, Trautwine).  All from memory.
DENSITIES = [
    ("A36 hot rolled", 490 / 1728),
    ("304", 0.287),
    ("316 annealed", 0.287),
    ("5052-H32", 0.097),
    ("6061-T6", 0.098),
    ("6063-T5", 0.097),
    ("brass 260 half hard", 0.308),
    ("brass 360 free-machining", 0.307),
    ("naval brass 464", 0.304),
    ("copper hard", 0.323),
    ("wrought iron", 480 / 1728),
]


@pytest.mark.parametrize(("name", "pounds"), DENSITIES)
def test_what_a_cubic_inch_weighs(name: str, pounds: float) -> None:
    metal = find_material(name, "w")
    # Printed to a thousandth of a pound, which is half a per cent of the light ones.
    assert metal.density * 1e-9 * INCH**3 / 0.45359237 == pytest.approx(pounds, rel=6e-3)
    assert metal.sources["density"].grade in ("from memory", "standard")

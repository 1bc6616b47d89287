"""Cylinder force and speed against tables worked out from the areas.

Source: ``data/07_hyd_push_force.csv``, ``07_hyd_rod_side.csv``, ``07_hyd_speed.csv``; each file
says at its head how its figures came about.  Figures are rounded to the last digit printed, so
each is held to half a unit of that digit (a whole one where it was rounded twice).
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from strapwright.bending import hydraulics
from strapwright.errors import InputError

DATA = Path(__file__).parent / "data"
INCH = 25.4  # mm, exact
LBF = 4.4482216152605  # N, exact
PSI = LBF / INCH**2  # MPa
US_TON = 2000 * LBF
GPM = 231 * INCH**3 / 60  # mm3/s; the US gallon is 231 in3, exact


def rows(name: str) -> list[dict[str, float]]:
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    table = csv.DictReader(line for line in lines if not line.startswith("#"))
    return [{key: float(value) for key, value in row.items()} for row in table]


@pytest.mark.parametrize("row", rows("07_hyd_push_force.csv"), ids=lambda row: row["bore_in"])
def test_push_force_follows_the_table(row: dict[str, float]) -> None:
    bore = row["bore_in"] * INCH
    assert hydraulics.piston_area(bore) / INCH**2 == pytest.approx(row["area_in2"], abs=6e-5)
    for psi, column in (
        (1000, "F_1000psi_lbf"),
        *((p, f"F_{p}") for p in (1500, 2000, 2500, 3000)),
    ):
        force = hydraulics.push_force(bore, psi * PSI)
        assert force / LBF == pytest.approx(row[column], abs=0.51)
        assert hydraulics.pressure_for(force, bore) / PSI == pytest.approx(psi, rel=1e-12)
    for psi in (1500, 2000, 2500, 3000):
        force = hydraulics.push_force(bore, psi * PSI)
        assert force / US_TON == pytest.approx(row[f"ton_{psi}"], abs=0.0051)


@pytest.mark.parametrize("row", rows("07_hyd_rod_side.csv"))
def test_pull_force_follows_the_table(row: dict[str, float]) -> None:
    bore, rod = row["bore_in"] * INCH, row["rod_in"] * INCH
    annulus = hydraulics.annulus_area(bore, rod)
    assert annulus / INCH**2 == pytest.approx(row["annulus_in2"], abs=6e-5)
    assert hydraulics.piston_area(bore) / annulus == pytest.approx(row["area_ratio"], abs=6e-5)
    for psi in (1500, 2500, 3000):
        pull = hydraulics.pull_force(bore, rod, psi * PSI)
        assert pull / LBF == pytest.approx(row[f"pull_{psi}_lbf"], abs=0.51)


@pytest.mark.parametrize("row", rows("07_hyd_speed.csv"))
def test_ram_speed_follows_the_table(row: dict[str, float]) -> None:
    bore, rod, flow = row["bore_in"] * INCH, row["rod_in"] * INCH, row["flow_gpm"] * GPM
    out = hydraulics.ram_speed(flow, bore) / INCH
    assert 60 * out == pytest.approx(row["extend_in_per_min"], abs=6e-4)
    assert out == pytest.approx(row["extend_in_per_s"], abs=6e-5)
    assert 6 / out == pytest.approx(row["seconds_for_6in_extend"], abs=0.0051)
    back = hydraulics.retract_speed(flow, bore, rod) / INCH
    assert 60 * back == pytest.approx(row["retract_in_per_min"], abs=6e-4)


def test_four_inch_bore_at_2500_psi() -> None:
    # Common practice, no source: '4 in at 2,500 psi is 31,416 lbf, 15.7 US tons'.
    force = hydraulics.push_force(4 * INCH, 2500 * PSI)
    assert force / LBF == pytest.approx(31416, abs=0.5)
    assert force / US_TON == pytest.approx(15.7, abs=0.05)


def test_three_inch_bore_push_and_pull_at_800_psi() -> None:
    # The check pair named at the head of 07_hyd_rod_side.csv.
    assert hydraulics.push_force(3 * INCH, 800 * PSI) / LBF == pytest.approx(5655, abs=0.51)
    pull = hydraulics.pull_force(3 * INCH, 1.875 * INCH, 800 * PSI)
    assert pull / LBF == pytest.approx(3446, abs=0.51)


def test_power_in_horsepower() -> None:
    # hp = psi gpm / 1714.286, from 231 in3 and 33,000 ft lbf/min (head of 07_hyd_speed.csv).
    horsepower = 550 * 12 * INCH * LBF / 1000  # W
    power = hydraulics.hydraulic_power(2000 * PSI, 3 * GPM)
    assert power / horsepower == pytest.approx(2000 * 3 / (12 * 33000 / 231), rel=1e-12)


def test_relief_is_the_inverse_of_the_gauge() -> None:
    force = hydraulics.most_force(14.0, 80.0, efficiency=0.9, no_load=0.5)
    gauge = hydraulics.pressure_for(force, 80.0, efficiency=0.9, no_load=0.5)
    assert gauge == pytest.approx(14.0, rel=1e-12)
    # Against a relief below the no-load pressure the ram does not push at all.
    assert hydraulics.most_force(0.4, 80.0, no_load=0.5) == 0.0


def test_hand_pump_fills_the_cylinder_stroke_by_stroke() -> None:
    # Volume balance: ten strokes of one piston area times 1 mm move the ram 10 mm in 10 s at 1/s.
    volume = hydraulics.piston_area(50.0) * 1.0
    assert hydraulics.ram_speed(volume * 1.0, 50.0) == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("bore", "rod", "efficiency", "words"),
    [
        (0.0, 10.0, 1.0, "press.bore: bore is 0 mm; give the bore as a length above 0."),
        (50.0, 50.0, 1.0, "not thinner than the bore"),
        (50.0, -1.0, 1.0, "press.rod: rod is -1 mm"),
        (50.0, 20.0, 1.2, "press.efficiency: it is 1.2; give a share above 0 and up to 1"),
        (float("nan"), 20.0, 1.0, "press.bore: bore is nan mm"),
    ],
)
def test_bad_cylinder_is_one_sentence(
    bore: float, rod: float, efficiency: float, words: str
) -> None:
    with pytest.raises(InputError) as caught:
        hydraulics.pull_force(bore, rod, 10.0, efficiency)
    assert words in caught.value.sentence

"""Hardening of the catalog against handbook tables of Hollomon's law, taken as a band.

Source: ``data/20_hollomon_K_n.csv``, named row by row.
"""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest

from strapwright.catalog import find_material

DATA = Path(__file__).parent / "data" / "20_hollomon_K_n.csv"
ROWS = list(
    csv.DictReader(one for one in DATA.read_text("utf-8").splitlines() if not one.startswith("#"))
)


@pytest.mark.parametrize(
    ("name", "metal"),
    [
        ("A36 hot rolled", "low-carbon steel, annealed"),
        ("1018 hot rolled", "low-carbon steel, annealed"),
        ("S235", "low-carbon steel, annealed"),
        ("unknown mild steel", "low-carbon steel, annealed"),
        ("1045 hot rolled", "1045 hot rolled"),
        ("4140 annealed", "4135, alloy steel, annealed"),
        ("304 annealed", "304 annealed"),
        ("6061-T6", "6061-T6"),
        ("copper annealed", "copper annealed"),
        ("brass 260 annealed", "70-30 brass annealed"),
    ],
)
def test_every_book_lies_within_two_spreads(name: str, metal: str) -> None:
    found = find_material(name, "w")
    books = [float(one["n"]) for one in ROWS if one["metal"] == metal]
    assert books
    for n in books:
        assert abs(n - found.exponent) <= 2 * found.exponent_spread


@pytest.mark.parametrize(
    ("name", "metal"),
    [
        ("1045 hot rolled", "1045 hot rolled"),
        ("4140 annealed", "4135, alloy steel, annealed"),
        ("304 annealed", "304 annealed"),
        ("6061-T6", "6061-T6"),
        ("copper annealed", "copper annealed"),
        ("brass 260 annealed", "70-30 brass annealed"),
    ],
)
def test_tensile_strength_and_exponent_give_the_strength_of_the_books(
    name: str, metal: str
) -> None:
    # Considere: the neck starts at true strain n, so UTS = K n^n exp(-n).
    found = find_material(name, "w")
    n = found.exponent
    K = found.tensile_typical * math.exp(n) / n**n
    books = [float(one["K"]) for one in ROWS if one["metal"] == metal]
    assert 0.9 * min(books) <= K <= 1.1 * max(books)

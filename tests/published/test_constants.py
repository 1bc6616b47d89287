"""Exact unit constants.

Sources: international yard and pound agreement of 1959 (inch, pound), 3rd General Conference on
Weights and Measures of 1901 (standard gravity), US customary measure (gallon, short ton).  The
numbers are those of the usual tables, to the digits they print.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from strapwright.quantities import read_flow, read_force, read_length, read_pressure, read_volume


def test_exact_constants() -> None:
    assert read_length("1 in", "w") == Fraction("25.4")
    assert read_force("1 lbf", "w") == Fraction("4.4482216152605")
    assert read_force("1 ton (US)", "w") == 2000 * Fraction("4.4482216152605")
    assert read_force("1 tonne", "w") == Fraction("9806.65")
    assert read_volume("1 gal (US)", "w") == read_volume("231 in3", "w")
    assert read_flow("1 gpm", "w") * 60 == 231 * Fraction("25.4") ** 3


def test_rounded_constants() -> None:
    assert float(read_pressure("1 psi", "w")) * 1e6 == pytest.approx(6894.757293, abs=5e-7)
    assert float(read_force("1 ton (US)", "w")) / 1e3 == pytest.approx(8.8964, abs=5e-5)

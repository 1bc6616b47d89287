"""Smallest radii grow with thickness and are never smaller along the grain."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from strapwright.catalog import Material, materials, smallest_radius

METALS = st.sampled_from(materials())
THICKNESS = st.floats(0.1, 150.0)


@given(METALS, THICKNESS, THICKNESS, st.booleans())
def test_thicker_bar_needs_no_smaller_radius(
    metal: Material, one: float, other: float, along: bool
) -> None:
    thin, thick = sorted((one, other))
    small, _ = smallest_radius(metal, thin, along_grain=along)
    large, _ = smallest_radius(metal, thick, along_grain=along)
    assert small <= large * (1 + 1e-12)


@given(METALS, THICKNESS)
def test_along_the_grain_is_no_better(metal: Material, thickness: float) -> None:
    across, _ = smallest_radius(metal, thickness)
    along, _ = smallest_radius(metal, thickness, along_grain=True)
    assert along >= across >= 0

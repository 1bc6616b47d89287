"""How deep a drill of usual length makes a hole, for cribs that do not say."""

from __future__ import annotations

# Flute of a drill up to a diameter [mm]: jobber lengths of DIN 338; above 13 mm drills with a
# reduced shank, whose flutes are 3 in long (both from memory).
FLUTES = (
    (1.0, 12.0), (1.5, 18.0), (2.0, 24.0), (2.5, 30.0), (3.0, 33.0), (4.0, 43.0), (5.0, 52.0),
    (6.0, 57.0), (7.0, 69.0), (8.0, 75.0), (9.0, 81.0), (10.0, 87.0), (11.0, 94.0), (13.0, 101.0),
)  # fmt: skip
REDUCED = 76.2
CHIPS = 1.0  # diameters of flute that stay above the hole, for chips; common practice, no source


def usual_reach(diameter: float) -> float:
    """Return the deepest hole that a drill of usual length makes [mm]; ``diameter`` [mm]."""
    flute = next((long for most, long in FLUTES if diameter <= most), REDUCED)
    return flute - CHIPS * diameter

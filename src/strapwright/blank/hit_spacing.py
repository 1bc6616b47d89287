"""A large radius as a row of hits: many small bends that stand in for one arc.

The hits are the corners of a polygon drawn round the arc, so every flat between two hits touches
the true arc in its middle, the first and the last flat run on into the legs, and the legs lie
exactly where a true arc would put them.
"""

from __future__ import annotations

from math import acos, ceil, cos, tan

from attrs import frozen

from strapwright.bending.bend_values import ReleasedBend
from strapwright.errors import InputError, either_unit
from strapwright.quantities import either_length

FEWEST_HITS, MOST_HITS = 2, 100
_ROUNDING = 1e-9  # numerical


@frozen(kw_only=True)
class Row:
    """One bend made by a row of hits.

    Attributes
    ----------
    hits
        How many.
    angle
        Free angle of each [rad].
    radius
        Inside radius of the true arc [mm].
    thickness
        Of the bar [mm].
    """

    hits: int
    angle: float
    radius: float
    thickness: float

    @property
    def stand_off(self) -> float:
        """How far a corner of the outer face stands off the true arc, were it sharp [mm]."""
        return (self.radius + self.thickness) * (1 / cos(self.angle / 2) - 1)

    @property
    def side(self) -> float:
        """Side of the polygon on the mid-line, from corner to corner [mm]."""
        return 2 * (self.radius + self.thickness / 2) * tan(self.angle / 2)

    def released(self, hit: ReleasedBend | None) -> ReleasedBend:
        """Return the whole row as one bend, as the blank needs it.

        Parameters
        ----------
        hit
            One hit from the stroke solver; ``None`` takes its corners as sharp.
        """
        total = self.hits * self.angle
        middle = self.radius + self.thickness / 2
        # What each rounded corner saves against a sharp one, in the flat.
        saved = 0.0 if hit is None else 2 * hit.apex_distance - hit.flat_length
        return ReleasedBend(
            angle=total,
            thickness=self.thickness,
            wrap_radius=self.radius,
            apex_distance=middle * tan(total / 2),
            outside_reach=self.radius + self.thickness,
            flat_length=self.hits * (self.side - saved),
        )


def row_of_hits(angle: float, radius: float, thickness: float, tolerance: float) -> Row:
    """Return the fewest hits that keep the made shape within a tolerance of the true arc.

    Parameters
    ----------
    angle
        Total bend angle [rad].
    radius, thickness
        Inside radius of the arc, and the bar [mm].
    tolerance
        How far a corner of the outer face may stand off the arc [mm].

    Raises
    ------
    InputError
        Where that takes more than 100 hits.

    Notes
    -----
    A corner of a polygon round a circle of radius R stands off it by R (1/cos(delta/2) - 1), with
    delta the angle of one corner; R is that of the outer face, where it is most.
    """
    outer = radius + thickness
    most = 2 * acos(outer / (outer + tolerance))
    hits = max(ceil(angle / most - _ROUNDING), FEWEST_HITS)
    if hits > MOST_HITS:
        raise InputError(
            "hits.tolerance",
            f"a row within {either_length(tolerance, 2)} of the arc takes {hits} hits, more than "
            f"{MOST_HITS}",
            f"give a larger tolerance, for example {either_unit('0.8 mm', '1/32 in')}",
        )
    return Row(hits=hits, angle=angle / hits, radius=radius, thickness=thickness)

"""How a bar lies on the shoulders at one hit of its row: tilted, and bent as far as the hits go."""

from __future__ import annotations

import math

import numpy as np
from attrs import evolve

from strapwright.blank.hit_spacing import Row
from strapwright.midline.pose_values import DrawnPose
from strapwright.ordering.freeing.bar_under_nose import Lying
from strapwright.ordering.order_values import PartGeometry

# Numerical.  The bar as drawn and the part that its way off is looked for with differ by less: the
# one bends over the flat length of a hit as solved, the other over that of an even arc [mm].
DRAWN = 0.1
# Numerical: the nose is let off by so much when the bar starts to come off [mm].
LET_OFF = 0.5


def hits_apart(part: PartGeometry, bend: int, row: Row, done: int) -> PartGeometry:
    """Return the part with a row as two bends: the hits that are done, and those that are not.

    Parameters
    ----------
    bend
        0-based, the row; in the part returned ``bend`` are the hits done.
    done
        More than none and less than all.
    """
    whole, radius = part.angles[bend], part.radii[bend]
    share = whole * done / row.hits
    return evolve(
        part,
        straights=(*part.straights[: bend + 1], 0.0, *part.straights[bend + 1 :]),
        angles=(*part.angles[:bend], share, whole - share, *part.angles[bend + 1 :]),
        radii=(*part.radii[:bend], radius, radius, *part.radii[bend + 1 :]),
    )


def lying_at(part: PartGeometry, bend: int, row: Row, hit: int, pose: DrawnPose) -> Lying:
    """Return how the part lies that is drawn at a 0-based hit of the row of a 0-based bend."""
    there = np.flatnonzero(np.abs(pose.x) < 1e-6)
    under = int(there[np.argmin(pose.y[there])])
    # The hit is even to both sides of its middle.
    across = pose.x[under + 1] - pose.x[under - 1], pose.y[under + 1] - pose.y[under - 1]
    before = sum(part.straights[: bend + 1]) + sum(part.allowances[:bend])
    return Lying(
        along=before + part.allowances[bend] * (hit + 0.5) / row.hits,
        tilt=math.atan2(float(across[1]), float(across[0])),
        y=float(pose.y[under]) + DRAWN,
        nose=pose.nose_y + DRAWN + LET_OFF,
    )

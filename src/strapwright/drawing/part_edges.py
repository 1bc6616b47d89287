"""The face of a finished part that is towards the nose, hatched bend by bend."""

from __future__ import annotations

import numpy as np

from strapwright.drawing.leg_lines import straight_runs
from strapwright.planning.plan_values import Plan
from strapwright.scene.face_edge import face_edge
from strapwright.scene.primitives import Line

_BEYOND = 3.0  # thicknesses of straight to each side of a bend that are hatched with it
_OF_LEG = 0.4  # of that straight at most, so that two bends stay apart

NOTE = "hatched: the face towards the nose at each bend; the top face is up at end 1"


def nose_edges(plan: Plan, px: float) -> list[Line]:
    """Hatch each bend of a part in one plane on the face that is towards the nose.

    Parameters
    ----------
    plan
        With a finished mid-line.
    px
        One pixel [mm].
    """
    part, line = plan.job.part, plan.finished
    runs = straight_runs(part, line)
    shapes = []
    for number, bend in enumerate(part.bends):
        (a, b), (c, d) = runs[number], runs[number + 1]
        before, after = line[b] - line[a], line[d] - line[c]
        most = _BEYOND * part.bar.thickness
        ends = []
        for way in (before, after):
            long = float(np.hypot(*way))
            ends.append(way * (min(most, _OF_LEG * long) / max(long, 1e-9)))
        zone = np.vstack((line[b] - ends[0], line[b : c + 1], line[c] + ends[1]))
        shapes += face_edge(zone, part.bar.thickness, bend.side, px)
    return shapes

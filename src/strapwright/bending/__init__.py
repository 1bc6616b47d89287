"""What a bar does between nose and shoulders: section law, stroke solver, springback, band."""

from strapwright.bending.solver import solve_curve, state_at_travel, state_for_free_angle
from strapwright.bending.values import BendSetup, FlowCurve, StrokeCurve, StrokeState

__all__ = [
    "BendSetup",
    "FlowCurve",
    "StrokeCurve",
    "StrokeState",
    "solve_curve",
    "state_at_travel",
    "state_for_free_angle",
]

"""What a bar does between nose and shoulders: section law, stroke solver, springback, band.

The solver is loaded when one of its names is first asked for: the compiler behind it takes about a
second, and hydraulics, closed forms and cross-checks work without it.
"""

from typing import TYPE_CHECKING, Any

from strapwright.bending.bend_values import BendSetup, FlowCurve, StrokeCurve, StrokeState

if TYPE_CHECKING:
    from strapwright.bending.solver import solve_curve, state_at_travel, state_for_free_angle

__all__ = [
    "BendSetup",
    "FlowCurve",
    "StrokeCurve",
    "StrokeState",
    "solve_curve",
    "state_at_travel",
    "state_for_free_angle",
]


def __getattr__(name: str) -> Any:
    if name in {"solve_curve", "state_at_travel", "state_for_free_angle"}:
        from strapwright.bending import solver  # noqa: PLC0415  the compiler loads slowly

        return getattr(solver, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")

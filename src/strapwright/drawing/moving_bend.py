"""One bend as what stands still and what moves, for a picture that follows the ram."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.drawing import tooling_shapes
from strapwright.drawing.bend_drawing import _window as window_of
from strapwright.drawing.surrounding import assumed_bed, hatched, surrounding_shapes
from strapwright.errors import InputError
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.boxes import Box
from strapwright.scene.primitives import Line, Shape

_MARGIN = 0.06  # of the width, around the window
_NOMINAL = 620.0  # px that the picture is wide on a screen


@frozen(kw_only=True)
class MovingBend:
    """A bend to be shown at any place of the ram, in die coordinates [mm], y up.

    Attributes
    ----------
    view
        What is seen.
    still
        Shoulders, floor, bed and the line of touch.
    ram
        Nose, web and push plate with the centre of the nose at the origin.
    over
        Whether the press pushes from below: the picture is turned over.
    """

    view: Box
    still: tuple[Shape, ...]
    ram: tuple[Shape, ...]
    over: bool


def moving_bend(plan: Plan, step: Step, view: Box | None = None) -> MovingBend:
    """Part a bend into what stands still and what moves.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    view
        What is seen, where it is not what this bend alone needs [mm].

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    plan = plan.on_tooling_of(step.bend)
    tooling = plan.job.tooling
    if tooling is None:
        raise InputError(
            "tooling", "there is no tooling to draw a bend on", "give the nose and the shoulders"
        )
    window = window_of(step, tooling, plan.job.part.bar.thickness, assumed_bed(plan))
    margin = _MARGIN * (window.right - window.left)
    if view is None:
        view = Box(
            window.left - margin, window.bottom - margin, window.right + margin, window.top + margin
        )
    rest = step.poses.rest.nose_y
    lowest = min(pose.nose_y for pose in step.poses.all)
    half_plate = min(1.1 * tooling.shoulders.opening, window.right)
    touch = rest - tooling.nose.radius
    half = 0.5 * plan.job.part.at_once * plan.job.part.bar.width
    far = view.top - lowest + margin
    off = step.coming_off
    sinks = 0.0 if off is None else max(off.opened, 0.0)
    tall = Box(view.left, view.bottom, view.right, far + sinks)
    stands = [one for one in plan.pieces if one.side == "shoulders"]
    rides = [one for one in plan.pieces if one.side == "nose"]
    plate = next((one for one in rides if one.kind == "push plate"), None)
    if plate is not None:
        half_plate = min(max(x for x, _ in plate.polygon), window.right)
    return MovingBend(
        view=view,
        still=(
            # Taller than the picture, for what stands still sinks while the ram opens.
            *surrounding_shapes(stands, 0.0, tall, half),
            *tooling_shapes.shoulder_shapes(tooling.shoulders, view.bottom),
            Line(start=(view.left, touch), end=(view.right, touch), role="touch"),
        ),
        # Drawn so far up that it still leaves the picture when the nose is at its lowest.
        ram=(
            *surrounding_shapes(rides, 0.0, Box(view.left, -far, view.right, far), half),
            *tooling_shapes.nose_shapes(
                tooling.nose,
                0.0,
                far,
                half_plate,
                plate_stated=plate is None or not plate.assumed,
            ),
        ),
        over=nose_of(plan.job) == "below",
    )


def held_shapes(
    plan: Plan, names: tuple[str, ...], view: Box, side: Literal["nose", "shoulders"]
) -> tuple[Shape, ...]:
    """Hatch the bodies of one side that hold a part, as large as ``view`` [mm].

    Those of the nose side stand about the nose's centre.
    """
    far = view.top - view.bottom
    held = (one for one in plan.pieces if one.side == side and one.owner in names)
    px = (view.right - view.left) / _NOMINAL
    room = Box(view.left, -far, view.right, far)
    return tuple(hatched(held, 0.0, room, px))

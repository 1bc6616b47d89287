"""The finished part as its page draws it, with handles to drag."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal

from attrs import evolve, frozen

from strapwright.drawing import PHONE, WIDE, Frame, part_scene, to_svg
from strapwright.drawing.leg_lines import apex, find_legs, leg_grips
from strapwright.drawing.part_space import in_space
from strapwright.errors import StrapwrightError
from strapwright.planning.plan import plan
from strapwright.planning.plan_values import Plan
from strapwright.shop.job import Job

Size = Literal["wide", "phone"]
_GRIP, _SMALL_GRIP = 20.0, 8.0  # px; the ring of a handle with a little air, and on a phone
_PART = Frame(width=760.0, height=600.0, body=16.0, grip=_GRIP)
FRAMES = {"wide": _PART, "phone": evolve(PHONE, grip=_SMALL_GRIP), "full": WIDE}


@frozen(kw_only=True)
class Handle:
    """A place on the drawing of the part that changes one field when it is moved.

    Attributes
    ----------
    field
        Name of the field.
    x, y
        Where it stands, as a share of the drawing.
    along
        Direction on the screen in which the value grows.
    per_pixel
        Growth of the value for a pixel at nominal size [mm or degrees].
    """

    field: str
    x: float
    y: float
    along: tuple[float, float]
    per_pixel: float


@frozen(kw_only=True)
class PartPicture:
    """The drawing of the part with its handles; ``width`` [px], ``scale`` [px/mm] as drawn."""

    svg: str
    width: float
    scale: float
    handles: tuple[Handle, ...]


def sketch(job: Job) -> Plan | None:
    """Return the part without its tooling, which is quick; ``None`` where that draws nothing.

    The radius is that of the nose, so what is drawn differs from the plan by less than a line.
    """
    radius = job.part.assumed_radius or job.part.inside_radius
    if job.tooling is not None:
        radius = job.tooling.nose.radius
    if radius is None:
        radius = job.part.bar.thickness
    part = evolve(job.part, assumed_radius=radius)
    try:
        made = plan(evolve(job, part=part, tooling=None, press=None))
    except StrapwrightError:
        return None
    return made if len(made.finished) else None


def part_picture(
    made: Plan,
    size: Size,
    shape_places: dict[str, str],
    *,
    hurried: bool = False,
    near: float | None = None,
) -> PartPicture:
    """Draw the part.

    Parameters
    ----------
    made
        With a finished line.
    size
        Room it has.
    shape_places
        ``leg 1`` or ``bend 1`` -> name of its field.
    hurried
        Whether somebody is typing, and words need not find their best places.
    near
        Scale of the drawing that is shown by now [px/mm].
    """
    scene = part_scene(made, FRAMES[size], hurried=hurried, near=near)
    shape_places = {} if in_space(made) else shape_places  # one drags in the plane of the paper
    left, bottom, right, top = scene.bounds
    wide, high = right - left, top - bottom
    part = made.job.part
    legs = find_legs(part, made.finished, made.dimension_points)
    handles, grips = [], leg_grips(legs)
    for number, leg in enumerate(legs, start=1):
        name = shape_places.get(f"leg {number}")
        if name is None:
            continue
        at, grown = grips[number - 1]
        x, y = leg.at(at)
        ahead = leg.at(grown)
        handles.append(
            Handle(
                field=name,
                x=(x - left) / wide,
                y=(top - y) / high,
                along=(ahead[0] - x, y - ahead[1]),
                per_pixel=1.0 / scene.scale,
            )
        )
    for number, (before, after) in enumerate(pairwise(legs), start=1):
        name = shape_places.get(f"bend {number}")
        if name is None:
            continue
        x, y = apex(before, after)
        side = float(part.bends[number - 1].side)
        across = (
            after.at(0.0, side)[0] - after.at(0.0)[0],
            after.at(0.0, side)[1] - after.at(0.0)[1],
        )
        handles.append(
            Handle(
                field=name,
                x=(x - left) / wide,
                y=(top - y) / high,
                along=(across[0], -across[1]),
                per_pixel=0.5,
            )
        )
    return PartPicture(
        svg=to_svg(scene, None),
        width=FRAMES[size].width,
        scale=scene.scale,
        handles=tuple(handles),
    )

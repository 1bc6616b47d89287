"""The half-bent part in coordinates of the nose: bent on it, or lying on the shoulders under it."""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.ordering.half_bent_profile import Element, element_rows, half_bent
from strapwright.ordering.kernel_pieces import ANGLE, Floats, X, Y
from strapwright.ordering.order_values import PartGeometry
from strapwright.ordering.refusal_values import End


@frozen(kw_only=True)
class StackedBar:
    """One bar of a stack, and how thick the bars between it and nose and shoulders are [mm]."""

    part: PartGeometry
    above: float
    beneath: float


def on_nose(
    part: PartGeometry,
    made: tuple[int, ...],
    last_bend: int,
    nose_radius: float,
    end_left: End = 1,
) -> Floats:
    """Element rows of the half-bent part with ``last_bend`` (1-based) on the nose, wings up.

    Nose coordinates: the origin is the nose's centre, y points away from the part [mm].
    """
    if part.angles[last_bend - 1] < 0.0:  # with the other face up every bend turns the other way
        part = evolve(part, angles=tuple(-a for a in part.angles))
    rows = element_rows(part, made)
    at = 2 * sum(1 for b in made if b < last_bend) + 1
    heading = rows[at, ANGLE] + 0.5 * math.pi
    c, s = math.cos(-heading), math.sin(-heading)
    x, y = rows[:, X] - rows[at, X], rows[:, Y] - rows[at, Y]
    rows[:, X] = c * x - s * y
    rows[:, Y] = s * x + c * y + part.radii[last_bend - 1] - nose_radius
    rows[:, ANGLE] -= heading
    return rows if end_left == 1 else _mirrored(rows)


def laid_in(
    part: PartGeometry, made: tuple[int, ...], bend: int, height: float, end_left: End = 1
) -> Floats:
    """Element rows of the bar laid level on the shoulders for a 1-based ``bend`` not yet made.

    Parameters
    ----------
    made
        1-based bends made before.
    height
        Of the nose's centre above the shoulder tops [mm].

    Returns
    -------
    array
        In nose coordinates, the middle of the bend at x = 0 and its run level [mm].
    """
    along = sum(part.straights[:bend]) + sum(part.allowances[: bend - 1])
    along += 0.5 * part.allowances[bend - 1]
    lies = Lying(along=along, tilt=0.0, y=0.5 * part.thickness, nose=height)
    return lying(part, made, bend, lies, end_left)


@frozen(kw_only=True)
class Lying:
    """How a bar lies under the nose.

    Attributes
    ----------
    along
        Place under the nose, from end 1 along the neutral line [mm].
    tilt
        How far the bar is tilted there, anticlockwise [rad].
    y, nose
        Heights of its neutral line there, and of the nose's centre, over the shoulder tops [mm].
    """

    along: float
    tilt: float
    y: float
    nose: float


def lying(
    part: PartGeometry, made: tuple[int, ...], bend: int, lies: Lying, end_left: End = 1
) -> Floats:
    """Element rows of the half-bent bar as it lies, in nose coordinates [mm].

    Parameters
    ----------
    made
        1-based bends made, of which ``bend``, which turns up, may be one.
    """
    if part.angles[bend - 1] < 0.0:
        part = evolve(part, angles=tuple(-a for a in part.angles))
    rows = element_rows(part, made)
    x, y, heading = _on_line(half_bent(part, made), lies.along)
    turn = (lies.tilt if end_left == 1 else -lies.tilt) - heading
    c, s = math.cos(turn), math.sin(turn)
    off_x, off_y = rows[:, X] - x, rows[:, Y] - y
    rows[:, ANGLE] += turn
    rows[:, X] = c * off_x - s * off_y
    rows[:, Y] = s * off_x + c * off_y + lies.y - lies.nose
    return rows if end_left == 1 else _mirrored(rows)


def _on_line(elements: Sequence[Element], along: float) -> tuple[float, float, float]:
    """Place and heading on the neutral line, so far from end 1."""
    for element in elements:
        if along <= element.length or element is elements[-1]:
            break
        along -= element.length
    turned = element.turn * along / element.length if element.turn else 0.0
    heading = element.heading + turned
    if not turned:
        return (
            element.x + along * math.cos(element.heading),
            element.y + along * math.sin(element.heading),
            heading,
        )
    r = element.length / element.turn
    return (
        element.x + r * (math.sin(heading) - math.sin(element.heading)),
        element.y - r * (math.cos(heading) - math.cos(element.heading)),
        heading,
    )


def _mirrored(rows: Floats) -> Floats:
    """Seen from the other side: the end that pointed left points right, wings stay up."""
    rows = rows.copy()
    rows[:, X] *= -1.0
    rows[:, ANGLE] = math.pi - rows[:, ANGLE]
    return rows

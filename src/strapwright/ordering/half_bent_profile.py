"""The half-bent part as drawn: its straights and arcs, and whether it closes on itself."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from strapwright.ordering.kernel_pieces import Floats
from strapwright.ordering.kernel_self import chain_gap
from strapwright.ordering.order_values import PartGeometry

CHORD_ERROR = 0.02  # of a drawn arc, numerical [mm]


@frozen(kw_only=True)
class Element:
    """One straight or one made bend of the half-bent bar, on its neutral line.

    Attributes
    ----------
    kind
        ``straight`` or ``arc``.
    x, y, heading
        Where it starts and which way the bar runs there [mm, rad].
    length
        Of the neutral line [mm].
    turn
        Total turn, 0 for a straight [rad].
    bend
        1-based number of a made bend, 0 for a straight.
    """

    kind: Literal["straight", "arc"]
    x: float
    y: float
    heading: float
    length: float
    turn: float
    bend: int


def half_bent(part: PartGeometry, made: tuple[int, ...]) -> tuple[Element, ...]:
    """Return the bar with the 1-based bends ``made`` at their final angles.

    It starts at end 1 in the origin and runs along +x; bends not made are straight and of their
    developed length, and runs of straight bar are one element.
    """
    elements: list[Element] = []
    x = y = heading = 0.0
    run = 0.0

    def straight() -> None:
        nonlocal x, y
        elements.append(
            Element(kind="straight", x=x, y=y, heading=heading, length=run, turn=0.0, bend=0)
        )
        x += run * math.cos(heading)
        y += run * math.sin(heading)

    for k, length in enumerate(part.straights):
        run += length
        if k == part.bends:
            straight()
        elif k + 1 not in made:
            run += part.allowances[k]
        else:
            straight()
            run = 0.0
            angle = part.angles[k]
            rho = part.allowances[k] / angle  # signed
            elements.append(
                Element(
                    kind="arc",
                    x=x,
                    y=y,
                    heading=heading,
                    length=part.allowances[k],
                    turn=angle,
                    bend=k + 1,
                )
            )
            x += rho * (math.sin(heading + angle) - math.sin(heading))
            y -= rho * (math.cos(heading + angle) - math.cos(heading))
            heading += angle
    return tuple(elements)


def mid_line(
    part: PartGeometry, made: tuple[int, ...], chord_error: float = CHORD_ERROR
) -> NDArray[np.float64]:
    """Points of the neutral line from end 1 to end 2, shape (k, 2) [mm]."""
    points = [(0.0, 0.0)]
    for e in half_bent(part, made):
        count = 1
        if e.kind == "arc":
            rho = e.length / abs(e.turn)
            step = 2.0 * math.acos(max(0.0, 1.0 - chord_error / rho)) if rho > chord_error else 1.0
            count = max(1, math.ceil(abs(e.turn) / step))
        for m in range(1, count + 1):
            part_turn = e.turn * m / count
            if e.kind == "straight":
                points.append(
                    (e.x + e.length * math.cos(e.heading), e.y + e.length * math.sin(e.heading))
                )
            else:
                r = e.length / e.turn
                points.append(
                    (
                        e.x + r * (math.sin(e.heading + part_turn) - math.sin(e.heading)),
                        e.y - r * (math.cos(e.heading + part_turn) - math.cos(e.heading)),
                    )
                )
    return np.array(points)


def element_rows(part: PartGeometry, made: tuple[int, ...]) -> Floats:
    """Element rows (see ``kernel_pieces``) of the half-bent bar at rest in its own frame."""
    rows = np.zeros((len(half_bent(part, made)), 8))
    for row, e in zip(rows, half_bent(part, made), strict=True):
        if e.kind == "straight":
            middle = 0.5 * e.length
            row[:6] = (
                0.0,
                e.x + middle * math.cos(e.heading),
                e.y + middle * math.sin(e.heading),
                e.heading,
                middle,
                0.5 * part.thickness,
            )
        else:
            side = math.copysign(1.0, e.turn)
            rho = e.length / abs(e.turn)
            row[:7] = (
                1.0,
                e.x - side * rho * math.sin(e.heading),
                e.y + side * rho * math.cos(e.heading),
                e.heading + 0.5 * e.turn - side * 0.5 * math.pi,
                0.5 * abs(e.turn),
                part.radii[e.bend - 1],
                part.radii[e.bend - 1] + part.thickness,
            )
    return rows


def own_gap(part: PartGeometry, made: tuple[int, ...], enough: float) -> float:
    """Smallest distance of the half-bent bar from itself, or ``enough`` if it is no less [mm].

    Neighbours, and the two straights beside one bend, are not looked at.
    """
    return float(chain_gap(element_rows(part, made), enough))


def closes_on_itself(part: PartGeometry, clearance: float) -> bool:
    """Whether the finished part comes within ``clearance`` of itself as drawn."""
    return own_gap(part, tuple(range(1, part.bends + 1)), clearance) < clearance

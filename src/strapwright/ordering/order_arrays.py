"""From values to the arrays of the compiled loops: pieces, strokes, wings."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from attrs import frozen

from strapwright.errors import InputError
from strapwright.ordering.kernel_kinematics import arc_centre, jam_angle, straight_needed
from strapwright.ordering.kernel_pieces import (
    CLOSING,
    CORNERS,
    MIDDLE,
    NOSE,
    PER_CORNER,
    SHOULDERS,
    Outward,
    Stroke,
    Tool,
)
from strapwright.ordering.order_values import (
    PartGeometry,
    Piece,
    Point,
    SearchSettings,
    ToolSection,
)
from strapwright.ordering.refusal_values import Jams, SmallRadius, TooShallow

FAR = 1e5  # stands for endless, numerical [mm]
Wing = Literal[0, 1]  # 0 towards end 1 of the bar, 1 towards end 2


@frozen(kw_only=True)
class Shape:
    """One convex piece in the frame of its group: corners anticlockwise, rounded by radius.

    ``piece`` is ``None`` for the middle of the bar, which the bend itself takes up.
    """

    piece: Piece | None
    corners: tuple[Point, ...]
    radius: float
    group: int
    contact: bool


def _anticlockwise(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    area = sum(corners[k - 1][0] * y - x * corners[k - 1][1] for k, (x, y) in enumerate(corners))
    return corners if area > 0.0 else tuple(reversed(corners))


def _hull(points: list[Point]) -> tuple[Point, ...]:
    """Convex hull, anticlockwise, without points on its edges."""

    def half(ordered: list[Point]) -> list[Point]:
        chain: list[Point] = []
        for p in ordered:
            while (
                len(chain) > 1
                and (chain[-1][0] - chain[-2][0]) * (p[1] - chain[-2][1])
                - (chain[-1][1] - chain[-2][1]) * (p[0] - chain[-2][0])
                <= 0.0
            ):
                chain.pop()
            chain.append(p)
        return chain[:-1]

    ordered = sorted(set(points))
    return tuple(half(ordered) + half(ordered[::-1]))


def shapes_of(
    section: ToolSection, part: PartGeometry, bend: int, *, mirrored: bool
) -> tuple[Shape, ...]:
    """Everything the wings of ``bend`` (0-based) are held against, for a wing drawn to the right.

    ``mirrored`` for the wing that points left.  Nose-side pieces are given from the arc's centre,
    and once more swept over the daylight.
    """
    drop = part.radii[bend] - section.nose_radius
    flip = -1.0 if mirrored else 1.0
    shapes: list[Shape] = []
    for piece in section.pieces:
        if not meets_along(piece, part):
            continue
        lower = drop if piece.side == "nose" else 0.0
        corners = (piece.centre,) if piece.centre is not None else piece.polygon
        placed = tuple((flip * x, y - lower) for x, y in corners)
        if piece.centre is None:
            placed = _anticlockwise(placed)
        group = NOSE if piece.side == "nose" else SHOULDERS
        shapes.append(
            Shape(
                piece=piece,
                corners=placed,
                radius=piece.radius if piece.centre is not None else 0.0,
                group=group,
                contact=piece.contact,
            )
        )
        if group == NOSE and section.daylight > 0.0 and not piece.drawn:
            raised = [(x, y + section.daylight) for x, y in placed]
            shapes.append(
                Shape(
                    piece=piece,
                    corners=_hull([*placed, *raised]),
                    radius=shapes[-1].radius,
                    group=CLOSING,
                    contact=piece.contact,
                )
            )
    half_plane = ((-FAR, -FAR), (0.0, -FAR), (0.0, FAR), (-FAR, FAR))
    outside = part.radii[bend] + part.thickness
    shapes += [
        Shape(piece=None, corners=half_plane, radius=0.0, group=MIDDLE, contact=False),
        Shape(piece=None, corners=((0.0, 0.0),), radius=outside, group=MIDDLE, contact=False),
    ]
    return tuple(shapes)


def meets_along(piece: Piece, part: PartGeometry) -> bool:
    """Whether a piece reaches along the nose to where the bar lies."""
    if piece.z is None or part.z is None:
        return True
    return piece.z[0] < part.z[1] and part.z[0] < piece.z[1]


def tool_arrays(shapes: tuple[Shape, ...]) -> Tool:
    """Pack shapes for the compiled loops."""
    m = max(len(s.corners) for s in shapes)
    tool = np.zeros((len(shapes), CORNERS + PER_CORNER * m))
    for row, shape in zip(tool, shapes, strict=True):
        corners = np.array(shape.corners)
        row[:CORNERS] = (
            len(corners),
            shape.radius,
            *corners.min(axis=0),
            *corners.max(axis=0),
            shape.group,
            shape.contact,
        )
        for k, (x, y) in enumerate(corners):
            dx, dy = corners[(k + 1) % len(corners)] - corners[k]
            size = math.hypot(dx, dy) or 1.0
            nx, ny = dy / size, -dx / size
            at = CORNERS + PER_CORNER * k
            row[at : at + PER_CORNER] = (x, y, nx, ny, nx * x + ny * y)
    return tool


def stroke_of(
    section: ToolSection, part: PartGeometry, settings: SearchSettings, bend: int
) -> Stroke:
    """Stroke of the 0-based ``bend``, overbend included."""
    inner = part.radii[bend]
    a = inner + part.thickness + section.shoulder_radius
    rho = inner + part.thickness / 2.0
    phi_end = (abs(part.angles[bend]) + settings.overbend(bend)) / 2.0
    phi_begin = settings.begin(bend) / 2.0
    half = section.opening / 2.0
    return Stroke(
        phi_end=phi_end,
        rho=rho,
        half_opening=half,
        a=a,
        shoulder_radius=section.shoulder_radius,
        inner=inner,
        thickness=part.thickness,
        needed=straight_needed(phi_end, half, a, rho, phi_begin) + settings.leg_margin,
        phi_begin=phi_begin,
    )


def outward_of(part: PartGeometry, bend: int, wing: Wing) -> Outward:
    """Bends beyond the 0-based ``bend`` on the way to one end of the bar, nearest first."""
    ends = np.cumsum(
        [v for pair in zip(part.straights, (*part.allowances, 0.0), strict=True) for v in pair]
    )
    starts = np.array([ends[2 * k] for k in range(part.bends)])
    stops = np.array([ends[2 * k + 1] for k in range(part.bends)])
    middle = (starts[bend] + stops[bend]) / 2.0
    beyond = np.arange(bend + 1, part.bends) if wing == 1 else np.arange(bend - 1, -1, -1)
    near = starts[beyond] - middle if wing == 1 else middle - stops[beyond]
    far = stops[beyond] - middle if wing == 1 else middle - starts[beyond]
    own = math.copysign(1.0, part.angles[bend])
    return Outward(
        near=near.astype(np.float64),
        far=far.astype(np.float64),
        turn=own * np.array(part.angles)[beyond],
        inner=np.array(part.radii)[beyond],
        bit=2 ** (beyond - bend - 1) if wing == 1 else 2**beyond,
        end=float(part.length - middle if wing == 1 else middle),
    )


def lacking(
    section: ToolSection, part: PartGeometry, settings: SearchSettings, bend: int
) -> SmallRadius | Jams | TooShallow | None:
    """Find what forbids the 0-based ``bend`` in this tooling, whatever the rest looks like."""
    stroke = stroke_of(section, part, settings, bend)
    if part.radii[bend] < section.nose_radius - 1e-9:
        return SmallRadius(had=part.radii[bend], needed=section.nose_radius)
    limit = min(jam_angle(stroke.half_opening, stroke.a), math.radians(89.0))
    if stroke.phi_end >= limit:
        return Jams(had=2.0 * limit, needed=2.0 * stroke.phi_end)
    if section.depth is not None:
        centre = arc_centre(stroke.phi_end, stroke.half_opening, stroke.a, stroke.shoulder_radius)
        low = centre - stroke.inner - stroke.thickness
        if low < settings.depth_margin - section.depth:
            return TooShallow(had=section.depth, needed=-low, angle=2.0 * stroke.phi_end)
    return None


def check_inputs(section: ToolSection, part: PartGeometry, settings: SearchSettings) -> None:
    """Refuse what the kinematics cannot take."""
    if not section.opening > 2.0 * section.shoulder_radius >= 0.0 or section.nose_radius <= 0.0:
        raise InputError(
            "tooling",
            f"opening {section.opening:g} mm with shoulder radius {section.shoulder_radius:g} mm "
            f"and nose radius {section.nose_radius:g} mm",
            "give an opening above two shoulder radii, and radii above 0",
        )
    if len(settings.springback) not in (1, part.bends):
        raise InputError(
            "settings.springback",
            f"{len(settings.springback)} figures for {part.bends} bends",
            "give one for all or one a bend",
        )


def symmetric(section: ToolSection) -> bool:
    """Whether the tooling looks the same from the left as from the right."""

    def key(piece: Piece, flip: float) -> tuple[object, ...]:
        corners = (piece.centre,) if piece.centre is not None else piece.polygon
        placed = sorted((round(flip * x, 6) + 0.0, round(y, 6)) for x, y in corners)
        return (piece.side, tuple(placed), round(piece.radius, 6), piece.contact, piece.z)

    left = sorted(repr(key(p, -1.0)) for p in section.pieces)
    return left == sorted(repr(key(p, 1.0)) for p in section.pieces)

"""What stands about the bar: pieces the order was held against, assumed ones dashed."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from attrs import frozen
from shapely import union_all
from shapely.geometry import Polygon

from strapwright.bending.bend_values import Floats
from strapwright.ordering.order_values import Piece, PieceKind
from strapwright.planning.plan_values import Plan, Step
from strapwright.scene.bar_outline import as_points
from strapwright.scene.boxes import Box
from strapwright.scene.hatching import clipped, corners_of_circle, edges, hatch
from strapwright.scene.primitives import Path, Point, Role, Shape

# These are drawn with the tooling itself, see :mod:`strapwright.drawing.tooling_shapes`.
_DRAWN_ELSEWHERE: frozenset[PieceKind] = frozenset(
    {"nose", "nose web", "push plate", "ram", "plate mount", "shoulder", "floor"}
)
_HATCH = 7.0  # px between two lines


def corners_of(piece: Piece, nose_y: float) -> Floats:
    """Corners of a piece in die coordinates with the nose's centre at ``nose_y`` [mm]."""
    corners = (
        np.array(piece.polygon, dtype=np.float64)
        if piece.centre is None
        else corners_of_circle(piece.centre, piece.radius)
    )
    lift = nose_y if piece.side == "nose" else 0.0
    placed: Floats = corners + np.array([0.0, lift])
    return placed


def others(pieces: Iterable[Piece]) -> list[Piece]:
    """Pieces that are not drawn with the tooling, each once however often along the nose."""
    seen: dict[tuple[str, object], Piece] = {}
    for piece in pieces:
        # How far out a shoulder reaches that nobody stated is not drawn with the tooling.
        if piece.kind not in _DRAWN_ELSEWHERE or (piece.assumed and piece.kind == "shoulder"):
            seen.setdefault((piece.name, piece.polygon or piece.centre), piece)
    return list(seen.values())


def assumed_bed(plan: Plan) -> float | None:
    """Height of a bed that nobody stated how far below the shoulders it is; else none [mm]."""
    tooling = plan.job.tooling
    if tooling is None or tooling.shoulders.height is not None:
        return None
    beds = [max(y for _, y in one.polygon) for one in plan.pieces if one.kind == "bed"]
    return max(beds, default=None)


def nearest_pieces(plan: Plan, step: Step) -> list[Piece]:
    """Pieces of what the bar comes nearest to, which may consist of several; none where unknown."""
    near = step.nearest
    if near is None:
        return []
    return [one for one in plan.pieces if (one.kind, one.name) == (near.kind, near.name)]


def surrounding_shapes(
    pieces: Iterable[Piece], nose_y: float, window: Box, half_width: float
) -> list[Shape]:
    """Draw what stands about.

    Parameters
    ----------
    pieces
        Of the plan.
    nose_y
        Height of the nose's centre [mm].
    window
        Nothing is drawn beyond [mm].
    half_width
        Half the width of the bars under the nose: what stands beside them along the nose is only
        outlined [mm].
    """
    shapes: list[Shape] = []
    for piece in others(pieces):
        corners = clipped(corners_of(piece, nose_y), window)
        if len(corners) < 3:
            continue
        beside = piece.z is not None and (piece.z[0] >= half_width or piece.z[1] <= -half_width)
        if not (piece.assumed or beside):
            shapes.append(Path(points=as_points(corners), role="around", closed=True))
        role: Role = "assumed" if piece.assumed else "beside" if beside else "around-edge"
        shapes.extend(edges(corners, window, role))
    return shapes


def hatched(pieces: Iterable[Piece], nose_y: float, window: Box, px: float) -> list[Shape]:
    """Hatch these pieces."""
    found = [
        Polygon(corners)
        for piece in pieces
        for corners in (clipped(corners_of(piece, nose_y), window),)
        if len(corners) >= 3
    ]
    # As one outline: what is made of several pieces, or is there twice along the nose.
    bodies = union_all(found)
    shapes: list[Shape] = []
    for body in getattr(bodies, "geoms", [bodies]):
        if isinstance(body, Polygon) and not body.is_empty:
            shapes.extend(hatch(np.array(body.exterior.coords[:-1]), _HATCH * px))
    return shapes


@frozen(kw_only=True)
class Apart:
    """Where the bar comes nearest to a piece in one picture.

    Attributes
    ----------
    on_bar, on_piece
        [mm]
    distance
        Between bar and piece [mm].
    """

    on_bar: Point
    on_piece: Point
    distance: float


def apart(line: Floats, thickness: float, pieces: Iterable[Piece], nose_y: float) -> Apart | None:
    """Find where a bar of mid-line ``line``, shape (k, 2), comes nearest to pieces [mm]."""
    best: Apart | None = None
    starts, ways = line[:-1], np.diff(line, axis=0)
    for piece in pieces:
        corners = corners_of(piece, nose_y)
        sides = np.roll(corners, -1, axis=0) - corners
        for points, other, along, bar_first in (
            (line, corners, sides, True),
            (corners, starts, ways, False),
        ):
            squared = np.maximum((along**2).sum(axis=1), 1e-12)
            share = ((points[:, None, :] - other) * along).sum(axis=2) / squared
            foot = other + np.clip(share, 0.0, 1.0)[:, :, None] * along
            gap = np.hypot(*(points[:, None, :] - foot).transpose(2, 0, 1))
            i, j = np.unravel_index(int(np.argmin(gap)), gap.shape)
            distance = float(gap[i, j]) - 0.5 * thickness
            if best is not None and distance >= best.distance:
                continue
            here, there = points[i], foot[i, j]
            mid, on = (here, there) if bar_first else (there, here)
            way = (on - mid) / max(float(gap[i, j]), 1e-12)
            skin = mid + 0.5 * thickness * way
            best = Apart(
                on_bar=(float(skin[0]), float(skin[1])),
                on_piece=(float(on[0]), float(on[1])),
                distance=distance,
            )
    return best

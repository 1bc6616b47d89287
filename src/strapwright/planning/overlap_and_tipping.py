"""Whether the pieces as stated can stand together, and whether the bar lies on the shoulders."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from itertools import combinations

from shapely import union_all
from shapely.affinity import translate
from shapely.geometry import Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.findings import (
    BendAt,
    Finding,
    KeyAt,
    Length,
    Name,
    Severity,
)
from strapwright.ordering.order_values import Piece, PieceKind, ToolSection
from strapwright.planning.plan_values import Step

# Less shared area than this is a touch in round figures, numerical [mm2].
_TOUCH = 1.0
# These meet on purpose.
_CARRIED: frozenset[PieceKind] = frozenset(
    {"nose", "nose web", "push plate", "carrier", "ram", "plate mount"}
)
# Columns stand on the bed or beside it, nobody states how.
_BED_AND_COLUMN: frozenset[PieceKind] = frozenset({"bed", "column"})
# How far shoulders, plates and columns reach along the nose nobody states; they are there where
# the bar lies; numerical [mm].
_AT_THE_BAR = (-1.0, 1.0)


def overlaps_of(section: ToolSection, steps: Sequence[Step]) -> list[Finding]:
    """Pieces that cannot stand together between touch and full stroke.

    Parameters
    ----------
    section
        What the order is held against.
    steps
        Of the job, at least one.
    """
    low = min(step.poses.stroke.nose_y for step in steps)
    high = steps[0].poses.rest.nose_y + section.daylight
    return list(overlap_findings(section.pieces, low, high))


def overlap_findings(pieces: Iterable[Piece], low: float, high: float) -> list[Finding]:
    """Pieces that stand in each other as stated; what was assumed gives way and is left out.

    Parameters
    ----------
    pieces
        What the order is held against.
    low, high
        Height of the nose's centre at the deepest stroke of the job and where the bar is laid in,
        in die coordinates [mm].

    Returns
    -------
    list of Finding
        ``pieces-overlap`` for two pieces of one half, ``halves-collide`` for two of different
        halves anywhere on the way; each pair of names once.
    """
    found: dict[frozenset[str], Finding] = {}
    stated = [one for one in pieces if not one.assumed or one.kind == "column"]
    for one, other in combinations(stated, 2):
        names = frozenset((one.name, other.name))
        if len(names) == 1 or names in found or not _side_by_side(one, other):
            continue
        if one.side == other.side:
            kinds = {one.kind, other.kind}
            if kinds <= _CARRIED or kinds == _BED_AND_COLUMN:
                continue
            if _swept(one, 0.0, 0.0).intersection(_swept(other, 0.0, 0.0)).area > _TOUCH:
                found[names] = _same_half(one, other)
            continue
        nose, still = (one, other) if one.side == "nose" else (other, one)
        if _meant(nose, still):
            continue
        if _swept(nose, low, high).intersection(_swept(still, 0.0, 0.0)).area > _TOUCH:
            found[names] = _on_the_way(nose, still)
    return list(found.values())


def _side_by_side(one: Piece, other: Piece) -> bool:
    """Whether both are found at some place along the nose."""
    (a, b), (c, d) = one.z or _AT_THE_BAR, other.z or _AT_THE_BAR
    return min(b, d) > max(a, c)


def _meant(nose: Piece, still: Piece) -> bool:
    """Pairs of the two halves that guide each other, or that another finding speaks of."""
    plate = nose.kind == "push plate" and still.kind in ("guide rod", "shoulder")
    return plate or still.kind == "floor"


@lru_cache(maxsize=256)
def _swept(piece: Piece, low: float, high: float) -> BaseGeometry:
    """Region that a convex piece passes through while it is lifted from ``low`` to ``high``."""
    shape = (
        Polygon(piece.polygon) if piece.centre is None else Point(piece.centre).buffer(piece.radius)
    )
    ends = [translate(shape, 0.0, low), translate(shape, 0.0, high)]
    return union_all(ends).convex_hull


def _same_half(one: Piece, other: Piece) -> Finding:
    return Finding(
        code="pieces-overlap",
        severity=Severity.REFUSAL,
        about=(KeyAt("tooling"),),
        facts={"one": Name(one.name), "other": Name(other.name)},
    )


def _on_the_way(nose: Piece, still: Piece) -> Finding:
    return Finding(
        code="halves-collide",
        severity=Severity.REFUSAL,
        about=(KeyAt("tooling"),),
        facts={"moving": Name(nose.name), "still": Name(still.name)},
    )


def tipping_findings(steps: Sequence[Step]) -> list[Finding]:
    """Bends for which the bar, laid on the shoulders, tips before the nose touches it.

    The bar stands while its centre of gravity lies between the tops of the shoulders.
    """
    tips = {
        step.bend: step.hold.weight
        for step in steps
        if step.hold.carried_by == "shoulders" and step.hold.tips and step.hold.weight is not None
    }
    if not tips:
        return []
    worst = max(tips, key=lambda bend: abs(tips[bend]))
    return [
        Finding(
            code="tips-before-touch",
            severity=Severity.NOTE,
            about=tuple(BendAt(bend) for bend in sorted(tips)),
            facts={"off": Length(tips[worst]), "half": Length(steps[0].hold.support)},
        )
    ]

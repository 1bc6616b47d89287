"""Shoulders, floor, bed and columns as pieces, and what is assumed of them.

What nobody states is taken to the cautious side: shoulders no higher than the bends need, a bed
under them that goes on past the bar, blocks that reach further out than the rounds.  The figures
are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve

from strapwright.ordering.order_values import Piece
from strapwright.planning.surroundings.assumptions import Assumption
from strapwright.shop.press import Press
from strapwright.shop.tooling import Shoulders

# What nobody states, in round figures: common practice, no source.
SHOULDER_OUT = 25.0  # mm a shoulder reaches past its round, where its outer edge is not stated
LYING = 2.0  # mm an assumed block stays below the tops, lest bar lying flat on it count as a hit
UNDER_BEND = 10.0  # mm between the deepest bend and an assumed bed
BED_HALF = 1500.0  # mm an assumed bed reaches out to each side
BED_THICKNESS = 40.0  # mm
FLOOR_THICKNESS = 10.0  # mm
COLUMN_WIDTH = 60.0  # mm
COLUMN_ALONG = 200.0  # mm along the nose
COLUMN_RUN = 2000.0  # mm up and down
_LEAST = 0.1  # mm: what is thinner is no piece


def box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    """Corners of a box [mm]."""
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def shoulder_height(shoulders: Shoulders, deepest: float) -> float:
    """From the bed to the shoulder tops, as stated or as low as the bends allow [mm].

    Parameters
    ----------
    deepest
        How far below the tops the deepest bend reaches [mm].
    """
    if shoulders.height is not None:
        return shoulders.height
    plate = FLOOR_THICKNESS if shoulders.floor != "open" else 0.0
    least = shoulders.opening if shoulders.depth is None else shoulders.depth + plate
    return max(least, deepest + UNDER_BEND)


def die_pieces(
    shoulders: Shoulders, press: Press | None, height: float, assumed: list[Assumption]
) -> list[Piece]:
    """Return all that stands on the side of the shoulders, but rods and obstacles.

    Parameters
    ----------
    height
        From :func:`shoulder_height` [mm].
    assumed
        Gets one clause for everything that is assumed.
    """
    if shoulders.height is None:
        assumed.append(Assumption(what="shoulder height", size=height))
    if shoulders.outer_edge is None:
        assumed.append(Assumption(what="outer edge", size=SHOULDER_OUT))
    if shoulders.length is None:
        assumed.append(Assumption(what="shoulder length"))
    foot = min(-height, -shoulders.radius - 1.0)
    z = None if shoulders.length is None else (-0.5 * shoulders.length, 0.5 * shoulders.length)
    rounds = (evolve(p, z=z) for p in _shoulder_pieces(shoulders, foot))
    return [
        *rounds,
        *_floor(shoulders, foot),
        _bed(press, height, assumed, stated=shoulders.height is not None),
        *_columns(press, assumed),
    ]


def _shoulder_pieces(shoulders: Shoulders, foot: float) -> Iterator[Piece]:
    r, half = shoulders.radius, 0.5 * shoulders.opening
    stated = shoulders.outer_edge
    for sign, name in ((-1.0, "left shoulder"), (1.0, "right shoulder")):
        yield Piece(
            name=name,
            kind="shoulder",
            side="shoulders",
            centre=(sign * half, -r),
            radius=r,
            contact=True,
            body=name,
        )
        ends = sorted((sign * (half - r), sign * max(half + r, stated or 0.0)))
        yield Piece(
            name=name,
            kind="shoulder",
            side="shoulders",
            polygon=box(ends[0], foot, ends[1], -r),
            contact=True,
            body=name,
        )
        # A block: flat from the round to its outer edge.
        outer = half + r + SHOULDER_OUT if stated is None else stated
        if outer > half + 1e-6:
            flat = sorted((sign * half, sign * outer))
            low, high = (foot, -LYING) if stated is None else (-r, 0.0)
            yield Piece(
                name=f"{name} block" if stated is None else name,
                kind="shoulder",
                side="shoulders",
                polygon=box(flat[0], low, flat[1], high),
                contact=True,
                body=name,
                assumed=stated is None,
            )


def _floor(shoulders: Shoulders, foot: float) -> list[Piece]:
    """The floor between the shoulders; one that lies on the bed is the bed."""
    if shoulders.floor == "open" or shoulders.depth is None:
        return []
    inner, low = 0.5 * shoulders.opening - shoulders.radius, -shoulders.depth
    under = max(low - FLOOR_THICKNESS, foot)
    pieces = _channel_walls(shoulders, inner, low)
    if low - under > _LEAST:
        plate = box(-inner, under, inner, low)
        pieces.append(
            Piece(name="floor", kind="floor", side="shoulders", polygon=plate, body="floor")
        )
    return pieces


def _channel_walls(shoulders: Shoulders, inner: float, low: float) -> list[Piece]:
    """Walls of a channel narrower than the gap; ``low`` is its floor [mm]."""
    width, walls = shoulders.channel_width, shoulders.channel_walls
    if width is None or walls is None:
        return []
    return [
        Piece(
            name="wall of the channel",
            kind="channel wall",
            side="shoulders",
            polygon=box(*ends, low + walls),
            body="floor",
        )
        for ends in ((-inner, low, -0.5 * width), (0.5 * width, low, inner))
    ]


def _bed(press: Press | None, height: float, assumed: list[Assumption], *, stated: bool) -> Piece:
    wide = None if press is None else press.bed_width
    if wide is None:
        assumed.append(Assumption(what="bed width"))
    half = BED_HALF if wide is None else 0.5 * wide
    return Piece(
        name="bed",
        kind="bed",
        side="shoulders",
        polygon=box(-half, -height - BED_THICKNESS, half, -height),
        assumed=wide is None or not stated,
    )


def _columns(press: Press | None, assumed: list[Assumption]) -> list[Piece]:
    if press is None or press.columns_apart is None:
        return []
    if press.column_width is None:
        assumed.append(Assumption(what="column width", size=COLUMN_WIDTH))
    if press.column_length is None:
        assumed.append(Assumption(what="column length", size=COLUMN_ALONG))
    along = 0.5 * (press.column_length or COLUMN_ALONG)
    near = 0.5 * press.columns_apart
    far = near + (press.column_width or COLUMN_WIDTH)
    return [
        Piece(
            name=f"{name} column",
            kind="column",
            side="shoulders",
            polygon=box(
                min(sign * near, sign * far),
                -COLUMN_RUN,
                max(sign * near, sign * far),
                COLUMN_RUN,
            ),
            z=(-along, along),
            assumed=press.column_width is None or press.column_length is None,
        )
        for sign, name in ((-1.0, "left"), (1.0, "right"))
    ]

"""The tooling and what stands about it as pieces that the bar could run into.

What the job does not state is assumed, in round figures (common practice, no source); every
assumption is a value, so that the plan can say it and the drawing can show it.
"""

from __future__ import annotations

import math
from typing import Literal

from attrs import frozen

from strapwright.findings import Fact
from strapwright.ordering.order_values import Piece, ToolSection
from strapwright.shop.job import Job
from strapwright.shop.press import BED_WIDTH, DAYLIGHT, Press
from strapwright.shop.tooling import Nose, Obstacle, Shoulders, Tooling

# What nobody states, in round figures: common practice, no source.
PLATE_SHARE = 2.0  # width of the push plate over the opening, at least
PLATE_LEAST = 100.0  # mm
PLATE_THICKNESS = 20.0  # mm
SIDE_ROOM = 12.0  # mm between the bar and what carries the nose, each side
CARRIER_ALONG = 20.0  # mm
CARRIER_ROUND = 1.6  # half width of a carrier over the nose radius
BED_THICKNESS = 40.0  # mm
FLOOR_THICKNESS = 10.0  # mm
COLUMN_WIDTH = 60.0  # mm
ROD_RUN = 400.0  # mm a guide rod reaches up and down
RAM_LEAST = 25.0  # mm a ram is wide, where no rod is stated
RAM_RUN = 600.0  # mm it goes on above the push plate


@frozen(kw_only=True)
class Assumption(Fact):
    """One size that nobody stated.

    Attributes
    ----------
    what
        ``web length``: of nose and web.  ``clear span``: of the nose between what carries it.
        ``no plate``: the reach of the nose is not stated, so no push plate is in the way.
        ``plate width``: of the push plate across the bar.  ``daylight``: of the nose above the
        bar when that is laid in.
    size
        [mm]; 0 for ``no plate``.
    """

    what: Literal["web length", "clear span", "no plate", "plate width", "daylight"]
    size: float = 0.0


@frozen(kw_only=True)
class Surroundings:
    """Everything the bar could run into.

    Attributes
    ----------
    section
        Opening, radii and pieces.
    along
        Where the bar lies along the nose [mm].
    assumed
        What was assumed; empty where everything is stated.
    """

    section: ToolSection
    along: tuple[float, float]
    assumed: tuple[Assumption, ...]


def surroundings(job: Job, tooling: Tooling, width: float) -> Surroundings:
    """Return the pieces of a job's tooling and press.

    Parameters
    ----------
    width
        Of all bars that lie under the nose together [mm].
    """
    assumed: list[Assumption] = []
    half = 0.5 * width
    nose, shoulders = tooling.nose, tooling.shoulders
    span = nose.span
    if span is None:
        span = width + 2.0 * SIDE_ROOM
        assumed.append(
            Assumption(what="web length" if nose.held == "web" else "clear span", size=span)
        )
    pieces = [
        *_nose_pieces(tooling, span, assumed),
        *_ram(tooling, job.press),
        *_shoulder_pieces(shoulders),
        *_bed(shoulders, job.press),
        *_columns(job.press),
        *_rods(tooling),
        *(_obstacle(one) for one in tooling.obstacles),
    ]
    daylight = None if job.press is None else job.press.daylight
    if daylight is None:
        daylight = DAYLIGHT
        assumed.append(Assumption(what="daylight", size=daylight))
    section = ToolSection(
        opening=shoulders.opening,
        shoulder_radius=shoulders.radius,
        nose_radius=nose.radius,
        pieces=tuple(pieces),
        depth=shoulders.depth,
        daylight=daylight,
    )
    return Surroundings(section=section, along=(-half, half), assumed=tuple(assumed))


def _nose_pieces(tooling: Tooling, span: float, assumed: list[Assumption]) -> list[Piece]:
    nose = tooling.nose
    between = (-0.5 * span, 0.5 * span)
    pieces = [
        # The shaft itself runs through what carries it.
        Piece(
            name="nose",
            kind="nose",
            side="nose",
            centre=(0.0, 0.0),
            radius=nose.radius,
            z=_reach_along(nose, span),
            contact=True,
            # A shaft that carries itself between its carriers is pushed in from the side.
            drawn=nose.drawable and nose.web_thickness is None,
            body="nose",
        )
    ]
    plate = None if nose.reach is None else nose.reach - nose.radius
    top = plate if plate is not None else nose.radius + (nose.web_height or 0.0)
    if nose.web_thickness is not None and top > nose.radius:
        w = 0.5 * nose.web_thickness
        # What of it lies within the nose is nose; a distance to that would say nothing.
        foot = 0.99 * math.sqrt(max(nose.radius**2 - w * w, 0.0))
        pieces.append(
            Piece(
                name="web of the nose",
                kind="nose web",
                side="nose",
                polygon=_box(-w, foot, w, top),
                z=between,
                body="nose",
                assumed=nose.reach is None and nose.web_height is None,
            )
        )
    if plate is None:
        assumed.append(Assumption(what="no plate"))
        return pieces
    half_width = 0.5 * (tooling.plate_width or 0.0)
    if tooling.plate_width is None:
        half_width = 0.5 * max(PLATE_SHARE * tooling.shoulders.opening, PLATE_LEAST)
        assumed.append(Assumption(what="plate width", size=2.0 * half_width))
    thick = tooling.plate_thickness or PLATE_THICKNESS
    pieces.append(
        Piece(
            name="push plate",
            kind="push plate",
            side="nose",
            polygon=_box(-half_width, plate, half_width, plate + thick),
            body="push plate",
            assumed=tooling.plate_width is None,
        )
    )
    if nose.held == "web":
        return pieces
    r = CARRIER_ROUND * nose.radius
    places = [(0.5 * span, 0.5 * span + CARRIER_ALONG)]
    if nose.held == "both ends":
        places.append((-0.5 * span - CARRIER_ALONG, -0.5 * span))
    pieces += [
        Piece(
            name="carrier of the nose",
            kind="carrier",
            side="nose",
            polygon=_box(-r, -nose.radius, r, plate),
            z=place,
            body="push plate",
            assumed=True,  # how stout it is nobody states
        )
        for place in places
    ]
    return pieces


def _ram(tooling: Tooling, press: Press | None) -> list[Piece]:
    """What the push plate hangs on: a bar that closes above the plate is locked on by it."""
    nose = tooling.nose
    if nose.reach is None:
        return []
    rod = None if press is None else press.rod
    half = 0.5 * (rod or RAM_LEAST)
    rides = tooling.ram_side == "nose"
    top = nose.reach - nose.radius + (tooling.plate_thickness or PLATE_THICKNESS)
    return [
        Piece(
            name="ram" if rides else "mount of the push plate",
            kind="ram" if rides else "plate mount",
            side="nose",
            polygon=_box(-half, top, half, top + RAM_RUN),
            body="push plate",
            assumed=rod is None,
        )
    ]


def _reach_along(nose: Nose, span: float) -> tuple[float, float]:
    if nose.held == "web":
        return (-0.5 * span, 0.5 * span)
    far = 0.5 * span + CARRIER_ALONG
    return (-far, far) if nose.held == "both ends" else (-0.5 * span, far)


def _shoulder_pieces(shoulders: Shoulders) -> list[Piece]:
    r, half = shoulders.radius, 0.5 * shoulders.opening
    inner = half - r
    outer = shoulders.outer_edge or half + r
    foot = -(shoulders.height or (shoulders.depth or shoulders.opening) + FLOOR_THICKNESS)
    foot = min(foot, -r - 1.0)
    pieces: list[Piece] = []
    for sign, name in ((-1.0, "left shoulder"), (1.0, "right shoulder")):
        pieces.append(
            Piece(
                name=name,
                kind="shoulder",
                side="shoulders",
                centre=(sign * half, -r),
                radius=r,
                contact=True,
                body=name,
            )
        )
        ends = sorted((sign * inner, sign * (max(half + r, outer))))
        pieces.append(
            Piece(
                name=name,
                kind="shoulder",
                side="shoulders",
                polygon=_box(ends[0], foot, ends[1], -r),
                contact=True,
                body=name,
            )
        )
        if outer > half + 1e-6 and shoulders.outer_edge is not None:
            # A block: flat from the round to its outer edge.
            flat = sorted((sign * half, sign * outer))
            pieces.append(
                Piece(
                    name=name,
                    kind="shoulder",
                    side="shoulders",
                    polygon=_box(flat[0], -r, flat[1], 0.0),
                    contact=True,
                    body=name,
                )
            )
    if shoulders.floor != "open" and shoulders.depth is not None:
        low = -shoulders.depth
        pieces.append(
            Piece(
                name="floor",
                kind="floor",
                side="shoulders",
                polygon=_box(-inner, low - FLOOR_THICKNESS, inner, low),
                body="floor",
            )
        )
        pieces += _channel_walls(shoulders, inner, low)
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
            polygon=_box(*ends, low + walls),
            body="floor",
        )
        for ends in ((-inner, low, -0.5 * width), (0.5 * width, low, inner))
    ]


def _bed(shoulders: Shoulders, press: Press | None) -> list[Piece]:
    if shoulders.height is None:
        return []
    foot = -shoulders.height
    stated = None if press is None else press.bed_width
    half = 0.5 * (stated or BED_WIDTH)
    return [
        Piece(
            name="bed",
            kind="bed",
            side="shoulders",
            polygon=_box(-half, foot - BED_THICKNESS, half, foot),
            assumed=stated is None,
        )
    ]


def _columns(press: Press | None) -> list[Piece]:
    if press is None or press.columns_apart is None:
        return []
    near = 0.5 * press.columns_apart
    far = near + (press.column_width or COLUMN_WIDTH)
    return [
        Piece(
            name=f"{name} column",
            kind="column",
            side="shoulders",
            polygon=_box(
                min(sign * near, sign * far), -1000.0, max(sign * near, sign * far), 1000.0
            ),
            assumed=press.column_width is None,
        )
        for sign, name in ((-1.0, "left"), (1.0, "right"))
    ]


def _rods(tooling: Tooling) -> list[Piece]:
    pieces = []
    for rod in tooling.rods:
        r = 0.5 * rod.diameter
        for sign, name in ((-1.0, "left"), (1.0, "right")):
            x = sign * rod.out
            pieces.append(
                Piece(
                    name=f"{name} guide rod",
                    kind="guide rod",
                    side="shoulders",
                    polygon=_box(x - r, -ROD_RUN, x + r, ROD_RUN),
                    z=(rod.along - r, rod.along + r),
                )
            )
    return pieces


def _obstacle(one: Obstacle) -> Piece:
    return Piece(name=one.name, kind="obstacle", side=one.side, polygon=_box(*one.box), z=one.along)


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))

"""The tooling and what stands about it as pieces that the bar could run into.

What the job does not state is assumed, in round figures (common practice, no source); every
assumption is a value, so that the plan can say it and the drawing can show it.
"""

from __future__ import annotations

import math

from attrs import frozen

from strapwright.ordering.order_values import Piece, ToolSection
from strapwright.planning.surroundings.assumptions import Assumption
from strapwright.planning.surroundings.die_pieces import box, die_pieces, shoulder_height
from strapwright.shop.job import Job
from strapwright.shop.press import DAYLIGHT, Press
from strapwright.shop.tooling import Nose, Obstacle, Tooling

# What nobody states, in round figures: common practice, no source.
PLATE_SHARE = 2.0  # width of the push plate over the opening, at least
PLATE_LEAST = 100.0  # mm
PLATE_THICKNESS = 20.0  # mm
SIDE_ROOM = 12.0  # mm between the bar and what carries the nose, each side
CARRIER_ALONG = 20.0  # mm
CARRIER_ROUND = 1.6  # half width of a carrier over the nose radius
ROD_RUN = 2000.0  # mm a guide rod reaches up and down
CARRIER_RUN = 600.0  # mm what carries a nose goes up, where no plate is stated
RAM_LEAST = 25.0  # mm a ram is wide, where no rod is stated
RAM_RUN = 600.0  # mm it goes on above the push plate


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


def surroundings(job: Job, tooling: Tooling, width: float, deepest: float = 0.0) -> Surroundings:
    """Return the pieces of a job's tooling and press.

    Parameters
    ----------
    width
        Of all bars that lie under the nose together [mm].
    deepest
        How far below the shoulder tops the deepest bend reaches [mm].
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
    height = shoulder_height(shoulders, deepest)
    pieces = [
        *_nose_pieces(tooling, span, assumed),
        *_ram(tooling, job.press, assumed),
        *die_pieces(shoulders, job.press, height, assumed),
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
        bed=-height,
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
                polygon=box(-w, foot, w, top),
                z=between,
                body="nose",
                assumed=nose.reach is None and nose.web_height is None,
            )
        )
    if plate is None:
        assumed.append(Assumption(what="no plate"))
        return pieces + _carriers(nose, span, nose.radius + CARRIER_RUN)
    half_width = 0.5 * (tooling.plate_width or 0.0)
    if tooling.plate_width is None:
        half_width = 0.5 * max(PLATE_SHARE * tooling.shoulders.opening, PLATE_LEAST)
        assumed.append(Assumption(what="plate width", size=2.0 * half_width))
    length = tooling.plate_length
    if length is None:
        assumed.append(Assumption(what="plate length"))
    thick = tooling.plate_thickness or PLATE_THICKNESS
    pieces.append(
        Piece(
            name="push plate",
            kind="push plate",
            side="nose",
            polygon=box(-half_width, plate, half_width, plate + thick),
            z=None if length is None else (-0.5 * length, 0.5 * length),
            body="push plate",
            assumed=tooling.plate_width is None,
        )
    )
    return pieces + _carriers(nose, span, plate)


def _carriers(nose: Nose, span: float, top: float) -> list[Piece]:
    """What carries the nose at its ends, up to ``top`` [mm]."""
    if nose.held == "web":
        return []
    r = CARRIER_ROUND * nose.radius
    places = [(0.5 * span, 0.5 * span + CARRIER_ALONG)]
    if nose.held == "both ends":
        places.append((-0.5 * span - CARRIER_ALONG, -0.5 * span))
    return [
        Piece(
            name="carrier of the nose",
            kind="carrier",
            side="nose",
            polygon=box(-r, -nose.radius, r, top),
            z=place,
            body="push plate",
            assumed=True,  # how stout it is nobody states
        )
        for place in places
    ]


def _ram(tooling: Tooling, press: Press | None, assumed: list[Assumption]) -> list[Piece]:
    """What the push plate hangs on: a bar that closes above the plate is locked on by it."""
    nose = tooling.nose
    if nose.reach is None:
        return []
    rod = None if press is None else press.rod
    half = 0.5 * (rod or RAM_LEAST)
    if rod is None:
        assumed.append(Assumption(what="ram width", size=RAM_LEAST))
    top = nose.reach - nose.radius + (tooling.plate_thickness or PLATE_THICKNESS)
    return [
        Piece(
            name="ram" if tooling.ram_side == "nose" else "mount of the push plate",
            kind="ram" if tooling.ram_side == "nose" else "plate mount",
            side="nose",
            polygon=box(-half, top, half, top + RAM_RUN),
            # The rod of a ram is round; what a plate of no stated length hangs on may be as long.
            z=(-half, half) if rod is not None and tooling.plate_length is not None else None,
            body="push plate",
            assumed=rod is None,
        )
    ]


def _reach_along(nose: Nose, span: float) -> tuple[float, float]:
    if nose.held == "web":
        return (-0.5 * span, 0.5 * span)
    far = 0.5 * span + CARRIER_ALONG
    return (-far, far) if nose.held == "both ends" else (-0.5 * span, far)


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
                    polygon=box(x - r, -ROD_RUN, x + r, ROD_RUN),
                    z=(rod.along - r, rod.along + r),
                )
            )
    return pieces


def _obstacle(one: Obstacle) -> Piece:
    return Piece(name=one.name, kind="obstacle", side=one.side, polygon=box(*one.box), z=one.along)

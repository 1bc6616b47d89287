"""Referee for bend orders: whole-part poses in shapely, and a walk through all orders.

Nothing is shared with the compiled loops but the values: poses come from laying the bar out from
the middle of the bend, distances from polygons.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise

import numpy as np
import shapely
from attrs import evolve
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from strapwright.ordering.order_values import PartGeometry, Piece, SearchSettings, ToolSection

Step = tuple[int, int, int]  # made, 0-based bend, 0 where end 1 points left


def tooling(extra: tuple[Piece, ...] = (), **changes: float) -> ToolSection:
    """A small tooling of our own: 63 mm opening, 19 mm nose on a web, walls, floor and bed [mm]."""

    def box(
        name: str, side: str, x0: float, y0: float, x1: float, y1: float, **more: bool
    ) -> Piece:
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        return Piece(name=name, side=side, polygon=corners, **more)

    pieces = (
        Piece(name="nose", side="nose", centre=(0.0, 0.0), radius=9.5, contact=True),
        box("web", "nose", -6.0, 0.0, 6.0, 170.0),
        box("plate", "nose", -38.0, 170.0, 38.0, 195.0),
        Piece(
            name="left shoulder", side="shoulders", centre=(-31.5, -6.0), radius=6.0, contact=True
        ),
        Piece(
            name="right shoulder", side="shoulders", centre=(31.5, -6.0), radius=6.0, contact=True
        ),
        box("left wall", "shoulders", -44.0, -70.0, -25.5, -6.0, contact=True),
        box("right wall", "shoulders", 25.5, -70.0, 44.0, -6.0, contact=True),
        box("floor", "shoulders", -32.0, -82.0, 32.0, -70.0),
        box("riser", "shoulders", -44.0, -300.0, 44.0, -82.0),
        box("bed", "shoulders", -300.0, -400.0, 300.0, -300.0),
    )
    section = ToolSection(
        opening=63.0,
        shoulder_radius=6.0,
        nose_radius=9.5,
        depth=70.0,
        daylight=150.0,
        pieces=(*pieces, *extra),
    )
    return evolve(section, **changes)


def random_part(rng: np.random.Generator, bends: int) -> PartGeometry:
    """Legs and bends as they come in a shop, short enough for many refusals [mm, rad]."""
    angles = rng.choice([30, 45, 60, 90, 110], bends) * rng.choice([-1, 1], bends)
    return PartGeometry(
        straights=tuple(float(v) for v in rng.choice([40, 45, 50, 60, 70, 90], bends + 1)),
        angles=tuple(math.radians(float(a)) for a in angles),
        radii=tuple(float(v) for v in rng.choice([9.5, 9.5, 12.0, 15.0], bends)),
        thickness=5.0,
    )


SETTINGS = SearchSettings(springback=(math.radians(2.0),))


class Referee:
    """Distances of one part in one tooling by dense sampling."""

    def __init__(self, section: ToolSection, part: PartGeometry, settings: SearchSettings) -> None:
        self.section = section
        self.part = part
        self.settings = settings

    def _wing(self, step: Step, phi: float, *, right: bool) -> tuple[BaseGeometry, BaseGeometry]:
        """Arc with first run, and all beyond it, in arc-centre coordinates."""
        made, bend, end = step
        part = self.part
        towards_end_2 = right == (end == 0)
        order = range(bend + 1, part.bends) if towards_end_2 else range(bend - 1, -1, -1)
        legs = part.straights[bend + 1 :] if towards_end_2 else part.straights[bend::-1]
        own = part.angles[bend]
        rho = part.radii[bend] + part.thickness / 2.0
        flip = 1.0 if right else -1.0
        x, y, heading = rho * math.sin(phi), -rho * math.cos(phi), phi
        first = Band(part.thickness)
        first.arc((0.0, 0.0), rho, -math.pi / 2.0, phi - math.pi / 2.0)
        beyond = Band(part.thickness)
        run = rho * abs(own) / 2.0 - rho * phi
        band = first
        for leg, other in zip(legs, [*order, None], strict=True):
            run += leg
            if other is not None and not made >> other & 1:
                run += part.allowances[other]
                continue
            nx, ny = x + run * math.cos(heading), y + run * math.sin(heading)
            band.line(x, y, nx, ny)
            x, y, run = nx, ny, 0.0
            if other is None:
                break
            band = beyond
            turn = part.angles[other] * math.copysign(1.0, own)
            side = math.copysign(1.0, turn)
            r = part.radii[other] + part.thickness / 2.0
            cx, cy = x - side * r * math.sin(heading), y + side * r * math.cos(heading)
            start = heading - side * math.pi / 2.0
            beyond.arc((cx, cy), r, start, start + turn)
            heading += turn
            x, y = cx + side * r * math.sin(heading), cy - side * r * math.cos(heading)
        return tuple(
            shapely.affinity.scale(b.shape(), flip, 1.0, origin=(0.0, 0.0)) for b in (first, beyond)
        )

    def distance(self, step: Step, poses: int = 45) -> float:
        """Smallest distance from the tooling over rest, closing and stroke, at sampled poses."""
        part, section = self.part, self.section
        bend = step[1]
        a = part.radii[bend] + part.thickness + section.shoulder_radius
        end = (abs(part.angles[bend]) + self.settings.overbend(bend)) / 2.0
        best = math.inf
        for k, phi in enumerate(np.linspace(0.0, end, poses)):
            lift = -section.shoulder_radius + (
                a - section.opening / 2.0 * math.sin(phi)
            ) / math.cos(phi)
            first, beyond = zip(
                *(self._wing(step, float(phi), right=r) for r in (False, True)), strict=True
            )
            drop = section.nose_radius - part.radii[bend]
            heights = np.linspace(0.0, section.daylight, 80) if k == 0 else [0.0]
            for piece in section.pieces:
                shifts = [drop + h for h in heights] if piece.side == "nose" else [-lift]
                held = [*beyond] if piece.contact else [*beyond, *first]
                for shift in shifts:
                    shape = shapely.affinity.translate(shape_of(piece), 0.0, float(shift))
                    best = min([best, *(shape.distance(h) for h in held if not h.is_empty)])
        return best


class Band:
    """Collects the bar's straights and arcs as a region."""

    def __init__(self, thickness: float) -> None:
        self.half = thickness / 2.0
        self.parts: list[BaseGeometry] = []

    def line(self, x: float, y: float, nx: float, ny: float) -> None:
        self.parts.append(LineString([(x, y), (nx, ny)]).buffer(self.half, cap_style="flat"))

    def arc(self, centre: tuple[float, float], r: float, start: float, stop: float) -> None:
        if start == stop:
            return
        at = np.linspace(start, stop, 40)
        ring = [
            (centre[0] + radius * math.cos(v), centre[1] + radius * math.sin(v))
            for radius, angles in ((r - self.half, at), (r + self.half, at[::-1]))
            for v in angles
        ]
        self.parts.append(Polygon(ring))

    def shape(self) -> BaseGeometry:
        return shapely.union_all(self.parts)


def shape_of(piece: Piece) -> BaseGeometry:
    """A piece as shapely sees it."""
    if piece.centre is not None:
        return Point(piece.centre).buffer(piece.radius, quad_segs=32)
    return Polygon(piece.polygon)


def cheapest(
    part: PartGeometry,
    settings: SearchSettings,
    allowed: Callable[[Step], bool],
    reach: Callable[[Step], float],
) -> int | None:
    """Walk through all orders and ends; return the least cost or None."""
    n = part.bends
    costs = settings.costs
    known: dict[Step, bool] = {}
    best: int | None = None

    def price(before: Step, after: Step) -> int:
        flip = part.angles[before[1]] * part.angles[after[1]] < 0.0
        stop = abs(reach(before) - reach(after)) > settings.stop_tolerance
        return costs.flip * flip + costs.swap * (before[2] != after[2]) + costs.stop * stop

    def walk(done: tuple[Step, ...]) -> None:
        nonlocal best
        total = costs.stop + sum(price(a, b) for a, b in pairwise(done))
        if best is not None and total >= best:
            return  # no step costs less than nothing
        if len(done) == n:
            best = total
            return
        made = sum(1 << step[1] for step in done)
        for bend in range(n):
            for end in (0, 1):
                step = (made, bend, end)
                if made >> bend & 1:
                    continue
                if step not in known:
                    known[step] = allowed(step)
                if known[step]:
                    walk((*done, step))

    walk(())
    return best

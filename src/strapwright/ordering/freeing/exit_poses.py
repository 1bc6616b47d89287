"""The way out as poses of the part."""

from __future__ import annotations

import math

from shapely.geometry import Point, Polygon

from strapwright.errors import SolverError
from strapwright.ordering.freeing.exit_routes import Graph, Route
from strapwright.ordering.freeing.paths_round_corners import Spot, far_spots, path
from strapwright.ordering.freeing.pieces_along_nose import Layer
from strapwright.ordering.order_results import FreeingPose
from strapwright.ordering.time_given import KeepGoing


def poses(
    layers: tuple[Layer, ...],
    graph: Graph,
    route: Route,
    start: Spot,
    unturned: tuple[Polygon, ...],
    opened: Spot = (0.0, 0.0),
) -> tuple[FreeingPose, ...]:
    """Poses from the nose to free, displacements of the nose's centre as the part sees it.

    ``start`` is clear of the nose within one of the ``unturned`` regions, from which the first
    region of the route is entered.  ``opened`` is where the part lies once the halves are open.
    """
    found = [_pose(graph, 0.0, (0.0, 0.0), 0.0)]
    if opened != (0.0, 0.0):
        found.append(_pose(graph, 0.0, opened, 0.0))
    z = layers[route.nodes[0].layer].shift(0.0)
    turned = 0
    count = graph.slices.slab.count
    asked = graph.slices.keep_going
    lead = _lead(graph.region(route.nodes[0]).outline, start, unturned, asked)
    here = lead[-1]

    def move(way: list[Spot]) -> None:
        found.extend(_pose(graph, graph.slices.angle(1) * turned, spot, z) for spot in way)

    move(lead)
    for k, node in enumerate(route.nodes):
        outline = graph.region(node).outline
        if k + 1 == len(route.nodes):
            if graph.region(node).open and layers[node.layer].pieces:
                move(path(outline, here, far_spots(outline, here, graph.slices.box), asked)[1:])
            return tuple(found)
        after = route.nodes[k + 1]
        move(path(outline, here, [route.points[k]], asked)[1:])
        here = route.points[k]
        if after.layer != node.layer:
            z = layers[after.layer].shift(z)
        elif count:
            step = (after.index - node.index) % count
            turned += step if step < count / 2 else step - count
        move([here])
    return tuple(found)


def _lead(
    first: Polygon, start: Spot, unturned: tuple[Polygon, ...], keep_going: KeepGoing
) -> list[Spot]:
    """Way from the start into the first region of the route."""
    if first.covers(Point(start)):
        return [start]
    for outline in unturned:
        shared = outline.intersection(first)
        if shared.area > 0.0:
            inside = shared.representative_point()
            return path(outline, start, [(float(inside.x), float(inside.y))], keep_going)
    raise SolverError("the route does not begin where the part lies clear of the nose")


def _pose(graph: Graph, theta: float, point: Spot, z: float) -> FreeingPose:
    """From the displacement of the reference point to that of the nose's centre."""
    rx, ry = graph.slices.reference
    c, s = math.cos(theta), math.sin(theta)
    return FreeingPose(
        x=point[0] + rx - c * rx + s * ry,
        y=point[1] + ry - s * rx - c * ry,
        z=z,
        theta=theta,
    )

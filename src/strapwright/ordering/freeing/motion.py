"""The way out as poses of the part."""

from __future__ import annotations

import math

from strapwright.ordering.freeing.layers import Layer
from strapwright.ordering.freeing.routes import Graph, Route
from strapwright.ordering.results import FreeingPose


def poses(
    layers: tuple[Layer, ...],
    graph: Graph,
    route: Route,
    start: tuple[float, float],
) -> tuple[FreeingPose, ...]:
    """Poses from the nose to free, displacements of the nose's centre as the part sees it."""
    found = [FreeingPose(x=0.0, y=0.0, z=0.0, theta=0.0)]
    z = layers[route.nodes[0].layer].shift(0.0)
    found.append(_pose(graph, 0.0, start, z))
    turned = 0
    count = graph.slices.slab.count
    for before, node, point in zip(route.nodes, route.nodes[1:], route.points, strict=False):
        angle = graph.slices.angle(1) * turned
        found.append(_pose(graph, angle, point, z))
        if node.layer != before.layer:
            z = layers[node.layer].shift(z)
        elif count:
            step = (node.index - before.index) % count
            turned += step if step < count / 2 else step - count
        found.append(_pose(graph, graph.slices.angle(1) * turned, point, z))
    return tuple(found)


def _pose(graph: Graph, theta: float, point: tuple[float, float], z: float) -> FreeingPose:
    """From the displacement of the reference point to that of the nose's centre."""
    rx, ry = graph.slices.reference
    c, s = math.cos(theta), math.sin(theta)
    return FreeingPose(
        x=point[0] + rx - c * rx + s * ry,
        y=point[1] + ry - s * rx - c * ry,
        z=z,
        theta=theta,
    )

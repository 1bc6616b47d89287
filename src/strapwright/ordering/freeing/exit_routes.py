"""Ways out: regions of neighbouring slabs and layers that overlap, searched as a graph."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Literal

from attrs import frozen
from shapely.geometry import Point, Polygon

from strapwright.ordering.freeing.pieces_along_nose import Layer
from strapwright.ordering.freeing.possible_places import Region, Slices
from strapwright.ordering.time_given import ask

# Numerical.
TOUCH = 1e-6  # regions and points no further apart count as touching [mm]


@frozen(kw_only=True)
class Node:
    """One region of one slab in one layer."""

    layer: int
    index: int
    region: int


@frozen(kw_only=True)
class Route:
    """Outcome of one search.

    Attributes
    ----------
    answer
        ``out`` (a way out exists), ``none`` (there is none), ``unknown`` (given up).
    nodes
        From the start to the way out.
    points
        Displacement of the reference point at which each node is entered [mm].
    seen
        Every node looked at, where there is no way out.
    """

    answer: Literal["out", "none", "unknown"]
    nodes: tuple[Node, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    seen: tuple[Node, ...] = ()


class Graph:
    """Regions of all slabs and layers, cut as they are needed."""

    def __init__(self, layers: tuple[Layer, ...], slices: Slices, *, certain: bool) -> None:
        self.layers = layers
        self.slices = slices
        self.certain = certain

    def region(self, node: Node) -> Region:
        """Return the region of a node."""
        return self._regions(node.layer, node.index)[node.region]

    def _regions(self, layer: int, index: int) -> tuple[Region, ...]:
        return self.slices.regions(self.layers[layer].pieces, index)

    def is_out(self, node: Node) -> bool:
        """Whether the part is off the tooling, or can be taken arbitrarily far."""
        return not self.layers[node.layer].pieces or self.region(node).open

    def neighbours(self, node: Node) -> Iterator[Node]:
        """Regions that can be entered without turning out of the slab or sliding past a layer."""
        here = self.region(node).outline
        count = self.slices.slab.count
        places = [
            (layer, node.index)
            for layer in (node.layer - 1, node.layer + 1)
            if 0 <= layer < len(self.layers)
        ]
        if count:
            places += [(node.layer, (node.index + step) % count) for step in (1, -1)]
        for layer, index in places:
            for k, other in enumerate(self._regions(layer, index)):
                if self._joined(here, other.outline):
                    yield Node(layer=layer, index=index, region=k)

    def _joined(self, here: Polygon, other: Polygon) -> bool:
        if self.certain:
            return bool(here.intersection(other).area > TOUCH)
        return bool(here.distance(other) <= TOUCH)

    def at(self, layers: Iterable[int], point: tuple[float, float], slack: float) -> list[Node]:
        """Nodes of the unturned slab that hold a point."""
        return [
            Node(layer=layer, index=0, region=k)
            for layer in layers
            for k, region in enumerate(self._regions(layer, 0))
            if region.outline.distance(Point(point)) <= slack
        ]

    def overlapping(self, layers: Iterable[int], outlines: Iterable[Polygon]) -> list[Node]:
        """Nodes of the unturned slab that overlap one of some regions."""
        return [
            Node(layer=layer, index=0, region=k)
            for layer in layers
            for k, region in enumerate(self._regions(layer, 0))
            if any(region.outline.intersection(o).area > TOUCH for o in outlines)
        ]

    def search(self, starts: Iterable[Node], limit: int) -> Route:
        """Look for a way out, nearest first, over at most ``limit`` nodes.

        Raises
        ------
        OutOfTimeError
            Where nobody waits for the answer any longer.
        """
        came: dict[Node, Node | None] = dict.fromkeys(starts)
        queue = [(0, k, node) for k, node in enumerate(came)]
        order = len(queue)
        seen = 0
        while queue:
            hops, _, node = heapq.heappop(queue)
            if self.is_out(node):
                return self._route(node, came)
            seen += 1
            ask(self.slices.keep_going)
            if seen > limit:
                return Route(answer="unknown")
            for other in self.neighbours(node):
                if other not in came:
                    came[other] = node
                    order += 1
                    # A way out is taken as soon as it is seen.
                    heapq.heappush(queue, (-1 if self.is_out(other) else hops + 1, order, other))
        return Route(answer="none", seen=tuple(came))

    def _route(self, last: Node, came: dict[Node, Node | None]) -> Route:
        nodes = [last]
        while (before := came[nodes[-1]]) is not None:
            nodes.append(before)
        nodes.reverse()
        points = []
        for before, node in pairwise(nodes):
            shared = self.region(before).outline.intersection(self.region(node).outline)
            inside = shared.representative_point()
            points.append((float(inside.x), float(inside.y)))
        return Route(answer="out", nodes=tuple(nodes), points=tuple(points))

"""Along the nose: which pieces the part lies beside, from where to where."""

from __future__ import annotations

import math
from itertools import pairwise

from attrs import frozen

from strapwright.ordering.order_values import Piece


@frozen(kw_only=True)
class Layer:
    """A stretch of sliding along the nose over which the part lies beside the same pieces.

    Attributes
    ----------
    low, high
        Shift of the part [mm], may be infinite.
    pieces
        Indices of the pieces beside it.
    """

    low: float
    high: float
    pieces: frozenset[int]

    def shift(self, near: float) -> float:
        """Return a shift inside the layer, as near as may be to ``near`` [mm]."""
        if self.low < near < self.high:
            return near
        if self.high - self.low < math.inf:
            return 0.5 * (self.low + self.high)
        return self.low + 1.0 if math.isfinite(self.low) else self.high - 1.0


def layers_of(pieces: tuple[Piece, ...], z: tuple[float, float] | None) -> tuple[Layer, ...]:
    """Layers from far back to far front; without a place ``z`` of the part there is one."""
    everything = frozenset(range(len(pieces)))
    if z is None or all(p.z is None for p in pieces):
        return (Layer(low=-math.inf, high=math.inf, pieces=everything),)
    spans = [
        (-math.inf, math.inf) if p.z is None else (p.z[0] - z[1], p.z[1] - z[0]) for p in pieces
    ]
    cuts = sorted({v for span in spans for v in span} | {-math.inf, math.inf})
    found: list[Layer] = []
    for low, high in pairwise(cuts):
        beside = frozenset(k for k, (a, b) in enumerate(spans) if a < high and low < b)
        if found and found[-1].pieces == beside:
            found[-1] = Layer(low=found[-1].low, high=high, pieces=beside)
        else:
            found.append(Layer(low=low, high=high, pieces=beside))
    return tuple(found)

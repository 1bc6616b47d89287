"""From pieces of even curvature to points: in one plane, in space, and seen from a corner."""

from __future__ import annotations

import math

import numpy as np
from attrs import frozen

from strapwright.bending.bend_values import Floats


@frozen(kw_only=True)
class Pieces:
    """A run of bar.

    Attributes
    ----------
    lengths, curvatures
        Shape (k,) [mm], [1/mm].
    turned
        How far the bar is turned about itself for the bend a piece belongs to, top towards the
        viewer, shape (k,) [rad].
    """

    lengths: Floats
    curvatures: Floats
    turned: Floats

    def backwards(self) -> Pieces:
        """Return the same bar from its other end."""
        return Pieces(
            lengths=self.lengths[::-1],
            curvatures=self.curvatures[::-1],
            turned=self.turned[::-1],
        )


def in_plane(lengths: Floats, curvatures: Floats) -> tuple[Floats, Floats]:
    """Points along pieces, from the origin heading right, shape (k + 1,) each [mm]."""
    theta = np.concatenate([[0.0], np.cumsum(lengths * curvatures)])
    middle = 0.5 * (theta[1:] + theta[:-1])
    chord = lengths * np.sinc(0.5 * lengths * curvatures / math.pi)
    x = np.concatenate([[0.0], np.cumsum(chord * np.cos(middle))])
    y = np.concatenate([[0.0], np.cumsum(chord * np.sin(middle))])
    return x, y


def in_space(pieces: Pieces, *, turned: float) -> Floats:
    """Points along pieces in space, from the origin heading right, shape (k + 1, 3) [mm].

    x to the right, y up, z towards the viewer.

    Parameters
    ----------
    pieces
        A bend turns the bar towards its own up, which a bar turned top towards the viewer has on
        its far side.
    turned
        As the bar lies at the origin [rad].
    """
    along = np.array([1.0, 0.0, 0.0])
    up = np.array([0.0, 1.0, 0.0])
    far = np.array([0.0, 0.0, -1.0])
    points = [np.zeros((1, 3))]
    breaks = np.flatnonzero(np.diff(pieces.turned)) + 1
    lies = turned
    for block in np.split(np.arange(pieces.lengths.shape[0]), breaks):
        roll = float(pieces.turned[block[0]]) - lies
        lies += roll
        up, far = (
            math.cos(roll) * up + math.sin(roll) * far,
            math.cos(roll) * far - math.sin(roll) * up,
        )
        x, y = in_plane(pieces.lengths[block], pieces.curvatures[block])
        flat = np.column_stack([x[1:], y[1:]])
        points.append(points[-1][-1] + flat @ np.vstack([along, up]))
        theta = float(np.sum(pieces.lengths[block] * pieces.curvatures[block]))
        along, up = (
            math.cos(theta) * along + math.sin(theta) * up,
            math.cos(theta) * up - math.sin(theta) * along,
        )
    return np.concatenate(points)

"""The bar as drawn for one picture, and one bend as it lies in the bar."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.bending.bend_values import Floats

End = Literal[1, 2]
Pose = Literal["rest", "stroke", "released"]
Point = tuple[float, float]


@frozen(kw_only=True)
class DrawnPose:
    """Mid-line of the bar for one picture of a step, in die coordinates.

    x = 0 in the middle, y = 0 at the shoulder tops, y up, the bar comes from above [mm].

    Attributes
    ----------
    x, y
        Mid-line points from end left to end right, shape (k,).
    nose_y
        Height of the nose's centre.
    """

    x: Floats
    y: Floats
    nose_y: float


@frozen(kw_only=True)
class StepPoses:
    """The three pictures of a step; of a row of hits those of its middle hit.

    Attributes
    ----------
    rest, stroke, released
        At touch, at full stroke, and let go with the nose out of the way.
    """

    rest: DrawnPose
    stroke: DrawnPose
    released: DrawnPose

    def of(self, pose: Pose) -> DrawnPose:
        """Return one of them by its name."""
        return {"rest": self.rest, "stroke": self.stroke, "released": self.released}[pose]

    @property
    def all(self) -> tuple[DrawnPose, DrawnPose, DrawnPose]:
        """In the order they come about."""
        return self.rest, self.stroke, self.released


@frozen(kw_only=True)
class Zone:
    """One bend as it lies in the bar once it is made.

    Attributes
    ----------
    begin, end
        Where the zone begins and ends in the flat, from end 1 [mm].
    lengths, curvatures
        Pieces of the bent mid-line from its first end to its last, shape (k,) [mm], [1/mm];
        curvature positive where the legs turn up as drawn.
    turned
        How far the bar was turned about itself before this bend, from the drawn face, top towards
        the viewer [rad].
    """

    begin: float
    end: float
    lengths: Floats
    curvatures: Floats
    turned: float = 0.0

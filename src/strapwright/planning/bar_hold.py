"""How the bar is held for a bend: towards the nose, with the nose above, below or beside it.

Left and right are those of the drawings.  A picture with the nose below is the picture with the
nose above turned about the long axis of the bar, so both ends stay where they are.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from attrs import frozen

from strapwright.midline.pose_values import DrawnPose, End
from strapwright.shop.job import Job
from strapwright.shop.tooling import NosePlace, RamSide, nose_place

Face = Literal["top", "bottom"]
Carrier = Literal["shoulders", "nose", "nothing"]
Side = Literal["left", "right"]
Released = Literal["falls", "hangs", "rests", "loose"]
# A bar whose weight lies nearer to the middle of a round nose than this can be balanced by eye
# (common practice, no source) [mm].
_BALANCED = 0.5


@frozen(kw_only=True)
class Hold:
    """How the bar is laid in for a bend.

    Attributes
    ----------
    face
        Which face of the blank, as drawn, is towards the nose, wherever the nose is.
    end_left
        Which end of the blank points left as the drawing shows it; on a level press seen from
        above, facing the nose.
    roll
        How far the bar is turned about itself from the drawn face, with end 1 on the left and its
        top towards you [rad]; ``face`` is then said of the bar so turned.
    nose
        Where the nose is, seen from the bar.
    ram_side
        Which half the ram moves.
    weight
        How far right of the middle the weight of the bar lies before first contact [mm]; ``None``
        for a bar that is rolled out of one plane.
    support
        Half the width between the places that carry the bar before first contact [mm].
    """

    face: Face
    end_left: End
    roll: float = 0.0
    nose: NosePlace = "above"
    ram_side: RamSide = "nose"
    weight: float | None = None
    support: float = 0.0

    @property
    def carried_by(self) -> Carrier:
        """What the bar lies on before first contact."""
        carriers: dict[NosePlace, Carrier] = {
            "above": "shoulders",
            "below": "nose",
            "beside": "nothing",
        }
        return carriers[self.nose]

    @property
    def tips(self) -> Side | None:
        """To which side the bar tips before first contact unless it is held.

        On the shoulders it lies while its weight is between their tops, on a round nose only while
        its weight is over the middle.
        """
        if self.weight is None or self.carried_by == "nothing":
            return None
        room = self.support if self.carried_by == "shoulders" else _BALANCED
        return heavy_side(self.weight, room)


def hold_of(
    job: Job, *, face: Face, end_left: End, roll: float, rest: DrawnPose, shoulders: float
) -> Hold:
    """Say how the bar of a job is held.

    Parameters
    ----------
    rest
        The bar before first contact.
    shoulders
        Half the distance between the tops of the shoulders [mm].
    """
    nose = nose_of(job)
    return Hold(
        face=face,
        end_left=end_left,
        roll=roll,
        nose=nose,
        ram_side="nose" if job.tooling is None else job.tooling.ram_side,
        weight=None if any(job.part.rolls) else weight_of(rest),
        support=shoulders if nose == "above" else 0.0,
    )


def nose_of(job: Job) -> NosePlace:
    """Where the nose is, seen from the bar; a press that does not say pushes down."""
    ram_side: RamSide = "nose" if job.tooling is None else job.tooling.ram_side
    return nose_place(ram_side, "down" if job.press is None else job.press.axis)


def weight_of(pose: DrawnPose) -> float:
    """How far right of the middle the centre of gravity of an even bar lies [mm]."""
    dx, dy = np.diff(pose.x), np.diff(pose.y)
    lengths = np.hypot(dx, dy)
    return float((lengths * (pose.x[:-1] + 0.5 * dx)).sum() / lengths.sum())


def heavy_side(weight: float, room: float = _BALANCED) -> Side | None:
    """To which side a weight hangs over that lies ``weight`` right of the middle [mm].

    Parameters
    ----------
    room
        To each side of the middle, within which it is carried [mm].
    """
    if abs(weight) <= room:
        return None
    return "right" if weight > 0.0 else "left"


def released(nose: NosePlace, how: str) -> Released:
    """What gravity does with the part once the ram has gone back.

    Parameters
    ----------
    nose
        Where the nose is, seen from the bar.
    how
        ``drops`` where the part leaves the nose straight away from it, else ``slides``, ``turns``
        or empty.

    Returns
    -------
    str
        ``falls`` off a nose above it, ``hangs`` on that nose, ``rests`` on a nose below it, or is
        ``loose``: beside the nose, carried by nothing.
    """
    if nose == "below":
        return "rests"
    if nose == "beside":
        return "loose"
    return "falls" if how == "drops" else "hangs"

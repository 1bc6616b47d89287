"""How a part comes off the tooling, as the plan says it."""

from __future__ import annotations

from typing import Literal

from attrs import frozen

from strapwright.planning.bar_hold import Released

OffVerdict = Literal["free", "locked on", "too close to call", "not decided"]


@frozen(kw_only=True)
class ComingOff:
    """How the part comes off the tooling after a bend.

    Attributes
    ----------
    verdict
        ``free``, ``locked on``, ``too close to call`` or ``not decided`` in the time given; for
        motion in the plane with sliding along the nose, no tilting.
    how
        ``drops``, ``slides``, ``turns`` or empty.
    released
        What gravity does with the part once the ram has gone back.
    weight
        How far right of the middle the weight of the released part lies [mm]; ``None`` where it is
        not known.
    drawable
        The nose can be drawn out of the part endways, and nothing else holds it.
    held
        Why it is locked on: ``overlap``, it stands in the tooling; ``halves``, nose and shoulders
        do not open with it between them; ``closed round``, a member held at both ends, with a
        smaller gap; ``no way out``, in the plane or along the nose.
    motion
        Displacement x, y, z [mm] and turn [rad] about the nose's centre of the part at each pose
        on the way out.
    held_by
        Bodies of the tooling of which any one, taken away, frees a part that is locked on.
    rides
        The nose takes it along as the halves open.
    spot
        Where it is with both halves fully open, or likeliest is where it does not come off:
        displacement from where it was bent on the nose [mm].
    opened
        Height of the nose's centre above the shoulder tops by then [mm].
    """

    verdict: OffVerdict
    how: Literal["drops", "slides", "turns", ""]
    released: Released
    drawable: bool
    weight: float | None = None
    held: Literal["overlap", "halves", "closed round", "no way out", ""] = ""
    motion: tuple[tuple[float, float, float, float], ...] = ()
    held_by: tuple[str, ...] = ()
    rides: bool = False
    spot: tuple[float, float] = (0.0, 0.0)
    opened: float = 0.0

"""How a part comes off the nose, or what it is locked on by, in words."""

from __future__ import annotations

from strapwright.planning.plan_values import ComingOff

_HELD = {
    "overlap": "the part overlaps the tooling on the nose",
    "halves": "nose and shoulders do not open with the part between them",
    "closed round": "the part closes round a member held at both ends, and the gap is smaller",
    "no way out": "no way out in the plane or along the nose; tilting was not looked at",
}


def way_off_words(off: ComingOff) -> str:
    """Tell the person at the press how the part comes off after a bend.

    Parameters
    ----------
    off
        Of a step.
    """
    if off.verdict == "too close to call":
        return "Whether it comes off is too close to call: not proven."
    if off.verdict == "locked on":
        if off.drawable:
            return "It is locked on; draw the nose out endways with the pressure let off."
        return f"It is locked on the tooling: {_HELD[off.held]}."
    if off.how == "drops":
        return (
            "It drops off the nose; mind your fingers."
            if off.falls
            else "It lifts straight off the nose by hand."
        )
    rides = "The part rides up on the nose. " if off.rides else ""
    if off.how == "slides":
        return f"{rides}It slides off by hand."
    return f"{rides}It comes off by hand when it is turned on the way."

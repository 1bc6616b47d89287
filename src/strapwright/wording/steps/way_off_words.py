"""How a part comes off the nose by gravity and by hand, or what it is trapped on by, in words."""

from __future__ import annotations

from collections.abc import Mapping

from strapwright.findings import Choice
from strapwright.planning.bar_hold import heavy_side
from strapwright.planning.job_order import why_not_searched
from strapwright.planning.plan_values import (
    Plan,
    Step,
)
from strapwright.planning.surroundings.off_values import ComingOff, OffVerdict
from strapwright.wording.order_words import SHAPES_NOT_SEARCHED

# How a part comes off, in a word or two beside its bend.
VERDICTS: Mapping[OffVerdict, str] = {
    "free": "comes off freely",
    "locked on": "trapped on the nose",
    "too close to call": "too close to tell",
    "not decided": "not checked",
}
_HELD = {
    "overlap": "the part overlaps the tooling on the nose",
    "halves": "nose and shoulders do not open with the part between them",
    "closed round": "the part closes round a member held at both ends, and the gap is smaller",
    "no way out": "no way out in the plane or along the nose; tilting is not checked",
}


def way_off_words(step: Step) -> str:
    """Say how the part leaves the tooling after a bend; empty where nobody looked."""
    off = step.coming_off
    if off is None:
        return ""
    if off.verdict == "too close to call":
        return f"It may or may not come off; the fit is too close to tell. {_after(step, off)}"
    if off.verdict == "not decided":
        left_open = "Coming off is not checked: the time ran out."
        return f"{left_open} {_after(step, off)}"
    if off.verdict == "locked on":
        if not off.drawable:
            return f"It is trapped on the tooling: {_HELD[off.held]}."
        drops = " Hold the part: it drops as the nose comes out." if off.released == "hangs" else ""
        return (
            "It is trapped on the nose. Release all pressure, then slide the nose out "
            f"endways.{drops}"
        )
    return f"{_rides(step, off)}{_after(step, off)} {_taken(off)}".rstrip()


def _rides(step: Step, off: ComingOff) -> str:
    """Say that the nose takes the part along; below the part that is said by where it then is."""
    if not off.rides or step.hold.nose == "below":
        return ""
    if step.hold.nose == "above" and step.hold.ram_side == "nose":
        return "The part rides up on the nose. "
    return "The part stays on the nose as the halves open. "


def not_looked_words(plan: Plan) -> str:
    """Say why it is not known how the part comes off."""
    if (why := why_not_searched(plan.job)) is not None:
        return f"Coming off the nose is not checked for {SHAPES_NOT_SEARCHED[why]}."
    if any(one.code in ("no-order", "order-cannot-be-made") for one in plan.findings):
        return "Coming off the nose is not checked, because the order cannot be made as it is."
    left_out = [one for one in plan.findings if one.code == "order-not-searched"]
    if any(one.one(Choice, "why").value == "twisted" for one in left_out):
        return f"Coming off the nose is not checked for {SHAPES_NOT_SEARCHED['twisted']}."
    if any(one.one(Choice, "why").value == "no time" for one in left_out):
        return "Coming off the nose is not checked: the time ran out."
    return "Coming off the nose is not checked for legs as short as these."


def _after(step: Step, off: ComingOff) -> str:
    """Where the part is once the ram has gone back, by gravity."""
    up = step.hold.nose == "above"
    by_nose = step.hold.ram_side == "nose"
    ram = "nose" if by_nose else "shoulders"
    goes = {True: "goes up", False: "goes down"}[up == by_nose]
    goes = goes if by_nose else goes.replace("goes", "go")
    if off.released == "falls":
        return (
            f"It stays on the shoulders, or drops off the nose onto them, as the {ram} {goes}; "
            "keep your fingers out from under it."
        )
    if off.released == "hangs":
        return "It hangs on the nose and drops once it is clear: carry its weight."
    if off.released == "loose":
        return "Nothing carries it once the ram goes back: keep a rest under it or hold it."
    side = None if off.weight is None else heavy_side(off.weight)
    heavy = "" if side is None else f", heavier to the {side}: hold that end"
    if by_nose:
        return f"It goes down with the nose{heavy}."
    return f"It stays on the nose as the {ram} {goes}{heavy}."


def _taken(off: ComingOff) -> str:
    """How it is taken off by hand."""
    if off.released == "falls":
        return ""
    verb = "Lift" if off.released == "rests" else "Pull"
    return {
        "drops": f"{verb} it straight off by hand.",
        "slides": "Slide it off endways by hand.",
        "turns": f"{verb} it off by hand, turning it on the way.",
    }.get(off.how, "Take it off by hand.")

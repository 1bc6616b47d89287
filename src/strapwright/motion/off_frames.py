"""The part coming off the tool after a bend, as places to draw it and the tooling at."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import Floats
from strapwright.motion.bend_frames import Frame, tooling_of
from strapwright.motion.off_places import Motion, off_places, parts
from strapwright.planning.plan_values import (
    Plan,
    Step,
)
from strapwright.planning.surroundings.off_values import ComingOff

_OPENING = 0.4  # of the pictures show the ram opening, where the part goes with it
_LEAST = 4  # pictures of a part that stays on the nose
_FAINT = 0.12  # what is left of the bar once it was slid off towards the viewer


@frozen(kw_only=True)
class OffFrame:
    """One picture of the part coming off, against the last one of the stroke.

    Attributes
    ----------
    shift, turn
        Of the part [mm], [rad], the turn about the nose's centre where it let go.
    nose
        Height of the nose's centre [mm].
    sunk
        How far the shoulders stand lower: the picture goes up with the ram [mm].
    seen
        How plainly the part is drawn, from 1 down: it goes out of the picture's plane.
    doing
        What happens, in words.
    """

    shift: tuple[float, float]
    turn: float
    nose: float
    sunk: float
    seen: float
    doing: str


def off_frames(
    plan: Plan, step: Step, let_go: Frame, top: float, count: int
) -> tuple[OffFrame, ...]:
    """Places of part and tooling from where the part was let go until it is off.

    Parameters
    ----------
    plan, step
        The step belongs to the plan.
    let_go
        The last picture of the stroke.
    top
        Upper edge of what is seen [mm].
    count
        How many pictures, about.

    Returns
    -------
    tuple of OffFrame
        None where nobody looked at coming off, or had no time to.  The ram opens as far as it goes:
        a part that stays lies on the shoulders and the nose goes up out of the picture; with one
        that rides the picture goes up, and the shoulders are left behind.  Then the part comes off,
        if it does.  Where the halves do not open with the part between them nothing moves.
    """
    plan = plan.on_tooling_of(step.bend)
    off, tooling = step.coming_off, tooling_of(plan)
    if off is None or off.verdict == "not decided":
        return ()
    if not parts(step):
        stands = OffFrame(
            shift=(0.0, 0.0), turn=0.0, nose=let_go.nose, sunk=0.0, seen=1.0, doing=_off_words(off)
        )
        return (stands,) * _LEAST
    ways = off_places(step, tooling.nose.radius, count) if off.verdict == "free" else ()
    places = _evenly(ways, count)[1:] if len(ways) > 1 else []
    opening = _opening(plan, off, let_go, top, count if not places else round(_OPENING * count))
    open_, up = opening[-1], opening[-1].nose - let_go.nose
    frames = [
        *opening,
        *(
            evolve(open_, shift=(x, y + up), turn=theta, doing="coming off")
            for x, y, _, theta in places
        ),
    ]
    if off.verdict == "free" and off.how == "slides" and not places:  # towards the viewer
        fading = np.linspace(1.0, _FAINT, max(count - len(opening), _LEAST)).tolist()
        frames += [
            evolve(open_, seen=seen, doing="sliding off sideways along the nose") for seen in fading
        ]
    return (*frames[:-1], evolve(frames[-1], doing=_off_words(off)))


def _opening(
    plan: Plan, off: ComingOff, let_go: Frame, top: float, count: int
) -> tuple[OffFrame, ...]:
    """The ram opens: the nose leaves the part, or takes it along."""
    count = max(count, _LEAST)
    whole = max(off.opened - let_go.nose, 0.0)
    eased = [0.5 - 0.5 * math.cos(math.pi * k / count) for k in range(1, count + 1)]
    if not off.rides:
        return tuple(
            OffFrame(
                shift=(0.0, 0.0),
                turn=0.0,
                nose=let_go.nose + share * whole,
                sunk=0.0,
                seen=1.0,
                doing="the ram goes back, the part stays on the shoulders",
            )
            for share in eased
        )
    thickness = plan.job.part.stacked * plan.job.part.bar.thickness
    # Until something of the nose side catches it the part lies still.
    play = min(max(-off.spot[1], 0.0), whole)
    highest = float(let_go.line[:, 1].max()) + thickness
    seen_up = min(max(top - highest, 0.0) + play, whole)  # the rest of the way the picture goes up
    return tuple(
        OffFrame(
            shift=(0.0, max(share * whole - play, 0.0) - share * (whole - seen_up)),
            turn=0.0,
            nose=let_go.nose + share * seen_up,
            sunk=share * (whole - seen_up),
            seen=1.0,
            doing="the ram goes back and carries the part",
        )
        for share in eased
    )


def _off_words(off: ComingOff) -> str:
    return {"free": "off the nose", "locked on": "trapped on the nose"}.get(
        off.verdict, "not checked"
    )


def _evenly(motions: tuple[Motion, ...], count: int) -> list[Motion]:
    """Add places between those given wherever the part does not turn, up to about ``count``."""
    found = [motions[0]]
    between = max(round(count / max(len(motions) - 1, 1)), 1)
    for before, after in pairwise(motions):
        steps = between if before[3] == after[3] else 1
        for k in range(1, steps + 1):
            x, y, z, theta = (a + k / steps * (b - a) for a, b in zip(before, after, strict=True))
            found.append((x, y, z, theta))
    return found


def placed(line: Floats, frame: OffFrame, let_go: Frame) -> Floats:
    """Mid-line of the part in one picture, shape (k, 2) [mm]."""
    about = np.array([0.0, let_go.nose])
    c, s = math.cos(frame.turn), math.sin(frame.turn)
    turned: Floats = (line - about) @ np.array([[c, s], [-s, c]]) + about + np.array(frame.shift)
    return turned

"""The part coming off the tool after a bend, as places to draw it and the tooling at."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from attrs import evolve, frozen

from strapwright.bending.bend_values import Floats
from strapwright.motion.bend_frames import Frame, tooling_of
from strapwright.motion.off_places import Motion, moved, off_places
from strapwright.planning.bar_hold import nose_of
from strapwright.planning.plan_values import ComingOff, Plan, Step

_OPENING = 0.4  # of the pictures show the ram opening, where the part goes with it
_LEAST = 4  # pictures of a part that stays on the nose
_CLEAR = 0.12  # of the opening that the shoulders stay below the part
_STILL = 1e-6  # mm or rad
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
        None where nobody looked at coming off.  Under a nose that points down a part that drops
        stays on the shoulders while the ram goes up; else the picture goes up with the ram and the
        part, and the part then comes off the nose.  A part that is locked on stays on the nose.
    """
    off, tooling = step.coming_off, tooling_of(plan)
    if off is None:
        return ()
    motions = off_places(step, tooling.nose.radius, count) if off.verdict == "free" else ()
    if _stays_below(plan, motions):
        frames = [
            OffFrame(
                shift=(0.0, 0.0),
                turn=0.0,
                nose=let_go.nose - motion[1],
                sunk=0.0,
                seen=1.0,
                doing="the ram opens",
            )
            for motion in _evenly(motions, count)[1:]
        ]
        return (*frames[:-1], evolve(frames[-1], doing=_off_words(off)))
    return _riding(plan, off, let_go, top, motions, count)


def _stays_below(plan: Plan, motions: tuple[Motion, ...]) -> bool:
    """Whether the part just lies there while the ram goes up."""
    straight = all(abs(x) < _STILL and abs(theta) < _STILL for x, _, _, theta in motions)
    return len(motions) > 1 and straight and nose_of(plan.job) != "below"


def _riding(
    plan: Plan,
    off: ComingOff,
    let_go: Frame,
    top: float,
    motions: tuple[Motion, ...],
    count: int,
) -> tuple[OffFrame, ...]:
    """The ram opens with the part on the nose; then the part comes off it, if it does."""
    thickness = plan.job.part.stacked * plan.job.part.bar.thickness
    places = _evenly(motions, count)[1:] if len(motions) > 1 else []
    about = let_go.line - np.array([0.0, let_go.nose])
    rise = max(top - float(let_go.line[:, 1].max()) - thickness, 0.0)
    lowest = min(float(moved(about, one)[:, 1].min()) for one in [(0.0, 0.0, 0.0, 0.0), *places])
    clear = _CLEAR * tooling_of(plan).shoulders.opening
    lowest += let_go.nose + rise - 0.5 * thickness - clear
    sink = max(-lowest, 0.0)
    stays = off.verdict != "free"
    opening = max(count if stays else round(_OPENING * count), _LEAST)
    opened = [0.5 - 0.5 * math.cos(math.pi * k / opening) for k in range(1, opening + 1)]
    frames = [
        OffFrame(
            shift=(0.0, share * rise),
            turn=0.0,
            nose=let_go.nose + share * rise,
            sunk=share * sink,
            seen=1.0,
            doing="the ram opens, the part goes with it",
        )
        for share in opened
    ]
    open_ = frames[-1]
    frames += [
        evolve(open_, shift=(x, y + rise), turn=theta, doing="coming off")
        for x, y, _, theta in places
    ]
    if not stays and not places:  # along the nose, towards the viewer
        fading = np.linspace(1.0, _FAINT, max(count - opening, _LEAST)).tolist()
        frames += [evolve(open_, seen=seen, doing="sliding off endways") for seen in fading]
    return (*frames[:-1], evolve(frames[-1], doing=_off_words(off)))


def _off_words(off: ComingOff) -> str:
    return {"free": "off the nose", "locked on": "locked on"}.get(off.verdict, "not proven")


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

"""Where the ram stops, how fast it comes there and at which pressure to let off.

At touch the tip of the nose rests on the bar and the bar on the tops of the shoulders, so the
plate that carries the nose stands ``reach + thickness`` above those tops.  Everything here follows
from that picture; nothing depends on which half moves but the names of the faces.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from strapwright.bending.bend_values import StrokeCurve
from strapwright.bending.hydraulics import piston_area, ram_speed
from strapwright.findings import (
    About,
    Angle,
    AngleRate,
    Choice,
    Finding,
    Force,
    Length,
    Pressure,
    Seconds,
    Severity,
    Share,
)
from strapwright.planning.plan_values import ReliefSetting, Setting, Speed
from strapwright.shop.press import Stop
from strapwright.shop.tooling import Tooling

# Common practice, no source: a person sees, decides and lets go in about a quarter of a second.
REACTION_TIME = 0.25  # s
# Common practice, no source: a bend that turns further than this in that time is not stopped by
# eye within what a bracket is held to.
STOPPABLE_TURN = math.radians(2.0)
# Common practice, no source: let off where the gauge passes the upper band by this share.
EASE_OFF_SHARE = 1.15
# Common practice, no source: a relief valve opens a little before its setting, so it is set above
# the pressure at which the person lets off, else the ram creeps to a halt short of the bend.
RELIEF_SHARE = 1.25


def setting(
    *,
    travel: float,
    give_travel: float,
    tooling: Tooling,
    thickness: float,
    about: About,
) -> tuple[Setting, tuple[Finding, ...]]:
    """Where the ram stops, as a travel, as a distance between faces and as a stop block.

    Parameters
    ----------
    travel
        Travel of the ram from touch, machine give included [mm].
    give_travel
        The part of it that the machine gives, give times force [mm].  The plate and the shoulders
        do not see it: they only close on each other by ``travel - give_travel``.
    tooling
        Nose and shoulders.
    thickness
        Of the bar [mm].
    about
        What the findings are about.

    Returns
    -------
    Setting, tuple of Finding
        A distance that a missing dimension forbids is ``None``, with the reason in a finding
        (``nose-reach-unknown``, ``shoulder-height-unknown``); one that would be negative is
        ``None`` with ``stop-unreachable``.
    """
    nose_moves = tooling.ram_side == "nose"
    plate = "face of the push plate" if nose_moves else "face of the nose plate"
    tops = "shoulder tops"
    bed = "bed" if nose_moves else "push plate"
    findings: list[Finding] = []
    faces: float | None = None
    block: float | None = None
    reach, height = tooling.nose.reach, tooling.shoulders.height
    if reach is None:
        findings.append(Finding(code="nose-reach-unknown", severity=Severity.NOTE, about=about))
    else:
        faces = reach + thickness - (travel - give_travel)
        if height is None:
            findings.append(
                Finding(code="shoulder-height-unknown", severity=Severity.NOTE, about=about)
            )
        else:
            block = height + faces
        if faces <= 0.0:
            findings.append(_unreachable(about, -faces))
            faces = None
            if block is not None and block <= 0.0:
                block = None
    result = Setting(
        travel=travel,
        faces=faces,
        faces_between=(plate, tops) if nose_moves else (tops, plate),
        block=block,
        # The block sits on the half that does not move and is met by the half that does.
        block_between=(bed, plate) if nose_moves else (plate, bed),
    )
    return result, tuple(findings)


def stopped_by(wanted: Stop, *, block: float | None, staged: object) -> Stop:
    """What the ram is stopped by: as wanted where that is known, else in stages, else by eye.

    Parameters
    ----------
    wanted
        As the press says.
    block
        Height of the stop block, ``None`` where it is not known [mm].
    staged
        The push in stages, ``None`` where there is none.
    """
    if wanted == "on a block" and block is not None:
        return wanted
    if wanted != "by eye" and staged is not None:
        return "in stages"
    return "by eye"


def speed(
    *,
    curve: StrokeCurve,
    travel: float,
    flow: float | None,
    bore: float | None,
    about: About,
) -> tuple[Speed, tuple[Finding, ...]]:
    """How fast the ram closes and the bend turns.

    Parameters
    ----------
    curve
        Stroke curve of the bend, from touch to ``travel`` or beyond.
    travel
        Where the ram stops [mm].
    flow
        What the pump delivers, or ``None`` [mm3/s].
    bore
        Of the cylinder, or ``None`` [mm].
    about
        What the finding is about.

    Returns
    -------
    Speed, tuple of Finding
        ``too-fast-to-stop`` where a quarter of a second at the end of the stroke turns the bend by
        more than 2 deg (common practice, no source).
    """
    # Degrees of the loaded angle per mm, interval by interval, as far as the stroke goes.
    slopes = np.diff(curve.loaded_angle) / np.diff(curve.travel)
    last = int(np.searchsorted(curve.travel, travel, side="left")) - 1
    last = min(max(last, 0), slopes.size - 1)
    sensitivity = float(slopes[last])
    ram = None if flow is None or bore is None else ram_speed(flow, bore)
    if ram is None:
        return Speed(ram=None, angle=None, sensitivity=sensitivity), ()
    fastest = ram * float(np.max(slopes[: last + 1]))
    turned = ram * sensitivity * REACTION_TIME
    findings: tuple[Finding, ...] = ()
    if turned > STOPPABLE_TURN:
        findings = (
            Finding(
                code="too-fast-to-stop",
                severity=Severity.WARNING,
                about=about,
                facts={
                    "rate": AngleRate(ram * sensitivity),
                    "turned": Angle(turned),
                    "reaction": Seconds(REACTION_TIME),
                },
            ),
        )
    return Speed(ram=ram, angle=fastest, sensitivity=sensitivity), findings


def weakest_pressure(rating: float, bore: float) -> float:
    """Gauge reading at which the weakest member may carry its rating.

    Parameters
    ----------
    rating
        Of the weakest member, as a force on the nose [N].
    bore
        [mm]

    Returns
    -------
    float
        rating over piston area [MPa].  No share is taken off for friction and no-load pressure:
        on a day when the seals run easily the whole pressure arrives, so this is the safe side.
    """
    return rating / piston_area(bore)


def ease_off(
    *,
    upper: float,
    peak: float,
    weakest: float | None,
    relief: float | None,
    about: About,
) -> tuple[float, tuple[Finding, ...]]:
    """Pressure past which to let off and look.

    Parameters
    ----------
    upper
        Upper end of the band of the gauge, over the whole stroke [MPa].
    peak
        Highest reading expected on the way [MPa].
    weakest
        Reading at which the weakest member carries its rating, see :func:`weakest_pressure`;
        ``None`` where it is not stated [MPa].
    relief
        Setting of the relief valve; ``None`` where it is not stated [MPa].
    about
        What the findings are about.

    Returns
    -------
    float, tuple of Finding
        min(1.15 upper, weakest, relief) [MPa].  ``tooling-too-weak`` and ``press-too-weak``, both
        refusals, where the weakest member carries less or the relief valve opens earlier than
        ``peak``; ``ease-off-below-band``, a warning, where only ``upper`` lies above the limit.
    """
    limit = min(
        EASE_OFF_SHARE * upper,
        math.inf if weakest is None else weakest,
        math.inf if relief is None else relief,
    )
    findings = []
    if weakest is not None and peak > weakest:
        findings.append(
            Finding(
                code="tooling-too-weak",
                severity=Severity.REFUSAL,
                about=about,
                facts={"needed": Pressure(peak), "limit": Pressure(weakest)},
            )
        )
    if relief is not None and peak > relief:
        findings.append(
            Finding(
                code="press-too-weak",
                severity=Severity.REFUSAL,
                about=about,
                facts={"needed": Pressure(peak), "limit": Pressure(relief)},
            )
        )
    if peak <= limit < upper:
        by_member = weakest is not None and weakest == limit
        findings.append(
            Finding(
                code="ease-off-below-band",
                severity=Severity.WARNING,
                about=about,
                facts={
                    "held_by": Choice("member" if by_member else "relief"),
                    "share": Share(limit / upper),
                },
            )
        )
    return limit, tuple(findings)


def too_weak(peak: float, upper: float, rating: float | None, about: About) -> tuple[Finding, ...]:
    """Say where a force is above the rating, as far as that goes without a gauge.

    Parameters
    ----------
    peak, upper
        Highest force expected on the way, and the upper end of its band [N].
    rating
        Of the weakest member, or ``None`` [N].
    about
        What the finding is about.

    Returns
    -------
    tuple of Finding
        ``tooling-too-weak`` where the force expected is above it, ``ease-off-below-band`` where
        only the band is.
    """
    if rating is None or upper <= rating:
        return ()
    if peak <= rating:
        return (
            Finding(
                code="ease-off-below-band",
                severity=Severity.WARNING,
                about=about,
                facts={
                    "held_by": Choice("member"),
                    "share": Share(rating / upper),
                    "needed": Force(upper),
                    "limit": Force(rating),
                },
            ),
        )
    return (
        Finding(
            code="tooling-too-weak",
            severity=Severity.REFUSAL,
            about=about,
            facts={"needed": Force(peak), "limit": Force(rating)},
        ),
    )


def relief_setting(
    *, upper: float | None, weakest: float | None, relief: float | None
) -> ReliefSetting | None:
    """Give what the relief valve may stand at for this bend, in every case where a limit is known.

    Parameters
    ----------
    upper
        Upper end of the band of the gauge, over the whole stroke; ``None`` without a bore [MPa].
    weakest
        As for :func:`ease_off` [MPa].
    relief
        Present setting of the valve, which is never raised [MPa].

    Returns
    -------
    ReliefSetting or None
        min(1.25 upper, weakest, relief) [MPa]: to set where that is above ``upper``, else never
        to be passed, since no setting both makes the bend surely and guards press and tooling.
    """
    known: list[tuple[float, Literal["band", "member", "relief"]]] = []
    if weakest is not None:
        known.append((weakest, "member"))
    if relief is not None:
        known.append((relief, "relief"))
    if upper is not None:
        known.append((RELIEF_SHARE * upper, "band"))
    if not known:
        return None
    pressure, by = min(known, key=lambda one: one[0])
    surely = upper is not None and pressure > upper
    return ReliefSetting(kind="set" if surely else "never above", pressure=pressure, by=by)


def _unreachable(about: About, short: float) -> Finding:
    return Finding(
        code="stop-unreachable",
        severity=Severity.WARNING,
        about=about,
        facts={"short": Length(short)},
    )

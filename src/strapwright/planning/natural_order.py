"""Can the bends be made in this order: straight bar on both sides, and depth under the shoulders.

Of two neighbours the later sees the bare leg between them, so a leg shorter than what a bend needs
asks for one order, and a leg shorter than either needs leaves no order at all.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from attrs import frozen

from strapwright.bending.bend_values import BendSetup
from strapwright.blank.blank_values import Blank
from strapwright.findings import (
    BendAt,
    Count,
    Finding,
    Length,
    Severity,
)

# Bar left past the line of contact, so that it does not slip off (common practice, no source).
LEG_MARGIN = 1.5  # mm


@frozen(kw_only=True)
class Need:
    """What one bend needs of the bar and the tooling.

    Attributes
    ----------
    straight
        Straight bar needed to each side of the bend's middle, in the flat [mm].
    depth
        How far the outer face goes below the shoulder tops [mm].
    """

    straight: float
    depth: float


def need_of(setup: BendSetup, loaded_angle: float, travel: float, wrap_radius: float) -> Need:
    """Straight bar and depth that a bend takes.

    ``c(phi) + rho phi`` with ``c = (W/2)/cos phi - A tan phi`` falls, then rises, over the stroke,
    so touch and the end of the stroke decide.

    Parameters
    ----------
    loaded_angle
        Total, at full stroke [rad].
    travel
        Of nose against shoulders at full stroke [mm].
    wrap_radius
        Inside radius that the bar follows [mm].
    """
    half = 0.5 * loaded_angle
    reach = wrap_radius + setup.thickness + setup.shoulder_radius
    neutral = wrap_radius + 0.5 * setup.thickness
    end = 0.5 * setup.opening / math.cos(half) - reach * math.tan(half) + neutral * half
    straight = max(0.5 * setup.opening, end) + LEG_MARGIN
    return Need(straight=straight, depth=travel)


def bare_bar(blank: Blank, bend: int, made: Sequence[int]) -> tuple[float, float]:
    """Straight bar from a bend's middle to the next made bend or the end, to end 1 and to end 2.

    A row of hits needs it before its first hit and after its last.  Numbers are 0-based; lengths
    in the flat [mm].
    """
    marks = blank.marks_of(bend + 1)
    lower = max((blank.zone(j + 1)[1] for j in made if j < bend), default=0.0)
    upper = min((blank.zone(j + 1)[0] for j in made if j > bend), default=blank.length)
    return marks[0].nose - lower, upper - marks[-1].nose


def natural_order(blank: Blank, needs: Sequence[Need]) -> tuple[int, ...] | None:
    """First order from end 1 in which every bend has its straight bar, or ``None``; 0-based.

    Bare bar only shrinks as bends are made, so a bend that fits now may be made now or later but
    one that does not fit never will: depth-first search with that cut.
    """
    count = len(needs)

    def fits(bend: int, made: Sequence[int]) -> bool:
        return min(bare_bar(blank, bend, made)) >= needs[bend].straight

    dead: set[frozenset[int]] = set()

    def extend(made: tuple[int, ...]) -> tuple[int, ...] | None:
        if len(made) == count:
            return made
        key = frozenset(made)
        left = [b for b in range(count) if b not in key]
        if key in dead or not all(fits(b, made) for b in left):
            dead.add(key)
            return None
        for bend in left:
            found = extend((*made, bend))
            if found is not None:
                return found
        dead.add(key)
        return None

    return extend(())


def order_findings(
    blank: Blank, order: Sequence[int], needs: Sequence[Need], stated: bool, depth: float | None
) -> tuple[Finding, ...]:
    """Say which bends of an order lack straight bar or depth, and what would help."""
    findings: list[Finding] = []
    better = natural_order(blank, needs)
    for place, bend in enumerate(order):
        made = order[:place]
        for room, end in zip(bare_bar(blank, bend, made), (1, 2), strict=True):
            short = needs[bend].straight - room
            if short <= 0.0:
                continue
            helps = better if better is not None and stated else ()
            findings.append(
                Finding(
                    code="leg-off-shoulder",
                    severity=Severity.REFUSAL,
                    about=(BendAt(bend + 1),),
                    facts={
                        "end": Count(end),
                        "straight": Length(room),
                        "needed": Length(needs[bend].straight),
                        "better": tuple(Count(b + 1) for b in helps),
                    },
                )
            )
        if depth is not None and needs[bend].depth > depth:
            findings.append(
                Finding(
                    code="too-shallow",
                    severity=Severity.REFUSAL,
                    about=(BendAt(bend + 1),),
                    facts={"below": Length(needs[bend].depth), "depth": Length(depth)},
                )
            )
    return tuple(findings)

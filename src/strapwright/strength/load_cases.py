"""Load cases of a tooling: the plan's peak, relief on the full bore, off centre, pulling back."""

from __future__ import annotations

import math

from attrs import evolve, frozen

from strapwright.bending.hydraulics import pull_force, push_force
from strapwright.shop.press import Press
from strapwright.strength.check_values import Load

# Friction of a bar on a round shoulder: oiled or dry it is 0.05 to 0.2 (from memory).  What slides
# more easily wedges harder; what sticks turns the shoulder inwards.
LOW_FRICTION = 0.05
HIGH_FRICTION = 0.2


@frozen(kw_only=True)
class UnevenShare:
    """What a nose off the middle of the opening does to the loads of a push.

    Attributes
    ----------
    near
        Share of the push on the shoulder that takes more of it [-].
    lean
        Its outward push over that under a nose in the middle [-].
    across
        Force across the nose, as a share of the push [-].
    outward
        Least outward push of that shoulder, as a share of the push [-]: that of its own leg, which
        leans out where friction still holds the mean of both legs.
    """

    near: float = 0.5
    lean: float = 1.0
    across: float = 0.0
    outward: float = 0.0


EVEN = UnevenShare()
# One shoulder takes it all, twice the wedge of one, and the nose as much across: where the bar
# cannot be followed under a nose off the middle (a bound on the safe side, common practice, no
# source).
ONE_SHOULDER = UnevenShare(near=1.0, lean=2.0, across=1.0)


def low_friction(friction: float) -> float:
    """Return the friction that the wedge is reckoned with [-]: the stated one, 0.05 at most."""
    return min(friction, LOW_FRICTION)


def high_friction(friction: float) -> float:
    """Return the friction that draws a shoulder inwards [-]: the stated one, 0.2 at least."""
    return max(friction, HIGH_FRICTION)


def outward_force(force: float, leg_slope: float, friction: float) -> float:
    """Return how hard each shoulder is pushed outwards [N].

    (F/2) tan delta with delta = alpha - atan mu, from the balance of one half of the bar on its
    shoulder; 0 where friction outweighs the slope.

    Parameters
    ----------
    force
        On the nose, both halves [N].
    leg_slope
        alpha, half the angle under load [rad].
    friction
        mu between bar and shoulder [-].
    """
    return 0.5 * force * math.tan(max(0.0, leg_slope - math.atan(friction)))


def push_loads(
    *,
    peak: float | None,
    outward: float | None,
    steepest: float | None,
    press: Press | None,
    friction: float,
    off_centre: float,
    uneven: UnevenShare = EVEN,
) -> tuple[Load, ...]:
    """Return the load cases of the push.

    The wedge at relief is never under that of the plan: a hard bar wedges on the way, where it is
    flatter and pushed harder than at the end.

    Parameters
    ----------
    peak, outward
        Highest force on the nose and on each shoulder of a planned part, or ``None`` [N].
    steepest
        Largest leg slope under load of a planned part, or ``None`` [rad].
    press
        Bore and relief give the most the ram can do, seals and guides taking nothing.
    friction
        Between bar and shoulders [-]; the wedge at relief takes the low end of it.
    off_centre
        How far off the ram's axis the bar may lie [mm].
    uneven
        What the nose may stand off the middle of the opening.
    """
    loads = []
    if peak is not None and outward is not None:
        loads.append(
            Load(
                case="plan",
                force=peak,
                outward=max(uneven.lean * outward, uneven.outward * peak),
                near=uneven.near,
                across=uneven.across * peak,
            )
        )
    if press is not None and press.bore is not None and press.relief is not None:
        force = push_force(press.bore, press.relief)
        slope = 0.0 if steepest is None else steepest
        wedge = outward_force(force, slope, low_friction(friction))
        loads.append(
            Load(
                case="relief",
                force=force,
                outward=max(uneven.lean * max(wedge, outward or 0.0), uneven.outward * force),
                near=uneven.near,
                across=uneven.across * force,
            )
        )
    if off_centre > 0.0:
        loads += [evolve(load, offset=off_centre) for load in loads]
    return tuple(loads)


def retract_load(press: Press | None) -> Load | None:
    """Return the pull on the rod side at relief, as on a part that sticks, or ``None``."""
    if press is None or press.bore is None or press.rod is None or press.relief is None:
        return None
    return Load(case="retract", force=pull_force(press.bore, press.rod, press.relief))

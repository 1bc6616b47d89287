"""What push and wedge of one shoulder ask of the cheek under it.

Free body of a cheek with its shoulder round.  The bar presses where it leaves the round: down with
V = F/2, more where the nose stands off the middle, outwards with H.  The round lies half in the
cheek, its middle over the cheek's inner face, t/2 beside the cheek's own middle.  Friction turns
what the bar presses off the round's middle by r sin(atan mu), inwards, for the bar is drawn in; the
high end of friction is taken.  About the middle of the cheek's root, h below the push:

    outwards  H h
    inwards   V (e + mu h) + P r sin(atan mu),  e = t/2,  P = sqrt(V^2 + H^2)

The bar that is drawn in drags the round with it, by mu V while it is still flat.  They turn against
each other, yet the wedge is anything from nothing (a flat bar, a block) to H at the same push, and
a round need not bed where it is drawn.  So neither is set against the other: the larger bends the
root, and V squashes it (statics).

A block that stands on its base, with a rounded edge, is pushed the same way, and h reaches up to
its very top, where the bar drags: nothing is turned off its middle.

    outwards  H h
    inwards   V (e + mu h),  e from the middle of the root in to the middle of the edge's round

A bend that is opened on the blocks, its legs leaning out over them, pushes them inwards with H:

    inwards   H h + V (e + mu h)
"""

from __future__ import annotations

import math

from strapwright.catalog.thread_sizes import find_thread
from strapwright.shop.members import Bolt, Weld
from strapwright.shop.tooling import Tooling
from strapwright.strength.check_values import Input, Load
from strapwright.strength.load_cases import high_friction
from strapwright.strength.statics.worse_end import nearer_share


def resultant(load: Load) -> float:
    """Force on one shoulder [N]: its share of the push, and the wedge."""
    return math.hypot(load.down, load.outward)


def inward_moment(tooling: Tooling, load: Load, beside: float, height: float) -> float:
    """Moment of a shoulder's push about the middle of a cheek's root [N mm].

    Parameters
    ----------
    tooling
        With its shoulders and friction.
    load
        The push.
    beside
        From the middle of the cheek in to the middle of the round [mm].
    height
        From the root up to where the shoulder pushes [mm].
    """
    friction = high_friction(tooling.friction)
    turned = tooling.shoulders.radius * math.sin(math.atan(friction))
    return load.down * (beside + friction * height) + resultant(load) * turned


def root_moment(
    tooling: Tooling, load: Load, height: float, beside: float
) -> tuple[float, str, tuple[Input, ...]]:
    """Return what bends the root of a cheek [N mm], its formula and what stands in it.

    Parameters
    ----------
    tooling, load, height, beside
        As of :func:`inward_moment`.
    """
    outwards = load.outward * height
    inwards = inward_moment(tooling, load, beside, height)
    if outwards >= inwards:
        return outwards, "H h", (("H", load.outward, "N"), ("h", height, "mm"))
    return (
        inwards,
        f"(({load.down_formula}) (e + mu h) + P r sin(atan mu))",
        (
            ("e", beside, "mm"),
            ("h", height, "mm"),
            ("P", resultant(load), "N"),
            ("r", tooling.shoulders.radius, "mm"),
            ("mu", high_friction(tooling.friction), ""),
        ),
    )


def sideways(tooling: Tooling, load: Load) -> float:
    """Largest force across a standing block [N]: the wedge, or the bar dragged in over its top."""
    return max(load.outward, high_friction(tooling.friction) * load.down)


def standing_moment(
    tooling: Tooling, load: Load, height: float, beside: float
) -> tuple[float, str, tuple[Input, ...]]:
    """Return what bends the root of a standing block [N mm], its formula and what stands in it.

    Parameters
    ----------
    tooling, load
        As of :func:`inward_moment`.
    height, beside
        From the middle of the root up to the rounded edge, and in to the middle of its round [mm].
    """
    friction = high_friction(tooling.friction)
    outwards = load.outward * height
    inwards = load.down * (beside + friction * height)
    if load.inward:
        return (
            outwards + inwards,
            f"(H h + ({load.down_formula}) (e + mu h))",
            (("H", load.outward, "N"), ("e", beside, "mm"), ("mu", friction, ""),
             ("h", height, "mm")),
        )  # fmt: skip
    if outwards >= inwards:
        return outwards, "H h", (("H", load.outward, "N"), ("h", height, "mm"))
    return (
        inwards,
        f"({load.down_formula}) (e + mu h)",
        (("e", beside, "mm"), ("mu", friction, ""), ("h", height, "mm")),
    )


def end_couple(tooling: Tooling, load: Load, beside: float, above: float) -> float:
    """Couple on the end of a cheek between two side plates that takes more [N mm].

    Half of the larger of the two moments about the middle of what holds it, of a push off the
    middle 1/2 + x/L of it, see :mod:`strapwright.strength.statics.worse_end`.

    Parameters
    ----------
    tooling, load, beside
        As of :func:`inward_moment`.
    above
        From that middle up to where the shoulder pushes [mm].
    """
    whole = max(load.outward * abs(above), inward_moment(tooling, load, beside, abs(above)))
    return whole * side_share(tooling, load)


def side_share(tooling: Tooling, load: Load) -> float:
    """Share of what is asked of a cheek that falls to the side plate nearer to the push [-].

    The far end of the cheeks is as far from the near one as the side plates are apart.  Where that
    is not stated the nearer plate takes all of what lies off the middle.
    """
    body = None if tooling.members is None else tooling.members.body
    between = None if body is None else body.between
    if between is None:
        return 1.0 if load.offset else 0.5
    return nearer_share(load.offset, between)


def block_thickness(tooling: Tooling) -> float | None:
    """Thickness of a standing block, out to its outer edge [mm]; ``None`` where none is stated."""
    shoulders = tooling.shoulders
    if shoulders.outer_edge is None:
        return None
    return shoulders.outer_edge - shoulders.opening / 2 + shoulders.radius


def beside_edge(tooling: Tooling, thick: float) -> float:
    """How far in the round of a block's edge lies from the middle of the block [mm].

    Either way: the round of a block thinner than twice its radius lies beyond its middle.
    """
    return abs(thick / 2 - tooling.shoulders.radius)


def beside_of(tooling: Tooling, held: Weld | Bolt) -> float:
    """How far in the round lies from the middle of what a weld or bolts hold [mm].

    A round lies over the inner face of its cheek, which is as thick as stated, else as thick as the
    rows are apart; the round of a block lies its radius behind the block's face.  A block reaches
    out to the outer edge; where that is not stated its welds stand at both faces, and its rows of
    bolts a diameter inside them.
    """
    body = None if tooling.members is None else tooling.members.body
    cheek = None if body is None else body.cheek
    apart = held.spacing or 0.0
    if held.holds == "shoulders":
        thick = apart
        if isinstance(held, Bolt):
            thick += 2 * find_thread(held.size, "tooling.members.bolt").major
        known = block_thickness(tooling)
        return beside_edge(tooling, thick if known is None else max(apart, known))
    return (apart if cheek is None else cheek) / 2

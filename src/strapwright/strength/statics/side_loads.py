"""What pushes the nose sideways, across its length, and the lever it has.

A bar that is harder at one leg, a burr, a shoulder that is dry: none of it is known, so a share of
every push is taken as a force across the nose, at its tip, 5 % where nothing is stated (common
practice, no source).  What a nose off the middle of the opening is pushed aside with is known, and
comes on top.  Free body of nose and carriers, cut at the push plate h above the tip: the
cut carries S sideways and the moment S h.  Guide rods then keep the plate from going; without any,
the piston rod does (statics).
"""

from __future__ import annotations

import math

from strapwright.strength.check_values import Bench, Load


def side_force(bench: Bench, load: Load) -> float:
    """Force across the nose [N], nothing as the ram pulls back.

    The stated share of a push, and what comes of a nose off the middle.
    """
    members = bench.tooling.members
    if members is None or load.case == "retract":
        return 0.0
    return members.side_load * load.force + load.across


def nose_push(bench: Bench, load: Load) -> float:
    """Force on the nose across its length [N]: the push, and what leans on a nose off the middle.

    sqrt(F^2 + S^2).  The 5 % that leans on a nose in the middle adds a thousandth and is left out.
    """
    return math.hypot(load.force, side_force(bench, load)) if load.across else load.force


def push_formula(load: Load) -> str:
    """How a line of hand calculation writes that."""
    return "sqrt(F^2 + S^2)" if load.across else "F"


def farthest(bench: Bench) -> float:
    """How far off the ram's axis any push of the bench lies [mm]; a stuck bar lies there too."""
    return max((load.offset for load in bench.pushes), default=0.0)


def tip_lever(bench: Bench) -> float | None:
    """From the push plate's face to the tip of the nose [mm], or ``None`` where it is not stated.

    The stated reach; else the web or the free height of the carriers, and the nose.
    """
    nose, members = bench.tooling.nose, bench.tooling.members
    if nose.reach is not None:
        return nose.reach
    carriers = None if members is None else members.carriers
    above = nose.web_height if nose.web_thickness is not None else None
    if above is None and carriers is not None:
        above = carriers.height
    return None if above is None else above + 2 * nose.radius


def ram_lever(bench: Bench) -> float | None:
    """From the upper face of the push plate to the tip of the nose [mm], ``None`` likewise."""
    members, tip = bench.tooling.members, tip_lever(bench)
    plate = None if members is None else members.push_plate
    if tip is None or plate is None or plate.thickness is None:
        return None
    return tip + plate.thickness

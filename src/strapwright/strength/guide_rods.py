"""Guide rods: the couple of a push off centre, and binding of the bushes.

Free body of the push plate: the push F lies x beside the ram's axis, so that its bushes must give
the couple F x, each a pair of forces N a bush length L apart, N L = F x/n.  The rod takes that
couple where the bush is: held below alone it carries all of it down to its foot; held at both ends,
a couple at the distance a from one end bends it by C a/l and C (l - a)/l, half at least, and all of
it with the bush at an end.  So all of it is taken, wherever the bush is on its way (statics; beam
tables, a couple between the supports).
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.shop.members import Guides
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.beams import round_section
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.statics.side_loads import side_force

_KEY = "tooling.members.guides"


def most_offset(bush: float, friction: float, diameter: float = 0.0) -> float:
    """Return the offset past which a guide locks [mm].

    Couple N L = F x and friction 2 mu N: free while L > 2 mu x, the 2:1 rule at mu 0.25.  A thick
    rod adds mu d to the length needed.

    Parameters
    ----------
    bush, diameter
        Bearing length and rod [mm].
    friction
        Static [-].
    """
    return max(0.0, (bush - friction * diameter) / (2 * friction))


def couple_on_each(force: float, offset: float, count: int) -> float:
    """Couple F x/n that bends each of so many rods [N mm]; offset [mm], force [N]."""
    return force * offset / count


def guide_checks(bench: Bench) -> Iterator[Result]:
    """Check the guide rods; without any, the piston rod takes what is off centre."""
    members = bench.tooling.members
    stated = None if members is None else members.guides
    if stated is None:
        return
    for key, value in (
        ("diameter", stated.diameter),
        ("bush", stated.bush),
    ):
        if value is None:
            yield Unchecked(
                member="guide rods",
                what="side load and binding",
                state=f"enter their {key}",
                where=f"{_KEY}.{key}",
            )
            return
    who = part("guide rods", "guides", stated.material)
    for load in bench.pushes:
        if load.offset > 0.0:
            yield from _one(bench, who, stated, load)
        elif side_force(bench, load) > 0.0:
            yield _leaned_on(bench, who, stated, load)


def _leaned_on(bench: Bench, who: Part, stated: Guides, load: Load) -> Result:
    """Each rod bent by its share of what leans on the nose, at the far end of its free length.

    Held below it is a cantilever, S l/n at its foot; held at both ends the push plate is taken in
    the middle, S l/(4 n).
    """
    length = stated.length
    if length is None:
        return Unchecked(
            member="guide rods", what=f"side load, {load.name}", state="enter their length",
            where=f"{_KEY}.length",
        )  # fmt: skip
    section = round_section(stated.diameter or 0.0)
    side = side_force(bench, load) / stated.count
    ends = stated.held == "both ends"
    return who.bending(
        load,
        side * length / (4 if ends else 1) / section.modulus,
        "S l/(4 n W)" if ends else "S l/(n W)",
        ("S", side * stated.count, "N"),
        ("l", length, "mm"),
        ("n", float(stated.count), ""),
        ("W", section.modulus, "mm3"),
    )


def _one(bench: Bench, who: Part, stated: Guides, load: Load) -> Iterator[Check]:
    """Each rod bent along the nose by its couple, and across it by its share of what leans on it.

    A round is bent by both together as by one moment, the root of the sum of their squares; they
    are largest at one place, the foot, or taken as if they were.
    """
    diameter, bush = stated.diameter or 0.0, stated.bush or 1.0
    section = round_section(diameter)
    moment = couple_on_each(load.force, load.offset, stated.count)
    ends, length = stated.held == "both ends", stated.length or 0.0
    side = side_force(bench, load) / stated.count
    leaned = side * length / (4 if ends else 1)
    formula = "F x/(n W)"
    more: tuple[Input, ...] = ()
    if leaned > 0.0:
        formula = f"sqrt((F x)^2 + ({'S l/4' if ends else 'S l'})^2)/(n W)"
        more = (("S", side * stated.count, "N"), ("l", length, "mm"))
    yield who.bending(
        load,
        math.hypot(moment, leaned) / section.modulus,
        formula,
        ("x", load.offset, "mm"),
        *more,
        ("n", float(stated.count), ""),
        ("W", section.modulus, "mm3"),
    )
    most = most_offset(bush, stated.friction, diameter)
    if stated.spacing is not None:
        # Past a rod the load no longer lies between what guides it.
        most = min(most, stated.spacing / 2)
    yield who.checked(
        "binding",
        load,
        demand=load.offset,
        capacity=most,
        unit="mm",
        formula="x",
        allowed="(L - mu d)/(2 mu), inside the rods",
        source="2:1 rule for plain bushes",
        grade="handbook",
        inputs=(
            ("L", bush, "mm"),
            ("d", diameter, "mm"),
            ("mu", stated.friction, ""),
            ("s", stated.spacing or 0.0, "mm"),
        ),
        grows=0.0,
    )

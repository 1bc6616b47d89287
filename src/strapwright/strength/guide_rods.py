"""Guide rods: side load of a push off centre, and binding of the bushes."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.shop.members import Guides
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.beams import central_moment, round_section
from strapwright.strength.check_values import Bench, Check, Load, Result, Unchecked

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


def side_load(force: float, offset: float, bush: float, count: int) -> float:
    """Side load N = F x/L on each of so many rods [N]; offset and bush [mm], force [N]."""
    return force * offset / bush / count


def guide_checks(bench: Bench) -> Iterator[Result]:
    """Check the guide rods; without any, the piston rod takes what is off centre."""
    members = bench.tooling.members
    stated = None if members is None else members.guides
    if stated is None:
        return
    for key, value in (
        ("diameter", stated.diameter),
        ("bush", stated.bush),
        ("length", stated.length),
    ):
        if value is None:
            yield Unchecked(
                member="guide rods",
                what="side load and binding",
                state=f"state their {key}",
                where=f"{_KEY}.{key}",
            )
            return
    who = part("guide rods", "guides", stated.material)
    for load in bench.pushes:
        if load.offset > 0.0:
            yield from _one(who, stated, load)


def _one(who: Part, stated: Guides, load: Load) -> Iterator[Check]:
    diameter, bush, length = stated.diameter or 0.0, stated.bush or 1.0, stated.length or 0.0
    section = round_section(diameter)
    side = side_load(load.force, load.offset, bush, stated.count)
    moment = central_moment(side, length, 0.0)
    yield who.bending(
        load,
        moment / section.modulus,
        "N l/(4 W), N = F x/(L n)",
        ("N", side, "N"),
        ("x", load.offset, "mm"),
        ("L", bush, "mm"),
        ("n", float(stated.count), ""),
        ("l", length, "mm"),
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

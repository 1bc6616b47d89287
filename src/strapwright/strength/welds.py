"""Fillet welds: strength, least size and effective length (AISC 360 J2)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.member_names import WELDS
from strapwright.shop.members import Weld
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.check_values import Bench, Check, Result, Unchecked
from strapwright.strength.joint_forces import held_loads, lacks_height

# AISC 360 J2.2a and table J2.5: share of the electrode's strength, factor on it.
THROAT = 0.7071  # of an equal-leg fillet
WELD_SHARE = 0.60
ON_WELD = 2.00
# AISC 360 table J2.4: thickness of the thinner part up to -> least leg [mm].
LEAST_LEG = (
    (INCH_MM / 4, INCH_MM / 8),
    (INCH_MM / 2, 3 * INCH_MM / 16),
    (3 * INCH_MM / 4, INCH_MM / 4),
    (math.inf, 5 * INCH_MM / 16),
)


def strength_per_length(leg: float, electrode: float) -> float:
    """Allowed load per length of a fillet [N/mm] of a leg [mm]: 0.60 F_EXX 0.7071 w/2.00 [MPa]."""
    return WELD_SHARE * electrode * THROAT * leg / ON_WELD


def least_leg(thinner: float) -> float:
    """Least leg [mm] by the thickness of the thinner part [mm]."""
    return next(leg for limit, leg in LEAST_LEG if thinner <= limit * (1 + 1e-9))


def effective(leg: float, length: float) -> tuple[float, float]:
    """Effective leg and length of one run [mm, mm -> mm].

    AISC 360 J2.2b: a run shorter than four legs counts with a leg of a quarter of its length; one
    longer than 100 legs with 1.2 - 0.002 L/w of its length, past 300 legs with 180 legs.
    """
    if length < 4 * leg:
        return length / 4, length
    if length > 300 * leg:
        return leg, 180 * leg
    return leg, min(1.0, 1.2 - 0.002 * length / leg) * length


def weld_checks(bench: Bench) -> Iterator[Result]:
    """Check every weld that is stated."""
    members = bench.tooling.members
    for number, weld in enumerate(() if members is None else members.weld, start=1):
        key = f"weld[{number}]"
        who = part(WELDS[weld.holds], key, "unknown steel")
        yield _size(who, weld)
        if lacks_height(bench, weld):
            yield _missing(who, "strength", "state height, from the weld to where the bar pushes")
            continue
        leg, length = effective(weld.size, weld.length)
        strength = strength_per_length(leg, weld.electrode)
        for held in held_loads(bench, weld):
            if held.tilt > 0.0 and weld.spacing is None:
                yield _missing(
                    who,
                    f"tilting, {held.load.name}",
                    "state spacing, between the two rows that stand against tilting",
                )
                continue
            tilt = 0.0 if not held.tilt else held.tilt / (weld.spacing or 1.0) / (length / 2)
            demand = math.hypot(held.across / length, held.along / length + tilt)
            yield who.checked(
                "strength",
                held.load,
                demand=demand,
                capacity=strength,
                unit="N/mm",
                formula="sqrt((V/l)^2 + (T/l + 2 M/(s l))^2)",
                allowed="0.60 F_EXX 0.7071 w/2.00",
                source="AISC 360 J2.4, along the run",
                grade="standard",
                inputs=(
                    ("V", held.across, "N"),
                    ("T", held.along, "N"),
                    ("M", held.tilt, "N mm"),
                    ("l", length, "mm"),
                    ("s", weld.spacing or 0.0, "mm"),
                    ("w", leg, "mm"),
                    ("F_EXX", weld.electrode, "MPa"),
                ),
                factors=(("safety on weld", ON_WELD),),
            )


def _size(who: Part, weld: Weld) -> Result:
    if weld.thinner is None:
        return _missing(who, "least size", "state thinner, the thickness of the thinner part")
    return Check(
        member=who.name,
        what="least size",
        case="any",
        demand=least_leg(weld.thinner),
        capacity=weld.size,
        unit="mm",
        formula="w_min",
        allowed="w",
        source="AISC 360 table J2.4",
        grade="standard",
        inputs=(("t", weld.thinner, "mm"),),
        where=who.where,
        grows=0.0,
    )


def _missing(who: Part, what: str, state: str) -> Unchecked:
    return Unchecked(member=who.name, what=what, state=state, where=who.where)

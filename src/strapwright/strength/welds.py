"""Fillet welds: strength, least size and effective length (AISC 360 J2)."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.member_names import WELDS
from strapwright.shop.members import Weld
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.check_values import Bench, Check, Result, Unchecked
from strapwright.strength.joint_forces import Held, held_loads, lacking
from strapwright.strength.statics.worse_end import end_share

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
        lacks = lacking(bench, weld, "weld")
        if lacks is not None:
            yield _missing(who, "strength", lacks)
            continue
        yield from _strength(bench, who, weld)


@frozen(kw_only=True)
class _Line:
    """What a length of weld sees at its worst place [N/mm], and its formula."""

    load: float
    formula: str


def _carrying(weld: Weld, length: float, held: Held) -> float | None:
    """How much of a row carries what lies off its middle [mm], ``None`` where all of it does."""
    if not held.off or held.row is None or held.row >= length / min(weld.runs, 2):
        return None
    return held.row


def _worst_line(weld: Weld, length: float, held: Held) -> _Line:
    """Line load on the worst place of all runs.

    Of a tilting couple across two rows s apart, half of the length to each, 2 M/(s l); of one that
    turns the joint on its face, by which the rows slide past each other, as much.  End to end along
    n runs of l/n each, whose section modulus as lines is n (l/n)^2/6: 6 M_l n/l^2.  What lies x off
    the middle of two rows asks 1 + 6 x/(l/2) of their ends (statics, welds as lines), of rows
    of which no more than b carries 1 + 6 x/b.

    Parameters
    ----------
    weld
        With its rows and runs.
    length
        Of all runs, effective [mm].
    held
        With its forces.
    """
    rows, apart = min(weld.runs, 2), weld.spacing or 1.0
    short = _carrying(weld, length, held)
    more = end_share(held.off, length / rows if short is None else short)
    words = _K[rows] if short is None else "k = 1 + 6 x/b"
    across, away = held.across / length, held.along / length
    slide, tear = "V/l", "T/l"
    if held.twist:
        across += 2 * held.twist / (apart * length)
        slide += " + 2 M_t/(s l)"
    if held.tilt:
        away += 2 * held.tilt / (apart * length)
        tear += " + 2 M/(s l)"
    across, away = more * across, more * away
    if held.lengthwise:
        away += 6 * held.lengthwise * weld.runs / length**2
        ends = "6 M_l n/l^2"
        tear = f"({tear}) k + {ends}" if held.off else f"{tear} + {ends}"
    elif held.off:
        return _Line(
            load=math.hypot(across, away), formula=f"k sqrt(({slide})^2 + ({tear})^2), {words}"
        )
    if held.off:
        return _Line(
            load=math.hypot(across, away),
            formula=f"sqrt((({slide}) k)^2 + ({tear})^2), {words}",
        )
    return _Line(load=math.hypot(across, away), formula=f"sqrt(({slide})^2 + ({tear})^2)")


# How much more the ends of one row and of two take.
_K = {1: "k = 1 + 6 x/l", 2: "k = 1 + 12 x/l"}


def _strength(bench: Bench, who: Part, weld: Weld) -> Iterator[Result]:
    leg, each = effective(weld.size, weld.length / weld.runs)
    length = each * weld.runs
    for held in held_loads(bench, weld):
        if held.tilt > 0.0 and weld.spacing is None:
            yield _missing(
                who,
                f"tilting, {held.load.name}",
                "enter spacing, between the two rows that stand against tilting",
            )
            continue
        line, short = _worst_line(weld, length, held), _carrying(weld, length, held)
        yield who.checked(
            "strength",
            held.load,
            demand=line.load,
            capacity=strength_per_length(leg, weld.electrode),
            unit="N/mm",
            formula=line.formula,
            allowed="0.60 F_EXX 0.7071 w/2.00",
            source="AISC 360 J2.4, along the run; J2.2b for each run",
            grade="standard",
            inputs=(
                ("V", held.across, "N"),
                ("T", held.along, "N"),
                ("M", held.tilt, "N mm"),
                ("M_l", held.lengthwise, "N mm"),
                *((("M_t", held.twist, "N mm"),) if held.twist else ()),
                *((("x", held.off, "mm"),) if held.off else ()),
                ("l", length, "mm"),
                *((("b", short, "mm"),) if short is not None else ()),
                ("n", float(weld.runs), ""),
                ("s", weld.spacing or 0.0, "mm"),
                ("w", leg, "mm"),
                ("F_EXX", weld.electrode, "MPa"),
            ),
            factors=(("safety on weld", ON_WELD),),
        )


def _size(who: Part, weld: Weld) -> Result:
    if weld.thinner is None:
        return _missing(who, "least size", "enter thinner, the thickness of the thinner part")
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

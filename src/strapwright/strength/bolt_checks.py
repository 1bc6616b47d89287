"""Bolts: tension against their clamp, shear, both together, and stripping."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.bolts import (
    CLAMP_SHARE,
    BoltGrade,
    clamp_load,
    find_grade,
    lowest_grade,
)
from strapwright.catalog.steels import Steel, find_steel
from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Bolt
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.check_values import Bench, Input, Result, Unchecked
from strapwright.strength.joint_forces import Held, held_loads, lacking
from strapwright.strength.statics.worse_end import end_share, outer_bolt_share
from strapwright.strength.thread_stripping import low_areas

# AISC 360 J3.6 for shear; the factor on stripping is common practice.  Beyond its clamp a joint
# opens.
ON_SHEAR = 2.00
SHEAR_SHARE = 0.45  # of tensile strength on the nominal area, threads in the plane
ON_STRIPPING = 2.00
LEAST_PITCH = 8 / 3  # diameters from bolt to bolt at least, AISC 360 J3.3 (from memory)


@frozen(kw_only=True)
class Strength:
    """What one bolt is allowed [N]."""

    tension: float
    shear: float


def bolt_strength(thread: Thread, grade: BoltGrade) -> Strength:
    """Return what a bolt is allowed in tension and in shear through its thread [N]."""
    return Strength(
        tension=clamp_load(thread, grade),
        shear=SHEAR_SHARE * grade.tensile * math.pi * thread.major**2 / 4 / ON_SHEAR,
    )


def bolt_checks(bench: Bench) -> Iterator[Result]:
    """Check every group of bolts that is stated."""
    members = bench.tooling.members
    for number, bolt in enumerate(() if members is None else members.bolt, start=1):
        key = f"bolt[{number}]"
        who = part(BOLTS[bolt.holds], key, "unknown steel")
        thread = find_thread(bolt.size, f"{who.where}.size")
        name = bolt.grade or lowest_grade(thread)
        grade = find_grade(name, thread, f"{who.where}.grade")
        lacks = lacking(bench, bolt, "face")
        if lacks is not None:
            yield _missing(who, "strength", lacks)
            continue
        for held in held_loads(bench, bolt):
            if held.couple > 0.0 and (rows_apart(bolt) is None or bolt.count < 2):
                yield _missing(
                    who,
                    f"tilting, {held.load.name}",
                    "enter spacing of two rows and at least two bolts, or the circle and at least "
                    "three, which stand against tilting",
                )
                continue
            if held.couple > 0.0 < held.across and _one_in_a_row(bolt):
                yield _missing(
                    who,
                    f"tilting, {held.load.name}",
                    "enter four bolts or more, or a circle: two rows of one stand against nothing "
                    "that leans on the nose",
                )
                continue
            yield from _one(who, bolt, thread, grade, held)


def _one_in_a_row(bolt: Bolt) -> bool:
    """Whether bolts of the ram stand on one line along the nose, and tip across it."""
    return bolt.holds == "push plate" and bolt.circle is None and bolt.count < 4


def rows_apart(bolt: Bolt) -> float | None:
    """How far apart the two rows stand that take a tilting couple [mm], or ``None``.

    Of n bolts on a circle of radius r the farthest takes 2 M/(n r) at most, as two rows r apart
    would; of two the line through both stands against nothing.
    """
    if bolt.spacing is not None:
        return bolt.spacing
    return None if bolt.circle is None or bolt.count < 3 else bolt.circle / 2


def tension_per_bolt(bolt: Bolt, held: Held) -> float:
    """Tension of the most loaded bolt [N]: its share, and the couple on one of two rows.

    What lies off the middle of the rows asks more of the outer bolts, see :func:`outer_share`.

    Of n bolts evenly in one line s long the outer ones take M/s at most: M x/sum x^2, which is M/s
    for two and three and 0.9 M/s for four (statics).
    """
    row = 1 if held.in_line else max(1, bolt.count // 2)
    tilt = held.couple / (rows_apart(bolt) or 1.0) / row
    return (held.prying * held.along / bolt.count + tilt) * outer_share(bolt, held)


def shear_per_bolt(bolt: Bolt, held: Held) -> float:
    """Shear of the most loaded bolt [N]: its share, and what turns the joint on one of two rows.

    What lies off the middle of two rows of one bolt each turns the joint on both bolts.
    """
    twist = held.twist + (held.across * held.off if bolt.count < 4 else 0.0)
    turn = twist / (rows_apart(bolt) or 1.0) / max(1, bolt.count // 2)
    return held.across / bolt.count * outer_share(bolt, held) + turn


def outer_share(bolt: Bolt, held: Held) -> float:
    """Load of an outer bolt over the mean of its row, of a load off the row's middle [-].

    Of two rows of half of the bolts each.  A row whose length is not stated is as short as it may
    be, 2-2/3 diameters from bolt to bolt (AISC 360 J3.3); bolts on a circle are taken as a row as
    long as the circle is wide, which is more: 1 + 4 x/d against 1 + 6 x/d at most.
    """
    if bolt.circle is not None:
        return end_share(held.off, bolt.circle)
    each = bolt.count // 2
    least = (each - 1) * LEAST_PITCH * find_thread(bolt.size, "tooling.members.bolt").major
    return outer_bolt_share(held.off, least if held.row is None else held.row, each)


def _one(who: Part, bolt: Bolt, thread: Thread, grade: BoltGrade, held: Held) -> Iterator[Result]:
    strength = bolt_strength(thread, grade)
    tension, shear = tension_per_bolt(bolt, held), shear_per_bolt(bolt, held)
    both = math.hypot(tension / strength.tension, shear / strength.shear)
    inputs: tuple[Input, ...] = (
        ("T", tension, "N"),
        ("V", shear, "N"),
        ("T_a", strength.tension, "N"),
        ("V_a", strength.shear, "N"),
        ("proof", grade.proof, "MPa"),
        ("Rm", grade.tensile, "MPa"),
        ("At", thread.stress_area, "mm2"),
        *((("prying", held.prying, ""),) if held.prying > 1.0 else ()),
    )
    yield who.checked(
        "tension and shear",
        held.load,
        demand=both,
        capacity=1.0,
        unit="",
        formula="sqrt((T/T_a)^2 + (V/V_a)^2)",
        allowed="1, T_a 0.75 proof At, V_a 0.45 Rm A/2",
        source=f"{grade.system} grade {grade.name}; clamp 75 % of proof; AISC 360 J3",
        grade="standard",
        inputs=inputs,
        factors=(("share of proof", CLAMP_SHARE), ("safety on shear", ON_SHEAR)),
    )
    if tension > 0.0:
        yield _stripping(who, bolt, thread, grade, held, tension)


def stripping_strength(thread: Thread, grade: BoltGrade, tapped: Steel, engaged: float) -> float:
    """Load that strips the weaker of the two threads over an engagement [mm], half shared in [N].

    The engagement counts to one and a half diameters: the first turns carry most (common
    practice).
    """
    bolt, hole = low_areas(thread)
    counted = min(engaged, 1.5 * thread.major)
    return 0.5 * counted * min(bolt * grade.tensile, hole * tapped.tensile_strength)


def _stripping(
    who: Part, bolt: Bolt, thread: Thread, grade: BoltGrade, held: Held, tension: float
) -> Result:
    if bolt.length is None or bolt.grip is None:
        return _missing(who, "stripping", "enter length and grip, for the thread engaged")
    tapped = find_steel(bolt.into, f"{who.where}.into")
    engaged = bolt.length - bolt.grip
    return who.checked(
        "stripping",
        held.load,
        demand=tension,
        capacity=stripping_strength(thread, grade, tapped, engaged) / ON_STRIPPING,
        unit="N",
        formula="T",
        allowed="0.5 Le min(As Rm, An Rm')/2",
        source="FED-STD-H28/2B areas on the low side",
        grade="common practice",
        inputs=(
            ("Le", engaged, "mm"),
            ("Rm", grade.tensile, "MPa"),
            ("Rm'", tapped.tensile_strength, "MPa"),
        ),
        factors=(("safety on stripping", ON_STRIPPING),),
    )


def _missing(who: Part, what: str, state: str) -> Unchecked:
    return Unchecked(member=who.name, what=what, state=state, where=who.where)

"""The piston rod: buckling, and bending by a load off centre where nothing guides it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.catalog.steels import MODULUS
from strapwright.errors import key_of
from strapwright.strength.allowable_stress import part
from strapwright.strength.beams import round_section
from strapwright.strength.check_values import Bench, Input, Result, Unchecked
from strapwright.strength.columns import FIXED_FREE, PINNED, critical_load, euler, magnified
from strapwright.strength.statics.side_loads import ram_lever, side_force

ON_BUCKLING = 4.0  # sources ask 3 to 5 of a cylinder's rod
_KEY = "tooling.members.rod"


def rod_checks(bench: Bench) -> Iterator[Result]:
    """Check buckling and bending of the piston rod.

    Where no guide rods stand it is a cantilever from its gland: what leans on the nose, h below its
    end, bends it by S (L + h), a push off the middle by F e the other way, both together as their
    root of squares, and the push magnifies that as it nears Euler's, see
    :func:`strapwright.strength.columns.magnified`.
    """
    members = bench.tooling.members
    stated = None if members is None else members.rod
    if members is None or stated is None or stated.free_length is None:
        yield _missing(
            f"enter {key_of('tooling.members.rod')} with its {key_of('free_length')}", _KEY
        )
        return
    if bench.press is None or bench.press.rod is None:
        yield _missing(f"enter {key_of('press.rod')}, its diameter", "press.rod")
        return
    who = part("piston rod", "rod", stated.material)
    section = round_section(bench.press.rod)
    factor = PINNED if stated.guided else FIXED_FREE
    strength = who.steel.yield_strength
    limit = critical_load(
        section.area,
        section.inertia,
        stated.free_length,
        factor,
        strength=strength,
        modulus=MODULUS,
    )
    size: tuple[Input, ...] = (("L", stated.free_length, "mm"), ("d", bench.press.rod, "mm"))
    for load in bench.centred:
        yield who.checked(
            "buckling",
            load,
            demand=load.force,
            capacity=limit / ON_BUCKLING,
            unit="N",
            formula="F",
            allowed=f"P_cr/4, n = {factor:g}",
            source="Euler and Johnson; 3 to 5 for cylinder rods",
            grade="handbook",
            inputs=(*size, ("Re", strength, "MPa")),
            factors=(("safety on buckling", ON_BUCKLING),),
        )
    if stated.guided and members.guides is not None:
        return
    # What bends it finds no guide rods at its end, whatever is said of them.
    slender = euler(section.inertia, stated.free_length, FIXED_FREE, MODULUS)
    lever = ram_lever(bench)
    for load in bench.pushes:
        side = side_force(bench, load)
        arm = stated.free_length + (lever or 0.0)
        if load.offset == 0.0:
            if side > 0.0 and lever is None:
                yield Unchecked(
                    member="piston rod",
                    what=f"push and side load, {load.name}",
                    state="enter the reach of the nose and the push plate's thickness, or guides",
                    where="tooling.nose.reach",
                )
            elif side > 0.0:
                yield who.direct(
                    "push and side load",
                    load,
                    load.force / section.area
                    + magnified(load.force, slender) * side * arm / section.modulus,
                    "F/A + S (L + h)/(W (1 - 1.67 F/P_E))",
                    *size,
                    ("S", side, "N"),
                    ("h", arm - stated.free_length, "mm"),
                    ("P_E", slender, "N"),
                )
            continue
        leaned = 0.0 if lever is None else side * arm
        moment = math.hypot(load.force * load.offset, leaned)
        stress = (
            load.force / section.area + magnified(load.force, slender) * moment / section.modulus
        )
        both: tuple[Input, ...] = ()
        if leaned > 0.0:
            both = (("S", side, "N"), ("h", arm - stated.free_length, "mm"))
        yield who.direct(
            "push and bending",
            load,
            stress,
            "F/A + sqrt((F e)^2 + (S (L + h))^2)/(W (1 - 1.67 F/P_E))"
            if both
            else "F/A + F e/(W (1 - 1.67 F/P_E))",
            *size,
            *both,
            ("e", load.offset, "mm"),
            ("P_E", slender, "N"),
        )


def _missing(state: str, where: str) -> Unchecked:
    return Unchecked(member="piston rod", what="buckling and bending", state=state, where=where)

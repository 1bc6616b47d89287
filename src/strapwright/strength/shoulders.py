"""The shoulders: a round on its seat or between supports, or a block, under push and wedge."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.catalog.steels import MODULUS, POISSON, find_steel
from strapwright.errors import key_of
from strapwright.shop.members import ShoulderMember
from strapwright.strength.allowable_stress import ON_YIELD, Part, part
from strapwright.strength.beams import central_moment, round_section
from strapwright.strength.bodies.standing_blocks import edge_checks, stands_alone
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.line_contact import FIRST_YIELD, line_contact
from strapwright.strength.statics.seat_loads import resultant
from strapwright.strength.statics.worse_end import nearer_share

_KEY = "tooling.members.shoulders"


def shoulder_checks(bench: Bench) -> Iterator[Result]:
    """Check the shoulders under the resultant of push and wedge."""
    members = bench.tooling.members
    stated = None if members is None else members.shoulders
    if stated is None:
        yield _missing("bending and contact", f"enter {key_of('tooling.members.shoulders')}", "")
        return
    if stands_alone(bench.tooling):
        yield from edge_checks(bench, stated)
        return
    who = part("shoulders", "shoulders", stated.material)
    if not stated.backed and stated.between is None:
        yield _missing("bending and shear", "enter between, from support to support", ".between")
    for load in bench.pushes:
        if not stated.backed and stated.between is not None:
            yield from _beam(bench, who, stated.between, load)
        # The seat is as wide as the bar there: a bar off the middle presses on it no harder.
        if not stated.backed or load.offset:
            continue
        if stated.kind == "shaft":
            yield _contact(bench, who, stated, load)
        else:
            yield _seated(bench, who, stated, load)
            yield _corner(bench, stated, load)


def _beam(bench: Bench, who: Part, span: float, load: Load) -> Iterator[Check]:
    """A round from support to support: bent most in its middle, sheared most off it."""
    section = round_section(2 * bench.tooling.shoulders.radius)
    spread = min(bench.loaded, span)
    force = resultant(load)
    size: tuple[Input, ...] = (
        ("P", force, "N"),
        ("H", load.outward, "N"),
        ("L", span, "mm"),
        ("a", spread, "mm"),
        ("W", section.modulus, "mm3"),
    )
    shear = section.shear_peak * force * nearer_share(load.offset, span) / section.area
    cut: tuple[Input, ...] = (size[0], ("A", section.area, "mm2"))
    if load.offset:
        off: tuple[Input, ...] = (("x", load.offset, "mm"), size[2])
        yield who.shear(load, shear, "(4/3) P (1/2 + x/L)/A", *cut, *off)
        return
    moment = central_moment(force, span, spread)
    yield who.bending(load, moment / section.modulus, "P (2 L - a)/(8 W)", *size)
    yield who.shear(load, shear, "(4/3) P/(2 A)", *cut)


def _contact(bench: Bench, who: Part, stated: ShoulderMember, load: Load) -> Check:
    """A shaft on the flat of its seat; the softer skin yields first."""
    seat = find_steel(stated.seat_material, f"{_KEY}.seat_material")
    diameter = 2 * bench.tooling.shoulders.radius
    force = resultant(load)
    half, pressure = line_contact(
        force,
        bench.loaded,
        diameter,
        None,
        moduli=(MODULUS, MODULUS),
        poissons=(POISSON, POISSON),
    )
    softer = min(who.steel.skin_yield, seat.skin_yield)
    return who.checked(
        "contact on the seat",
        load,
        demand=pressure,
        capacity=FIRST_YIELD * softer,
        unit="MPa",
        formula="2 P/(pi w l)",
        allowed="1.6 Re of the softer skin",
        source="Hertz line contact; first yield below the skin",
        grade="from memory",
        inputs=(
            ("P", force, "N"),
            ("l", bench.loaded, "mm"),
            ("d", diameter, "mm"),
            ("w", half, "mm"),
            ("Re", softer, "MPa"),
        ),
        grows=0.5,
    )


def _seated(bench: Bench, who: Part, stated: ShoulderMember, load: Load) -> Check:
    """A round in a seat half around it.

    The seat reaches from straight under the round's middle outwards and up.  Across the resultant,
    which leans outwards by d, sin d = H/P, it is r (1 + sin d) wide: of a flat bar half the round.
    """
    seat = find_steel(stated.seat_material, f"{_KEY}.seat_material")
    radius, force = bench.tooling.shoulders.radius, resultant(load)
    lean = load.outward / force if force > 0.0 else 0.0
    weaker = part("shoulders", "shoulders", min(
        (who.steel, seat), key=lambda steel: steel.yield_strength).name)  # fmt: skip
    return weaker.bearing(
        load,
        force / (radius * (1 + lean) * bench.loaded),
        "P/(r (1 + H/P) l)",
        ("P", force, "N"),
        ("H", load.outward, "N"),
        ("r", radius, "mm"),
        ("l", bench.loaded, "mm"),
    )


def _corner(bench: Bench, stated: ShoulderMember, load: Load) -> Check:
    """The edge of the seat at the inner face of its cheek, under half of a push straight down.

    A flat bar wedges nothing, so the round bears beside the free face, on half its own width at
    most.  No steel stands before that face, so the seat is held to what a short strut stands and
    not to what a hole does.
    """
    seat = part("shoulders", "shoulders", stated.seat_material)
    radius, half = bench.tooling.shoulders.radius, load.down
    strength = seat.steel.yield_strength
    return seat.checked(
        "corner of the seat",
        load,
        demand=half / (radius * bench.loaded),
        capacity=strength / ON_YIELD,
        unit="MPa",
        formula=f"({load.down_formula})/(r l)",
        allowed="Re/1.67",
        source="AISC 360 E3, a strut of no length",
        grade="standard",
        inputs=(("r", radius, "mm"), ("l", bench.loaded, "mm"), ("Re", strength, "MPa")),
        factors=(("safety on yield", ON_YIELD),),
    )


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="shoulders", what=what, state=state, where=f"{_KEY}{key}")

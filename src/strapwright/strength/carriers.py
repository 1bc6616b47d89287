"""The carriers of the nose: the hole, the plate as a strut and in tension, and their pins."""

from __future__ import annotations

from collections.abc import Iterator

from attrs import evolve

from strapwright.catalog.steels import MODULUS, find_steel
from strapwright.errors import key_of
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import Carriers
from strapwright.shop.plate_members import metal_under_nose
from strapwright.strength import pins
from strapwright.strength.allowable_stress import (
    ON_BREAKING,
    ON_YIELD,
    SHEAR_SHARE,
    Part,
    part,
)
from strapwright.strength.beams import twisting
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.columns import FIXED_FREE, critical_load
from strapwright.strength.statics.side_loads import farthest, nose_push, side_force, tip_lever
from strapwright.strength.statics.worse_end import nearer_share

_KEY = "tooling.members.carriers"


def carrier_checks(bench: Bench) -> Iterator[Result]:
    """Check the more loaded carrier; nothing where a web holds the nose and none are stated."""
    members, nose = bench.tooling.members, bench.tooling.nose
    stated = None if members is None else members.carriers
    if nose.held == "web":
        return
    if stated is None:
        if nose.web_thickness is None:
            yield _missing("bearing and tension", f"enter {key_of('tooling.members.carriers')}", "")
    elif stated.thickness is None or stated.width is None:
        key = "thickness" if stated.thickness is None else "width"
        yield _missing("bearing and tension", f"enter their {key}", f".{key}")
    else:
        yield from _checked(bench, stated)


def _checked(bench: Bench, stated: Carriers) -> Iterator[Result]:
    who = part("carriers", "carriers", stated.material)
    for load in bench.pushes:
        share = carrier_share(bench, load)
        if share is None:
            yield _missing(
                f"bearing, {load.name}",
                f"enter {key_of('tooling.members.nose.between')}, for a load off centre falls to "
                "one carrier",
                "",
            )
            continue
        yield from _pushed(bench, who, stated, load, share)
        if side_force(bench, load) > 0.0:
            yield _leaned_on(bench, who, stated, load, share)
        if bench.tooling.nose.held == "one end":
            yield _bent(bench, who, stated, load)
            yield from _twisted(bench, who, stated, load)
            yield from _all_together(bench, who, stated, load)
        if stated.pin is not None:
            yield from _pin(stated, load, share)
    if bench.retract is not None:
        yield from _pulled(bench, who, stated, bench.retract)
        yield _torn_out(bench, who, stated, bench.retract)
        if bench.tooling.nose.held == "one end":
            yield _bent(bench, who, stated, bench.retract)
    if stated.height is None:
        yield _missing("buckling", "enter their free height", ".height")


def carrier_share(bench: Bench, load: Load) -> float | None:
    """Force on the more loaded carrier [N]; ``None`` where its lever is not stated.

    R = F (L/2 + x)/L from the moments about the other carrier (statics); past the carrier it is
    more than all of the push.  A bar that sticks lies as far off as one that is pushed.
    """
    if bench.tooling.nose.held == "one end":
        return load.force
    off = pulled_off(bench, load)
    members = bench.tooling.members
    nose = None if members is None else members.nose
    if off == 0.0:
        return load.force / 2
    if nose is None or nose.between is None:
        return None
    return load.force * nearer_share(off, nose.between)


def pulled_off(bench: Bench, load: Load) -> float:
    """How far off the ram's axis a push lies, or a part that sticks may lie [mm]."""
    return farthest(bench) if load.case == "retract" else load.offset


def one_end_lever(bench: Bench, load: Load) -> float | None:
    """From the bar's middle, or where a push lies off it, to the middle of the one carrier [mm].

    ``None`` where the nose's reach past the bar is not stated.  The narrowest bar lies farthest.
    """
    members = bench.tooling.members
    nose = None if members is None else members.nose
    carrier = None if members is None else members.carriers
    if nose is None or nose.between is None:
        return None
    thick = 0.0 if carrier is None else carrier.thickness or 0.0
    return nose.between - bench.width / 2 + thick / 2 + pulled_off(bench, load)


def _bent(bench: Bench, who: Part, stated: Carriers, load: Load) -> Result:
    """The one carrier of a nose held at one end, pushed and bent about its thickness."""
    lever = one_end_lever(bench, load)
    if lever is None:
        return _missing(
            f"push and bending, {load.name}", f"enter {key_of('tooling.members.nose.between')}", ""
        )
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    modulus = wide * thick**2 / 6
    return who.direct(
        "push and bending",
        load,
        load.force / (thick * wide) + load.force * lever / modulus,
        "F/(b t) + 6 F c/(b t^2)",
        ("c", lever, "mm"),
        ("t", thick, "mm"),
        ("b", wide, "mm"),
    )


def _twisted(bench: Bench, who: Part, stated: Carriers, load: Load) -> Iterator[Check]:
    """The one carrier, twisted by what leans on the nose at the bar's middle."""
    side, lever = side_force(bench, load), one_end_lever(bench, load)
    if side <= 0.0 or lever is None:
        return
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    stress = 1.5 * side / (thick * wide) + twisting(side * lever, wide, thick)
    yield who.shear(
        load,
        stress,
        "1.5 S/(b t) + S c/(0.208 b t^2)",
        ("S", side, "N"),
        ("c", lever, "mm"),
        ("t", thick, "mm"),
        ("b", wide, "mm"),
        what="twist by the side load",
    )


def _all_together(bench: Bench, who: Part, stated: Carriers, load: Load) -> Iterator[Check]:
    """Everything that one carrier stands at once: pushed, bent both ways, sheared and twisted.

    Bent most at a corner and twisted most in the middle of its faces; both are taken at one place,
    which is on the safe side.
    """
    side, lever, tip = side_force(bench, load), one_end_lever(bench, load), tip_lever(bench)
    if side <= 0.0 or lever is None or tip is None:
        return
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    area = thick * wide
    yield who.combined(
        "push, bending, side load and twist",
        load,
        load.force / area + 6 * load.force * lever / (wide * thick**2)
        + 6 * side * tip / (thick * wide**2),
        1.5 * side / area + twisting(side * lever, wide, thick),
        "sqrt(s^2 + 3 t^2), s = F/(b t) + 6 F c/(b t^2) + 6 S h/(t b^2), "
        "t = 1.5 S/(b t) + S c/(0.208 b t^2)",
        ("S", side, "N"),
        ("c", lever, "mm"),
        ("h", tip, "mm"),
        ("t", thick, "mm"),
        ("b", wide, "mm"),
    )  # fmt: skip


def _leaned_on(bench: Bench, who: Part, stated: Carriers, load: Load, share: float) -> Result:
    """A carrier pushed, and bent across its width by its share of what leans on the nose."""
    lever = tip_lever(bench)
    if lever is None:
        return _missing(
            f"push and side load, {load.name}", "enter their free height, or the reach", ".height"
        )
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    side = side_force(bench, load) * share / load.force
    return who.direct(
        "push and side load",
        load,
        share / (thick * wide) + 6 * side * lever / (thick * wide**2),
        "R/(b t) + 6 S h/(t b^2)",
        ("R", share, "N"),
        ("S", side, "N"),
        ("h", lever, "mm"),
        ("t", thick, "mm"),
        ("b", wide, "mm"),
    )


def _clamp(bench: Bench, load: Load, thick: float) -> tuple[float, float]:
    """How much more the edge of a hole is pressed than its middle [-], and the lever [mm].

    A nose out of one carrier is clamped in its hole: pressed up on one side, down on the other.
    """
    lever = one_end_lever(bench, load) if bench.tooling.nose.held == "one end" else 0.0
    return 1 + 6 * (lever or 0.0) / thick, lever or 0.0


def _pushed(bench: Bench, who: Part, stated: Carriers, load: Load, share: float) -> Iterator[Check]:
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    hole = 2 * bench.tooling.nose.radius
    clamp, lever = _clamp(bench, load, thick)
    # The nose is pressed on the edge of its hole, whichever of the two is the softer.
    members = bench.tooling.members
    nose = None if members is None or members.nose is None else members.nose.material
    pressed = share * nose_push(bench, load) / load.force
    yield softer_of(who, nose).bearing(
        load,
        pins.bearing(pressed, hole, thick) * clamp,
        "R/(d t) (1 + 6 c/t)" if lever else "R/(d t)",
        ("R", pressed, "N"),
        ("d", hole, "mm"),
        ("t", thick, "mm"),
        *((("c", lever, "mm"),) if lever else ()),
    )
    if stated.height is None:
        return
    area, inertia = thick * wide, wide * thick**3 / 12
    limit = critical_load(
        area,
        inertia,
        stated.height,
        FIXED_FREE,
        strength=who.steel.yield_strength,
        modulus=MODULUS,
    )
    yield who.checked(
        "buckling",
        load,
        demand=share,
        capacity=limit / ON_YIELD,
        unit="N",
        formula="R",
        allowed="P_cr/1.67, n = 1/4",
        source="Euler and Johnson, AISC 360 E1",
        grade="standard",
        inputs=(("h", stated.height, "mm"), ("t", thick, "mm"), ("b", wide, "mm")),
        factors=(("safety on buckling", ON_YIELD),),
    )


def softer_of(who: Part, other: str | None) -> Part:
    """Return a member as if of the softer of its steel and of another that presses on it.

    AISC 360 J7 counts the lower yield of the two; ``None`` where nothing is said of the other.
    """
    if other is None:
        return who
    steel = find_steel(other, f"{who.where}.material")
    return evolve(who, steel=min((who.steel, steel), key=lambda one: one.yield_strength))


def _pulled(bench: Bench, who: Part, stated: Carriers, load: Load) -> Iterator[Check]:
    """Net section beside the hole, as the part sticks and the ram pulls back."""
    share = carrier_share(bench, load) or load.force
    thick, wide = stated.thickness or 0.0, stated.width or 0.0
    hole = max(2 * bench.tooling.nose.radius, stated.pin or 0.0)
    net = (wide - hole) * thick
    yield who.direct(
        "tension beside the hole",
        load,
        share / net if net > 0.0 else float("inf"),
        "R/((b - d) t)",
        ("R", share, "N"),
        ("b", wide, "mm"),
        ("d", hole, "mm"),
        ("t", thick, "mm"),
    )


def _torn_out(bench: Bench, who: Part, stated: Carriers, load: Load) -> Check:
    """What is under the nose, sheared out along two planes as the ram pulls back on a stuck part.

    AISC 360 D5.1(b): 0.6 Fu on 2 t (a + d/2), a from the hole to the end.
    """
    share = carrier_share(bench, load) or load.force
    thick, hole = stated.thickness or 0.0, 2 * bench.tooling.nose.radius
    below = metal_under_nose(stated, hole)
    clamp, lever = _clamp(bench, load, thick)
    strength = who.steel.tensile_strength
    return who.checked(
        "tearing out under the nose",
        load,
        demand=share * clamp,
        capacity=SHEAR_SHARE * strength * 2 * thick * (below + hole / 2) / ON_BREAKING,
        unit="N",
        formula="R (1 + 6 c/t)" if lever else "R",
        allowed="0.6 Rm 2 t (a + d/2)/2",
        source="AISC 360 D5.1(b), shear rupture of a pin plate",
        grade="standard",
        inputs=(
            ("R", share, "N"),
            ("a", below, "mm"),
            ("d", hole, "mm"),
            ("t", thick, "mm"),
            *((("c", lever, "mm"),) if lever else ()),
            ("Rm", strength, "MPa"),
        ),
        factors=(("safety on breaking", ON_BREAKING),),
    )


def _pin(stated: Carriers, load: Load, share: float) -> Iterator[Result]:
    if stated.cheek is None:
        yield _missing("pins", "enter cheek, the plate beside a carrier", ".cheek")
        return
    diameter, cheek, centre = stated.pin or 0.0, stated.cheek, stated.thickness or 0.0
    yield from pin_checks("carrier pins", "carriers", stated.pin_material, stated.material,
                          load=load, share=share, diameter=diameter, cheek=cheek,
                          centre=centre)  # fmt: skip


def pin_checks(
    name: MemberName,
    key: str,
    material: str,
    plates: str,
    load: Load,
    share: float,
    diameter: float,
    cheek: float,
    centre: float,
) -> Iterator[Check]:
    """Check a pin in double shear.

    Parameters
    ----------
    name, key, material
        Of the pin.
    plates
        Steel of the plates that it presses on.
    load, share
        Load case, and the force on this pin [N].
    diameter, cheek, centre
        Of the pin, of each plate beside and of the plate between [mm].
    """
    who = part(name, key, material)
    moment = pins.point_moment(share, cheek, centre)
    size: tuple[Input, ...] = (
        ("R", share, "N"),
        ("a", cheek, "mm"),
        ("b", centre, "mm"),
        ("d", diameter, "mm"),
    )
    stress = pins.bending_stress(moment, diameter)
    yield who.bending(load, stress, "16 R (a/2 + b/2)/(pi d^3)", *size)
    yield who.shear(load, pins.peak_shear(share, diameter), "(4/3) R/(2 A)", *size[:1], size[3])
    # The plates are softer than most pins, and two thin ones beside are pressed harder than one.
    least = min(centre, 2 * cheek)
    words = "R/(d b)" if least == centre else "R/(2 d a)"
    pressed = pins.bearing(share, diameter, least)
    yield softer_of(who, plates).bearing(load, pressed, words, *size)


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="carriers", what=what, state=state, where=f"{_KEY}{key}")

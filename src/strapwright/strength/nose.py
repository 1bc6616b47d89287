"""The nose: a round between two carriers, a round out of one, or a round backed by a web."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.catalog.steels import MODULUS, POISSON
from strapwright.errors import key_of
from strapwright.shop.members import NoseMember
from strapwright.strength.allowable_stress import ON_YIELD, Part, part
from strapwright.strength.beams import (
    Section,
    cantilever_sag,
    central_moment,
    central_sag,
    round_section,
    sag_over_end,
    sag_over_middle,
)
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.columns import FIXED_FREE, critical_load, euler, magnified
from strapwright.strength.line_contact import FIRST_YIELD, line_contact
from strapwright.strength.statics.side_loads import (
    nose_push,
    push_formula,
    side_force,
    tip_lever,
)
from strapwright.strength.statics.worse_end import (
    end_share,
    nearer_share,
    pressed_share,
    pressed_words,
)

SAG_SHARE = 500.0  # of the span, so that a bend does not come out barrelled; common practice
# What a bend may differ from one edge of the bar to the middle or to the other [rad]: half a
# degree, which a protractor tells apart; common practice, no source.
ALONG = math.radians(0.5)


def nose_checks(bench: Bench) -> Iterator[Result]:
    """Check bending, shear and sag, or the web that backs the nose."""
    members, nose = bench.tooling.members, bench.tooling.nose
    stated = None if members is None else members.nose
    if stated is None:
        yield Unchecked(
            member="nose",
            what="bending, shear and sag",
            state=f"enter {key_of('tooling.members.nose')} with its material and between",
            where="tooling.members.nose",
        )
        return
    who = part("nose", "nose", stated.material)
    if nose.web_thickness is not None:
        web = part("nose", "nose", stated.web_material or stated.material)
        yield from _web(bench, web, nose.web_thickness, nose.web_height or 0.0)
        yield from _on_web(bench, who, web, nose.web_thickness)
        return
    if stated.between is None:
        yield Unchecked(
            member="nose",
            what="bending, shear and sag",
            state="enter between, from the middle of one carrier to the middle of the other",
            where="tooling.members.nose.between",
        )
        return
    # A groove of the rod's own round goes half a rod deep all about.
    diameter = 2 * nose.radius - (bench.thickness if nose.groove == "fitted" else 0.0)
    if diameter <= 0.0:
        yield Unchecked(
            member="nose",
            what="bending, shear and sag",
            state="the groove leaves no core, so take a thicker nose",
            where="tooling.nose.groove",
        )
        return
    section = round_section(diameter)
    for load in bench.pushes:
        if nose.held == "both ends" and load.offset:
            # Bent and sagging most under a push in the middle, and sheared most off it.
            yield _sheared_off(bench, who, section, stated.between, load)
        elif load.offset:
            continue  # at its end as far as the nose reaches, wherever the bar lies on it
        elif nose.held == "both ends":
            yield from _between_two(bench, who, stated, section, load)
        else:
            yield from _out_of_one(bench, who, stated, section, load)


def _across(bench: Bench, load: Load) -> tuple[Input, ...]:
    """What leans on a nose off the middle, as it stands in a formula [N]; else nothing."""
    return (("S", side_force(bench, load), "N"),) if load.across else ()


def _sheared_off(bench: Bench, who: Part, section: Section, span: float, load: Load) -> Check:
    """Shear beside the carrier that a push off the middle lies nearer to."""
    near = nose_push(bench, load) * nearer_share(load.offset, span)
    return who.shear(
        load,
        section.shear_peak * near / section.area,
        f"(4/3) {push_formula(load)} (1/2 + x/L)/A",
        *_across(bench, load),
        ("x", load.offset, "mm"),
        ("L", span, "mm"),
        ("A", section.area, "mm2"),
    )


def _between_two(
    bench: Bench, who: Part, stated: NoseMember, section: Section, load: Load
) -> Iterator[Check]:
    span = stated.between or 0.0
    spread = min(bench.loaded, span)
    push, words = nose_push(bench, load), push_formula(load)
    moment = central_moment(push, span, spread)
    size: tuple[Input, ...] = (
        *_across(bench, load),
        ("L", span, "mm"),
        ("a", spread, "mm"),
        ("W", section.modulus, "mm3"),
    )
    yield who.bending(load, moment / section.modulus, f"{words} (2 L - a)/(8 W)", *size)
    shear = section.shear_peak * push / 2 / section.area
    cut: tuple[Input, ...] = (*_across(bench, load), ("A", section.area, "mm2"))
    yield who.shear(load, shear, f"(4/3) {words}/(2 A)", *cut)
    sag = central_sag(load.force, span, spread, MODULUS * section.inertia)
    formula = "F (8 L^3 - 4 L a^2 + a^3)/(384 E I)"
    yield _sag(who, stated, load, sag=sag, formula=formula, span=span, section=section)
    wide = min(bench.width, span)
    differs = sag_over_middle(load.force, span, wide, MODULUS * section.inertia)
    formula = "k F a^2 (12 L - 7 a)/(384 E I)"
    yield from _along(bench, who, load, differs, formula, (span, wide, section))


def _out_of_one(
    bench: Bench, who: Part, stated: NoseMember, section: Section, load: Load
) -> Iterator[Check]:
    reach = stated.between or 0.0
    push, words, leans = nose_push(bench, load), push_formula(load), _across(bench, load)
    size: tuple[Input, ...] = (*leans, ("L", reach, "mm"), ("W", section.modulus, "mm3"))
    yield who.bending(load, push * reach / section.modulus, f"{words} L/W", *size)
    shear = section.shear_peak * push / section.area
    yield who.shear(load, shear, f"(4/3) {words}/A", *leans, ("A", section.area, "mm2"))
    sag = cantilever_sag(load.force, reach, MODULUS * section.inertia)
    yield _sag(who, stated, load, sag=sag, formula="F L^3/(3 E I)", span=reach, section=section)
    wide = min(bench.width, reach)
    differs = sag_over_end(load.force, reach, wide, MODULUS * section.inertia)
    formula = "k F a (3 L^2 - a^2)/(6 E I)"
    yield from _along(bench, who, load, differs, formula, (reach, wide, section))


def _along(
    bench: Bench,
    who: Part,
    load: Load,
    differs: float,
    formula: str,
    beam: tuple[float, float, Section],
) -> Iterator[Check]:
    """What a sagging nose leaves of the bend along a bar: a travel [mm] times angle a travel.

    Under the plan's own push alone; at relief no bend is to come out right.
    """
    if bench.steepness is None or load.case != "plan":
        return
    span, wide, section = beam
    yield who.checked(
        "angle along the bar",
        load,
        demand=differs * bench.steepness,
        capacity=ALONG,
        unit="rad",
        formula=formula,
        allowed="0.5°",
        source="elastic line of the beam; limit by common practice",
        grade="common practice",
        inputs=(
            ("k", bench.steepness, "rad/mm"),
            ("L", span, "mm"),
            ("a", wide, "mm"),
            ("I", section.inertia, "mm4"),
            ("E", MODULUS, "MPa"),
        ),
        breaks=False,
    )


def _sag(
    who: Part,
    stated: NoseMember,
    load: Load,
    sag: float,
    formula: str,
    span: float,
    section: Section,
) -> Check:
    own = stated.sag is not None
    return who.checked(
        "sag",
        load,
        demand=sag,
        capacity=stated.sag if stated.sag is not None else span / SAG_SHARE,
        unit="mm",
        formula=formula,
        allowed="sag" if own else "L/500",
        source="AISC manual beam tables, limit by common practice",
        grade="common practice",
        inputs=(("L", span, "mm"), ("I", section.inertia, "mm4"), ("E", MODULUS, "MPa")),
    )


def _leaned_on(bench: Bench, who: Part, load: Load, length: float) -> Iterator[Result]:
    """The foot of a web, squashed by a push and bent about its thickness by what leans on it.

    Both are more at one end, where they lie off the middle.  The push bends a leaning web further,
    see :func:`strapwright.strength.columns.magnified`.
    """
    lever, thick = tip_lever(bench), bench.tooling.nose.web_thickness or 0.0
    side = side_force(bench, load)
    if lever is None or side <= 0.0:
        return
    height = bench.tooling.nose.web_height or 0.0
    slender = euler(length * thick**3 / 12, height, FIXED_FREE, MODULUS)
    more = magnified(load.force, slender)
    yield who.direct(
        "push and side load of the web",
        load,
        (load.force / (thick * length) + more * 6 * side * lever / (length * thick**2))
        * end_share(load.offset, length),
        f"({_LEANS}) (1 + 6 e/b)" if load.offset else _LEANS,
        ("S", side, "N"),
        ("h", lever, "mm"),
        ("t", thick, "mm"),
        ("b", length, "mm"),
        ("P_E", slender, "N"),
        *((("e", load.offset, "mm"),) if load.offset else ()),
    )


_LEANS = "F/(t b) + 6 S h/(b t^2)/(1 - 1.67 F/P_E)"


def _web(bench: Bench, who: Part, thickness: float, height: float) -> Iterator[Result]:
    """A plate on edge over the bar's width, free at its foot: squashed and buckled.

    Over the bars that are there, and off the middle over all, of which the missing one is empty.
    """
    for load in bench.pushes:
        length = bench.width if load.offset else bench.loaded
        area, inertia = thickness * length, length * thickness**3 / 12
        size: tuple[Input, ...] = (("t", thickness, "mm"), ("b", length, "mm"))
        # Off the middle one end of the web takes more.
        stress = load.force / area * end_share(load.offset, length)
        formula = "F/(t b) (1 + 6 e/b)" if load.offset else "F/(t b)"
        off: tuple[Input, ...] = (("e", load.offset, "mm"),) if load.offset else ()
        yield who.direct("squashing of the web", load, stress, formula, *size, *off)
        if height <= 0.0:
            continue
        yield from _leaned_on(bench, who, load, length)
        if load.offset:
            continue
        limit = critical_load(
            area,
            inertia,
            height,
            FIXED_FREE,
            strength=who.steel.yield_strength,
            modulus=MODULUS,
        )
        yield who.checked(
            "buckling of the web",
            load,
            demand=load.force,
            capacity=limit / ON_YIELD,
            unit="N",
            formula="F",
            allowed="P_cr/1.67, n = 1/4",
            source="Euler and Johnson, AISC 360 E1",
            grade="standard",
            inputs=(*size, ("h", height, "mm")),
            factors=(("safety on buckling", ON_YIELD),),
        )


def _on_web(bench: Bench, who: Part, web: Part, thickness: float) -> Iterator[Check]:
    """The edge of a web on its round.

    Welds that hold the round carry the push, and its edge is taken as pressed all over; without
    welds the flat of the edge touches the round along a line.  Off the middle one end takes more,
    and where nothing holds the other end to the web it lifts off.
    """
    members, round_ = bench.tooling.members, 2 * bench.tooling.nose.radius
    welded = members is not None and any(one.holds == "nose" for one in members.weld)
    softer = min((who, web), key=lambda one: one.steel.yield_strength)
    for load in bench.pushes:
        width = bench.width if load.offset else bench.loaded
        most = load.force * (end_share if welded else pressed_share)(load.offset, width)
        end = pressed_words(load.offset, width).replace("x/l", "e/b")
        off: tuple[Input, ...] = (("e", load.offset, "mm"),) if load.offset else ()
        if welded:
            yield softer.bearing(
                load,
                most / (thickness * width),
                "F/(t b) (1 + 6 e/b)" if off else "F/(t b)",
                ("t", thickness, "mm"),
                ("b", width, "mm"),
                *off,
                what="edge of the web on the round",
            )
            continue
        half, pressure = line_contact(
            most, width, round_, None,
            moduli=(MODULUS, MODULUS), poissons=(POISSON, POISSON),
        )  # fmt: skip
        skin = min(who.steel.skin_yield, web.steel.skin_yield)
        yield who.checked(
            "edge of the web on the round",
            load,
            demand=pressure,
            capacity=FIRST_YIELD * skin,
            unit="MPa",
            formula=f"2 F {end}/(pi w b)" if off else "2 F/(pi w b)",
            allowed="1.6 Re of the softer skin",
            source="Hertz line contact; first yield below the skin",
            grade="from memory",
            inputs=(
                ("b", width, "mm"),
                ("d", round_, "mm"),
                ("w", half, "mm"),
                *off,
                ("Re", skin, "MPa"),
            ),
            grows=0.5,
        )

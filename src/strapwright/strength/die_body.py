"""The die body: cheeks that push and wedge bend, and the floor or plates that tie them."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.errors import key_of
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.beams import flat_section
from strapwright.strength.bodies.floor_holes import floor_left
from strapwright.strength.bodies.standing_blocks import standing_checks, stands_alone
from strapwright.strength.bodies.tied_body import tied_checks
from strapwright.strength.check_values import Bench, Input, Load, Result, Unchecked
from strapwright.strength.statics.seat_loads import root_moment
from strapwright.strength.statics.worse_end import (
    TIED_END,
    end_share,
    off_inputs,
    pressed_share,
    pressed_words,
    root_strip,
)

_KEY = "tooling.members.body"


def body_checks(bench: Bench) -> Iterator[Result]:
    """Check cheeks and floor under push and wedge; fastenings are checked beside them.

    What bends the root of a cheek is in :mod:`strapwright.strength.statics.seat_loads`.  Of a push
    off the middle its worse end takes (1 + 6 x/l), see
    :mod:`strapwright.strength.statics.worse_end`, and so does the floor beside it; a cheek that
    nothing welds down lifts off at its far end.  A cheek longer than the push spreads to carries
    with no more of its length.  Bolts that come up into it take their holes out of the floor.
    """
    if stands_alone(bench.tooling):
        yield from standing_checks(bench)
        return
    members = bench.tooling.members
    stated = None if members is None else members.body
    if stated is None:
        if members is None or not {"shoulders", "cheeks"} & set(members.held):
            yield _missing(
                "outward wedge",
                f"enter {key_of('tooling.members.body')}, or a weld or bolt that holds the "
                "shoulders",
                "",
            )
        return
    if stated.side_plate is not None:
        yield from tied_checks(bench, stated, stated.side_plate)
        return
    height = stated.height or bench.tooling.shoulders.height
    for key, value in (("cheek", stated.cheek), ("length", stated.length), ("height", height)):
        if value is None:
            yield _missing("bending of the cheeks", f"enter its {key}", f".{key}")
            return
    cheek, length, height = stated.cheek or 0.0, stated.length or 0.0, height or 0.0
    who = part("die body", "body", stated.material)
    tied = members is not None and any(one.holds in {"shoulders", "cheeks"} for one in members.weld)
    if stated.floor is None:
        yield _missing("tension and bending of the floor", "enter its floor", ".floor")
    for load in bench.pushes:
        strip = root_strip(bench.loaded, height, length, load.offset)
        section = flat_section(strip.carries, cheek)
        more = (end_share if tied else pressed_share)(strip.off, strip.length)
        end = TIED_END if tied else pressed_words(strip.off, strip.length)
        off = off_inputs(strip.off, strip.length)
        moment, formula, given = root_moment(bench.tooling, load, height, cheek / 2)
        size: tuple[Input, ...] = (("H", load.outward, "N"), ("A", section.area, "mm2"))
        yield who.direct(
            "push and bending",
            load,
            more * (load.down / section.area + moment / section.modulus),
            _at_end(load, f"({load.down_formula})/A + {formula}/W", end),
            *given,
            size[1],
            ("W", section.modulus, "mm3"),
            *off,
        )
        yield who.shear(
            load,
            more * section.shear_peak * load.outward / section.area,
            f"1.5 H/A {end}" if off else "1.5 H/A",
            *size,
            *off,
        )
        if stated.floor is not None:
            net = floor_left(bench.tooling, who.steel, length, strip.carries)
            yield _floor(who, load, (net, stated.floor), (moment, formula, given), (more, end, off))


def _floor(
    who: Part,
    load: Load,
    size: tuple[float, float],
    bends: tuple[float, str, tuple[Input, ...]],
    worse: tuple[float, str, tuple[Input, ...]],
) -> Result:
    """The floor is pulled, and bent by what bends the cheek at its root, past the cheek's bolts."""
    (net, thick), (moment, formula, given), (more, end, off) = size, bends, worse
    if net <= 0.0:
        return _missing(
            "tension and bending of the floor", "enter bolts that leave some of it between them",
            ".floor",
        )  # fmt: skip
    floor = flat_section(net, thick)
    return who.direct(
        "tension and bending of the floor",
        load,
        more * (load.outward / floor.area + moment / floor.modulus),
        _at_end(load, f"H/A + {formula}/W", end),
        *dict.fromkeys((("H", load.outward, "N"), *given)),
        ("A", floor.area, "mm2"),
        ("W", floor.modulus, "mm3"),
        *off,
    )


def _at_end(load: Load, formula: str, end: str) -> str:
    return f"({formula}) {end}" if load.offset else formula


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="die body", what=what, state=state, where=f"{_KEY}{key}")

"""The die body: cheeks that push and wedge bend, and the floor or plates that tie them."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.errors import key_of
from strapwright.strength.allowable_stress import part
from strapwright.strength.beams import flat_section
from strapwright.strength.bodies.standing_blocks import standing_checks, stands_alone
from strapwright.strength.bodies.tied_body import tied_checks
from strapwright.strength.check_values import Bench, Input, Load, Result, Unchecked
from strapwright.strength.statics.seat_loads import root_moment
from strapwright.strength.statics.worse_end import end_share, off_inputs, spread_along

_KEY = "tooling.members.body"


def body_checks(bench: Bench) -> Iterator[Result]:
    """Check cheeks and floor under push and wedge; fastenings are checked beside them.

    What bends the root of a cheek is in :mod:`strapwright.strength.statics.seat_loads`.  Of a push
    off the middle its worse end takes (1 + 6 x/l), see
    :mod:`strapwright.strength.statics.worse_end`, and so does the floor beside it.  A cheek longer
    than the push spreads to carries with no more of its length.
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
    along = spread_along(bench.loaded, height, length)
    section = flat_section(along, cheek)
    if stated.floor is None:
        yield _missing("tension and bending of the floor", "enter its floor", ".floor")
    for load in bench.pushes:
        more = end_share(load.offset, length)
        off = off_inputs(load, length)
        moment, formula, given = root_moment(bench.tooling, load, height, cheek / 2)
        size: tuple[Input, ...] = (("H", load.outward, "N"), ("A", section.area, "mm2"))
        yield who.direct(
            "push and bending",
            load,
            more * (load.down / section.area + moment / section.modulus),
            _at_end(load, f"({load.down_formula})/A + {formula}/W"),
            *given,
            size[1],
            ("W", section.modulus, "mm3"),
            *off,
        )
        yield who.shear(
            load,
            more * section.shear_peak * load.outward / section.area,
            "1.5 H/A (1 + 6 x/l)" if off else "1.5 H/A",
            *size,
            *off,
        )
        if stated.floor is None:
            continue
        # The floor is pulled, and bent by what bends the cheek at its root.
        floor = flat_section(along, stated.floor)
        stress = more * (load.outward / floor.area + moment / floor.modulus)
        yield who.direct(
            "tension and bending of the floor",
            load,
            stress,
            _at_end(load, f"H/A + {formula}/W"),
            *dict.fromkeys((size[0], *given)),
            ("A", floor.area, "mm2"),
            ("W", floor.modulus, "mm3"),
            *off,
        )


def _at_end(load: Load, formula: str) -> str:
    return f"({formula}) (1 + 6 x/l)" if load.offset else formula


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="die body", what=what, state=state, where=f"{_KEY}{key}")

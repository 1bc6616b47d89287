"""A die body without a floor: cheeks tied by two plates bolted across their ends."""

from __future__ import annotations

from collections.abc import Iterator

from strapwright.catalog.clearance import widest_hole
from strapwright.catalog.thread_sizes import find_thread
from strapwright.shop.members import Bolt, DieBody
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.beams import central_moment, flat_section, twisting
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.joint_forces import side_plate_share
from strapwright.strength.statics.seat_loads import end_couple, side_share

_KEY = "tooling.members.body"
_LEAST = 1.0  # mm, where a seat takes all of a cheek; numerical


def tied_checks(bench: Bench, stated: DieBody, side: float) -> Iterator[Result]:
    """Check cheeks as beams between two side plates, and the side plates as ties.

    Parameters
    ----------
    bench
        Tooling and loads.
    stated
        The body.
    side
        Thickness of a side plate [mm].
    """
    for key, value in (
        ("cheek", stated.cheek),
        ("between", stated.between),
        ("tall", stated.tall),
        ("height", stated.height),
    ):
        if value is None:
            yield _missing("cheeks and side plates", f"enter its {key}", f".{key}")
            return
    who = part("die body", "body", stated.material)
    bolt = _bolt(bench)
    if bolt is None:
        yield _missing(
            "bearing of the side plates", "enter the bolt that holds the side plates", ""
        )
    for load in bench.pushes:
        yield from _cheek(bench, who, stated, load)
        yield from _plate(bench, who, stated, side, bolt, load)


def _cheek(bench: Bench, who: Part, stated: DieBody, load: Load) -> Iterator[Check]:
    """A beam on edge between the plates, loaded over the bar's width and twisted by its ends.

    The height of the shoulder's seat carries nothing.  A load in the middle bends it most; a load
    off the middle shears and twists the end that it lies nearer to.
    """
    span, thick, tall = stated.between or 0.0, stated.cheek or 0.0, stated.tall or 0.0
    left = max(tall - bench.tooling.shoulders.radius, _LEAST)
    section = flat_section(left, thick)
    spread = min(bench.loaded, span)
    size: tuple[Input, ...] = (("H", load.outward, "N"), ("L", span, "mm"), ("a", spread, "mm"))
    if not load.offset:
        yield who.bending(
            load,
            central_moment(load.outward, span, spread) / section.modulus,
            "H (2 L - a)/(8 W)",
            *size,
            ("W", section.modulus, "mm3"),
        )
    # The plates hold it at their middle; the shoulder pushes out above that and down beside it.
    twist = end_couple(bench.tooling, load, thick / 2, (stated.height or 0.0) - tall / 2)
    near, off = load.outward * side_share(bench.tooling, load), _off(load, span)
    long, short = max(left, thick), min(left, thick)
    yield who.shear(
        load,
        section.shear_peak * near / section.area + twisting(twist, left, thick),
        f"1.5 {_near_formula(load)}/A + T/(0.208 b t^2)",
        size[0],
        *off,
        ("A", section.area, "mm2"),
        ("T", twist, "N mm"),
        ("b", long, "mm"),
        ("t", short, "mm"),
    )


def _plate(
    bench: Bench, who: Part, stated: DieBody, side: float, bolt: Bolt | None, load: Load
) -> Iterator[Check]:
    """Half of the wedge pulls a plate past its holes, and the couple of a cheek's end bends it.

    Of a push off the middle the plate nearer to it takes 1/2 + x/L.
    """
    tall, height = stated.tall or 0.0, stated.height or 0.0
    holes, drilled = _holes(stated, bolt)
    net = max(tall - holes, 0.0) * side
    modulus = max(side * tall**3 / 12 - side * drilled, 0.0) / (tall / 2)
    couple = end_couple(bench.tooling, load, (stated.cheek or 0.0) / 2, height - tall / 2)
    pull = load.outward * side_share(bench.tooling, load)
    stress = pull / net + couple / modulus if net > 0.0 < modulus else float("inf")
    yield who.direct(
        "tension and bending of the side plates",
        load,
        stress,
        f"{_near_formula(load)}/A + M/W",
        ("H", load.outward, "N"),
        *_off(load, stated.between or 0.0),
        ("A", net, "mm2"),
        ("M", couple, "N mm"),
        ("W", modulus, "mm3"),
    )
    if bolt is None:
        return
    share = side_plate_share(bench.tooling, load, bolt) / bolt.count
    diameter = find_thread(bolt.size, "size").major
    yield who.bearing(
        load,
        share / (diameter * side),
        "R/(d t)",
        ("R", share, "N"),
        ("d", diameter, "mm"),
        ("t", side, "mm"),
    )


def _near_formula(load: Load) -> str:
    """How a line writes what of the wedge the nearer side plate takes."""
    return "H (1/2 + x/L)" if load.offset else "(H/2)"


def _off(load: Load, span: float) -> tuple[Input, ...]:
    """What stands in that [mm]."""
    return (("x", load.offset, "mm"), ("L", span, "mm")) if load.offset else ()


def _holes(stated: DieBody, bolt: Bolt | None) -> tuple[float, float]:
    """What the bolts take out of a side plate's height, and of its inertia per thickness [mm, mm3].

    About the plate's own middle; see :func:`strapwright.catalog.clearance.widest_hole`.
    """
    if bolt is None:
        return 0.0, 0.0
    tall, height = stated.tall or 0.0, stated.height or 0.0
    thread = find_thread(bolt.size, "tooling.members.bolt")
    wide = widest_hole(thread.size, thread.major)
    middle = height - (bolt.height or 0.0) - tall / 2
    # They stand in one line, evenly from the first to the last, as they are drawn.
    apart, steps = bolt.spacing or 0.0, max(bolt.count - 1, 1)
    rows = (
        [middle - apart / 2 + apart * k / steps for k in range(bolt.count)]
        if apart > 0.0 < bolt.count - 1
        else [middle]
    )
    return len(rows) * wide, sum(wide * at**2 + wide**3 / 12 for at in rows)


def _bolt(bench: Bench) -> Bolt | None:
    members = bench.tooling.members
    stated = () if members is None else members.bolt
    return next((one for one in stated if one.holds == "side plates"), None)


def _missing(what: str, state: str, key: str) -> Unchecked:
    return Unchecked(member="die body", what=what, state=state, where=f"{_KEY}{key}")

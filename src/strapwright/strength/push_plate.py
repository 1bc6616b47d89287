"""The push plate: a plate between the carriers, backed by the ram's face."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from attrs import frozen

from strapwright.catalog.clearance import widest_hole
from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import key_of
from strapwright.shop.kept_plates import KeptHole
from strapwright.shop.members import Bolt, PushPlate
from strapwright.strength.allowable_stress import Part, part
from strapwright.strength.beams import Section, central_moment, flat_section, twisting
from strapwright.strength.carriers import one_end_lever, pulled_off
from strapwright.strength.check_values import Bench, Input, Load, Result, Unchecked
from strapwright.strength.statics.side_loads import side_force, tip_lever

_KEY = "tooling.members.push_plate"
LENGTH = f"{_KEY}.length"


def push_plate_checks(bench: Bench) -> Iterator[Result]:
    """Check bending and shear of the push plate, pushing, off centre too, and pulling back.

    Free body of the half beside the ram's axis: the nearer carrier presses up with F (1/2 + x/L) at
    L/2, half of the pad down at a/4.  M = F (2 L - a)/8 + F x/2; the couple F x goes on to the ram
    or the guides (statics).  Two bolts of the ram are taken to lie on the section, along the nose
    and across it; of a plate that stays, the row of its holes that takes more, wherever it lies.
    """
    members, nose = bench.tooling.members, bench.tooling.nose
    stated = None if members is None else members.push_plate
    if stated is None:
        yield _missing(
            f"enter {key_of('tooling.members.push_plate')} with its thickness and width", ""
        )
        return
    if stated.thickness is None or stated.width is None:
        key = "thickness" if stated.thickness is None else "width"
        yield _missing(f"enter its {key}", f".{key}")
        return
    who = part("push plate", "push_plate", stated.material)
    spans = ((hole.along, hole.across, hole.diameter) for hole in _kept_holes(bench))
    net = stated.width - max(_holes(bench), _most_taken(spans, stated.width))
    if net <= 0.0:
        yield _missing("enter a plate wider than the holes that lie side by side in it", ".width")
        return
    section = flat_section(net, stated.thickness)
    pad = _pad(bench, stated)
    size: tuple[Input, ...] = (("a", pad, "mm"), ("W", section.modulus, "mm3"))
    retracts = () if bench.retract is None else (bench.retract,)
    for load in (*bench.pushes, *retracts):
        bent = _bent_by(bench, pad, load)
        if bent is None:
            own = not _unknown_nose(bench)
            key = "tooling.members.nose.between" if own else LENGTH
            yield _missing(f"enter {key_of(key)}", "" if own else ".length")
            return
        yield who.bending(load, bent.moment / section.modulus, bent.formula, bent.lever, *size,
                          *bent.off)  # fmt: skip
        yield from _sheared(bench, who, section, bent, load)
    for load in (*(bench.centred if nose.held == "one end" else bench.pushes), *retracts):
        bent = _bent_by(bench, pad, load)
        share = 0.5 if bent is None or nose.held == "one end" else bent.share
        yield from _across(bench, who, stated, load, share)


@frozen(kw_only=True)
class _Bent:
    """What bends the plate along the nose [N mm], and what shears it [N].

    ``share`` of what leans on the nose comes in on the more loaded side of the ram [-].
    """

    moment: float
    shear: float
    share: float
    formula: str
    lever: Input
    off: tuple[Input, ...] = ()


def _unknown_nose(bench: Bench) -> bool:
    """Whether other tooling brings a nose of its own, of whose carriers nothing is stated."""
    return bench.other is not None and bench.other.nose is not None


def _bent_by(bench: Bench, pad: float, load: Load) -> _Bent | None:
    """Return what a load asks along the nose; ``None`` where the carriers' places are missing.

    The carriers of a nose of other tooling stand somewhere on the plate: it is bent most with them
    at its ends, and sheared by no more than all of a push that lies between them.
    """
    members, nose = bench.tooling.members, bench.tooling.nose
    beside = pulled_off(bench, load)
    off: tuple[Input, ...] = (("x", beside, "mm"),) if beside else ()
    if nose.web_thickness is not None:
        # The web loads the plate over the bars' width; what stands out past the pad is bent.
        wide = bench.widest
        out = max(0.0, (wide - pad) / 2 + beside)
        return _Bent(
            moment=load.force / wide * out**2 / 2,
            shear=load.force / wide * out,
            share=min(0.5 + beside / wide, 1.0),
            formula="F ((b - a)/2 + x)^2/(2 b W)" if off else "F ((b - a)/2)^2/(2 b W)",
            lever=("b", wide, "mm"),
            off=off,
        )
    plate = None if members is None else members.push_plate
    long = None if plate is None else plate.length
    if nose.held == "one end":
        # From the ram's axis out to the one carrier, which hands its bending on to the plate.
        far = one_end_lever(bench, load)
        if _unknown_nose(bench):
            far = None if long is None else long / 2 + beside
        if far is None:
            return None
        return _Bent(
            moment=load.force * far, shear=load.force, share=1.0, formula="F c/W",
            lever=("c", far, "mm"),
        )  # fmt: skip
    span = None if members is None or members.nose is None else members.nose.between
    if _unknown_nose(bench):
        span = long
    if span is None:
        return None
    # Pulling back, the pad does not spread the load.
    spread = min(pad, span) if load is not bench.retract else 0.0
    near = 0.5 + beside / span
    if _unknown_nose(bench) and beside:
        near = max(near, 1.0)
    return _Bent(
        moment=central_moment(load.force, span, spread) + load.force * beside / 2,
        shear=load.force * near,
        share=near,
        formula="(F (2 L - a)/8 + F x/2)/W" if beside else "F (2 L - a)/(8 W)",
        lever=("L", span, "mm"),
        off=off,
    )


def _sheared(
    bench: Bench, who: Part, section: Section, bent: _Bent, load: Load
) -> Iterator[Result]:
    """Shear, and twist by what leans on the nose: it comes in beside each side of the ram.

    Half of it where the push is in the middle, of one off it as the push itself; one carrier brings
    in all of it.
    """
    shear = section.shear_peak * bent.shear / section.area
    cut: tuple[Input, ...] = (("V", bent.shear, "N"), ("A", section.area, "mm2"), *bent.off)
    yield who.shear(load, shear, "1.5 V/A", *cut)
    side, lever = side_force(bench, load), tip_lever(bench)
    if side <= 0.0:
        return
    if lever is None:
        yield _missing("enter the reach of the nose, for what leans on it", "")
        return
    depth = 6 * section.modulus / section.area
    couple = side * lever * bent.share
    yield who.shear(
        load,
        shear + twisting(couple, section.area / depth, depth),
        "1.5 V/A + T/(0.208 b t^2)",
        *cut,
        ("T", couple, "N mm"),
        ("b", section.area / depth, "mm"),
        ("t", depth, "mm"),
        what="shear and twist by the side load",
    )


def _across(
    bench: Bench, who: Part, stated: PushPlate, load: Load, share: float
) -> Iterator[Result]:
    """Bending the other way, of carriers or a web that stand out past what holds the plate.

    Half of the push comes in at a quarter of their width w.  A pad a takes it at a/4, bolts s from
    the middle, a pin or a weld in the middle.  The pad's own length and one thickness to each side
    take part, less the holes of two bolts or what more a row of a plate that stays has in it
    (common practice).  Of a push or a pull off the middle the half that takes more of it is bent by
    that share, as both are by half of a push in the middle.
    """
    wide, thick = _stands_across(bench, stated), stated.thickness or 0.0
    if wide is None:
        return
    pad = _pad(bench, stated)
    if load is not bench.retract:
        lever = (wide - pad) / 4
        formula = "R (w - a)/4/W" if load.offset else "(F/2) (w - a)/4/W"
        held: tuple[Input, ...] = (("a", pad, "mm"),)
        if load.offset:
            held = (("R", load.force * share, "N"), *held)
    else:
        # Where the bolts of half a plate lie is not stated, so the worse of the ends is taken.
        ends = _bolts_out(bench, stated)
        if _unknown_nose(bench):
            # Carriers may be as narrow as they like, too.
            wide = max((wide, 0.0), key=lambda one: max(abs(end - one / 4) for end in ends))
        out = max(ends, key=lambda end: abs(end - wide / 4))
        lever = abs(out - wide / 4)
        formula, held = "(F/2) |s - w/4|/W", (("s", out, "mm"),)
        if share != 0.5:
            formula = "R |s - w/4|/W"
            held = (("R", load.force * share, "N"), *held)
    if lever <= 0.0:
        return
    taking = pad + 2 * thick
    if stated.length is not None:
        taking = min(taking, stated.length)
    spans = ((hole.across, hole.along, hole.diameter) for hole in _kept_holes(bench))
    net = taking - max(_holes(bench), _most_taken(spans, taking))
    if net <= 0.0:
        yield _missing("enter a plate longer than the holes that lie side by side in it", ".length")
        return
    section = flat_section(net, thick)
    yield who.bending(
        load,
        load.force * share * lever / section.modulus,
        formula,
        ("w", wide, "mm"),
        *held,
        ("W", section.modulus, "mm3"),
        what="bending across",
    )


def _bolts_out(bench: Bench, stated: PushPlate) -> tuple[float, float]:
    """Between what distances from the middle the bolts of half a plate lie, across the nose [mm].

    On a circle of radius r in the mean r/2 (two on the middle line) to r (two beside it); in rows
    along the nose from the middle to one and a half bolts from the plate's edge (AISC 360 table
    J3.4).
    """
    bolt = next(_bolts(bench), None)
    if bolt is None:
        return 0.0, 0.0
    if bolt.circle is not None:
        return bolt.circle / 4, bolt.circle / 2
    major = find_thread(bolt.size, "tooling.members.bolt").major
    return 0.0, max(0.0, (stated.width or 0.0) / 2 - 1.5 * major)


def _stands_across(bench: Bench, stated: PushPlate) -> float | None:
    """How wide what brings the push into the plate is, across the nose [mm].

    Carriers of which nothing is stated are as wide as the plate at most.
    """
    members = bench.tooling.members
    if bench.tooling.nose.web_thickness is not None:
        return bench.tooling.nose.web_thickness
    if _unknown_nose(bench):
        return stated.width
    return None if members is None or members.carriers is None else members.carriers.width


def _pad(bench: Bench, stated: PushPlate) -> float:
    """How far the ram's face backs the plate [mm]: as stated, else the piston rod."""
    if stated.pad is not None:
        return stated.pad
    return 0.0 if bench.press is None or bench.press.rod is None else bench.press.rod


def _bolts(bench: Bench) -> Iterator[Bolt]:
    members = bench.tooling.members
    return (one for one in (() if members is None else members.bolt) if one.holds == "push plate")


def _holes(bench: Bench) -> float:
    """What two bolts that hold the plate to the ram take out of it [mm].

    See :func:`strapwright.catalog.clearance.widest_hole`.
    """
    threads = [find_thread(one.size, "tooling.members.bolt") for one in _bolts(bench)]
    return 2 * max((widest_hole(one.size, one.major) for one in threads), default=0.0)


def _kept_holes(bench: Bench) -> tuple[KeptHole, ...]:
    """Holes of a push plate that stays, those still to be drilled in it for other dies as well."""
    plate = None if bench.press is None else bench.press.push_plate
    return () if plate is None else plate.holes


def _most_taken(holes: Iterable[tuple[float, float, float]], size: float) -> float:
    """What holes take out of one section at most, that has a length ``size`` about the axis [mm].

    Of each hole its place from section to section, its place along the section, and its diameter.
    Holes that one section cuts at all count with all of their diameter: more than they take out.
    """
    cut = [
        (at - wide / 2, at + wide / 2, min(along + wide / 2, size / 2)
         - max(along - wide / 2, -size / 2))
        for at, along, wide in holes
    ]  # fmt: skip
    # Where most holes overlap one of them begins.
    return max(
        (sum(max(taken, 0.0) for low, high, taken in cut if low <= begins < high)
         for begins, _, _ in cut),
        default=0.0,
    )  # fmt: skip


def _missing(state: str, key: str) -> Unchecked:
    return Unchecked(
        member="push plate", what="bending and shear", state=state, where=f"{_KEY}{key}"
    )

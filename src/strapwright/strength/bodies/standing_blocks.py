"""Blocks that stand on a base as shoulders: their rounded edge, their root, the base beneath.

Free body of one block.  The bar presses on the rounded inner edge, down with V = F/2, more where
the nose stands off the middle, and outwards with H, or drags inwards with mu V while it is flat
(:mod:`strapwright.strength.statics.seat_loads`).  Its root is squashed by V and bent by the larger
of the two moments; the base passes that moment on and is pulled by H.  A push spreads at 30 degrees
to each side from the bar down to the root (Whitmore; AISC manual part 9, from memory), and no part
of a block beside that is counted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.errors import key_of
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import UNKNOWN_STEEL, Bolt, Members, ShoulderMember, Weld
from strapwright.shop.tooling import Tooling
from strapwright.strength.allowable_stress import ON_YIELD, Part, part
from strapwright.strength.beams import flat_section
from strapwright.strength.bodies.floor_holes import floor_left
from strapwright.strength.check_values import Bench, Check, Input, Load, Result, Unchecked
from strapwright.strength.statics.seat_loads import (
    beside_edge,
    block_thickness,
    resultant,
    sideways,
    standing_moment,
)
from strapwright.strength.statics.worse_end import (
    TIED_END,
    end_share,
    off_inputs,
    pressed_share,
    pressed_words,
)

_BODY = "tooling.members.body"
_SHOULDERS = "tooling.members.shoulders"
SPREAD = math.tan(math.radians(30.0))  # Whitmore, AISC manual part 9; from memory
# What a steel takes under a flat that is pressed into it, over Re: (2 + pi)/2 by slip lines with
# shear yield at half of Re (Hill, The Mathematical Theory of Plasticity; from memory).
PRESSED_IN = (2 + math.pi) / 2
# Of the edge's radius, how wide the bar may press a flat on it: the edge then stands 3 % of its
# radius lower.  Common practice, no source.
FLAT_SHARE = 0.5


def stands_alone(tooling: Tooling) -> bool:
    """Whether the shoulders are blocks with a rounded edge, held to a base by themselves."""
    members = tooling.members
    if members is None or "shoulders" not in members.held:
        return False
    shoulder, body = members.shoulders, members.body
    if shoulder is not None and shoulder.kind != "block":
        return False
    return body is None or (body.cheek is None and body.side_plate is None)


def carried_along(length: float, loaded: float, height: float) -> float:
    """How much of a block's length carries the bar's push at its root [mm].

    Parameters
    ----------
    length, loaded, height
        Of the block along the nose, of the bar on it, and of the push above the root [mm].
    """
    return min(length, loaded + 2 * SPREAD * height)


def block_length(tooling: Tooling) -> float | None:
    """Length of a block along the nose [mm]; ``None`` where none is stated."""
    body = None if tooling.members is None else tooling.members.body
    stated = None if body is None else body.length
    return tooling.shoulders.length if stated is None else stated


def block_height(tooling: Tooling) -> float | None:
    """How far the push is above a block's root [mm]; ``None`` where nothing says so.

    The largest of what body, welds and bolts say, and no less than the block is tall where that is
    said: a flat bar drags over its very top.  Where that is not said the others may be to the
    middle of its edge's round, and the round's radius stands above it.
    """
    members = tooling.members or Members()
    body = members.body
    held: tuple[Weld | Bolt, ...] = (*members.weld, *members.bolt)
    stated = [one.height for one in held if one.holds == "shoulders"]
    if body is not None:
        stated += [body.height, body.tall]
    known = [one for one in stated if one is not None]
    if not known:
        return tooling.shoulders.height
    low = body is None or body.tall is None
    return max(known) + (tooling.shoulders.radius if low else 0.0)


@frozen(kw_only=True)
class _Block:
    """Sizes of one block [mm]; ``height`` from its root up to the rounded edge."""

    thick: float
    length: float
    height: float


def edge_checks(bench: Bench, stated: ShoulderMember) -> Iterator[Result]:
    """Check the rounded edge of a block under the bar.

    Parameters
    ----------
    bench
        Tooling and loads.
    stated
        The shoulders.
    """
    who = part("shoulders", "shoulders", stated.material)
    radius, long = bench.tooling.shoulders.radius, bench.loaded
    for load in bench.centred:
        strength = who.steel.yield_strength
        size: tuple[Input, ...] = (("r", radius, "mm"), ("l", long, "mm"), ("Re", strength, "MPa"))
        yield who.checked(
            "flat that the bar presses on the edge",
            load,
            demand=resultant(load) / (PRESSED_IN * strength * long),
            capacity=FLAT_SHARE * radius,
            unit="mm",
            formula="P/(2.57 Re l)",
            allowed="r/2",
            source="slip lines under a flat (Hill); half the radius by common practice",
            grade="from memory",
            inputs=(("P", resultant(load), "N"), *size),
        )
        # The push goes down over the round's middle, with the radius of metal before it: no wider
        # a strip than that is counted.
        yield who.checked(
            "corner of the edge",
            load,
            demand=load.down / (radius * long),
            capacity=strength / ON_YIELD,
            unit="MPa",
            formula=f"({load.down_formula})/(r l)",
            allowed="Re/1.67",
            source="AISC 360 E3, a strut of no length",
            grade="standard",
            inputs=size,
            factors=(("safety on yield", ON_YIELD),),
        )


def standing_checks(bench: Bench) -> Iterator[Result]:
    """Check the root of a block and the base that it stands on.

    Its weld or bolts are checked as what holds the shoulders.

    Parameters
    ----------
    bench
        Tooling and loads.
    """
    tooling, members = bench.tooling, bench.tooling.members or Members()
    body, stated = members.body, members.shoulders or ShoulderMember()
    block = _block(tooling)
    if isinstance(block, Unchecked):
        yield block
        return
    if body is None or body.floor is None:
        yield _missing(
            "die body", "the base under the blocks", f"enter {key_of(f'{_BODY}.floor')}",
            f"{_BODY}.floor",
        )  # fmt: skip
    who = part("shoulders", "shoulders", stated.material)
    base = part("die body", "body", UNKNOWN_STEEL if body is None else body.material)
    for load in bench.pushes:
        yield from _root(bench, who, base, block, load)
        if body is not None and body.floor is not None:
            yield from _pulled(bench, base, block, body.floor, load)


def _root(bench: Bench, who: Part, base: Part, block: _Block, load: Load) -> Iterator[Check]:
    long = _along(bench, block)
    section = flat_section(long, block.thick)
    more, off = end_share(load.offset, long), off_inputs(load.offset, long)
    moment, formula, given = _moment(bench, block, load)
    stress = more * (load.down / section.area + moment / section.modulus)
    sizes: tuple[Input, ...] = (
        *given,
        ("A", section.area, "mm2"),
        ("W", section.modulus, "mm3"),
        *off,
    )
    words = _at_end(load, f"({load.down_formula})/A + {formula}/W")
    yield who.direct("push and bending at the root", load, stress, words, *sizes)
    across = sideways(bench.tooling, load)
    yield who.shear(
        load,
        more * section.shear_peak * across / section.area,
        "1.5 S/A (1 + 6 x/l)" if off else "1.5 S/A",
        ("S", across, "N"),
        ("A", section.area, "mm2"),
        *off,
        what="shear at the root",
    )
    welds = () if bench.tooling.members is None else bench.tooling.members.weld
    if not any(one.holds == "shoulders" for one in welds):
        # Nothing pulls the far end of a block down evenly, so it may lift off the base.
        stress *= pressed_share(load.offset, long) / more
        words = words.replace(TIED_END, pressed_words(load.offset, long))
    yield base.bearing(load, stress, words, *sizes, what="bearing of a block on the base")


def _pulled(bench: Bench, base: Part, block: _Block, floor: float, load: Load) -> Iterator[Result]:
    """The base is pulled, and bent by what bends the block at its root, past its bolts."""
    long = _along(bench, block)
    net = floor_left(bench.tooling, base.steel, block.length, long)
    if net <= 0.0:
        yield _missing(
            "die body", "tension and bending of the base",
            "enter bolts that leave some of the base between them", f"{_BODY}.length",
        )  # fmt: skip
        return
    section = flat_section(net, floor)
    moment, formula, given = _moment(bench, block, load)
    pull = load.outward
    stress = pull / section.area + moment / section.modulus
    yield base.direct(
        "tension and bending of the base",
        load,
        end_share(load.offset, long) * stress,
        _at_end(load, f"H/A + {formula}/W"),
        *dict.fromkeys((("H", pull, "N"), *given)),
        ("A", section.area, "mm2"),
        ("W", section.modulus, "mm3"),
        *off_inputs(load.offset, long),
    )


def _at_end(load: Load, formula: str) -> str:
    return f"({formula}) (1 + 6 x/l)" if load.offset else formula


def _moment(bench: Bench, block: _Block, load: Load) -> tuple[float, str, tuple[Input, ...]]:
    beside = beside_edge(bench.tooling, block.thick)
    return standing_moment(bench.tooling, load, block.height, beside)


def _along(bench: Bench, block: _Block) -> float:
    """How much of a block's length carries the bar's push at its root [mm]."""
    return carried_along(block.length, bench.loaded, block.height)


def _block(tooling: Tooling) -> _Block | Unchecked:
    """Sizes of a block, or what is to be entered for them."""
    what = "push and bending at the root"
    thick = block_thickness(tooling)
    if thick is None:
        key = "tooling.shoulders.outer_edge"
        return _missing("shoulders", what, f"enter {key_of(key)}, where a block ends", key)
    length = block_length(tooling)
    if length is None:
        key = f"{_BODY}.length"
        return _missing("shoulders", what, f"enter {key_of(key)}, of a block along the nose", key)
    height = block_height(tooling)
    if height is None:
        key = "tooling.shoulders.height"
        return _missing("shoulders", what, f"enter {key_of(key)}", key)
    return _Block(thick=thick, length=length, height=height)


def _missing(member: MemberName, what: str, state: str, where: str) -> Unchecked:
    return Unchecked(member=member, what=what, state=state, where=where)

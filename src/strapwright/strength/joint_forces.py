"""What welds and bolts of a member see: across, along, and tilting."""

from __future__ import annotations

import math
from collections.abc import Iterator

from attrs import frozen

from strapwright.catalog.thread_sizes import find_thread
from strapwright.shop.members import Bolt, Weld
from strapwright.shop.tooling import Tooling
from strapwright.strength.bodies.standing_blocks import (
    block_height,
    block_length,
    carried_along,
    stands_alone,
)
from strapwright.strength.carriers import carrier_share, one_end_lever
from strapwright.strength.check_values import Bench, Load
from strapwright.strength.statics.seat_loads import (
    beside_of,
    end_couple,
    root_moment,
    side_share,
    sideways,
    standing_moment,
)
from strapwright.strength.statics.side_loads import (
    farthest,
    ram_lever,
    side_force,
    tip_lever,
)
from strapwright.strength.statics.worse_end import spread_along


@frozen(kw_only=True)
class Held:
    """Forces on the fastening of one member.

    Attributes
    ----------
    load
        The case.
    across
        Along the joint's face [N].
    along
        Away from it [N].
    tilt
        Moment that would tip the member over [N mm].
    lengthwise
        Moment that would tip it along the runs of a weld, end to end, and not across them [N mm].
    twist
        Moment that would turn it on the joint's face [N mm].
    in_line
        Whether bolts stand in one row along the couple, so that the outer two take all of it.
    off
        How far all of this but ``lengthwise`` lies off the middle of the rows, along them [mm].
    row
        Length of a row of bolts, from the first to the last, or of a run of weld that carries
        [mm]; ``None`` of bolts where as short as it may be, and of weld where all of it does.
    prying
        How much more bolts are pulled because what they hold bends and bears beside them [-].
    """

    load: Load
    across: float = 0.0
    along: float = 0.0
    tilt: float = 0.0
    lengthwise: float = 0.0
    twist: float = 0.0
    in_line: bool = False
    off: float = 0.0
    row: float | None = None
    prying: float = 1.0

    @property
    def couple(self) -> float:
        """Both moments, as bolts take them, whose rows stand either way [N mm]."""
        return self.tilt + self.lengthwise


def held_loads(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """Give what a fastening sees in each load case.

    The push presses carriers, plate and nose on their faces; what presses a joint shut is not set
    against what tips it, which is on the safe side.

    Parameters
    ----------
    bench
        Tooling and loads.
    held
        The welds or bolts.
    """
    if held.holds in {"shoulders", "cheeks", "side plates"}:
        yield from _spread(bench, held)
        return
    yield from _tilted(bench, held)
    if bench.retract is not None:
        yield _pulled_back(bench, held, bench.retract)


def _pulled_back(bench: Bench, held: Weld | Bolt, load: Load) -> Held:
    """What a part that sticks asks as the ram pulls back, as far off the middle as a push may lie.

    Two carriers share it; it tips a push plate that nothing guides, and a web along its runs, and
    lifts one end of a base or of a round on its web more.  A base's bolts are taken to stand in
    rows as long as the die body.
    """
    pull, off = load.force, farthest(bench)
    match held.holds:
        case "carriers":
            share = carrier_share(bench, load) or pull
            out = one_end_lever(bench, load) if bench.tooling.nose.held == "one end" else 0.0
            return Held(load=load, along=share, tilt=share * (out or 0.0))
        case "push plate":
            tilt = 0.0 if _guided(bench) else pull * off
            return Held(load=load, along=pull, tilt=tilt, prying=_prying(bench, held))
        case "web":
            return Held(load=load, along=pull, lengthwise=pull * off)
        case "base":
            members = bench.tooling.members
            body = None if members is None else members.body
            row = None if body is None or isinstance(held, Weld) else body.length
            return Held(load=load, along=pull, off=off, row=row)
        case _:
            return Held(load=load, along=pull, off=off)


def _prying(bench: Bench, held: Weld | Bolt) -> float:
    """How much more the ram's bolts are pulled because the plate bends between carriers [-].

    The carriers pull the plate down c outside of two rows of bolts s apart, so that it bulges up
    between the rows and bears on the ram in the middle.  A beam from there, where it is level, to
    a row s/2 away that F c/2 turns, presses with (3/2) (F c/2)/(s/2): each row is pulled with
    F/2 (1 + 3 c/s).  Bolts and ram are taken as rigid, which is the most there is (beam tables).
    Bolts on a circle d stand in two rows d/2 apart at least.
    """
    members = bench.tooling.members
    nose = None if members is None else members.nose
    plate = None if members is None else members.push_plate
    between = None if nose is None else nose.between
    if bench.other is not None and bench.other.nose is not None:
        # Somewhere on the plate.
        between = None if plate is None else plate.length
    if not isinstance(held, Bolt) or between is None:
        return 1.0
    if bench.tooling.nose.held != "both ends" or bench.tooling.nose.web_thickness is not None:
        return 1.0
    apart = held.spacing if held.spacing is not None else (held.circle or 0.0) / 2
    if apart <= 0.0:
        return 1.0
    return 1 + 3 * max(0.0, between - apart) / 2 / apart


def _spread(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """What push and wedge ask of what holds the shoulders.

    The push presses the joint shut beside its middle, and the couple is taken whole.  Of a push off
    the middle the end of the rows that it lies nearer to takes more.
    """
    height = _height(bench, held)
    for load in bench.pushes:
        if held.holds == "side plates":
            yield Held(load=load, across=side_plate_share(bench.tooling, load, held))
        else:
            beside = beside_of(bench.tooling, held)
            stands = held.holds == "shoulders"
            moment = standing_moment if stands else root_moment
            tilt, _, _ = moment(bench.tooling, load, height, beside)
            across = sideways(bench.tooling, load) if stands else load.outward
            more = _gathered(bench, held, height)
            yield Held(
                load=load, tilt=more * tilt, off=load.offset, across=more * across,
                row=_row_of(bench, held, height),
            )  # fmt: skip


def _height(bench: Bench, held: Weld | Bolt) -> float:
    """How far a shoulder pushes above what holds it [mm], of a block no less than of its root."""
    own = held.height or bench.tooling.shoulders.height or 0.0
    if held.holds == "shoulders" and stands_alone(bench.tooling):
        return block_height(bench.tooling) or own
    return own


def _gathered(bench: Bench, held: Weld | Bolt, height: float) -> float:
    """How much more what holds a cheek or block is asked than if all of its length carried [-]."""
    found = _carrying(bench, held, height)
    return 1.0 if found is None else found[0] / found[1]


def _carrying(bench: Bench, held: Weld | Bolt, height: float) -> tuple[float, float] | None:
    """Length of a cheek or block, and how much of it the push spreads to [mm]."""
    if held.holds == "shoulders":
        long = block_length(bench.tooling)
        return None if long is None else (long, carried_along(long, bench.loaded, height))
    members = bench.tooling.members
    body = None if members is None else members.body
    long = None if body is None else body.length
    if held.holds != "cheeks" or long is None:
        return None
    return long, spread_along(bench.loaded, height, long)


def _row_of(bench: Bench, held: Weld | Bolt, height: float) -> float | None:
    """Length of a row along a cheek or block [mm], ``None`` where its own is not stated.

    Bolts as they are drawn, one and a half from each end; of a block no more than carries its push,
    of bolts and of weld.
    """
    found = _carrying(bench, held, height)
    if found is None:
        return None
    long, carries = found
    if isinstance(held, Weld):
        return carries if held.holds == "shoulders" else None
    row = long - 3 * find_thread(held.size, "tooling.members.bolt").major
    return min(row, carries) if held.holds == "shoulders" else row


def _tilted(bench: Bench, held: Weld | Bolt) -> Iterator[Held]:
    """What a push beside the middle of a joint, and what leans on the nose, ask of it.

    Runs along the nose are tipped end to end by a push off along it, and across their rows by what
    leans on it; runs across the nose, of a carrier, the other way about.  What leans on a nose off
    the middle turns base and push plate on their faces, and falls with the push to one end of a web
    and of the nose on it.
    """
    carriers = held.holds == "carriers"
    one_end = carriers and bench.tooling.nose.held == "one end"
    off_tips = held.holds == "web" or (held.holds == "push plate" and not _guided(bench))
    for load in bench.pushes:
        off = load.force * load.offset if off_tips else 0.0
        side, lever = _leaning(bench, held, load)
        lean, twist = side * (lever or 0.0), 0.0
        if held.holds in {"push plate", "base"}:
            twist = side * load.offset
        if carriers:
            out = one_end_lever(bench, load) or 0.0 if one_end else 0.0
            tilt, along, twist = load.force * out, lean, side * out
        elif held.holds == "web":
            tilt, along = lean, off
        elif held.holds == "base":
            tilt, along = lean, load.force * _beyond(bench, load)
        else:
            tilt, along = lean * _along_rows(bench, held) + off, 0.0
        # The edge of a web touches its round along a line at most, and need not touch it at all:
        # its welds carry the whole push.
        pressed = load.force if held.holds == "nose" else 0.0
        if side or tilt or along or pressed:
            yield Held(
                load=load, across=side, along=pressed, tilt=tilt, lengthwise=along, twist=twist,
                in_line=carriers and not one_end,
                off=load.offset if held.holds in {"web", "nose"} else 0.0,
            )  # fmt: skip


def _along_rows(bench: Bench, held: Weld | Bolt) -> float:
    """How much more what leans on the nose asks of the ram's bolts than their two rows would [-].

    Their two rows stand along the nose, and it tips them across: within a row, which is as long as
    the push plate is wide but for one and a half bolts at each end, as it is drawn.
    """
    members = bench.tooling.members
    plate = None if members is None else members.push_plate
    if not isinstance(held, Bolt) or held.holds != "push plate" or held.spacing is None:
        return 1.0
    if plate is None or plate.width is None:
        return 1.0
    row = plate.width - 3 * find_thread(held.size, "tooling.members.bolt").major
    return max(1.0, held.spacing / row) if row > 0.0 else math.inf


def _beyond(bench: Bench, load: Load) -> float:
    """How far a push lies past the end of the die body, which it then tips [mm]."""
    members = bench.tooling.members
    body = None if members is None else members.body
    if body is None or body.length is None:
        return 0.0
    return max(0.0, load.offset - body.length / 2)


def _guided(bench: Bench) -> bool:
    return bench.tooling.members is not None and bench.tooling.members.guides is not None


def _leaning(bench: Bench, held: Weld | Bolt, load: Load) -> tuple[float, float | None]:
    """Side force on a joint [N], and its lever [mm]."""
    side, nose = side_force(bench, load), bench.tooling.nose
    lever: float | None = None
    match held.holds:
        case "web":
            lever = tip_lever(bench)
        case "nose":
            # The round lies on the web's edge, its tip a whole round away.
            lever = 2 * nose.radius
        case "carriers":
            share = carrier_share(bench, load)
            side *= 1.0 if share is None else share / load.force
            lever = tip_lever(bench)
        case "push plate" if not _guided(bench):
            lever = ram_lever(bench)
        case "base":
            # What leans on the nose leans on the bar, and that on the shoulders' tops.
            height = bench.tooling.shoulders.height
            lever = None if height is None else height + bench.thickness
        case _:
            side = 0.0
    return side, lever


def side_plate_share(tooling: Tooling, load: Load, held: Weld | Bolt) -> float:
    """Force along a side plate on the end of one cheek, as if all its fastenings shared it [N].

    Two plates share the wedge, of a push off the middle the nearer one takes more.  The couple on
    the end of the cheek falls to two rows of weld, M/s each, half of the length to each; bolts
    stand in one line, s from the first to the last, and the outer two take M/s at most.  Rows whose
    distance is not stated are refused by :func:`lacking`.
    """
    couple = end_couple(tooling, load, beside_of(tooling, held), held.height or 0.0)
    outer = max(held.count, 2) if isinstance(held, Bolt) else 2
    near = load.outward * side_share(tooling, load)
    return near + (outer * couple / held.spacing if held.spacing else 0.0)


def lacking(bench: Bench, held: Weld | Bolt, root: str) -> str | None:
    """Return what to state before a fastening can be checked, or ``None``.

    Parameters
    ----------
    bench
        Tooling and loads.
    held
        The welds or bolts.
    root
        What a height is from, ``weld`` or ``face``.
    """
    if held.holds == "side plates":
        if held.height is not None and held.spacing is not None:
            return None
        return "enter height, from the middle of the rows to where the bar pushes, and spacing"
    if held.holds in {"shoulders", "cheeks"}:
        if held.height is not None or bench.tooling.shoulders.height is not None:
            return None
        return f"enter height, from the {root} to where the bar pushes"
    leaning = (_leaning(bench, held, load) for load in bench.pushes)
    if any(side > 0.0 and lever is None for side, lever in leaning):
        return (
            "enter the height of the shoulders above the bed, for what leans on them"
            if held.holds == "base"
            else "enter the reach of the nose, from the push plate's face, and the push plate's "
            "thickness, for what leans on the nose"
        )
    return None

"""Whether a change can be made on the tooling that is stated: room for plates, welds and bolts."""

from __future__ import annotations

import math
from collections.abc import Iterator

from strapwright.catalog.thread_sizes import find_thread
from strapwright.shop.members import Bolt, Members, Weld
from strapwright.shop.nose_and_shoulders import Held
from strapwright.strength.check_values import Bench

# Of the bar's thickness, what its inside edges bulge by, both sides together; common practice, no
# source.
BULGE = 0.21
BOLT_PITCH = 3.0  # diameters from bolt to bolt, AISC 360 J3.3; half of it to an edge
_SAME = 1e-6  # mm, numerical
Tight = tuple[str, int]


def fits(bench: Bench, changed: Bench) -> bool:
    """Whether nothing collides on a changed tooling that did not collide before.

    Where the room for a longer weld or another bolt is not stated, it is taken for none.

    Parameters
    ----------
    bench, changed
        As stated, and with a change made.
    """
    return set(_tight(changed, bench)) <= set(_tight(bench, bench))


def _tight(bench: Bench, before: Bench) -> Iterator[Tight]:
    """What has no room, and of welds and bolts their place among those stated."""
    members, stated = bench.tooling.members, before.tooling.members
    if members is None or stated is None:
        return
    yield from _plates(bench, members)
    for number, weld in enumerate(members.weld):
        longer = weld.length > stated.weld[number].length + _SAME
        room = weld_room(bench, members, weld)
        if weld.length > (room if room is not None else math.inf) + _SAME or (
            longer and room is None
        ):
            yield "weld length", number
        thicker = weld.size > stated.weld[number].size + _SAME
        if weld.size > (weld.thinner or math.inf) + _SAME or (thicker and weld.thinner is None):
            yield "weld leg", number
    for number, bolt in enumerate(members.bolt):
        most = most_bolts(members, bolt, bench.tooling.nose.held)
        more = bolt.count > stated.bolt[number].count
        if bolt.count > (most if most is not None else math.inf) or (more and most is None):
            yield "bolt count", number


def _plates(bench: Bench, members: Members) -> Iterator[Tight]:
    nose, carriers, guides = members.nose, members.carriers, members.guides
    if carriers is not None:
        hole = 2 * bench.tooling.nose.radius
        if carriers.width is not None and carriers.width <= hole + _SAME:
            yield "nose in carriers", 0
        if (carriers.pin or 0.0) > (carriers.width or math.inf) / 2 + _SAME:
            yield "pin in carrier", 0
        between = None if nose is None else nose.between
        if bench.tooling.nose.held == "both ends" and between is not None:
            clear = between - (carriers.thickness or 0.0)
            if clear < bench.widest + BULGE * bench.thickness - _SAME:
                yield "bar between carriers", 0
    if guides is not None and (guides.bush or 0.0) > (guides.length or math.inf) + _SAME:
        yield "bush on rod", 0
    pin = 0.0 if members.coupling is None else members.coupling.pin or 0.0
    rod = None if bench.press is None else bench.press.rod
    if rod is not None and pin > rod / 2 + _SAME:
        yield "pin in rod", 0


def weld_room(bench: Bench, members: Members, weld: Weld) -> float | None:
    """Return the longest weld that a member has edges for [mm], ``None`` where that is not stated.

    Both long sides; of a carrier all round its foot.

    Parameters
    ----------
    bench
        For the length of the nose.
    members, weld
        What it joins.
    """
    body, carriers = members.body, members.carriers
    if weld.holds == "carriers":
        if carriers is None or carriers.width is None or carriers.thickness is None:
            return None
        return 2 * (carriers.width + carriers.thickness)
    if weld.holds in {"cheeks", "shoulders"}:
        return None if body is None or body.length is None else 2 * body.length
    if weld.holds == "side plates":
        return None if body is None or body.tall is None else 2 * body.tall
    if weld.holds in {"nose", "web"}:
        return 2 * (bench.tooling.nose.span or bench.widest)
    return None


def most_bolts(members: Members, bolt: Bolt, held: Held = "both ends") -> int | None:
    """Return how many bolts have room three diameters apart, ``None`` where that is not stated.

    Parameters
    ----------
    members, bolt
        What they hold.
    held
        How the nose is held: two carriers have one row each, and side plates one line.
    """
    pitch = BOLT_PITCH * find_thread(bolt.size, "size").major
    if bolt.circle is not None:
        return int(math.pi * bolt.circle / pitch + _SAME)
    in_line = bolt.holds == "side plates" or (bolt.holds == "carriers" and held == "both ends")
    if in_line and bolt.spacing is not None:
        return 1 + int(bolt.spacing / pitch + _SAME)
    rows = 2 if bolt.spacing is not None else 1
    room = _row_room(members, bolt)
    return None if room is None else rows * int(room / pitch + _SAME)


def _row_room(members: Members, bolt: Bolt) -> float | None:
    """Length of a row of bolts, edge to edge [mm]."""
    body, carriers, plate = members.body, members.carriers, members.push_plate
    if bolt.holds == "carriers":
        return None if carriers is None else carriers.width
    if bolt.holds == "push plate":
        return None if plate is None else plate.width
    if body is None:
        return None
    return body.cheek if bolt.holds == "side plates" else body.length

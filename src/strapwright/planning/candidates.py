"""Candidates of a proposal: sizes that follow from a choice of stock, its cut list and its cost."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from attrs import evolve, frozen

from strapwright.planning.proposal_values import Choice, Cut
from strapwright.shop.job import Job
from strapwright.shop.members import (
    OFF_CENTRE,
    Carriers,
    DieBody,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.rack import Rack, Stock
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.toolmaking.welds import least_leg

# Common practice, no source: play of the bar between the carriers, room under the deepest bend,
# room above the bar, what a shaft stands out of a carrier, and a saw's cut with its facing.
PLAY = 2.0  # mm
BULGE = 0.21  # of the thickness, both inside edges of a bend together
ROOM_BELOW = 6.0  # mm
ROOM_ABOVE = 12.0  # mm
STAND_OUT = 5.0  # mm
ALLOWANCE = 4.0  # mm

# Time of making, common practice, no source.
MINUTES_A_CUT = 5.0
CUT_AREA_A_MINUTE = 600.0  # mm2 through steel on a small band saw
MINUTES_A_BORE = 20.0
MINUTES_A_SEAT = 30.0
WELD_A_MINUTE = 15.0  # mm


@frozen(kw_only=True)
class Need:
    """What all parts together ask of a nose, a pair of shoulders and an opening.

    Attributes
    ----------
    depth
        Deepest bend with room below it [mm].
    reach
        Of the nose [mm].
    plate_width
        Of push plate and carriers across the nose [mm].
    height
        Of the shoulders' tops above the bed, on a riser where the die body is lower, so that made
        bends hang free [mm].
    """

    depth: float
    reach: float
    plate_width: float
    height: float


def widest_bars(jobs: Sequence[Job]) -> tuple[float, float]:
    """Width of all bars side by side, and thickness, each of the part that has most [mm]."""
    return (
        max(job.part.bar.width * job.part.at_once for job in jobs),
        max(job.part.bar.thickness for job in jobs),
    )


def stock_of(rack: Rack, kinds: tuple[str, ...]) -> tuple[Stock, ...]:
    """Stock of some kinds, in the order of the rack."""
    return tuple(one for one in rack.stock if one.kind in kinds)


def tooling_of(choice: Choice, need: Need, jobs: Sequence[Job]) -> Tooling:
    """Return the tooling that a choice makes.

    Parameters
    ----------
    choice, need
        Stock and sizes.
    jobs
        The parts; ram side, friction and the press's own members are the first's.
    """
    width, thickness = widest_bars(jobs)
    base = jobs[0].tooling
    stated = None if base is None else base.members
    span = width + BULGE * thickness + PLAY
    plate, body, carrier = choice.push_plate, choice.body, choice.carriers
    radius = choice.nose.thickness / 2
    shoulder = choice.shoulders.thickness / 2
    length = width + 2 * STAND_OUT
    joint = min(carrier.thickness, plate.thickness)
    corner = min(body.thickness, least_leg(body.thickness) * 2)
    members = Members(
        off_centre=OFF_CENTRE if stated is None else stated.off_centre,
        nose=NoseMember(material=choice.nose.material, between=span + carrier.thickness),
        carriers=Carriers(
            material=carrier.material,
            thickness=carrier.thickness,
            width=need.plate_width,
            height=need.reach - 2 * radius,
        ),
        push_plate=PushPlate(
            material=plate.material, thickness=plate.thickness, width=need.plate_width
        ),
        # Each shaft lies in a half-round seat cut into its cheek.
        shoulders=ShoulderMember(
            material=choice.shoulders.material, kind="block", seat_material=body.material
        ),
        body=DieBody(
            material=body.material,
            cheek=body.thickness,
            floor=body.thickness,
            length=length,
            height=need.depth,
        ),
        weld=(
            Weld(
                holds="carriers",
                size=min(carrier.thickness, least_leg(joint)),
                length=2 * need.plate_width,
                thinner=joint,
            ),
            Weld(
                holds="cheeks",
                size=corner,
                length=2 * length,
                thinner=body.thickness,
                spacing=body.thickness,
                height=need.depth,
            ),
        ),
        # What holds the plate to the ram is the press's own, as what follows.
        bolt=() if stated is None else tuple(b for b in stated.bolt if b.holds == "push plate"),
        guides=None if stated is None else stated.guides,
        coupling=None if stated is None else stated.coupling,
        rod=None if stated is None else stated.rod,
        frame=None if stated is None else stated.frame,
        circuit=None if stated is None else stated.circuit,
    )
    return Tooling(
        nose=Nose(radius=radius, reach=need.reach, span=span),
        shoulders=Shoulders(
            radius=shoulder,
            opening=choice.opening,
            depth=need.depth,
            height=need.height,
            # The cheek stands outside the shoulder; taken as high as its top, on the safe side.
            outer_edge=choice.opening / 2 + shoulder + body.thickness,
        ),
        friction=0.1 if base is None else base.friction,
        touch_error=0.3 if base is None else base.touch_error,
        plate_width=need.plate_width,
        plate_thickness=plate.thickness,
        members=members,
    )


def cuts_of(choice: Choice, need: Need, jobs: Sequence[Job]) -> tuple[Cut, ...]:
    """Return the cut list of a choice."""
    width, thickness = widest_bars(jobs)
    span = width + BULGE * thickness + PLAY
    between = span + 2 * choice.carriers.thickness
    length = width + 2 * STAND_OUT
    across = choice.opening + choice.shoulders.thickness + 2 * choice.body.thickness
    carrier = (need.reach + STAND_OUT, need.plate_width)
    cheek = (need.depth, length)
    listed = [
        ("nose", choice.nose, between + 2 * STAND_OUT, 0.0),
        ("left shoulder", choice.shoulders, length, 0.0),
        ("right shoulder", choice.shoulders, length, 0.0),
        ("first carrier", choice.carriers, *carrier),
        ("second carrier", choice.carriers, *carrier),
        ("push plate", choice.push_plate, between, need.plate_width),
        ("left cheek", choice.body, *cheek),
        ("right cheek", choice.body, *cheek),
        ("floor", choice.body, across, length),
    ]
    return tuple(_turned(use, stock, long, wide) for use, stock, long, wide in listed)


def _turned(use: str, stock: Stock, length: float, width: float) -> Cut:
    """A plate's piece lies along the stock, or across it where only so it fits."""
    if width > stock.width + 1e-9 and length <= stock.width + 1e-9:
        length, width = width, length
    return Cut(use=use, stock=stock, length=length, width=width or stock.width)


def fitting(
    plates: Sequence[Stock], choice: Choice, need: Need, jobs: Sequence[Job]
) -> tuple[tuple[Stock, ...], ...]:
    """Plates large enough for carriers, push plate and body, each role by itself.

    Parameters
    ----------
    plates
        To choose from.
    choice
        Any choice with this nose, these shoulders and this opening.
    need, jobs
        As for :func:`cuts_of`.
    """

    def fits(role: str, stock: Stock) -> bool:
        changed: dict[str, Any] = {role: stock}
        cuts = cuts_of(evolve(choice, **changed), need, jobs)
        return pieces_needed([cut for cut in cuts if cut.use in _USES[role]]) is not None

    roles = ("carriers", "push_plate", "body")
    found = [tuple(one for one in plates if fits(role, one)) for role in roles]
    # A carrier thicker than it is wide is no plate.
    found[0] = tuple(one for one in found[0] if one.thickness <= 0.75 * need.plate_width)
    return tuple(found)


_USES = {
    "carriers": ("first carrier", "second carrier"),
    "push_plate": ("push plate",),
    "body": ("left cheek", "right cheek", "floor"),
}


def pieces_needed(cuts: Sequence[Cut]) -> dict[Stock, int] | None:
    """Return how many pieces of each stock the cuts take, or ``None`` where they do not fit.

    First fit, the longest first; every cut takes its length and an allowance for saw and facing.
    """
    taken: dict[Stock, list[float]] = {}
    for cut in sorted(cuts, key=lambda one: -one.length):
        if cut.width > cut.stock.width + 1e-9 or cut.length > cut.stock.length + 1e-9:
            return None
        left = taken.setdefault(cut.stock, [])
        for number, rest in enumerate(left):
            if cut.length <= rest + 1e-9:
                left[number] = rest - cut.length - ALLOWANCE
                break
        else:
            if len(left) == cut.stock.count:
                return None
            left.append(cut.stock.length - cut.length - ALLOWANCE)
    return {stock: len(left) for stock, left in taken.items()}


def hours_of(cuts: Sequence[Cut], carriers_width: float, body_length: float) -> float:
    """Return the hours of making: sawing, two bores, two seats and the welds [mm -> h]."""
    minutes = 2 * MINUTES_A_BORE + 2 * MINUTES_A_SEAT
    minutes += (4 * carriers_width + 4 * body_length) / WELD_A_MINUTE
    for cut in cuts:
        area = cut.stock.thickness * cut.width
        if cut.stock.kind == "shaft":
            area *= math.pi / 4
        minutes += MINUTES_A_CUT + area / CUT_AREA_A_MINUTE
    return minutes / 60


def openings(least: float, most: float, *, inch: bool) -> Iterator[float]:
    """Openings to try between two limits [mm]: round ones, at most six, spread evenly."""
    step = 6.35 if inch else 5.0
    first, last = math.ceil(least / step - 1e-9), math.floor(most / step + 1e-9)
    count = last - first + 1
    if count <= 0:
        return
    kept = min(count, MOST_OPENINGS)
    for n in range(kept):
        yield step * (first + (0 if kept == 1 else round(n * (count - 1) / (kept - 1))))


MOST_OPENINGS = 6

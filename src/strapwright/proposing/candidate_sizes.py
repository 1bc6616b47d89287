"""Candidates of a proposal: sizes that follow from a choice of stock, and its cut list."""

from __future__ import annotations

import functools
import math
from collections.abc import Iterator, Sequence
from typing import Any

from attrs import evolve, frozen

from strapwright.catalog.thread_sizes import find_thread
from strapwright.cutting.cut_list import Cut, laid_in_stock
from strapwright.cutting.stock_pieces import pieces_needed
from strapwright.making.die_plates import base_across
from strapwright.making.kept.push_plate_there import followed_span
from strapwright.making.nose_plates import MARGIN
from strapwright.making.shop_lengths import sixteenth, sixteenth_below
from strapwright.making.welded_plates import floor_across, holds_seat, least_tall
from strapwright.planning.bar_limits import BULGE as EDGE_BULGE
from strapwright.proposing.proposal_values import Choice
from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.plate_members import UNDER_NOSE
from strapwright.shop.rack import Rack, Stock
from strapwright.strength.welds import least_leg

# Common practice, no source: play of the bar between the carriers, room under the deepest bend,
# room above the bar, and what a shaft stands out of a carrier.
PLAY = 2.0  # mm
ROOM_BELOW = 6.0  # mm
ROOM_ABOVE = 12.0  # mm
STAND_OUT = 5.0  # mm
CUT_STEP = 5.0  # mm, the coarser of the two steps in which drawings round a plate up

# Between a carrier and what it passes, of the nose's diameter the least and most thickness of a
# web, and the least width of a carrier; likewise.
SIDE_CLEAR = 3.0  # mm
WEB_LEAST, WEB_MOST = 0.4, 0.9
CARRIER_LEAST = 1.6
LARGEST_LEG = 2 * least_leg(math.inf)  # mm, of the welds between cheeks and floor
# Of the thickness, both inside edges of a bend together; fitted, see where one of them stands.
BULGE = 2.0 * EDGE_BULGE
THICKEST_FLOOR = 50.8  # mm, 2 in; what is left of the height is a riser under a thinner floor


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


def kept_plate(jobs: Sequence[Job]) -> KeptPlate | None:
    """Return the push plate that stays on the press of the first job, or ``None``."""
    press = jobs[0].press
    return None if press is None else press.push_plate


def stock_of(rack: Rack, kinds: tuple[str, ...]) -> tuple[Stock, ...]:
    """Stock of some kinds, in the order of the rack."""
    return tuple(one for one in rack.stock if one.kind in kinds)


@frozen(kw_only=True)
class Layout:
    """Sizes that follow from a choice [mm].

    Attributes
    ----------
    width, thickness
        Of all bars side by side.
    span
        Between the carriers, or the length of a web.
    carrier
        Width of a carrier across the nose.
    length
        Of cheeks and shoulders along the nose.
    between
        From the middle of one side plate to the middle of the other; 0 without them.
    tall
        Of the cheeks, or of blocks.
    leg
        Of the welds between cheeks and floor, or blocks and base; 0 where side plates tie them.
    across
        Of side plates, over both cheeks; of a floor or base, over both cheeks or blocks and the
        welds beside them.
    """

    width: float
    thickness: float
    span: float
    carrier: float
    length: float
    between: float
    tall: float
    leg: float
    across: float


def layout_of(choice: Choice, need: Need, jobs: Sequence[Job]) -> Layout:
    """Return the sizes of a choice.

    What the shop machines is a sixteenth of an inch or whole millimetres. Carriers reach below the
    nose: they come down past the ends of the shoulders, or between the
    shoulders where these stand far enough apart.

    Parameters
    ----------
    choice, need
        Stock and sizes.
    jobs
        The parts.
    """
    width, thickness = widest_bars(jobs)
    units = jobs[0].units
    span = sixteenth(width + max(BULGE * thickness + PLAY, 2 * SIDE_CLEAR), units)
    there = kept_plate(jobs) if choice.kept else None
    if there is not None and choice.held == "both ends":
        # Over the holes that are there, where some are far enough apart.
        span = followed_span(there, choice.carriers.thickness, span) or span
    gap = choice.opening - 2 * choice.radius - 2 * SIDE_CLEAR
    carrier = need.plate_width
    if choice.tied:
        carrier = min(carrier, sixteenth_below(gap, units))
    length = sixteenth(width + 2 * STAND_OUT, units)
    between = 0.0
    thick = choice.body.thickness
    joint = min(thick, choice.shoulders.thickness) if choice.edge else thick
    leg = 0.0 if choice.tied else min(joint, 2 * least_leg(joint))
    if choice.tied:
        if choice.held != "web":
            length = sixteenth(span + 2 * (choice.carriers.thickness + SIDE_CLEAR), units)
        between = length + choice.body.thickness
    elif choice.held != "web" and carrier > gap:
        length = sixteenth_below(span - 2 * SIDE_CLEAR, units)
    return Layout(
        width=width,
        thickness=thickness,
        span=span,
        carrier=carrier,
        length=length,
        between=between,
        tall=_tall(choice, need, jobs, over=choice.held != "web" and carrier <= gap),
        leg=leg,
        across=_across(choice, leg, units),
    )


def _tall(choice: Choice, need: Need, jobs: Sequence[Job], *, over: bool) -> float:
    """Height of cheeks or blocks [mm]; of every body alike, so that plans agree.

    Parameters
    ----------
    choice, need, jobs
        As of :func:`layout_of`.
    over
        Whether the carriers come down over the floor, between the shoulders.
    """
    if choice.tied:
        return need.depth + THICKEST_FLOOR
    units, thin = jobs[0].units, min(job.part.bar.thickness for job in jobs)
    # Each round, or a rounded edge, clears the weld under it.
    radius = choice.radius
    clear = radius + LARGEST_LEG if choice.edge else least_tall(radius, LARGEST_LEG)
    tall = max(need.depth, sixteenth(clear, units))
    if not over:
        return tall
    # A depth has one thickness and its room under the tip of the nose at full stroke; carriers
    # reach farther down, with as much room.
    deeper = need.depth - 2 * thin + below_nose(choice.nose.thickness, units)
    return max(tall, sixteenth(deeper, units))


def _across(choice: Choice, leg: float, units: Units) -> float:
    """Length along the bar of side plates, of a floor or of a base [mm]."""
    thick = choice.body.thickness
    if choice.edge:
        return base_across(choice.opening, choice.edge, choice.shoulders.thickness, leg, units)
    # The rounds lie half in the cheeks, whose inner sides stand the opening apart.
    if choice.tied:
        return choice.opening + 2 * thick
    return sixteenth(floor_across(choice.opening, thick, leg), units)


def goes_together(choice: Choice, layout: Layout) -> bool:
    """Whether the pieces of a choice can be put together at all.

    Parameters
    ----------
    choice, layout
        What is tried, and its sizes.
    """
    nose, plate = choice.nose.thickness, choice.carriers.thickness
    if choice.held == "web":
        # Thin enough that no leg meets it, thick enough to stand on and to weld to.
        return WEB_LEAST * nose <= plate <= WEB_MOST * nose
    if plate > 0.75 * layout.carrier:  # thicker than it is wide is no plate
        return False
    return not choice.tied or layout.carrier >= CARRIER_LEAST * nose


def below_nose(nose: float, units: Units) -> float:
    """Metal of a carrier below the nose's bore [mm]; ``nose`` is its diameter [mm]."""
    return sixteenth(max(STAND_OUT, UNDER_NOSE * nose), units)


def cuts_of(choice: Choice, need: Need, layout: Layout, units: Units) -> tuple[Cut, ...]:
    """Return the cut list of a choice."""
    return tuple(
        laid_in_stock(use, stock, long, wide)
        for use, stock, long, wide in (
            *_nose_cuts(choice, need, layout, units),
            *_body_cuts(choice, layout),
        )
    )


Listed = tuple[str, Stock, float, float]


def _nose_cuts(choice: Choice, need: Need, layout: Layout, units: Units) -> tuple[Listed, ...]:
    thick, span = choice.carriers.thickness, layout.span
    # As the drawings have them: metal below the nose's bore, a margin around what is bolted on, and
    # the next size in which stock is cut.
    below = below_nose(choice.nose.thickness, units)
    carrier = (choice.carriers, need.reach + below, layout.carrier)
    beside = 0.0 if choice.held == "web" else thick
    out = sixteenth(2 * STAND_OUT, units)
    plate = (
        choice.push_plate,
        sixteenth(span + 2 * (beside + MARGIN) + CUT_STEP, units),
        need.plate_width,
    )
    if choice.kept:
        return (
            ("nose", choice.nose, span + 2 * thick + out, 0.0),
            ("first carrier", *carrier),
            ("second carrier", *carrier),
        )
    if choice.held == "web":
        return (
            ("nose", choice.nose, span, 0.0),
            ("nose web", choice.carriers, need.reach - choice.nose.thickness, span),
            ("push plate", *plate),
        )
    if choice.held == "one end":
        return (
            ("nose", choice.nose, span + thick + out, 0.0),
            ("carrier", *carrier),
            ("push plate", *plate),
        )
    return (
        ("nose", choice.nose, span + 2 * thick + out, 0.0),
        ("first carrier", *carrier),
        ("second carrier", *carrier),
        ("push plate", *plate),
    )


def _body_cuts(choice: Choice, layout: Layout) -> tuple[Listed, ...]:
    cheek = (choice.body, layout.tall, layout.length)
    if choice.edge:
        block = (choice.shoulders, layout.length, layout.tall)
        return (
            ("left block", *block),
            ("right block", *block),
            ("base", choice.body, layout.across, layout.length),
        )
    pieces: tuple[Listed, ...] = (
        ("left shoulder", choice.shoulders, layout.length, 0.0),
        ("right shoulder", choice.shoulders, layout.length, 0.0),
        ("left cheek", *cheek),
        ("right cheek", *cheek),
    )
    if not choice.tied:
        return (*pieces, ("floor", choice.body, layout.across, layout.length))
    side = (choice.body, layout.across, layout.tall)
    return (*pieces, ("first side plate", *side), ("second side plate", *side))


def fitting(
    plates: Sequence[Stock],
    choice: Choice,
    need: Need,
    jobs: Sequence[Job],
    allowance: float,
) -> tuple[tuple[Stock, ...], ...]:
    """Plates large enough for carriers, push plate and body, each role by itself.

    Parameters
    ----------
    plates
        To choose from.
    choice
        Any choice with this nose, these shoulders and this opening.
    need, jobs
        As for :func:`layout_of`.
    allowance
        What every cut takes beside the piece itself [mm].
    """

    def fits(role: str, stock: Stock) -> bool:
        changed: dict[str, Any] = {role: stock}
        tried = evolve(choice, **changed)
        layout = layout_of(tried, need, jobs)
        if role == "carriers" and not goes_together(tried, layout):
            return False
        if role == "body" and not choice.edge and not holds_seat(stock.thickness, choice.radius):
            return False
        if role == "body" and choice.tied and side_bolt(stock.thickness, jobs[0].units) is None:
            return False
        cuts = cuts_of(tried, need, layout, jobs[0].units)
        mine = [cut for cut in cuts if cut.use in _USES[role]]
        return pieces_needed(mine, allowance) is not None

    roles = ("carriers", "push_plate", "body")
    return tuple(tuple(one for one in plates if fits(role, one)) for role in roles)


_USES = {
    "carriers": ("carrier", "first carrier", "second carrier", "nose web"),
    "push_plate": ("push plate",),
    "body": ("left cheek", "right cheek", "floor", "first side plate", "second side plate", "base"),
}
# Bolts of side plates, the largest first, and their grade; what a drawer holds, no source.
_SIDE_BOLTS = {
    "inch": ("1/2-13", "3/8-16", "5/16-18", "1/4-20"),
    "metric": ("M12", "M10", "M8", "M6"),
}
SIDE_GRADE = {"inch": "8", "metric": "8.8"}


@functools.cache
def side_bolt(thickness: float, units: Units) -> str | None:
    """Return the largest usual bolt that goes into the end of a cheek, or ``None``.

    Parameters
    ----------
    thickness
        Of the cheek, at least two bolts [mm].
    units
        Of the job.
    """
    for name in _SIDE_BOLTS[units]:
        if 2 * find_thread(name, "bolt").major <= thickness + 1e-6:
            return name
    return None


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

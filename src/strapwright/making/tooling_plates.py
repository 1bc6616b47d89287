"""From the tooling of a job to the plates and shafts to make, with their holes.

Layout rules, common practice without a source: bolts stand 1.5 diameters or more from an edge; a
bolt in an edge is no thicker than half of its plate; a carrier is 2.5 nose diameters wide and holds
a wall of half a diameter about the nose; shoulders are shorter than the gap between the carriers,
for those reach below the nose's tip.  What the job states goes before every rule.
"""

from __future__ import annotations

from attrs import evolve

from strapwright.errors import InputError, table_of, told_in_units_of
from strapwright.making.assembly.completing import completed
from strapwright.making.assembly.keepers import Kept, with_keepers
from strapwright.making.assembly.put_together import put_together
from strapwright.making.bolt_layout import bolt_words, bolting, welded
from strapwright.making.bolt_torque import torque_notes
from strapwright.making.die_plates import SIDE_PLAY, die_pieces
from strapwright.making.drawn_members.guide_places import check_count, guide_places, guide_rods
from strapwright.making.drawn_members.laying_out import BedThere, LaidOut, Pieces, Reach
from strapwright.making.drawn_members.read_back import differences, read_back
from strapwright.making.hole_table import LEAST_WALL_MM
from strapwright.making.kept.bed_there import check_bed_bores
from strapwright.making.kept.push_plate_there import followed_span, kept_bolting, plate_there
from strapwright.making.nose_plates import (
    PLATE,
    NoseLayout,
    nose_plates,
    nose_shaft,
    plate_thickness,
    seat_of,
)
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import round_up, size
from strapwright.making.tied_plates import tied_pieces
from strapwright.making.welded_plates import cheek_pieces
from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Members
from strapwright.shop.on_kept_plates import members_on
from strapwright.shop.plate_members import metal_under_nose
from strapwright.shop.tooling import Tooling


@told_in_units_of
def pieces_of(job: Job) -> Pieces:
    """Lay out the plates and shafts of a job's tooling, and put them together.

    Parameters
    ----------
    job
        With a tooling.

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    pieces, nose, kept = laid_out(job)
    if nose is None or pieces.tooling is None:
        return pieces
    whole = completed(pieces.tooling, nose, kept, job.units)
    return evolve(
        pieces,
        plates=whole.plates,
        shafts=whole.shafts,
        notes=(*pieces.notes, *whole.notes),
        welding=whole.welding,
        assembly=put_together(job, pieces.tooling, nose, whole),
    )


@told_in_units_of
def laid_out(job: Job) -> tuple[Pieces, NoseLayout | None, Kept]:
    """Lay out the plates and shafts of a job's tooling, without what is read at the bench alone.

    Parameters
    ----------
    job
        With a tooling.

    Returns
    -------
    pieces, nose, kept
        Each plate checked: every hole in it, and not too near an edge; the sizes about the nose,
        ``None`` where they cannot be laid out; and the pieces to be completed for the bench.

    Raises
    ------
    InputError
        Where the job has no tooling.
    """
    tooling = job.tooling
    if tooling is None:
        raise InputError(
            "tooling",
            "there is no tooling to make",
            f"write {table_of('tooling')} with nose and shoulders into the job",
        )
    out = LaidOut(push_plate=_push_plate_there(job), bed=_bed_there(job))
    out.ram = 0.0 if job.press is None or job.press.rod is None else job.press.rod
    if out.push_plate is not None and tooling.members is None:
        tooling = evolve(tooling, members=members_on(Members(), out.push_plate))
    units, members = job.units, tooling.members
    bar_width = job.part.bar.width * job.part.at_once
    plates: list[PlateDrawing] = []
    shafts: list[ShaftDrawing] = []
    nose = out.lay("carriers", lambda: _nose(tooling, bar_width, units, out))
    if nose is not None:
        plates += _nose_side(tooling, nose, units, out)
        shafts.append(nose_shaft(tooling, nose, units))
    drawn = out.lay("die body", lambda: _die_side(tooling, nose, bar_width, units, out))
    die, rounds = drawn or ([], [])
    rods = guide_places(members)
    if rods is not None:
        here = rods
        out.lay("guide rods", lambda: check_bed_bores(out.bed, here, units))
        die = [
            (out.lay("guide rods", lambda one=one: here.passed(one, units)) or one)  # type: ignore[misc]
            if one.name in {"die base", "floor"}
            else one
            for one in die
        ]
    out.lay("guide rods", lambda: check_count(members))
    plates += die
    plates += out.extra_plates
    shafts += rounds
    shafts += guide_rods(members, units)
    shafts += out.extra_shafts
    out.notes += torque_notes(members, units)
    laid = tuple(seen for one in plates for seen in out.seen(one))
    as_drawn = read_back(tooling, nose, laid, out.reaches)
    out.findings += differences(tooling, as_drawn)
    if out.bolts:
        drawn_members = as_drawn.members or Members()
        as_drawn = evolve(
            as_drawn, members=evolve(drawn_members, bolt=(*drawn_members.bolt, *out.bolts))
        )
    kept = (
        Kept(plates=laid, shafts=tuple(shafts))
        if nose is None
        else with_keepers(laid, shafts, nose, drawable=as_drawn.nose.drawable, units=units)
    )
    pieces = Pieces(
        plates=kept.plates,
        shafts=kept.shafts,
        notes=tuple(out.notes),
        findings=tuple(out.findings),
        tooling=as_drawn,
    )
    return pieces, nose, kept


def _nose_side(
    tooling: Tooling, nose: NoseLayout, units: Units, out: LaidOut
) -> tuple[PlateDrawing, ...]:
    """Push plate, carriers and web."""
    members = tooling.members
    bolts = None
    if not nose.count:
        out.notes.append("The nose is held by its web alone: no carriers are laid out.")
    elif welded(members, "carriers"):
        out.notes.append("The carriers are entered as welded: no bolt holes are laid out for them.")
    else:
        clamped = plate_thickness(members, units)
        kept, tapped = out.push_plate, nose.centre - nose.shaft
        solid = nose.centre - nose.shaft / 2 - LEAST_WALL_MM
        bolts = out.lay(
            BOLTS["carriers"],
            lambda: bolting(
                members, "carriers", clamped=clamped, tapped=tapped, solid=solid,
                along=nose.width, edge=nose.carrier, two_rows=nose.count == 1, units=units,
            )
            if kept is None
            else kept_bolting(
                plate_there(kept), members, seat_of(nose), tapped=tapped, solid=solid, units=units
            ),
        )  # fmt: skip
        if bolts is not None:
            out.reaches["carriers"] = Reach(length=bolts.length, grip=clamped)
            out.notes.append(f"Bolts of the carriers: {bolt_words(bolts, nose.count, units)}")
    rods = guide_places(members)
    if rods is not None and nose.count:
        here = rods
        out.lay("guide rods", lambda: here.check_carriers(nose.span, nose.carrier, units))
    return nose_plates(tooling, nose, bolts, units, out)


def _die_side(
    tooling: Tooling, nose: NoseLayout | None, bar_width: float, units: Units, out: LaidOut
) -> tuple[list[PlateDrawing], list[ShaftDrawing]]:
    """Shoulders and what they stand on: side plates, cheeks on a floor, or blocks on a base."""
    members = tooling.members
    body = None if members is None else members.body
    if body is not None and body.side_plate is not None:
        return tied_pieces(tooling, body, body.side_plate, units, out)
    own = members is not None and "shoulders" in members.held
    if body is not None and not own and (body.cheek is not None or _cheeks_held(members)):
        return cheek_pieces(tooling, body, nose, bar_width=bar_width, units=units, out=out)
    return die_pieces(tooling, nose, bar_width=bar_width, plate=PLATE[units], units=units, out=out)


def _push_plate_there(job: Job) -> KeptPlate | None:
    return None if job.press is None else job.press.push_plate


def _bed_there(job: Job) -> BedThere | None:
    """The plate that the die is held to: one on the bed, else the bed itself."""
    if job.press is None:
        return None
    if job.press.bed_plate is not None:
        return BedThere(name="bed plate", plate=job.press.bed_plate)
    return None if job.press.bed is None else BedThere(name="bed", plate=job.press.bed)


def _cheeks_held(members: Members | None) -> bool:
    return members is not None and "cheeks" in members.held


def _nose(tooling: Tooling, bar_width: float, units: Units, out: LaidOut) -> NoseLayout:
    nose, members, notes = tooling.nose, tooling.members, out.notes
    stated = None if members is None else members.carriers
    shaft = 2 * nose.radius
    carrier = PLATE[units] if stated is None or stated.thickness is None else stated.thickness
    span = nose.span
    if (
        span is None
        and nose.held == "both ends"
        and members is not None
        and members.nose is not None
    ):
        between = members.nose.between
        span = None if between is None else between - carrier
    if span is None and out.push_plate is not None and nose.held == "both ends":
        span = followed_span(out.push_plate, carrier, bar_width + 2 * SIDE_PLAY)
        if span is not None:
            notes.append(
                f"Gap between the carriers: {size(span, units)}, by the holes of the push plate "
                "that stays."
            )
    if span is None:
        span = round_up(bar_width + 2 * SIDE_PLAY, units)
        notes.append(f"Gap between the carriers: {size(span, units)}, bar and play, not entered.")
    if span <= bar_width:
        raise InputError(
            "tooling.nose.span",
            f"the gap of {size(span, units)} between the carriers does not pass the bar of "
            f"{size(bar_width, units)}",
            "give a longer span",
        )
    width = round_up(2.5 * shaft, units)
    if stated is not None and stated.width is not None:
        width = stated.width
    if nose.reach is not None:
        centre = nose.reach - nose.radius
    elif stated is not None and stated.height is not None:
        centre = stated.height + nose.radius
    elif nose.web_height is not None:
        centre = nose.web_height + nose.radius
    else:
        centre = round_up(3 * shaft, units)
        notes.append(
            f"Middle of the nose {size(centre, units)} below the push plate: neither reach nor web "
            "is entered."
        )
    return NoseLayout(
        shaft=shaft, span=span, carrier=carrier, width=width, centre=centre,
        count={"both ends": 2, "one end": 1, "web": 0}[nose.held],
        below=metal_under_nose(stated, shaft),
    )  # fmt: skip

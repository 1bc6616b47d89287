"""From the tooling of a job to the plates and shafts to make, with their holes.

Layout rules, common practice without a source: bolts stand 1.5 diameters or more from an edge; a
bolt in an edge is no thicker than half of its plate; a carrier is 2.5 nose diameters wide and holds
a wall of half a diameter about the nose; shoulders are shorter than the gap between the carriers,
for those reach below the nose's tip.  What the job states goes before every rule.
"""

from __future__ import annotations

from attrs import frozen

from strapwright.errors import InputError, table_of
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.put_together import put_together
from strapwright.making.bolt_layout import bolt_words, bolting, welded
from strapwright.making.bolt_torque import torque_notes
from strapwright.making.die_plates import die_pieces
from strapwright.making.hole_table import checked
from strapwright.making.nose_plates import (
    PLATE,
    NoseLayout,
    guide_rods,
    nose_plates,
    nose_shaft,
    plate_thickness,
)
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.making.shop_lengths import round_up, size
from strapwright.making.tied_plates import tied_pieces
from strapwright.making.welded_plates import stands_on_welds, welded_pieces
from strapwright.quantities import Units
from strapwright.shop.job import Job
from strapwright.shop.plate_members import metal_under_nose
from strapwright.shop.tooling import Tooling

# Common practice, no source.
SIDE_PLAY = 6.0  # mm between the bar and a carrier on each side, where no span is stated


@frozen(kw_only=True)
class Pieces:
    """Everything to make for a tooling.

    Attributes
    ----------
    plates, shafts
        In the order of making.
    notes
        What was chosen because nothing was stated, and what is left to add.
    assembly
        The pieces put together; ``None`` for a plate of its own.
    """

    plates: tuple[PlateDrawing, ...]
    shafts: tuple[ShaftDrawing, ...]
    notes: tuple[str, ...]
    assembly: Assembly | None = None


def pieces_of(job: Job) -> Pieces:
    """Lay out the plates and shafts of a job's tooling.

    Parameters
    ----------
    job
        With a tooling.

    Returns
    -------
    Pieces
        Each plate checked: every hole in it, and not too near an edge.

    Raises
    ------
    InputError
        Where the job has no tooling, a bolt cannot reach, a thread is unknown, or a hole does not
        fit its plate.
    """
    tooling = job.tooling
    if tooling is None:
        raise InputError(
            "tooling",
            "there is no tooling to make",
            f"write {table_of('tooling')} with nose and shoulders into the job",
        )
    notes: list[str] = []
    units, members = job.units, tooling.members
    bar_width = job.part.bar.width * job.part.at_once
    nose = _nose(tooling, bar_width, units, notes)
    bolts = None
    if not nose.count:
        notes.append("The nose is held by its web alone: no carriers are laid out.")
    elif welded(members, "carriers"):
        notes.append("The carriers are stated as welded: no bolt holes are laid out for them.")
    else:
        bolts = bolting(
            members,
            "carriers",
            clamped=plate_thickness(members, units),
            tapped=nose.centre - nose.shaft,
            along=nose.width,
            edge=nose.carrier,
            units=units,
        )
        notes.append(f"Bolts of the carriers: {bolt_words(bolts, nose.count, units)}")
    plates = [*nose_plates(tooling, nose, bolts, units, notes)]
    shafts = [nose_shaft(tooling, nose)]
    body = None if members is None else members.body
    if body is not None and body.side_plate is not None:
        die, rounds, more = tied_pieces(tooling, body, body.side_plate, units)
    elif body is not None and stands_on_welds(members):
        die, rounds, more = welded_pieces(tooling, body, nose, bar_width=bar_width, units=units)
    else:
        die, rounds, more = die_pieces(
            tooling, span=nose.span, bar_width=bar_width, plate=PLATE[units], units=units
        )
    notes += more
    plates += die
    shafts += rounds
    shafts += guide_rods(members)
    notes += torque_notes(members, units)
    made = tuple(checked(one, f"plate {one.name!r}") for one in plates)
    return Pieces(
        plates=made,
        shafts=tuple(shafts),
        notes=tuple(notes),
        assembly=put_together(job, tooling, nose, made, shafts),
    )


def _nose(tooling: Tooling, bar_width: float, units: Units, notes: list[str]) -> NoseLayout:
    nose, members = tooling.nose, tooling.members
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
    if span is None:
        span = round_up(bar_width + 2 * SIDE_PLAY, units)
        notes.append(f"Gap between the carriers: {size(span, units)}, bar and play, not stated.")
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
            "is stated."
        )
    return NoseLayout(
        shaft=shaft, span=span, carrier=carrier, width=width, centre=centre,
        count={"both ends": 2, "one end": 1, "web": 0}[nose.held],
        below=metal_under_nose(stated, shaft),
    )  # fmt: skip

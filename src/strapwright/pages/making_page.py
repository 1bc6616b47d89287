"""What the page about making says: every piece drawn, its holes, its cutters, its steps."""

from __future__ import annotations

import contextlib
from collections.abc import Mapping

from attrs import frozen

from strapwright.drawing import PHONE, to_svg
from strapwright.drawing.plate_drawing import height_for, plate_scene
from strapwright.errors import InputError
from strapwright.findings import by_severity
from strapwright.making.assembly.piece_steels import metal_words
from strapwright.making.assembly.weld_values import Welding
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.hole_table import TIP
from strapwright.making.machining_steps import feed_words, plate_steps, rpm_words, shaft_steps
from strapwright.making.plate_making import HoleGroup, PlateMaking
from strapwright.making.plate_values import Machine, ShaftDrawing
from strapwright.making.shop_lengths import hole_words, listed, place, size, unit_name
from strapwright.making.tolerances import form_words, general_words, place_words, shaft_words
from strapwright.making.tooling_making import ToolingMaking, make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.pages.fields.form_fields import Field
from strapwright.pages.form import sentence_for
from strapwright.pages.page_statements import Said, said
from strapwright.pages.shelves import crib_of
from strapwright.pages.workshop import Workshop
from strapwright.planning.plan_values import Plan
from strapwright.quantities import Units, read_length, read_ratio
from strapwright.scene.frame import Frame
from strapwright.service.tooling_files import assembly_scenes, by_name, checked_again
from strapwright.wording.parts_list_words import list_notes, parts_list
from strapwright.wording.reader import Reader, in_units
from strapwright.wording.telling import tell_all

_WIDE, _TYPE = 680.0, 17.0  # px
_LEAST, _MOST = 200.0, 470.0  # px, height of a drawing
_FASTEST, _LARGEST_TIP = 60_000.0, 25.0  # rpm, mm; more is a slip
SETTINGS = (
    Field(
        name="tip",
        label="Tip of the edge finder",
        kind="length",
        inch="0.200 in",
        metric="10 mm",
        group="Your machine",
    ),
    Field(name="slow", label="Slowest spindle", kind="count", inch="100", hint="rpm"),
    Field(name="fast", label="Fastest spindle", kind="count", inch="2500", hint="rpm"),
)


@frozen(kw_only=True)
class Cutting:
    """One cutter at some holes: which holes, the cutter, speed and feed."""

    holes: str
    cutter: str
    speed: str
    feed: str


@frozen(kw_only=True)
class Lacking:
    """Holes that the crib cannot make, and the ways round."""

    holes: str
    what: str
    ways: tuple[str, ...]


@frozen(kw_only=True)
class Piece:
    """One piece to make.

    Attributes
    ----------
    name, anchor
        As it is called, and its place on the page.
    facts
        Quantity, size and metal in one line.
    time
        For one.
    wide, narrow
        Drawings; empty for a shaft.
    rows
        Label, X, Y, the same from the touch, what X and Y may be out by, and what the hole is.
    cuttings, lacking
        Cutters in order, and holes without one.
    steps, notes, cautions
        Sentences.
    file
        Name of its DXF, empty for a shaft.
    """

    name: str
    anchor: str
    facts: str
    time: str
    wide: str = ""
    narrow: str = ""
    rows: tuple[tuple[str, ...], ...] = ()
    cuttings: tuple[Cutting, ...] = ()
    lacking: tuple[Lacking, ...] = ()
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    file: str = ""


@frozen(kw_only=True)
class Making:
    """Everything the page says.

    Attributes
    ----------
    pieces, time, unit, tip, corners, notes
        Of the pieces to make.
    welds
        How what is welded is welded, in order.
    together
        The tooling put together, in three views; empty where nothing is put together.
    apart
        The same taken apart, with the numbers of the parts list.
    parts, parts_notes
        The list, a row for each number, and what belongs to it.
    """

    welds: tuple[Welding, ...] = ()
    together: str = ""
    apart: str = ""
    parts: tuple[tuple[str, ...], ...] = ()
    parts_notes: tuple[str, ...] = ()
    pieces: tuple[Piece, ...]
    time: str
    unit: str
    tip: str
    corners: Mapping[str, str]
    notes: tuple[str, ...]
    found: tuple[Said, ...] = ()

    @property
    def lacking(self) -> tuple[tuple[Piece, Lacking], ...]:
        """Every piece with holes that the crib cannot make."""
        return tuple((piece, one) for piece in self.pieces for one in piece.lacking)


def settings_wrong(typed: Mapping[str, str], units: Units) -> dict[str, str]:
    """Return one sentence for each setting of the machine that cannot be used."""
    wrong = {}
    for field in SETTINGS:
        try:
            _setting(field.name, typed, units)
        except InputError as error:
            wrong[field.name] = sentence_for(field, error, units)
    slow, fast = typed.get("slow", ""), typed.get("fast", "")
    if not wrong and slow.strip() and fast.strip() and float(read_ratio(slow, "slow")) >= float(
        read_ratio(fast, "fast")
    ):  # fmt: skip
        wrong["fast"] = "This is not above the slowest; give the fastest your belts allow."
    return wrong


def _setting(name: str, typed: Mapping[str, str], units: Units) -> float | None:
    text = typed.get(name, "").strip()
    if not text:
        return None
    if name == "tip":
        value = float(read_length(text, name, units))
        good = 0 <= value <= _LARGEST_TIP
    else:
        value = float(read_ratio(text, name))
        good = 0 < value <= _FASTEST
    if not good:
        raise InputError(name, "this is out of range", "measure it again", value=text)
    return value


def made_of(shop: Workshop, text: str, typed: Mapping[str, str]) -> ToolingMaking:
    """Work out how the tooling of a job is made with the shop's crib.

    Parameters
    ----------
    shop
        Where the crib is kept.
    text
        The job file.
    typed
        Settings of the machine; one that cannot be used is left out.

    Raises
    ------
    InputError
        If job or crib cannot be used, or there is no tooling.
    """
    job = shop.read(text)
    crib = crib_of(shop)
    if settings_wrong(typed, job.units):
        typed = {}
    tip, slow, fast = (_setting(field.name, typed, job.units) for field in SETTINGS)
    usual = Machine()
    plans: tuple[Plan, ...] = ()
    with contextlib.suppress(InputError):
        plans = (shop.plan(text),)
    return make_tooling(
        checked_again(pieces_of(job), job, plans),
        usual_cutters() if crib is None else cutters_of(crib),
        name=job.part.name,
        units=job.units,
        machine=Machine(rpm_low=slow or usual.rpm_low, rpm_high=fast or usual.rpm_high),
        tip=TIP if tip is None else tip,
        usual=crib is None,
    )


def making(made: ToolingMaking, reader: Reader | None = None) -> Making:
    """Put a making into words and drawings; ``reader`` of what is found."""
    plates = [_plate(name, one) for name, one in by_name(made).items()]
    shafts = [_shaft(number, one, made.units) for number, one in enumerate(made.shafts, start=1)]
    whole, scenes = made.assembly, assembly_scenes(made)
    return Making(
        welds=made.welding,
        together=to_svg(scenes["together"], None) if whole else "",
        apart=to_svg(scenes["apart"], None) if whole else "",
        parts=parts_list(whole, made.units) if whole else (),
        parts_notes=list_notes(whole, made.units) if whole else (),
        pieces=(*plates, *shafts),
        time=_time(made.minutes),
        unit=unit_name(made.units),
        tip=size(made.plates[0].tip if made.plates else TIP, made.units),
        corners={name: one.plate.corner for name, one in by_name(made).items()},
        notes=made.notes,
        found=tuple(
            said(one)
            for one in tell_all(by_severity(made.findings), reader or in_units(made.units))
        ),
    )


def _plate(name: str, made: PlateMaking) -> Piece:
    plate, units = made.plate, made.units
    said = plate_steps(made)
    sizes = f"{size(plate.width, units)} x {size(plate.height, units)}"
    facts = f"qty {plate.quantity}, {sizes}, {size(plate.thickness, units)} "
    facts += f"{'deep' if plate.piece else 'thick'}, {metal_words(plate, units)}"
    return Piece(
        name=plate.name,
        anchor=name,
        facts=facts,
        time=_time(made.minutes),
        wide=to_svg(plate_scene(made, _frame(made, _WIDE)), None),
        narrow=to_svg(plate_scene(made, _frame(made, PHONE.width)), None),
        rows=tuple(
            (
                row.label,
                place(row.x, units),
                place(row.y, units),
                place(row.touch_x, units),
                place(row.touch_y, units),
                place_words(row.hole, plate, units),
                hole_words(row.hole, units) + (f", {row.hole.purpose}" if row.hole.purpose else ""),
            )
            for row in made.rows
        ),
        cuttings=tuple(one for group in made.groups for one in _cuttings(group, units)),
        lacking=tuple(
            Lacking(
                holes=listed(group.labels),
                what=hole_words(group.hole, units),
                ways=tuple(way.text for way in group.making.ways),
            )
            for group in made.groups
            if not group.cuts
        ),
        steps=said.steps,
        notes=(
            general_words(max(plate.width, plate.height, plate.thickness), units),
            form_words(plate, units),
            *plate.notes,
        ),
        cautions=said.cautions,
        file=f"{name}.dxf",
    )


def _cuttings(group: HoleGroup, units: Units) -> tuple[Cutting, ...]:
    return tuple(
        Cutting(
            holes=listed(group.labels),
            cutter=one.cut.cutter.name,
            speed="by hand" if one.cut.role == "tap" else rpm_words(one.setting.rpm),
            feed="" if one.cut.role == "tap" else feed_words(one.setting.feed, units),
        )
        for one in group.cuts
    )


def _frame(made: PlateMaking, wide: float) -> Frame:
    body = _TYPE if wide == _WIDE else PHONE.body
    high = height_for(made.plate, wide, body)
    return Frame(width=wide, height=max(_LEAST, min(_MOST, high)), body=body)


def _shaft(number: int, shaft: ShaftDrawing, units: Units) -> Piece:
    said = shaft_steps(shaft, units)
    return Piece(
        name=shaft.name,
        anchor=f"shaft-{number}",
        facts=shaft_words(shaft, units),
        time="",
        steps=said.steps,
        notes=shaft.notes,
        cautions=said.cautions,
    )


def _time(minutes: float) -> str:
    """Rough: to five minutes, or to a quarter of an hour above one."""
    if minutes < 60:
        return f"{max(5, 5 * round(minutes / 5))} min"
    return f"{round(minutes / 15) / 4:g} h"

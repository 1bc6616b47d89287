"""The nose side as pieces to make: push plate, carriers, web, nose shaft."""

from __future__ import annotations

from attrs import evolve, frozen

from strapwright.catalog.steels import find_steel
from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.bolt_layout import (
    EDGE,
    ENGAGEMENT,
    TAPPED,
    Bolting,
    bolt_places,
    bolting,
    welded,
)
from strapwright.making.drawn_members.guide_places import SLIDES, guide_places
from strapwright.making.drawn_members.laying_out import LaidOut, Reach
from strapwright.making.hole_table import LEAST_WALL_MM, bolt_hole, fit_hole, tapped_hole
from strapwright.making.kept.bushes import bolt_bush, rod_bush
from strapwright.making.kept.patterns import Seat, in_room
from strapwright.making.kept.push_plate_there import plate_there, with_bolts
from strapwright.making.kept.rods_and_ram import check_ram, with_rods
from strapwright.making.plate_metals import MILD, metal_of
from strapwright.making.plate_values import HoleSpec, PlateDrawing, ShaftDrawing
from strapwright.making.press_bolts import flange_holes, stated_bolt
from strapwright.making.shop_lengths import round_up, size
from strapwright.making.tolerances import fit_words
from strapwright.quantities import Units
from strapwright.shop.kept_plates import KeptPlate
from strapwright.shop.member_names import BOLTS
from strapwright.shop.members import Members
from strapwright.shop.tooling import Tooling

# Common practice, no source.
PLATE = {"inch": 19.05, "metric": 20.0}  # mm, thickness of plates that are not stated
MARGIN = 12.0  # mm of push plate around what is bolted to it
_WEB_BOLTS = {"inch": "1/4-20", "metric": "M6"}


# Bore of the carriers and nose, by whether it is drawn out of each part, which wants play; one that
# stays sits close.  Common practice, no source.
_NOSE_FITS = {True: ("H8", "g6"), False: ("H7", "h6")}


@frozen(kw_only=True)
class NoseLayout:
    """Sizes about the nose [mm], stated or by the rules of the layout."""

    shaft: float
    span: float
    carrier: float
    width: float
    centre: float
    count: int
    below: float

    @property
    def height(self) -> float:
        """Of a carrier, from the push plate's face to below the bore [mm]."""
        return self.centre + self.shaft / 2 + self.below


def nose_plates(
    tooling: Tooling, nose: NoseLayout, bolts: Bolting | None, units: Units, out: LaidOut
) -> tuple[PlateDrawing, ...]:
    """Return push plate, carriers and web; what was not stated is added to the notes."""
    web = _web_bolts(tooling, nose, units, out)
    return (
        _push_plate(tooling, nose, bolts, web, units=units, out=out),
        *_carriers(tooling, nose, bolts, units),
        *_web(tooling, nose, web, units, out),
    )


def plate_thickness(members: Members | None, units: Units) -> float:
    """Return the thickness of the push plate [mm], stated or usual."""
    plate = None if members is None else members.push_plate
    return PLATE[units] if plate is None or plate.thickness is None else plate.thickness


def ram_not_entered(ram: float, units: Units) -> str:
    """Say what to enter where nothing says how the push plate is fixed to the ram."""
    clear = f"keep the broken circle of the ram, {size(ram, units)}, clear and " if ram else ""
    return (
        "Not entered: how the push plate is fixed to the ram. Enter the bolts that hold the push "
        f"plate with their circle or spacing. Until then {clear}take the holes from the ram before "
        "the carriers go on."
    )


def _push_plate(
    tooling: Tooling,
    nose: NoseLayout,
    bolts: Bolting | None,
    web: Bolting | None,
    *,
    units: Units,
    out: LaidOut,
) -> PlateDrawing:
    if out.push_plate is not None:
        return _kept(out.push_plate, tooling, nose, bolts, web, units=units, out=out)
    members = tooling.members
    stated = None if members is None else members.push_plate
    thickness = plate_thickness(members, units)
    beside = nose.carrier if nose.count else 0.0
    length = round_up(nose.span + 2 * beside + 2 * MARGIN, units)
    width = round_up(nose.width + 2 * MARGIN, units)
    if stated is not None and stated.width is not None:
        width = stated.width
    holes: list[HoleSpec] = []
    rods = guide_places(members)
    if rods is not None:
        # Beside the carriers, on the middle line.
        length = max(length, round_up(2 * rods.out + 3 * rods.diameter, units))
        holes += rods.holes_along_x(length, width, SLIDES)
    # The plate's middle is over the bar's; a nose held at one end has its carrier at the right.
    off = (nose.span + nose.carrier) / 2
    middles = (length / 2 - off, length / 2 + off)[2 - nose.count :]
    low = (width - nose.width) / 2
    if bolts is not None:
        holes += [
            bolt_hole(
                x + across - nose.carrier / 2, low + y, bolts.thread.size, "normal", "push plate",
                purpose="carrier bolt",
            )
            for x in middles
            for y, across in bolt_places(nose.width, bolts)
        ]  # fmt: skip
    holes += _web_holes(tooling, nose, web, length, width)
    ram = out.lay(BOLTS["push plate"], lambda: flange_holes(members, length, width, units))
    holes += ram or ()
    if ram:
        out.notes.append(
            "Holes of the ram's flange are in the push plate, about its middle: lay the flange on "
            "it before you drill, and see that heads and spanner clear carriers and web."
        )
    plate = PlateDrawing(
        name="push plate",
        metal=metal_of(None if stated is None else stated.material, MILD),
        width=length, height=width, thickness=thickness, holes=tuple(holes),
    )  # fmt: skip
    # Holes that cannot be laid out are found, and said already.
    return plate if ram or ram is None else _unfixed(plate, members, units, out)


def _unfixed(
    plate: PlateDrawing, members: Members | None, units: Units, out: LaidOut
) -> PlateDrawing:
    """Return a push plate that nothing is entered for to fix it to the ram, with room for it."""
    if welded(members, "push plate"):
        return plate
    told = ram_not_entered(out.ram, units)
    out.notes.append(told)
    return evolve(plate, ram=out.ram, notes=(*plate.notes, told))


def _web_holes(
    tooling: Tooling, nose: NoseLayout, web: Bolting | None, length: float, width: float
) -> tuple[HoleSpec, ...]:
    """Holes for the bolts of a web, about the middle line of a push plate."""
    if web is None:
        return ()
    thick = tooling.nose.web_thickness or 0.0
    return tuple(
        bolt_hole(
            (length - nose.span) / 2 + along, width / 2 + across - thick / 2, web.thread.size,
            "normal", "push plate", purpose="web bolt",
        )
        for along, across in bolt_places(nose.span, web)
    )  # fmt: skip


def seat_of(nose: NoseLayout) -> Seat:
    """Return where the carriers stand under the push plate."""
    return Seat(
        off=(nose.span + nose.carrier) / 2, width=nose.width, thickness=nose.carrier,
        count=nose.count,
    )  # fmt: skip


def _kept(
    kept: KeptPlate,
    tooling: Tooling,
    nose: NoseLayout,
    bolts: Bolting | None,
    web: Bolting | None,
    *,
    units: Units,
    out: LaidOut,
) -> PlateDrawing:
    """Return a push plate that stays, with what this tooling takes of it and adds to it."""
    plate, members = plate_there(kept), tooling.members
    seat = seat_of(nose)
    if bolts is not None:
        plate = with_bolts(plate, seat, bolts)
        if bolts.bush:
            out.extra_shafts.append(
                bolt_bush(
                    bolts.thread, bolts.bush, plate.thickness, len(seat.signs) * bolts.count, units
                )
            )
        if bolts.off:
            way = "outwards" if bolts.off > 0 else "inwards"
            out.notes.append(
                f"The threads in the carriers follow the holes of the push plate: "
                f"{size(abs(bolts.off), units)} {way} of the middle of the edge."
            )
    new = _web_holes(tooling, nose, web, kept.length, kept.width)
    if new:
        room = plate
        held = out.lay(
            "nose", lambda: in_room(room, new, room.holes, "tooling.nose.web", units)
        )  # fmt: skip
        plate = evolve(plate, holes=(*plate.holes, *new)) if held else plate
    rods = guide_places(members)
    if rods is not None:
        here, before = rods, plate
        passed = out.lay("guide rods", lambda: with_rods(before, here, units))
        if passed is not None:
            plate, wide = passed
            if wide:
                out.extra_shafts.append(rod_bush(rods.diameter, wide, plate.thickness, units))
    flange = out.lay(
        BOLTS["push plate"], lambda: flange_holes(members, kept.length, kept.width, units)
    )
    if flange is not None:
        laid, places = plate, flange
        plate = (
            out.lay(BOLTS["push plate"], lambda: check_ram(laid, members, places, units)) or plate
        )
    plate = evolve(plate, notes=_kept_notes(kept, plate, units))
    if any(one.purpose == "bolt of the ram" for one in plate.holes):
        return plate
    return _unfixed(plate, members, units, out)


def _kept_notes(kept: KeptPlate, plate: PlateDrawing, units: Units) -> tuple[str, ...]:
    name = kept.name or "this plate"
    if not kept.exists:
        return (f"It stays on the press for every tooling that is made for {name}.",)
    taken = sum(one.exists and one.purpose == "carrier bolt" for one in plate.holes)
    new = sum(not one.exists for one in plate.holes)
    notes = [f"{name[:1].upper()}{name[1:]} exists: thin broken circles are holes that are there."]
    if taken:
        notes.append(f"Bolts of the carriers go through {taken} of them.")
    if new:
        notes.append(
            f"Check {size(plate.width, units)} x {size(plate.height, units)} before you drill: "
            "places count from its own corner, the ram's axis in its middle."
        )
    return tuple(notes)


def _carriers(
    tooling: Tooling, nose: NoseLayout, bolts: Bolting | None, units: Units
) -> tuple[PlateDrawing, ...]:
    if not nose.count:
        return ()
    stated = None if tooling.members is None else tooling.members.carriers
    metal = metal_of(None if stated is None else stated.material, MILD)
    fit = _NOSE_FITS[tooling.nose.drawable][0]
    bore = fit_hole(
        nose.width / 2, nose.height - nose.centre, nose.shaft, fit, "nose carrier", purpose="nose"
    )
    face = PlateDrawing(
        name="nose carrier", metal=metal, width=nose.width, height=nose.height,
        thickness=nose.carrier, holes=(bore,), quantity=nose.count, corner="upper left",
        notes=(
            (
                "Bore both carriers clamped together with their top edges level, so that the nose "
                "sits true."
            ),
            f"It reaches {size(nose.below, units)} below the nose, beside the shoulders.",
        ),
    )  # fmt: skip
    if bolts is None:
        return (face,)
    depth = TAPPED * bolts.thread.major
    edge = PlateDrawing(
        name="nose carrier, upper edge", piece="nose carrier", metal=metal, width=nose.width,
        height=nose.carrier, thickness=nose.height, quantity=nose.count,
        holes=tuple(
            tapped_hole(
                x, y, bolts.thread.name, "nose carrier",
                depth=max(depth, bolts.length - plate_thickness(tooling.members, units)),
                purpose="bolt of the push plate",
            )
            for x, y in bolt_places(nose.width, bolts)
        ),
    )  # fmt: skip
    return face, edge


def _web_bolts(tooling: Tooling, nose: NoseLayout, units: Units, out: LaidOut) -> Bolting | None:
    """Bolts of the web, as stated; else two that it has room for, or ``None``."""
    thickness, members = tooling.nose.web_thickness, tooling.members
    if thickness is None or welded(members, "web"):
        return None
    if stated_bolt(members, "web") is not None:
        wide, tall = thickness, nose.centre - nose.shaft / 2 - LEAST_WALL_MM
        return out.lay(
            BOLTS["web"],
            lambda: bolting(
                members, "web", clamped=plate_thickness(members, units), tapped=tall, solid=tall,
                along=nose.span, edge=wide, two_rows=True, units=units,
            ),
        )  # fmt: skip
    thread = find_thread(_WEB_BOLTS[units], "web")
    if 2 * thread.major > thickness + 1e-6 or nose.span < 8 * thread.major:
        return None
    clamped = plate_thickness(tooling.members, units)
    return Bolting(
        thread=thread, count=2, length=round_up(clamped + ENGAGEMENT * thread.major, units),
        across=(thickness / 2,), ends=EDGE * thread.major,
    )  # fmt: skip


def _web(
    tooling: Tooling, nose: NoseLayout, bolts: Bolting | None, units: Units, out: LaidOut
) -> tuple[PlateDrawing, ...]:
    thickness = tooling.nose.web_thickness
    if thickness is None:
        return ()
    height = nose.centre - nose.shaft / 2
    face = PlateDrawing(
        name="nose web", metal=MILD, width=nose.span, height=height, thickness=thickness,
        holes=(), corner="upper left",
        notes=(
            "Its lower edge bears on the nose along its whole length: fit it to the shaft.",
            *(
                ("Nothing else holds the nose: weld or screw it to the web as entered.",)
                if not nose.count
                else ()
            ),
        ),
    )  # fmt: skip
    if bolts is None:
        if welded(tooling.members, "web"):
            out.notes.append("The web is entered as welded to the push plate.")
        elif stated_bolt(tooling.members, "web") is None:
            out.notes.append(
                "The web is too thin for bolts in its edge: weld it to the push plate."
            )
        return (face,)
    out.reaches["web"] = Reach(
        length=bolts.length, grip=plate_thickness(tooling.members, units)
    )  # fmt: skip
    edge = PlateDrawing(
        name="nose web, upper edge", piece="nose web", metal=MILD, width=nose.span,
        height=thickness, thickness=height,
        holes=tuple(
            tapped_hole(
                x, y, bolts.thread.name, "nose web",
                depth=max(
                    TAPPED * bolts.thread.major,
                    bolts.length - plate_thickness(tooling.members, units),
                ),
                purpose="bolt of the push plate",
            )
            for x, y in bolt_places(nose.span, bolts)
        ),
    )  # fmt: skip
    return face, edge


def nose_shaft(tooling: Tooling, nose: NoseLayout, units: Units) -> ShaftDrawing:
    """Return the nose as a shaft to cut; a drawable one stands out to be taken hold of."""
    bore, turned = _NOSE_FITS[tooling.nose.drawable]
    stated = None if tooling.members is None else tooling.members.nose
    name = None if stated is None else stated.material
    hardened = name is not None and find_steel(name, "tooling.members.nose.material").hardened
    over = 12.0 if tooling.nose.drawable else 0.0  # to take hold of it
    return ShaftDrawing(
        name="nose shaft", metal=metal_of(name, "medium carbon steel"), diameter=nose.shaft,
        length=nose.span + nose.count * nose.carrier + over, hardened=hardened,
        fit=turned,
        notes=(
            *((f"In its carriers, {fit_words(nose.shaft, f'{bore}/{turned}', units)}.",)
              if nose.count else ()),
            "Measure it before the carriers are reamed or bored: the hole is made to it.",
        ),
    )  # fmt: skip

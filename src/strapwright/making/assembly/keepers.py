"""What holds nose and shoulder rounds in their seats while no bar presses on them.

Common practice without a source: a small plate on the outer side of a carrier covers the end of the
nose; a nose that is drawn out has a collar at the end that is taken hold of; one held at one end
has a set screw on a flat.  A round in a half-round seat is held by screws through its cheek.
"""

from __future__ import annotations

from collections.abc import Sequence

from attrs import evolve, frozen

from strapwright.catalog.clearance import clearance_hole
from strapwright.catalog.thread_sizes import Thread, find_thread
from strapwright.errors import InputError
from strapwright.making.hole_table import LEAST_WALL_MM, bolt_hole, checked, tapped_hole
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_metals import MILD
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing, Threaded
from strapwright.making.shop_lengths import round_down, round_up, sixteenth, size
from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM

# Common practice, no source: largest first; plates; room about a screw in diameters.
SCREWS: dict[Units, tuple[str, ...]] = {
    "inch": ("1/4-20", "#10-24", "#8-32"), "metric": ("M6", "M5", "M4"),
}  # fmt: skip
THICK: dict[Units, float] = {"inch": INCH_MM / 8, "metric": 3.0}
WIDE: dict[Units, float] = {"inch": INCH_MM, "metric": 25.0}
EDGE, INTO, BLIND = 1.5, 1.25, 1.5
COLLAR_ACROSS, COLLAR_WIDE = 1.75, 12.0  # nose diameters; mm
PLATE, COLLAR, SET_SCREW = "nose keeper", "shaft collar", "set screw"
BY_HAND = (PLATE, "shoulder round")  # what their screws fasten
PLATE_SCREW, ROUND_SCREW = "keeper screw", "screw of a round"


@frozen(kw_only=True)
class Bought:
    """Something bought that keeps the nose.

    Attributes
    ----------
    name
        ``shaft collar`` or ``set screw``.
    sizes
        Bore of a collar, length of a screw [mm].
    thread
        Of a set screw, else empty.
    """

    name: str
    sizes: tuple[float, ...]
    thread: str = ""


@frozen(kw_only=True)
class Kept:
    """The pieces of a tooling with what keeps nose and rounds.

    Attributes
    ----------
    plates, shafts
        With the holes for it, and the plates that are new.
    bought
        What is bought for it.
    notes
        What is to be seen to.
    """

    plates: tuple[PlateDrawing, ...]
    shafts: tuple[ShaftDrawing, ...]
    bought: tuple[Bought, ...] = ()
    notes: tuple[str, ...] = ()


def with_keepers(
    plates: Sequence[PlateDrawing],
    shafts: Sequence[ShaftDrawing],
    layout: NoseLayout,
    *,
    drawable: bool,
    units: Units,
) -> Kept:
    """Add what keeps nose and rounds in their seats.

    Parameters
    ----------
    plates, shafts
        As laid out.
    layout
        Sizes about the nose.
    drawable
        Whether the nose is drawn out of each part.
    units
        Of the job.
    """
    kept = Kept(plates=tuple(plates), shafts=tuple(shafts))
    if layout.count == 1:
        kept = _set_screw(kept, layout, units)
    elif layout.count == 2:
        kept = _nose_plate(kept, layout, units, drawable=drawable)
    return _round_screws(kept, units)


def _nose_plate(kept: Kept, layout: NoseLayout, units: Units, *, drawable: bool) -> Kept:
    carrier = next((one for one in kept.plates if one.name == "nose carrier"), None)
    if carrier is None or not carrier.holes:
        return kept
    thread = find_thread(SCREWS[units][0], PLATE)
    bore, radius = carrier.holes[0], layout.shaft / 2
    up = radius + (EDGE + 0.5) * thread.major
    deep = BLIND * thread.major
    hole = tapped_hole(
        bore.x, bore.y + up, thread.name, PLATE, purpose="keeper of the nose",
        depth=deep if deep + 6 * thread.pitch < carrier.thickness else None,
    )  # fmt: skip
    held = evolve(
        carrier,
        holes=(*carrier.holes, hole),
        notes=(*carrier.notes, "The thread for the keeper of the nose is in the outer side."),
    )
    try:
        checked(held, PLATE)
    except InputError:
        return evolve(kept, notes=(*kept.notes, _unkept("the nose in its carriers")))
    count = 1 if drawable else 2
    plate = PlateDrawing(
        name=PLATE, metal=MILD, width=WIDE[units], thickness=THICK[units], quantity=count,
        height=round_up(up + EDGE * thread.major, units),
        holes=(
            bolt_hole(WIDE[units] / 2, up, thread.size, "normal", PLATE, purpose=PLATE_SCREW),
        ),
        notes=(
            "It covers the upper half of the end of the nose, on the outer side of a carrier.",
            "Loosen its screw and turn it aside to take the nose out.",
        ),
    )  # fmt: skip
    return evolve(
        kept,
        plates=(*(held if one is carrier else one for one in kept.plates), plate),
        bought=(*kept.bought, *((Bought(name=COLLAR, sizes=(layout.shaft,)),) if drawable else ())),
    )


def _set_screw(kept: Kept, layout: NoseLayout, units: Units) -> Kept:
    carrier = next((one for one in kept.plates if one.name == "nose carrier"), None)
    if carrier is None or not carrier.holes:
        return kept
    thread = find_thread(SCREWS[units][0], SET_SCREW)
    wall = carrier.holes[0].y - layout.shaft / 2
    length = round_down(wall, units)
    if length <= 0 or 2 * thread.major > carrier.thickness:
        return evolve(kept, notes=(*kept.notes, _unkept("the nose in its carrier")))
    edge = PlateDrawing(
        name="nose carrier, lower edge", piece="nose carrier", metal=carrier.metal,
        width=carrier.width, height=carrier.thickness, thickness=carrier.height,
        holes=(
            tapped_hole(carrier.width / 2, carrier.thickness / 2, thread.name, SET_SCREW,
                        depth=wall, purpose="set screw of the nose"),
        ),
        notes=("Tap it through into the bore, and take the burr out of the bore.",),
    )  # fmt: skip
    flat = (
        f"Grind a flat for the set screw, {size(1 / 32 * INCH_MM, units)} deep where this allows, "
        f"its middle {size(carrier.thickness / 2, units)} from one end."
        if units == "inch"
        else f"Grind a flat 1 mm deep for the set screw, its middle "
        f"{size(carrier.thickness / 2, units)} from one end."
    )
    return evolve(
        kept,
        plates=(*kept.plates, edge),
        shafts=tuple(
            evolve(one, notes=(*one.notes, flat)) if one.name == "nose shaft" else one
            for one in kept.shafts
        ),
        bought=(*kept.bought, Bought(name=SET_SCREW, sizes=(length,), thread=thread.name)),
    )


def _round_screws(kept: Kept, units: Units) -> Kept:
    cheek = next((one for one in kept.plates if one.name == "cheek"), None)
    round_ = next((one for one in kept.shafts if one.name == "shoulder round"), None)
    if cheek is None or round_ is None or cheek.edges_rounded:
        return kept
    radius = round_.diameter / 2
    wall = cheek.thickness - radius
    for name in SCREWS[units]:
        thread = find_thread(name, "shoulder round")
        length = round_up(wall + thread.major, units)
        deep = sixteenth(length - wall + INTO * thread.pitch, units)
        held = _held(cheek, radius, thread, units)
        if held is None or deep > 1.5 * radius:
            continue
        places = tuple(hole.x for hole in held.holes if hole.purpose == ROUND_SCREW)
        tapped = evolve(
            round_,
            threads=tuple(Threaded(place=x, thread=thread.name, depth=deep) for x in places),
        )
        return evolve(
            kept,
            plates=tuple(held if one is cheek else one for one in kept.plates),
            shafts=tuple(tapped if one is round_ else one for one in kept.shafts),
        )
    return evolve(kept, notes=(*kept.notes, _unkept("the rounds in their seats")))


def _held(cheek: PlateDrawing, radius: float, thread: Thread, units: Units) -> PlateDrawing | None:
    """Return a cheek with holes for screws into its round; ``None`` where they find no room."""
    across = clearance_hole(thread.size, "normal", "cheek").diameter
    if radius - across / 2 < max(across / 2, LEAST_WALL_MM):
        return None
    out = round_up(2 * EDGE * thread.major, units)
    places = (out, cheek.width - out) if cheek.width >= 2 * out + 3 * across else (cheek.width / 2,)
    held = evolve(
        cheek,
        holes=(
            *cheek.holes,
            *(
                bolt_hole(x, cheek.height - radius, thread.size, "normal", "cheek",
                          purpose=ROUND_SCREW)
                for x in places
            ),
        ),
        notes=(*cheek.notes, "Its screws hold the round in its seat: drill for them from outside."),
    )  # fmt: skip
    try:
        return checked(held, "cheek")
    except InputError:
        return None


def _unkept(what: str) -> str:
    return (
        f"No room was found for what keeps {what} while no bar presses: see to it before you "
        "turn the tooling over."
    )

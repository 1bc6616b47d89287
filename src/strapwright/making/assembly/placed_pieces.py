"""Where each piece of a tooling is, as solids: by its name, and by the sizes it is made to.

x runs along the bar from the middle of the opening, y along the nose from the middle of the bar, z
up from the bed.  The nose is at first contact.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from types import MappingProxyType

from attrs import frozen

from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.assembly.keepers import COLLAR, COLLAR_ACROSS, COLLAR_WIDE, Bought
from strapwright.making.assembly.solid_shapes import (
    PLANES,
    drawn_out,
    rectangle,
    ring,
    rod,
    rounded_corner,
    without_round,
)
from strapwright.making.assembly.solid_values import Point3, Ring, Solid
from strapwright.making.nose_plates import NoseLayout
from strapwright.making.plate_values import PlateDrawing, ShaftDrawing
from strapwright.shop.tooling import Tooling

PLANES_XZ: tuple[Point3, Point3] = ((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))  # exact
BASES = ("die base", "floor")
BEDS = ("bed plate", "bed")
BODIES = ("cheek", "shoulder block")


@frozen(kw_only=True)
class Heights:
    """What the places are counted from.

    Attributes
    ----------
    floor
        Upper face of floor or base [mm].
    under
        Lower face of it: the riser's height [mm].
    tops, nose, plate
        Shoulder tops, middle of the nose, lower face of the push plate [mm].
    opening, radius
        Of the shoulders [mm].
    length
        Of the shoulders along the nose [mm].
    rounds
        Whether rounds lie in seats.
    layout
        Sizes about the nose.
    step
        How far pieces are moved where the picture takes the tooling apart [mm].
    """

    floor: float
    under: float
    tops: float
    nose: float
    plate: float
    opening: float
    radius: float
    length: float
    rounds: bool
    layout: NoseLayout
    step: float


@frozen(kw_only=True)
class Placed:
    """One piece in place, and how far it is moved where the tooling is taken apart [mm]."""

    solid: Solid
    apart: Point3


def heights_of(
    tooling: Tooling,
    layout: NoseLayout,
    plates: Sequence[PlateDrawing],
    shafts: Sequence[ShaftDrawing],
    bar: float,
) -> Heights:
    """Work out the heights from the pieces as they are made; ``bar`` is its thickness [mm]."""
    shoulders = tooling.shoulders
    base = next((one for one in plates if one.name in BASES), None)
    body = next((one for one in plates if one.name in BODIES), None)
    round_ = next((one for one in shafts if one.name == "shoulder round"), None)
    floor = 0.0 if base is None else base.thickness
    stated = shoulders.height
    if body is not None:
        tall = body.height
    else:
        tall = (shoulders.depth or shoulders.opening) if stated is None else stated
    tops = floor + tall
    # A tooling without a body is drawn from the bed; one that is lower stands on a riser.
    under = 0.0 if stated is None or body is None else max(0.0, stated - tops)
    tops += under
    nose = tops + bar + layout.shaft / 2
    length = body.width if body is not None else 0.0 if round_ is None else round_.length
    return Heights(
        floor=under + floor, under=under, tops=tops, nose=nose, plate=nose + layout.centre,
        opening=shoulders.opening, radius=shoulders.radius, length=length,
        rounds=round_ is not None, layout=layout,
        step=0.3 * (nose + layout.centre),
    )  # fmt: skip


def places_of(plate: PlateDrawing, at: Heights) -> tuple[Placed, ...] | None:
    """Return every one of some alike plates in place; ``None`` where no rule says where it goes."""
    rule = _PLATES.get(plate.name)
    return None if rule is None else tuple(rule(plate, at))


def shaft_places(
    shaft: ShaftDrawing, at: Heights, guides: Sequence[tuple[float, float]]
) -> tuple[Placed, ...] | None:
    """Return every one of some alike shafts in place; ``guides`` are the middles of rods [mm]."""
    if shaft.name == "nose shaft":
        layout = at.layout
        # Held at one end, its carrier is on the side of larger y.
        start = -layout.span / 2 - (layout.carrier if layout.count == 2 else 0.0)
        solid = rod(shaft.diameter / 2, "y", (0.0, start, at.nose), shaft.length)
        return (Placed(solid=solid, apart=(0.0, -shaft.length - 1.3 * at.step, at.step)),)
    if shaft.name == "shoulder round":
        high = at.tops - shaft.diameter / 2
        return tuple(
            Placed(
                solid=rod(
                    shaft.diameter / 2, "y", (sign * at.opening / 2, -shaft.length / 2, high),
                    shaft.length,
                ),
                apart=(0.0, 0.0, 0.4 * at.step),
            )
            for sign in (-1, 1)
        )  # fmt: skip
    if shaft.name == "guide rod":
        return tuple(
            Placed(
                solid=rod(shaft.diameter / 2, "z", (x, y, at.under), shaft.length),
                apart=(0.0, 0.0, 0.0),
            )
            for x, y in guides
        )
    return None


def bought_places(bought: Bought, at: Heights) -> tuple[Placed, ...]:
    """Return a collar on the end of the nose, or a set screw under it, in place."""
    layout = at.layout
    half, radius = layout.span / 2, layout.shaft / 2
    if bought.name == COLLAR:
        solid = drawn_out(
            ring(COLLAR_ACROSS * radius), "y", (0.0, half + layout.carrier, at.nose), COLLAR_WIDE,
            holes=(ring(radius),),
        )  # fmt: skip
        return (Placed(solid=solid, apart=(0.0, 0.5 * at.step, at.step)),)
    (length,) = bought.sizes
    start = (0.0, half + layout.carrier / 2, at.nose - radius - length)
    return (
        Placed(
            solid=rod(find_thread(bought.thread, bought.name).major / 2, "z", start, length),
            apart=(0.0, 0.0, 0.5 * at.step),
        ),
    )


def on_face(plate: PlateDrawing, origin: Point3, u: Point3, v: Point3) -> Solid:
    """Return a flat plate with its through holes, its face's lower left corner at ``origin``."""
    return Solid(
        outline=rectangle(plate.width, plate.height), origin=origin, u=u, v=v,
        depth=plate.thickness,
        holes=tuple(
            ring(one.diameter / 2, (one.x, one.y)) for one in plate.holes if one.depth is None
        ),
    )  # fmt: skip


def push_plate_solid(plate: PlateDrawing, at: Heights) -> Solid:
    """Return the push plate: its face is seen from below, x along the nose."""
    return on_face(
        plate, (-plate.height / 2, -plate.width / 2, at.plate + plate.thickness),
        (0.0, 1.0, 0.0), (1.0, 0.0, 0.0),
    )  # fmt: skip


def base_solid(plate: PlateDrawing, at: Heights) -> Solid:
    """Return floor or base: its face is seen from above, x along the bar."""
    return on_face(
        plate,
        (-plate.width / 2, -plate.height / 2, at.floor - plate.thickness),
        *PLANES["z"],
    )


def side_plate_solid(plate: PlateDrawing, at: Heights, side: int) -> Solid:
    """Return a side plate at one end of the cheeks, ``side`` -1 or 1 along the nose."""
    near = side * at.length / 2 + (plate.thickness if side > 0 else 0.0)
    return on_face(
        plate, (-plate.width / 2, near, at.floor), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)
    )  # fmt: skip


def keeper_plates(plate: PlateDrawing, at: Heights) -> Iterator[tuple[Solid, int]]:
    """Each keeper of the nose on the outer side of a carrier, with its side."""
    for inner, side in carrier_faces(at)[: plate.quantity]:
        outer = inner + side * at.layout.carrier
        far = outer + (plate.thickness if side > 0 else 0.0)
        yield on_face(plate, (-plate.width / 2, far, at.nose), *PLANES_XZ), side


def cheek_faces(plate: PlateDrawing, at: Heights) -> Iterator[tuple[Solid, int]]:
    """Each cheek as a flat plate without its seat, with its side; depth runs along the bar."""
    for side in (-1, 1):
        left = at.opening / 2 if side > 0 else -at.opening / 2 - plate.thickness
        yield on_face(plate, (left, -plate.width / 2, at.floor), *PLANES["x"]), side


def carrier_faces(at: Heights) -> tuple[tuple[float, int], ...]:
    """Return for each carrier its inner face's place along the nose [mm], and its side."""
    half = at.layout.span / 2
    return ((-half, -1), (half, 1))[2 - at.layout.count :]


def _push_plate(plate: PlateDrawing, at: Heights) -> list[Placed]:
    return [Placed(solid=push_plate_solid(plate, at), apart=(0.0, 0.0, 2.0 * at.step))]


def _carrier(plate: PlateDrawing, at: Heights) -> list[Placed]:
    low = at.plate - plate.height
    placed = []
    for inner, side in carrier_faces(at):
        far = inner + (plate.thickness if side > 0 else 0.0)
        solid = on_face(plate, (-plate.width / 2, far, low), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
        placed.append(Placed(solid=solid, apart=(0.0, 0.0, at.step)))
    return placed


def _web(plate: PlateDrawing, at: Heights) -> list[Placed]:
    origin = (-plate.thickness / 2, -plate.width / 2, at.plate - plate.height)
    solid = on_face(plate, origin, *PLANES["x"])
    return [Placed(solid=solid, apart=(0.0, 0.0, 1.5 * at.step))]


def _base(plate: PlateDrawing, at: Heights) -> list[Placed]:
    return [Placed(solid=base_solid(plate, at), apart=(0.0, 0.0, -0.4 * at.step))]


def _bed(plate: PlateDrawing, at: Heights) -> list[Placed]:
    """What the die stands on, its upper face at the height that shoulders are counted from."""
    solid = on_face(plate, (-plate.width / 2, -plate.height / 2, -plate.thickness), *PLANES["z"])
    return [Placed(solid=solid, apart=(0.0, 0.0, -1.3 * at.step))]


def _body(plate: PlateDrawing, at: Heights) -> list[Placed]:
    """Cheeks with their seats, or blocks with a rounded edge: a profile along the nose."""
    placed = []
    wide, tall = plate.thickness, plate.height
    inner = at.opening / 2 - (at.radius if plate.edges_rounded else 0.0)
    for side in (-1, 1):
        left = inner if side > 0 else -inner - wide
        # Corners as (z, x), the plane that is drawn out along y.
        outline: Ring = ((0.0, 0.0), (tall, 0.0), (tall, wide), (0.0, wide))
        if plate.edges_rounded:
            outline = rounded_corner(outline, 1 if side > 0 else 2, plate.edges_rounded)
        elif at.rounds:
            middle = (tall - at.radius, 0.0 if side > 0 else wide)
            outline = without_round(outline, middle, at.radius)
        out = left + (wide if side > 0 else 0.0)
        rims = tuple(
            tuple(
                (out, y - plate.width / 2, z + at.floor)
                for y, z in ring(hole.diameter / 2, (hole.x, hole.y), 24)
            )
            for hole in plate.holes
        )
        solid = drawn_out(
            outline, "y", (left, -plate.width / 2, at.floor), plate.width, rims=rims
        )  # fmt: skip
        placed.append(Placed(solid=solid, apart=(0.0, 0.0, 0.0)))
    return placed


def _side_plate(plate: PlateDrawing, at: Heights) -> list[Placed]:
    return [
        Placed(
            solid=side_plate_solid(plate, at, side), apart=(0.0, side * 0.8 * at.step, 0.0)
        )
        for side in (-1, 1)
    ]  # fmt: skip


def _keeper(plate: PlateDrawing, at: Heights) -> list[Placed]:
    return [
        Placed(solid=solid, apart=(0.0, side * 0.6 * at.step, at.step))
        for solid, side in keeper_plates(plate, at)
    ]


_PLATES: Mapping[str, Callable[[PlateDrawing, Heights], list[Placed]]] = MappingProxyType(
    {
        "push plate": _push_plate,
        "nose carrier": _carrier,
        "nose web": _web,
        "cheek": _body,
        "shoulder block": _body,
        "side plate": _side_plate,
        "nose keeper": _keeper,
        **dict.fromkeys(BASES, _base),
        **dict.fromkeys(BEDS, _bed),
    }
)

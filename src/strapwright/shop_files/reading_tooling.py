"""Read what a job or a shop file says of the tooling."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

from strapwright.shop.tooling import Floor, Groove, Held, Nose, RamSide, Shoulders, Tooling
from strapwright.shop_files.quantity_fields import (
    ANGLE,
    FORCE,
    FRICTION,
    LENGTH,
    PI,
    exact,
    quantity,
)
from strapwright.shop_files.reading_members import read_members
from strapwright.shop_files.reading_pieces import read_obstacles, read_plate, read_rods
from strapwright.shop_files.toml_table import Table

FRICTION_COEFFICIENT = 0.1  # oiled or dry mill scale on steel; common practice, no source
TOUCH_ERROR = 0.3  # mm; by eye and feeler, common practice, no source


def read_tooling(table: Table) -> Tooling:
    """Read the table ``[tooling]``.

    Parameters
    ----------
    table
        ``[tooling]``.

    Raises
    ------
    InputError
        At the first thing that cannot be used.
    """
    table.refuse_unknown()
    nose = table.child("nose")
    if nose is None:
        raise table.refuse("nose", "this is missing", 'write for example nose = { shaft = "1 in" }')
    shoulders = table.child("shoulders")
    if shoulders is None:
        raise table.refuse(
            "shoulders",
            "this is missing",
            'write for example shoulders = { radius = "3/8 in", opening = "2-1/2 in" }',
        )
    friction = quantity(table, "friction", FRICTION, zero=True)
    touch_error = quantity(table, "touch_error", LENGTH, zero=True)
    held = _read_nose(nose)
    members = table.child("members")
    plate_width, plate_thickness, plate_length = read_plate(table)
    return Tooling(
        nose=held,
        shoulders=_read_shoulders(shoulders),
        ram_side=table.choice("ram_side", get_args(RamSide), "nose"),
        friction=FRICTION_COEFFICIENT if friction is None else friction,
        touch_error=TOUCH_ERROR if touch_error is None else touch_error,
        rating=quantity(table, "rating", FORCE),
        members=None if members is None else read_members(members, held.radius),
        plate_width=plate_width,
        plate_thickness=plate_thickness,
        plate_length=plate_length,
        rods=read_rods(table),
        obstacles=read_obstacles(table),
    )


def _read_nose(table: Table) -> Nose:
    if "offset" in table.data:
        raise table.refuse(
            "offset",
            "the nose stands off the middle of the opening, and nothing here holds for a bend that "
            "is not even on both sides",
            "centre the nose between the shoulders, and leave this out",
            value=table.data["offset"],
        )
    table.refuse_unknown()
    radius = _read_nose_radius(table)
    web = table.child("web")
    thickness: Fraction | None = None
    height: Fraction | None = None
    if web is not None:
        web.refuse_unknown()
        thickness = _length(web, "thick", "1/2 in")
        height = _length(web, "height", "3 in")
    held: Held = table.choice("held", get_args(Held), "both ends")
    if held == "web" and thickness is None:
        raise table.refuse(
            "web",
            "the nose is held by its web alone and no web is stated",
            'write web = { thick = "3/4 in", height = "3 in" }',
        )
    return Nose(
        radius=float(radius),
        reach=_read_reach(table, radius, height),
        web_thickness=None if thickness is None else float(thickness),
        web_height=None if height is None else float(height),
        held=held,
        drawable=table.flag("drawable") or False,
        groove=table.choice("groove", get_args(Groove), "none"),
        span=quantity(table, "span", LENGTH),
    )


def _read_nose_radius(table: Table) -> Fraction:
    """Nose radius from the shaft's diameter or as it is [mm]."""
    table.only_one("shaft", "radius")
    if "shaft" in table.data:
        return exact(table, "shaft", table.data["shaft"], LENGTH, name="shaft diameter") / 2
    if "radius" in table.data:
        return exact(table, "radius", table.data["radius"], LENGTH)
    raise table.refuse(
        "shaft",
        "nothing says how round the nose is",
        'write shaft = "1 in" (its diameter) or radius = "1/2 in"',
    )


def _read_reach(table: Table, radius: Fraction, web: Fraction | None) -> float | None:
    """From the push plate to the tip [mm]; a web runs from the plate to the shaft."""
    if "reach" not in table.data:
        return None if web is None else float(web + 2 * radius)
    reach = exact(table, "reach", table.data["reach"], LENGTH)
    if reach <= radius or (web is not None and reach <= web):
        what = "the nose radius" if web is None or radius > web else "the height of the web"
        raise table.refuse(
            "reach",
            f"the reach is not more than {what}",
            "give the distance from the push plate's face to the tip of the nose",
            value=table.data["reach"],
        )
    return float(reach)


def _read_shoulders(table: Table) -> Shoulders:
    table.refuse_unknown()
    radius = _length(table, "radius", "3/8 in")
    opening = _read_opening(table, radius)
    floor: Floor = table.choice("floor", get_args(Floor), "open")
    depth = quantity(table, "depth", LENGTH)
    if floor != "open" and depth is None:
        raise table.refuse(
            "depth",
            f"this is missing, though the floor is {floor}",
            'write the depth from the shoulder tops to the floor, for example "1-3/4 in"',
        )
    width, walls = _read_channel(table, floor, float(opening - 2 * radius), depth)
    height = quantity(table, "height", LENGTH)
    if floor != "open" and depth is not None and height is not None and depth > height:
        raise table.refuse(
            "depth",
            "the floor lies below the bed that the shoulders stand on",
            "measure both from the shoulder tops: the depth to the floor is no more than the "
            "height above the bed",
            value=table.data["depth"],
        )
    return Shoulders(
        radius=float(radius),
        opening=float(opening),
        depth=depth,
        floor=floor,
        vee_angle=_read_vee(table, floor),
        channel_width=width,
        channel_walls=walls,
        height=height,
        outer_edge=_read_outer_edge(table, opening),
        length=quantity(table, "length", LENGTH),
    )


def _read_opening(table: Table, radius: Fraction) -> Fraction:
    """Centre to centre, given so or as the clear gap between the rounds [mm]."""
    table.only_one("opening", "gap")
    if "gap" in table.data:
        return exact(table, "gap", table.data["gap"], LENGTH) + 2 * radius
    opening = exact(
        table,
        "opening",
        table.need(
            "opening",
            'write opening = "2-1/2 in" (centre to centre) or gap = "1-3/4 in" (clear)',
        ),
        LENGTH,
    )
    if opening <= 2 * radius:
        raise table.refuse(
            "opening",
            "the shoulders overlap, for the opening is not more than twice their radius",
            "give the opening from centre to centre, or the clear distance as gap",
            value=table.data["opening"],
        )
    return opening


def _read_channel(
    table: Table, floor: Floor, gap: float, depth: float | None
) -> tuple[float | None, float | None]:
    """Clear width of a channel floor and height of its walls [mm], both or neither."""
    if floor != "channel":
        for key in ("channel_width", "channel_walls"):
            _refuse_without(table, key, floor, "channel")
        return None, None
    width = quantity(table, "channel_width", LENGTH)
    walls = quantity(table, "channel_walls", LENGTH)
    if width is None and walls is None:
        return None, None
    if width is None or walls is None:
        raise table.refuse(
            "channel_width" if width is None else "channel_walls",
            "this is missing, though the channel's "
            + ("walls are" if width is None else "width is")
            + " stated",
            "state channel_width (clear between its walls) and channel_walls (from its floor to "
            "their tops), or leave both out where the shoulders themselves are its walls",
        )
    if width >= gap:
        raise table.refuse(
            "channel_width",
            "the channel is not narrower than the clear gap between the shoulders, so its walls "
            "would stand in them",
            "leave channel_width and channel_walls out where the shoulders are its walls, or "
            "state less than the gap",
            value=table.data["channel_width"],
        )
    if depth is not None and walls >= depth:
        raise table.refuse(
            "channel_walls",
            "the walls reach the tops of the shoulders or over them, so the bar would lie on them",
            "state less than depth, or the walls as the shoulders",
            value=table.data["channel_walls"],
        )
    return width, walls


def _refuse_without(table: Table, key: str, floor: Floor, needs: Floor) -> None:
    if key in table.data:
        raise table.refuse(
            key,
            f"this has no effect while the floor is {floor}",
            f'write floor = "{needs}", or leave {key} out',
            value=table.data[key],
        )


def _read_vee(table: Table, floor: Floor) -> float | None:
    """Included angle of a vee floor [rad]."""
    if floor != "vee":
        _refuse_without(table, "vee_angle", floor, "vee")
        return None
    value = table.need("vee_angle", "write its included angle, for example vee_angle = 85")
    return float(exact(table, "vee_angle", value, ANGLE) * PI / 180)


def _read_outer_edge(table: Table, opening: Fraction) -> float | None:
    edge = quantity(table, "outer_edge", LENGTH)
    if edge is not None and edge <= float(opening) / 2:
        raise table.refuse(
            "outer_edge",
            "the outer edge lies inside the shoulder's centre",
            "give the distance from the middle of the opening, more than half the opening",
            value=table.data["outer_edge"],
        )
    return edge


def _length(table: Table, key: str, example: str) -> Fraction:
    return exact(table, key, table.need(key, f'write for example {key} = "{example}"'), LENGTH)

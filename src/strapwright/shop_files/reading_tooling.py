"""Read what a job or a shop file says of the tooling, and write it back."""

from __future__ import annotations

from fractions import Fraction

from strapwright.errors import in_file
from strapwright.quantities import Units
from strapwright.shop.keys import Key, keys_of
from strapwright.shop.nose_and_shoulders import MOST_OFFSET
from strapwright.shop.tooling import Floor, Nose, Obstacle, Shoulders, Tooling
from strapwright.shop_files.exact_text import length_text
from strapwright.shop_files.quantity_fields import PI
from strapwright.shop_files.reading_members import members_to_plain, read_members
from strapwright.shop_files.reading_pieces import read_obstacles, read_rods
from strapwright.shop_files.reading_values import (
    Plain,
    asked,
    exact_value,
    read_plain,
    read_value,
    refuse_unknown,
    value_to_plain,
)
from strapwright.shop_files.toml_table import Table

TOO_FAR_OFF = (
    "the nose stands off centre by more than a tenth of the opening, and no figures hold there",
    "move the nose nearer to the middle of the opening",
)
"""What is wrong with a nose so far off the middle, and what to do."""

_NOSE = keys_of(Nose)
_SHOULDERS = keys_of(Shoulders)


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
    refuse_unknown(table, Tooling)
    nose = table.child("nose")
    if nose is None:
        raise table.refuse(
            "nose", "this is missing", in_file('write for example nose = { shaft = "1 in" }')
        )
    shoulders = table.child("shoulders")
    if shoulders is None:
        raise table.refuse(
            "shoulders",
            "this is missing",
            in_file('write for example shoulders = { radius = "3/8 in", opening = "2-1/2 in" }'),
        )
    held, stands = read_nose(nose), read_shoulders(shoulders)
    if stands_too_far_off(held, stands):
        raise nose.refuse("offset", *TOO_FAR_OFF, value=nose.data["offset"])
    members = table.child("members")
    return read_value(
        table,
        Tooling,
        nose=held,
        shoulders=stands,
        members=None if members is None else read_members(members, held.radius),
        rods=read_rods(table),
        obstacles=read_obstacles(table),
    )


def stands_too_far_off(nose: Nose, shoulders: Shoulders) -> bool:
    """Whether a nose stands further off the middle of the opening than figures hold."""
    return nose.offset > MOST_OFFSET * shoulders.opening


def tooling_to_plain(tooling: Tooling, units: Units) -> Plain:
    """Return the tooling as a file writes it.

    Parameters
    ----------
    tooling
        As read.
    units
        Unit system to write in.
    """
    members = tooling.members
    return value_to_plain(
        tooling,
        units,
        nose=value_to_plain(tooling.nose, units),
        shoulders=value_to_plain(tooling.shoulders, units),
        rod=[value_to_plain(one, units) for one in tooling.rods] or None,
        obstacle=[_obstacle(one, units) for one in tooling.obstacles] or None,
        members=None if members is None else members_to_plain(members, units),
    )


def _obstacle(one: Obstacle, units: Units) -> Plain:
    def texts(figures: tuple[float, ...]) -> list[str]:
        return [length_text(mm, units) for mm in figures]

    along = None if one.along is None else texts(one.along)
    return value_to_plain(one, units, box=texts(one.box), along=along)


def read_nose(table: Table) -> Nose:
    """Read the table ``nose``; raises ``InputError`` at the first thing that cannot be used."""
    plain = read_plain(table, Nose)
    if plain["held"] == "web" and plain["web_thickness"] is None:
        raise table.refuse(
            "web",
            "the nose is supported by its web only and no web is entered",
            in_file('write web = { thick = "3/4 in", height = "3 in" }'),
        )
    radius = _read_nose_radius(table)
    web = exact_value(table, _NOSE["web.height"])
    return Nose(**plain, radius=float(radius), reach=_read_reach(table, radius, web))


def _read_nose_radius(table: Table) -> Fraction:
    """Nose radius from the shaft's diameter or as it is [mm]."""
    table.only_one("shaft", "radius")
    for name, part, called in (("shaft", 2, "shaft diameter"), ("radius", 1, "")):
        if name in table.data:
            found = exact_value(table, _NOSE[name], name=called)
            if found is not None:
                return found / part
    raise table.refuse(
        "shaft",
        "the nose size is missing",
        in_file('write shaft = "1 in" (its diameter) or radius = "1/2 in"'),
    )


def _read_reach(table: Table, radius: Fraction, web: Fraction | None) -> float | None:
    """From the push plate to the tip [mm]; a web runs from the plate to the shaft."""
    reach = exact_value(table, _NOSE["reach"])
    if reach is None:
        return None if web is None else float(web + 2 * radius)
    if reach <= radius or (web is not None and reach <= web):
        what = "the nose radius" if web is None or radius > web else "the height of the web"
        raise table.refuse(
            "reach",
            f"the reach is not more than {what}",
            "give the distance from the push plate's face to the tip of the nose",
            value=table.data["reach"],
        )
    return float(reach)


def read_shoulders(table: Table) -> Shoulders:
    """Read the table ``shoulders``; raises ``InputError`` likewise."""
    plain = read_plain(table, Shoulders)
    floor, depth = plain["floor"], plain["depth"]
    opening, radius = _read_opening(table)
    if floor != "open" and depth is None:
        raise table.refuse(
            "depth",
            f"this is missing, though the floor is {floor}",
            'write the depth from the shoulder tops to the floor, for example "1-3/4 in"',
        )
    height = plain["height"]
    if floor != "open" and height is not None and depth > height:
        raise table.refuse(
            "depth",
            "the floor lies below the bed that the shoulders stand on",
            "measure both from the shoulder tops: the depth to the floor is no more than the "
            "height above the bed",
            value=table.data["depth"],
        )
    width, walls = _read_channel(table, floor, float(opening - 2 * radius), depth)
    return Shoulders(
        **plain,
        opening=float(opening),
        vee_angle=_read_vee(table, floor),
        channel_width=width,
        channel_walls=walls,
        outer_edge=_read_outer_edge(table, opening),
    )


def _read_opening(table: Table) -> tuple[Fraction, Fraction]:
    """Centre to centre, given so or as the clear gap between the rounds, and their radius [mm]."""
    table.only_one("opening", "gap")
    radius = _must(table, _SHOULDERS["radius"])
    if "gap" in table.data:
        return _must(table, _SHOULDERS["gap"]) + 2 * radius, radius
    table.need(
        "opening",
        in_file('write opening = "2-1/2 in" (centre to centre) or gap = "1-3/4 in" (clear)'),
    )
    opening = _must(table, _SHOULDERS["opening"])
    if opening <= 2 * radius:
        raise table.refuse(
            "opening",
            "the shoulders overlap, for the opening is not more than twice their radius",
            "give the opening from centre to centre, or the clear distance as gap",
            value=table.data["opening"],
        )
    return opening, radius


def _read_channel(
    table: Table, floor: Floor, gap: float, depth: float | None
) -> tuple[float | None, float | None]:
    """Clear width of a channel floor and height of its walls [mm], both or neither."""
    if floor != "channel":
        for key in ("channel_width", "channel_walls"):
            _refuse_without(table, key, floor, "channel")
        return None, None
    width = _maybe(table, _SHOULDERS["channel_width"])
    walls = _maybe(table, _SHOULDERS["channel_walls"])
    if width is None and walls is None:
        return None, None
    if width is None or walls is None:
        raise table.refuse(
            "channel_width" if width is None else "channel_walls",
            "this is missing, though the channel's "
            + ("walls are" if width is None else "width is")
            + " entered",
            "enter both the channel's width (clear between its walls) and its walls (from its "
            "floor to their tops), or leave both out where the shoulders themselves are its walls",
        )
    if width >= gap:
        raise table.refuse(
            "channel_width",
            "the channel is not narrower than the clear gap between the shoulders, so its walls "
            "would stand in them",
            "leave the channel's width and walls out where the shoulders are its walls, or enter "
            "less than the gap",
            value=table.data["channel_width"],
        )
    if depth is not None and walls >= depth:
        raise table.refuse(
            "channel_walls",
            "the walls reach the shoulder tops or higher, so the bar would sit on them",
            "give less than the depth, or the walls as the shoulders",
            value=table.data["channel_walls"],
        )
    return width, walls


def _refuse_without(table: Table, key: str, floor: Floor, needs: Floor) -> None:
    if key in table.data:
        raise table.refuse(
            key,
            f"this has no effect while the floor is {floor}",
            in_file(f'write floor = "{needs}", or leave {key} out'),
            value=table.data[key],
        )


def _read_vee(table: Table, floor: Floor) -> float | None:
    """Included angle of a vee floor [rad]."""
    if floor != "vee":
        _refuse_without(table, "vee_angle", floor, "vee")
        return None
    table.need("vee_angle", in_file("write its included angle, for example vee_angle = 85"))
    return float(_must(table, _SHOULDERS["vee_angle"]) * PI / 180)


def _read_outer_edge(table: Table, opening: Fraction) -> float | None:
    edge = _maybe(table, _SHOULDERS["outer_edge"])
    if edge is not None and edge <= float(opening) / 2:
        raise table.refuse(
            "outer_edge",
            "the outer edge lies inside the shoulder's centre",
            "give the distance from the middle of the opening, more than half the opening",
            value=table.data["outer_edge"],
        )
    return edge


def _must(table: Table, key: Key) -> Fraction:
    found = exact_value(table, key)
    if found is None:
        raise table.refuse(key.name, "this is missing", asked(key))
    return found


def _maybe(table: Table, key: Key) -> float | None:
    found = exact_value(table, key)
    return None if found is None else float(found)

"""Cheeks welded to a floor: seats on the joint, where they stand, read back, and what is unsaid."""

from __future__ import annotations

import io
import itertools
import math
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from attrs import evolve
from ezdxf.math import bulge_to_arc
from hypothesis import given
from hypothesis import strategies as st
from laid_out import lacking

from strapwright.drawing.plate_dxf import plate_dxf
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_outline import Corner, outlines
from strapwright.making.plate_values import CORNERS, PlateDrawing
from strapwright.making.tooling_plates import Pieces, pieces_of
from strapwright.making.welded_plates import holds_seat, least_tall
from strapwright.shop.job import Job
from strapwright.shop.members import Bolt, Weld
from strapwright.shop_files.reading_job import read_job

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))
# The die's own sizes [mm]: shoulders of 3/4 in, 3 in from middle to middle.
RADIUS, OPENING = 9.525, 76.2
CHEEK, TALL, FLOOR, LEG, LONG = 16.0, 44.0, 20.0, 6.0, 100.0
WELD = Weld(holds="cheeks", size=LEG, length=2 * LONG, thinner=CHEEK, spacing=CHEEK, height=TALL)


def job(
    *others: Weld | Bolt,
    weld: Weld = WELD,
    body: dict[str, Any] | None = None,
    shoulders: dict[str, Any] | None = None,
    member: dict[str, Any] | None = None,
) -> Job:
    tooling = DIE.tooling
    assert tooling is not None
    assert tooling.members is not None
    assert tooling.members.body is not None
    sizes = {"cheek": CHEEK, "floor": FLOOR, "length": LONG, "height": TALL - 5.0, "tall": TALL}
    members = evolve(
        tooling.members,
        body=evolve(tooling.members.body, **{**sizes, **(body or {})}),
        shoulders=evolve(tooling.members.shoulders, **(member or {})),
        weld=(weld, *(one for one in others if isinstance(one, Weld))),
        bolt=tuple(one for one in others if isinstance(one, Bolt)),
    )
    stated = evolve(tooling.shoulders, **(shoulders or {}))
    return evolve(DIE, tooling=evolve(tooling, members=members, shoulders=stated))


def plate(pieces: Pieces, name: str) -> PlateDrawing:
    return next(one for one in pieces.plates if one.name == name)


def area(corners: tuple[Corner, ...]) -> float:
    """Of a closed outline [mm2]: the shoelace sum, and a circle's segment for every bulge."""
    total = 0.0
    for (x, y, bulge), (to_x, to_y, _) in zip(corners, corners[1:] + corners[:1], strict=True):
        total += (x * to_y - to_x * y) / 2
        sweep = 4 * math.atan(bulge)
        if sweep:
            radius = math.dist((x, y), (to_x, to_y)) / 2 / abs(math.sin(sweep / 2))
            total += radius**2 / 2 * (sweep - math.sin(sweep))
    return total


def test_a_line_on_each_of_two_cheeks_shows_how_deep_the_seat_goes() -> None:
    cheek = plate(pieces_of(job()), "cheek")
    # 44 mm tall, the bore of 19.05 mm level with the upper edge: 24.95 mm up, from end to end.
    assert cheek.quantity == 2
    ((start, end),) = cheek.marks
    assert start == pytest.approx((0.0, 24.95))
    assert end == pytest.approx((LONG, 24.95))


def test_each_cheek_lacks_half_a_round_whose_middle_lies_in_its_inner_side() -> None:
    pieces = pieces_of(job())
    pair = plate(pieces, "cheeks face to face, each end")
    (seat,) = pair.holes
    assert (seat.x, seat.y, seat.diameter) == (CHEEK, TALL - RADIUS, 2 * RADIUS)
    assert (pair.width, pair.height, pair.thickness) == (2 * CHEEK, TALL, LONG)
    whole = CHEEK * TALL - math.pi * RADIUS**2 / 2
    assert [area(one) for one in outlines(pair)] == pytest.approx([whole, whole])
    face = plate(pieces, "cheek")
    assert (face.width, face.height, face.thickness, face.quantity) == (LONG, TALL, CHEEK, 2)
    assert area(*outlines(face)) == pytest.approx(LONG * TALL)
    assert not [one for one in pieces.plates if one.name in {"shoulder block", "die base"}]
    (shaft,) = (one for one in pieces.shafts if one.name == "shoulder round")
    assert (shaft.diameter, shaft.length, shaft.quantity) == (2 * RADIUS, LONG, 2)


def test_the_cheeks_stand_so_that_their_rounds_are_the_opening_apart() -> None:
    pieces = pieces_of(job())
    floor = plate(pieces, "floor")
    lines = [start[0] for start, _ in floor.marks]
    assert [b - a for a, b in itertools.pairwise(lines)] == pytest.approx([CHEEK, OPENING, CHEEK])
    assert sum(lines) / 4 == pytest.approx(floor.width / 2)
    # The welds outside stand on the floor.
    assert lines[0] >= LEG
    said = " ".join(pieces.notes)
    assert "riser of 2.480 in" in said  # 5 in less 44 and 20 mm
    assert "3.937 in a side" in said  # half of 200 mm


@pytest.mark.parametrize("corner", CORNERS)
def test_outlines_seats_and_lines_read_back_from_the_dxf_to_a_micrometre(corner: str) -> None:
    bed = Bolt(holds="base", size="3/8-16", count=4)
    pieces = pieces_of(job(bed))
    for one in pieces.plates:
        made = make_plate(evolve(one, corner=corner), usual_cutters(), units="inch")
        document = ezdxf.read(io.StringIO(plate_dxf(made).decode()))  # type: ignore[attr-defined]
        space = document.modelspace()
        x0 = one.width if corner.endswith("right") else 0.0
        y0 = one.height if corner.startswith("upper") else 0.0

        def back(x: float, y: float, x0: float = x0, y0: float = y0) -> tuple[float, float]:
            return x * 25.4 + x0, y * 25.4 + y0

        drawn = [line.get_points("xyb") for line in space.query('LWPOLYLINE[layer=="OUTLINE"]')]
        if one.joint:
            assert len(drawn) == 2
            arcs = [
                bulge_to_arc(line[k][:2], line[(k + 1) % len(line)][:2], line[k][2])
                for line in drawn
                for k in range(len(line))
                if line[k][2]
            ]
            assert len(arcs) == 2
            for centre, _, _, radius in arcs:
                assert back(*centre) == pytest.approx((CHEEK, TALL - RADIUS), abs=1e-3)
                assert radius * 25.4 == pytest.approx(RADIUS, abs=1e-3)
        spans = [back(x, y) for line in drawn for x, y, _ in line]
        for axis, most in ((0, one.width), (1, one.height)):
            assert min(at[axis] for at in spans) == pytest.approx(0.0, abs=1e-3)
            assert max(at[axis] for at in spans) == pytest.approx(most, abs=1e-3)
        points = sorted(back(*p.dxf.location.vec2) for p in space.query("POINT"))
        assert len(points) == len(one.holes)
        for at, hole in zip(points, sorted((h.x, h.y) for h in one.holes), strict=True):
            assert at == pytest.approx(hole, abs=1e-3)
        lines = [line.dxf for line in space.query('LINE[layer=="MARKS"]')]
        found = sorted((back(*one.start.vec2), back(*one.end.vec2)) for one in lines)
        for (start, end), said in zip(found, sorted(one.marks), strict=True):
            assert (*start, *end) == pytest.approx((*said[0], *said[1]), abs=1e-3)
    assert len(plate(pieces, "floor").holes) == 4


@given(radius=st.floats(5.0, 40.0), leg=st.floats(3.0, 25.0))
def test_a_round_just_clears_the_weld_under_it(radius: float, leg: float) -> None:
    high = least_tall(radius, leg) - radius
    # From the weld's face, x + y = leg, to every point of the round: touched, never entered.
    turns = [math.tau * k / 720 for k in range(720)]
    least = min(radius * math.cos(t) + high + radius * math.sin(t) - leg for t in turns)
    assert least == pytest.approx(0.0, abs=1e-3 * radius)


@given(radius=st.floats(5.0, 40.0), leg=st.floats(3.0, 25.0), more=st.floats(0.0, 3.0))
def test_the_wall_behind_a_seat_bends_less_than_the_root_of_its_cheek(
    radius: float, leg: float, more: float
) -> None:
    thick = radius * (1.5 + more)
    assert holds_seat(thick, radius)
    assert not holds_seat(1.4 * radius - 0.2, radius)
    # A pressure as the cosine of the angle from the level; the part above the round's middle has
    # the lever R sin: summed here step by step for a wedge of 1 N on a cheek 1 mm long.
    angles = [(k + 0.5) * math.pi / 2000 for k in range(1000)]
    push = sum(math.cos(a) ** 2 for a in angles) * 2
    moment = sum(math.cos(a) ** 2 * radius * math.sin(a) for a in angles) / push
    root = least_tall(radius, leg)
    assert moment / (thick - radius) ** 2 < root / thick**2


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"member": {"kind": "shaft"}}, "Enter shoulders of kind block"),
        ({"body": {"cheek": None}}, "cheek is not entered. Enter tooling.members.body.cheek"),
        ({"body": {"length": None}}, "length is not entered. Enter tooling.members.body.length"),
        ({"body": {"floor": None}}, "floor is not entered. Enter tooling.members.body.floor"),
        ({"body": {"tall": None, "height": None}}, "how tall the cheeks are is not entered"),
        ({"body": {"height": 20.0}}, "does not meet the round"),
        ({"shoulders": {"height": 60.0}}, "floor and cheeks are"),
        ({"body": {"cheek": 14.0}}, "leaves too little of a cheek"),
        ({"weld": evolve(WELD, size=22.0)}, "runs into the shoulder round"),
    ],
)
def test_what_is_not_said_is_one_sentence_and_nothing_wrong_is_drawn(
    changes: dict[str, Any], said: str
) -> None:
    pieces = pieces_of(job(**changes))
    (why,) = lacking(pieces).values()
    assert said in why
    names = {one.name for one in pieces.plates}
    assert names == {"push plate", "nose carrier", "nose carrier, upper edge", "nose keeper"}


def test_cheeks_are_as_tall_as_the_push_where_nothing_else_is_said() -> None:
    pieces = pieces_of(job(body={"tall": None, "height": 44.0}))
    assert plate(pieces, "cheek").height == 44.0
    assert any("1.732 in tall, which is not entered" in one for one in pieces.notes)


def test_depth_says_how_tall_the_cheeks_are_where_nothing_else_does() -> None:
    pieces = pieces_of(job(body={"tall": None, "height": None}, shoulders={"depth": 50.0}))
    assert plate(pieces, "cheek").height == 50.0


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"body": {"length": 30.0}}, "do not carry the bar"),
        ({"shoulders": {"opening": 74.0}}, "pass neither between the shoulders"),
    ],
)
def test_what_cannot_be_put_together_is_refused(changes: dict[str, Any], said: str) -> None:
    pieces = pieces_of(job(**changes))
    assert said in lacking(pieces)["die body"]
    assert "push plate" in {one.name for one in pieces.plates}


def test_shoulders_held_themselves_are_blocks_and_cheeks_beside_them_are_named() -> None:
    bolt = Bolt(holds="shoulders", size="1/4-20", count=2)
    pieces = pieces_of(job(bolt, shoulders={"height": 90.0}))
    assert plate(pieces, "shoulder block").quantity == 2
    assert "cheeks beside shoulders" in lacking(pieces)["die body"]


def test_cheeks_that_nothing_holds_are_drawn_and_said() -> None:
    pieces = pieces_of(job(weld=evolve(WELD, holds="carriers")))
    assert "what holds the cheeks" in lacking(pieces)["die body"]
    assert plate(pieces, "cheek").quantity == 2

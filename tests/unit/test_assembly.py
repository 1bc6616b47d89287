"""The tooling put together: every piece in its place, counted, numbered, drawn and in the file."""

from __future__ import annotations

import io
import re
from pathlib import Path

import ezdxf
import pytest
import shapely
from attrs import evolve

from strapwright.drawing.assembly_views.scene_dxf import LAYERS, plain_words, scene_dxf
from strapwright.drawing.assembly_views.taken_apart import taken_apart
from strapwright.drawing.assembly_views.three_views import three_views
from strapwright.errors import InputError
from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.assembly.solid_values import Solid
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.tooling_plates import pieces_of
from strapwright.scene.hidden_lines import CORNER, FRONT, RIGHT, TOP, Picture
from strapwright.scene.primitives import Circle, Line, Scene, Text
from strapwright.scene.primitives import Path as Drawn
from strapwright.shop.bar import Bar
from strapwright.shop.job import Job
from strapwright.shop.members import Bolt, DieBody, ShoulderMember, Weld
from strapwright.shop_files.reading_job import read_job
from strapwright.wording.parts_list_words import list_notes, parts_list

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
INCH = 25.4


# Nose 1 in, its tip 4-1/2 in below a plate of 3/4 in; shoulders 3/4 in, 3 in apart; carriers 3/4 in
# thick, 1-3/4 in apart; bar 1/4 x 1-1/2.
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))


def welded() -> Job:
    """The same on cheeks of 5/8 x 1-3/4 in welded to a floor of 1 in, rounds in their seats."""
    made = DIE
    assert made.tooling is not None
    assert made.tooling.members is not None
    members = evolve(
        made.tooling.members,
        body=DieBody(
            cheek=0.625 * INCH, tall=1.75 * INCH, length=1.5 * INCH, floor=INCH, material="A36"
        ),
        shoulders=ShoulderMember(kind="block", material="1045 ground shaft"),
        weld=(
            *made.tooling.members.weld,
            Weld(holds="cheeks", size=0.25 * INCH, length=3 * INCH, spacing=0.625 * INCH),
        ),
        bolt=(
            Bolt(holds="push plate", size="1/2-13", grade="5", count=4, circle=2.25 * INCH,
                 length=1.75 * INCH),
        ),
    )  # fmt: skip
    shoulders = evolve(made.tooling.shoulders, height=2.75 * INCH, depth=1.75 * INCH)
    return evolve(made, tooling=evolve(made.tooling, members=members, shoulders=shoulders))


def together(made: Job) -> Assembly:
    found = pieces_of(made).assembly
    assert found is not None
    return found


@pytest.fixture(scope="module")
def views() -> Scene:
    return three_views(together(welded()), "inch", "hook")


def box(made: Assembly, name: str) -> list[tuple[float, ...]]:
    """Low x, y, z and high x, y, z of every part of a name [in]."""
    number = next(one.number for one in made.items if one.name == name)
    found = []
    for part in made.parts:
        if part.item == number:
            points = [
                part.solid.at(one, deep)
                for one in part.solid.outline
                for deep in (0.0, part.solid.depth)
            ]
            lows, highs = map(min, zip(*points, strict=True)), map(max, zip(*points, strict=True))
            found.append(tuple(round(one / INCH, 3) for one in (*lows, *highs)))
    return sorted(found)


def test_pieces_of_a_die_are_where_a_hand_drawing_has_them() -> None:
    made = together(welded())
    # Floor 0 to 1, cheeks to 2-3/4; inner sides the opening of 3 apart.
    (floor,) = box(made, "floor")
    assert floor[2::3] == (0.0, 1.0)
    for cheek, side in zip(box(made, "cheek"), (-1, 1), strict=True):
        inner, outer = sorted((side * 1.5, side * 2.125))
        assert (cheek[0], cheek[3]) == pytest.approx((inner, outer), abs=1e-3)
        assert (cheek[1], cheek[4]) == (-0.75, 0.75)
        assert (cheek[2], cheek[5]) == (1.0, 2.75)
    # Rounds of 3/4 in are level with the cheeks; the bar of 1/4 on them; the nose of 1 on the bar.
    for round_ in box(made, "shoulder round"):
        assert (round_[2], round_[5]) == (2.0, 2.75)
    (nose,) = box(made, "nose shaft")
    assert (nose[2], nose[5]) == (3.0, 4.0)
    # The tip is 4-1/2 in below the plate, which is 3/4 in thick.
    (plate,) = box(made, "push plate")
    assert (plate[2], plate[5]) == (7.5, 8.25)
    # Carriers: the gap between them, their bore about the nose, half an inch of metal below it.
    left, right = box(made, "nose carrier")
    assert right[1] - left[4] == 1.75
    assert (left[2], left[5]) == (2.5, 7.5)
    assert nose[1] == pytest.approx(left[1], abs=1e-3)
    assert nose[4] == pytest.approx(right[4], abs=1e-3)
    assert (made.tops / INCH, made.contact / INCH) == pytest.approx((2.75, 3.0))


@pytest.mark.parametrize("section", ["flat", "round"])
def test_the_bar_lies_in_the_middle_on_the_shoulders(section: str) -> None:
    # Shoulders of 3/4 in, 3 apart, tops 2-3/4 in up; two bars 1/4 x 3/4 beside each other, or a rod
    # of 3/8; they are drawn a radius and a half past the middles of the rounds.
    made = welded()
    rod = Bar(section="round", thickness=0.375 * INCH, width=0.375 * INCH)
    flat = Bar(section="flat", thickness=0.25 * INCH, width=0.75 * INCH)
    part = evolve(made.part, bar=rod)
    if section == "flat":
        part = evolve(made.part, bar=flat, at_once=2)
    solid = together(evolve(made, part=part)).bar
    corners = [solid.at(point, deep) for point in solid.outline for deep in (0.0, solid.depth)]
    low, high = ([pick(axis) / INCH for axis in zip(*corners, strict=True)] for pick in (min, max))
    wide, high_up = (1.5, 0.25) if section == "flat" else (0.375, 0.375)
    past = 1.5 + 1.5 * 0.375
    assert low == pytest.approx([-past, -wide / 2, 2.75], abs=2e-3)
    assert high == pytest.approx([past, wide / 2, 2.75 + high_up], abs=2e-3)


def test_a_seat_is_cut_out_of_its_cheek_where_the_round_is() -> None:
    made = together(welded())
    solids = {one.item: one.solid for one in made.parts}
    numbers = {one.name: one.number for one in made.items}
    cheek = solids[numbers["cheek"]]
    # 5/8 by 1-3/4 in less half a round of 3/8 in.
    area = shapely.Polygon(cheek.outline).area / INCH**2
    assert area == pytest.approx(0.625 * 1.75 - 3.14159 / 2 * 0.375**2, rel=2e-3)


def test_bolts_stand_in_the_holes_that_are_drilled_for_them() -> None:
    made = pieces_of(welded())
    assert made.assembly is not None
    ram = next(one for one in made.assembly.items if one.use == "push plate")
    assert (ram.count, ram.thread, ram.metal) == (4, "1/2-13", "grade 5")
    # On a circle of 2-1/4 in: two rows 1.591 in apart both ways.
    places = sorted((round(x / INCH, 3), round(y / INCH, 3)) for x, y in made.assembly.ram_holes)
    assert places == [(-0.795, -0.795), (-0.795, 0.795), (0.795, -0.795), (0.795, 0.795)]
    shanks = [one.solid for one in made.assembly.parts if one.item == ram.number]
    # Heads are below the plate, shanks of 1-3/4 in reach 1 in into the ram.
    tops = [max(s.at(s.outline[0], d)[2] for d in (0.0, s.depth)) for s in shanks]
    assert max(tops) / INCH == pytest.approx(8.25 + 1.0)
    # Seen from above nothing of a bolt stands outside its hole in the plate.
    clear = shapely.union_all([shapely.Point(x, y).buffer(13.6 / 2) for x, y in
                               made.assembly.ram_holes])  # fmt: skip
    stems = [one for one in shanks if len(one.outline) > 6]
    assert clear.contains(Picture(stems, TOP).area())


JOBS = sorted(path for path in EXAMPLES.glob("*.toml") if "rack" not in path.name)


def laid_out(path: Path) -> Pieces | None:
    try:
        return pieces_of(read_job(path.read_text(encoding="utf-8")))
    except InputError:
        return None  # no tooling, or one that cannot be laid out, which other tests hold


def test_every_piece_that_is_made_has_its_place_and_its_line() -> None:
    found = [made for made in map(laid_out, JOBS) if made is not None and made.assembly is not None]
    assert len(found) >= 7
    for made in found:
        whole = made.assembly
        assert whole is not None
        assert whole.unplaced == ()
        pieces = [one.name for one in made.plates if not one.piece and not one.joint]
        pieces += [one.name for one in made.shafts]
        assert [one.name for one in whole.items][: len(pieces)] == pieces
        for item in whole.items:
            placed = sum(one.item == item.number for one in whole.parts)
            assert placed == item.count * (2 if item.kind == "bolt" else 1), item.name
            if item.kind == "bolt":
                solids = [one.solid for one in whole.parts if one.item == item.number]
                heads = [one for one in solids if len(one.outline) == 6]
                shanks = [one for one in solids if len(one.outline) > 6]
                # A hexagon head is about two thirds as high as its bolt is thick (ISO 4014 and
                # ASME B18.2.1, from memory: 0.62 to 0.69), whichever way the bolt points.
                for head, shank in zip(heads, shanks, strict=True):
                    across = [point[0] for point in shank.outline]
                    assert 0.62 <= head.depth / (max(across) - min(across)) <= 0.69, item.name
        # Each hole for a bolt has its bolt.
        holes = sum(
            plate.quantity for plate in made.plates for hole in plate.holes
            if hole.kind == "clearance"
        )  # fmt: skip
        assert sum(one.count for one in whole.items if one.kind == "bolt") == holes


def _overlap(one: Solid, other: Solid) -> float:
    """Least overlap of two pictures of two solids [mm2]; 0 where some view shows them apart."""
    return min(
        Picture([one], view).area().intersection(Picture([other], view).area()).area
        for view in (FRONT, RIGHT, TOP)
    )


def test_carriers_and_nose_are_clear_of_cheeks_and_floor() -> None:
    made = together(welded())
    by = {one.number: one.name for one in made.items}
    upper = [one.solid for one in made.parts if by[one.item] in {"nose carrier", "nose shaft"}]
    lower = [one.solid for one in made.parts if by[one.item] in {"cheek", "floor"}]
    assert len(upper) == 3
    assert len(lower) == 3
    for one in upper:
        for other in lower:
            assert _overlap(one, other) < 1e-3


def test_the_views_show_the_sizes_to_set_and_say_their_projection(views: Scene) -> None:
    scene = views
    words = [one.text for one in scene.shapes if isinstance(one, Text)]
    said = " | ".join(plain_words(one) for one in words)
    # Shoulder tops 2-3/4, plate 4-1/2 over the tip, in all 8-1/4; between the rounds 2-1/4, between
    # the carriers 1-3/4, over both 3-1/4, guide rods 8.
    figures = ("2-3/4 in", "4-1/2 in", "8-1/4 in", "2-1/4 in", "1-3/4 in", "3-1/4 in", "8 in")
    for figure in (*figures, "Third-angle projection"):
        assert figure in said
    assert "Sizes in inches" in said
    left, bottom, right, top = scene.bounds
    for shape in scene.shapes:
        points = shape.points if isinstance(shape, Drawn) else ()
        assert all(left <= x <= right and bottom <= y <= top for x, y in points)
    assert any(shape.role == "bar" for shape in scene.shapes)


def test_every_number_of_the_list_stands_once_at_a_part_of_its_own() -> None:
    made = together(welded())
    scene = taken_apart(made, "hook")
    numbers = [one.text for one in scene.shapes if isinstance(one, Text)]
    assert sorted(map(int, numbers)) == [one.number for one in made.items]
    dots = [one.centre for one in scene.shapes if isinstance(one, Circle) and one.role == "dot"]
    ends = [one.end for one in scene.shapes if isinstance(one, Line) and one.role == "leader"]
    assert dots == ends
    for number, dot in zip(map(int, numbers), dots, strict=True):
        own = [one.solid.moved(one.apart) for one in made.parts if one.item == number]
        assert Picture(own, CORNER).area().buffer(0.01).contains(shapely.Point(dot))
    balloons = [one for one in scene.shapes if isinstance(one, Circle) and one.role == "balloon"]
    for n, one in enumerate(balloons):
        for other in balloons[:n]:
            assert shapely.Point(one.centre).distance(shapely.Point(other.centre)) > 2 * one.radius


def test_the_list_says_material_size_count_and_torque_in_the_units_of_the_job() -> None:
    made = together(welded())
    rows = {row[2]: row for row in parts_list(made, "inch")}
    assert rows["floor"][4].endswith("x 1-1/2 in x 1 in")
    assert rows["bolt, push plate to ram"][1:] == (
        "4", "bolt, push plate to ram", "grade 5", "1/2-13 x 1-3/4 in",
    )  # fmt: skip
    said = " ".join(list_notes(made, "inch"))
    # 1/2-13 grade 5: 0.75 x 85 ksi x 0.1419 in2 x 0.2 x 0.5 in = 905 lbf in, rounded down.
    assert "75 lbf ft dry" in said
    text = " ".join(" ".join(row) for row in parts_list(made, "inch"))
    assert not re.search(r"\d mm\b", text)


def test_the_file_has_the_drawing_in_the_unit_of_the_job(views: Scene) -> None:
    scene = views
    document = ezdxf.read(io.StringIO(scene_dxf(scene, "inch").decode()))  # type: ignore[attr-defined]
    assert not document.audit().errors
    assert document.header["$INSUNITS"] == 1
    edges = [
        point[:2]
        for line in document.modelspace().query('LWPOLYLINE[layer=="EDGES"]')
        for point in line.get_points()
    ]
    # The front view begins at the bed and ends with the bolts of the ram.
    ends = sorted({round(y, 3) for x, y in edges if abs(x) < 4})
    assert ends[0] == 0.0
    assert 8.25 in ends
    assert {one.dxf.layer for one in document.modelspace()} <= set(LAYERS)
    texts = [one.dxf.text for one in document.modelspace().query("TEXT")]
    assert "2-3/4 in" in texts
    assert scene_dxf(scene, "inch") == scene_dxf(scene, "inch")

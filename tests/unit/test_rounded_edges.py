"""The rounded edge of a block: by a cutter of the crib or to a template, and its end view."""

from __future__ import annotations

import math

import pytest
from attrs import evolve

from strapwright.drawing.plate_drawing import plate_scene
from strapwright.drawing.plate_dxf import plate_dxf
from strapwright.making.crib_cutters import cutters_of, usual_cutters
from strapwright.making.edges.rounded_edges import round_edge
from strapwright.making.machining_steps import plate_steps, shaft_steps
from strapwright.making.plate_making import PlateMaking, make_plate
from strapwright.making.plate_values import PlateDrawing
from strapwright.making.tooling_making import make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.quantities import Units
from strapwright.scene.frame import Frame
from strapwright.scene.primitives import Path, Text
from strapwright.shop.crib import Crib
from strapwright.shop_files.reading_crib import read_crib
from strapwright.shop_files.reading_job import read_job

INCH = 25.4
BLOCK = PlateDrawing(
    name="shoulder block", metal="low carbon steel", width=60.0, height=50.0, thickness=40.0,
    holes=(), quantity=2, edges_rounded=10.0,
)  # fmt: skip
WITH = (*usual_cutters(), *cutters_of(Crib(radius_cutters=(6.0, 10.0))))


def made(cutters: tuple[object, ...] = usual_cutters(), units: Units = "metric") -> PlateMaking:
    return make_plate(BLOCK, cutters, units=units)  # type: ignore[arg-type]


def steps(one: PlateMaking) -> str:
    return " ".join(plate_steps(one).steps)


def test_a_cutter_of_the_radius_mills_the_edge() -> None:
    said = steps(made(WITH))
    assert "Mill that edge with the 10 mm radius cutter in three passes" in said
    assert "template" not in said
    # 10 min to set and 3 passes of 60 mm at 40 mm a minute.
    edge = round_edge(10.0, 60.0, WITH)
    assert edge.minutes == pytest.approx(14.5)
    assert round_edge(10.04, 60.0, WITH).cutter == edge.cutter
    assert round_edge(10.06, 60.0, WITH).cutter == ""


def test_without_it_three_flats_touch_the_round_and_a_template_is_filed_to() -> None:
    said = steps(made())
    # Tangents of a circle of 10: 10 (2 - sqrt 2) = 5.858 off each face, 20 tan 22.5 = 8.284 wide;
    # of three, 20 tan 11.25 = 3.978 each.
    assert "5.86 mm off both faces: it is 8.28 mm wide" in said
    assert "until all three are 3.98 mm wide" in said
    assert "drill a hole of 20 mm whose middle is 10 mm from both" in said
    assert said.index(
        "Make a template, for the tool crib has no radius cutter of 10 mm"
    ) < said.index("File the ridges along the edge")
    # 15 for the flats, half of 15 for a template, and 60 mm at 4 a minute.
    assert round_edge(10.0, 60.0, usual_cutters()).minutes == pytest.approx(37.5)
    assert made().minutes - made(WITH).minutes == pytest.approx(23.0)


@pytest.mark.parametrize("flats", [1, 3])
def test_flats_touch_the_round_and_end_on_its_faces(flats: int) -> None:
    """A closed chain: half a flat and the next begin where one tangent meets the other."""
    edge, radius = round_edge(10.0, 60.0, ()), 10.0
    wide = edge.one_flat if flats == 1 else edge.three_flats
    turn = math.pi / 2 / (flats + 1)
    # From where the round begins on a face half a flat on, then whole flats, then half of one.
    at, heading = [0.0, 0.0], 0.0
    for long in (wide / 2, *([wide] * flats), wide / 2):
        at = [at[0] + long * math.cos(heading), at[1] + long * math.sin(heading)]
        heading += turn
    assert at == pytest.approx([radius, radius])
    assert edge.face_off == pytest.approx(radius - edge.one_flat / 2)


def arcs(one: PlateMaking, wide: float) -> tuple[list[Path], list[str], tuple[float, ...]]:
    scene = plate_scene(one, Frame(width=wide, height=470.0, body=17.0))
    paths = [each for each in scene.shapes if isinstance(each, Path) and any(each.bulges or ())]
    words = [each.text for each in scene.shapes if isinstance(each, Text)]
    return paths, words, scene.bounds


@pytest.mark.parametrize("wide", [680.0, 390.0], ids=["beside", "below"])
def test_the_end_view_shows_where_the_round_begins_and_ends(wide: float) -> None:
    (end,), words, bounds = arcs(made(), wide)
    assert end.bulges is not None
    (k,) = (k for k, bulge in enumerate(end.bulges) if bulge)
    start, stop = end.points[k], end.points[(k + 1) % len(end.points)]
    left, low = (min(point[axis] for point in end.points) for axis in (0, 1))
    # A quarter of a circle, tangent of a quarter of 90 degrees; 10 in on top, 10 down the face.
    assert end.bulges[k] == pytest.approx(math.tan(math.radians(22.5)))
    assert start == pytest.approx((left + 10.0, low + 50.0))
    assert stop == pytest.approx((left, low + 40.0))
    assert max(point[0] for point in end.points) == pytest.approx(left + 40.0)
    assert {"R 10 mm", "10 mm", "40 mm", "60 mm", "50 mm", "end view"} <= set(words)
    assert words.count("10 mm") == 2
    # Beside the face on a sheet, below it on a phone, and all of it on the drawing.
    assert (left > 60.0, low < -50.0) == (wide > 500.0, wide < 500.0)
    assert bounds[0] < left
    assert bounds[1] < low
    assert bounds[2] > left + 40.0


def test_a_block_without_a_rounded_edge_has_no_end_view() -> None:
    plain = make_plate(evolve(BLOCK, edges_rounded=0.0), usual_cutters(), units="metric")
    assert arcs(plain, 680.0)[:2][0] == []
    assert "end view" not in arcs(plain, 680.0)[1]


def test_a_dxf_says_in_words_what_its_outline_cannot_show() -> None:
    text = plate_dxf(made()).decode()
    assert "Inner side: upper edge rounded R 10 mm, from 10 mm down to 10 mm in on top." in text
    cheek = make_plate(evolve(BLOCK, edges_rounded=0.0, seat=8.0), usual_cutters(), units="metric")
    text = plate_dxf(cheek).decode()
    assert "Inner side: half-round seat R 8 mm at the upper edge." in text
    assert "rounded" not in text


def test_the_crib_file_lists_radius_cutters_by_radius() -> None:
    crib = read_crib('format = 1\nunits = "inch"\n[crib]\nradius_cutters = ["3/8", "1/4"]\n')
    assert crib.radius_cutters == pytest.approx((INCH / 4, 3 * INCH / 8))
    assert [one.name for one in cutters_of(crib)] == [
        "1/4 in radius cutter",
        "3/8 in radius cutter",
    ]
    assert [one.diameter for one in cutters_of(crib)] == pytest.approx([INCH / 2, 3 * INCH / 4])


JOB = read_job(
    'format = 1\nunits = "inch"\n[part]\nname = "rail tab"\nbar = "flat 1/4 x 1-1/2"\n'
    'material = "A36 hot rolled"\nmeasured = "outside"\nshape = ["5", "up 60", "5"]\n'
    "[tooling.nose]\nshaft = '1-1/4'\nreach = '2-3/4'\n[tooling.shoulders]\nradius = '1/4'\n"
    "opening = '2-1/4'\nheight = '3'\nouter_edge = '2-3/8'\n[tooling.members]\n"
    "shoulders = { kind = 'block', material = 'A36' }\nbody = { floor = '1', tall = '1' }\n"
    "nose = { material = '1045 hot rolled', between = '2-1/2' }\n"
    "[[tooling.members.weld]]\nholds = 'shoulders'\nsize = '5/8'\nlength = '3'\nspacing = '1-1/2'\n"
)


def test_the_sheets_answer_what_a_machinist_asked_of_welded_blocks() -> None:
    made = make_tooling(pieces_of(JOB), usual_cutters(), name="rail tab", units="inch")
    block = next(one for one in made.plates if one.plate.name == "shoulder block")
    base = next(one for one in made.plates if one.plate.name == "die base")
    assert plate_steps(base).steps[-1] == "Deburr every edge."
    assert block.edge is not None
    (weld,) = (one for one in made.welding if one.name == "each block to the base")
    said = " ".join(weld.steps)
    # 5/8 in of leg in passes of 5/16: four times the section of one.
    assert "Build the leg up in 4 passes or more, none thicker than 5/16 in" in said
    assert "between their tops, above where the inner run goes" in said
    assert "Lay a straight edge over both tops" in said
    assert any("as long and as wide as the base" in one for one in made.notes)
    # A hot-rolled nose is seldom h6.
    nose = next(one for one in made.shafts if one.name == "nose shaft")
    assert any("a hot-rolled round is rough" in one for one in shaft_steps(nose, "inch").steps)
    ground = evolve(nose, steel="1045 ground shaft")
    assert not any("hot-rolled" in one for one in shaft_steps(ground, "inch").steps)

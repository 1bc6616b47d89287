"""Holes of the ram's flange, of the bed and of side plates: where they are, and read back."""

from __future__ import annotations

import io
import math
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from attrs import evolve
from laid_out import lacking

from strapwright.drawing.plate_dxf import plate_dxf
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.hole_table import hole_table
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import PlateDrawing
from strapwright.making.tied_plates import below_seat
from strapwright.making.tooling_plates import Pieces, pieces_of
from strapwright.shop.job import Job
from strapwright.shop.members import Bolt
from strapwright.shop_files.reading_job import read_job

EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))


def with_bolts(*bolts: Bolt, **members: Any) -> Job:
    assert DIE.tooling is not None
    stated = DIE.tooling.members
    assert stated is not None
    made = evolve(stated, bolt=bolts, **members)
    return evolve(DIE, tooling=evolve(DIE.tooling, members=made))


def plate(pieces: Pieces, name: str) -> PlateDrawing:
    return next(one for one in pieces.plates if one.name == name)


def places(one: PlateDrawing, purpose: str) -> list[tuple[float, float]]:
    return [(hole.x, hole.y) for hole in one.holes if hole.purpose == purpose]


FLANGE = Bolt(holds="push plate", size="3/8-16", count=4, circle=60.0)
BED = Bolt(holds="base", size="3/8-16", count=4)


@pytest.mark.parametrize("count", [3, 4, 6])
def test_a_round_flange_stands_evenly_about_the_middle_of_the_push_plate(count: int) -> None:
    made = plate(pieces_of(with_bolts(evolve(FLANGE, count=count))), "push plate")
    found = places(made, "bolt of the ram")
    assert len(found) == count
    middle = (made.width / 2, made.height / 2)
    assert all(math.dist(one, middle) == pytest.approx(30.0) for one in found)
    # Neighbours on the circle stand one side of a regular figure apart.
    side = 60.0 * math.sin(math.pi / count)
    nearest = [min(math.dist(one, other) for other in found if other != one) for one in found]
    assert nearest == pytest.approx([side] * count)


def test_two_rows_stand_their_spacing_apart_along_the_nose() -> None:
    made = plate(pieces_of(with_bolts(evolve(FLANGE, circle=None, spacing=50.0))), "push plate")
    found = places(made, "bolt of the ram")
    assert sorted({round(x - made.width / 2, 6) for x, _ in found}) == [-25.0, 25.0]
    assert sum(y for _, y in found) / 4 == pytest.approx(made.height / 2)


def test_bolts_of_the_bed_stand_beyond_the_shoulders_and_the_base_reaches_them() -> None:
    made = plate(pieces_of(with_bolts(BED, body=None)), "die base")
    found = places(made, "bolt of the bed")
    assert len(found) == 4
    shoulders = [x for x, _ in places(made, "shoulder bolt")]
    assert min(x for x, _ in found) < min(shoulders) - 9.5
    assert max(x for x, _ in found) > max(shoulders) + 9.5
    wide = plate(pieces_of(with_bolts(evolve(BED, spacing=200.0), body=None)), "die base")
    apart = {x for x, _ in places(wide, "bolt of the bed")}
    assert max(apart) - min(apart) == pytest.approx(200.0)
    assert wide.width >= 200.0 + 3 * 9.525
    assert wide.width > made.width


def test_where_nothing_is_said_of_them_there_are_none_and_the_notes_ask() -> None:
    pieces = pieces_of(with_bolts(evolve(FLANGE, circle=None), body=None))
    assert places(plate(pieces, "push plate"), "bolt of the ram") == []
    assert any("circle or spacing" in note for note in pieces.notes)
    assert any("Clamps hold the base" in note for note in plate(pieces, "die base").notes)


@pytest.mark.parametrize(
    ("bolt", "said"),
    [
        (evolve(FLANGE, circle=110.0), "from an edge of the push plate"),
        (evolve(FLANGE, circle=900.0), "past an edge of the push plate"),
        (evolve(FLANGE, circle=None, spacing=40.0, count=3), "do not make two rows"),
        (evolve(BED, count=3), "do not make two rows"),
        (evolve(BED, spacing=60.0), "stand under the shoulders"),
    ],
)
def test_what_cannot_be_is_one_sentence(bolt: Bolt, said: str) -> None:
    pieces = pieces_of(with_bolts(bolt, body=None))
    (why,) = lacking(pieces).values()
    assert said in why
    assert "\n" not in why
    # Every sheet still comes.
    names = {one.name for one in pieces.plates}
    assert names >= {"push plate", "nose carrier", "shoulder block", "die base"}


def tied() -> Job:
    assert DIE.tooling is not None
    assert DIE.tooling.members is not None
    assert DIE.tooling.members.body is not None
    body = evolve(
        DIE.tooling.members.body, cheek=25.4, length=110.0, tall=90.0, height=90.0,
        side_plate=12.7, between=122.7,
    )  # fmt: skip
    bolt = Bolt(
        holds="side plates", size="3/8-16", grade="8", count=2, length=31.75, grip=12.7,
        spacing=50.0, height=50.0,
    )  # fmt: skip
    return with_bolts(bolt, FLANGE, body=body)


def test_side_plates_and_ends_of_cheeks_have_the_same_holes() -> None:
    pieces = pieces_of(tied())
    side, end = plate(pieces, "side plate"), plate(pieces, "cheek, each end")
    assert DIE.tooling is not None
    # The rounds lie half in the cheeks, whose inner sides stand the opening apart.
    across = DIE.tooling.shoulders.opening + 2 * 25.4
    assert side.width == pytest.approx(across)
    # Over the middle of each cheek, 50 mm apart, clear of the seats.
    holes = sorted(places(side, "bolt of a cheek"))
    assert [x for x, _ in holes] == pytest.approx([12.7, 12.7, across - 12.7, across - 12.7])
    assert [y for _, y in holes] == pytest.approx([15.0, 65.0, 15.0, 65.0])
    assert places(end, "bolt of a side plate") == [(12.7, 15.0), (12.7, 65.0)]
    assert all(hole.depth is not None and hole.depth >= 31.75 - 12.7 for hole in end.holes)
    assert not [one for one in pieces.plates if one.name in {"die base", "shoulder block"}]
    assert [one.length for one in pieces.shafts if one.name == "shoulder round"] == [110.0]


def test_a_thread_in_the_end_of_a_cheek_keeps_half_a_diameter_from_the_seat() -> None:
    for radius, cheek, major in ((9.525, 25.4, 9.525), (12.7, 25.4, 12.7), (6.0, 40.0, 6.0)):
        down = below_seat(radius, cheek, major)
        # From the thread's rim to the half round about a point one radius below the top.
        wall = math.hypot(cheek / 2, down - radius) - radius - major / 2
        assert wall >= max(major / 2, 1.5) - 1e-9
        assert down >= 1.5 * major
        assert wall == pytest.approx(major / 2) or down == 1.5 * major


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"size": "1/2-13", "length": 20.0}, "cannot reach"),
        ({"size": "5/8-11"}, "too thick"),
        ({"spacing": 60.0, "height": 45.0}, "runs into the seat of the round"),
        # 12.7 mm of plate, and 2 x 56 mm of thread in a cheek 110 mm long.
        ({"length": 68.7}, "bolts from both ends meet"),
    ],
)
def test_bolts_of_side_plates_that_do_not_do(changes: dict[str, Any], said: str) -> None:
    job = tied()
    assert job.tooling is not None
    assert job.tooling.members is not None
    first, *rest = job.tooling.members.bolt
    pieces = pieces_of(with_bolts(evolve(first, **changes), *rest, body=job.tooling.members.body))
    assert said in lacking(pieces)["bolts of the side plates"]
    names = {one.name for one in pieces.plates}
    assert "cheek" in names
    assert "side plate" not in names


def test_a_nose_on_its_web_alone_has_no_carriers() -> None:
    job = tied()
    assert job.tooling is not None
    nose = evolve(job.tooling.nose, held="web", web_thickness=19.05, web_height=80.0, span=60.0)
    pieces = pieces_of(evolve(job, tooling=evolve(job.tooling, nose=nose)))
    names = [one.name for one in pieces.plates]
    assert "nose web" in names
    assert "nose carrier" not in names
    (shaft,) = (one for one in pieces.shafts if one.name == "nose shaft")
    assert shaft.length == pytest.approx(60.0)


@pytest.mark.parametrize("job", [with_bolts(FLANGE, BED), tied()], ids=["floor", "tied"])
def test_every_place_reads_back_from_the_dxf_to_a_micrometre(job: Job) -> None:
    for one in pieces_of(job).plates:
        raw = plate_dxf(make_plate(one, usual_cutters(), units="inch"))
        document = ezdxf.read(io.StringIO(raw.decode("utf-8")))  # type: ignore[attr-defined]
        points = [p.dxf.location for p in document.modelspace().query("POINT")]
        found = sorted((abs(p.x) * 25.4, abs(p.y) * 25.4) for p in points)
        said = sorted((row.x, row.y) for row in hole_table(one))
        assert len(found) == len(said) == len(one.holes)
        for at, place in zip(found, said, strict=True):
            assert at == pytest.approx(place, abs=1e-3)

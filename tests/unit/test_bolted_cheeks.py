"""Cheeks on bolts: drawn as checked, checked again as drawn, and what has no room is said."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from laid_out import lacking

from strapwright.catalog.thread_sizes import find_thread
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.drawn_members.bolted_cheeks import drilled_depth, solid_over
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.plate_making import make_plate
from strapwright.making.plate_values import PlateDrawing
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import bench_under, drawn_findings
from strapwright.shop.job import Job
from strapwright.shop.members import Bolt
from strapwright.shop_files.reading_job import read_job
from strapwright.strength.check_values import Check
from strapwright.strength.member_checks import check_members
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell

INCH = 25.4
EXAMPLES = Path(__file__).parents[2] / "docs" / "examples"
DIE = read_job((EXAMPLES / "mooring-hook-die.toml").read_text(encoding="utf-8"))
WEAK = read_job((Path(__file__).parent / "data" / "weak-bolts-die.toml").read_text("utf-8"))
THIN = read_job((Path(__file__).parent / "data" / "thin-cheek-die.toml").read_text("utf-8"))


def with_bolt(job: Job = WEAK, body: dict[str, Any] | None = None, **changes: Any) -> Job:
    assert job.tooling is not None
    members = job.tooling.members
    assert members is not None
    bolts = tuple(evolve(one, **changes) if one.holds == "cheeks" else one for one in members.bolt)
    made = evolve(members, bolt=bolts, body=evolve(members.body, **(body or {})))
    return evolve(job, tooling=evolve(job.tooling, members=made))


def plate(pieces: Pieces, name: str) -> PlateDrawing:
    return next(one for one in pieces.plates if one.name == name)


def drawn_bolt(pieces: Pieces) -> Bolt:
    assert pieces.tooling is not None
    assert pieces.tooling.members is not None
    return next(one for one in pieces.tooling.members.bolt if one.holds == "cheeks")


def checks_of(job: Job) -> dict[tuple[str, str, str], float]:
    assert job.tooling is not None
    checks, _ = check_members(bench_under((), [job.part], job.tooling, job.press))
    return {key(one): one.ratio for one in checks}


def key(one: Check) -> tuple[str, str, str]:
    return one.member, one.what, one.load_case


def test_the_demo_is_drawn_as_it_is_checked() -> None:
    pieces = pieces_of(DIE)
    assert pieces.findings == ()
    edge, floor = plate(pieces, "cheek, lower edge"), plate(pieces, "floor")
    # Six 3/8-16 in each cheek, two rows 1 in apart about its middle, 1-1/2 diameters from its
    # ends: 9/16 in, 2 in and 4 less 9/16 in.
    assert {hole.thread for hole in edge.holes} == {"3/8-16"}
    inch = sorted((hole.x / INCH, hole.y / INCH) for hole in edge.holes)
    assert inch == [
        pytest.approx((x, y)) for x in (9 / 16, 2.0, 4 - 9 / 16) for y in (0.375, 1.375)
    ]  # fmt: skip
    # Each thread has its hole in the floor, under the cheek that stands 1-1/2 in from the middle.
    middle = floor.width / 2
    there = sorted(
        (round(hole.y, 6), round(abs(hole.x - middle) - 1.5 * INCH, 6))
        for hole in floor.holes
        if hole.purpose == "bolt of a cheek"
    )
    assert there == sorted((round(h.x, 6), round(h.y, 6)) for h in edge.holes for _ in (0, 1))
    # As drawn every check has the figure that it has as stated.
    assert pieces.tooling is not None
    assert checks_of(evolve(DIE, tooling=pieces.tooling)) == pytest.approx(checks_of(DIE))


def test_rows_with_no_room_are_named_and_every_other_sheet_comes() -> None:
    pieces = pieces_of(THIN)
    assert lacking(pieces) == {
        "bolts of the cheeks": "Bolts of the cheeks cannot be laid out: two rows 3 in apart find "
        "no room in a thickness of 5/8 in, a diameter from each side. Use 4 in or more, or "
        "thinner bolts, or rows closer together."
    }
    names = [one.name for one in pieces.plates]
    assert names == [
        "push plate", "nose carrier", "cheek", "cheeks face to face, each end", "floor",
        "nose keeper",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"count": 3}, "do not make two rows"),
        ({"count": 12}, "find no room along a cheek"),
        ({"spacing": 15.0}, "too close for 5/16-18"),
        ({"length": 30.0}, "cannot reach"),
        ({"length": 80.0}, "would bottom"),
        ({"size": "1-8", "spacing": None}, "find no room in a thickness"),
    ],
)
def test_bolts_that_do_not_do_are_one_sentence(changes: dict[str, Any], said: str) -> None:
    why = lacking(pieces_of(with_bolt(**changes)))["bolts of the cheeks"]
    assert said in why
    assert "\n" not in why


def test_rows_that_are_not_stated_are_chosen_and_checked_as_drawn() -> None:
    # 1-3/4 in less a diameter of 5/16 in on each side is 1-1/8 in.
    pieces = pieces_of(with_bolt(spacing=None))
    assert drawn_bolt(pieces).spacing == pytest.approx(1.125 * INCH)
    # Two bolts stand in one row, and one row does not stand against tilting.
    one_row = pieces_of(with_bolt(spacing=None, count=2))
    assert drawn_bolt(one_row).spacing is None
    (found,) = (one for one in drawn_findings(one_row, (), DIE) if one.code == "member-unchecked")
    assert "bolts of the cheeks" in tell(found, in_units("inch")).text


def test_a_grip_less_than_the_floor_sinks_the_heads() -> None:
    pieces = pieces_of(with_bolt(grip=0.5 * INCH, length=INCH))
    floor = plate(pieces, "floor")
    seats = [hole.counterbore for hole in floor.holes if hole.purpose == "bolt of a cheek"]
    assert [seat and seat[1] for seat in seats] == [pytest.approx(0.5 * INCH)] * 8
    assert any("seats 1/2 in deep" in note for note in pieces.notes)
    assert drawn_bolt(pieces).grip == pytest.approx(0.5 * INCH)
    # A bolt with its head on the face of the floor would lack half an inch of thread.
    drills = [one for one in usual_cutters() if one.kind != "end mill"]
    made = make_plate(floor, drills, units="inch")
    notes = {note for group in made.groups for note in group.making.notes if "seat" in note}
    (note,) = notes
    assert note.startswith("No end mill for a seat of")
    assert "Never leave it out" in note


def under_a_seat(tall: float, across: float | None = None) -> Job:
    """Rounds of 20 mm radius in cheeks 40 mm thick, M12 that go 15 mm into them."""
    job = with_bolt(
        body={"cheek": 40.0, "tall": tall, "height": tall},
        size="M12", grade="8.8", count=2, spacing=across, length=25.4 + 15.0,
    )  # fmt: skip
    assert job.tooling is not None
    shoulders = evolve(job.tooling.shoulders, radius=20.0, opening=130.0, height=None)
    return evolve(job, units="metric", tooling=evolve(job.tooling, shoulders=shoulders))


def test_a_tapped_hole_that_runs_into_the_seat_is_refused() -> None:
    # The hole's inner side is 20 - 6 = 14 mm out, where the seat of a cheek 55 mm tall begins
    # 35 - sqrt(20^2 - 14^2) = 20.72 mm up.  15 mm of bolt ask for 21 mm of thread, five pitches of
    # 1.75 mm for the tap and 0.3 x 12 mm of point: 21 + 8.75 + 3.6 = 33.35 mm.
    assert solid_over(20.0, 12.0, 55.0, 20.0) == pytest.approx(20.717, abs=1e-3)
    assert drilled_depth(find_thread("M12", ""), 15.0) == pytest.approx(33.35)
    # With 1.5 mm left it may go 35 - sqrt(21.5^2 - 14^2) = 18.68 mm, so 14.67 mm are missing.
    why = lacking(pieces_of(under_a_seat(55.0)))["bolts of the cheeks"]
    assert "33.35 mm deep, and the seat begins at 20.72 mm" in why
    assert "70 mm tall or more" in why
    pieces = pieces_of(under_a_seat(70.0))
    assert "bolts of the cheeks" not in lacking(pieces)
    (hole, *_) = plate(pieces, "cheek, lower edge").holes
    assert hole.depth == pytest.approx(21.0)
    # Past the seat the hole may be as deep as the cheek is tall, less the wall.
    assert solid_over(30.0, 12.0, 55.0, 20.0) == 55.0
    assert solid_over(30.0, 12.0, 55.0, 20.0, 1.5) == 53.5


def test_what_is_drawn_otherwise_is_said_and_checked_as_drawn() -> None:
    # No bolt passes 1-1/4 in of a floor of 1 in.
    pieces = pieces_of(with_bolt(grip=1.25 * INCH))
    (found,) = (one for one in pieces.findings if one.code == "drawn-otherwise")
    assert tell(found, in_units("inch")).text == (
        "Bolts of the cheeks, grip: you entered 1-1/4 in, but the other sizes lead to 1 in. It is "
        "drawn and checked as 1 in."
    )
    assert drawn_bolt(pieces).grip == pytest.approx(INCH)


def test_guide_rods_have_a_hole_in_every_plate_they_pass() -> None:
    def rods(apart: float, length: float = 101.6) -> Pieces:
        job = with_bolt(body={"length": length})
        assert job.tooling is not None
        assert job.tooling.members is not None
        assert job.tooling.members.guides is not None
        guides = evolve(job.tooling.members.guides, spacing=apart)
        made = evolve(job.tooling, members=evolve(job.tooling.members, guides=guides))
        return pieces_of(evolve(job, tooling=made))

    def held(one: PlateDrawing) -> list[float]:
        return [hole.y - one.height / 2 for hole in one.holes if hole.purpose == "guide rod"]

    past = rods(203.2)
    assert held(plate(past, "floor")) == []
    longer = rods(203.2, length=260.0)
    assert held(plate(longer, "floor")) == pytest.approx([-101.6, 101.6])
    xs = [h.x for h in plate(longer, "push plate").holes if h.purpose == "guide rod"]
    assert xs[1] - xs[0] == pytest.approx(203.2)
    assert "stand on the edge of the floor" in lacking(rods(203.2, length=215.0))["guide rods"]
    assert "run into the carriers" in lacking(rods(80.0))["guide rods"]

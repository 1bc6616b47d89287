"""Cheeks on bolts: drawn as checked, checked again as drawn, and what has no room is said."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from laid_out import lacking

from strapwright.making.drawn_members.laying_out import Pieces
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
THIN = read_job((Path(__file__).parent / "data" / "thin-cheek-die.toml").read_text("utf-8"))


def with_bolt(job: Job = DIE, body: dict[str, Any] | None = None, **changes: Any) -> Job:
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
    # Four 5/16-18 in each cheek, two rows 1 in apart about its middle, 1-1/2 diameters from its
    # ends: 15/32 in and 4 less 15/32 in.
    assert {hole.thread for hole in edge.holes} == {"5/16-18"}
    inch = sorted((hole.x / INCH, hole.y / INCH) for hole in edge.holes)
    assert inch == [
        pytest.approx(at) for at in ((15 / 32, 0.375), (15 / 32, 1.375), (4 - 15 / 32, 0.375),
                                     (4 - 15 / 32, 1.375))
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
        "no room in a cheek of 5/8 in, a diameter from each side. Take a cheek of 4 in or more, or "
        "thinner bolts or rows closer together."
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
        ({"size": "1-8", "spacing": None}, "find no room in a cheek"),
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


def test_what_is_drawn_otherwise_is_said_and_checked_as_drawn() -> None:
    # No bolt passes 1-1/4 in of a floor of 1 in.
    pieces = pieces_of(with_bolt(grip=1.25 * INCH))
    (found,) = (one for one in pieces.findings if one.code == "drawn-otherwise")
    assert tell(found, in_units("inch")).text == (
        "Bolts of the cheeks, grip: 1-1/4 in is stated, and it is drawn as 1 in by the other "
        "sizes; checked again as drawn."
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

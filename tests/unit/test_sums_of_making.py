"""Sums of drawings and cutters that a changed sign or factor would spoil unseen."""

from __future__ import annotations

from pathlib import Path

import pytest
from attrs import evolve

from strapwright.making.assembly.assembly_values import Assembly
from strapwright.making.crib_cutters import cutters_of, drills_of
from strapwright.making.cutters import make_hole
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.hole_table import fit_hole
from strapwright.making.shop_lengths import place, size
from strapwright.making.tooling_plates import pieces_of
from strapwright.shop.crib import BoringBar, Crib, DrillSet
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job

INCH = 25.4
# Nose of 1 in between carriers of 3/4 in, 1-3/4 in apart; shoulders of 3/4 in, 3 in apart.
DIE = read_job(
    (Path(__file__).parents[2] / "docs" / "examples" / "mooring-hook-die.toml").read_text("utf-8")
)


def without_guides() -> Job:
    assert DIE.tooling is not None
    assert DIE.tooling.members is not None
    members = evolve(DIE.tooling.members, guides=None)
    return evolve(DIE, tooling=evolve(DIE.tooling, members=members))


@pytest.fixture(scope="module")
def pieces() -> Pieces:
    return pieces_of(without_guides())


@pytest.fixture(scope="module")
def together(pieces: Pieces) -> Assembly:
    assert pieces.assembly is not None
    return pieces.assembly


def test_a_push_plate_reaches_past_its_carriers_by_a_margin(pieces: Pieces) -> None:
    (plate,) = (one for one in pieces.plates if one.name == "push plate")
    # 1-3/4 + 2 x 3/4 and 12 mm to each side: 4.195, in eighths 4-1/4 in.
    assert plate.width / INCH == pytest.approx(4.25)


def test_the_bar_is_drawn_as_far_past_one_shoulder_as_past_the_other(together: Assembly) -> None:
    bar = together.bar
    ends = (bar.origin[0], bar.origin[0] + bar.depth)
    assert ends[0] == pytest.approx(-ends[1])
    # The rounds end 1-7/8 in from the middle; a bar twice as long would hide them.
    assert 1.875 < ends[1] / INCH < 3.0


@pytest.mark.parametrize(
    ("series", "first", "last", "names"),
    [
        ("letter", "A", "C", ["A", "B", "C"]),
        ("letter", "Z", "Z", ["Z"]),
        ("number", "7", "9", ["#7", "#8", "#9"]),
    ],
)
def test_a_run_of_drills_has_both_its_ends(
    series: str, first: str, last: str, names: list[str]
) -> None:
    run = DrillSet(series=series, first=first, last=last)
    assert [one.name for one in drills_of(Crib(drills=(run,)))] == names


@pytest.mark.parametrize(("fit", "bored"), [("H7", False), ("H8", True)])
def test_a_bore_finer_than_a_bar_holds_is_not_bored(fit: str, bored: bool) -> None:
    # ISO 286: H7 at 16 mm is 0.018 mm, H8 0.027; a bar holds 0.02 (common practice).
    crib = Crib(
        drills=(DrillSet(series="single", first="", last="", sizes=(15.0,)),),
        boring_bar=BoringBar(smallest_bore=12.0),
    )
    made = make_hole(
        fit_hole(0.0, 0.0, 16.0, fit, "w"), cutters_of(crib), thickness=12.0, where="w"
    )
    assert any(cut.role == "bore" for cut in made.cuts) is bored


@pytest.mark.parametrize(
    ("mm", "inch", "metric"), [(31.75, "1.250", "31.75"), (0.396875, "0.016", "0.40")]
)
def test_a_place_is_read_to_thousandths_or_hundredths(mm: float, inch: str, metric: str) -> None:
    assert (place(mm, "inch"), place(mm, "metric")) == (inch, metric)


@pytest.mark.parametrize(
    ("mm", "inch", "metric"),
    [
        (INCH * 83 / 64, "1-19/64 in", "32.94 mm"),
        (INCH * 0.3, "0.300 in", "7.62 mm"),
        (INCH * 0.001, "0.001 in", "0.03 mm"),
    ],
)
def test_a_size_is_a_fraction_where_it_is_one(mm: float, inch: str, metric: str) -> None:
    assert (size(mm, "inch"), size(mm, "metric")) == (inch, metric)

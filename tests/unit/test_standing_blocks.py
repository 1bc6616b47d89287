"""Blocks with a rounded edge as shoulders: drawn as they are checked, put together as drawn."""

from __future__ import annotations

from math import isclose

import pytest

from strapwright.findings import Name
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import bench_of
from strapwright.planning.plan import plan
from strapwright.shop.job import Job
from strapwright.shop_files.reading_job import read_job
from strapwright.strength.member_checks import check_members

INCH = 25.4
DIE = """
format = 1
units = "inch"
[part]
name = "rail tab"
quantity = 10
bar = "flat 1/4 x 1-1/2"
material = "A36 hot rolled"
measured = "outside"
shape = ["4", "up 60", "4"]
[press]
bore = "3-1/2"
rod = "1-3/4"
relief = "800 psi"
stroke = "8"
[tooling.nose]
shaft = "1"
reach = "4"
[tooling.shoulders]
radius = "3/8"
opening = "3"
depth = "2"
height = "3-1/2"
outer_edge = "2-5/8"
[tooling.members]
nose = { material = "4140 annealed", between = "2-1/2" }
carriers = { material = "A36", thickness = "3/4", width = "2-1/2", height = "3" }
push_plate = { material = "A36", thickness = "1", width = "4" }
shoulders = { kind = "block", material = "A36" }
body = { material = "A36", floor = "1", length = "1-1/2", tall = "2", height = "2" }
[[tooling.members.weld]]
holds = "carriers"
size = "5/16"
length = "5"
thinner = "3/4"
[[tooling.members.weld]]
holds = "shoulders"
size = "5/16"
length = "3"
thinner = "1"
spacing = "1-1/2"
height = "2"
"""
BOLTED = DIE[: DIE.rindex("[[")] + (
    '[[tooling.members.bolt]]\nholds = "shoulders"\nsize = "1/4-20"\ngrade = "8"\ncount = 2\n'
    'into = "A36"\n'
)


def die(old: str = "", new: str = "", text: str = DIE) -> tuple[Job, Pieces]:
    assert old in text
    job = read_job(text.replace(old, new, 1) if old else text)
    return job, pieces_of(job)


def sheet(pieces: Pieces, name: str) -> tuple[float, float, float]:
    """Width, height and thickness of a plate [in]."""
    one = next(each for each in pieces.plates if each.name == name)
    return one.width / INCH, one.height / INCH, one.thickness / INCH


def test_a_block_is_drawn_as_it_is_checked_and_leaves_nothing_unchecked() -> None:
    job, pieces = die()
    assert not [one.code for one in pieces.findings]
    assert sheet(pieces, "shoulder block") == pytest.approx((1.5, 2.0, 1.5))
    # Out to 2-5/8 and a weld with its toe, rounded up; along the nose it ends with the blocks.
    assert sheet(pieces, "die base") == pytest.approx((6.25, 1.5, 1.0))
    assert pieces.tooling is not None
    checks, unchecked = check_members(bench_of([plan(job)], pieces.tooling, job.press))
    made = {"shoulders", "die body", "weld of the shoulders"}
    assert not [one for one in unchecked if one.member in made and one.carries]
    assert {"push and bending at the root", "tension and bending of the base"} <= {
        one.what for one in checks
    }


def test_it_stands_as_high_above_the_bed_as_is_stated() -> None:
    _, pieces = die()
    assert pieces.assembly is not None
    assert pieces.assembly.tops == pytest.approx(3.5 * INCH)
    # 3-1/2 in of which 2 are block and 1 base: the rest is a riser, which is told.
    assert pieces.assembly.riser == pytest.approx(0.5 * INCH)
    assert any("riser of 1/2 in" in one for one in pieces.notes)
    # Left to the drawing, the block takes what is left over the base.
    _, whole = die(', tall = "2", height = "2"', "")
    assert sheet(whole, "shoulder block")[1] == pytest.approx(2.5)
    assert whole.assembly is not None
    assert isclose(whole.assembly.tops, 3.5 * INCH)
    assert whole.assembly.riser == 0.0


def test_what_the_drawing_chooses_is_read_back_for_the_check() -> None:
    _, pieces = die('height = "3-1/2"\n', "")
    assert pieces.tooling is not None
    assert pieces.tooling.shoulders.height == pytest.approx(3 * INCH)
    _, bolted = die(text=BOLTED)
    assert bolted.tooling is not None
    assert bolted.tooling.members is not None
    (held,) = (one for one in bolted.tooling.members.bolt if one.holds == "shoulders")
    assert held.count == 2
    assert held.length is not None
    assert held.grip == pytest.approx(INCH)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('depth = "2"', 'depth = "2-1/4"', "must not be sawn out"),
        ('height = "3-1/2"', 'height = "2-1/2"', "make the blocks 1-1/2 in tall"),
        ('floor = "1", length = "1-1/2", tall = "2", height = "2"', 'floor = "3-1/4"',
         "above the bed"),
        ('length = "1-1/2", tall', 'length = "1-1/4", tall', "give 1-1/2 in or more"),
        ('length = "1-1/2", tall', 'length = "2", tall', "on each side: a longer span"),
    ],
    ids=["depth", "height", "no block left", "bar hangs over", "carriers do not pass"],
)  # fmt: skip
def test_sizes_that_do_not_go_together_are_found_by_name(old: str, new: str, said: str) -> None:
    _, pieces = die(old, new)
    found = [one for one in pieces.findings if one.code == "not-laid-out"]
    assert any(said in one.one(Name, "remedy").value for one in found)


def test_its_weld_is_told_by_what_is_there() -> None:
    _, pieces = die()
    (one,) = (each for each in pieces.welding if "block" in each.name)
    said = " ".join(one.steps)
    assert "rounded edges facing each other" in said
    assert "Measure 2-1/4 in between the blocks" in said
    assert "round" not in said.replace("rounded", "")
    assert any(
        "inner and outer side: leg 5/16 in, 1-1/2 in a side" in note for note in pieces.notes
    )


def test_lines_on_the_base_show_where_the_blocks_stand() -> None:
    _, pieces = die()
    base = next(one for one in pieces.plates if one.name == "die base")
    # Rounds of 3/8 in stand 1-1/2 in out, so the faces 1-1/8 and, as stated, 2-5/8 in; the blocks
    # are 1-1/2 in long, and the base ends with them.
    out = sorted((start[0] - base.width / 2) / INCH for start, _ in base.marks)
    assert out == pytest.approx([-2.625, -1.125, 1.125, 2.625])
    # Twice 1-1/8 in lie between the faces.
    for said in ("the inner faces are 2-1/4 in apart", "Clamp a piece of 2-1/4 in between"):
        assert any(said in note for note in base.notes)
    middle = base.height / INCH / 2
    assert middle == pytest.approx(0.75)
    for (left, low), (right, high) in base.marks:
        assert left == right
        assert (low / INCH, high / INCH) == pytest.approx((middle - 0.75, middle + 0.75))

"""Plates that stay on the press: new tooling is made to their holes, or says why it cannot be."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from strapwright.errors import InputError
from strapwright.making.crib_cutters import usual_cutters
from strapwright.making.drawn_members.laying_out import Pieces
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.making.tooling_making import ToolingMaking, make_tooling
from strapwright.making.tooling_plates import pieces_of
from strapwright.planning.member_loads import drawn_findings
from strapwright.quantities.inside_units import INCH_MM
from strapwright.service.stated_units import with_units
from strapwright.shop_files.reading_job import read_job
from strapwright.shop_files.writing import write_job
from strapwright.wording.reader import in_units
from strapwright.wording.telling import tell

DIE = (Path(__file__).parents[2] / "docs/examples/mooring-hook-die.toml").read_text("utf-8")
WELD = re.search(r"weld = .*\n", DIE)
assert WELD is not None
BOLTED = DIE.replace(WELD[0], "")
RAM = "4 of 9/16 at 2-1/2, 1-3/8 for ram"
RODS = "2 of 1 at 4, 0 for guide rods"
# Two carriers 3/4 in thick, 2-1/2 in centre to centre, 2 in wide; 5/16-18 is what fits them.
MATES = f"4 of 11/32 at 1-1/4, 1/2; {RODS}; {RAM}"


def on(
    push: str = "", bed: str = "", *, text: str = BOLTED, more: str = "", length: str = "10"
) -> str:
    tables = ""
    if push:
        tables += (
            f'[press.push_plate]\nname = "harbour plate"\nmaterial = "A36"\nlength = "{length}"\n'
            f'width = "4"\nthickness = "3/4"\nholes = "{push}"\n{more}\n'
        )
    if bed:
        tables += (
            f'[press.bed_plate]\nlength = "10"\nwidth = "12"\nthickness = "1"\nholes = "{bed}"\n\n'
        )
    return text.replace("[tooling.nose]", f"{tables}[tooling.nose]")


def laid(text: str) -> Pieces:
    return pieces_of(read_job(text))


def made(pieces: Pieces) -> ToolingMaking:
    return make_tooling(pieces, usual_cutters(), name="hook", units="inch")


def plate(pieces: Pieces, name: str) -> PlateDrawing:
    return next(one for one in pieces.plates if one.name == name)


def told(pieces: Pieces) -> str:
    return " ".join(tell(one, in_units("inch")).sentence for one in pieces.findings)


def inches(hole: HoleSpec) -> tuple[float, float]:
    return (round(hole.x / INCH_MM, 3), round(hole.y / INCH_MM, 3))


def test_a_plate_that_stays_is_read_and_written_and_a_slip_in_it_is_refused() -> None:
    job = read_job(on(MATES, "4 of tap 1/2-13 at 1-1/4, 4"))
    assert job.press is not None
    assert job.press.push_plate is not None
    assert len(job.press.push_plate.holes) == 10
    assert read_job(write_job(job)) == job
    for bad, said in (
        ("9/16", "this is not a hole with its place"),
        ("4 of 1 at 1, 0", "4 holes cannot lie about the ram's axis by one place"),
        ("9/16 at 5, 0", "reaches 0.281. in past the edge of its plate"),
        ("9/16 at 1, 0; 9/16 at 1.2, 0", "two holes 0.2 in apart run into each other"),
        ("9/16 at 1, 0 for fun", "what it is for is not known here"),
        ("tap 9/17 at 1, 0", "no unified or metric thread"),
    ):
        with pytest.raises(InputError, match=said):
            read_job(on(bad))


def test_a_press_moved_to_a_job_of_other_units_keeps_the_places_of_its_holes() -> None:
    press = {"push_plate": {"length": "10", "holes": "4 of 1/2 at 1-1/4, 1/2; 1 in at 0, -1"}}
    moved = with_units({"press": press}, "inch")["press"]["push_plate"]
    assert moved["length"] == "10 in"
    assert moved["holes"] == "4 of 1/2 in at 1-1/4 in, 1/2 in; 1 in at 0, -1 in"


def test_a_size_stated_against_the_plate_that_stays_is_refused_but_not_of_a_plate_of_its_own() -> (
    None
):
    with pytest.raises(InputError, match=r"this is 4 in, and the push plate .* has 5 in"):
        read_job(on(MATES).replace('width = "4"\nthickness', 'width = "5"\nthickness'))
    own = on(MATES).replace("[tooling.nose]", "[tooling]\nown_plate = true\n\n[tooling.nose]")
    assert not plate(laid(own), "push plate").exists
    # Along the nose and across it the plate is what the bar passes.
    tooling = read_job(on(MATES)).tooling
    assert tooling is not None
    assert tooling.plate_length == pytest.approx(10 * INCH_MM)


def test_carriers_follow_holes_that_are_there_and_nothing_is_drilled_or_counted() -> None:
    pieces = laid(on(MATES))
    push, edge = plate(pieces, "push plate"), plate(pieces, "nose carrier, upper edge")
    taken = [inches(one) for one in push.holes if one.purpose == "carrier bolt"]
    # The plate is 10 x 4 in, its middle the ram's axis: 5 -+ 1-1/4 by 2 -+ 1/2.
    assert sorted(taken) == [(3.75, 1.5), (3.75, 2.5), (6.25, 1.5), (6.25, 2.5)]
    # The threads stand under them: a carrier is 2 in wide about the middle.
    assert sorted(inches(one) for one in edge.holes) == [(0.5, 0.375), (1.5, 0.375)]
    assert {one.thread for one in edge.holes} == {"5/16-18"}
    assert all(one.exists for one in push.holes)
    with_it, without = made(pieces), made(laid(BOLTED))
    assert "push plate" not in [one.plate.name for one in with_it.plates]
    assert "The push plate exists, and nothing is drilled in it." in with_it.notes
    assert with_it.assembly is not None
    assert "A36, existing" in [one.metal for one in with_it.assembly.items]
    alone = next(one for one in without.plates if one.plate.name == "push plate")
    assert without.minutes - with_it.minutes >= alone.minutes


def test_new_holes_are_drilled_where_none_are_there_and_only_they_are_in_the_table() -> None:
    pieces = laid(on(f"{RODS}; {RAM}"))
    sheet = next(one for one in made(pieces).plates if one.plate.name == "push plate")
    assert sheet.plate.title == "push plate, existing: drill these holes"
    assert [row.hole.purpose for row in sheet.rows] == ["carrier bolt"] * 4
    # Two minutes to place each hole, and no sawing and squaring.
    assert sheet.minutes < 25.0
    assert len(sheet.plate.holes) == 10


def test_a_row_of_new_holes_moves_aside_from_a_hole_and_where_it_cannot_says_by_how_much() -> None:
    beside = laid(on(f"4 of 1/4 at 1-1/4, 7/8; {RAM}", text=BOLTED.replace("guides =", "# ")))
    assert "cannot be laid out" not in told(beside)
    # 5/16-18 is 1-1/2 of itself, 15/32 in, from the ends of 2 in, and is to be 11/64 + 1/8 in and a
    # wall of half the thinner hole, 1/8 in, from the middle of the other: 0.453 in out at most.  In
    # steps of 1/32 in from 0.531 in that is 0.4375 in.
    places = [one.y / INCH_MM for one in plate(beside, "push plate").holes if not one.exists]
    assert sorted({round(one, 4) for one in places}) == [2 - 0.4375, 2 + 0.4375]
    pieces = laid(on(f"2 of 3/4 at 1-1/4, 0; 4 of 3/4 at 1-1/4, 7/8; {RODS}"))
    said = told(pieces)
    assert "Bolts of the carriers cannot be laid out: in the push plate that stays" in said
    assert "carrier bolt at -1-1/4 in, -17/32 in" in said
    # The place is inside another hole.
    assert "runs into the 3/4 in hole at -1-1/4 in, 0." in said


def test_a_bore_larger_than_the_bolt_gets_a_bush_and_one_between_gets_none() -> None:
    # Normal clearance of 5/16 is 11/32; a wall of 1.5 mm to each side asks for 0.462 in.
    bushed = laid(on(f"4 of 1/2 at 1-1/4, 1/2; {RODS}; {RAM}"))
    (bush,) = [one for one in bushed.shafts if one.name == "bush of a carrier bolt"]
    assert (bush.quantity, bush.diameter) == (4, pytest.approx(0.5 * INCH_MM))
    assert any("Drill it through 11/32 in for the bolt 5/16-18" in one for one in bush.notes)
    between = laid(on(f"4 of 7/16 at 1-1/4, 1/2; {RODS}; {RAM}"))
    assert not any("bush" in one.name for one in between.shafts)
    taken = [one for one in plate(between, "push plate").holes if one.purpose == "carrier bolt"]
    assert not any(one.exists for one in taken)


@pytest.mark.parametrize(
    ("bores", "said"),
    [
        ("2 of 1 at 4-1/4, 0", "guide rods 8 in apart do not meet the bores of the push plate"),
        ("2 of 7/8 at 4, 0", "rods of 1 in do not pass the bores of 7/8 in"),
        ("2 of 1-1/16 at 4, 0", "have no room for a bush"),
    ],
)
def test_guide_rods_that_do_not_meet_the_bores_are_found(bores: str, said: str) -> None:
    pieces = laid(on(f"{bores} for guide rods"))
    assert "Guide rods cannot be laid out" in told(pieces)
    assert said in told(pieces)


def test_guide_rods_in_a_large_bore_run_in_bushes_and_stand_where_the_bores_are() -> None:
    pieces = laid(on("2 of 1-1/4 at 4, 0 for guide rods"))
    (bush,) = [one for one in pieces.shafts if one.name == "bush of a guide rod"]
    # F8 of 25.4 mm is +20 to +53 um (ISO 286-1): 1.0008 to 1.0021 in.
    assert any("1.0008 in to 1.0021 in (F8)" in one for one in bush.notes)
    bare = on(MATES).replace('spacing = "8", bush', "bush")
    members = read_job(bare).tooling
    assert members is not None
    assert members.members is not None
    assert members.members.guides is not None
    assert members.members.guides.spacing == pytest.approx(8 * INCH_MM)


def test_a_floating_coupling_has_its_play_in_the_holes_of_the_ram() -> None:
    floating = BOLTED.replace('{ kind = "rigid" }', '{ kind = "floating", play = "1/8" }')
    floating = floating.replace(
        'holds = "push plate"\n', 'holds = "push plate"\nspacing = "5"\n'
    )  # fmt: skip
    new = plate(laid(floating), "push plate")
    ram = [one for one in new.holes if one.purpose == "bolt of the ram"]
    # A bolt of 1/2 in moves by 1/8 in: 5/8 in, where its normal hole is 9/16.
    assert {round(one.diameter / INCH_MM, 4) for one in ram} == {0.625}
    # Two rows 5 in apart, each 1-1/2 bolt diameters from the sides of a plate 4 in wide.
    kept = f"4 of 9/16 at 2-1/2, 1-1/4 for ram; {RODS}"
    said = told(laid(on(kept, text=floating)))
    assert "a hole of 9/16 in leaves the floating coupling less than its play of 1/8 in" in said
    assert "floating" not in told(laid(on(kept.replace("9/16", "5/8"), text=floating)))


def test_a_gap_that_is_not_stated_follows_the_holes_of_the_plate() -> None:
    free = BOLTED.replace(', between = "2-1/2"', "")
    pieces = laid(on(f"4 of 11/32 at 1-3/4, 1/2; {RODS}", text=free))
    assert pieces.tooling is not None
    # Carriers of 3/4 in over holes 3-1/2 in apart leave 2-3/4 in.
    assert pieces.tooling.nose.span == pytest.approx(2.75 * INCH_MM)


def test_carriers_that_do_not_stand_on_the_plate_are_found() -> None:
    said = told(laid(on("1/4 at 0, 1", length="3", text=BOLTED.replace("guides =", "# "))))
    assert (
        "the carriers reach 3-1/4 in along the nose, and the push plate that stays is 3 in" in said
    )


def test_the_floor_follows_the_holes_of_the_bed_plate() -> None:
    stated = BOLTED.replace('spacing = "7-1/2"', 'spacing = "8"')
    floor = plate(laid(on("", "4 of tap 1/2-13 at 1-1/8, 4", text=stated)), "floor")
    bed = [inches(one) for one in floor.holes if one.purpose == "bolt of the bed"]
    # Rows 8 in apart, 2-1/4 in along the nose; floor 9-1/2 x 4 in (1-1/2 diameters of edge).
    assert sorted(bed) == [(0.75, 0.875), (0.75, 3.125), (8.75, 0.875), (8.75, 3.125)]
    # Where the job states no bolts the holes of the bed say which.
    bare = stated[: stated.rindex("[[tooling.members.bolt]]")]
    pieces = laid(on("", "4 of tap 1/2-13 at 1-1/8, 4", text=bare))
    assert pieces.tooling is not None
    assert pieces.tooling.members is not None
    base = [one for one in pieces.tooling.members.bolt if one.holds == "base"]
    assert [(one.size, one.count) for one in base] == [("1/2-13", 4)]


def test_the_bed_gets_new_threads_or_the_finding_names_the_rows_that_are_there() -> None:
    pieces = laid(on("", "2 of 1 at 4, 0 for guide rods", text=BOLTED.replace("guides =", "# ")))
    bed = plate(pieces, "bed plate")
    new = [inches(one) for one in bed.holes if not one.exists]
    # Its face is 12 in along the bar by 10 along the nose; rows 7-1/2 in apart, 2-1/2 in long.
    assert sorted(new) == [(2.25, 3.75), (2.25, 6.25), (9.75, 3.75), (9.75, 6.25)]
    said = told(laid(on("", "4 of tap 1/2-13 at 1-1/8, 4")))
    assert "Bolts of the base cannot be laid out: in the bed plate that stays" in said
    assert "Enter a spacing of 8 in, where holes are." in said
    rods = told(laid(on("", "2 of 1 at 4-1/4, 0 for guide rods")))
    assert "guide rods 8 in apart do not meet the bores of the bed plate" in rods


@pytest.mark.parametrize(("count", "weak"), [(2, False), (4, True)])
def test_new_holes_in_a_plate_that_stays_weaken_it_in_the_check_of_what_is_drawn(
    count: int, weak: bool
) -> None:
    # Backed over 3 in, it is bent most pulling back, 3 mm off the middle: 5773 lbf (2.5/4 +
    # 0.1181/2) = 3949 lbf in.  A plate of 4 x 0.63 in less two bolts of the ram, 1.15 in: W = 2.85
    # x 0.63^2/6 = 0.1885 in3, 20.9 ksi of 36.26/1.67 = 21.7.  Four new holes of 11/32 in across it
    # for 5/16-18 take 1.375 in: W = 0.1736 in3, 22.7 ksi; two take 0.69 in.
    bolts = f'\n[[tooling.members.bolt]]\nholds = "carriers"\nsize = "5/16-18"\ncount = {count}\n'
    text = (BOLTED + bolts).replace(
        'thickness = "3/4", width = "2"', 'thickness = "3/4", width = "3-1/2"'
    )
    text = on(f"{RODS}; {RAM}", text=text).replace(
        '"3/4", width = "4"', '"0.63", width = "4", pad = "3"'
    )
    job = read_job(
        text.replace('width = "4"\nthickness = "3/4"', 'width = "4"\nthickness = "0.63"')
    )
    pieces = pieces_of(job)
    new = [one for one in plate(pieces, "push plate").holes if one.purpose == "carrier bolt"]
    assert len(new) == 2 * count
    said = [tell(one, in_units("inch")).text for one in drawn_findings(pieces, (), job)]
    assert any("Push plate, bending, retract" in one for one in said) == weak


def test_the_bed_plate_is_in_the_assembly_under_the_die_as_existing() -> None:
    """Drawn whether or not a hole of it is new, its upper face where heights are counted from."""
    stated = BOLTED.replace('spacing = "7-1/2"', 'spacing = "8"').replace("guides =", "# ")
    for holes in ("4 of tap 1/2-13 at 1-1/8, 4", "2 of 1 at 4, 0 for guide rods"):
        put = laid(on("", holes, text=stated)).assembly
        assert put is not None
        (item,) = (one for one in put.items if one.name == "bed plate")
        assert "existing" in item.metal
        assert item.sizes == pytest.approx((12 * 25.4, 10 * 25.4, 25.4))
        assert "bed plate" not in put.unplaced
        (part,) = (one for one in put.parts if one.item == item.number)
        corners = [part.solid.at(corner, deep) for corner in part.solid.outline
                   for deep in (0.0, part.solid.depth)]  # fmt: skip
        assert [min(at) for at in zip(*corners, strict=True)] == pytest.approx(
            [-6 * 25.4, -5 * 25.4, -25.4]
        )
        assert max(at[2] for at in corners) == pytest.approx(0.0)

"""Holes of plates that stay, at the sizes and spacings where they are just taken or just not."""

from __future__ import annotations

import pytest

from strapwright.catalog.thread_sizes import find_thread
from strapwright.errors import InputError
from strapwright.making.drawn_members.guide_places import GuidePlaces
from strapwright.making.drawn_members.laying_out import BedThere, LaidOut
from strapwright.making.hole_table import bolt_hole, plain_hole
from strapwright.making.kept.bed_there import base_bolts, check_bed_bores
from strapwright.making.kept.patterns import Seat, in_room, passing
from strapwright.making.kept.push_plate_there import followed_span, kept_bolting
from strapwright.making.kept.rods_and_ram import check_ram, with_rods
from strapwright.making.plate_values import HoleSpec, PlateDrawing
from strapwright.shop.kept_plates import KeptHole, KeptPlate
from strapwright.shop.members import Bolt, Members

INCH = 25.4


def bed(*holes: KeptHole) -> BedThere:
    plate = KeptPlate(length=10 * INCH, width=12 * INCH, thickness=INCH, holes=holes)
    return BedThere(name="bed plate", plate=plate)


def bores(*along: float) -> BedThere:
    return bed(*(
        KeptHole(along=one * INCH, across=0.0, diameter=INCH, use="guide rods") for one in along
    ))  # fmt: skip


def test_two_bores_of_the_bed_are_enough_for_two_rods_and_one_is_not() -> None:
    rods = GuidePlaces(out=4 * INCH, diameter=INCH)
    assert check_bed_bores(bores(-4, 4), rods, "inch")
    with pytest.raises(InputError, match="do not meet the bores of the bed plate"):
        check_bed_bores(bores(4), rods, "inch")
    # Bores 4-1/4 in from the ram's axis are twice that apart.
    with pytest.raises(InputError, match=r"which are 8-1/2 in apart.*[Ss]et them 8-1/2 in apart"):
        check_bed_bores(bores(-4.25, 4.25), rods, "inch")


@pytest.mark.parametrize(
    ("x", "y"), [(12.0, 50.0), (188.0, 50.0), (60.0, 12.0), (60.0, 88.0)],
    ids=["left", "right", "below", "above"],
)  # fmt: skip
def test_a_new_hole_keeps_half_its_width_to_each_edge_of_a_plate_that_stays(
    x: float, y: float
) -> None:
    # 12 mm to the middle of a hole of 12 leave 6, which is half its width; 11.9 leave less.
    plate = PlateDrawing(name="bed plate", metal="A36", width=200.0, height=100.0, thickness=20.0,
                         holes=())  # fmt: skip
    assert in_room(plate, [plain_hole(x, y, 12.0, "guide rod")], (), "tooling", "metric")
    out = ((x > 100.0) - (x < 50.0)) * 0.1, ((y > 60.0) - (y < 40.0)) * 0.1
    with pytest.raises(InputError, match="to the edge"):
        in_room(plate, [plain_hole(x + out[0], y + out[1], 12.0, "guide rod")], (), "tooling",
                "metric")  # fmt: skip


@pytest.mark.parametrize("thread", ["1/2-13", ""])
def test_bolts_go_into_the_bed_where_the_holes_under_them_are_tapped(thread: str) -> None:
    def four(across: float, thread: str) -> list[KeptHole]:
        wide = INCH / 2 if thread else 9 / 16 * INCH
        return [
            KeptHole(
                along=y * 11 / 16 * INCH, across=x * across * INCH, diameter=wide, thread=thread
            )
            for x in (-1, 1)
            for y in (-1, 1)
        ]

    # Threads nearer the middle, under the die, take none of its bolts.
    there = bed(*four(1.0, "1/2-13"), *four(4.0, thread))
    found = base_bolts(None, 2 * INCH, 4 * INCH, "inch", LaidOut(bed=there))
    assert found is not None
    assert found.out == pytest.approx(4 * INCH)
    assert found.tapped_in == bool(thread)


@pytest.mark.parametrize(("along", "taken"), [(11 / 16, True), (21 / 32, False)])
def test_holes_of_the_bed_are_followed_where_they_are_as_far_apart_as_bolts_may_stand(
    along: float, taken: bool
) -> None:
    # Bolts of 1/2 in: 2-2/3 x 1/2 = 1.333 in apart at least (AISC 360 J3.3).  These are 1-3/8 in
    # apart, or 1-5/16 in.
    there = bed(*(
        KeptHole(along=y * along * INCH, across=x * 4 * INCH, diameter=INCH / 2, thread="1/2-13")
        for x in (-1, 1)
        for y in (-1, 1)
    ))  # fmt: skip
    found = base_bolts(None, 2 * INCH, 4 * INCH, "inch", LaidOut(bed=there))
    assert (found is not None) == taken
    if found is not None:
        assert found.alongs == pytest.approx((-along * INCH, along * INCH))


def carrier_row(*beside: float, width: float = 2.0) -> tuple[float, ...]:
    """Places of new 5/16-18 bolts from the middle of a carrier, beside holes of 1/4 in [in]."""
    holes = tuple(
        plain_hole((5 + 1.25 * x) * INCH, (2 + sign * y) * INCH, INCH / 4, "holes", purpose="oil")
        for y in beside
        for x in (-1, 1)
        for sign in (-1, 1)
    )
    plate = PlateDrawing(
        name="push plate", metal="mild steel", width=10 * INCH, height=4 * INCH,
        thickness=0.75 * INCH, holes=holes, exists=True,
    )  # fmt: skip
    seat = Seat(off=1.25 * INCH, width=width * INCH, thickness=0.75 * INCH, count=2)
    bolts = Members(bolt=(Bolt(holds="carriers", size="5/16-18", count=2),))
    found = kept_bolting(plate, bolts, seat, tapped=INCH, solid=1.5 * INCH, units="inch")
    return tuple(round(one / INCH - width / 2, 5) for one in found.places)


@pytest.mark.parametrize(("beside", "out"), [(0.9, 0.46875), (0.86, 0.4375)])
def test_new_holes_move_in_by_a_thirty_second_at_a_time_until_they_find_room(
    beside: float, out: float
) -> None:
    # 1-1/2 diameters, 15/32 in, from the ends of a carrier 2 in wide: 17/32 in out.  A hole of
    # 11/32 in and one of 1/4 in keep 11/64 + 1/8 in and a wall of 1/8 in: 0.4219 in apart, so these
    # stand 0.4781 and 0.4381 in out at most.  Each step is a 64th of the width at both ends.
    assert carrier_row(beside) == (-out, out)


def test_new_holes_of_a_wide_carrier_move_past_a_third_of_their_row() -> None:
    # 4 in wide: from 1-17/32 in out by 1/16 in at a time.  Holes of 1/4 in at 0.9, 1.2 and 1.5 in
    # leave no room from 0.4781 to 1.9219 in out, so the seventeenth step is the first that does:
    # 1.53125 - 1.0625 in, and the bolts are 0.9375 in apart, not under 0.8333 in.
    assert carrier_row(0.9, 1.2, 1.5, width=4.0) == (-0.46875, 0.46875)


def test_new_holes_never_move_closer_than_bolts_may_stand() -> None:
    # Room is 0.83 - 0.4219 = 0.4081 in out.  The step there, 13/32 in, has the bolts 0.8125 in
    # apart, less than 2-2/3 of 5/16 in: 0.8333 in (AISC 360 J3.3, from memory).
    with pytest.raises(InputError, match="the hole for the carrier bolt"):
        carrier_row(0.83)


@pytest.mark.parametrize(("bore", "bush"), [(11.74, 11.74), (11.72, None)])
def test_a_bush_has_a_wall_of_one_and_a_half_millimetres_at_least(
    bore: float, bush: float | None
) -> None:
    # Normal clearance of 5/16 in is 11/32 in, 8.731 mm: 3 mm more is 11.731 mm.  The loose one, 3/8
    # in, is 9.525 mm, so neither passes the bolt as it is.
    hole = plain_hole(0.0, 0.0, bore, "holes", purpose="")
    found = passing(hole, find_thread("5/16-18", "bolt"), "push plate")
    assert (None if found is None else found.bush) == bush


def plate_with(*holes: HoleSpec) -> PlateDrawing:
    return PlateDrawing(
        name="push plate", metal="mild steel", width=200.0, height=100.0, thickness=20.0,
        holes=holes, exists=True,
    )  # fmt: skip


@pytest.mark.parametrize(("bore", "bush"), [(25.2, 0.0), (25.25, 0.0), (28.0, 28.0), (28.5, 28.5)])
def test_rods_pass_a_bore_as_it_is_or_in_a_bush(bore: float, bush: float) -> None:
    # Rods of 25 mm: up to 0.25 mm loose as they are, from 2 x 1.5 mm of wall on in a bush.
    holes = [plain_hole(100 + x, 50.0, bore, "bores", purpose="guide rod") for x in (-75, 75)]
    rods = GuidePlaces(out=75.0, diameter=25.0)
    assert with_rods(plate_with(*holes), rods, "metric")[1] == bush


@pytest.mark.parametrize("bore", [25.3, 26.0, 27.9])
def test_a_bore_too_loose_and_too_tight_for_a_bush_says_how_far_to_bore_it(bore: float) -> None:
    holes = [plain_hole(100 + x, 50.0, bore, "bores", purpose="guide rod") for x in (-75, 75)]
    rods = GuidePlaces(out=75.0, diameter=25.0)
    # 25 mm and a wall of 1.5 mm on each side.
    with pytest.raises(InputError, match="bore them to 28 mm or more for a bush"):
        with_rods(plate_with(*holes), rods, "metric")


@pytest.mark.parametrize(
    ("least", "gap"), [(0.0, 64.0), (64.0, 64.0), (64.1, 104.0), (104.0, 104.0), (104.1, None)]
)
def test_carriers_go_over_the_nearest_holes_that_leave_the_bars_room(
    least: float, gap: float | None
) -> None:
    # Columns of two holes 80 and 120 mm apart: carriers of 16 mm over them stand 64 and 104 mm
    # apart.  One hole alone takes no carrier, and threads 160 mm apart are another die's.
    kept = KeptPlate(
        length=300.0, width=120.0, thickness=20.0,
        holes=(
            *(KeptHole(along=side * out, across=y, diameter=13.5)
              for side in (-1, 1) for out in (40.0, 60.0) for y in (-30.0, 30.0)),
            *(KeptHole(along=side * 80.0, across=y, diameter=10.2, thread="M12")
              for side in (-1, 1) for y in (-30.0, 30.0)),
            *(KeptHole(along=side * 100.0, across=0.0, diameter=13.5) for side in (-1, 1)),
        ),
    )  # fmt: skip
    assert followed_span(kept, 16.0, least) == (None if gap is None else pytest.approx(gap))


@pytest.mark.parametrize(("narrow", "wide", "to"), [(25.0, 26.0, 28), (25.1, 30.0, 30)])
@pytest.mark.parametrize("narrow_first", [True, False])
def test_two_bores_of_which_one_is_loose_are_bored_alike(
    narrow: float, wide: float, to: int, narrow_first: bool
) -> None:
    sizes = (narrow, wide) if narrow_first else (wide, narrow)
    holes = [
        plain_hole(100 + x, 50.0, bore, "bores", purpose="guide rod")
        for x, bore in zip((-75, 75), sizes, strict=True)
    ]
    rods = GuidePlaces(out=75.0, diameter=25.0)
    with pytest.raises(InputError, match=rf"are loose in the wider.*bore both to {to} mm"):
        with_rods(plate_with(*holes), rods, "metric")


def test_the_narrower_bore_is_the_one_that_a_rod_has_to_pass() -> None:
    holes = [
        plain_hole(100 + x, 50.0, bore, "bores", purpose="guide rod")
        for x, bore in ((-75, 25.1), (75, 24.9))
    ]
    with pytest.raises(InputError, match=r"do not pass the bores of 24\.9 mm"):
        with_rods(plate_with(*holes), GuidePlaces(out=75.0, diameter=25.0), "metric")
    both = [*holes[:1], plain_hole(175.0, 50.0, 25.2, "bores", purpose="guide rod")]
    assert with_rods(plate_with(*both), GuidePlaces(out=75.0, diameter=25.0), "metric")[1] == 0.0


@pytest.mark.parametrize(
    ("beside", "above", "taken"),
    [(0.0, 0.0, True), (0.9, 0.0, True), (0.0, 0.9, True), (1.0, 1.0, True),
     (1.1, 0.0, False), (0.0, 1.1, False), (-1.1, 0.0, False)],
)  # fmt: skip
def test_a_bolt_of_the_ram_takes_the_hole_that_is_within_a_millimetre_of_it(
    beside: float, above: float, taken: bool
) -> None:
    wanted = bolt_hole(50.0, 30.0, "M12", "normal", "push plate", purpose="bolt of the ram")
    there = plain_hole(50.0 + beside, 30.0 + above, 13.5, "holes", purpose="bolt of the ram")
    if taken:
        (only,) = check_ram(plate_with(there), None, [wanted], "metric").holes
        assert (only.x, only.y, only.diameter) == (50.0 + beside, 30.0 + above, 13.5)
        return
    # A new hole beside it runs into it.
    with pytest.raises(InputError, match="runs into"):
        check_ram(plate_with(there), None, [wanted], "metric")


@pytest.mark.parametrize(("hole", "passes"), [(12.9, False), (13.1, True)])
def test_a_hole_of_the_ram_may_be_as_close_as_a_fine_one(hole: float, passes: bool) -> None:
    # ISO 273 for M12: fine 13 mm, medium 13.5 (from memory).
    wanted = bolt_hole(50.0, 30.0, "M12", "normal", "push plate", purpose="bolt of the ram")
    there = plain_hole(50.0, 30.0, hole, "holes", purpose="bolt of the ram")
    if passes:
        assert len(check_ram(plate_with(there), None, [wanted], "metric").holes) == 1
        return
    with pytest.raises(InputError, match="does not pass a bolt"):
        check_ram(plate_with(there), None, [wanted], "metric")

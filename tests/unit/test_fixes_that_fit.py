"""What is proposed for a weak member has room on the tooling that is stated."""

from __future__ import annotations

from typing import Any

import pytest
from attrs import evolve

from hand_bench import INCH, bench
from strapwright.quantities import Units
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Coupling,
    DieBody,
    Guides,
    Holds,
    Members,
    NoseMember,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.tooling import Nose, Shoulders
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fix_fits import fits
from strapwright.strength.fixing.fix_sizes import Sizes
from strapwright.strength.fixing.fixes import fixes_of
from strapwright.strength.member_checks import check_members
from strapwright.wording.fix_words import fix_order

# A bar of 2-1/2 in, its bulge of 0.21/4 in, carriers of 3/4 in: 3.3025 in between their middles.
STATED = Members(
    nose=NoseMember(material="4140", between=3.4 * INCH),
    carriers=Carriers(
        material="A36", thickness=0.75 * INCH, width=3 * INCH, height=3 * INCH, pin=INCH,
        cheek=0.5 * INCH,
    ),
    push_plate=PushPlate(material="A36", thickness=INCH, width=4 * INCH),
    body=DieBody(
        material="A36", cheek=INCH, floor=INCH, length=3 * INCH, height=1.5 * INCH, tall=2 * INCH
    ),
    guides=Guides(diameter=INCH, length=6 * INCH, bush=3 * INCH),
    coupling=Coupling(kind="pinned", pin=0.75 * INCH),
    weld=(
        Weld(holds="cheeks", size=8.0, length=5 * INCH, thinner=12.0, spacing=INCH),
        Weld(holds="carriers", size=8.0, length=7 * INCH),
        Weld(holds="push plate", size=8.0, length=7 * INCH, thinner=12.0),
    ),
    bolt=(
        Bolt(holds="cheeks", size="1/2-13", count=2, spacing=3 * INCH),
        Bolt(holds="push plate", size="1/2-13", count=4, circle=2.5 * INCH),
        Bolt(holds="carriers", size="1/2-13", count=1),
        Bolt(holds="side plates", size="1/2-13", count=2, spacing=INCH),
    ),
)  # fmt: skip


def changed(table: str, number: int | None, **sizes: Any) -> Bench:
    one: Any = getattr(STATED, table)
    if number is None:
        return bench(evolve(STATED, **{table: evolve(one, **sizes)}))
    several = list(one)
    several[number] = evolve(several[number], **sizes)
    changes: dict[str, Any] = {table: tuple(several)}
    return bench(evolve(STATED, **changes))


@pytest.mark.parametrize(
    ("table", "number", "key", "last", "past"),
    [
        # 3.4 - 2.5 - 0.0525 = 0.8475 in of carrier.
        ("carriers", None, "thickness", 0.84 * INCH, 0.86 * INCH),
        ("carriers", None, "pin", 1.49 * INCH, 1.51 * INCH),
        ("guides", None, "bush", 6 * INCH, 6.1 * INCH),
        # Half of a piston rod of 2 in.
        ("coupling", None, "pin", 0.99 * INCH, 1.01 * INCH),
        # Both long sides of a cheek of 3 in; a leg no thicker than the thinner part.
        ("weld", 0, "length", 6 * INCH, 6.1 * INCH),
        ("weld", 0, "size", 12.0, 12.1),
        # All round a foot of 3 by 3/4 in; the thinner part is not stated.
        ("weld", 1, "length", 7.5 * INCH, 7.6 * INCH),
        ("weld", 1, "size", 8.0, 8.1),
        # Where on the ram it could go on is not stated.
        ("weld", 2, "length", 7 * INCH, 7.1 * INCH),
        # Two rows of 3 in: two bolts of 1/2 in 1-1/2 in apart in each.
        ("bolt", 0, "count", 4, 6),
        # pi 2.5/1.5 = 5.2.
        ("bolt", 1, "count", 5, 6),
        # One row over 3 in of carrier; no more than one over the end of a cheek of 1 in.
        ("bolt", 2, "count", 2, 3),
    ],
)
def test_what_has_no_room_is_not_proposed(
    table: str, number: int | None, key: str, last: float, past: float
) -> None:
    assert fits(bench(STATED), changed(table, number, **{key: last}))
    assert not fits(bench(STATED), changed(table, number, **{key: past}))


@pytest.mark.parametrize("holds", ["side plates", "carriers"])
def test_bolts_in_one_line_have_room_between_the_first_and_the_last(holds: Holds) -> None:
    # 3 in at 1-1/2 in from one to the next: three, however thick the cheek or wide the carrier.
    members = evolve(
        STATED,
        body=evolve(STATED.body, cheek=4 * INCH), carriers=evolve(STATED.carriers, width=6 * INCH),
        bolt=(Bolt(holds=holds, size="1/2-13", count=2, spacing=3 * INCH),),
    )  # fmt: skip

    def of(count: int) -> Bench:
        return bench(evolve(members, bolt=(evolve(members.bolt[0], count=count),)))

    assert fits(of(2), of(3))
    assert not fits(of(2), of(4))


def test_what_did_not_fit_before_stands_in_no_ones_way() -> None:
    tight = changed("guides", None, bush=7 * INCH)
    thick = evolve(STATED.push_plate, thickness=2 * INCH)
    assert tight.tooling.members is not None
    other = bench(evolve(tight.tooling.members, push_plate=thick))
    assert fits(tight, other)


def test_a_weld_that_would_run_past_its_cheek_is_not_proposed() -> None:
    """Of 5 in at 113 %: 1-1/4 times as long would hold, on a cheek of 3-1/2 in and not of 3."""
    weld = Weld(
        holds="cheeks", size=8.0, length=5 * INCH, thinner=8.0, spacing=INCH, height=1.5 * INCH,
        electrode=378.0,
    )  # fmt: skip
    for length, proposed in ((3.5, True), (3.0, False)):
        body = DieBody(material="4140", cheek=INCH, floor=INCH, length=length * INCH,
                       height=1.5 * INCH)  # fmt: skip
        fixes, _ = fixes_of(bench(Members(body=body, weld=(weld,))), "inch")
        assert any("as long" in fix_order(fix, "inch") for fix in fixes) is proposed


def test_every_change_proposed_fits() -> None:
    weak = bench(STATED)
    fixes, _ = fixes_of(weak, "inch")
    assert fixes
    for fix in fixes:
        assert fits(weak, evolve(weak, tooling=fix.tooling)), fix_order(fix, "inch")


def bought(units: Units) -> list[list[float]]:
    """Thicknesses and diameters that are taken as kept by suppliers, in the shop's unit."""
    sizes = Sizes(units, None)
    one = INCH if units == "inch" else 1.0
    return [[size / one for size, _ in way(0.0)] for way in (sizes.plates, sizes.shafts)]


def test_sizes_without_a_rack_are_those_that_are_rolled() -> None:
    # Whole millimetres, above 16 mm in fives; sixteenths, eighths from 1/2 in, quarters from
    # 1-1/4 in (common practice of stock lists).
    for sizes in bought("metric"):
        assert sizes == sorted(set(sizes))
        assert all(size % 1 == 0 for size in sizes)
        assert all(size % 5 == 0 for size in sizes if size > 16)
        assert {6, 8, 10, 12, 20, 25, 30, 40, 50} <= set(sizes)
    for sizes in bought("inch"):
        assert sizes == sorted(set(sizes))
        assert all(size * 16 == pytest.approx(round(size * 16)) for size in sizes)
        assert all(size * 8 == pytest.approx(round(size * 8)) for size in sizes if size > 0.4)
        assert all(size * 4 == pytest.approx(round(size * 4)) for size in sizes if size > 1.25)
        for usual in (0.25, 0.5, 0.75, 1.0, 1.5, 2.0):
            assert any(size == pytest.approx(usual) for size in sizes)


def test_the_next_size_is_above_what_is_stated() -> None:
    assert next(Sizes("metric", None).plates(10.0))[0] == 12.0
    assert next(Sizes("inch", None).shafts(0.75 * INCH))[0] / INCH == pytest.approx(0.875)


def test_what_tears_out_and_what_crushes_a_corner_is_mended() -> None:
    # Carriers of 1/4 in with 1/16 in under the nose are torn by 17 387 lbf; a seat of A36 under a
    # round of 1/8 in is crushed.
    members = Members(
        nose=NoseMember(material="4140", between=4 * INCH),
        carriers=Carriers(material="A36", thickness=0.25 * INCH, width=3.5 * INCH, below=INCH / 16),
        shoulders=ShoulderMember(kind="block", material="1045", seat_material="A36"),
        push_plate=PushPlate(material="A36", thickness=2 * INCH, width=5 * INCH),
    )
    one = bench(
        members, retract=17_387.0, nose=Nose(radius=0.875 * INCH, reach=4 * INCH),
        shoulders=Shoulders(radius=0.2 * INCH, opening=4 * INCH),
    )  # fmt: skip
    weak = {(each.member, each.what) for each in check_members(one)[0] if not each.holds}
    assert ("carriers", "tearing out under the nose") in weak
    assert ("shoulders", "corner of the seat") in weak
    fixes, _ = fixes_of(one, "inch")
    after = {each.member: each for each in fixes}
    assert after["carriers"].ratio <= 1.0
    assert after["shoulders"].ratio <= 1.0

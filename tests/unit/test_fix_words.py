"""Every fix that may be offered has its words, and a key of its own that no wording changes."""

from __future__ import annotations

from typing import get_args

import pytest

from strapwright.quantities import Units
from strapwright.quantities.inside_units import INCH_MM
from strapwright.shop.member_names import MemberName
from strapwright.shop.members import (
    Bolt,
    Carriers,
    Coupling,
    DieBody,
    Guides,
    Members,
    NoseMember,
    PistonRod,
    PushPlate,
    ShoulderMember,
    Weld,
)
from strapwright.shop.rack import Rack, Stock
from strapwright.shop.tooling import Nose, Shoulders, Tooling
from strapwright.strength.check_values import Bench
from strapwright.strength.fixing.fix_options import options, thicker_noses
from strapwright.strength.fixing.fix_sizes import Sizes
from strapwright.strength.fixing.fix_values import Fix, KeyChange
from strapwright.wording.fix_words import fix_order

MEMBERS = Members(
    nose=NoseMember(material="A36", between=90.0),
    carriers=Carriers(material="A36", thickness=12.0, width=50.0, height=60.0, pin=10.0),
    push_plate=PushPlate(material="A36", thickness=12.0, width=80.0),
    shoulders=ShoulderMember(material="A36", seat_material="A36", backed=False, between=90.0),
    body=DieBody(material="A36", cheek=12.0, floor=12.0, length=80.0, height=40.0),
    guides=Guides(material="A36", diameter=20.0, length=100.0, bush=40.0, spacing=200.0),
    coupling=Coupling(kind="pinned", pin=12.0),
    rod=PistonRod(material="A36", free_length=200.0),
    weld=(
        Weld(holds="carriers", size=5.0, length=80.0),
        Weld(holds="cheeks", size=5.0, length=9.0),
    ),
    bolt=(Bolt(holds="cheeks", size="M8", grade="8.8", count=2),),
)
BENCH = Bench(
    tooling=Tooling(
        nose=Nose(radius=10.0), shoulders=Shoulders(radius=10.0, opening=70.0), members=MEMBERS
    ),
    press=None,
    thickness=6.0,
    width=40.0,
    widest=40.0,
    pushes=(),
    retract=None,
)
RACK = Rack(
    stock=tuple(
        Stock(name=name, kind=kind, thickness=size, width=90.0, length=900.0, count=1,
              material="1018 cold drawn", price=0.0, origin="rack")
        for name, kind, size in (("shaft; 1", "shaft", 25.4), ("</plate>", "plate", 63.5))
    )
)  # fmt: skip


def offered(units: Units, rack: Rack | None) -> list[Fix]:
    sizes = Sizes(units, rack)
    found: list[tuple[MemberName, KeyChange]] = [
        (member, change)
        for member in get_args(MemberName)
        for change, _ in options(BENCH, MEMBERS, member, sizes)
    ]
    found += [("nose", change) for change, _ in thicker_noses(BENCH.tooling, sizes)]
    return [
        Fix(member=member, changes=(change,), tooling=BENCH.tooling, ratio=1.0)
        for member, change in found
    ]


@pytest.mark.parametrize("units", ["inch", "metric"])
@pytest.mark.parametrize("rack", [None, RACK])
def test_every_change_that_is_tried_has_words_and_a_key(units: Units, rack: Rack | None) -> None:
    fixes = offered(units, rack)
    tables = {(one.changes[0].table, one.changes[0].names) for one in fixes}
    assert len(tables) == 23
    assert all(fix_order(one, units)[0].isupper() for one in fixes)
    assert len({one.key for one in fixes}) == len(fixes)


def test_several_changes_are_one_order() -> None:
    first, second = (
        next(one.changes[0] for one in offered("inch", RACK) if one.changes[0].names == names)
        for names in (("radius",), ("cheek", "floor"))
    )
    fix = Fix(member="nose", changes=(first, second), tooling=BENCH.tooling, ratio=0.9)
    assert fix_order(fix, "inch") == (
        "Make the nose 1.00 in (shaft; 1), now 0.787 in; the inside radius is then 0.500 in; make "
        "the die body's cheek and floor 2.50 in (</plate>), now 0.472 in, 0.472 in"
    )


def test_a_key_holds_the_size_itself_and_not_how_it_is_printed() -> None:
    def pin(size: float) -> str:
        shaft = RACK.stock[0]
        thick = Stock(name=shaft.name, kind="shaft", thickness=size, width=size, length=900.0,
                      count=1, material=shaft.material, price=0.0, origin="rack")  # fmt: skip
        fixes = offered("inch", Rack(stock=(thick,)))
        (one,) = (fix for fix in fixes if fix.member == "coupling pin")
        return one.key

    # Both print as 1.00 in.
    assert pin(INCH_MM) != pin(INCH_MM + 0.01)
